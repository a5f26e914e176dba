"""Setups as a table, as every command about them shows it."""

from __future__ import annotations

from collections.abc import Sequence

from dynoan.model.setup import Setup
from dynoan.show.text.blocks import Look, Table

COLUMNS = ("name", "date", "car", "surface", "°C", "verdict", "result", "remarks")
VERDICTS = {True: "good", False: "bad", None: ""}
_SHORT = 60


def setups_table(setups: Sequence[Setup], look: Look) -> Table:
    """Return setups as a table, one line each; long remarks are cut short unless more is wanted."""
    return Table(COLUMNS, [_row(s, look) for s in setups])


def _row(setup: Setup, look: Look) -> list[str]:
    degrees = "" if setup.temperature is None else f"{setup.temperature:.0f}"
    remarks = " ".join(setup.remarks.split())
    short = remarks if len(remarks) <= _SHORT or look.more else remarks[: _SHORT - 1] + "…"
    day = [setup.name, setup.date[:16], setup.car.name, setup.surface or "", degrees]
    return [*day, VERDICTS[setup.good], setup.result or "", short]
