"""Bump and droop stops as force over travel, in a car's file (at one wheel) or a shock's (at the shock)."""

from __future__ import annotations

from itertools import pairwise
from typing import Any

from dynoan.library.tables import TomlTable
from dynoan.model.links import STOPS, StopCurve
from dynoan.units import parse

#: rows of a stop's curve; common practice, no source
MOST_ROWS = 7
#: no stop is squeezed further [m], or pushes harder [N]; common practice, no source
FARTHEST, HARDEST = 0.2, 200e3
_RIGHT = 'write it like [["0 mm", "0 N"], ["10 mm", "600 N"], ["25 mm", "4000 N"]]: how far it is squeezed, its force'


def stop_curves(table: TomlTable) -> dict[str, StopCurve]:
    """Return the stops that a table states, by key.

    Raises
    ------
    QuantityError
        If one is no curve that begins at nothing and rises, file and key named.
    """
    return {key: _curve(table, key) for key in STOPS if key in table}


def _curve(table: TomlTable, key: str) -> StopCurve:
    rows = table.data[key]
    if not isinstance(rows, list) or not all(isinstance(row, list) and len(row) == 2 for row in rows):
        raise table.fault(key, _RIGHT)
    if not 2 <= len(rows) <= MOST_ROWS:
        raise table.fault(key, f"give 2 to {MOST_ROWS} rows", hint=_RIGHT)
    where = table.where(key)
    found = tuple((parse(a, "length", where=where), parse(b, "force", where=where)) for a, b in rows)
    if found[0] != (0.0, 0.0):
        raise table.fault(key, "its first row is no travel and no force: the stop is touched there")
    if any(b[0] <= a[0] or b[1] <= a[1] for a, b in pairwise(found)):
        raise table.fault(key, "travel and force must rise from row to row")
    if found[-1][0] > FARTHEST or found[-1][1] > HARDEST:
        raise table.fault(
            key, f"ends at {1000.0 * found[-1][0]:.4g} mm and {found[-1][1]:.4g} N", hint="check the units"
        )
    return found


def stop_rows(curve: StopCurve) -> list[list[Any]]:
    """Return a stop's curve as `stop_curves` reads it."""
    return [[f"{1e3 * travel:.12g} mm", f"{force:.12g} N"] for travel, force in curve]
