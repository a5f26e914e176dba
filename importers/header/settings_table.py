"""A little table of the run's settings above, between or below the rows: names over one row of values."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from typing import NamedTuple

from importers.assumptions.words import MOST_CLICKS
from importers.grid import split_cells
from importers.patterns import regex
from importers.words.adjusters import adjuster_of
from importers.words.channels import CHANNEL_WORDS
from importers.words.clicks import clicks_of
from importers.words.dates import date_of, swappable_date
from importers.words.keys import KNOWN, is_date
from importers.words.spelling import plain, word_set
from importers.words.unit_text import is_unit

_MARKS = (";", "\t", "|", ",")
_UNIT_BEHIND = regex(r"\s*[\[(][^()\[\]]{1,12}[\])]$")
_NUMBER = regex(r"[-+]?\d[\d.,]*")
#: channels of a measurement, which no settings are
_MEASURED = CHANNEL_WORDS["force"] | CHANNEL_WORDS["time"]
#: those that the run as a whole may have too, its stroke and speed: beside adjusters they are a peak table's
_OF_RUN = CHANNEL_WORDS["velocity"] | CHANNEL_WORDS["displacement"]


_UNITS_OF_RUN = word_set("rpm, hz, 1/min, u/min, %, -, clicks, clk")


class SettingsTable(NamedTuple):
    """Where a table of settings stands, and what it says."""

    names_at: int
    values_at: int
    said: tuple[str, ...]  #: a line "name: value" for each


def settings_tables(lines: Sequence[str]) -> Iterator[SettingsTable]:
    """Yield the tables of settings in lines: a line of names, maybe one of units, and one line of values.

    >>> [t.said for t in settings_tables(["Shock,Pack,Temp", ",,C", "FR-1,wet,31", "", "Velocity,Force"])]
    [('Shock: FR-1', 'Pack: wet', 'Temp (C): 31')]
    >>> list(settings_tables(["Shock,FR-1", "Pack,wet"]))
    []
    """
    filled = [at for at, line in enumerate(lines) if any(mark in line for mark in _MARKS)]
    for at in filled:
        mark = next(mark for mark in _MARKS if mark in lines[at])
        every = _cells(lines, at, mark)
        if not _are_names([name for name in every if name]):
            continue
        units = _cells(lines, at + 1, mark)
        between = len(units) <= len(every) and any(units) and all(not c or _is_unit(c) for c in units)
        values_at = at + 1 + between
        row = _cells(lines, values_at, mark)
        held = [k for k, name in enumerate(every) if name]
        names, values = [every[k] for k in held], [row[k] for k in held if k < len(row)]
        if len(row) > len(every) or not _are_values(names, values):
            continue
        if not _goes_on(row, _cells(lines, values_at + 1, mark)):
            of = [units[k] if between and k < len(units) else "" for k in held]
            pairs = zip(names, of, values, strict=True)
            said = tuple(f"{name} ({unit}): {value}" if unit else f"{name}: {value}" for name, unit, value in pairs)
            yield SettingsTable(at, values_at, said)


def _cells(lines: Sequence[str], at: int, mark: str) -> list[str]:
    """Return the cells of a line, without empty ones behind the last; none beyond the last line or of a blank one."""
    cells = split_cells(lines[at], mark) if at < len(lines) and lines[at].strip() else []
    while cells and not cells[-1]:
        cells.pop()
    return cells


def _is_unit(cell: str) -> bool:
    return is_unit(cell) or plain(cell) in _UNITS_OF_RUN


def _key(name: str) -> str:
    return plain(_UNIT_BEHIND.sub("", name)).strip(" .:")


def _knows(name: str) -> bool:
    key = _key(name)
    return key in KNOWN or is_date(key) or adjuster_of(key) is not None


def _are_names(names: Sequence[str]) -> bool:
    """Whether cells are names of settings, two of them known at the least, or one beside words without a digit."""
    if len(names) < 2 or len({*names}) < len(names) or all(map(_is_unit, names)):
        return False
    keys = [_key(name) for name in names]
    words = {word for key in keys for word in (key, *key.split())}
    of_run = bool(words & _OF_RUN)
    if words & _MEASURED or (of_run and any(map(adjuster_of, keys))) or any(re.search(r"\d", n) for n in names):
        return False
    return any(map(_knows, names))


def _are_values(names: Sequence[str], values: Sequence[str]) -> bool:
    """Whether cells are what stands below names of settings: one each, no name themselves, clicks below adjusters."""
    if len(values) != len(names) or not all(values) or any(_knows(value) for value in values):
        return False
    numbered = any(_knows(name) and re.search(r"\d", value) for name, value in zip(names, values, strict=True))
    if sum(map(_knows, names)) < 2 and not numbered:
        return False
    return all(_fits(_key(name), value) for name, value in zip(names, values, strict=True))


def _fits(key: str, value: str) -> bool:
    if adjuster_of(key) is not None:
        number = re.fullmatch(r"(\d{1,2})(?:[.,]0+)?", value)
        return int(number[1]) <= MOST_CLICKS if number else bool(clicks_of(f"{key} {value}")) or not value[:1].isdigit()
    if is_date(key):
        return date_of(value) is not None or swappable_date(value) is not None
    return True


def _goes_on(values: Sequence[str], below: Sequence[str]) -> bool:
    """Whether a line below is another row of values, as a table of several runs has: as many cells, numbers alike."""
    numbers = [_NUMBER.fullmatch(cell) is not None for cell in values]
    return len(below) == len(values) and [_NUMBER.fullmatch(cell) is not None for cell in below] == numbers


def with_settings_as_lines(lines: Sequence[str]) -> list[str]:
    """Return lines whose tables of settings are a line a setting."""
    out = list(lines)
    for table in reversed(list(settings_tables(lines))):
        out[table.names_at : table.values_at + 1] = table.said
    return out
