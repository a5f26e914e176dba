"""What a channel writes that is no motion and no force: its noise, the steps that it counts in, lone spikes."""

from __future__ import annotations

import numpy as np

from dynoan.analysis.statistics import sample_noise
from dynoan.model.arrays import FloatArray

#: a sample may be a spike from so many standard deviations of the noise off its neighbours on [1]; judged
SPIKE = 8.0


def without_spikes(force: FloatArray) -> tuple[FloatArray, int]:
    """Return force with lone spikes put between their neighbours, and how many there were. [N]

    A spike is as far off its neighbours as off those beyond, and these lie at one height: on a bend or a step of the
    force they do not.
    """
    out, n = force.copy(), len(force)
    if n < 5:
        return out, 0
    left, right, before, after = force[1 : n - 3], force[3 : n - 1], force[: n - 4], force[4:]
    off = force[2 : n - 2] - 0.5 * (left + right)
    beyond = force[2 : n - 2] - 0.5 * (before + after)
    level = np.maximum(np.abs(right - left), np.abs(after - before))
    far = np.abs(off) > SPIKE * max(white_noise(force), 1e-4 * float(np.ptp(force)))
    spike = far & (np.abs(beyond - off) < 0.3 * np.abs(off)) & (level < 0.5 * np.abs(off))
    out[2 : n - 2][spike] = 0.5 * (left + right)[spike]
    return out, int(spike.sum())


def resolution(force: FloatArray) -> float:
    """Return the smallest step between values of the force channel where it is coarse against its noise. [N]"""
    step, noise = count_of(force), white_noise(force)
    return step if step > 0.5 * noise and step > 1e-3 * float(np.ptp(force)) else 0.0


def count_of(values: FloatArray) -> float:
    """Return the step between the values of a channel that counts in steps; 0 of any other. [as the values]"""
    levels = np.unique(np.round(values[:200_000], 9))
    if len(levels) < 3:
        return 0.0
    steps = np.diff(levels)
    steps = steps[steps > 1e-6 * float(np.ptp(values))]
    step = float(np.median(steps))
    even = np.abs(steps / step - np.round(steps / step)) < 0.02
    return step if float(np.mean(even)) > 0.95 else 0.0


def white_noise(values: FloatArray) -> float:
    """Return the standard deviation of a channel's noise; a long one is thinned first. [as the values]"""
    return sample_noise([values[:: max(1, len(values) // 400_000)] if len(values) > 800_000 else values])
