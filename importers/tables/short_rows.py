"""Rows that leave out last columns, such as a temperature or a remark that few have: made as long as the names."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

import numpy as np

from dynoan.model.arrays import BoolArray, IntArray
from importers.assumptions.tables import (
    NAMES_WITHIN,
    ROWS_PER_TORN,
    ROWS_SEEN,
    TORN_ALWAYS,
    TORN_LEAST_ROWS,
    WIDEST_TABLE,
)
from importers.decoding import lines_of
from importers.grid import is_any_number, is_missing, split_cells
from importers.header import HeaderColumn, describe_column, uncomment
from importers.tables.keys_over_columns import is_key
from importers.tables.noted_cells import notes_left_out
from importers.tables.place import CodedPlace
from importers.words.clicks import clicks_of

_MARKS = (";", "\t", "|", ",")
_MOTIONS = frozenset(("displacement", "velocity"))
_NEEDED = _MOTIONS | {"time", "force"}
_BRACKETS = (("(", ")"), ("[", "]"), ("{", "}"))
_DIGIT = np.isin(np.arange(256), list(b"0123456789"))
_NEWLINE, _RETURN, _QUOTE = 10, 13, 34


class _Names(NamedTuple):
    """The line that names a table's columns."""

    line: int
    mark: str
    columns: tuple[HeaderColumn, ...]

    @property
    def least(self) -> int:
        """How many cells a row has that lacks nothing needed."""
        return 1 + max(i for i, column in enumerate(self.columns) if _is_needed(column))

    def is_row(self, line: str) -> bool:
        """Whether a line is a row of the table, its last cells there or not."""
        cells = split_cells(line, self.mark)
        needed = [cells[i] for i, c in enumerate(self.columns) if i < len(cells) and _is_needed(c)]
        numbers = [is_any_number(cell) for cell in needed]
        return sum(numbers) > 1 and all(n or is_missing(cell) for n, cell in zip(numbers, needed, strict=True))


class _Lines(NamedTuple):
    """The lines below the names."""

    data: bytes
    starts: IntArray  #: where each starts [byte]
    ends: IntArray  #: where each ends, its line end left out [byte]
    cells: IntArray  #: how many each has; 0 where there is no digit in it

    def text(self, at: int) -> str:
        """Return one of them, words of any encoding as they may be."""
        return self.data[self.starts[at] : self.ends[at]].decode("utf-8", errors="replace")


def with_short_rows_ended(coded: CodedPlace, *, deep: bool = False) -> CodedPlace:
    """Return a place whose rows that lack last columns have them empty, where other rows fill them; else the place.

    Parameters
    ----------
    coded
        A place of a file.
    deep
        Whether rows are looked at where all of the head's have as many cells as there are names.
    """
    place = coded.place
    head = lines_of(place.text)
    names = _names_in(head[:NAMES_WITHIN])
    if names is None or not (deep or _lack_some(head[names.line + 1 :], names)):
        return coded
    at = place.offset(names.line + 1)
    lines = _lines(bytes(place.data[at:]), names.mark)
    short = _short(lines, names)
    if not short.any():
        return coded
    data = bytes(place.data[:at]) + _ended(lines, short, names)
    said = (*coded.said, *_notes(lines, short, names))
    return CodedPlace(place._replace(data=data).moved_to(place.at, coded.encoding), coded.encoding, said)


def _names_in(head: Sequence[str]) -> _Names | None:
    """Return the first line whose cells name a force and a motion and end in columns that a row may lack."""
    for at, line in enumerate(head):
        if not any(map(str.isalpha, line)):
            continue
        bare = uncomment(line)
        for mark in (mark for mark in _MARKS if bare.count(mark) > 1):
            cells = split_cells(bare, mark)
            while cells and not cells[-1]:
                cells.pop()
            if not 3 <= len(cells) <= WIDEST_TABLE or any(
                cell.count(a) != cell.count(b) for cell in cells for a, b in _BRACKETS
            ):
                continue
            columns = tuple(describe_column(i, cell) for i, cell in enumerate(cells))
            held = {c.channel or c.direction or ("force" if c.clicks else None) for c in columns}
            if held & _MOTIONS and held & {"force", "compression", "rebound"}:
                return None if _is_needed(columns[-1]) else _Names(at, mark, columns)
    return None


def _is_needed(column: HeaderColumn) -> bool:
    """Whether a row without a number of this column is no whole one."""
    return bool(column.channel in _NEEDED or column.direction or column.clicks)


def _lack_some(below: Sequence[str], names: _Names) -> bool:
    """Whether a line of the head has all needed cells and not all that are named."""
    counts = {line.count(names.mark) + 1 for line in below if any(map(str.isdigit, line))}
    return any(names.least <= count < len(names.columns) for count in counts)


def _lines(data: bytes, mark: str) -> _Lines:
    a = np.frombuffer(data, np.uint8)
    newlines = np.flatnonzero(a == _NEWLINE)
    starts, ends = np.concatenate([[0], newlines + 1]), np.concatenate([newlines, [len(a)]])
    starts, ends = starts[starts < len(a)], ends[: int(np.count_nonzero(starts < len(a)))]
    if not len(starts):
        return _Lines(data, starts, ends, starts)
    ends = ends - ((ends > starts) & (a[np.maximum(ends - 1, 0)] == _RETURN))
    cells = 1 + np.add.reduceat((a == ord(mark)).view(np.uint8), starts, dtype=np.int64)
    digits = np.logical_or.reduceat(_DIGIT[a], starts)
    lines = _Lines(data, starts, ends, np.where(digits, cells, 0))
    for at in map(int, np.flatnonzero(np.logical_or.reduceat(a == _QUOTE, starts) & digits)[:ROWS_SEEN]):
        text = lines.text(at)
        lines.cells[at] = 0 if text.count('"') % 2 else len(split_cells(text, mark))
    return lines


def _short(lines: _Lines, names: _Names) -> BoolArray:
    """Return which lines are rows that lack last cells, shape (lines,); none where no other row fills one of those."""
    width, count = len(names.columns), lines.cells
    none = np.zeros(len(count), bool)
    until = _next_table(lines, names)
    rows = (count >= names.least) & (np.arange(len(count)) < until)
    short = rows & (count < width)
    fuller = rows & (count > count[short].min(initial=width))
    if not short.any() or any(len(_filled(lines.text(at), names)) > width for at in _some(rows & (count > width))):
        return none
    if not any(names.is_row(lines.text(at)) for at in _some(fuller)):
        return none
    short[_some(short)] = [names.is_row(lines.text(at)) for at in _some(short)]
    full, lacking = int(np.count_nonzero(rows & ~short)), int(np.count_nonzero(short))
    if full + lacking >= TORN_LEAST_ROWS and lacking <= max(TORN_ALWAYS, full // ROWS_PER_TORN):
        return none
    if full > lacking and not lines.data.endswith(b"\n"):
        short[-1] = False  # where writing broke off
    return short


def _notes(lines: _Lines, short: BoolArray, names: _Names) -> tuple[str, ...]:
    """Return the warning of words that a few rows have in a last column which says nothing else; none without."""
    last = [c.index for c in names.columns if c.index >= names.least and not c.known]
    fuller = _some(~short & (lines.cells > names.least))
    rows = [cells for at in fuller if names.is_row(text := lines.text(at)) for cells in [split_cells(text, names.mark)]]
    # What stands behind a key is its value.
    some = [(row[k - 1], row[k]) for row in rows for k in last if k < len(row)]
    words = [cell for before, cell in some if any(map(str.isalpha, cell)) and not is_key(before)]
    words = [cell for cell in words if not clicks_of(cell)]
    return (notes_left_out(words),) if words else ()


def _some(which: BoolArray) -> IntArray:
    """Return where the first of some lines are, shape (lines,)."""
    return np.flatnonzero(which)[:ROWS_SEEN]


def _next_table(lines: _Lines, names: _Names) -> int:
    """Return the first line that names columns otherwise."""
    for at in _some(lines.cells == 0):
        other = _names_in([text := lines.text(at)])
        if len(split_cells(text, names.mark)) > 1 and other is not None and other.columns != names.columns:
            return int(at)
    return len(lines.cells)


def _filled(text: str, names: _Names) -> list[str]:
    cells = split_cells(text, names.mark)
    while cells and not cells[-1]:
        cells.pop()
    return cells


def _ended(lines: _Lines, short: BoolArray, names: _Names) -> bytes:
    """Return the lines with as many marks behind each short row as it lacks."""
    at = np.repeat(lines.ends[short], len(names.columns) - lines.cells[short])
    return np.insert(np.frombuffer(lines.data, np.uint8), at, ord(names.mark)).tobytes()
