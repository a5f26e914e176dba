"""Forces that a table gives twice: while the rig speeds up and while it slows down; or by cell, with their sum."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

import numpy as np

from importers.assumptions.parts import SAME_QUANTITY
from importers.header import HeaderColumn
from importers.tables import ParsedTable
from importers.words.channels import SLOWING, SPEEDING, TOTAL
from importers.words.spelling import plain


def with_mean_of_branches(table: ParsedTable) -> ParsedTable:
    """Return a table with the mean of forces speeding up and slowing down in the place of both, else the table."""
    for way in ("compression", "rebound"):
        mine = [c for c in table.columns if c.direction == way and c.index in table.values and not c.clicks]
        up, down = ([c for c in mine if _words(c) & words] for words in (SPEEDING, SLOWING))
        if len(mine) != 2 or len(up) != 1 or len(down) != 1 or up[0].unit != down[0].unit:
            continue
        index = max(*table.values, table.grid.width) + 1
        mean = 0.5 * (table.values[up[0].index] + table.values[down[0].index])
        one = replace(
            up[0], index=index, text=f"mean of {up[0].text} and {down[0].text}", lesser=False, worked_out=True
        )
        said = f"{way} force is the mean of '{up[0].text}' and '{down[0].text}': lag cancels in it"
        columns = (*(_silent(c) if c in mine else c for c in table.columns), one)
        table = replace(table, columns=columns, values={**table.values, index: mean}, warnings=(*table.warnings, said))
    return table


def sum_of_others(columns: Sequence[HeaderColumn], table: ParsedTable) -> HeaderColumn | None:
    """Return the one column that names itself a sum and is the sum of the others; None where there is none."""
    totals = [c for c in columns if _words(c) & TOTAL]
    others = [c for c in columns if c not in totals]
    if len(totals) != 1 or len(others) < 2 or len({c.unit for c in columns}) != 1:
        return None
    total = table.values[totals[0].index]
    off = float(np.nanmax(np.abs(total - sum(table.values[c.index] for c in others)), initial=0.0))
    return totals[0] if off <= SAME_QUANTITY * float(np.nanmax(np.abs(total), initial=0.0)) else None


def _words(column: HeaderColumn) -> set[str]:
    return {word.strip(".") for word in plain(column.text).split()}


def _silent(column: HeaderColumn) -> HeaderColumn:
    return replace(column, channel=None, direction=None, role=None)
