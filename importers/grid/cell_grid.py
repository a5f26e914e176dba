"""How the cells of a table stand: delimiter, decimal mark, thousands marks, number of columns."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from importers.grid.cells import BLANKS, is_missing, is_number, split_cells

_NAMES = {";": "semicolon", "\t": "tab", "|": "pipe", ",": "comma", BLANKS: "runs of blanks"}


@dataclass(frozen=True)
class CellGrid:
    """How the cells of a table stand."""

    delimiter: str
    decimal: str
    width: int
    numeric: tuple[bool, ...]  #: which columns hold numbers
    thousands: str = ""  #: marks that group digits
    quoted: bool = False  #: whether cells stand in quotes

    @property
    def words(self) -> str:
        """The grid for people."""
        mark = "decimal comma" if self.decimal == "," else "decimal point"
        marks = f", thousands marked by '{self.thousands}'" if self.thousands else ""
        return f"{_NAMES.get(self.delimiter, repr(self.delimiter))} between cells, {mark}{marks}"

    def cells(self, line: str) -> list[str]:
        """Return the cells of a line, without empty ones beyond the width."""
        found = split_cells(line, self.delimiter)
        while len(found) > self.width and not found[-1]:
            found.pop()
        return found

    def is_row(self, cells: Sequence[str]) -> bool:
        """Whether cells are a row of the table: numbers or missing values where numbers belong, at least one number."""
        if len(cells) != self.width:
            return False
        some = False
        for cell, numeric in zip(cells, self.numeric, strict=True):
            if not numeric:
                continue
            if is_number(cell, self.decimal):
                some = True
            elif not is_missing(cell):
                return False
        return some

    def is_line_row(self, line: str) -> bool:
        """Whether a line is a row of the table."""
        return self.is_row(self.cells(line))

    def remark(self, cells: Sequence[str]) -> str:
        """Return the words behind a row in a last cell that other rows leave out; nothing without."""
        remarked = len(cells) == self.width + 1 and any(map(str.isalpha, cells[-1])) and self.is_row(cells[:-1])
        return cells[-1] if remarked else ""

    def holds_numbers_only(self, line: str) -> bool:
        """Whether a line is two or more cells, each a number or a missing value, however many the table has."""
        cells = self.cells(line)
        return len(cells) >= 2 and all(is_number(c, self.decimal) or is_missing(c) for c in cells)
