"""Behind mounts that give a shock moves less than the machine: friction and gas bend them as damping does."""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from dynoan.analysis.conditioning.channels.record import Record
from dynoan.analysis.conditioning.channels.slopes import force_rate, slope_noise
from dynoan.analysis.conditioning.channels.velocity import StrokeMotion
from dynoan.model.arrays import FloatArray


def behind(record: Record, motion: StrokeMotion, give: float) -> StrokeMotion:
    """Return the motion of a shock whose mounts give. [m/N]"""
    if not give or not record.dt:
        return motion
    rate, window = force_rate(record.force, record.force_noise)
    lost = give * rate / record.dt
    noise = give * slope_noise(window) * record.force_noise / record.dt
    return replace(motion, velocity=motion.velocity - lost, error=np.hypot(motion.error, noise))


def least_of(at: FloatArray, losses: FloatArray) -> float:
    """Return where a parabola through the lowest of some losses and its neighbours is least, within them. [as `at`]

    Shapes (n,), n of three or more; the lowest itself at either end.
    """
    k = int(np.argmin(losses))
    if k in (0, len(at) - 1):
        return float(at[k])
    near = slice(k - 1, k + 2)
    curve = np.polyfit(at[near] - at[k], losses[near], 2)
    return float(at[k] - curve[1] / (2.0 * curve[0]))
