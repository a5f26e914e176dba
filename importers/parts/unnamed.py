"""Tables whose columns no line names, or names by speeds over travel: refused, with what would help."""

from __future__ import annotations

import re

import numpy as np

from dynoan.errors import ReadError, Spot
from importers.assumptions.parts import FEW_PEAKS
from importers.grid import is_any_number
from importers.parts.part import names_for_people
from importers.parts.wide_columns import numbers_over
from importers.tables import ParsedTable
from importers.words.directions import direction_of
from importers.words.spelling import plain
from importers.words.turns import turns_alone
from importers.words.unit_text import is_unit

_LEAST_SPEEDS = 2  #: across a table


def unnamed_columns(table: ParsedTable, name: str) -> ReadError:
    """Return the refusal of a table whose columns no line names, with how to name them."""
    where = Spot(name, line=table.first_line if table.first_line > 1 else None)
    if there := names_for_people([c.text for c in table.columns if c.text]):
        names = [c.text.strip() for c in table.columns]
        if all(turns_alone(cell) is not None for cell in names[1:]):
            return ReadError(
                f"under {there} stand forces, and no line says of which direction",
                where=where,
                hint=f"write it beside each, such as '{names[1]} rebound [N]', or in a line above, 'Rebound force [N]'",
            )
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


def forces_over_travel(table: ParsedTable, name: str) -> ReadError | None:
    """Return the refusal of forces over travel, a column a speed, which hold no motion; None of any other table."""
    travel, *others = table.columns
    speeds = [c.text for c in others if c.text]
    if table.options.columns or travel.channel != "displacement" or len(speeds) < _LEAST_SPEEDS:
        return None
    if not all(map(_is_speed, speeds)):
        return None
    return ReadError(
        f"forces over '{travel.text}' in columns '{speeds[0]}' to '{speeds[-1]}': how fast and which way the "
        "shock moved in each row is not told",
        where=name,
        hint="export the runs with their time, or a table of peak forces by speed",
    )


def _is_speed(text: str) -> bool:
    """Whether a name is a number, with a unit of speed, one of force and a direction beside it at the most."""
    words = [w for w in re.split(r"[\s\[\]()@_]+", text) if w]
    numbers = [w for w in words if is_any_number(w)]
    others = (w for w in words if w not in numbers)
    return len(numbers) == 1 and all(
        is_unit(w, "velocity") or is_unit(w, "force") or direction_of(plain(w)) for w in others
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
