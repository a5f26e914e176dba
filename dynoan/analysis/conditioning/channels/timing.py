"""Channels on an even time base, however the rig timed its samples: by a clock, one that jumps or changes its rate from
block to block, or by an encoder.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

import numpy as np

from dynoan.model.arrays import BoolArray, FloatArray, IntArray
from dynoan.model.assumptions import CHANGES, NEIGHBOURS
from dynoan.model.sampling import rate_range, running_middle

#: a gap is longer than so many times the steps around it [1]; judged
GAP = 3.0
#: longest even grid, in samples recorded, or in samples where those are few; judged
LONGEST, LONG = 20, 400_000
#: the logger paused where no sample came for so long [s]; judged: a cycle goes on through less
PAUSE = 0.1


@dataclass(frozen=True)
class Even:
    """Channels on an even grid of time."""

    dt: float | None  #: [s]; None where time is unknown
    channels: list[FloatArray | None]
    good: BoolArray  #: not in a gap
    own: BoolArray  #: beside a recorded sample
    notes: tuple[str, ...] = ()
    #: first sample, and that after the last, of what lies between pauses of the logger and changes of its rate
    stretches: tuple[tuple[int, int], ...] = ()


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
    local = running_middle(steps)
    middle = float(np.median(steps))
    changing = rate_range(local, middle)
    # Two grid samples a step: what was recorded then stands within a quarter of a step of one.
    dt = 0.5 * changing[0] if changing else middle
    if time[-1] - time[0] > max(LONGEST * len(time), LONG) * dt:
        return _with(stated, "time has gaps far longer than its steps; its steps are not used")
    grid = np.arange(time[0], time[-1] + 0.5 * dt, dt)
    after = np.clip(np.searchsorted(time, grid), 1, len(time) - 1)
    gap = steps > GAP * (local if changing else dt)
    inside = ~gap[after - 1] & good[after] & good[after - 1]
    cuts = np.union1d(np.flatnonzero(gap & (steps > PAUSE)) + 1, _changes(steps, local) if changing else [])
    runs = [time[a:b] for a, b in pairwise([0, *cuts.astype(int), len(time)])]
    edges = [np.searchsorted(grid, (run[0] - 0.25 * dt, run[-1] + 0.25 * dt)) for run in runs]
    stretches = tuple((int(a), int(b)) for a, b in edges if b > a)
    if not changing:
        straight = [None if c is None else np.interp(grid, time, c) for c in channels]
        words = "uneven time steps: put on an even grid by interpolation"
        only = np.count_nonzero(gap) == len(cuts) and _even_between(steps, gap)
        return Even(dt, straight, inside, np.ones(len(grid), dtype=bool), () if only else (words,), stretches)
    own = np.zeros(len(grid), dtype=bool)
    own[np.clip(np.round((time - time[0]) / dt).astype(int), 0, len(grid) - 1)] = True
    smooth = [None if c is None else _smooth(grid, time, c, runs) for c in channels]
    words = "time steps change with the speed, by an encoder or block by block: each sample is taken at its own time"
    return Even(dt, smooth, inside, own, (words,), stretches)


def _changes(steps: FloatArray, local: FloatArray) -> IntArray:
    """Return the samples at which the rate changes at once and stays; none where it follows the motion."""
    ratio = np.abs(np.log(local[NEIGHBOURS:] / local[:-NEIGHBOURS]))
    change = np.abs(np.log(steps[1:] / steps[:-1]))
    edges = np.flatnonzero(np.diff(np.concatenate([[0], (ratio > -np.log(CHANGES)).astype(np.int8), [0]])))
    cuts = [int(a + 1 + np.argmax(change[a : b + NEIGHBOURS])) for a, b in zip(edges[::2], edges[1::2], strict=True)]
    pieces = [local[a + NEIGHBOURS : b - NEIGHBOURS] for a, b in pairwise([0, *cuts, len(local)])]
    steady = all(len(p) and np.quantile(p, 0.05) > CHANGES * np.quantile(p, 0.95) for p in pieces)
    return np.array(cuts if steady else [], dtype=np.int64)


def _even_between(steps: FloatArray, gap: BoolArray) -> bool:
    """Return whether all other steps are alike."""
    rest = steps[~gap]
    return bool(len(rest)) and bool(np.max(np.abs(rest / np.median(rest) - 1.0)) < 1.0 - CHANGES)


def _smooth(grid: FloatArray, time: FloatArray, values: FloatArray, runs: Sequence[FloatArray]) -> FloatArray:
    """Return values between samples by cubic splines within each run: straight lines cut the tops of few samples."""
    from scipy.interpolate import CubicSpline  # a fresh process is spared it where time is even

    out = np.interp(grid, time, values)
    for run in runs:
        a, b = np.searchsorted(time, (run[0], run[-1]))
        at = slice(*np.searchsorted(grid, (run[0], run[-1])))
        if b - a >= 3:
            out[at] = CubicSpline(time[a : b + 1], values[a : b + 1])(grid[at])
    return out
