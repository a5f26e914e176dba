"""Cells of a small table that say they hold no number: a spreadsheet's errors, "NaN"; and one that should hold one."""

from __future__ import annotations

from dynoan.errors import ReadError, Spot
from importers.assumptions.sweeps import MOST_PEAK_ROWS
from importers.grid import is_missing, is_number
from importers.patterns import regex
from importers.tables.table import ParsedTable, RowBlock, TableBody

_SHOWN = 40  #: of a cell in a refusal [characters]
_UNREAD = regex(
    rb"(?i)(?<![^\s,;|])(?:#(?:N/?A|DIV/0!|REF!|VALUE!|NUM!|NAME\\?|NULL!|WERT!|NV|BEZUG!|#+)|nan|-nan)(?![^\s,;|])"
)


def unread_cells(rows: bytes, table: ParsedTable) -> tuple[str, ...]:
    """Return the warning of a table of peaks whose cells hold such words; none where all are numbers or blank."""
    timed = any(c.channel in ("time", "displacement") for c in table.columns)
    found = [] if timed or table.rows > MOST_PEAK_ROWS else [m[0].decode() for m in _UNREAD.finditer(rows)]
    if not found:
        return ()
    cells = "1 cell says" if len(found) == 1 else f"{len(found)} cells say"
    return (f"{cells} '{found[0]}' and no number: what stands there was left out",)


def unread_rows(block: RowBlock, body: TableBody) -> ReadError:
    """Return the refusal of rows that are no plain table: the first cell that is no number, and its line."""
    grid = body.grid
    for raw in block.data.splitlines():
        numbers = [c for c, numeric in zip(grid.cells(body.decoded(raw)), grid.numeric, strict=False) if numeric]
        odd = [c for c in numbers if not (is_number(c, grid.decimal) or is_missing(c))]
        if odd:
            line = body.first_line + body.data.count(b"\n", 0, max(body.data.find(raw), 0))
            where = Spot(body.file, line=line)
            return ReadError(f"'{odd[0][:_SHOWN]}' is no number", where=where, hint="mend it or leave the cell empty")
    return ReadError(
        f"the rows cannot be read as {grid.words}",
        where=f"{body.file}, from line {block.first_line}",
        hint="give --delimiter and --decimal, or mend the line",
    )
