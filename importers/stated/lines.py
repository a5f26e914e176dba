"""What the lines around a table state: shock, pack, clicks, temperature, gas, date, rate."""

from __future__ import annotations

import json
import re
from collections.abc import Iterable, Sequence
from dataclasses import replace
from functools import lru_cache

from importers.header import uncomment
from importers.stated.facts import StatedFacts, merged
from importers.stated.gas_removed import gas_removed
from importers.stated.one_knob import clicks_alone, clicks_of_one_knob
from importers.stated.pairs import StatedPair, pairs, unframed
from importers.stated.quantities import quantity, rate_in_words, rate_of, rate_of_interval, stroke_in_words, units_in
from importers.stated.scales import stated_scales
from importers.stated.sections import corner_in, with_sections_named
from importers.stated.setting_rows import clicks_in_rows
from importers.words import keys
from importers.words.adjusters import CLICKS_ALONE, adjuster_of
from importers.words.channels import TABLE_WORDS
from importers.words.clicks import all_clicks, clicks_of, doubted_clicks, is_relative, turns_of
from importers.words.dates import date_of, lone_day, swappable_date, without_dates
from importers.words.shock_names import SIDES, shock_in
from importers.words.spelling import plain, word_set
from importers.words.unit_text import is_unit

_FROM_SOFT = re.compile(
    r"\b(?:from|ab|depuis|desde|da)\s+(?:full\s+|fully\s+|voll\s+)?"
    r"(?:soft|open|weich|offen|souple|ouvert|blando|abierto|morbido|aperto)"
)
#: what says that a channel's numbers are not yet what they mean
_FACTOR = re.compile(
    r"\b(?:force|load|position|displacement|travel|velocity|speed|kraft|weg|values?|readings?|channel|data)\b.{0,40}"
    r"\b(?:multipl\w+|multipliz\w+|divided?|times|scaled?)\b.{0,12}?\d"
)
_FROM_SOFT_WARNING = "the file counts clicks from soft; the shock's file must say so too"
_IN_BRACKETS = re.compile(r"[\[({].*?[\])}]")
_TESTED = re.compile(
    r"(?:tested|measured|recorded|run|gepruft|gemessen|teste|mesure|probado|medido|testato|misurato)\b"
)
_NUMBER = re.compile(r"[-+\d.,']+")
#: keys that call a pack so
_PACKS = frozenset(("pack", "valve pack", "paket", "ventilpaket", "paquete", "pacco", "valvepack"))
_CLICKS_OF = re.compile(rf"\b{CLICKS_ALONE}\b")
#: what a test is filed under, which may look like clicks: "Test no. C12-R5"
_TEST_NUMBER = re.compile(
    r"(?i)\b(?:test|run|job|order|report|file|versuch|lauf|essai|ensayo|prova)\s*(?:no\b|nr\b|number|id\b|#|n°)\.?\s*[:=]?\s*\S+"
)
#: what follows "Shock" in a title and is no shock's name
_OF_TITLE = word_set(
    "dyno, test, tests, data, report, run, sheet, log, record, results, result, file, curve, curves, forces, bench,"
    " rig, absorber, dynamometer, testing, table, measurement, measurements, summary"
)
#: a day has a number of four digits, or three numbers
_DIGITS_OF_DAY = re.compile(r"\d{4}|\d\D+\d+\D+\d")
_DAY_LINES = 40  #: how many of them a day is looked for in
_LONGEST_DAY = 60  #: as people write it, with its time [characters]
_CELLS = re.compile(r"[;\t|]|\s{2,}|\s[-–—]{1,2}\s")
_USUAL_LINE = 300  #: longer lines are not kept in mind [characters]
#: what says that a key's value is a number: "Dämpfer-Nr."
_NUMBERED = re.compile(r"[\s.]+(?:no|nr|num|n°|id|number|nummer|numero|ref)\.?$")
_NO_SERIAL = re.compile(r"(?:[^\W\d]+\s+)*\d+([.,]\d+)?\s*(?:N|mm|cm|in|lbf?|kg|bar|psi)")


def facts_of_lines(lines: Iterable[str], decimal: str = ".") -> StatedFacts:
    """Return what lines of text state; the first to state a thing wins.

    Parameters
    ----------
    lines
        As they stood.
    decimal
        The decimal mark of the table: with a comma, "1.250" is one thousand and more.
    """
    all_lines = with_sections_named([said for line in lines for said in (_of_json(line) or [line])])
    rows = StatedFacts(clicks=clicks_in_rows(all_lines))
    days = _lone_days(all_lines)
    parts = [part for line in all_lines for part in _of_any_line(line.strip(), decimal)]
    return _without_contradicted(merged([_packed(all_lines), *parts, rows, days, corner_in(all_lines)]), parts)


def _of_json(line: str) -> list[str]:
    """Return a line that is one JSON object as a line a key; nothing where it is none."""
    bare = uncomment(line).strip()
    if not (bare.startswith("{") and bare.endswith("}") and len(line) <= _USUAL_LINE * 4):
        return []
    try:
        found = json.loads(bare)
    except (ValueError, RecursionError):
        return []
    flat = {k: v for k, v in found.items() if not isinstance(v, dict)}
    for inner in (v for v in found.values() if isinstance(v, dict)):
        flat |= inner
    return [f"{key}: {value}" for key, value in flat.items() if isinstance(value, (str, int, float))]


def _without_contradicted(facts: StatedFacts, parts: Sequence[StatedFacts]) -> StatedFacts:
    """Return facts without the clicks that lines contradict one another about, and a warning of each."""
    numbers = {k: sorted({p.clicks[k] for p in parts if k in p.clicks}) for k in facts.clicks}
    apart = {k: found for k, found in numbers.items() if len(found) > 1}
    said = tuple(
        f"the file says both {' and '.join(f'{k}={n}' for n in found)}: none was taken; state it"
        for k, found in apart.items()
    )
    clicks = {k: n for k, n in facts.clicks.items() if k not in apart}
    return replace(facts, clicks=clicks, warnings=(*facts.warnings, *said)) if apart else facts


@lru_cache(maxsize=2048)
def _known_day(cell: str) -> str | None:
    return lone_day(cell) if len(cell) <= _LONGEST_DAY else None


def _packed(lines: Sequence[str]) -> StatedFacts:
    """Return the pack that a line calls so; what another says of its valving is less."""
    if not any("pa" in line.lower() for line in lines):
        return StatedFacts()
    found = [
        p.value for line in lines if len(line) <= _USUAL_LINE for p in pairs(line.strip()) if plain(p.key) in _PACKS
    ]
    return StatedFacts(pack=next(filter(None, found), None))


def _lone_days(lines: Sequence[str]) -> StatedFacts:
    """Return the day that stands in a line alone, or in a cell of the first line, a title; behind a word for date."""
    found = []
    for at, line in enumerate(lines[:_DAY_LINES]):
        if _DIGITS_OF_DAY.search(line[:_USUAL_LINE]) is None:
            continue
        bare = uncomment(line).strip().strip('"')
        cells = [c.strip() for c in _CELLS.split(bare)] if len(line) <= _USUAL_LINE else []
        alone = len([c for c in cells if c]) <= 1 or at == 0
        worded = [c for c in cells if alone or {*plain(c).split()[:1]} & keys.DATE]
        found += [day for c in (bare, *worded) if _DIGITS_OF_DAY.search(c[:_LONGEST_DAY]) and (day := _known_day(c))]
    return _of_date(found[0]) if found else StatedFacts()


def _of_any_line(line: str, decimal: str) -> Sequence[StatedFacts]:
    return _of_known_line(line, decimal) if len(line) <= _USUAL_LINE else _of_line(line, decimal)


@lru_cache(maxsize=2048)
def _of_known_line(line: str, decimal: str) -> Sequence[StatedFacts]:
    """Return what one line states; the files of a rig state much the same."""
    return _of_line(line, decimal)


def _of_line(line: str, decimal: str) -> Sequence[StatedFacts]:
    """Return what one line states, as a whole and pair by pair."""
    found = pairs(line)
    bare = plain(line)
    clicked = _TEST_NUMBER.sub(" ", without_dates(_without_serial(line, found)))
    title = uncomment(unframed(line)).strip().strip('"')
    whole = StatedFacts(
        shock=title if title.isupper() and shock_in(title) == title else None,
        lines=dict(found) if found else ({line: ""} if line else {}),
        clicks=clicks_of(clicked),
        units=units_in(line, found),
        gas_removed=gas_removed(bare),
        rate=rate_in_words(line, decimal),
        stroke=None if any(plain(p.key) in keys.STROKE for p in found) else stroke_in_words(line, decimal),
        doubted=tuple(doubted_clicks(clicked)),
        warnings=(
            *((_FROM_SOFT_WARNING,) if _FROM_SOFT.search(bare) else ()),
            *((f"'{line[:60]}' speaks of a factor: it was not applied",) * _states_factor(line, bare)),
            *((f"'{line[:60]}' gives clicks against another setting: not taken; state them",) * is_relative(line)),
            *(f"'{said}' are turns and no clicks: not taken" for said in turns_of(line)),
        ),
    )
    dated = _of_date(line) if _TESTED.match(bare) else StatedFacts()
    return [whole, *(_of_pair(pair, decimal) for pair in found), dated, clicks_alone(line)]


def _states_factor(line: str, bare: str) -> bool:
    """Whether a line speaks of a factor that no column's scale is: what a count or volt is worth is seen to later."""
    return _FACTOR.search(bare) is not None and not any(stated_scales((line,)))


def _without_serial(line: str, found: Sequence[StatedPair]) -> str:
    """Return a line without a shock's serial in it: "C12R08-3" states no clicks."""
    serials = (p.value for p in found if plain(p.key) in TABLE_WORDS["shock"] and re.fullmatch(r"\S+-\S+", p.value))
    return next((line.replace(serial, " ") for serial in serials), line)


def _of_pair(pair: StatedPair, decimal: str) -> StatedFacts:
    key, value = plain(_IN_BRACKETS.sub("", pair.key)).strip(" ."), pair.value
    in_key = _IN_BRACKETS.search(pair.key)
    if in_key and _NUMBER.fullmatch(value):
        value = f"{value} {in_key[0][1:-1]}"
    if not value:
        return StatedFacts()
    if (one_knob := clicks_of_one_knob(pair, key)) is not None:
        return one_knob
    if re.fullmatch(r"[-−]\s*\d{1,2}(?:\s+\w+)?", value) and adjuster_of(key) is not None:
        said = f"'{pair.key}: {pair.value}' is less than no clicks: not taken; state them"
        return StatedFacts(warnings=(said,))
    if _names_shock(key) and not is_unit(value) and plain(value) not in _OF_TITLE and not _NO_SERIAL.fullmatch(value):
        return StatedFacts(shock=value)
    if _unread_clicks(key, value):
        said = f"'{pair.key}: {pair.value}' are clicks of an adjuster that is not known here: not taken; state them"
        return StatedFacts(warnings=(said,))
    if key in TABLE_WORDS["pack"] and adjuster_of(key) is None:
        return StatedFacts(pack=value)
    return _of_quantity(key, value, decimal)


def _names_shock(key: str) -> bool:
    """Whether a key calls a shock so, alone or with its place in the car: "Amortisseur arrière"."""
    if key in TABLE_WORDS["shock"]:
        return True
    words = _NUMBERED.sub("", key.replace("-", " ")).split()
    return 1 <= len(words) <= 3 and " ".join(w for w in words if w not in SIDES) in TABLE_WORDS["shock"]


def _unread_clicks(key: str, value: str) -> bool:
    """Whether a number is said to be clicks, and of which adjuster is not known; how many there are is none's."""
    if all_clicks(f"{key}: {value}") or clicks_of(f"{key}: {value}") or turns_of(f"{key}: {value}"):
        return False
    worded = re.fullmatch(r"[-+]?\d{1,2}(?P<word>\s+\w+)?(?:\s+\w+){0,3}", value)
    in_value = (
        worded is not None and worded["word"] is not None and _CLICKS_OF.search(plain(worded["word"])) is not None
    )
    return in_value or (_CLICKS_OF.search(key) is not None and re.fullmatch(r"\d{1,2}", value) is not None)


def _of_quantity(key: str, value: str, decimal: str) -> StatedFacts:
    if key in keys.DATE:
        return _of_date(value, key)
    if key in keys.TEMPERATURE:
        return StatedFacts(
            temperature=quantity(value, "temperature", decimal), warnings=_without_unit(key, value, "°C or °F")
        )
    if key in keys.GAS:
        return StatedFacts(
            gas_pressure=quantity(value, "pressure", decimal), warnings=_without_unit(key, value, "bar or psi")
        )
    if key in keys.STROKE:
        return StatedFacts(stroke=quantity(value, "length", decimal))
    if key in keys.AMPLITUDE and (radius := quantity(value.lstrip("±+-/− "), "length", decimal)) is not None:
        return StatedFacts(stroke=2 * radius)
    if key in keys.ROD:
        return StatedFacts(rod=quantity(value, "length", decimal))
    if key in keys.RATE:
        return StatedFacts(rate=rate_of(value, decimal))
    if key in keys.INTERVAL:
        return StatedFacts(rate=rate_of_interval(value, decimal))
    return StatedFacts()


def _without_unit(key: str, value: str, units: str) -> tuple[str, ...]:
    """Return a warning where a fact is a number alone."""
    bare = _NUMBER.fullmatch(value) is not None and any(c.isdigit() for c in value)
    return (f"'{key}: {value}' has no unit ({units}) and was not taken",) if bare else ()


def _of_date(value: str, key: str = "") -> StatedFacts:
    day, found = swappable_date(value), date_of(value)
    unread = day is None and found is None and "dat" in key and any(c.isdigit() for c in value)
    said = f"'{key}: {value}' is no date that is known here: none was taken"
    return StatedFacts(date=found, swappable=day, warnings=(said,) if unread else ())
