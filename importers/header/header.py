"""What stands over a table's rows, and the lines near above them in which it is looked for."""

from __future__ import annotations

from collections.abc import Mapping
from typing import NamedTuple

from importers.header.column import HeaderColumn


class Header(NamedTuple):
    """What stands over a table's body."""

    columns: tuple[HeaderColumn, ...]
    preamble: tuple[str, ...]  #: the other lines above, as they stood
    lines: frozenset[str]  #: the header's own lines, to know repeats
    units_row: bool = False
    found: bool = True  #: whether a line names the columns
    cells: int = 0  #: how many cells the names' line has, before it is made as wide as the body

    @property
    def names(self) -> tuple[str, ...]:
        """The column names as they stood."""
        return tuple(column.text for column in self.columns)


class NearLines(NamedTuple):
    """The lines near above the rows that may be a header, by their number."""

    at: list[int]
    cells: Mapping[int, list[str]]
