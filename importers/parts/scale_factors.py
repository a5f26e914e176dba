"""Columns in counts or volts, where a line states what one is worth: "load: 0.482 N per count, zero at 2048"."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from dataclasses import replace
from typing import NamedTuple

from importers.header import HeaderColumn, describe_column
from importers.tables import ParsedTable
from importers.words.spelling import plain
from importers.words.unit_text import KIND, kinds_of

_SENSORS = frozenset(("encoder", "drehgeber", "codeur", "linear", "lvdt", "wire", "string"))
_NUMBER = r"[-+]?\d+(?:[.,]\d+)?(?:[eE][-+]?\d+)?"
_RAW = r"(?:m?V|volts?|counts?|cnts?|digits?|bits?|lsb|steps?|inkr\w*|schritte?|puntos?|points?)"
_SCALE = re.compile(
    rf"(?P<factor>{_NUMBER})\s*(?P<unit>[^\s\d/]+)\s*(?:/|\bper\b|\bpro\b|\bpar\b|\bpor\b)\s*(?P<raw>{_RAW})\b", re.I
)
#: "1 count = 0.25 N"
_WORTH = re.compile(
    rf"\b1\s*(?P<raw>{_RAW})\s*(?:=|is|≙|\bequals\b|:)+\s*(?P<factor>{_NUMBER})\s*(?P<unit>[^\s\d/,;)]+)", re.I
)
_ZERO = re.compile(
    rf"\b(?:zero|offset|null\w*|z[ée]ro)\b\D{{0,12}}?(?P<zero>{_NUMBER})(?:\s*{_RAW}\b|\s*(?:[;,)]|$))", re.I
)


class _Scale(NamedTuple):
    """What one count or volt of a channel is worth."""

    channel: str
    factor: float
    unit: str
    raw: str  #: the unit that it is per
    zero: float  #: the reading of nothing


def with_scales(table: ParsedTable) -> ParsedTable:
    """Return a table whose columns in counts or volts are in the units that lines state of them, else the table."""
    table = _with_factors(table)
    for scale in _scales((*table.own, *table.shared)):
        mine = [c for c in table.columns if c.channel == scale.channel or _is_raw_of(c, scale)]
        if len(mine) != 1 or mine[0].unit or mine[0].index not in table.values:
            continue
        (one,) = mine
        from_zero = f" from {scale.zero:g}" if scale.zero else ""
        worth = f"{scale.factor:g} {scale.unit} per {scale.raw}{from_zero}"
        said = f"{scale.channel} is '{one.text}' at {worth}, as the file says"
        new = replace(one, channel=scale.channel, unit=scale.unit, unknown_unit="", role=None, worked_out=True)
        values = {**table.values, one.index: (table.values[one.index] - scale.zero) * scale.factor}
        columns = tuple(new if c is one else c for c in table.columns)
        table = replace(table, columns=columns, values=values, warnings=(*table.warnings, said))
    return table


def _with_factors(table: ParsedTable) -> ParsedTable:
    """Return a table whose columns in so many of a unit, "Force [x10 N]", are in the unit."""
    told = table.options.units.keys() if not table.options.column_units else {c.channel for c in table.columns}
    for one in [c for c in table.columns if c.factor != 1.0 and c.index in table.values and c.channel not in told]:
        said = f"'{one.text}' was multiplied by {one.factor:g}, as its name says"
        values = {**table.values, one.index: table.values[one.index] * one.factor}
        columns = tuple(replace(c, factor=1.0, worked_out=True) if c is one else c for c in table.columns)
        table = replace(table, columns=columns, values=values, warnings=(*table.warnings, said))
    return table


def _is_raw_of(column: HeaderColumn, scale: _Scale) -> bool:
    """Whether a column in counts or volts is of a channel by its words."""
    raw = re.fullmatch(_RAW, column.unknown_unit.strip(), re.I) is not None
    return raw and describe_column(0, re.sub(r"[\[(].*", "", column.text)).channel == scale.channel


def _scales(lines: Iterable[str]) -> Iterator[_Scale]:
    for line in lines:
        match = _SCALE.search(line) or _WORTH.search(line)
        if match is None:
            continue
        around = plain(f"{line[: match.start()]} {line[match.end() :]}").replace("scale", " ")
        words = (*around.split(), around)
        channels = {describe_column(0, word).channel or _of_sensor(word) for word in words}
        fitting = [c for c in channels if c and KIND[c] in kinds_of(match["unit"])]
        zero = _ZERO.search(line)
        if len(fitting) == 1:
            factor, nothing = _value(match["factor"]), _value(zero["zero"]) if zero else 0.0
            yield _Scale(fitting[0], factor, match["unit"], match["raw"], nothing)


def _of_sensor(words: str) -> str | None:
    """Return the channel that a sensor is of whose name is no channel's."""
    return "displacement" if {*words.split()} & _SENSORS else None


def _value(text: str) -> float:
    return float(text.replace(",", "."))
