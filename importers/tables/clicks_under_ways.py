"""A small table whose directions stand over several numbers of clicks each: "Rebound (N)" over "5 clicks", "10"."""

from __future__ import annotations

from collections.abc import Sequence

from importers.assumptions.tables import TIDY_LINES
from importers.grid import split_cells
from importers.header import unit_apart
from importers.patterns import regex
from importers.words.adjusters import CLICKS_ALONE
from importers.words.directions import direction_of
from importers.words.spelling import plain

_MARKS = (";", "\t", "|", ",")
#: also as Polish shortens the word
_POSITION = regex(rf"(?P<n>\d{{1,2}}) ?(?:{CLICKS_ALONE}|kl)\.?")
_SOME = regex(rf"(?i)\d ?(?:{CLICKS_ALONE}|kl)")
_BRACKETED = regex(r"\s*[\[(][^()\[\]]{1,12}[\])]")
_LEAST = 2  #: numbers under one of the directions


def with_clicks_beside_ways(lines: Sequence[str]) -> list[str] | None:
    """Return the lines with each number of clicks beside the direction over it; None where none stand so.

    >>> with_clicks_beside_ways(["Speed;Comp;Reb (N);", "mm/s;N;5 clicks;10 clicks", "50;140;257;213"])
    ['Speed mm/s;Comp N;Reb 5 clicks (N);Reb 10 clicks (N)', '50;140;257;213']
    """
    few = len(lines) <= TIDY_LINES and any(map(_SOME.search, lines))
    for mark in _MARKS if few else ():
        for at in range(len(lines) - 2):
            some = mark in lines[at] and _SOME.search(lines[at + 1])
            if some and (names := _joined(split_cells(lines[at], mark), split_cells(lines[at + 1], mark))):
                return [*lines[:at], mark.join(names), *lines[at + 2 :]]
    return None


def _joined(over: Sequence[str], below: Sequence[str]) -> list[str]:
    """Return the names of a line of directions and one of clicks below it; empty where they are none."""
    positions = [_POSITION.fullmatch(plain(cell)) for cell in below]
    ways = [cell for cell in over if cell and direction_of(plain(_BRACKETED.sub(" ", cell)))]
    if sum(map(bool, positions)) < _LEAST or not ways or len(over) > len(below) or positions[0]:
        return []
    names, way = [], ""
    for cell, under, position in zip([*over, *[""] * (len(below) - len(over))], below, positions, strict=True):
        way = cell or way
        if position is None:
            names.append(f"{cell} {under}".strip())
            continue
        if way not in ways:
            return []
        name, unit = unit_apart(way)
        names.append(f"{name} {position['n']} clicks{unit}")
    return names
