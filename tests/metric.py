"""Metric units in text for people: what a library of US units must not show."""

from __future__ import annotations

import re

UNITS = r"mm/s|m/s|m/s²|m/s2|N/mm|N/m|N s/m|N s/mm|N m|N|kN|daN|mm|cm|m|kg|kg m2|kg m²|bar|kPa|J|km/h|°C|K"
#: a metric unit that stands behind a number, or in brackets at a head
METRIC = re.compile(rf"(?:(?<=\d)\s?|\[)(?:{UNITS})(?![\w/²])|\b(?:mm/s|N/mm|°C)(?!\w)")
#: what somebody wrote: names in quotes, and the text of a file that is shown as it is
QUOTED = re.compile(r"'[^']*'")


def metric(text: str) -> list[str]:
    """Return the lines that hold a metric unit outside quotes."""
    return [line for line in text.splitlines() if METRIC.search(QUOTED.sub("", line))]
