"""By how much two launches differ in a figure that the road decides, both on the same many roads."""

from __future__ import annotations

import numpy as np

from dynoan.analysis.launch.compare import LaunchRun, car_apart, of_curves
from dynoan.analysis.statistics import t_quantile
from dynoan.model.banded import Banded


def difference(a: LaunchRun, b: LaunchRun, key: str, *, paired: bool) -> Banded | None:
    """Return by how much the second run has more of a figure than the first, with 95 % limits; SI.

    The roads are the same for both, so what a road does to both alike drops out of the difference; its limits hold what
    the choice of roads leaves open (Student's t), what is open of the curves, and of the car as far as it moves the two
    differently, the squares added.

    Parameters
    ----------
    a, b
        On one surface.
    key
        Of the figure.
    paired
        Whether the same curves are on both: what is open of them is then the same on both sides.

    Returns
    -------
    :
        None where a run has no such figure.
    """
    one, two = (run.metrics.get(key, np.nan) for run in (a, b))
    if not np.isfinite(one) or not np.isfinite(two):
        return None
    value, of_roads = float(two - one), 0.0
    if key in a.roads and key in b.roads:
        off = np.asarray(b.roads[key]) - np.asarray(a.roads[key])
        value = float(np.mean(off))
        of_roads = t_quantile(0.975, len(off) - 1) * float(np.std(off, ddof=1)) / np.sqrt(len(off))
    below, above = _open(a, b, key, paired)
    others = float(np.hypot(of_roads, car_apart(a, b, key)))
    return Banded(value, value - float(np.hypot(below, others)), value + float(np.hypot(above, others)))


def _open(a: LaunchRun, b: LaunchRun, key: str, paired: bool) -> tuple[float, float]:
    """Return how far the curves' bands reach below and above a difference."""
    if paired and a.levels and b.levels:
        moved = np.asarray(b.levels[key]) - np.asarray(a.levels[key])
        moved = moved[np.isfinite(moved)] - moved[0]
        return float(-moved.min()), float(moved.max())
    (a_low, a_high), (b_low, b_high) = (of_curves(run, key) for run in (a, b))
    one, two = a.metrics[key], b.metrics[key]
    return float(np.hypot(two - b_low, a_high - one)), float(np.hypot(b_high - two, one - a_low))
