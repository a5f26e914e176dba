"""Rows that a column calls targets, beside rows that were measured: "Type" over "Measured" and "Target"."""

from __future__ import annotations

from importers.assumptions.tables import MOST_KINDS
from importers.tables.table import ParsedTable
from importers.words.channels import WANTED
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
            return table.kept([cell not in wanted for cell in cells], said)
    return table
