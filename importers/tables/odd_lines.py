"""Which lines of a body are plainly no rows: found by counting bytes, all at once."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from dynoan.errors import ReadError
from dynoan.model.arrays import BoolArray, IntArray
from importers.assumptions.tables import MOST_ODD_LINES, ODD_SHARE
from importers.grid import BLANKS, CellGrid
from importers.tables.table import TableBody

_LOOKS, _LOOK = 5, 1 << 16  #: how often, and how many bytes, to look into a large body first
_LOOK_LINES = 200
_QUOTE = '"'
_MOST_LOOKED_AT = 400_000  #: lines that are looked at one by one at most; more would take minutes


@dataclass(frozen=True)
class BodyLines:
    """A body cut into lines."""

    body: TableBody
    starts: IntArray  #: where each starts [byte]
    ends: IntArray  #: where each ends, its line end included [byte]

    def __len__(self) -> int:
        return len(self.starts)

    def raw(self, start: int, stop: int) -> bytes:
        """Return lines from one to before another, as they stand."""
        return self.body.data[self.starts[start] : self.ends[stop - 1]]

    def text(self, line: int) -> str:
        """Return a line as text."""
        return self.body.decoded(self.raw(line, line + 1))


def cut_lines(body: TableBody) -> BodyLines:
    """Return the lines of a body."""
    data = body.data
    newlines = np.flatnonzero(np.frombuffer(data, np.uint8) == ord("\n")) + 1
    starts = np.concatenate([[0], newlines])
    ends = np.concatenate([newlines, [len(data)]])
    keep = starts < len(data)
    return BodyLines(body, starts[keep], ends[keep])


def refuse_rubbish(body: TableBody) -> None:
    """Refuse a large body most of whose lines are no rows, from a few looks at it: it may be 50 MB of anything.

    Raises
    ------
    ReadError
        With the first such line.
    """
    size = len(body.data)
    if size < _LOOKS * _LOOK * 4:
        return
    seen, bad = 0, []
    for k in range(_LOOKS):
        at = size * (2 * k + 1) // (2 * _LOOKS)
        for raw in body.data[at : at + _LOOK].split(b"\n")[1:-1][:_LOOK_LINES] or [body.data[at : at + 100]]:
            seen += 1
            text = body.decoded(raw)
            if text.strip() and text.strip() not in body.header.lines and not body.grid.is_line_row(text):
                bad.append((body.data.find(raw, at), text))
    if 2 * len(bad) > seen:
        at, text = bad[0]
        line = body.data.count(b"\n", 0, at)
        raise body.fault(line, text, "most lines from there on are no rows: is this one file?")


def odd_lines(lines: BodyLines) -> BoolArray:
    """Return which lines must be looked at, shape (lines,): those with a strange byte, or more or fewer cells than all.

    Raises
    ------
    ReadError
        If there are too many.
    """
    body = lines.body
    odd = _odd(lines)
    count = int(np.count_nonzero(odd))
    apart = all(body.grid.numeric) and body.grid.delimiter != BLANKS
    if apart and count > MOST_ODD_LINES and count > ODD_SHARE * len(odd):
        first = int(np.flatnonzero(odd)[0])
        raise body.fault(first, lines.text(first), f"{count} lines between the rows are none; split the file")
    return odd


def _odd(lines: BodyLines) -> BoolArray:
    grid, a = lines.body.grid, np.frombuffer(lines.body.data, np.uint8)
    everything = np.ones(len(lines), bool)
    if not all(grid.numeric):
        if len(lines) > _MOST_LOOKED_AT:
            raise ReadError(
                f"{len(lines)} lines with words in the rows and breaks between them",
                where=lines.body.file,
                hint="split the file",
            )
        return everything
    odd = np.asarray(np.logical_or.reduceat(_strange(grid)[a], lines.starts), bool)
    quotes = _count(a, _QUOTE, lines) if grid.quoted else np.zeros(len(lines), int)
    odd |= quotes % 2 == 1
    if grid.delimiter != BLANKS:
        # Where all cells stand in quotes, marks within them are of the numbers.
        apart = (_count(a, grid.delimiter, lines) != grid.width - 1) & (quotes != 2 * grid.width)
        return np.asarray(odd | apart, bool)
    return everything if len(lines) <= _MOST_LOOKED_AT else odd


def _count(a: NDArray[np.uint8], mark: str, lines: BodyLines) -> IntArray:
    """Return how often a character stands in each line of a body's bytes, shape (lines,)."""
    return np.asarray(np.add.reduceat((a == ord(mark)).view(np.uint8), lines.starts, dtype=np.int32))


def _strange(grid: CellGrid) -> BoolArray:
    """Return which bytes stand in no plain row, shape (256,)."""
    mark = "\t" if grid.delimiter == BLANKS else grid.delimiter
    usual = "0123456789+-eE \r\n" + grid.decimal + mark + _QUOTE * grid.quoted
    grouping = grid.thousands.replace("\u00a0", "").replace("’", "").replace("\u202f", "").replace("\u2009", "")
    table = np.ones(256, bool)
    table[[ord(c) for c in usual + grouping]] = False
    return table
