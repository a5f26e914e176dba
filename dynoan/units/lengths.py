"""Lengths as a tape measure has them: feet and inches, and fractions of an inch."""

from __future__ import annotations

import re

_FOOT, _INCH = r"(?:'|′|’|ft\.?|foot|feet)", r"(?:\"|″|”|''|in\.?|inch|inches)"
#: compiled when a length is first read: a command that only says what it can do reads none
_FRACTION = rf"^\s*(?:(\d+)(?:\s+|\s*-\s*))?(\d+)\s*/\s*(\d+)\s*{_INCH}\s*$"
_FEET = rf"^\s*(\d+)\s*{_FOOT}\s*-?\s*(\d+(?:\.\d+)?)\s*{_INCH}\s*$"
_FEET_ALONE = r"^\s*(\d+(?:\.\d+)?)\s*['′’]\s*$"


def inches(text: str) -> tuple[float, str] | None:
    """Return a length in feet and inches, or in fractions of an inch, as inches; None where it is written otherwise.

    >>> inches("95 3/4 in"), inches("7 ft 11.5 in"), inches("95.5 in")
    ((95.75, 'in'), (95.5, 'in'), None)
    """
    if (found := re.match(_FRACTION, text, re.IGNORECASE)) and int(found[3]):
        return int(found[1] or 0) + int(found[2]) / int(found[3]), "in"
    if found := re.match(_FEET, text, re.IGNORECASE):
        return 12.0 * int(found[1]) + float(found[2]), "in"
    if found := re.match(_FEET_ALONE, text):
        return 12.0 * float(found[1]), "in"
    return None


def in_decimals(text: str) -> str:
    """Return a text with a tape measure's length written as decimal inches; any other as it is.

    >>> in_decimals("20 1/4 in"), in_decimals("20.1 in"), in_decimals("48,5 N/mm")
    ('20.25 in', '20.1 in', '48,5 N/mm')
    """
    found = inches(text)
    return text if found is None else f"{found[0]:.12g} {found[1]}"
