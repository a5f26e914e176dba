"""Numbers that say "nothing was measured": nines alone, such as 9999 or -999.9, far beyond all around them."""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from dynoan.model.arrays import FloatArray
from importers.assumptions.parts import PLACEHOLDER_APART, PLACEHOLDER_BEYOND, PLACEHOLDER_LEAP, PLACEHOLDER_SHARE
from importers.assumptions.sweeps import TRACE_ROWS
from importers.patterns import regex
from importers.tables import Extent, ParsedTable

_NINES = regex(r"-?9{3,}(?:\.9+|\.0*)?|-?99\.9{2,}")


def without_placeholders(table: ParsedTable) -> ParsedTable:
    """Return the table with such numbers missing in the columns of channels, and a warning of each; else the table."""
    values, said = {}, []
    held = [(c, table.values[c.index]) for c in table.columns if c.index in table.values and (c.channel or c.direction)]
    for column, x in held:
        if (found := _placeholder(x, table.extents.of(x))) is not None:
            at = x == found
            values[column.index] = np.where(at, np.nan, x)
            said.append(f"{found:g} stands {int(at.sum())} times in '{column.text}', far beyond all else there: taken"
                        " as missing")  # fmt: skip
    if not said:
        return table
    return replace(table, values={**table.values, **values}, warnings=(*table.warnings, *said))


def _placeholder(x: FloatArray, extent: Extent) -> float | None:
    """Return the number that stands for missing ones in a column, if any."""
    ends = (extent.high, extent.low) if x.size else (0.0, 0.0)
    if not np.isfinite(ends[0]) and np.isnan(x).all():
        return None
    if np.isnan(ends[0]):
        ends = float(np.nanmax(x)), float(np.nanmin(x))
    for end in ends:
        if not _NINES.fullmatch(f"{end:.10g}"):
            continue
        rest = x[(x != end) & np.isfinite(x)]
        few = x.size - rest.size <= max(1, PLACEHOLDER_SHARE * x.size)
        if rest.size and few and (abs(end) > PLACEHOLDER_BEYOND * float(np.abs(rest).max()) or _leaps(x, end, rest)):
            return end
    return None


def _leaps(x: FloatArray, end: float, rest: FloatArray) -> bool:
    """Whether a record leaps to a number, and back, each time it stands there, from far away."""
    low, high = float(rest.min()), float(rest.max())
    if x.size < TRACE_ROWS:
        return False
    again = int((x == end).sum()) >= 2 and not bool(np.all(rest == np.round(rest)))
    near = min(abs(end - low), abs(end - high)) < PLACEHOLDER_APART * (high - low)
    if near and not (again and (end < low or end > high)):
        return False
    beside = np.concatenate([np.abs(np.diff(x)), [np.nan]]), np.concatenate([[np.nan], np.abs(np.diff(x))])
    at = x == end
    leaps = np.fmax(*beside)[at] > PLACEHOLDER_LEAP * (high - low)
    return bool(np.mean(leaps | (np.fmin(*beside)[at] == 0)) == 1 and leaps.any())
