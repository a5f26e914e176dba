"""Which motion a trace is of, where it is not the cycles of a rig: random, swept, one way only, or quasi-static."""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from dynoan.model.arrays import FloatArray, IntArray
from dynoan.model.assumptions import PAUSE_STEPS
from dynoan.model.ranks import median, percentile
from importers.assumptions.channels import (
    ALIKE_STROKES,
    ALIKE_WITHIN,
    KIND_HALVES,
    ONE_WAY_SHARE,
    PAIRED_STROKES,
    PAUSE_SHARE,
    QUASI_STATIC,
    RANDOM_SCATTER,
    SPEED_PERCENTILE,
    SWEPT_ALIKE,
    SWEPT_DEGREE,
    SWEPT_RATIO,
    SWEPT_STEPS,
)


class _Halves(NamedTuple):
    """The strokes of a motion one way, between its turns."""

    travel: FloatArray  #: magnitudes [m]
    samples: FloatArray  #: how long each took


def top_speed(velocity: FloatArray) -> float:
    """Return the speed that is reached, single samples left out; 0 where there is none. [m/s]"""
    v = _known(velocity)
    return percentile(np.abs(v), SPEED_PERCENTILE) if len(v) else 0.0


def _known(x: FloatArray) -> FloatArray:
    return x if np.isfinite(x.sum()) else x[np.isfinite(x)]


def motion_warnings(
    velocity: FloatArray, rate: float, top: float | None = None, time: FloatArray | None = None
) -> tuple[str, ...]:
    """Return what a person should know of a motion that is not the cycles of a rig.

    Parameters
    ----------
    velocity
        Recorded or derived, shape (samples,). [m/s]
    rate
        Sample rate. [Hz]
    top
        Its `top_speed`, where that is known already. [m/s]
    time
        Of the samples, where known: a stroke that a pause of the logger cuts is none. [s]
    """
    v = _known(velocity)
    top = top_speed(v) if top is None else top
    if top <= 0:
        return ()
    if top < QUASI_STATIC:
        return (f"this is a quasi-static test: the fastest motion is {1e3 * top:.2g} mm/s, so the record holds gas, "
                "friction and spring but no damping at the speeds of a shock",)  # fmt: skip
    if goes_one_way(v):
        return ("the motion goes one way only: nothing is known of the other direction",)
    cuts = np.empty(0, np.int64) if time is None or len(v) != len(time) else _pauses(time, rate)
    said = _not_cyclic(_halves(v, top, rate, cuts))
    return (said,) if said else ()


def goes_one_way(velocity: FloatArray) -> bool:
    """Whether a motion goes one way only, whatever its unit."""
    v = _known(velocity)
    forth = float(np.maximum(v, 0.0).sum())
    back = forth - float(v.sum())
    return min(forth, back) < ONE_WAY_SHARE * max(forth, back)


def _pauses(time: FloatArray, rate: float) -> IntArray:
    """Return the samples that a pause follows."""
    return np.flatnonzero(np.diff(time) > PAUSE_STEPS / rate)


def _halves(v: FloatArray, top: float, rate: float, cuts: IntArray) -> _Halves:
    """Return the strokes of a motion, small stirs and pauses left out, and strokes that a cut touches."""
    moving = np.flatnonzero(np.abs(v) > PAUSE_SHARE * top)
    v = v.take(moving)
    forth = v > 0
    turns = np.flatnonzero(forth[1:] != forth[:-1]) + 1
    if len(turns) < 2:
        return _Halves(np.empty(0), np.empty(0))
    travel = np.abs(np.add.reduceat(v, turns)[:-1]) / rate
    first, last = moving[turns[:-1]], moving[turns[1:] - 1]
    whole = np.searchsorted(cuts, first - 2) == np.searchsorted(cuts, last + 2)
    return _Halves(travel[whole], (last - first + 1)[whole].astype(np.float64))


def _not_cyclic(halves: _Halves) -> str:
    """Return how a motion differs from cycles of one stroke; empty where it does not."""
    if len(halves.travel) < KIND_HALVES:
        return ""
    scatter = float(halves.travel.std() / halves.travel.mean())
    if scatter > RANDOM_SCATTER and _unlike(halves.travel):
        return (f"the motion is random, not cyclic: {len(halves.travel)} strokes of {1e3 * halves.travel.min():.2g} to "
                f"{1e3 * halves.travel.max():.3g} mm; the record is used whole")  # fmt: skip
    if halves.samples.max() <= SWEPT_RATIO * halves.samples.min() or _in_steps(np.log(halves.samples)):
        return ""
    order = np.corrcoef(np.argsort(np.argsort(halves.samples)), np.arange(len(halves.samples)))[0, 1]
    if abs(float(order)) > SWEPT_ALIKE:
        return "the motion is swept: its frequency changes from stroke to stroke; the record is used whole"
    return ""


def _unlike(travel: FloatArray) -> bool:
    """Whether few strokes are about as long as the middle one, and few as the one before or after."""
    middle = median(travel)
    alike = np.count_nonzero(np.abs(travel - middle) < ALIKE_WITHIN * middle) / len(travel)
    # A rig that goes to and fro at several strokes makes pairs of each.
    step = np.abs(np.diff(travel)) < ALIKE_WITHIN * travel[1:]
    paired = np.count_nonzero(np.append(step, False) | np.append(False, step)) / len(travel)
    return bool(alike < ALIKE_STROKES and paired < PAIRED_STROKES)


def _in_steps(durations: FloatArray) -> bool:
    """Whether the strokes' durations change in steps, as in a staircase, and not smoothly, as in a sweep.

    Parameters
    ----------
    durations
        Logarithms, in the order of the strokes, shape (n,).
    """
    place = np.linspace(-1, 1, len(durations))
    smooth = np.polynomial.Polynomial.fit(place, durations, SWEPT_DEGREE)(place)
    return float(np.std(durations - smooth)) > SWEPT_STEPS * float(np.std(durations))
