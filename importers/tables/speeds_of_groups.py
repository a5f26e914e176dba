"""A small table of settings down and speeds across, with what the title over each direction says at each speed."""

from __future__ import annotations

import re
from collections.abc import Sequence
from itertools import pairwise
from typing import NamedTuple

from importers.assumptions.tables import TIDY_LINES
from importers.grid import is_any_number, split_cells
from importers.header import describe_column
from importers.patterns import regex
from importers.words.adjusters import CLICK_WORD, adjuster_of
from importers.words.directions import direction_of
from importers.words.spelling import plain
from importers.words.unit_text import is_unit

_MARKS = (";", "\t", "|", ",")
_NUMBER = regex(r"\d+(?:[.,]\d+)?")
_WORD_THEN_NUMBERS = regex(r"[^\d+.−-].*?\d[^\d.]+\d")
_SPEED = regex(r"@?\s*(?P<number>\d+(?:[.,]\d+)?)\s*(?P<unit>\D{0,12})")
_CLICKS = regex(rf"(?:{CLICK_WORD}|cl|clk)\.?")
_LEAST_SPEEDS = 2  #: of each direction
_LONGEST_TITLE = 8  #: [words]
_MOST_BEYOND = 3  #: columns of remarks behind the speeds


class _Units(NamedTuple):
    """Units that stand in a cell or in lines; empty where none does."""

    force: str
    speed: str


class _Square(NamedTuple):
    """Where in a line of names the speeds stand, and what they are under."""

    first: int
    stop: int
    titles: dict[int, str]  #: the direction of each group, by its first column


def with_units_at_speeds(lines: Sequence[str]) -> list[str] | None:
    """Return the lines with direction and units at each speed across, without the titles; None of other tables.

    >>> with_units_at_speeds([";Comp [N] at mm/s;;Reb [N] at mm/s;", "LSC;5;9;5;9", "2;248;488;-356;-775"])
    ['LSC;compression 5 mm/s [N];compression 9 mm/s [N];rebound 5 mm/s [N];rebound 9 mm/s [N]', '2;248;488;-356;-775']
    """
    if len(lines) > TIDY_LINES:
        return None
    # What costs little is asked first: words stand over names that begin with a word, and two of which are numbers.
    maybe = [at for at in range(len(lines) - 2) if _may_be_names(lines[at + 1]) and any(map(str.isalpha, lines[at]))]
    for mark in _MARKS if maybe else ():
        rows = [split_cells(line, mark) if mark in line else [] for line in lines]
        width = max(map(len, rows), default=0)
        for at in maybe:
            if not any(map(_SPEED.fullmatch, rows[at + 1])):
                continue
            over, names = ([*row, *[""] * width][:width] for row in rows[at : at + 2])
            units = rows[at + 2] if _are_units(rows[at + 2]) else []
            body = at + 3 if units else at + 2
            if body < len(rows) and (found := _named(over, names, units, lines[:at], rows[body])):
                return [*lines[:at], mark.join(found), *lines[body:]]
    return None


def _may_be_names(line: str) -> bool:
    return _WORD_THEN_NUMBERS.match(line) is not None


def _named(
    over: Sequence[str], names: Sequence[str], below: Sequence[str], above: Sequence[str], row: Sequence[str]
) -> list[str] | None:
    """Return the names of such a table's columns; None of another."""
    square = _square(over, names, row)
    if square is None:
        return None
    knobs = [_knob(names[k] or over[k]) for k in range(square.first)]
    if None in knobs or not any(adjuster_of(plain(knob)) for knob in knobs if knob):
        return None
    all_said = _units([*below[square.first :], *(cell for line in above for cell in re.split(r"[;\t|,:]", line))])
    out = [knob for knob in knobs if knob]
    title = ""
    for k in range(square.first, square.stop):
        title = over[k] or title
        own, cell = _units([title]), _SPEED.fullmatch(names[k])
        speed = (cell["unit"].strip("[]() ") if cell else "") or own.speed or all_said.speed
        if cell is None or not is_unit(speed, "velocity"):
            return None
        force = own.force or all_said.force
        out.append(f"{_way(title)} {cell['number']} {speed}{f' [{force}]' * bool(force)}")
    return [*out, *(names[k] or over[k] for k in range(square.stop, len(row)))]


def _square(over: Sequence[str], names: Sequence[str], row: Sequence[str]) -> _Square | None:
    """Return where the speeds of a table stand, each direction's under its title; None where they do not."""
    speeds = [_is_speed(cell) for cell in names]
    first = speeds.index(True) if True in speeds else 0
    stop = next((k for k in range(first, len(names)) if not speeds[k]), len(names))
    if first < 1 or any(speeds[stop:]) or sum(map(bool, names[stop:])) > _MOST_BEYOND or len(row) < stop:
        return None
    titles = {k: way for k in range(first, stop) if over[k] and (way := _way(over[k]))}
    filled = sum(map(bool, over[first:stop]))
    if not over[first] or filled != len(titles) or len({*titles.values()}) != len(titles):
        return None
    groups = [names[a:b] for a, b in pairwise([*sorted(titles), stop])]
    numbers = all(is_any_number(c) for c in row[first:stop] if c)
    return _Square(first, stop, titles) if numbers and all(map(_rise, groups)) else None


def _knob(name: str) -> str | None:
    """Return the name of a column of settings, an adjuster's letter with a word for clicks; None of other columns."""
    column = describe_column(0, name)
    if len(name) == 1 and column.direction:
        return f"{name} clicks"
    known = adjuster_of(plain(name)) is not None or column.role is not None
    return name if known and not column.unit else None


def _are_units(cells: Sequence[str]) -> bool:
    """Whether a line below the names is of units, and words for clicks, alone."""
    some = [cell.strip("[]() ") for cell in cells if cell]
    known = [is_unit(cell) for cell in some]
    return any(known) and all(k or _CLICKS.fullmatch(plain(c)) for k, c in zip(known, some, strict=True))


def _is_speed(cell: str) -> bool:
    found = _SPEED.fullmatch(cell)
    unit = found["unit"].strip("[]() ") if found else ""
    return found is not None and (not unit or is_unit(unit, "velocity"))


def _rise(cells: Sequence[str]) -> bool:
    """Whether cells are speeds that rise."""
    speeds = [float(found[0].replace(",", ".")) for cell in cells if (found := _NUMBER.search(cell))]
    return len(speeds) >= _LEAST_SPEEDS and speeds[0] > 0 and all(a < b for a, b in pairwise(speeds))


def _units(texts: Sequence[str]) -> _Units:
    """Return the unit of force and that of speed that texts state, each where it is one alone."""
    words = [word.strip(".") for text in texts for word in re.split(r"[\s()\[\],;:=]+", text) if word]
    force = list(dict.fromkeys(word for word in words if is_unit(word, "force")))
    speed = list(dict.fromkeys(word for word in words if is_unit(word, "velocity")))
    return _Units(force[0] if len(force) == 1 else "", speed[0] if len(speed) == 1 else "")


def _way(text: str) -> str:
    """Return the direction that a title of a few words names; empty of one that names none or both."""
    words = [plain(word) for word in re.split(r"[\s()\[\],;:]+", text) if word and not is_unit(word)]
    ways = {way for word in words if len(word) > 1 or len(words) == 1 if (way := direction_of(word))}
    return ways.pop() if len(ways) == 1 and len(words) <= _LONGEST_TITLE else ""
