"""Rows that a column calls targets, or scatter: "Type" over "Measured" and "Target", or over "mean" and "SD"."""

from __future__ import annotations

from importers.assumptions.tables import MOST_KINDS
from importers.tables.table import ParsedTable
from importers.words.channels import MEANS, WANTED
from importers.words.scatter import says_scatter
from importers.words.spelling import plain


def without_wanted_rows(table: ParsedTable) -> ParsedTable:
    """Return the table without rows that a cell calls what is wanted, with a warning; else the table."""
    for column in table.columns:
        cells = table.texts.get(column.index)
        kinds = list(dict.fromkeys(cells)) if cells else []
        wanted = {cell for cell in kinds if {*plain(cell).split()} & WANTED}
        if cells and wanted and len(wanted) < len(kinds) <= MOST_KINDS:
            names = ", ".join(f"'{cell}'" for cell in kinds if cell in wanted)
            said = f"rows called {names} in '{column.text}' hold what is wanted, not what was measured: left out"
            return _without_scatter(table.kept([cell not in wanted for cell in cells], said))
    return _without_scatter(table)


def _without_scatter(table: ParsedTable) -> ParsedTable:
    """Return the table without rows that a cell calls a scatter, where other rows of the column are means."""
    for column in table.columns:
        cells = table.texts.get(column.index)
        kinds = list(dict.fromkeys(cells)) if cells else []
        scatter = {cell for cell in kinds if says_scatter(cell)} if 1 < len(kinds) <= MOST_KINDS else set()
        if cells and scatter and any({*plain(cell).split()} & MEANS for cell in kinds if cell not in scatter):
            names = ", ".join(f"'{cell}'" for cell in kinds if cell in scatter)
            said = f"rows called {names} in '{column.shown}' say how far values scatter: left out"
            return table.kept([cell not in scatter for cell in cells], said)
    return table
