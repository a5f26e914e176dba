"""Columns as the user or a team's own layout says they are."""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from dataclasses import replace

from dynoan.errors import ReadError
from dynoan.model.adjusters import ADJUSTERS
from importers.header import HeaderColumn
from importers.parts.part import names_for_people
from importers.tables import ParsedTable
from importers.words.spelling import plain
from importers.words.unit_text import CHANNEL, KIND, kinds_of

NO_COLUMN = "none"  #: a user's word for a channel that no column holds
DIRECTIONS = ("compression", "rebound")
_KEYS = (*ADJUSTERS, "shock", "pack", "run", "direction")


def stated_columns(table: ParsedTable, name: str) -> list[HeaderColumn]:
    """Return the columns with what the user or an own layout says they are.

    Raises
    ------
    ReadError
        If a stated column is not there, or holds words where numbers are wanted.
    """
    columns = list(table.columns)
    taken: dict[int, str] = {}
    for channel, wanted in table.options.columns.items():
        if wanted.strip().lower() == NO_COLUMN and _find(columns, wanted) is None:
            columns = _without(columns, channel, name)
            continue
        at = _found(columns[: len(table.columns)], wanted, channel, name)
        if (other := taken.get(at, channel)) in ADJUSTERS and channel in ADJUSTERS and other != channel:
            columns.append(_as(columns[at], channel))  # one number is the clicks of both knobs
            continue
        if other != channel and {other, channel} <= {*table.user.columns}:
            raise ReadError(
                f"--column {other} and --column {channel} name one column, '{columns[at].text or at + 1}'",
                where=name,
                hint="name another for one of them",
            )
        taken[at] = channel
        if channel not in _KEYS and columns[at].index in table.texts and columns[at].index not in table.values:
            raise ReadError(
                f"column '{columns[at].text}' holds words, no numbers, and so is no {channel}",
                where=name,
                hint=f"name another with --column {channel}=NAME",
            )
        # Of two columns that change places the second was silenced for the first: its name still tells its unit.
        columns = [_as(table.columns[at], channel) if i == at else _released(c, channel) for i, c in enumerate(columns)]
    for wanted, unit in table.options.column_units.items():
        at = _found(columns, wanted, f"unit {unit}", name)
        columns[at] = _in_unit(columns[at], unit, name)
    return columns


def _released(column: HeaderColumn, channel: str) -> HeaderColumn:
    """Return a column that is not the one stated for a channel: what it could have been for that, it no longer is."""
    if channel in DIRECTIONS and column.direction == channel and column.channel in (None, "force"):
        return _silent(column)
    return replace(column, channel=None, role=None) if channel in (column.channel, column.role) else column


def _silent(column: HeaderColumn) -> HeaderColumn:
    return replace(column, channel=None, role=None, direction=None, unit="", unknown_unit="")


def _without(columns: Sequence[HeaderColumn], channel: str, name: str) -> list[HeaderColumn]:
    """Return the columns of which none is a channel.

    Raises
    ------
    ReadError
        If none was.
    """
    mine = [c for c in columns if channel in (c.channel, c.role, c.direction)]
    if not mine:
        raise ReadError(f"--column {channel}={NO_COLUMN} had no effect: no column is {channel}", where=name)
    silent = {c.index: _silent(c) for c in mine}
    return [silent.get(c.index, c) for c in columns]


def _in_unit(column: HeaderColumn, unit: str, name: str) -> HeaderColumn:
    """Return a column in a unit that is stated of it, as the channel that its name or else the unit tells."""
    kinds = kinds_of(unit)
    channel = column.channel
    if channel is None and not column.direction and not column.clicks and len(kinds) == 1:
        channel = CHANNEL[next(iter(kinds))]
    kind = KIND[channel or "force"]
    if kind not in kinds:
        raise ReadError(
            f"column '{column.text}' is {channel or 'force'}, and '{unit}' is no unit of {kind}", where=name
        )
    return replace(column, unit=unit, unknown_unit="", channel=channel, role=None, told=True, other_unit=column.unit)


def _as(column: HeaderColumn, channel: str) -> HeaderColumn:
    if channel in DIRECTIONS:
        return replace(column, channel="force", role=None, direction=channel)
    if channel in _KEYS:
        return replace(column, channel=None, role=channel, direction=None)
    return replace(column, channel=channel, role=None, direction=None, clicks={}, lesser=False)


def _found(columns: Sequence[HeaderColumn], wanted: str, what: str, name: str) -> int:
    at = _find(columns, wanted)
    if at is None and len(same := _called(columns, wanted)) > 1:
        names = [f"{columns[k].text}#{n}" for n, k in enumerate(same, 1)]
        told = names_for_people(names if len({columns[k].text for k in same}) == 1 else [columns[k].text for k in same])
        raise ReadError(f"'{wanted}' for {what} could be {told}", where=name, hint="name one of them, or its number")
    if at is None:
        there = names_for_people([c.text or str(c.index + 1) for c in columns], quote="")
        raise ReadError(f"no column '{wanted}' for {what}", where=name, hint=f"the file has: {there}")
    return at


def _find(columns: Sequence[HeaderColumn], wanted: str) -> int | None:
    """Return the one column that a text names: as it stands, in plain words, without its unit, by number, or "x#2"."""
    if (again := re.fullmatch(r"(.+)#(\d{1,3})", wanted)) is not None:
        same = _called(columns, again[1])
        return same[int(again[2]) - 1] if 0 < int(again[2]) <= len(same) else None
    hits = _called(columns, wanted)
    if len(hits) == 1:
        return hits[0]
    return next((i for i, c in enumerate(columns) if not hits and str(c.index + 1) == wanted.strip()), None)


def _called(columns: Sequence[HeaderColumn], wanted: str) -> list[int]:
    """Return the columns of a name as it stands; where there is none, in plain words; else without their unit."""
    tests: tuple[Callable[[HeaderColumn], bool], ...] = (
        lambda c: c.text == wanted,
        lambda c: plain(c.text) == plain(wanted),
        lambda c: plain(re.split(r"[\[(]", c.text)[0]) == plain(wanted),
    )
    return next((hits for test in tests if (hits := [i for i, c in enumerate(columns) if test(c)])), [])
