"""Behind mounts that give a shock moves less than the machine: friction and gas bend them as damping does."""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from dynoan.analysis.conditioning.channels.record import Record
from dynoan.analysis.conditioning.channels.slopes import force_rate, slope_noise
from dynoan.analysis.conditioning.channels.velocity import StrokeMotion


def behind(record: Record, motion: StrokeMotion, give: float) -> StrokeMotion:
    """Return the motion of a shock whose mounts give. [m/N]"""
    if not give or not record.dt:
        return motion
    rate, window = force_rate(record.force, record.force_noise)
    lost = give * rate / record.dt
    noise = give * slope_noise(window) * record.force_noise / record.dt
    return replace(motion, velocity=motion.velocity - lost, error=np.hypot(motion.error, noise))
