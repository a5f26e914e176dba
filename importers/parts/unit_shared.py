"""A direction's column without a unit beside the other direction's, which has one: "C", "R in lbs" over one speed."""

from __future__ import annotations

import re
from dataclasses import replace

import numpy as np

from importers.assumptions.parts import OTHER_RISES
from importers.header import HeaderColumn
from importers.parts.other_direction import rises
from importers.tables import ParsedTable
from importers.words.adjusters import CLICK_WORD
from importers.words.spelling import plain


def with_unit_of_other_way(table: ParsedTable) -> ParsedTable:
    """Return a table of peaks with one unit for both directions where one of two columns states none, else it.

    A column of clicks does not rise with the speeds, as forces do.
    """
    columns = [c for c in table.columns if c.index in table.values]
    speeds = [c for c in columns if c.channel == "velocity" and not c.direction]
    ways = [c for c in columns if c.direction and not c.lesser and not c.clicks]
    bare = [c for c in ways if _is_bare(c)]
    forces = [c for c in columns if c.channel == "force" and not c.lesser]
    if table.options.columns or len(speeds) != 1 or len(ways) != 2 or len(bare) != 1 or len(forces) != 1:
        return table
    one, other, speed = bare[0], forces[0], table.values[speeds[0].index]
    if other.direction in (None, one.direction) or not other.unit:
        return table
    v, f = np.abs(speed), np.abs(table.values[one.index])
    ok = np.isfinite(v) & np.isfinite(f)
    if ok.sum() < 3 or rises(v[ok], f[ok]) < OTHER_RISES:
        return table
    said = f"'{one.text}' has no unit and was taken in {other.unit}, as '{other.text}' beside it is"
    named = replace(one, channel="force", role=None, unit=other.unit, factor=other.factor)
    return replace(
        table,
        columns=tuple(named if c.index == one.index else c for c in table.columns),
        warnings=(*table.warnings, said),
    )


def _is_bare(column: HeaderColumn) -> bool:
    """Whether a column names a direction and neither a unit nor clicks."""
    # "Druck" is pressure, too: beside "Zug (N)" it is compression.
    if (
        column.channel not in (None, "pressure")
        or column.unit
        or column.unknown_unit
        or column.role not in (None, "c", "r")
    ):
        return False
    return not re.search(rf"\b{CLICK_WORD}\b", plain(column.text))
