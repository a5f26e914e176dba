"""Whether the rows of a part are a table of peaks or samples in time."""

from __future__ import annotations

import numpy as np

from dynoan.model.arrays import FloatArray
from importers.assumptions.sweeps import MOST_PEAK_ROWS, SAMPLED_SPEEDS, SAMPLED_STEP
from importers.parts import SweepPart


def is_peak_table(part: SweepPart) -> bool:
    """Whether rows are a table of peaks rather than samples in time."""
    roles = part.roles
    if roles.forces and (roles.speeds or "velocity" in roles.channels):
        return True
    if "velocity" not in roles.channels or "time" in roles.channels or part.rows > MOST_PEAK_ROWS:
        return False
    if "direction" in roles.keys:
        return True
    if "displacement" in roles.channels and not _one_stroke(part):
        return False
    return is_tabular(part.values[roles.channels["velocity"].index])


def _one_stroke(part: SweepPart) -> bool:
    """Whether displacement is the stroke of the table rather than a sample."""
    x = part.values[part.roles.channels["displacement"].index]
    return bool(np.nanmax(x) == np.nanmin(x)) if len(x) else False


def _runs_on(v: FloatArray) -> bool:
    """Whether velocities go to and fro in steps small beside their span, as samples do that repeat each cycle."""
    if len(np.unique(v)) < SAMPLED_SPEEDS or not (v.min() < 0 < v.max()):
        return False
    turns = np.count_nonzero(np.diff(np.sign(np.diff(v))))
    return bool(turns > 1 and np.abs(np.diff(v)).max() < SAMPLED_STEP * np.ptp(v))


def is_tabular(velocity: FloatArray) -> bool:
    """Whether velocities are those of a table: in each direction rising or falling steadily, or the same few again."""
    v = velocity[np.isfinite(velocity)]
    if _runs_on(v):
        return False
    for side in (v[v > 0], -v[v < 0]):
        if len(side) < 2:
            continue
        step = np.diff(side)
        if (step > 0).all() or (step < 0).all():
            continue
        if 2 * len(np.unique(side)) > len(side):
            return False
    return len(v) > 0
