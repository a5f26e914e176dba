"""A body as a row of pieces: plain rows, rows that had to be mended, and lines that are no rows."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple, TypeAlias

import numpy as np

from dynoan.model.arrays import BoolArray
from importers.grid import BLANKS, CellGrid, is_missing
from importers.grid.cells import is_beyond
from importers.tables.odd_lines import BodyLines
from importers.tables.word_gaps import words_for_numbers
from importers.words.clicks import clicks_of


class PlainRows(NamedTuple):
    """Lines that are rows as they stand."""

    start: int
    stop: int


class MendedRow(NamedTuple):
    """One row, its missing values written so that a plain parser knows them."""

    data: bytes
    over: int  #: how many of its cells say that the sensor was beyond its range
    remark: str = ""  #: words behind it, in a cell that other rows leave out
    words: tuple[str, ...] = ()  #: what stands in place of its numbers


class OtherLines(NamedTuple):
    """Lines next to one another that are no rows; blank ones are left out."""

    at: tuple[int, ...]
    texts: tuple[str, ...]
    behind: bool = False  #: whether they stand behind a row, which follows them


Piece: TypeAlias = PlainRows | MendedRow | OtherLines


def pieces(lines: BodyLines, odd: BoolArray) -> Iterator[Piece]:
    """Yield the pieces of a body in order; only its odd lines are looked at."""
    done, last = 0, ""
    others: list[tuple[int, str]] = []
    grid = lines.body.grid
    for line in map(int, np.flatnonzero(odd)):
        if line > done:
            yield from _others(others)
            others = []
            yield PlainRows(done, line)
        done = line + 1
        text = lines.text(line)
        cells = grid.cells(text)
        remark = grid.remark(cells)
        cells = cells[: grid.width] if remark else cells
        if grid.is_row(cells):
            states = bool(remark and clicks_of(remark))
            yield from _others(others)
            others = []
            if states and remark != last:
                yield OtherLines((line,), (remark,), behind=True)
            last = remark if states else last
            yield _mended(cells, grid, "" if states else remark)
        elif words := words_for_numbers(cells, grid):
            yield from _others(others)
            others = []
            yield _mended(["" if c in words else c for c in cells], grid, remark)._replace(words=words)
        elif text.strip() and not all(is_missing(c) for c in cells):
            others.append((line, text))
    yield from _others(others)
    if done < len(lines):
        yield PlainRows(done, len(lines))


def _others(found: list[tuple[int, str]]) -> Iterator[OtherLines]:
    if found:
        yield OtherLines(tuple(at for at, _ in found), tuple(text for _, text in found))


def _mended(cells: list[str], grid: CellGrid, remark: str) -> MendedRow:
    over = sum(map(is_beyond, cells))
    mark = " " if grid.delimiter == BLANKS else grid.delimiter
    blank = "NaN" if grid.delimiter == BLANKS else ""
    out = [blank if numeric and is_missing(c) else c for c, numeric in zip(cells, grid.numeric, strict=True)]
    if grid.quoted:
        out = [f'"{c}"' if mark in c else c for c in out]
    return MendedRow((mark.join(out) + "\n").encode(), over, remark)
