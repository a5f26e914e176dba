"""A table of a file, and the blocks of rows it is made of."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from typing import NamedTuple

import numpy as np

from dynoan.errors import ReadError, Spot
from dynoan.model.arrays import BoolArray, FloatArray
from dynoan.model.importing import ReadOptions
from importers.grid import CellGrid
from importers.header import Header, HeaderColumn
from importers.tables.extent import KnownExtents
from importers.words.keys import DATE
from importers.words.spelling import plain


def is_day_column(column: HeaderColumn) -> bool:
    """Whether a column's name says that it holds the day of each row."""
    return plain(column.text) in DATE


class RowBreak(NamedTuple):
    """A place between rows where the file says something."""

    row: int
    lines: tuple[str, ...]


@dataclass(frozen=True)
class ParsedTable:
    """One table of a file, parsed, its columns named but not yet understood as channels."""

    columns: tuple[HeaderColumn, ...]
    values: Mapping[int, FloatArray]  #: by column index, shape (rows,), as they stand; NaN where a cell is empty
    texts: Mapping[int, list[str]]  #: by column index, cells of the columns of words
    rows: int
    grid: CellGrid
    first_line: int  #: line of the file where the rows start, from 1
    shared: tuple[str, ...] = ()  #: lines that hold for the whole file
    own: tuple[str, ...] = ()  #: lines that hold for this table
    breaks: tuple[RowBreak, ...] = ()
    warnings: tuple[str, ...] = ()
    over: int = 0  #: cells that say the sensor was beyond its range
    named: bool = True  #: whether a line names the columns
    name_cells: int = 0  #: how many cells the line of the names has; 0 where it is not a line
    options: ReadOptions = field(default_factory=ReadOptions)  #: with what an own layout states
    layout: str = "text"
    user: ReadOptions = field(default_factory=ReadOptions)  #: what the user states alone
    extents: KnownExtents = field(default_factory=KnownExtents)  #: of columns as they were parsed
    day: str | None = None  #: of the first sample, where its stamps hold one, ISO 8601

    @property
    def own_layout(self) -> str:
        """The name of the team's layout that matches; empty where none does."""
        return "" if self.layout == "text" else self.layout

    def kept(self, keep: Sequence[bool] | BoolArray, said: str) -> ParsedTable:
        """Return the table with some of its rows alone, shape (rows,), and a warning of it."""
        mask = np.asarray(keep, bool)
        texts = {k: [t for t, kept in zip(cells, mask, strict=True) if kept] for k, cells in self.texts.items()}
        values = {k: x[mask] for k, x in self.values.items()}
        return replace(self, rows=int(mask.sum()), values=values, texts=texts, warnings=(*self.warnings, said))

    def stated_by(self, *, user: object) -> str:
        """Return who states an option, for people: the user, where what the user states of it is given, or a layout."""
        return "the user" if user or not self.own_layout else f"layout '{self.own_layout}'"


class TableBody(NamedTuple):
    """The rows under one header and whatever stands between them, as bytes."""

    data: bytes
    header: Header
    grid: CellGrid
    first_line: int  #: line of the file where the rows start, from 1
    file: str  #: its name, for refusals
    code: str  #: encoding of the words among the rows

    def decoded(self, raw: bytes) -> str:
        """Return a line as text, without its end."""
        return raw.decode(self.code, errors="replace").strip("\r\n\x0c\x1a\0")

    def fault(self, line: int, text: str, way_out: str) -> ReadError:
        """Return a refusal of a line, counted from the first row: where, what stood there, what was wanted."""
        shown = "".join(c if c.isprintable() else "·" for c in text[:38]) + ("…" if len(text) > 38 else "")
        what = f"found '{shown}', wanted {self.grid.width} cells of numbers"
        return ReadError(what, where=Spot(self.file, line=self.first_line + line), hint=way_out)


class RowBlock(NamedTuple):
    """Rows under one header, with the lines that belong to them."""

    data: bytes
    first_line: int  #: line of the file where the rows start, from 1
    lines: tuple[str, ...] = ()  #: what stands above the rows, below earlier rows
    breaks: tuple[RowBreak, ...] = ()
    warnings: tuple[str, ...] = ()
    over: int = 0  #: cells that say the sensor was beyond its range
