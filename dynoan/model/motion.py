"""Velocity of a recorded displacement: the one derivative of a record as it was read."""

from __future__ import annotations

import numpy as np

from dynoan.model.arrays import BoolArray, FloatArray, IntArray
from dynoan.model.assumptions import SHORT_PERCENTILE, TURN_BAND, WIDEST_HALF
from dynoan.model.ranks import median, percentile
from dynoan.model.repeats import on_the_motion, repeated


def eighth_of_cycle(displacement: FloatArray, usual: int | None = None) -> int:
    """Return about an eighth of the shortest common cycle of a record, at least 1. [samples]

    Parameters
    ----------
    displacement
        In any unit, shape (n,); NaN where missing.
    usual
        What a stretch that holds no whole cycle takes: that of the record it is of. [samples]
    """
    x = displacement if np.isfinite(displacement.sum()) else displacement[np.isfinite(displacement)]
    if len(x) < 9:
        return 1
    high, low = x.max(), x.min()
    middle, size = 0.5 * (high + low), TURN_BAND * (high - low)
    high_from, low_from = _begins(x > middle + size), _begins(x < middle - size)
    # A turn is where it is first beyond one edge after it was beyond the other: of few such places, not of all samples.
    where = np.concatenate([high_from, low_from])
    order = np.argsort(where)
    where, high_there = where[order], order < len(high_from)
    turns = where[1:][high_there[1:] != high_there[:-1]]
    half = percentile(np.diff(turns), SHORT_PERCENTILE) if len(turns) > 2 else 4 * usual if usual else len(x) / 4
    return max(1, min(int(half / 4), len(x) // 4))


def _begins(is_so: BoolArray) -> IntArray:
    """Return where runs of what is so begin."""
    begins = is_so.copy()
    begins[1:] &= ~is_so[:-1]
    return np.flatnonzero(begins)


def derived_velocity(displacement: FloatArray, step: float | FloatArray, usual: int | None = None) -> FloatArray:
    """Return velocity from displacement by a moving straight line, narrow enough to keep the peaks. [m/s]

    The slope of a least-squares line over equal steps is that of a quadratic too (Savitzky and Golay 1964, from memory:
    first derivative, degrees 1 and 2).

    Parameters
    ----------
    displacement
        Shape (n,); NaN where missing, and there velocity is NaN too. [m]
    step
        Time between samples, one value or shape (n,), of which the median counts. [s]
    usual
        The eighth of a cycle of the record that a stretch is of, for one that holds no whole cycle. [samples]
    """
    there = np.flatnonzero(np.isfinite(displacement))
    if len(there) < 2:
        return np.full(len(displacement), np.nan)
    # Missing ends are cut off: held flat they would bend the slopes beside them.
    within = slice(there[0], there[-1] + 1)
    v = np.full(len(displacement), np.nan)
    x = _filled(displacement[within])
    again = repeated(x)
    x = on_the_motion(x, None, again) if again.any() else x
    v[within] = _slopes(x, np.asarray(step)[within] if np.ndim(step) else step, usual)
    v[~np.isfinite(displacement)] = np.nan
    return v


def _slopes(x: FloatArray, step: float | FloatArray, usual: int | None) -> FloatArray:
    """Return the slope of the moving line through displacements that are all there. [m/s]"""
    dt = median(np.asarray(step)) if np.ndim(step) else float(step)
    half = max(1, min(eighth_of_cycle(x, usual) // 4, (len(x) - 1) // 2, WIDEST_HALF))
    k = np.arange(half, -half - 1, -1, dtype=float)
    padded = np.pad(x, half, mode="reflect", reflect_type="odd")
    return np.asarray(np.convolve(padded, k / (k @ k), mode="valid") / dt)


def _filled(x: FloatArray) -> FloatArray:
    ok = np.isfinite(x)
    if ok.all() or not ok.any():
        return x
    at = np.arange(len(x))
    return np.interp(at, at[ok], x[ok])
