"""Channels that a trace cannot do without: force, and displacement or velocity."""

from __future__ import annotations

from dynoan.errors import ReadError
from importers.parts import SweepPart

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
        raise _lacks(part, "forces by direction but no velocity column", "velocity")
    if "force" not in channels:
        raise _lacks(part, f"no force column{_unknown_force_unit(part)}", "force")
    if "velocity" not in channels and "displacement" not in channels:
        raise _lacks(part, "no velocity and no displacement column", "velocity")


def _lacks(part: SweepPart, what: str, channel: str) -> ReadError:
    there = part.column_names or "none named"
    return ReadError(f"{part.name}: {what}; the columns are: {there}; name one with --column {channel}=NAME")


def _refuse_empty(part: SweepPart) -> None:
    """Refuse a part whose first column of force or velocity without numbers is the only one."""
    empty = next(
        (c for c in part.table.columns if c.channel in ("force", "velocity") and c.index not in part.values), None
    )
    if empty is not None and empty.channel not in part.roles.channels:
        raise ReadError(f"{part.name}, column '{empty.text}': no numbers in it; export the run again, or name another "
                        f"with --column {empty.channel}=NAME")  # fmt: skip


def _unknown_force_unit(part: SweepPart) -> str:
    bad = next((c for c in part.table.columns if c.unknown_unit and c.text.lower().startswith(_FORCE_WORDS)), None)
    return f" ('{bad.unknown_unit}' is no unit of force)" if bad else ""
