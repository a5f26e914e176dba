"""The last line of a file, where writing broke off: a row whose last number would be taken for a smaller one."""

from __future__ import annotations

from collections.abc import Sequence

from importers.assumptions.tables import ALIKE_ROWS
from importers.grid import CellGrid, is_number


def broken_off(line: int) -> str:
    """Return what is said of a last line, by its number, that broke off."""
    return f"line {line}, the last, breaks off: it is no full row and was left out"


def breaks_off(last: str, before: Sequence[str], grid: CellGrid) -> bool:
    """Whether a file's last line, which no line end follows, is a row of which the end was never written.

    Parameters
    ----------
    last
        The line.
    before
        The lines before it, in order.
    grid
        How the cells of the rows stand.
    """
    if grid.quoted and last.count('"') % 2:
        return True
    cells = _bare(last, grid) or [""]
    if not all(is_number(cell, grid.decimal) for cell in cells[:-1]) or not _begins_number(cells[-1], grid):
        return False
    rows = [found for line in before[-ALIKE_ROWS:] if len(found := _bare(line, grid)) == grid.width]
    if len(rows) < ALIKE_ROWS or len(cells) > grid.width:
        return False
    if len(cells) < grid.width:
        return True
    decimals = {_decimals(row[-1], grid) for row in rows}
    return len(decimals) == 1 and _decimals(cells[-1], grid) < decimals.pop()


def _bare(line: str, grid: CellGrid) -> list[str]:
    return [cell.strip('" ') for cell in grid.cells(line.strip())]


def _begins_number(cell: str, grid: CellGrid) -> bool:
    """Whether a cell is a number or, with more behind it, would be one."""
    begun = cell.rstrip("eE+-" + grid.decimal)
    return not begun or is_number(begun, grid.decimal)


def _decimals(cell: str, grid: CellGrid) -> int:
    return len(cell.partition(grid.decimal)[2])
