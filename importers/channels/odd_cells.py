"""Cells of a peak table that lie far off both neighbours, as a decimal that slipped leaves them: told, not mended."""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from dynoan.model.arrays import FloatArray
from dynoan.model.odd_rows import ODD_ROWS, far_off, odd_force
from importers.words.unit_text import scale_of


class _Way(NamedTuple):
    """The rows of one direction, as they stand in the file."""

    name: str
    speed: FloatArray  #: shape (rows,) [m/s]
    force: FloatArray  #: positive with that direction, shape (rows,) [N]


def odd_cells(velocity: FloatArray, force: FloatArray, unit: str) -> tuple[str, ...]:
    """Return a warning of the first cell of each direction far off both neighbours; an end has one.

    Parameters
    ----------
    velocity, force
        Signed, shape (rows,), known in all rows. [m/s] [N]
    unit
        Of the file's speeds, in which a row is told.

    >>> v, f = np.array([0.05, 0.1, 0.2, 0.3]), np.array([230.0, 320.0, 4500.0, 510.0])
    >>> odd_cells(v, f, "mm/s")[0][:88]
    'compression force of 4500 N at 200 mm/s lies far off those beside it, 320 N and 510 N: i'
    """
    factor = scale_of(unit, "velocity").factor if unit else 1.0
    out = []
    for name, sign in (("compression", 1.0), ("rebound", -1.0)):
        rows = sign * velocity > 0
        if np.count_nonzero(rows) >= ODD_ROWS:
            out += _odd_of(_Way(name, np.abs(velocity[rows]), sign * force[rows]), factor, unit or "m/s")
    return tuple(out)


def _odd_of(way: _Way, factor: float, unit: str) -> list[str]:
    if (at := _odd_speed(way.speed)) is not None:
        before, this, after = (f"{x / factor:.4g}" for x in way.speed[at - 1 : at + 2])
        what, beside = f"{way.name} speed of {this} {unit}", f"{before} and {after} {unit}"
        return [f"{what} stands between {beside}: is its decimal mark right? It was taken as it stands"]
    order = np.argsort(way.speed)
    speed, force = way.speed[order], way.force[order]
    if (np.diff(speed) <= 0).any():
        return []  # repeats, or settings taken together
    at, force = odd_force(speed, force), np.abs(force)
    if at is None:
        return []
    beside = " and ".join(f"{force[i]:.4g} N" for i in (at - 1, at + 1) if 0 <= i < len(force))
    what = f"{way.name} force of {force[at]:.4g} N at {speed[at] / factor:.4g} {unit}"
    return [f"{what} lies far off those beside it, {beside}: is its decimal mark right? It was read as it stands"]


def _odd_speed(speed: FloatArray) -> int | None:
    """Return the row whose speed breaks an order that all others keep, by far; None where there is none."""
    steps = np.diff(speed)
    if (steps > 0).all() or (steps < 0).all():
        return None
    between = np.flatnonzero(far_off(speed[1:-1], speed[:-2], speed[2:])) + 1
    for at in between:
        others = np.diff(np.delete(speed, at))
        if (others > 0).all() or (others < 0).all():
            return int(at)
    return None
