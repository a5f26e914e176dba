"""One direction's points, grouped into narrow cells of speed for the search, with weights."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np

from dynoan.analysis.fitting.assumptions import CELLS, MISFIT, MISFIT_SPAN
from dynoan.model.arrays import FloatArray, IntArray


@dataclass(frozen=True)
class Points:
    """Magnitudes of one direction, sorted by speed. SI."""

    speed: FloatArray
    force: FloatArray
    weight: FloatArray  #: one over the variance
    cluster: IntArray
    sweep: IntArray

    def __len__(self) -> int:
        return len(self.speed)


@dataclass(frozen=True)
class Cells:
    """Weighted means of the points in narrow cells of speed."""

    speed: FloatArray
    force: FloatArray
    weight: FloatArray  #: one over the variance of the mean, misfit included
    noise: FloatArray  #: standard deviation of the mean without misfit [N]
    place: IntArray  #: the cell of each point
    spare: float = 0.0  #: weighted sum of squares that the doubt common to the points alone makes

    def __len__(self) -> int:
        return len(self.speed)


def cells_of(p: Points, doubt: Callable[[FloatArray], FloatArray] | None = None) -> Cells:
    """Return the cells of one direction: half of the edges even in speed, half with equal numbers of points.

    `doubt` gives the standard deviation [N] at speeds [m/s] of what all points there may be off alike.
    """
    place = np.arange(len(p)) if len(p) <= CELLS else _places(p.speed)
    first = np.flatnonzero(np.diff(place, prepend=-1))
    place = np.cumsum(np.diff(place, prepend=-1) != 0) - 1

    def total(values: FloatArray) -> FloatArray:
        return np.add.reduceat(values, first)

    weight = np.maximum(total(p.weight), 1e-300)
    speed, force = total(p.weight * p.speed) / weight, total(p.weight * p.force) / weight
    span = float(np.max(np.abs(force)))
    misfit = MISFIT * np.abs(force) + MISFIT_SPAN * span
    common = np.zeros(len(speed)) if doubt is None else doubt(speed)
    total_weight = 1.0 / (1.0 / weight + misfit**2 + common**2)
    return Cells(speed, force, total_weight, 1.0 / np.sqrt(weight), place, float(np.sum(total_weight * common**2)))


def _places(speed: FloatArray) -> IntArray:
    even = np.linspace(speed[0], speed[-1], CELLS // 2)
    rank = speed[np.linspace(0, len(speed) - 1, CELLS // 2).astype(int)]
    return np.searchsorted(np.unique(np.concatenate([even, rank]))[1:-1], speed, side="right")
