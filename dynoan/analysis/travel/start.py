"""When the launch begins in logged travel, and what reading of a shock is zero."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

import numpy as np

from dynoan.analysis.travel.assumptions import (
    AWAY,
    BEFORE,
    LAUNCH,
    LEVEL_OVER,
    NEARLY,
    ROLLING,
    SETTLED,
    SETTLED_OVER,
    SHIFT_WITHIN,
    STOOD,
    TREMBLES,
    ZERO_SAMPLES,
)  # fmt: skip
from dynoan.analysis.travel.summary import LogPart
from dynoan.analysis.travel.velocity import ShockMotion
from dynoan.model.arrays import FloatArray

#: in words, where no other zero is known
WHOLE_LOG = "the median of the whole log"


def start_from_speed(time: FloatArray, speed: FloatArray) -> float | None:
    """Return when a standing car leaves the line by its speed; None if it never stands and then rolls. [s]

    Of several times that it does, such as rolling up to the line, the first after which it gets nearly as fast as ever.

    Parameters
    ----------
    time
        Shape (n,); NaN where it was not logged. [s]
    speed
        Of the car, shape (n,); NaN where it was not logged. [m/s]
    """
    known = np.isfinite(speed) & np.isfinite(time)
    t, v = time[known], speed[known]
    rolling = v > ROLLING
    leaving = np.flatnonzero(rolling[1:] & ~rolling[:-1])
    if not len(leaving):
        return None
    reached = [float(v[(t >= t[n]) & (t <= t[n] + LAUNCH)].max()) for n in leaving]
    return float(t[leaving[_first_great(reached)]])


def _first_great(scores: Sequence[float]) -> int:
    """Return the first of several that is nearly as great as the greatest."""
    best = max(scores)
    enough = min(best, NEARLY * best)  # of a best below zero, which a time that jumps may leave, it is that itself
    return next(n for n, score in enumerate(scores) if score >= enough)


class Standing(NamedTuple):
    """A stretch in which the car stood, its engine running or not."""

    start: float  #: [s]
    end: float  #: [s]


def standing(moved: Sequence[ShockMotion]) -> tuple[Standing, ...]:
    """Return the stretches in which no shock goes anywhere, whatever it trembles about its place. [s]"""
    time, step = moved[0].time, moved[0].step
    back = max(1, round(SETTLED_OVER / step))
    quiet = np.ones(len(time), dtype=bool)
    for m in moved:
        level = _level(m)
        gone = np.abs(level[back:] - level[:-back]) > SETTLED
        wide = np.convolve(gone, np.ones(back + 1), mode="full") > 0  # all of the time over which it went
        quiet &= np.interp(time, m.time, wide.astype(float)) == 0
    edges = np.flatnonzero(np.diff(np.concatenate([[0], quiet.astype(int), [0]])))
    runs = [(time[a], time[b - 1]) for a, b in zip(edges[::2], edges[1::2], strict=True)]
    return tuple(Standing(float(a), float(b)) for a, b in runs if b - a >= STOOD)


def _level(m: ShockMotion) -> FloatArray:
    """Return travel with whatever is quicker than a fifth of a second taken out."""
    width = 2 * round(LEVEL_OVER / 2 / m.step) + 1
    padded = np.pad(m.travel, width // 2, mode="edge")
    return np.asarray(np.convolve(padded, np.ones(width) / width, mode="valid"))


def start_from_shocks(moved: Sequence[ShockMotion]) -> float | None:
    """Return when a standing car's shocks begin to go somewhere and stay away; None if it never stands. [s]

    Of several such times the first that moves them nearly as far as any: rolling up to the line, or the engine's
    shaking, moves them less than the launch.
    """
    stood = [run for run in standing(moved) if run.end < moved[0].time[-1] - moved[0].step]
    if not stood:
        return None
    shifts = [max(_shift(m, run) for m in moved) for run in stood]
    if max(shifts) < SETTLED:
        return None
    run = stood[_first_great(shifts)]
    return min(_onset(m, run) for m in moved)


def _place(m: ShockMotion, run: Standing) -> tuple[float, float]:
    """Return where a shock stood, and how much it trembled there. [m]"""
    inside = m.travel[(m.time >= run.start) & (m.time <= run.end)]
    return (float(np.median(inside)), float(np.std(inside))) if len(inside) else (0.0, 0.0)


def _shift(m: ShockMotion, run: Standing) -> float:
    after = (m.time > run.end) & (m.time < run.end + SHIFT_WITHIN)
    return float(np.max(np.abs(_level(m)[after] - _place(m, run)[0]), initial=0.0))


def _onset(m: ShockMotion, run: Standing) -> float:
    place, tremble = _place(m, run)
    later = m.time > run.end - SETTLED_OVER
    away = later & (np.abs(m.travel - place) > max(AWAY, TREMBLES * tremble))
    return float(m.time[np.argmax(away)]) if away.any() else float("inf")


def launch_part(start: float, length: float = LAUNCH) -> LogPart:
    """Return the part of the run that is the launch.

    Parameters
    ----------
    start
        When the car leaves the line. [s]
    length
        How long after that counts. [s]
    """
    return LogPart("launch", start - BEFORE, start + length)


class RestZero(NamedTuple):
    """The reading at which a shock counts as neither compressed nor extended."""

    travel: float  #: [m]
    whence: str  #: in words


def at_rest(time: FloatArray, travel: FloatArray, start: float | None, stood: Sequence[Standing] = ()) -> RestZero:
    """Return the zero of a channel and where it comes from: where the car stood, else the median of the whole log.

    Parameters
    ----------
    time, travel
        Shape (n,); travel may hold NaN. [s, m]
    start
        When the car leaves the line; None where it is not known. [s]
    stood
        The stretches in which it stood.
    """
    known = np.isfinite(travel)
    before = [run for run in stood if start is not None and run.start < start - BEFORE]
    if start is not None:
        since = before[-1].start if before else start - BEFORE - STOOD
        inside = known & (time >= since) & (time < start - BEFORE)
        if np.count_nonzero(inside) >= ZERO_SAMPLES:
            return RestZero(float(np.median(travel[inside])), "the median before the start")
    if stood:
        run = max(stood, key=lambda r: r.end - r.start)
        inside = known & (time >= run.start) & (time <= run.end)
        if np.count_nonzero(inside) >= ZERO_SAMPLES:
            return RestZero(float(np.median(travel[inside])), f"where it stood, {run.start:.1f} to {run.end:.1f} s")
    return RestZero(float(np.nanmedian(travel)), WHOLE_LOG)
