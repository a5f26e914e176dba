"""Which mark is the decimal one where both fit, and which marks group digits."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from importers.assumptions.grid import CELLS_PER_UNMARKED, UNMARKED_LEAST, UNMARKED_MOST
from importers.grid.cell_grid import CellGrid
from importers.grid.cells import NUMBER, PLAIN, is_number
from importers.patterns import regex

_GROUP = regex(r"[-+−]?(\d{1,3})[.,]\d{3}")
_WHOLE = regex(r"[-+−]?\d{1,6}")
_LEADING_ZERO = regex(r"[-+−]?0")
_GROUPING = ",.'’ \u00a0\u202f\u2009"


def settle_marks(grid: CellGrid, sample: Sequence[str], *, decimal_stated: bool) -> CellGrid:
    """Return the grid with the decimal mark that its rows leave no doubt of, and the marks that group digits."""
    rows = [cells for cells in (grid.cells(line) for line in sample) if grid.is_row(cells)]
    columns = [[row[i] for row in rows] for i in range(grid.width) if grid.numeric[i]] if rows else []
    decimal = grid.decimal if decimal_stated else _decimal(columns, grid)
    grouped = [cell for column in columns for cell in column
               if PLAIN[decimal].fullmatch(cell) is None and NUMBER[decimal].fullmatch(cell)]  # fmt: skip
    marks = {c for cell in grouped for c in cell if c in _GROUPING and c != decimal}
    return replace(grid, decimal=decimal, thousands="".join(sorted(marks)))


def _decimal(columns: list[list[str]], grid: CellGrid) -> str:
    """Return the decimal mark; where all marks could group digits, integers beside them tell.

    "640, 910, 1.150, 1.420" can only be thousands: a writer of three decimals writes them everywhere.
    """
    other = "," if grid.decimal == "." else "."
    cells = [cell for column in columns for cell in column if "." in cell or "," in cell]
    if not cells or any(not (_GROUP.fullmatch(cell) and is_number(cell, other)) for cell in cells):
        return grid.decimal
    mark = next(c for c in cells[0] if c in ".,")
    if any(mark not in cell for cell in cells) or any(_LEADING_ZERO.match(cell) for cell in cells):
        return mark if all(mark in cell for cell in cells) else grid.decimal
    grouped = any(_grouped(column, mark) for column in columns)
    return ("," if mark == "." else ".") if grouped else mark


def _grouped(column: list[str], mark: str) -> bool:
    whole = [abs(int(c.replace("−", "-"))) for c in column if _WHOLE.fullmatch(c)]
    marked = any(mark in cell for cell in column)
    below = bool(whole) and UNMARKED_LEAST <= max(whole) < UNMARKED_MOST
    return marked and below and CELLS_PER_UNMARKED * len(whole) >= len(column)
