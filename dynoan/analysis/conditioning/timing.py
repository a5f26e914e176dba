"""Channels on an even time base, however the rig timed its samples: by a clock, by one that jumps, or by an encoder."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from dynoan.model.arrays import BoolArray, FloatArray

#: neighbouring steps of time that one of them is judged by; a gap is longer than so many times their middle; judged
NEIGHBOURS, GAP = 9, 3.0
#: steps change with the motion, as an encoder's do, where the quickest twentieth is below this share of the middle;
#: judged: a clock that shakes is not meant
ENCODED = 0.7
#: longest even grid, in samples recorded; judged
LONGEST = 20


@dataclass(frozen=True)
class Even:
    """Channels on an even grid of time."""

    dt: float | None  #: [s]; None where time is unknown
    channels: list[FloatArray | None]
    good: BoolArray  #: not in a gap
    own: BoolArray  #: beside a recorded sample
    notes: tuple[str, ...] = ()


def evened(time: FloatArray | None, rate: float | None, channels: Sequence[FloatArray | None], good: BoolArray) -> Even:
    """Return channels at even steps of time, interpolated where the record jumps, skips or follows an encoder.

    Parameters
    ----------
    time
        Of the samples, shape (n,); None or with missing values where it cannot be used. [s]
    rate
        As the file states it, used where time cannot be. [Hz]
    channels
        Each of shape (n,), or None where not recorded.
    good
        Which samples are complete, shape (n,).
    """
    n = len(good)
    stated = Even(1.0 / rate if rate else None, list(channels), good, np.ones(n, dtype=bool))
    if time is None or not np.isfinite(time).all():
        return stated
    span = float(time[-1] - time[0])
    if span <= 0 or np.any(np.diff(time) < 0):
        return _with(stated, "time runs backward somewhere; its steps are not used")
    dt = span / (n - 1)
    if np.max(np.abs(time - time[0] - dt * np.arange(n))) < 2.0 * dt:
        return Even(dt, list(channels), good, stated.own)
    fresh = np.flatnonzero(np.diff(time, prepend=-np.inf) > 0)
    return _gridded(stated, time[fresh], [None if c is None else c[fresh] for c in channels], good[fresh])


def _with(even: Even, note: str) -> Even:
    return Even(even.dt, even.channels, even.good, even.own, (note,))


def _gridded(stated: Even, time: FloatArray, channels: list[FloatArray | None], good: BoolArray) -> Even:
    steps = np.diff(time)
    local = _running_middle(steps)
    middle, quick = float(np.median(steps)), float(np.quantile(local, 0.05))
    encoded = quick < ENCODED * middle
    # Two grid samples a step: what was recorded then stands within a quarter of a step of one.
    dt = 0.5 * quick if encoded else middle
    if time[-1] - time[0] > LONGEST * len(time) * dt:
        return _with(stated, "time has gaps far longer than its steps; its steps are not used")
    grid = np.arange(time[0], time[-1] + 0.5 * dt, dt)
    after = np.clip(np.searchsorted(time, grid), 1, len(time) - 1)
    inside = (steps[after - 1] <= GAP * (local[after - 1] if encoded else dt)) & good[after] & good[after - 1]
    if not encoded:
        straight = [None if c is None else np.interp(grid, time, c) for c in channels]
        words = "uneven time steps: put on an even grid by interpolation"
        return Even(dt, straight, inside, np.ones(len(grid), dtype=bool), (words,))
    own = np.zeros(len(grid), dtype=bool)
    own[np.clip(np.round((time - time[0]) / dt).astype(int), 0, len(grid) - 1)] = True
    words = "time steps change with the motion, as an encoder makes them: each sample is taken at its own time"
    return Even(dt, [None if c is None else _smooth(grid, time, c) for c in channels], inside, own, (words,))


def _smooth(grid: FloatArray, time: FloatArray, values: FloatArray) -> FloatArray:
    """Return values between samples by cubic splines: straight lines cut the tops of few samples a turn."""
    from scipy.interpolate import CubicSpline  # a fresh process is spared it where time is even

    return np.asarray(CubicSpline(time, values)(grid))


def _running_middle(steps: FloatArray) -> FloatArray:
    """Return the median of each step and its neighbours, shape (n,). [s]"""
    half = NEIGHBOURS // 2
    padded = np.pad(steps, half, mode="reflect") if len(steps) > half else np.resize(steps, len(steps) + 2 * half)
    return np.asarray(np.median(np.lib.stride_tricks.sliding_window_view(padded, NEIGHBOURS), axis=1))
