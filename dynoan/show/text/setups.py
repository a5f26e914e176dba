"""Setups as a table, as every command about them shows it."""

from __future__ import annotations

from collections.abc import Sequence

from dynoan.jobs.listing import UnreadableFile
from dynoan.model.setup import Setup
from dynoan.show.text.blocks import Look, Table
from dynoan.units import degree_unit, degrees

COLUMNS = ("name", "date", "car", "surface", "°", "verdict", "result", "remarks")
VERDICTS = {True: "good", False: "bad", None: ""}
_SHORT = 60
_MOST_FILES = 8  #: that a line names


def setups_table(setups: Sequence[Setup], look: Look) -> Table:
    """Return setups as a table, one line each; long remarks are cut short unless more is wanted."""
    heads = [degree_unit(look.units) if head == "°" else head for head in COLUMNS]
    return Table(heads, [_row(s, look) for s in setups])


def unreadable_line(files: Sequence[UnreadableFile]) -> str:
    """Return what says that a list is not all that is kept: which files of it cannot be read."""
    named = ", ".join(one.file for one in files[:_MOST_FILES])
    more = f" and {len(files) - _MOST_FILES} more" if len(files) > _MOST_FILES else ""
    return f"kept, but cannot be read: {named}{more}; dynoan check says why"


def _row(setup: Setup, look: Look) -> list[str]:
    warm = "" if setup.temperature is None else degrees(setup.temperature, look.units, unit=False)
    remarks = " ".join(setup.remarks.split())
    short = remarks if len(remarks) <= _SHORT or look.more else remarks[: _SHORT - 1] + "…"
    day = [setup.name, setup.date[:16].replace("T", " "), setup.car.name, setup.surface or "", warm]
    return [*day, VERDICTS[setup.good], setup.result or "", short]
