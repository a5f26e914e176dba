"""What displacement and velocity say of one another: scale, sign and sample rate."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

import numpy as np

from dynoan.model.arrays import FloatArray
from dynoan.model.motion import eighth_of_cycle


class Agreement(NamedTuple):
    """Displacement against the integral of velocity."""

    scale: float  #: displacement travelled per integral of velocity; 1 where both are SI and right; signed
    fit: float  #: correlation of the two; near ±1 where they belong together


class Stretch(NamedTuple):
    """A stretch of a record without gaps: what is looked at to understand the whole."""

    displacement: FloatArray
    velocity: FloatArray
    step: float = 1.0  #: time between samples, where their times are not known
    time: FloatArray | None = None


def agreement(stretches: Sequence[Stretch]) -> Agreement:
    """Return how displacement follows the integral of velocity, in any units; scale NaN and fit 0 where one rests.

    Compared over about an eighth of a cycle at a time, where noise matters little and drift not at all.
    """
    dd = mm = dm = 0.0
    for stretch in stretches:
        d, m = _steps(stretch)
        dd, mm, dm = (s + float(np.einsum("i,i->", a, b)) for s, a, b in ((dd, d, d), (mm, m, m), (dm, d, m)))
    if dd <= 0 or mm <= 0:
        return Agreement(float("nan"), 0.0)
    # The geometric mean of both regressions: neither channel's noise pulls it down.
    return Agreement(float(np.sign(dm) * np.sqrt(dd / mm)), dm / float(np.sqrt(dd) * np.sqrt(mm)))


def _steps(stretch: Stretch) -> tuple[FloatArray, FloatArray]:
    """Return displacement and integral of velocity gained over an eighth of a cycle, where both are known."""
    known = np.isfinite(stretch.velocity.sum())
    v = stretch.velocity if known else np.where(np.isfinite(stretch.velocity), stretch.velocity, 0.0)
    # Arrays are used again: memory that is new to the process takes longer to get than the numbers in it.
    moved, gained = np.empty(len(v)), v[1:] + v[:-1]
    gained *= 0.5
    if stretch.time is None:
        gained *= stretch.step
    else:
        gained *= np.subtract(stretch.time[1:], stretch.time[:-1], out=moved[1:])
    moved[:1] = 0.0
    np.add.accumulate(gained, out=moved[1:])
    n = eighth_of_cycle(stretch.displacement)
    m = np.subtract(moved[n:], moved[:-n], out=gained[: len(v) - n])
    d = np.subtract(stretch.displacement[n:], stretch.displacement[:-n], out=moved[: len(m)])
    if np.isfinite(d.sum() + m.sum()):
        return d, m
    ok = np.isfinite(d) & np.isfinite(m)
    return d[ok], m[ok]
