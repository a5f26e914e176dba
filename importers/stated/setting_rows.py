"""A setting in rows: a line that names adjusters or directions, and the numbers in the lines below it."""

from __future__ import annotations

import re
from collections.abc import Sequence

from importers.assumptions.words import MOST_CLICKS
from importers.patterns import regex
from importers.words.adjusters import HIGH, LOW, adjuster_of
from importers.words.directions import direction_of
from importers.words.spelling import plain

_CELLS = regex(r"[;\t|,]|\s{2,}")
_FOUR = {"lsc", "hsc", "lsr", "hsr"}
_SPEEDS = {"ls": regex(LOW), "hs": regex(HIGH)}


def clicks_in_rows(lines: Sequence[str]) -> dict[str, int]:
    """Return the clicks that stand below the adjusters' names, or in a square of speeds and directions.

    >>> clicks_in_rows(["LSC  HSC  LSR  HSR", "6  3  8  5"])
    {'lsc': 6, 'hsc': 3, 'lsr': 8, 'hsr': 5}
    >>> clicks_in_rows([",Compression,Rebound", "Low speed,6,8", "High speed,3,5"])
    {'lsc': 6, 'lsr': 8, 'hsc': 3, 'hsr': 5}
    >>> clicks_in_rows(["Low speed,,High speed,", "Comp,Reb,Comp,Reb", "6,8,2,3"])
    {'lsc': 6, 'lsr': 8, 'hsc': 2, 'hsr': 3}
    """
    rows = [[cell.strip() for cell in _CELLS.split(line.strip(" "))] for line in lines]
    for at, row in enumerate(rows[:-1]):
        if len(row) < 2:
            continue
        found = _square(row, rows[at + 1 : at + 3]) or _below(row, rows[at + 1]) or _under_speeds(rows[at : at + 3])
        if found:
            return found
    return {}


def _below(names: Sequence[str], numbers: Sequence[str]) -> dict[str, int]:
    """Return the clicks of a line of adjusters over a line of numbers."""
    at = {k: adjuster for k, cell in enumerate(names) if cell and (adjuster := adjuster_of(plain(cell)))}
    if len(at) < 2 or len(set(at.values())) < len(at) or len(numbers) != len(names):
        return {}
    found = {adjuster: _click(numbers[k]) for k, adjuster in at.items()}
    return {k: v for k, v in found.items() if v is not None} if None not in found.values() else {}


def _under_speeds(rows: Sequence[Sequence[str]]) -> dict[str, int]:
    """Return the clicks of a line of two speeds, each over the two directions of a second line, over their numbers."""
    if len(rows) < 3 or len(rows[1]) < 4:
        return {}
    speeds, ways, numbers = rows
    if len(numbers) < len(ways) or any(cell and _speed(cell) is None for cell in speeds):
        return {}
    over, found = "", {}
    for k, way in enumerate(ways):
        over = (_speed(speeds[k]) if k < len(speeds) else None) or over
        if way:
            found[over + (direction_of(plain(way)) or " ")[0]] = _click(numbers[k])
    clicks = {name: n for name, n in found.items() if n is not None}
    return clicks if len(clicks) == 4 == sum(map(bool, ways)) and {*clicks} == _FOUR else {}


def _speed(cell: str) -> str | None:
    return next((name for name, words in _SPEEDS.items() if words.fullmatch(plain(cell))), None)


def _square(ways: Sequence[str], rows: Sequence[Sequence[str]]) -> dict[str, int]:
    """Return the clicks of a line of two directions over lines of a speed and its numbers."""
    at = {k: way for k, cell in enumerate(ways) if cell and (way := direction_of(plain(cell)))}
    if len(at) != 2 or len(set(at.values())) != 2:
        return {}
    found: dict[str, int] = {}
    for row in rows:
        speed = _speed(row[0])
        numbers = [_click(row[k]) if k < len(row) else None for k in at]
        if speed is None or None in numbers:
            return {}
        found |= {speed + way[0]: n for way, n in zip(at.values(), numbers, strict=True) if n is not None}
    return found


def _click(cell: str) -> int | None:
    match = re.fullmatch(r"[-+]?(\d{1,2})(?:\s*[a-z]+)?", plain(cell))
    return int(match[1]) if match and int(match[1]) <= MOST_CLICKS else None
