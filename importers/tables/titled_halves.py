"""A small table with compression and rebound beside one another, each under its title, speeds or clicks across."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from importers.assumptions.tables import ACROSS_LEAST, TIDY_LINES
from importers.grid import is_number, split_cells
from importers.header import describe_column
from importers.patterns import regex
from importers.words.directions import direction_of
from importers.words.keys import ONE_KNOB
from importers.words.spelling import plain
from importers.words.unit_text import is_unit

_MARKS = (";", "\t", "|", ",")
_BRACKETED = regex(r"[\[(][^\[\]()]*[\])]")
_SPEED = regex(r"\d+(?:[.,]\d+)?\s*(?P<unit>\D+)")
_BOTH = {"compression", "rebound"}


class NamedHalves(NamedTuple):
    """A table of two halves as plain lines."""

    lines: list[str]
    said: str = ""  #: what was taken for granted, as a warning


def with_halves_named(lines: Sequence[str]) -> NamedHalves | None:
    """Return the lines with each half under its title alone, or with its title in each of its names; None without such.

    Of halves with a column of the same speeds each one is kept; speeds across both get their half's title, and clicks
    before them are those of both knobs, as each half is a table of one of them.
    """
    for mark in _MARKS if len(lines) <= TIDY_LINES else ():
        rows = [split_cells(line, mark) if mark in line else [] for line in lines]
        for at in range(len(rows) - 2):
            starts = _titles(rows[at], rows[at + 1])
            if starts and (found := _joined(lines, rows, at, starts) or _spread(lines, rows, at, starts)):
                return found._replace(lines=[line.replace("\t", mark) for line in found.lines])
    return None


def _titles(over: Sequence[str], names: Sequence[str]) -> list[int]:
    """Return where the titles of the two directions stand in a line over the names; none where it holds other words."""
    at = [k for k, cell in enumerate(over) if cell]
    ways = [direction_of(plain(_BRACKETED.sub(" ", over[k]))) for k in at]
    return at if len(at) == 2 and {*ways} == _BOTH and at[1] < len(names) else []


def _joined(lines: Sequence[str], rows: Sequence[Sequence[str]], at: int, starts: Sequence[int]) -> NamedHalves | None:
    """Return the table with one column of speeds, where each half has the same before bare numbers."""
    names, (first, second) = rows[at + 1], starts
    halves = [name for name in names[:second] if name], [name for name in names[second:] if name]
    if first != 0 or not all(len(half) >= ACROSS_LEAST and _is_speed(half[0]) for half in halves):
        return None
    stop = _end(rows, at)
    if not all(is_number(name, ".") for half in halves for name in half[1:]):
        return None
    if any(rows[k][0] != rows[k][second] for k in range(at + 2, stop)):
        return None
    kept = [k for k, name in enumerate(names) if name and k != second]
    titles = {1: rows[at][0], second + 1: rows[at][second]}
    over = [titles.get(k, "") for k in kept]
    body = ["\t".join(rows[k][c] for c in kept) for k in range(at + 1, stop)]
    return NamedHalves([*lines[:at], "\t".join(over), *body, *lines[stop:]])


def _end(rows: Sequence[Sequence[str]], at: int) -> int:
    """Return the first line below the table under the names below a line."""
    return next((k for k in range(at + 2, len(rows)) if len(rows[k]) != len(rows[at + 1])), len(rows))


def _is_speed(name: str) -> bool:
    return is_unit(name, "velocity") or describe_column(0, name).channel == "velocity"


def _spread(lines: Sequence[str], rows: Sequence[Sequence[str]], at: int, starts: Sequence[int]) -> NamedHalves | None:
    """Return the table with each half's title before its speeds, without blank columns, where speeds stand across."""
    names = list(rows[at + 1])
    title = ""
    for k in range(starts[0], len(names)):
        title = (rows[at][k] if k < len(rows[at]) else "") or title
        match = _SPEED.fullmatch(names[k])
        if names[k] and not (match and is_unit(match["unit"].strip(), "velocity")):
            return None
        names[k] = f"{title} {names[k]}" if names[k] else ""
    kept = [k for k, name in enumerate(names) if name]
    if starts[0] < 1 or sum(k >= starts[0] for k in kept) < ACROSS_LEAST:
        return None
    stop, said = _end(rows, at), ""
    called = [names[c] for c in kept]
    knob = next((c for c in kept if c < starts[0] and plain(names[c]) in ONE_KNOB), None)
    if knob is not None:
        kept = [knob, *kept]
        word = names[knob]
        called = [f"C {word}", *(f"R {word}" if name == word else name for name in called)]
        said = f"'{word}' before compression and rebound, each under its title, was taken as the clicks of both knobs"
        said += f"; if one knob turns both, say --column 'cr=C {word}' --column r=none"
    body = ["\t".join(rows[k][c] for c in kept) for k in range(at + 2, stop)]
    return NamedHalves([*lines[:at], "\t".join(called), *body, *lines[stop:]], said)
