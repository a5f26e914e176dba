"""Columns in counts or volts, where a line states what one is worth: "load: 0.482 N per count, zero at 2048"."""

from __future__ import annotations

import re
from dataclasses import replace

from importers.header import HeaderColumn, describe_column
from importers.stated import RAW_UNIT, StatedScale, stated_scales
from importers.tables import ParsedTable


def with_scales(table: ParsedTable) -> ParsedTable:
    """Return a table whose columns in counts or volts are in the units that lines state of them, else the table."""
    table = _with_factors(table)
    for scale in stated_scales((*table.own, *table.shared)):
        mine = [c for c in table.columns if c.channel == scale.channel or _is_raw_of(c, scale)]
        if any(c.unit for c in mine):
            continue
        if len(mine) != 1 or mine[0].index not in table.values:
            said = f"'{scale.line[:60]}' speaks of a factor: it was not applied"
            table = replace(table, warnings=(*table.warnings, said))
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


def _is_raw_of(column: HeaderColumn, scale: StatedScale) -> bool:
    """Whether a column in counts or volts is of a channel by its words."""
    raw = re.fullmatch(RAW_UNIT, column.unknown_unit.strip(), re.I) is not None
    return raw and describe_column(0, re.sub(r"[\[(].*", "", column.text)).channel == scale.channel
