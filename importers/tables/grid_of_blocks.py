"""A small sheet on which tables stand in a grid, beside and below one another, as one column of tables."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from importers.assumptions.tables import TIDY_LINES
from importers.grid import is_number, split_cells
from importers.header import describe_column

_MARKS = (";", "\t", "|", ",")
_FORCES = frozenset(("force", "compression", "rebound"))
_MOTIONS = frozenset(("velocity", "displacement"))


def with_blocks_stacked(lines: Sequence[str]) -> list[str] | None:
    """Return the lines with each table below the one to its left; None where no second row of tables stands there."""
    for mark in _MARKS if len(lines) <= TIDY_LINES else ():
        rows = [split_cells(line, mark) if mark in line else [line.strip()] for line in lines]
        heads = [at for at, cells in enumerate(rows) if _starts(cells)]
        if len(heads) < 2 or any(_starts(rows[at]) != _starts(rows[heads[0]]) for at in heads):
            continue
        starts = _starts(rows[heads[0]])
        bands = [_first_line(rows, at) for at in heads]
        out = list(lines[: bands[0]])
        for first, last in pairwise([*bands, len(rows)]):
            for left, right in pairwise([*starts, max(map(len, rows))]):
                block = [list(cells[left:right]) for cells in rows[first:last]]
                while block and not any(block[-1]):
                    block.pop()
                out += [mark.join(_trimmed(cells)) for cells in block] + [""]
        return out
    return None


def _starts(cells: Sequence[str]) -> list[int]:
    """Return where a line's tables begin, set apart by a blank column, if two or more stand there; else nothing."""
    starts = [k for k, cell in enumerate(cells) if cell and (k == 0 or not cells[k - 1])]
    if len(starts) < 2 or any(is_number(c, ".") or is_number(c, ",") for c in cells):
        return []
    for left, right in pairwise([*starts, len(cells)]):
        held = {c.channel or c.direction for name in cells[left:right] if name for c in (describe_column(0, name),)}
        if not held & _FORCES or not held & _MOTIONS:
            return []
    return starts


def _first_line(rows: Sequence[Sequence[str]], head: int) -> int:
    """Return the first line that belongs to the tables under a line of names: titles that touch it from above."""
    first = head
    while first > 0 and any(rows[first - 1]) and not any(is_number(c, ".") for c in rows[first - 1] if c):
        first -= 1
    return first


def _trimmed(cells: Sequence[str]) -> list[str]:
    cells = list(cells)
    while len(cells) > 1 and not cells[-1]:
        cells.pop()
    return cells
