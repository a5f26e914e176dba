"""A small table whose directions stand over several numbers of clicks each: "Rebound (N)" over "5 clicks", "10"."""

from __future__ import annotations

from collections.abc import Sequence

from importers.assumptions.tables import TIDY_LINES
from importers.assumptions.words import MOST_CLICKS
from importers.grid import split_cells
from importers.header import describe_column, unit_apart
from importers.patterns import regex
from importers.words.adjusters import CLICKS_ALONE
from importers.words.directions import direction_of
from importers.words.spelling import plain

_MARKS = (";", "\t", "|", ",")
#: also as Polish shortens the word
_POSITION = regex(rf"(?P<n>\d{{1,2}}) ?(?:{CLICKS_ALONE}|kl)\.?")
_SOME = regex(rf"(?i)\d ?(?:{CLICKS_ALONE}|kl)")
_BRACKETED = regex(r"\s*[\[(][^()\[\]]{1,12}[\])]")
_CLICKED = regex(rf"\b{CLICKS_ALONE}\b")
_BARE = regex(r"\d{1,2}")
_LEAST = 2  #: numbers under one of the directions


def with_clicks_beside_ways(lines: Sequence[str]) -> list[str] | None:
    """Return the lines with each number of clicks beside the direction over it; None where none stand so.

    >>> with_clicks_beside_ways(["Speed;Comp;Reb (N);", "mm/s;N;5 clicks;10 clicks", "50;140;257;213"])
    ['Speed mm/s;Comp N;Reb 5 clicks (N);Reb 10 clicks (N)', '50;140;257;213']
    """
    few = len(lines) <= TIDY_LINES
    for mark in _MARKS if few else ():
        for at in range(len(lines) - 2):
            if mark in lines[at] and (names := _each_with_its_own(lines, at, mark)):
                note = split_cells(lines[at + 1], mark)[0]
                counted = [note] if " " in note else []  # "Clicks from closed"
                return [*lines[:at], *counted, mark.join(names), *lines[at + 2 :]]
            some = mark in lines[at] and _SOME.search(lines[at + 1])
            if some and (names := _joined(split_cells(lines[at], mark), split_cells(lines[at + 1], mark))):
                return [*lines[:at], mark.join(names), *lines[at + 2 :]]
    return None


def _each_with_its_own(lines: Sequence[str], at: int, mark: str) -> list[str]:
    """Return the names of a line of directions, each with its bare number in a line of clicks below; empty where none.

    The line says first that its numbers are clicks: "Speed;Comp;Reb;Comp;Reb" over "Clicks;2;4;6;8".
    """
    below = split_cells(lines[at + 1], mark)
    first = plain(below[0])
    if not _CLICKED.search(first) or any(map(str.isdigit, first)) or direction_of(first):
        return []
    over = split_cells(lines[at], mark)
    numbers = all(_BARE.fullmatch(cell) and int(cell) <= MOST_CLICKS for cell in below[1:])
    if len(over) != len(below) or len(over) < 2 * _LEAST + 1 or not numbers:
        return []
    if describe_column(0, over[0]).channel != "velocity" or not all(describe_column(0, n).direction for n in over[1:]):
        return []
    apart = [unit_apart(name) for name in over[1:]]
    return [over[0], *(f"{name} {n} clicks{unit}" for (name, unit), n in zip(apart, below[1:], strict=True))]


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
