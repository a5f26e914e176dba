"""A small table whose speeds each stand over its directions, "50 mm/s" over "C" and "R", with both in one line."""

from __future__ import annotations

from collections.abc import Sequence

from importers.assumptions.tables import ACROSS_LEAST, TIDY_LINES
from importers.grid import split_cells
from importers.patterns import regex
from importers.words.directions import direction_of
from importers.words.spelling import plain
from importers.words.unit_text import is_unit

_MARKS = (";", "\t", "|", ",")
_SPEED = regex(r"@?\s*\d+(?:[.,]\d+)?\s*(?P<unit>\D+)")
_MEASURED = regex(r"\d\s?[^\W\d_]")  #: a number with its unit
_BRACKETED = regex(r"[\[(][^\[\]()]*[\])]")


def with_speeds_beside_ways(lines: Sequence[str]) -> list[str] | None:
    """Return the lines with each direction's speed beside it, in one line; None where speeds stand over none.

    >>> with_speeds_beside_ways(["Clicks;50 mm/s;;250 mm/s", ";C;R;C;R", "2;410;620;905;1390"])
    ['Clicks;C 50 mm/s;R 50 mm/s;C 250 mm/s;R 250 mm/s', '2;410;620;905;1390']
    """
    some = len(lines) <= TIDY_LINES and any(len(_MEASURED.findall(line)) > 1 for line in lines)
    for mark in _MARKS if some else ():
        rows = [split_cells(line, mark) if mark in line else [] for line in lines]
        for at in range(len(rows) - 2):
            if names := _joined(rows[at], rows[at + 1]):
                return [*lines[:at], mark.join(names), *lines[at + 2 :]]
    return None


def _joined(over: Sequence[str], ways: Sequence[str]) -> list[str]:
    """Return the names of a line of speeds and one of directions below it; empty where they are none."""
    first = next((k for k, cell in enumerate(ways) if _is_way(cell)), 0)
    speeds = over[first:]
    if first < 1 or len(ways) < max(ACROSS_LEAST, len(over)) or not all(map(_is_way, ways[first:])):
        return []
    if len([cell for cell in speeds if cell]) < ACROSS_LEAST - 1 or not speeds[0]:
        return []
    if not all(_is_speed(cell) for cell in speeds if cell):
        return []
    names = [a or b for a, b in zip(over[:first], ways[:first], strict=True)]
    speed = ""
    for cell, way in zip([*speeds, *[""] * (len(ways) - len(over))], ways[first:], strict=True):
        speed = cell or speed
        names.append(f"{way} {speed}")
    return names


def _is_way(cell: str) -> bool:
    return direction_of(plain(_BRACKETED.sub(" ", cell))) is not None


def _is_speed(cell: str) -> bool:
    found = _SPEED.fullmatch(cell)
    return found is not None and is_unit(found["unit"].strip("[]() "), "velocity")
