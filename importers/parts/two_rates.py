"""A record of a logger whose channels have rates of their own: the slower one's cells are blank in most rows."""

from __future__ import annotations

import numpy as np

from importers.assumptions.parts import SLOWER_EVEN, SLOWEST_OF
from importers.assumptions.sweeps import TRACE_ROWS
from importers.tables import ParsedTable

_MEASURED = ("force", "displacement", "velocity")


def with_rows_of_slowest(table: ParsedTable) -> ParsedTable:
    """Return a record's table with the rows alone in which all that was measured has a number, with a warning.

    Only where the blank rows of one channel stand evenly between its numbers: a logger that saves it at a part of the
    rate of the others. Between two of its numbers nothing is known of it.
    """
    if table.rows < TRACE_ROWS or not any(c.channel == "time" and c.index in table.values for c in table.columns):
        return table
    found = [c for c in table.columns if c.channel in _MEASURED and c.index in table.values]
    for column in found:
        x = table.values[column.index]
        if not np.isnan(x[: 2 * SLOWEST_OF]).any():
            continue
        there = np.flatnonzero(np.isfinite(x))
        steps = np.diff(there)
        if len(there) < TRACE_ROWS or steps.max() < 2:
            continue
        of = int(np.median(steps))
        if of < 2 or of > SLOWEST_OF or np.mean(steps == of) < SLOWER_EVEN:
            continue
        keep = np.zeros(table.rows, bool)
        keep[there] = True
        said = f"'{column.text}' holds a number in one row of {of}: those rows alone were used"
        return with_rows_of_slowest(table.kept(keep, said))
    return table
