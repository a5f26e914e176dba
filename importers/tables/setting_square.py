"""A setting as a small square above a table, speeds across and directions down, as one line of clicks."""

from __future__ import annotations

import re
from collections.abc import Sequence

from importers.assumptions.tables import TIDY_LINES
from importers.grid import split_cells
from importers.words.adjusters import HIGH, LOW
from importers.words.directions import direction_of
from importers.words.spelling import plain

_MARKS = (";", "\t", "|", ",")
_CLICK = r"\d{1,2}(?:\.0+)?"


def with_square_as_line(lines: Sequence[str]) -> list[str] | None:
    """Return the lines with one such as "LSC=6 HSC=2 LSR=8 HSR=3" in place of a square; None where none stands there.

    >>> with_square_as_line([";Low speed;High speed", "Compression;6;2", "Rebound;8;3"])
    ['LSC=6 HSC=2 LSR=8 HSR=3']
    """
    for mark in _MARKS if len(lines) <= TIDY_LINES else ():
        for at in range(len(lines) - 2):
            speeds = _speeds(split_cells(lines[at], mark)) if mark in lines[at] else []
            ways = [_clicks(split_cells(line, mark), speeds) for line in lines[at + 1 : at + 3]] if speeds else []
            if len(ways) == 2 and all(ways) and not {*ways[0]} & {*ways[1]}:
                said = " ".join(f"{key.upper()}={n}" for way in ways for key, n in way.items())
                return [*lines[:at], said, *lines[at + 3 :]]
    return None


def _speeds(cells: Sequence[str]) -> list[str]:
    """Return "ls" and "hs" in the order that two cells behind a corner name them; none of other cells."""
    words = [plain(cell) for cell in cells[1:] if cell]
    found = ["ls" if re.fullmatch(LOW, word) else "hs" if re.fullmatch(HIGH, word) else "" for word in words]
    return found if sorted(found) == ["hs", "ls"] and not (cells[0] and direction_of(plain(cells[0]))) else []


def _clicks(cells: Sequence[str], speeds: Sequence[str]) -> dict[str, int]:
    """Return the clicks of a direction and its two numbers; none of other cells."""
    way = direction_of(plain(cells[0])) if cells else None
    numbers = [cell for cell in cells[1:] if cell]
    if way is None or len(numbers) != 2 or not all(re.fullmatch(_CLICK, n) for n in numbers):
        return {}
    return {speed + way[0]: int(float(n)) for speed, n in zip(speeds, numbers, strict=True)}
