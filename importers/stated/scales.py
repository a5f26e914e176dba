"""What one count or volt of a channel is worth, as lines state it: "load: 0.482 N per count, zero at 2048"."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from typing import NamedTuple

from importers.header import describe_column
from importers.patterns import regex
from importers.words.channels import TRAVEL_SENSORS
from importers.words.spelling import plain
from importers.words.unit_text import KIND, kinds_of

_NUMBER = r"[-+]?\d+(?:[.,]\d+)?(?:[eE][-+]?\d+)?"
RAW_UNIT = r"(?:m?V|volts?|counts?|cnts?|digits?|bits?|lsb|steps?|inkr\w*|schritte?|puntos?|points?)"
_SCALE = regex(
    rf"(?P<factor>{_NUMBER})\s*(?P<unit>[^\s\d/]+)\s*(?:/|\bper\b|\bpro\b|\bpar\b|\bpor\b)\s*(?P<raw>{RAW_UNIT})\b",
    re.I,
)
#: "1 count = 0.25 N"
_WORTH = regex(
    rf"\b1\s*(?P<raw>{RAW_UNIT})\s*(?:=|is|≙|\bequals\b|:)+\s*(?P<factor>{_NUMBER})\s*(?P<unit>[^\s\d/,;)]+)", re.I
)
#: "mm = 0.025*counts - 51.2"
_LINEAR = regex(
    r"[\[(]?(?P<unit>[^\s\d=\[\](),;:]{1,12})[\])]?\s{0,3}=\s*"
    rf"(?P<factor>{_NUMBER})\s*[*×·x]?\s*(?P<raw>{RAW_UNIT}|adc|raw)\b"
    rf"(?:\s*(?P<sign>[-+−])\s*(?P<beside>\d+(?:[.,]\d+)?(?:[eE][-+]?\d+)?))?\s*$",
    re.I,
)
_ZERO = regex(
    rf"\b(?:zero|offset|null\w*|z[ée]ro)\b\D{{0,12}}?(?P<zero>{_NUMBER})(?:\s*{RAW_UNIT}\b|\s*(?:[;,)]|$))", re.I
)


class StatedScale(NamedTuple):
    """What one count or volt of a channel is worth."""

    channel: str
    factor: float
    unit: str
    raw: str  #: the unit that it is per
    zero: float  #: the reading of nothing
    line: str  #: as it stands


def stated_scales(lines: Iterable[str]) -> Iterator[StatedScale]:
    """Yield the scales that lines state of one channel each."""
    for line in (clause for whole in lines for clause in _clauses(whole)):
        match = (_LINEAR.search(line) if "=" in line else None) or _SCALE.search(line) or _WORTH.search(line)
        if match is None:
            continue
        around = plain(f"{line[: match.start()]} {line[match.end() :]}").replace("scale", " ")
        words = (*around.split(), around)
        channels = {describe_column(0, word).channel or _of_sensor(word) for word in words}
        fitting = [c for c in channels if c and KIND[c] in kinds_of(match["unit"])]
        zero = _ZERO.search(line)
        if len(fitting) == 1:
            factor, nothing = _value(match["factor"]), _value(zero["zero"]) if zero else 0.0
            if match.re.pattern == _LINEAR.pattern:
                nothing = _reading_of_nothing(match, factor)
            yield StatedScale(fitting[0], factor, match["unit"], match["raw"], nothing, line)


def _clauses(line: str) -> list[str]:
    """Return a line cut at its commas where each part states a scale: "force: 500 N/V, displacement: 10 mm/V"."""
    parts = re.split(r"[;,]\s+", line)
    return parts if len(parts) > 1 and all(_SCALE.search(part) or _WORTH.search(part) for part in parts) else [line]


def _reading_of_nothing(match: re.Match[str], factor: float) -> float:
    """Return the reading at which a linear formula gives nothing."""
    beside = _value(match["beside"] or "0") * (1 if match["sign"] == "+" else -1)
    return -beside / factor if factor else 0.0


def _of_sensor(words: str) -> str | None:
    """Return the channel that a sensor is of whose name is no channel's."""
    return "displacement" if {*words.split()} & TRAVEL_SENSORS else None


def _value(text: str) -> float:
    return float(text.replace(",", "."))
