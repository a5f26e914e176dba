"""Lengths as a tape measure has them: feet and inches, and fractions of an inch."""

from __future__ import annotations

import re

_FOOT, _INCH = r"(?:'|′|’|ft\.?|foot|feet)", r"(?:\"|″|”|''|in\.?|inch|inches)"
_FRACTION = re.compile(rf"^\s*(?:(\d+)(?:\s+|\s*-\s*))?(\d+)\s*/\s*(\d+)\s*{_INCH}\s*$", re.IGNORECASE)
_FEET = re.compile(rf"^\s*(\d+)\s*{_FOOT}\s*-?\s*(\d+(?:\.\d+)?)\s*{_INCH}\s*$", re.IGNORECASE)
_FEET_ALONE = re.compile(r"^\s*(\d+(?:\.\d+)?)\s*['′’]\s*$")


def inches(text: str) -> tuple[float, str] | None:
    """Return a length in feet and inches, or in fractions of an inch, as inches; None where it is written otherwise.

    >>> inches("95 3/4 in"), inches("7 ft 11.5 in"), inches("95.5 in")
    ((95.75, 'in'), (95.5, 'in'), None)
    """
    if (found := _FRACTION.match(text)) and int(found[3]):
        return int(found[1] or 0) + int(found[2]) / int(found[3]), "in"
    if found := _FEET.match(text):
        return 12.0 * int(found[1]) + float(found[2]), "in"
    if found := _FEET_ALONE.match(text):
        return 12.0 * float(found[1]), "in"
    return None


def in_decimals(text: str) -> str:
    """Return a text with a tape measure's length written as decimal inches; any other as it is.

    >>> in_decimals("20 1/4 in"), in_decimals("20.1 in"), in_decimals("48,5 N/mm")
    ('20.25 in', '20.1 in', '48,5 N/mm')
    """
    found = inches(text)
    return text if found is None else f"{found[0]:.12g} {found[1]}"
