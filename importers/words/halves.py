"""Halves and quarters behind a number, as decimals: "3½", "4 1/2", "6 and a half", "4,5"."""

from __future__ import annotations

import re

from importers.patterns import regex
from importers.words.adjusters import CLICKS_ALONE
from importers.words.number_words import COUNTED

_PARTS = {"½": ".5", "¼": ".25", "¾": ".75", "1/2": ".5", "1/4": ".25", "3/4": ".75", ",5": ".5"}
_PART = regex(r"(?<=\d)(?:\s?[½¼¾]|\s(?:1/2|1/4|3/4)(?![\d/])(?!\s*(?:\"|”|in\b|inch))|(?<![\d,.]\d),5(?![\d,.]|/\d))")
_HALF = r"half|halb\w*|demie?|medi[oa]|mezz[oa]|1/2|½"
_QUARTER = r"quarter|viertel|quart|cuarto|quarto|1/4|¼"
_LOOK = regex(rf"{_HALF}|{_QUARTER}", re.IGNORECASE)
_AND_PART = regex(
    rf"(?:(?<=\d)|\b(?P<word>{'|'.join(COUNTED)}))(?P<click>\s?{CLICKS_ALONE})?\s?"
    rf"(?:\+|&|\b(?:and|und|et|y|e|og|en)\b)\s?"
    rf"(?:(?:an?|one|eine?n?|una?|une)\s)?(?:(?P<half>{_HALF})|{_QUARTER})(?!\w)",
    re.IGNORECASE,
)
#: "LSC/LSR: 6,5" are two numbers
_LISTED = regex(r"[^\W\d_]\s?/\s?[^\W\d_]")


def parts_as_decimals(text: str) -> str:
    """Return a text whose halves and quarters are decimals.

    >>> [parts_as_decimals(t) for t in ("3½", "4 1/2", "4,5", "LSR/LSC: 6,5", "2 clicks and a half", "six and a half")]
    ['3.5', '4.5', '4.5', 'LSR/LSC: 6,5', '2.5 clicks', '6.5']
    """
    if _LOOK.search(text):
        text = _AND_PART.sub(_decimal, text)
    listed = "/" in text and _LISTED.search(text) is not None
    return _PART.sub(lambda m: m[0] if listed and m[0] == ",5" else _PARTS[m[0].strip()], text)


def _decimal(found: re.Match[str]) -> str:
    number = str(COUNTED[found["word"].lower()]) if found["word"] else ""
    return f"{number}{'.5' if found['half'] else '.25'}{found['click'] or ''}"
