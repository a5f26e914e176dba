"""Tables whose columns no line names: asked about, with the options that name them."""

from __future__ import annotations

import numpy as np

from dynoan.errors import ReadError, Spot
from importers.assumptions.parts import FEW_PEAKS
from importers.parts.part import names_for_people
from importers.parts.wide_columns import numbers_over
from importers.tables import ParsedTable


def unnamed_columns(table: ParsedTable, name: str) -> ReadError:
    """Return the refusal of a table whose columns no line names, with how to name them."""
    where = Spot(name, line=table.first_line if table.first_line > 1 else None)
    if there := names_for_people([c.text for c in table.columns if c.text]):
        return ReadError(
            f"the columns are named {there}, which says nothing known here",
            where=where,
            hint="say which is which by --column velocity=NAME --column compression=NAME --column rebound=NAME or "
            "--column force=NAME where one holds both, and their units by --unit velocity=UNIT --unit force=UNIT",
        )
    if numbers := numbers_over(table):
        return ReadError(
            f"the forces stand under {names_for_people(numbers)}, and no line says of what these numbers are",
            where=where,
            hint="where they are clicks, write them like 'C 4' and 'R 6', and beside the speeds 'Velocity mm/s'",
        )
    return ReadError(
        f"{table.grid.width} columns of numbers and no line that names them", where=where, hint=_how_to_name(table)
    )


def _how_to_name(table: ParsedTable) -> str:
    """Return the options that name columns as many as a table has, of peaks where it is short, else of samples."""
    channels, more = _likely(table)
    given = " ".join(f"--column {channel}={n}" for n, channel in enumerate(channels, 1))
    units = [
        c for c in dict.fromkeys("force" if c in ("compression", "rebound") else c for c in channels) if c != "time"
    ]
    said = " ".join(f"--unit {channel}=UNIT" for channel in units)
    return f"say by their numbers which is which, such as {given}, and their units by {said}{more}"


def _likely(table: ParsedTable) -> tuple[tuple[str, ...], str]:
    """Return the channels that columns may be, in their order, and which option there is to give beside them."""
    first = next(iter(table.values.values()), np.empty(0))
    speeds = table.rows <= FEW_PEAKS and bool(np.all(np.diff(np.abs(first)) > 0))
    if table.grid.width <= 2:
        return (("velocity", "force"), "") if speeds else (("displacement", "force"), ", and --rate 'NUMBER Hz'")
    return (("velocity", "compression", "rebound") if speeds else ("time", "displacement", "force")), ""
