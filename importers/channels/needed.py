"""Channels that a trace cannot do without: force, and displacement or velocity."""

from __future__ import annotations

import re

import numpy as np

from dynoan.errors import ReadError
from importers.channels.nominal_rate import motions_of
from importers.header import HeaderColumn
from importers.parts import SweepPart
from importers.patterns import regex
from importers.words.spelling import plain
from importers.words.unit_text import is_unit

_ACCELERATION = regex(r"\b(?:acc|accel\w*|beschleunigung\w*|aceleracion|accelerazione)\b|/s[²2]|/s\^2")
_STATIC_ROWS = 3  #: fewer steps of position are no test
_TURNS = frozenset(("rpm", "hz", "frequency", "freq", "frequenz", "drehzahl"))  #: words for how fast a crank turns
_FORCE_WORDS = ("force", "load", "kraft")


def refuse_lacking(part: SweepPart) -> None:
    """Refuse a trace that lacks a channel.

    Raises
    ------
    ReadError
        With the columns there are and the option that names one.
    """
    channels = part.roles.channels
    _refuse_empty(part)
    if part.roles.forces and "velocity" not in channels:
        raise _lacks(part, "forces by direction but no velocity column", "velocity", _by_crank(part))
    if "force" not in channels:
        raise _lacks(part, f"no force column{unknown_force_unit(part)}", "force", _good_for(part))
    if (still := _static(part)) is not None:
        raise still
    if "velocity" not in channels and "displacement" not in channels:
        raise _lacks(part, f"no velocity and no displacement column{_accelerations(part)}", "velocity")


def _static(part: SweepPart) -> ReadError | None:
    """Return the refusal of force over position without time, one way or there and back; None for any other part."""
    channels = part.roles.channels
    if {"time", "velocity"} & set(channels) or "displacement" not in channels:
        return None
    if part.facts.rate or part.table.options.rate or any(motions_of(part)):
        return None
    x = part.values[channels["displacement"].index]
    ways = np.sign(np.diff(x[np.isfinite(x)]))
    ways = ways[ways != 0]
    if len(ways) < _STATIC_ROWS or int(np.count_nonzero(np.diff(ways))) > 1:
        return None
    return ReadError(
        "force over position without time, one way or there and back: a static test of gas or spring, "
        "which holds no damping",
        where=part.name,
        hint="a record in time needs its time column, --rate 'NUMBER Hz' or a line such as 'Frequency: 1.6 Hz'",
    )


def _lacks(part: SweepPart, what: str, channel: str, besides: str = "") -> ReadError:
    there = part.column_names or "none named"
    return ReadError(
        f"{what}; the columns are: {there}", where=part.name, hint=f"name one with --column {channel}=NAME{besides}"
    )


def _by_crank(part: SweepPart) -> str:
    """Return how turns or cycles become speeds, where a column holds some; empty where none does."""
    turns = next((c.text for c in part.table.columns if {*plain(c.text).split()} & _TURNS), None)
    return f"; '{turns}' gives the peak speed with a line such as 'Stroke: 50 mm' above" if turns else ""


def _good_for(part: SweepPart) -> str:
    """Return what a record of motion alone is good for; empty where it holds no travel or acceleration over time."""
    travel = "displacement" in part.roles.channels or any(map(_in_length, part.table.columns))
    motion = travel and "time" in part.roles.channels
    if motion:
        return "; without force it is a log for 'dynoan travel' or 'dynoan bounce'"
    phone = "time" in part.roles.channels and any(map(_is_acceleration, part.table.columns))
    return "; accelerations of a body that was pushed are a log for 'dynoan bounce'" if phone else ""


def _in_length(column: HeaderColumn) -> bool:
    """Whether a column's name ends in a unit of length."""
    return is_unit(re.split(r"[\s_(\[]", column.text.strip(" )]"))[-1] or "-", "length")


def _accelerations(part: SweepPart) -> str:
    """Return that accelerations are no displacement, where columns hold some."""
    held = [c.text for c in part.table.columns if _is_acceleration(c)]
    return f" ('{held[0]}' is an acceleration, which is no displacement of a shock)" if held else ""


def _is_acceleration(column: HeaderColumn) -> bool:
    said = (plain(column.text), column.text.lower(), column.unknown_unit)
    return column.unknown_unit in ("g", "G") or any(map(_ACCELERATION.search, said))


def _refuse_empty(part: SweepPart) -> None:
    """Refuse a part whose first column of force or velocity without numbers is the only one."""
    empty = next(
        (c for c in part.table.columns if c.channel in ("force", "velocity") and c.index not in part.values), None
    )
    if empty is not None and empty.channel not in part.roles.channels:
        raise ReadError(
            "no numbers in it",
            where=f"{part.name}, column '{empty.text}'",
            hint=f"export the run again, or name another with --column {empty.channel}=NAME",
        )


def _is_force(column: HeaderColumn) -> bool:
    return column.channel == "force" or column.text.lower().startswith(_FORCE_WORDS)


def unknown_force_unit(part: SweepPart) -> str:
    """Return that what stands as the unit of a force is none, in brackets; empty where none stands so."""
    named = (c for c in part.table.columns if c.unknown_unit and (c.direction or _is_force(c)))
    bad = next(named, None)
    return f" ('{bad.unknown_unit}' is no unit of force)" if bad else ""
