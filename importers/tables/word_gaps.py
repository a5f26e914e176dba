"""Words in the place of numbers that nobody foresaw, in a column of numbers: a gap each, and said."""

from __future__ import annotations

from collections.abc import Sequence

from importers.grid import CellGrid, is_missing, is_number
from importers.header import describe_column
from importers.patterns import regex
from importers.tables.noted_cells import cells_shown
from importers.words.channels import SUMMARY
from importers.words.clicks import clicks_of
from importers.words.spelling import plain
from importers.words.unit_text import is_unit

#: a word or two, or marks, and no digit
_WORD = regex(r"[^\d:=;]{1,24}")


def words_for_numbers(cells: Sequence[str], grid: CellGrid) -> tuple[str, ...]:
    """Return the words in a row's cells of numbers; none where it is a full row, or no row of the table.

    It is one where its first number and half of all are there, and no word names a column, a direction, a unit or
    a sum.
    """
    if len(cells) != grid.width:
        return ()
    numbers = [cell for cell, numeric in zip(cells, grid.numeric, strict=True) if numeric]
    odd = tuple(c for c in numbers if not (is_number(c, grid.decimal) or is_missing(c)))
    count = sum(is_number(c, grid.decimal) for c in numbers)
    if not odd or not is_number(numbers[0], grid.decimal) or 2 * count < len(numbers) or count < len(odd):
        return ()
    return odd if all(map(_says_nothing, odd)) else ()


def _says_nothing(cell: str) -> bool:
    """Whether a cell is a word that says nothing of the table or the shock."""
    known = is_unit(cell) or clicks_of(cell) or describe_column(0, cell).known or {*plain(cell).split()} & SUMMARY
    return _WORD.fullmatch(cell) is not None and not known


def said_of_words(words: Sequence[str]) -> str:
    """Return the warning that names words which stood in place of numbers, and how often."""
    cells = "1 cell of numbers holds" if len(words) == 1 else f"{len(words)} cells of numbers hold"
    return f"{cells} a word, {cells_shown(words)}: no number was taken there"
