"""A small table with turns of a knob across its top, "0.5 turn, 1 turn", a title that says of which direction."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from importers.assumptions.tables import ACROSS_LEAST, TIDY_LINES
from importers.grid import are_numbers, split_cells
from importers.header import describe_column
from importers.patterns import regex
from importers.words.channels import CHANNEL_WORDS
from importers.words.directions import direction_of
from importers.words.spelling import plain
from importers.words.turns import amount_of, speaks_of_turns, turns_alone
from importers.words.unit_text import is_unit

_MARKS = (";", "\t", "|", ",")
_UNIT = regex(r"[\[(]([^\[\]()]{1,9})[\])]|(?<=\s)([A-Za-z]{1,3})$")
_PARTED = regex(r"\d{1,2}(?:[.,](?:25|50?|75|0+))?|\d{1,2} [1357]/[248]|[1357]/[248]|(?:\d{1,2} ?)?[½¼¾]")
_SIGNS = frozenset("-+.−")
_MOST_ABOVE = 6  #: lines above a table that may be its title


class _TurnsTitle(NamedTuple):
    """What a line above says of the forces under it."""

    way: str
    unit: str
    of_forces: bool  #: whether it speaks of forces and not of the knob alone
    line: str  #: as it stands


class NamedTurns(NamedTuple):
    """Lines with the direction in the name of each column."""

    lines: list[str]
    said: str = ""  #: what was taken for granted, as a warning


def with_turns_named(lines: Sequence[str]) -> NamedTurns | None:
    """Return the lines with the direction of the forces beside each of the turns across a table's top; None of others.

    >>> with_turns_named(["Rebound force [N]", "mm/s;1/2 turn;1 turn", "50;210;190", "90;280;250"]).lines[1]
    'mm/s;1/2 turns rebound [N];1 turns rebound [N]'
    """
    heads = (line for line in lines if not (line[:1].isdigit() or line[:1] in _SIGNS))  # a row says nothing of turns
    if len(lines) > TIDY_LINES or not any(map(speaks_of_turns, heads)):
        return None
    out, said = list(lines), ""
    for mark in _MARKS:
        for at, line in enumerate(lines[:-1]):
            cells = split_cells(line, mark) if mark in line else []
            if len(cells) < ACROSS_LEAST or not are_numbers(split_cells(lines[at + 1], mark), len(cells)):
                continue
            above = [line for line in lines[:at] if not are_numbers(split_cells(line, mark), len(cells))]
            title = _title(above[-_MOST_ABOVE:]) if _are_turns(cells, above) else None
            if title is not None:
                out = [" ".join(split_cells(one, mark)).strip() if one == title.line else one for one in out]
                corner = cells[0] or "speeds in the first column"
                of = f"{title.way} [{title.unit}]" if title.unit else title.way
                out[at] = mark.join([corner, *(f"{_number(cell)} turns {of}" for cell in cells[1:])])
                said = "" if title.of_forces else _taken(title.way)
    return NamedTurns(out, said) if out != [*lines] else None


def _taken(way: str) -> str:
    return f"no line says of which direction the forces are: those at each turn of the {way} knob were taken as {way}"


def _are_turns(cells: Sequence[str], above: Sequence[str]) -> bool:
    """Whether a line is a word for speed, or nothing, before turns; bare numbers where a line above speaks of turns."""
    corner, rest = cells[0], cells[1:]
    if corner and not is_unit(corner, "velocity") and describe_column(0, corner).channel != "velocity":
        return False
    if all(turns_alone(cell) is not None for cell in rest):
        return True
    numbers = [amount_of(cell) for cell in rest if _PARTED.fullmatch(cell)]
    rising = len(numbers) == len(rest) and sorted({*numbers}) in (numbers, numbers[::-1])
    return rising and any(n != int(n) for n in numbers) and any(map(speaks_of_turns, above))


def _title(above: Sequence[str]) -> _TurnsTitle | None:
    """Return what the last line above says, else one of the turns, of one direction; None where none says one."""
    told = [line for line in above if any(c.isalpha() for c in line)]
    for line in [*told[-1:], *(line for line in reversed(told[:-1]) if speaks_of_turns(line))]:
        words = plain(line).split()
        ways = {way for word in words if len(word) > 1 and (way := direction_of(word))}
        if len(ways) == 1:
            units = [m[1] or m[2] for m in _UNIT.finditer(line.strip(" ;,|\t"))]
            unit = next((unit for unit in units if is_unit(unit, "force")), "")
            return _TurnsTitle(ways.pop(), unit, bool(unit) or bool({*words} & CHANNEL_WORDS["force"]), line)
    return None


def _number(cell: str) -> str:
    """Return the number of turns as it stands in a cell."""
    found = regex(r"[\d½¼¾][\d.,/ ½¼¾-]*").match(cell)
    return found[0].strip() if found else cell
