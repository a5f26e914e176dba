"""How a record moves as it was read: its velocity, and the peaks of velocity and force."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from dynoan.model.assumptions import LOST_SHARE, LOST_STEPS, UNEVEN
from dynoan.model.ranks import median
from dynoan.model.sweep import Sweep

if TYPE_CHECKING:
    from dynoan.model.arrays import FloatArray, IntArray


def velocity(sweep: Sweep) -> FloatArray | None:
    """Return the velocity of a sweep [m/s], derived from displacement where none was recorded; None without a rate."""
    if "velocity" in sweep.channels:
        return sweep.channels["velocity"]
    if sweep.rate is None or "displacement" not in sweep.channels:
        return None
    import numpy as np

    from dynoan.model.assumptions import CHANGES, PAUSE_STEPS
    from dynoan.model.motion import derived_velocity, eighth_of_cycle
    from dynoan.model.sampling import rate_range, running_middle

    x, time = sweep.channels["displacement"], sweep.channels.get("time")
    if time is None or len(time) < 2 or not np.isfinite(time.sum() + x.sum()):
        return derived_velocity(x, 1 / sweep.rate)
    steps = np.diff(time) * sweep.rate
    if 0 < steps.min() < CHANGES * steps.max():
        local = running_middle(steps)
        if rate_range(local, median(steps)):
            return _by_pieces(x, time, np.flatnonzero(steps > PAUSE_STEPS * local) + 1)
    if np.all(steps > 0) and np.mean(np.abs(steps - 1) > UNEVEN) > LOST_SHARE and steps.max() < PAUSE_STEPS:
        return _uneven_velocity(x, time, sweep.rate)
    lost = steps > LOST_STEPS
    few = 0 < lost.sum() < LOST_SHARE * len(x) and bool(np.all(steps > 0))
    pauses = np.flatnonzero(steps > PAUSE_STEPS) + 1
    if not few and not len(pauses):
        return derived_velocity(x, 1 / sweep.rate)
    usual, stretches = eighth_of_cycle(x), np.split(np.arange(len(x)), pauses)
    return np.concatenate([_of_stretch(x[k], steps[k[:-1]] if few else None, sweep.rate, usual) for k in stretches])


def _of_stretch(x: FloatArray, steps: FloatArray | None, rate: float, usual: int) -> FloatArray:
    """Return the velocity of a stretch without a pause, the samples that its clock lost put on a straight line. [m/s]

    Left out they would be one step of the motion, which went on unseen. `steps` are None where none is lost.
    """
    import numpy as np

    from dynoan.model.motion import derived_velocity

    if steps is None or len(x) < 2:
        return derived_velocity(x, 1 / rate, usual)
    at = np.concatenate([[0], np.cumsum(np.maximum(np.rint(steps), 1)).astype(np.int64)])
    v: FloatArray = derived_velocity(np.interp(np.arange(at[-1] + 1), at, x), 1 / rate, usual)[at]
    return v


def _by_pieces(x: FloatArray, time: FloatArray, cuts: IntArray) -> FloatArray:
    """Return the velocity of a record whose rate goes with its speed, each piece between pauses by itself. [m/s]"""
    import numpy as np

    from dynoan.model.motion import derived_velocity
    from dynoan.model.sampling import running_mean

    found = []
    for piece, at in zip(np.split(x, cuts), np.split(time, cuts), strict=True):
        steps = running_mean(np.diff(at))
        found.append(derived_velocity(piece, 1.0) / np.append(steps, steps[-1:] if len(steps) else np.nan))
    return np.concatenate(found)


def _uneven_velocity(x: FloatArray, time: FloatArray, rate: float) -> FloatArray:
    """Return the velocity of samples at uneven stamps: either they were taken so, or an even clock was stamped so.

    The smoother of the two is the motion's: the other holds the steps of the stamps. [m/s]
    """
    import numpy as np

    from dynoan.model.motion import derived_velocity

    even = time[0] + np.arange(int((time[-1] - time[0]) * rate) + 1) / rate
    stamped = np.interp(time, even, derived_velocity(np.interp(even, time, x), 1 / rate))
    counted = derived_velocity(x, 1 / rate)
    return min(stamped, counted, key=lambda v: float(np.sum(np.diff(v, 2) ** 2)))


@dataclass(frozen=True)
class Peaks:
    """The largest velocity and force of a record in one direction, magnitudes; None where it holds none."""

    velocity: float | None  #: [m/s]
    force: float | None  #: [N]


def peaks(sweep: Sweep) -> dict[str, Peaks]:
    """Return the peaks of a record as read, gas force and offset still in, by direction."""
    import numpy as np

    v, force = velocity(sweep), sweep.channels["force"]
    found = {}
    for way, turn in (("compression", 1.0), ("rebound", -1.0)):
        f = turn * force
        if sweep.layout == "peaks" and v is not None:
            f = f[turn * v > 0]
        speed = turn * v[np.isfinite(v)] if v is not None else np.empty(0)
        f = f[np.isfinite(f)]
        fast = float(speed.max()) if len(speed) and speed.max() > 0 else None
        found[way] = Peaks(fast, float(f.max()) if len(f) and f.max() > 0 else None)
    return found
