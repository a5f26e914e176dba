"""Torn lines: rows of which a part is lost. A few may be left out of a long table, with a warning."""

from __future__ import annotations

from typing import NamedTuple

from importers.assumptions.tables import ROWS_PER_TORN, TORN_ALWAYS, TORN_LEAST_ROWS
from importers.grid import CellGrid, is_missing, is_number
from importers.header import uncomment
from importers.tables.odd_lines import BodyLines
from importers.words.channels import SUMMARY
from importers.words.clicks import clicks_of
from importers.words.spelling import plain


class TornLine(NamedTuple):
    """A line that holds a table's numbers but not all of them, or a word too many."""

    at: int
    text: str


def is_torn(text: str, grid: CellGrid, *, below_header: bool) -> bool:
    """Whether a line holds a table's numbers but not all of them, or one word too many.

    Parameters
    ----------
    text
        The line.
    grid
        How the cells of the rows stand.
    below_header
        Whether a header is repeated beside it: there a lone number is a page's.
    """
    if clicks_of(text) or text != uncomment(text):
        return False
    cells = grid.cells(text)
    if cells and {plain(cells[0]), *plain(cells[0]).split()[:1]} & SUMMARY:
        return False
    numbers = sum(is_number(c, grid.decimal) for c in cells)
    if len(cells) == grid.width:
        return numbers >= 1 and 2 * numbers >= sum(grid.numeric)
    if below_header and len(cells) == 1:
        return False
    wordless = any(c.isdigit() for c in text) and not any(c.isalpha() for c in text)
    return wordless or (numbers >= 1 and all(is_number(c, grid.decimal) or is_missing(c) for c in cells))


def torn_warnings(torn: list[TornLine], lines: BodyLines, rows: int) -> tuple[str, ...]:
    """Return a warning for torn lines that may be dropped of a block of so many rows.

    Raises
    ------
    ReadError
        If there are more than a damaged file may have, or a table is too short to miss one.
    """
    if not torn:
        return ()
    body, first = lines.body, torn[0]
    number = body.first_line + first.at
    if len(torn) == 1 and first.at >= len(lines) - 2:
        last = ", the last," if first.at == len(lines) - 1 else ""
        return (f"line {number}{last} is no full row and was left out",)
    words = [c for c in body.grid.cells(first.text) if not is_number(c, body.grid.decimal) and not is_missing(c)]
    words = [c for c in words if not ("?" in c and c.replace("?", "").replace(".", "").isdigit())]  # a damaged number
    many = len(torn) > max(TORN_ALWAYS, rows // ROWS_PER_TORN)
    if words or many or rows < TORN_LEAST_ROWS:
        raise body.fault(first.at, first.text, _way_out(words, body.grid))
    return (f"{len(torn)} torn lines were left out, the first is line {number}",)


def _way_out(words: list[str], grid: CellGrid) -> str:
    other = "," if grid.decimal == "." else "."
    if any(is_number(word, other) for word in words):
        return f"decimal marks differ between lines? write them alike, or give --decimal '{other}'"
    return "mend the line or take it out"
