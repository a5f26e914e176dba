"""Fixed-width text in which cells may be blank, so that counting words cannot tell the columns apart."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

import numpy as np

from importers.grid.cells import BLANKS, is_missing, is_number
from importers.grid.judging import Grid

_LEAST_LINES = 3
Span = tuple[int, int]


def spans(rows: Sequence[str], grid: Grid) -> tuple[Span, ...]:
    """Return the character columns of fixed-width rows, where some rows lack cells; empty where they are not such."""
    if grid.delimiter != BLANKS:
        return ()
    lines = [r.rstrip().expandtabs(8) for r in rows if r.strip()]
    body = [line for line in lines if _numbers(line, grid)]
    if len(body) < _LEAST_LINES or len({len(line.split()) for line in body}) < 2:
        return ()
    width = max(map(len, body))
    used = np.zeros(width + 1, bool)
    for line in body:
        used[: len(line)] |= np.frombuffer(line.encode("latin-1", "replace"), np.uint8) != 32
    edges = np.flatnonzero(np.diff(np.concatenate([[0], used.view(np.int8)])))
    found = tuple((int(a), int(b)) for a, b in zip(edges[::2], edges[1::2], strict=False))
    most = max(len(line.split()) for line in body)
    return found if len(found) == most else ()


def first_row(lines: Sequence[str], first: int, grid: Grid) -> int:
    """Return the first of the rows that end at `first`; those with more cells than most are rows too."""
    while first > 0 and _numbers(lines[first - 1], grid):
        first -= 1
    return first


def _numbers(line: str, grid: Grid) -> bool:
    cells = line.split()
    return len(cells) >= 2 and all(is_number(c, grid.decimal) or is_missing(c) for c in cells)


def widened(grid: Grid, found: Sequence[Span]) -> Grid:
    """Return the grid of rows rewritten by `as_tabs`."""
    return Grid("\t", grid.decimal, len(found), (True,) * len(found), grid.thousands)


def as_tabs(body: bytes, found: Sequence[Span], code: str) -> bytes:
    """Return fixed-width rows with a tab between cells; other lines stay as they are."""
    cuts = [0, *((a[1] + b[0]) // 2 for a, b in pairwise(found)), 1 << 30]
    out = []
    for line in body.decode(code, errors="replace").splitlines():
        text = line.expandtabs(8)
        cells = [text[a:b].strip() for a, b in pairwise(cuts)]
        inside = all(" " not in cell for cell in cells)
        out.append(
            "\t".join(cells) if inside and any(c[:1].isdigit() or c[:1] in "+-." for c in cells if c) else line.strip()
        )
    return ("\n".join(out) + "\n").encode()
