"""Clicks that are none: parts of a click, turns, and words that speak of clicks without a number that is understood."""

from __future__ import annotations

from importers.patterns import regex
from importers.words.adjusters import ADJUSTER, CLICKS_ALONE, WAY, may_name_adjuster
from importers.words.channels import REMARKS
from importers.words.clicks import (
    ANY_ADJUSTER,
    CLICKED,
    FILL,
    NO_UNIT,
    clicks_of,
    doubted_clicks,
    is_relative,
    parts_as_decimals,
)
from importers.words.clicks_in_all import all_clicks
from importers.words.spelling import plain

_KNOB = regex(rf"(?<![a-z])(?:{WAY}|[lh]s[cr]|[lh]sb)(?![a-z])")
_NUMBER = regex(r"(?:(?<![\w.,+-])|(?<=\s)[-+])\d{1,2}(?![\w.,]*\w)")
_STRICT = regex(rf"\b{CLICKS_ALONE}\b")
_PARTED_NUMBER = regex(r"\d\.(?:25|5|75)0*(?!\d)")
_PARTED = regex(rf"(?<![a-z0-9.°])(?P<name>{ANY_ADJUSTER}){FILL}\d{{1,2}}\.(?:25|5|75)0*{NO_UNIT}")
_TURNS = regex(
    rf"(?<![a-z0-9])(?:(?:{ADJUSTER.pattern}){FILL}\d[\d\s./,¼½¾-]*turns?\b|(?:{ANY_ADJUSTER})\s+turns?\s+(?:out\s+)?\d[\d./]*)"
)


def parted_clicks(text: str) -> list[str]:
    """Return what gives an adjuster parts of a click, which no click map has: none of them is taken.

    >>> parted_clicks("LSC 3½, LSR: 9"), parted_clicks("Bump clicks,4.5"), parted_clicks("Comp 4.5 mm")
    (['lsc 3.5'], ['bump clicks 4.5'], [])
    """
    bare = plain(parts_as_decimals(text))
    if not _PARTED_NUMBER.search(bare) or not may_name_adjuster(bare):
        return []
    return [m[0] for m in _PARTED.finditer(bare) if len(m["name"]) > 1 or "=" in text or CLICKED.search(bare)]


def turns_of(text: str) -> list[str]:
    """Return what states an adjuster in turns, which are no clicks.

    >>> turns_of("LSC: 6 clicks, HSC: 2 turns"), turns_of("C6 R8")
    (['hsc 2 turns'], [])
    """
    return [m[0] for m in _TURNS.finditer(plain(text))] if "tur" in text.lower() else []


def unread_clicks(text: str) -> bool:
    """Whether a text speaks of a number of clicks of an adjuster, and none is understood.

    >>> [unread_clicks(t) for t in ("Clicks: -6 comp / -9 reb", "C6 R8 clicks", "clicks counted from closed")]
    [True, False, False]
    """
    bare = plain(text)
    if {*bare.split()[:1]} & REMARKS or not (_STRICT.search(bare) and _NUMBER.search(bare) and _KNOB.search(bare)):
        return False
    said = clicks_of(text) or all_clicks(text) or is_relative(text) or doubted_clicks(text) or parted_clicks(text)
    return not said and not turns_of(text)
