"""Names that stand right before clicks without a mark or a word for what they name: "A7 reb 8", "LR@8"."""

from __future__ import annotations

import re
from functools import lru_cache

from importers.header import uncomment
from importers.patterns import regex
from importers.stated.facts import NOTHING, StatedFacts
from importers.stated.one_knob import names_no_knob
from importers.stated.quantities import quantity
from importers.words.adjusters import CLICKS_ALONE, WAY, adjuster_of
from importers.words.channels import TABLE_WORDS
from importers.words.clicks import clicks_of
from importers.words.keys import KNOWN, STOP
from importers.words.shock_names import corner_alone, shock_in
from importers.words.spelling import plain, word_set
from importers.words.unit_text import is_unit

_CODED = regex(r"\W*(?P<code>(?P<letters>[A-Z]{1,3})\d{1,4}[A-Z]?)(?P<rest>[\s,;:_–-].*)")
#: letters that begin a pack's or a test's code as well as a shock's: pack, piston, test, valve, version, setup, number
_OF_ANYTHING = word_set("p, t, v, s, n, m, e, g, w, q, no, nr, pk, vp, tst")
#: letters of speeds and directions in one language or another, which state clicks
_OF_CLICKS = word_set("h, l, d, z, ds, zs, ls, hs, lc, hc, lr, hr")
_TITLE_WORDS = 4  #: of so many, the first alone is no name
_LONGEST = 80  #: longer lines are prose [characters]
#: what sets a name and its clicks, its speed or its warmth apart
_AT = regex(r"\s?@\s?(?=\d|[lh]s[cr]|(?:cr|c|r)[\s=]?\d|comp|reb|bump)", re.IGNORECASE)
#: a name and one number that may be clicks: "A7 R8", "Rear left 8 reb"
_LONE = regex(rf"(?P<name>[^\W_][^,;:\t|]{{0,20}}?)[\s,;:–-]+(?P<maybe>[CR]\d{{1,2}}|\d{{1,2}}\s?(?:[CR]|(?i:{WAY})))")
_NUMBERS = regex(
    rf"\d{{1,2}}(?:\s?[/-]\s?\d{{1,2}}){{0,3}}(?![\w.])(?:\s?{CLICKS_ALONE}(?!\w))?(?:[,;]|\s*$|\s+(?P<next>[^\W\d_]+(?!/)\b))"
)


@lru_cache(maxsize=2048)
def code_before_clicks(line: str) -> StatedFacts:
    """Return the code that a line begins with, clicks behind it, as the shock's name, which is said.

    One that may be a pack's or a test's as well is asked about.

    >>> found = code_before_clicks("A7 reb 8")
    >>> found.shock, found.warnings
    ('A7', ("'A7' before the clicks was taken as the shock's name: state it if it is another",))
    >>> code_before_clicks("P2 reb 8").warnings
    ("'P2' before the clicks may name a shock, a pack or a test: not taken; state it",)
    >>> code_before_clicks("C7 reb 8") == code_before_clicks("A7 gravel") == StatedFacts()
    True
    """
    found = _CODED.match(uncomment(line)) if len(line) <= _LONGEST else None
    if found is None:
        return NOTHING
    code, letters = found["code"], plain(found["letters"])
    if letters in _OF_CLICKS or letters in STOP or plain(code) in KNOWN or adjuster_of(letters) is not None:
        return NOTHING
    clicks = clicks_of(found["rest"])
    if not clicks or clicks != clicks_of(line) or is_unit(code):
        return NOTHING
    if letters in _OF_ANYTHING:
        said = f"'{code}' before the clicks may name a shock, a pack or a test: not taken; state it"
        return StatedFacts(warnings=(said,))
    said = f"'{code}' before the clicks was taken as the shock's name: state it if it is another"
    return StatedFacts(shock=code, warnings=(said,))


@lru_cache(maxsize=2048)
def titled_name(line: str) -> StatedFacts:
    """Return the shock whose name a title of two or three words begins with, no number behind it: "FL-03 gravel".

    >>> titled_name("FL-03 gravel").shock, titled_name("FL-03 12 bar").shock, titled_name("gravel FL-03").shock
    ('FL-03', None, None)
    """
    first, *others = uncomment(line).replace(",", " ").split()[:_TITLE_WORDS] or [""]
    words = 0 < len(others) < _TITLE_WORDS - 1 and all(word.isalpha() for word in others)
    return StatedFacts(shock=first) if words and shock_in(first) == first else NOTHING


@lru_cache(maxsize=2048)
def lone_clicks(line: str) -> StatedFacts:
    """Return the question that a title of a shock's name and one number asks: of clicks or of something else.

    >>> lone_clicks("FL-03 R8").warnings, lone_clicks("Rear left 8 reb").warnings
    (("'R8' may be clicks: not taken; state them",), ("'8 reb' may be clicks: not taken; state them",))
    >>> lone_clicks("Rear left 8 mm") == lone_clicks("Run R8") == StatedFacts()
    True
    """
    found = _LONE.fullmatch(uncomment(line).strip()) if len(line) <= _LONGEST else None
    if found is None or clicks_of(line):
        return NOTHING
    first, _, others = found["name"].strip().partition(" ")
    name = others if others and plain(first) in TABLE_WORDS["shock"] else found["name"].strip()
    code = _CODED.match(f"{name} ")
    named = shock_in(name) == name or corner_alone(name) is not None or (code and len(name) == len(code["code"]))
    warm = " or a temperature" * (found["maybe"][-1] == "C")
    said = f"'{found['maybe']}' may be clicks{warm}: not taken; state them"
    return StatedFacts(warnings=(said,)) if named else NOTHING


def before_at(value: str) -> str:
    """Return a name without what stands behind an @ in it, where that is clicks, a speed or a temperature.

    >>> before_at("LR@8"), before_at("RL-02 @ 250 mm/s"), before_at("a@b")
    ('LR', 'RL-02', 'a@b')
    """
    found = _AT.search(value) if "@" in value else None
    return value[: found.start()].strip() if found and found.start() else value


def facts_behind_at(value: str) -> StatedFacts:
    """Return what stands behind a name and an @: a temperature, or numbers that are clicks of no adjuster, as is said.

    >>> facts_behind_at("LR@8").warnings
    ("'LR@8' names no adjusters: no clicks were taken; state them",)
    >>> facts_behind_at("LR@20C").temperature, facts_behind_at("LR@c6,r8") == StatedFacts()
    (20.0, True)
    """
    found = _AT.search(value) if "@" in value else None
    behind = value[found.end() :].strip() if found else ""
    if not behind or clicks_of(behind):
        return NOTHING
    numbers = _NUMBERS.match(behind.lower())
    if numbers and not is_unit(numbers["next"] or ""):
        return StatedFacts(warnings=(names_no_knob(value.strip(), re.findall(r"\d+", numbers[0])),))
    return StatedFacts(temperature=quantity(behind, "temperature", "."))
