"""Runs pooled into one curve: how far each lies off it, what that leaves open, and when they are no repeats."""

from __future__ import annotations

from collections.abc import Callable, Mapping

import numpy as np

from dynoan.analysis.fitting.assumptions import REPEAT_SCATTER, REPEATS_KNOWN, UNLIKE_RUNS
from dynoan.analysis.fitting.cells import Points
from dynoan.analysis.statistics import t_quantile
from dynoan.model.arrays import BoolArray, FloatArray
from dynoan.model.curve import Direction

#: force over speed, magnitudes
Curve = Callable[[FloatArray], FloatArray]


def run_gains(p: Points, curve: Curve) -> FloatArray:
    """Return the share of a curve's force that each run has, shape (runs,); 1 of a run that saw none of it. [1]"""
    model, gains = curve(p.speed), []
    for one in np.unique(p.sweep):
        mine = p.sweep == one
        w = p.weight[mine]
        power = float(np.sum(w * model[mine] ** 2))
        gains.append(float(np.sum(w * model[mine] * p.force[mine])) / power if power > 0 else 1.0)
    return np.array(gains)


def between_sweeps(p: Points, curve: Curve) -> float:
    """Return the 95 % half width, a share of force, that scatter between pooled sweeps leaves in their mean. [1]

    Two or three repeats by themselves tell next to nothing of their scatter, so it is weighed with what is usual.
    """
    gains = run_gains(p, curve)
    if len(gains) < 2 or not curve(p.speed).any():  # without a force there is no share of it
        return 0.0
    dof = REPEATS_KNOWN + len(gains) - 1
    variance = (REPEATS_KNOWN * REPEAT_SCATTER**2 + float(np.sum((gains - gains.mean()) ** 2))) / dof
    return t_quantile(0.975, dof) * float(np.sqrt(variance / len(gains)))


def unlike_runs(directions: Mapping[Direction, tuple[Points, Curve]]) -> str | None:
    """Return in words that pooled runs lie further apart in a direction than repeats of one setting do; else None."""
    found = {d: np.where(_reaching(p), run_gains(p, curve), np.nan) for d, (p, curve) in directions.items()}
    direction, gains = max(found.items(), key=lambda one: _range(one[1]))
    if _range(gains) <= UNLIKE_RUNS:
        return None
    runs, low, high = np.unique(directions[direction][0].sweep), int(np.nanargmin(gains)), int(np.nanargmax(gains))
    return (
        f"the {len(gains)} runs taken together here are no repeats of one another: in {direction} run {runs[low] + 1} "
        f"has {100 * gains[low]:.0f} % and run {runs[high] + 1} {100 * gains[high]:.0f} % of this curve's force, so it "
        "is the curve of neither; ask for one run by its id (dynoan add, then dynoan sweeps)"
    )


def _range(gains: FloatArray) -> float:
    return float(np.nanmax(gains) - np.nanmin(gains))


def _reaching(p: Points) -> BoolArray:
    """Return which runs reach half of the top speed: forces of slow ones are friction and gas as much as valve."""
    return np.array([p.speed[p.sweep == one].max() >= 0.5 * p.speed[-1] for one in np.unique(p.sweep)])
