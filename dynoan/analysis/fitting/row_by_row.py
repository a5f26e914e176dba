"""A curve straight from row to row, for a table of so few rows that no law of few values meets them."""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from dynoan.analysis.fitting.assumptions import FEW_ROWS, ROW_MET
from dynoan.analysis.knees.assumptions import MOST_KNEES
from dynoan.analysis.knees.broken_line import BrokenStick
from dynoan.model.arrays import FloatArray


def row_by_row(speed: FloatArray, force: FloatArray, weight: FloatArray) -> BrokenStick | None:
    """Return the curve from zero from row to row, past those that lie on the way; None where rows are not few.

    Parameters
    ----------
    speed, force, weight
        Of one direction, magnitudes in order of speed, shape (n,); rows at one speed count as their mean.
    """
    at, row = np.unique(speed, return_inverse=True)
    if not 2 <= len(at) <= FEW_ROWS:
        return None
    mean = np.bincount(row, weight * force) / np.bincount(row, weight)
    knots, values = np.concatenate([[0.0], at]), np.concatenate([[0.0], mean])
    kept = _turning(knots, values)
    straight = np.zeros(len(kept) - 1)
    stick = BrokenStick(knots[kept], values[kept], straight, straight > 0, 0.0, len(speed), pinned=True)
    return replace(stick, sse=float(np.sum(weight * (force - stick(speed)) ** 2)))


def _turning(knots: FloatArray, values: FloatArray) -> list[int]:
    """Return which points a line through them has to turn at, as many as knees may be, and the first and the last."""
    allowed, kept = ROW_MET * float(np.max(np.abs(values))), list(range(len(knots)))
    while len(kept) > 2:
        off = [
            max(abs(values[i] - np.interp(knots[i], knots[rest], values[rest])) for i in range(len(knots)))
            for rest in ([*kept[:k], *kept[k + 1 :]] for k in range(1, len(kept) - 1))
        ]
        least = int(np.argmin(off))
        if off[least] > allowed and len(kept) <= MOST_KNEES + 2:
            break
        del kept[least + 1]
    return kept


def between_rows(stick: BrokenStick, speed: FloatArray) -> FloatArray:
    """Return where each knee of such a curve may lie, from the row before to the row after, shape (k, 2). [m/s]"""
    at = np.concatenate([[0.0], np.unique(speed)])
    place = np.searchsorted(at, stick.knees)
    return np.column_stack([at[place - 1], at[place + 1]])


def stands_on_rows(stick: BrokenStick, speed: FloatArray) -> bool:
    """Return whether a curve's knees are rows themselves, as `row_by_row` has them."""
    return len(stick.knees) > 0 and bool(np.isin(stick.knees, speed).all()) and len(np.unique(speed)) <= FEW_ROWS
