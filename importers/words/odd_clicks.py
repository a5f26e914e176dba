"""Clicks that are none: parts of a click, turns, and words that speak of clicks without a number that is understood."""

from __future__ import annotations

from importers.patterns import regex
from importers.words.adjusters import CLICKS_ALONE, SOFT, WAY, adjuster_of
from importers.words.channels import REMARKS
from importers.words.clicks import (
    ANY_ADJUSTER,
    clicks_of,
    doubted_clicks,
    is_relative,
)
from importers.words.clicks_in_all import all_clicks
from importers.words.keys import KNOWN
from importers.words.parted_clicks import parted_clicks
from importers.words.spelling import plain, word_set
from importers.words.turns import turns_of
from importers.words.unit_text import is_unit

_KNOB = regex(rf"(?<![a-z])(?:{WAY}|[lh]s[cr]|[lh]sb)(?![a-z])")
_NUMBER = regex(r"(?:(?<![\w.,+-])|(?<=\s)[-+])\d{1,2}(?![\w.,]*\w)")
_STRICT = regex(rf"\b{CLICKS_ALONE}\b")
#: a setting of a knob that the line does not name: "FL 12 clicks"; how far settings are apart is none
_OF_NO_KNOB = regex(
    rf"(?<![\w.,-])(?<!every )(?<!each )(?<!of )(?<!alle )(?<!je )(?<!in )\d{{1,2}} ?{CLICKS_ALONE}\b"
    r"(?! ?(?:steps?|intervals?|increments?|apart|each|per|sweeps?|tests?|series|schritt\w*|abst\w*|pro|par)\b)"
)
_SHORT_LINE = 80  #: longer lines are prose [characters]
#: clauses of a line, and one that is a word and a number
_CLAUSES = regex(r"[,;|/&()\t]|\s[-–]\s|\b(?:and|und|et|y|e|en|ja|og|och|ve)\b|(?<=[^\W\d_]):\s")
_WORD_NUMBER = regex(rf"(?P<word>[^\W\d_]{{1,12}})\.? ?(?P<n>\d{{1,2}})(?: ?{CLICKS_ALONE})?")
_SEVERAL = regex(r"\d\D+\d")
#: a line that is clicks and no more, of which it does not say whose
_CLICKS_ALONE = regex(
    rf"(?:{CLICKS_ALONE} )?\d{{1,2}} (?:{CLICKS_ALONE} )?(?:of|von|sur|di|de|and|und|et|y|e) \d{{1,2}}"
    rf"(?: {CLICKS_ALONE})?"
)
#: words before a number that is none of clicks
_OTHER_WORDS = word_set(
    "test, run, no, nr, num, number, shock, damper, lap, page, step, rev, version, pack, set, setup, setting, sheet,"
    " bench, dyno, rig, day, cycle, point, versuch, lauf, stufe, essai, prova, ensayo, table, part, job, stage, of,"
    " max, min, total, all, to, and, or, at, from, on, in, the, for, every, each, by, last, first, corner, car, round,"
    " heat"
)
_SOFT_END = regex(rf"(?<![a-z0-9])(?:{ANY_ADJUSTER})\s+full(?:y)?\s+(?:{SOFT}|open|out)\b(?!\s+(?:to\b|by\b|\d))")


def soft_ends(text: str) -> list[str]:
    """Return what says that an adjuster is at its soft end, whose number only the shock's file knows.

    >>> soft_ends("Comp full hard, reb full soft"), soft_ends("LSR: 6 from full soft")
    (['reb full soft'], [])
    """
    return [m[0] for m in _SOFT_END.finditer(plain(text))] if "full" in text.lower() else []


def odd_ones_out(text: str) -> list[str]:
    """Return clauses of a text about clicks that are a word and a number, where no adjuster is known by the word.

    >>> odd_ones_out("Clicks: comp 5, xyz 7"), odd_ones_out("Test 2, LSC 6 clicks"), odd_ones_out("comp 5, xyz 7")
    (['xyz 7'], [], [])
    """
    if not (_SEVERAL.search(text) and _STRICT.search(plain(text))):
        return []
    known = {str(n) for n in clicks_of(text).values()}
    clauses = (_WORD_NUMBER.fullmatch(plain(clause)) for clause in _CLAUSES.split(text))
    return [m[0] for m in clauses if m and m["n"] not in known and not {m["word"]} & _OTHER_WORDS
            and m["word"] not in KNOWN and adjuster_of(m["word"]) is None and not is_unit(m["word"])]  # fmt: skip


def clicks_of_no_knob(text: str) -> str:
    """Return the number of clicks that a short text states of no adjuster; empty where it states none so.

    >>> [clicks_of_no_knob(text) for text in ("FL 12 clicks", "tested every 2 clicks", "24 clicks total")]
    ['12 clicks', '', '']
    """
    found = _OF_NO_KNOB.search(plain(text)) if len(text) <= _SHORT_LINE else None
    return found[0] if found and not (clicks_of(text) or all_clicks(text) or is_relative(text)) else ""


def unread_clicks(text: str) -> bool:
    """Whether a text speaks of a number of clicks of an adjuster, and none is understood.

    >>> [unread_clicks(t) for t in ("Clicks: -6 comp / -9 reb", "C6 R8 clicks", "clicks counted from closed")]
    [True, False, False]
    """
    bare = plain(text)
    knob = _KNOB.search(bare) or _CLICKS_ALONE.fullmatch(bare) or odd_ones_out(text) or clicks_of_no_knob(text)
    if {*bare.split()[:1]} & REMARKS or not (_STRICT.search(bare) and _NUMBER.search(bare) and knob):
        return False
    said = clicks_of(text) or all_clicks(text) or is_relative(text) or doubted_clicks(text) or parted_clicks(text)
    return not said and not turns_of(text)
