"""How often a record was sampled along its way: a rig may sample faster where it moves faster, and pause between."""

from __future__ import annotations

import numpy as np

from dynoan.model.arrays import FloatArray
from dynoan.model.assumptions import CHANGES, NEIGHBOURS
from dynoan.model.ranks import percentile

_LOOK = 1 << 15  #: windows looked at a time: all at once are many times as large as a channel [samples]


def running_middle(steps: FloatArray) -> FloatArray:
    """Return the median of each step and its neighbours, shape (n,). [as `steps`]"""
    if not len(steps):
        return steps
    half = min(NEIGHBOURS, len(steps)) // 2
    windows = np.lib.stride_tricks.sliding_window_view(np.pad(steps, half, mode="reflect"), 2 * half + 1)
    return np.concatenate([np.median(windows[k : k + _LOOK], axis=1) for k in range(0, len(windows), _LOOK)])


def running_mean(steps: FloatArray) -> FloatArray:
    """Return the mean of each step and its neighbours, shape (n,): stamps are rounded. [as `steps`]"""
    if not len(steps):
        return steps
    half = min(NEIGHBOURS, len(steps)) // 2
    padded = np.pad(steps, half, mode="reflect") if half else steps
    return np.convolve(padded, np.full(2 * half + 1, 1.0 / (2 * half + 1)), mode="valid")


def rate_range(local: FloatArray, middle: float) -> tuple[float, float] | None:
    """Return the shortest and the longest usual step of a record whose rate changes, None where it does not.

    Parameters
    ----------
    local
        Steps of time as `running_middle` gives them, shape (n,). [s]
    middle
        Their median. [s]
    """
    quick, slow = (percentile(local, share) for share in (5.0, 95.0))
    return (quick, slow) if quick < CHANGES * middle or middle < CHANGES * slow else None
