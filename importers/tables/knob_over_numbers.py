"""A small table whose runs stand under bare numbers, the knob they are clicks of in the line above: "R 4" each."""

from __future__ import annotations

from collections.abc import Sequence

from importers.assumptions.tables import TIDY_LINES
from importers.assumptions.words import MOST_CLICKS
from importers.grid import split_cells
from importers.header import describe_column
from importers.patterns import regex
from importers.words.adjusters import CLICK_WORD, adjuster_of
from importers.words.directions import direction_of
from importers.words.spelling import plain

_MARKS = (";", "\t", "|", ",")
_CLICKED = regex(rf"\b{CLICK_WORD}\b")
_DIGIT = regex(r"\d")
_HEAD = 40  #: lines in which the knob is named
_FROM = regex(r"\b(?:from|ab|von|depuis|desde|da|out)\b.*")


def with_knob_beside(lines: Sequence[str]) -> list[str] | None:
    """Return the lines with the knob before each such number; None where there is none.

    >>> with_knob_beside(["\\tRebound clicks from full hard", "\\t0\\t\\t4", "mm/s\\tC N\\tR N\\tC N\\tR N"])
    ['\\tRebound clicks from full hard', '\\tr=0\\t\\tr=4', 'mm/s\\tC N\\tR N\\tC N\\tR N']
    """
    said = any(not _DIGIT.search(line) and _CLICKED.search(plain(line)) for line in lines[:_HEAD])
    for mark in _MARKS if said and len(lines) <= TIDY_LINES else ():
        rows = [split_cells(line, mark) for line in lines]
        for at in range(1, len(rows) - 1):
            if (knob := _knob(rows[at - 1])) and _are_runs(rows[at], rows[at + 1]):
                return [*lines[:at], mark.join(f"{knob}={c}" if c else "" for c in rows[at]), *lines[at + 1 :]]
    return None


def _knob(cells: Sequence[str]) -> str:
    """Return the adjuster that a line's one cell says numbers below are clicks of; empty where it says none."""
    filled = [cell for cell in cells if cell]
    if len(filled) != 1 or any(c.isdigit() for c in filled[0]) or not _CLICKED.search(plain(filled[0])):
        return ""
    bare = _FROM.sub("", plain(filled[0])).strip()
    way = direction_of(bare)
    return adjuster_of(bare) or (way[0] if way else "")


def _are_runs(cells: Sequence[str], names: Sequence[str]) -> bool:
    """Whether cells are click positions, each over both directions of a table's names."""
    at = [k for k, cell in enumerate(cells) if cell]
    numbers = [cells[k] for k in at]
    if len(at) < 2 or at[0] != 1 or not all(n.isdigit() and int(n) <= MOST_CLICKS for n in numbers):
        return False
    columns = [describe_column(k, name) for k, name in enumerate(names)]
    spread = all(b - a == at[1] - at[0] > 1 for a, b in zip(at, [*at[1:], len(names)], strict=True))
    return spread and columns[0].channel == "velocity" and all(c.direction for c in columns[1:])
