"""A curve straight from row to row, for a table of so few rows that no law of few values meets them."""

from __future__ import annotations

import numpy as np

from dynoan.analysis.fitting.assumptions import FEW_ROWS
from dynoan.analysis.knees.broken_line import BrokenStick
from dynoan.model.arrays import FloatArray


def row_by_row(speed: FloatArray, force: FloatArray, weight: FloatArray) -> BrokenStick | None:
    """Return the curve from zero through every row, rows at one speed as their mean; None where rows are not few.

    Parameters
    ----------
    speed, force, weight
        Of one direction, magnitudes in order of speed, shape (n,).
    """
    at, row = np.unique(speed, return_inverse=True)
    if not 2 <= len(at) <= FEW_ROWS:
        return None
    mean = np.bincount(row, weight * force) / np.bincount(row, weight)
    straight = np.zeros(len(at))
    stick = BrokenStick(
        np.concatenate([[0.0], at]), np.concatenate([[0.0], mean]), straight, straight > 0, 0.0, len(speed), pinned=True
    )
    return BrokenStick(**{**vars(stick), "sse": float(np.sum(weight * (force - stick(speed)) ** 2))})


def between_rows(stick: BrokenStick) -> FloatArray:
    """Return in which interval each knee of such a curve may lie: from the row before to the row after, (k, 2)."""
    return np.column_stack([stick.knots[:-2], stick.knots[2:]])


def stands_on_rows(stick: BrokenStick, speed: FloatArray) -> bool:
    """Return whether a curve's knees are the rows themselves, as `row_by_row` has them."""
    at = np.unique(speed)
    return len(stick.knees) > 0 and len(at) == len(stick.knots) - 1 and bool(np.array_equal(at, stick.knots[1:]))
