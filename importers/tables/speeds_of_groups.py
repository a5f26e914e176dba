"""A small table of settings down and bare speeds across, their unit in the title over each direction's group."""

from __future__ import annotations

import re
from collections.abc import Sequence
from itertools import pairwise

from importers.assumptions.tables import TIDY_LINES
from importers.grid import is_number, split_cells
from importers.header import describe_column
from importers.patterns import regex
from importers.words.directions import direction_of
from importers.words.spelling import plain
from importers.words.unit_text import is_unit

_MARKS = (";", "\t", "|", ",")
_BRACKETED = regex(r"[\[(]([^\[\]()]{1,9})[\])]")
_LEAST_SPEEDS = 2  #: of each direction


def with_units_at_speeds(lines: Sequence[str]) -> list[str] | None:
    """Return the lines with direction and units at each bare speed across, without the titles; None of other tables.

    >>> with_units_at_speeds([";Comp [N] at mm/s;;Reb [N] at mm/s;", "LSC;5;9;5;9", "2;248;488;-356;-775"])
    ['LSC;compression 5 mm/s [N];compression 9 mm/s [N];rebound 5 mm/s [N];rebound 9 mm/s [N]', '2;248;488;-356;-775']
    """
    for mark in _MARKS if len(lines) <= TIDY_LINES else ():
        for at in range(len(lines) - 2):
            over, names = split_cells(lines[at], mark), split_cells(lines[at + 1], mark)
            if found := _named(over, names, split_cells(lines[at + 2], mark)):
                return [*lines[:at], mark.join(found), *lines[at + 2 :]]
    return None


def _named(over: Sequence[str], names: Sequence[str], row: Sequence[str]) -> list[str] | None:
    """Return the names of such a table's columns; None of another."""
    titles = {k: title for k, cell in enumerate(over) if cell and (title := _title(cell))}
    first = min(titles, default=0)
    filled = sum(map(bool, over))
    if (
        len(titles) != len({title[0] for title in titles.values()})
        or filled != len(titles)
        or not 0 < first < len(names)
    ):
        return None
    knobs = all(describe_column(k, name).role for k, name in enumerate(names[:first]))
    starts = [*sorted(titles), len(names)]
    groups = [names[a:b] for a, b in pairwise(starts)]
    if not knobs or len(row) != len(names) or not all(map(_are_speeds, groups)):
        return None
    out = [*names[:first]]
    for start, group in zip(starts, groups, strict=False):
        way, force, speed = titles[start]
        out += [f"{way} {name} {speed} [{force}]" for name in group]
    return out


def _are_speeds(cells: Sequence[str]) -> bool:
    """Whether cells are bare numbers that rise."""
    if len(cells) < _LEAST_SPEEDS or not all(is_number(c, ".") or is_number(c, ",") for c in cells):
        return False
    speeds = [float(c.replace(",", ".")) if c.count(",") + c.count(".") < 2 else 0.0 for c in cells]
    return speeds[0] > 0 and speeds == sorted({*speeds})


def _title(cell: str) -> tuple[str, str, str] | None:
    """Return the direction, the unit of force and the unit of speed that a title states; None where it lacks one."""
    force = next((m[1] for m in _BRACKETED.finditer(cell) if is_unit(m[1], "force")), "")
    words = re.split(r"[\s()\[\],;:]+", _BRACKETED.sub(lambda m: m[0] if m[1] != force else " ", cell))
    speed = next((word for word in words if is_unit(word, "velocity")), "")
    ways = {way for word in words if len(word) > 1 and word != speed and (way := direction_of(plain(word)))}
    return (ways.pop(), force, speed) if force and speed and len(ways) == 1 else None
