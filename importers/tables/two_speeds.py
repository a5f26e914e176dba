"""Columns of a small table that hold two clicks a cell, "6/2" below "Comp LS/HS": a column for each adjuster."""

from __future__ import annotations

from collections.abc import Sequence

from importers.assumptions.tables import TIDY_LINES
from importers.grid import split_cells
from importers.patterns import regex
from importers.words.clicks import clicks_of

_MARKS = (";", "\t", "|", ",")
_TWO = regex(r"(\d{1,2})\s?[/-]\s?(\d{1,2})")


def with_speeds_apart(lines: Sequence[str]) -> list[str] | None:
    """Return the lines with each such column as two; None where there is none.

    >>> with_speeds_apart(["Comp LS/HS;v mm/s;C N", "6/2;50;410", "6/2;100;560"])
    ['lsc;hsc;v mm/s;C N', '6;2;50;410', '6;2;100;560']
    """
    if len(lines) > TIDY_LINES or not any(map(_TWO.search, lines)):
        return None
    for mark in _MARKS:
        rows = [split_cells(line, mark) if mark in line else [] for line in lines]
        for at, names in enumerate(rows[:-2]):
            pairs = {k: pair for k, name in enumerate(names) if (pair := _adjusters(name))}
            body = [cells for cells in rows[at + 1 :] if len(cells) == len(names)]
            if pairs and body and all(_TWO.fullmatch(cells[k]) for cells in body for k in pairs):
                head = mark.join(one for k, name in enumerate(names) for one in pairs.get(k, (name,)))
                below = [_apart(line, cells, pairs, names, mark) for line, cells in
                         zip(lines[at + 1 :], rows[at + 1 :], strict=True)]  # fmt: skip
                return [*lines[:at], head, *below]
    return None


def _adjusters(name: str) -> tuple[str, ...]:
    """Return the adjusters of low and high speed that a column's name lists for one direction; none of another name."""
    if "/" not in name and "-" not in name:
        return ()
    found = clicks_of(f"{name} 6/2")
    first, second = tuple(found) if len(found) == 2 else ("", "")
    both = first[-1:] == second[-1:] and {first[:2], second[:2]} == {"ls", "hs"}
    return (first, second) if both else ()


def _apart(line: str, cells: Sequence[str], pairs: dict[int, tuple[str, ...]], names: Sequence[str], mark: str) -> str:
    if len(cells) != len(names):
        return line
    return mark.join(_TWO.sub(rf"\1{mark}\2", cell) if k in pairs else cell for k, cell in enumerate(cells))
