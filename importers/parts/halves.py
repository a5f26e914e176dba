"""Force of a trace in two columns, one a direction, each blank while the other speaks: one force with signs."""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from importers.assumptions.parts import HALVES_APART
from importers.assumptions.sweeps import TRACE_ROWS
from importers.header import HeaderColumn
from importers.tables import ParsedTable


def with_halves_joined(table: ParsedTable) -> ParsedTable:
    """Return a table in time whose two half-filled columns of force are one signed column, with a warning; else it."""
    forces = {c.direction: c for c in table.columns if c.index in table.values and c.direction and c.may_be_force}
    timed = any(c.channel == "time" and c.index in table.values for c in table.columns)
    if set(forces) != {"compression", "rebound"} or not timed or table.rows < TRACE_ROWS or table.options.columns:
        return table
    down, up = forces["compression"], forces["rebound"]
    x, y = table.values[down.index], table.values[up.index]
    speaks, answers = (np.nan_to_num(column) != 0 for column in (x, y))
    apart = speaks != answers
    if down.unit != up.unit or apart.mean() < HALVES_APART:
        return table
    other = y if np.nanmedian(y[answers]) < 0 else -y
    joined = np.where(speaks | ~answers, x, other)
    said = f"'{down.text}' and '{up.text}' are each blank or nought where the other speaks: taken as one force"
    whole = replace(down, direction=None, positive="compression", channel="force", role=None)
    columns = tuple(whole if c is down else HeaderColumn(c.index, "") if c is up else c for c in table.columns)
    return replace(
        table, columns=columns, values={**table.values, down.index: joined}, warnings=(*table.warnings, said)
    )
