"""What displacement and velocity say of one another: scale, sign, sample rate; and velocity where none was recorded."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from dynoan.model.arrays import FloatArray


@dataclass(frozen=True)
class Agreement:
    """Displacement against the integral of velocity."""

    scale: float  #: displacement travelled per integral of velocity; 1 where both are SI and right; signed
    fit: float  #: correlation of the two; near ±1 where they belong together


@dataclass(frozen=True)
class Stretch:
    """A stretch of a record without gaps: what is looked at to understand the whole."""

    displacement: FloatArray
    velocity: FloatArray
    step: float | FloatArray  #: time between samples


def agreement(stretches: Sequence[Stretch]) -> Agreement:
    """Return how displacement follows the integral of velocity, in any units.

    Compared over about an eighth of a cycle at a time, where noise matters little and drift not at all.
    """
    dd = mm = dm = 0.0
    for s in stretches:
        v = np.where(np.isfinite(s.velocity), s.velocity, 0.0)
        dt = np.broadcast_to(np.asarray(s.step, float), v.shape)
        moved = np.concatenate([[0.0], np.cumsum(0.5 * (v[1:] + v[:-1]) * dt[1:])])
        n = eighth(s.displacement)
        d, m = s.displacement[n:] - s.displacement[:-n], moved[n:] - moved[:-n]
        ok = np.isfinite(d) & np.isfinite(m)
        d, m = d[ok], m[ok]
        dd, mm, dm = dd + float((d * d).sum()), mm + float((m * m).sum()), dm + float((d * m).sum())
    if dd <= 0 or mm <= 0:
        return Agreement(float("nan"), 0.0)
    # The geometric mean of both regressions: neither channel's noise pulls it down.
    return Agreement(float(np.sign(dm) * np.sqrt(dd / mm)), dm / float(np.sqrt(dd * mm)))


def eighth(displacement: FloatArray) -> int:
    """Return about an eighth of the shortest common cycle, in samples."""
    x = displacement[np.isfinite(displacement)]
    if len(x) < 9:
        return 1
    middle, size = 0.5 * (x.max() + x.min()), 0.25 * (x.max() - x.min())
    state = np.zeros(len(x), np.int8)
    state[x > middle + size], state[x < middle - size] = 1, -1
    there = state[state != 0]
    where = np.flatnonzero(state != 0)
    turns = where[1:][there[1:] != there[:-1]]
    half = float(np.percentile(np.diff(turns), 25)) if len(turns) > 2 else len(x) / 4
    return max(1, min(int(half / 4), len(x) // 4))


def derived(displacement: FloatArray, step: float | FloatArray) -> FloatArray:
    """Return velocity from displacement by a moving quadratic (Savitzky-Golay), narrow enough to keep the peaks.

    Parameters
    ----------
    displacement
        [m], shape (n,)
    step
        Time between samples, one value or shape (n,) [s].
    """
    dt = float(np.median(step)) if np.ndim(step) else float(step)
    x = _filled(displacement)
    half = max(1, min(eighth(x) // 4, (len(x) - 1) // 2, 50))
    k = np.arange(half, -half - 1, -1, dtype=float)
    v = np.convolve(np.pad(x, half, mode="reflect", reflect_type="odd"), k / (k @ k), mode="valid") / dt
    v[~np.isfinite(displacement)] = np.nan
    return v


def _filled(x: FloatArray) -> FloatArray:
    ok = np.isfinite(x)
    if ok.all():
        return x
    at = np.arange(len(x))
    return np.interp(at, at[ok], x[ok])
