"""Rows in which a logger wrote the last displacement again, since its sensor had no new one.

Force goes on there while travel stands still: left in, speed jumps from nothing to twice what it is, and force comes
too early. The place between is that of the motion.
"""

from __future__ import annotations

import numpy as np

from dynoan.model.arrays import BoolArray, FloatArray

#: a fast row is one about which travel changes by this share of the largest change a row [1], over so many rows, and by
#: so many of the channel's smallest steps, so that a coarse channel shows no repeats; judged
FAST, ABOUT, STEPS = 0.3, 9, 3.0
#: a logger repeats where so many of the fast rows do, a share [1]; judged: a smooth motion repeats in none
OFTEN = 0.03
#: rows in a row that it repeats at most; more stand still [rows]; judged
LONGEST = 12


def repeated(x: FloatArray) -> BoolArray:
    """Return which rows repeat the displacement before, shape (n,); none where a logger does not.

    `x` is the displacement as recorded, shape (n,), none missing. [any unit]
    """
    same: BoolArray = np.asarray(np.diff(x, prepend=np.nan) == 0)
    nothing = np.zeros(len(x), dtype=bool)
    if len(x) <= ABOUT or float(np.mean(same)) < 0.5 * OFTEN or not _while_it_moves(x, same):
        return nothing
    begins = np.flatnonzero(np.diff(np.concatenate([[0], same.astype(np.int8), [0]])))
    for first, last in zip(begins[::2], begins[1::2], strict=True):
        if last - first > LONGEST:
            same[first:last] = False
    return same


def _while_it_moves(x: FloatArray, same: BoolArray) -> bool:
    """Return whether rows repeat where travel changes by far more than its smallest step."""
    change = np.abs(np.diff(x))
    about = np.convolve(change, np.full(ABOUT, 1.0 / ABOUT), mode="same")
    steps = np.diff(np.unique(x[:200_000]))
    steps = steps[steps > 1e-7 * np.ptp(x)]
    least = STEPS * float(np.percentile(steps, 10)) if len(steps) else 0.0
    fast = about > max(FAST * float(np.percentile(about, 99.5)), least)
    return bool(fast.any()) and float(np.mean(same[1:][fast])) > OFTEN


def on_the_motion(x: FloatArray, time: FloatArray | None, same: BoolArray) -> FloatArray:
    """Return displacement with the rows that repeat put between the others by a cubic spline, shape (n,). [m]

    `time` is used where it is known and rises. [s]
    """
    from scipy.interpolate import CubicSpline  # a fresh process is spared it where nothing repeats

    at = np.arange(len(x), dtype=float)
    if time is not None and np.isfinite(time).all() and np.all(np.diff(time) > 0):
        at = time
    out = x.copy()
    out[same] = CubicSpline(at[~same], x[~same])(at[same])
    return out


def white(rest: FloatArray) -> bool:
    """Return whether neighbours of what is left go no way together: then no motion is left in it, shape (n,)."""
    power = float(np.mean(rest**2))
    return len(rest) > 8 and float(np.mean(rest[1:] * rest[:-1])) < 2.0 / np.sqrt(len(rest)) * power + 1e-30
