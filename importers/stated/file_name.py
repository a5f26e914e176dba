"""What a file's name states."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import replace
from pathlib import PurePath

from importers.patterns import regex
from importers.stated.counted_out import counted_by_none
from importers.stated.facts import StatedFacts
from importers.stated.names_beside_clicks import before_at, code_before_clicks, facts_behind_at
from importers.stated.one_knob import clicks_alone
from importers.stated.quantities import quantity
from importers.stated.within import warmth_beside_clicks
from importers.words.adjusters import CLICKS_ALONE, adjuster_of
from importers.words.clicks import clicks_of, doubted_clicks
from importers.words.dates import date_of, without_dates
from importers.words.directions import direction_of
from importers.words.keys import STOP
from importers.words.odd_clicks import clicks_of_no_knob
from importers.words.parted_clicks import parted_clicks
from importers.words.shock_names import corner_alone, place_within, shock_in
from importers.words.spelling import plain, word_set
from importers.words.turns import turns_of, turns_said

#: "C4", no word for clicks behind it
_SHORT = regex(rf"(?<![A-Za-z0-9])[CcRr]\d{{1,2}}(?![A-Za-z0-9])(?![\s_.-]*{CLICKS_ALONE})")
#: beside these a word for a direction says which knob was turned, or which sign, and not of which the forces are
_OF_ANOTHER_MATTER = word_set(
    "adjuster, adjusters, knob, clicks, click, klicks, clics, scatti, positive, positiv, positif, positivo, negative,"
    " negativ, plus, minus, and, und, et, y, e, both, shim, shims, stack, piston, valve, open, closed, adj, sign"
)
_CLICKED = regex(CLICKS_ALONE)
_SHEET = regex(r"(?P<file>.+), sheet '(?P<title>.*)'")


def facts_of_name(name: str) -> StatedFacts:
    """Return what a file's name states: clicks, a shock such as FL-03, and the pack where one word is left over.

    The title of a workbook's sheet wins over the workbook's name.
    """
    sheet = _SHEET.fullmatch(name)
    if sheet is None:
        return _facts_of_stem(PurePath(name).stem)
    stem, title = PurePath(sheet["file"]).stem, sheet["title"]
    facts = _facts_of_stem(title).over(_facts_of_stem(stem))
    asked = clicks_alone(title).warnings if "-" in title or "/" in title else ()
    facts = replace(facts, warnings=(*facts.warnings, *asked)) if asked and not facts.clicks else facts
    return replace(facts, pack=facts.pack or _left_over(f"{stem} {title}", facts.shock, facts.clicks))


def direction_of_name(name: str) -> str | None:
    """Return the one direction that a file's or a sheet's name says it is of; None where it says more of it.

    >>> direction_of_name("FR-77 rebound.csv"), direction_of_name("a.xlsx, sheet 'Druckstufe'")
    ('rebound', 'compression')
    >>> direction_of_name("FR-77 rebound 4.csv"), direction_of_name("rebound adjuster.csv"), direction_of_name("c.csv")
    (None, None, None)
    """
    sheet = _SHEET.fullmatch(name)
    stems = (sheet["title"], PurePath(sheet["file"]).stem) if sheet else (PurePath(name).stem,)
    return next(filter(None, map(_way_of_stem, stems)), None)


def _way_of_stem(stem: str) -> str | None:
    words = [plain(word) for word in re.split(r"[\s_.,-]+", stem) if word]
    ways = {way: at for at, word in enumerate(words) if len(word) > 2 and (way := direction_of(word))}
    if len(ways) != 1 or {*words} & _OF_ANOTHER_MATTER:
        return None
    ((way, at),) = ways.items()
    clicks = any(word.isdigit() and len(word) <= 2 for word in words[at + 1 : at + 2])  # "rebound 4"
    return None if clicks else way


def _facts_of_stem(stem: str) -> StatedFacts:
    undated = without_dates(re.sub(r"\d{4}-?\d{2}-?\d{2}", " ", stem))
    called, twice = _like_clicks(undated)
    rest = re.sub(rf"(?<![A-Za-z0-9]){called}(?![A-Za-z0-9])", " ", undated)
    lone = _lone(rest)
    clicks = {} if twice or lone else clicks_of(rest)
    key = re.search(r"(?i)(?:^|[_\s.-])pack(?:[=_-]\s?|(?=(?-i:[A-Z])))([A-Za-z]\w*?)(?=$|[_\s.,-])", stem)
    coded, behind, warm = code_before_clicks(stem.replace("_", " ")), facts_behind_at(stem), _warmth(rest)
    named = shock_in(stem) or called or coded.shock
    pack = key[1] if key and key[1].lower() not in STOP else _left_over(stem, named, clicks)
    shock = named or _corner(before_at(stem))
    placed = shock is not None or any(map(corner_alone, re.split(r"[\s_.,-]+", stem)))
    doubtful = placed or lone
    maybe = () if clicks or twice or not doubtful else _maybe_clicks(rest.replace(shock, " ") if shock else rest)
    maybe = maybe if clicks else (*maybe, *(behind.warnings or _of_no_knob(undated)))
    named_so = coded.warnings if coded.shock and coded.shock == shock else ()
    return StatedFacts(
        shock=shock, pack=pack, clicks=clicks, doubted=(*twice, *doubted_clicks(undated)), date=_day(stem),
        gas_pressure=_pressure(stem), temperature=_temperature(stem) or behind.temperature or warm.temperature,
        warnings=(*maybe, *named_so, *warm.warnings, *_parted(undated)),
    )  # fmt: skip


def _parted(undated: str) -> tuple[str, ...]:
    found = parted_clicks(undated.replace("_", " "))
    return tuple(f"'{said}' in the file's name is no whole number of clicks: not taken; state it" for said in found)


def _corner(stem: str) -> str | None:
    """Return the one corner of the car that stands in a name as a word of its own: "FL 200psi C4", "rear left 3"."""
    words = re.split(r"[\s_.,-]+", stem)
    found = {w for w in words if corner_alone(w) and w.isupper()}
    return found.pop() if len(found) == 1 else None if found else place_within(words)


def _pressure(stem: str) -> float | None:
    """Return the one gas pressure in a name: "FL 200psi C4". [Pa]"""
    found = re.findall(r"(?i)(?<![\w.])(\d{1,3}(?:\.\d+)?)\s?(psi|bar)(?![a-z0-9])", stem.replace("_", " "))
    return quantity(" ".join(found[0]), "pressure", ".") if len(found) == 1 else None


def _temperature(stem: str) -> float | None:
    """Return the one temperature in a name: "FL 35degC". [°C]"""
    bare = stem.replace("_", " ")
    found = re.findall(r"(?<![\w.])(\d{1,3}(?:\.\d+)?)\s?(?:°|deg)\s?([CF])(?![A-Za-z0-9])", bare)
    # No adjuster has so many clicks that "35C" were one of compression.
    if not found and not re.search(r"\d\s?[Rr](?![A-Za-z0-9])", bare):
        found = re.findall(r"(?<![\w.])([3-9]\d|1[0-4]\d)([CF])(?![A-Za-z0-9])", bare)
    return quantity(f"{found[0][0]} °{found[0][1]}", "temperature", ".") if len(found) == 1 else None


def _warmth(rest: str) -> StatedFacts:
    """Return what "reb 12, 20C" states beside its clicks in a name, with the question whether it is a temperature."""
    return warmth_beside_clicks(rest.replace("_", " "), ".")


def _lone(rest: str) -> bool:
    """Return whether a name holds one "C4", no word for clicks behind it, and no other adjuster: it may be a run."""
    clicks, short = clicks_of(rest), _SHORT.findall(rest)
    own = {f"{key}{number}" for key, number in clicks.items()}
    return len(short) == 1 and own == {f"{short[0][0].lower()}{int(short[0][1:])}"}


def _maybe_clicks(rest: str) -> tuple[str, ...]:
    """Return a warning of a lone "C4" beside a shock's name, which may be clicks and may be the fourth of something."""
    found = re.findall(r"(?<![A-Za-z0-9])(?:[CcRr]\d{1,2}|\d{1,2}[Rr])(?![A-Za-z0-9])", rest)
    return (f"'{found[0]}' in the file's name may be clicks: not taken; state them",) if len(found) == 1 else ()


def _of_no_knob(undated: str) -> tuple[str, ...]:
    """Return the warnings of turns, and of clicks of a knob that is not named, in a name without its day."""
    spaced = undated.replace("_", " ")
    if turns := turns_of(spaced):
        return tuple(map(turns_said, turns))
    if asked := counted_by_none(spaced):
        return (asked,)
    clicks = clicks_of_no_knob(spaced)
    return (f"'{clicks}' in the file's name does not say of which knob: not taken; state it",) if clicks else ()


def _like_clicks(stem: str) -> tuple[str | None, tuple[str, ...]]:
    """Return the shock that is called as clicks are written, and what else gives an adjuster two numbers.

    In "R1_gravel_c3_r12" a shock is called R1: its clicks of rebound stand behind, and a word between. In "R1_c3_r12"
    nobody can tell.
    """
    words = re.findall(r"[A-Za-z0-9]+", stem)
    short = [(n, m[1].lower(), m[2]) for n, word in enumerate(words) if (m := re.fullmatch(r"([CcRr])(\d{1,3})", word))]
    long = {word[2].lower() for word in words if re.fullmatch(r"(?i)[lh]s[cr]\d{1,3}", word)}
    for n, way, number in short:
        others = [other for at, same, other in short if same == way and at != n]
        if way in long or set(others) - {number}:
            apart = n + 1 < len(words) and not re.fullmatch(r"(?i)(?:[lh]s)?[cr]\d{1,3}", words[n + 1])
            if apart and n == short[0][0] and len(others) < 2:
                return words[n], ()
            return None, (" ".join(words[n : n + 1] + [f"{way}{other}" for other in others]),)
    return None, ()


def _day(stem: str) -> str | None:
    """Return the day a name states with the year first, as names are sorted by it, or with dots, the day first."""
    match = re.search(r"(?<!\d)\d{4}([-._]?)\d{2}\1\d{2}(?!\d)", stem)
    dotted = None if match else re.search(r"(?<![\d.])\d{2}\.\d{2}\.\d{4}(?![\d.])", stem)
    return date_of(match[0].replace("_", "-")) if match else date_of(dotted[0]) if dotted else None


def _left_over(stem: str, shock: str | None, clicks: Mapping[str, int]) -> str | None:
    """Return the one word of a name that is neither shock nor clicks nor a usual word."""
    if shock is None or not clicks:
        return None
    words = [w for w in re.split(r"[_\s,.=@]+|-", stem.replace(shock, " ")) if w]
    left = [w for w in words
            if re.fullmatch(r"[A-Za-z]{3,}", w) and w.lower() not in STOP
            and not (adjuster_of(w.lower()) or _CLICKED.fullmatch(plain(w)))]  # fmt: skip
    return left[0] if len(left) == 1 else None
