"""A small table with keys over its columns, "Gas bar,8,8,9,9", taken apart: a table for each run that they tell."""

from __future__ import annotations

from collections.abc import Sequence
from functools import lru_cache

from importers.assumptions.tables import TIDY_LINES
from importers.grid import is_any_number, split_cells
from importers.header import describe_column
from importers.patterns import regex
from importers.words.adjusters import adjuster_of
from importers.words.keys import KNOWN, is_date
from importers.words.spelling import plain
from importers.words.unit_text import is_unit

_MARKS = (";", "\t", "|", ",")
_SHARED = frozenset(("velocity", "displacement", "time"))
_UNIT_BEHIND = regex(r"\s*[\[(][^()\[\]]{1,12}[\])]$")


def with_keys_above_each(lines: Sequence[str]) -> list[str] | None:
    """Return the lines with a table below another for each run whose keys stand over its columns; None without such.

    A key's values stand over every column or over the first of a run's; two such lines, or one with its values
    repeated, tell the runs apart. What stands over the first column alone is of all.
    """
    for mark in _MARKS if len(lines) <= TIDY_LINES else ():
        rows = [split_cells(line, mark) if mark in line else [] for line in lines]
        for at, names in enumerate(rows):
            if len(names) >= 3 and (first := _first_key(rows, at)) < at and (starts := _starts(rows[first:at], names)):
                return [*lines[:first], *_stacked(lines, rows, (first, at), starts, mark)]
    return None


def _first_key(rows: Sequence[Sequence[str]], at: int) -> int:
    """Return the first of the lines right above one of names that begin with a key; that line where none does."""
    while at and rows[at - 1] and is_key(rows[at - 1][0]):
        at -= 1
    return at


@lru_cache(maxsize=2048)
def is_key(cell: str) -> bool:
    """Whether a cell is a known key of a run or an adjuster, a unit behind it or not: "Gas (bar)", "LSC"."""
    key = plain(_UNIT_BEHIND.sub("", cell)).rstrip(" .")
    name, _, unit = key.rpartition(" ")
    return key in KNOWN or is_date(key) or adjuster_of(key) is not None or (name in KNOWN and is_unit(unit))


def _starts(keys: Sequence[Sequence[str]], names: Sequence[str]) -> list[int]:
    """Return the first column of each run that keys tell over names; empty where they tell none or the names differ."""
    columns = [describe_column(k, name) for k, name in enumerate(names)]
    if columns[0].channel not in _SHARED or not all(c.channel or c.direction for c in columns):
        return []
    over = [carried for cells in keys if (carried := _over(cells, len(names)))]
    told = [cells for cells in over if len({*cells}) > 1]
    apart = [k for k in range(2, len(names)) if any(cells[k - 1] != cells[k - 2] for cells in told)]
    starts = [1, *apart]
    runs = [names[a:b] for a, b in zip(starts, [*apart, len(names)], strict=True)]
    every = any(len([c for c in cells if c]) == len(names) for cells in keys if _over(cells, len(names)) in told)
    if len(runs) < 2 or any(run != runs[0] for run in runs) or len({*runs[0]}) < len(runs[0]):
        return []
    knobs_alone = all(adjuster_of(plain(cells[0])) is not None for cells in keys)
    again = len(over) > 1 and len(runs[0]) > 1  # one key tells them apart, another is the same for all
    return starts if not knobs_alone and (len(told) > 1 or again or (every and len(runs[0]) > 1)) else []


def _over(cells: Sequence[str], width: int) -> list[str]:
    """Return a key's value over each column but the first; none where it has one value for all, or too many."""
    values = [*cells[1:], *[""] * (width - len(cells))]
    if len(cells) > width or len([v for v in values if v]) < 2 or not values[0]:
        return []
    if len(values) > 2 and not any(values[2:]):
        return []  # a value and its unit, or its date and time
    out: list[str] = []
    for value in values:
        out.append(value or out[-1])
    return out


def _stacked(
    lines: Sequence[str], rows: Sequence[Sequence[str]], at: tuple[int, int], starts: Sequence[int], mark: str
) -> list[str]:
    """Return the keys and the table of each run below one another; what follows the table at the end."""
    first, names_at = at
    names = rows[names_at]
    width = len(names)
    stop = next((k for k in range(names_at + 1, len(rows)) if not _is_row(rows[k], width)), len(rows))
    out: list[str] = []
    for a, b in zip(starts, [*starts[1:], width], strict=True):
        for cells in rows[first:names_at]:
            over = _over(cells, width)
            out.append(f"{cells[0]}: {over[a - 1]}" if over else mark.join(cells))
        body = [names, *rows[names_at + 1 : stop]]
        out += [mark.join([cells[0], *cells[a:b]]) for cells in body]
        out.append("")
    return [*out, *(with_keys_above_each(lines[stop:]) or lines[stop:])]


def _is_row(cells: Sequence[str], width: int) -> bool:
    """Whether cells are a row of numbers, or the units of one, below names."""
    if len(cells) != width:
        return False
    return all(not c or is_any_number(c) or is_unit(c.strip("[]() ")) for c in cells)
