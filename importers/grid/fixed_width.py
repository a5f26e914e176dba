"""Fixed-width text in which cells may be blank, so that counting words cannot tell the columns apart."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise
from typing import NamedTuple

import numpy as np

from importers.assumptions.grid import FIXED_WIDTH_LINES, TAB_STOP
from importers.grid.cell_grid import CellGrid
from importers.grid.cells import BLANKS

_END_OF_LINE = 1 << 30


class ColumnSpan(NamedTuple):
    """The character columns of one cell."""

    start: int
    end: int


def fixed_spans(rows: Sequence[str], grid: CellGrid) -> tuple[ColumnSpan, ...]:
    """Return the character columns of fixed-width rows, where some rows lack cells; empty where they are not such."""
    if grid.delimiter != BLANKS:
        return ()
    lines = [r.rstrip().expandtabs(TAB_STOP) for r in rows if r.strip()]
    body = [line for line in lines if grid.holds_numbers_only(line)]
    if len(body) < FIXED_WIDTH_LINES or len({len(line.split()) for line in body}) < 2:
        return ()
    used = np.zeros(max(map(len, body)) + 1, bool)
    for line in body:
        used[: len(line)] |= np.frombuffer(line.encode("latin-1", "replace"), np.uint8) != ord(" ")
    edges = np.flatnonzero(np.diff(np.concatenate([[0], used.view(np.int8)])))
    found = tuple(ColumnSpan(int(a), int(b)) for a, b in zip(edges[::2], edges[1::2], strict=False))
    most = max(len(line.split()) for line in body)
    return found if len(found) == most else ()


def first_fixed_row(lines: Sequence[str], first: int, grid: CellGrid) -> int:
    """Return the first of the rows that end at `first`; those with more cells than most are rows too."""
    while first > 0 and grid.holds_numbers_only(lines[first - 1]):
        first -= 1
    return first


def tabbed(grid: CellGrid, found: Sequence[ColumnSpan]) -> CellGrid:
    """Return the grid of rows rewritten by `as_tabs`."""
    return CellGrid("\t", grid.decimal, len(found), (True,) * len(found), grid.thousands)


def as_tabs(body: bytes, found: Sequence[ColumnSpan], code: str) -> bytes:
    """Return fixed-width rows with a tab between cells, as UTF-8; other lines stay as they are."""
    cuts = [0, *((a.end + b.start) // 2 for a, b in pairwise(found)), _END_OF_LINE]
    lines = (_tabs(line, cuts) for line in body.decode(code, errors="replace").splitlines())
    return ("\n".join(lines) + "\n").encode()


def _tabs(line: str, cuts: Sequence[int]) -> str:
    text = line.expandtabs(TAB_STOP)
    cells = [text[a:b].strip() for a, b in pairwise(cuts)]
    apart = all(" " not in cell for cell in cells)
    is_row = apart and any(c[:1].isdigit() or c[:1] in "+-." for c in cells if c)
    return "\t".join(cells) if is_row else line.strip()
