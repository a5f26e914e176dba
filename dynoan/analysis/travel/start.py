"""When the launch begins in logged travel, and what reading of a shock is zero."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

import numpy as np

from dynoan.analysis.travel.assumptions import (
    BEFORE,
    LAUNCH,
    REST_FIRST,
    ROLLING,
    STIRRING,
    STIRRING_OVER_NOISE,
    STIRRING_SAMPLES,
    STIRRING_TIME,
    ZERO_SAMPLES,
)  # fmt: skip
from dynoan.analysis.travel.summary import LogPart
from dynoan.analysis.travel.velocity import ShockMotion
from dynoan.model.arrays import FloatArray


def start_from_speed(time: FloatArray, speed: FloatArray) -> float | None:
    """Return when a standing car leaves the line by its speed; None if it never stands and then rolls. [s]

    Parameters
    ----------
    time
        Shape (n,). [s]
    speed
        Of the car, shape (n,); NaN where it was not logged. [m/s]
    """
    known = np.isfinite(speed)
    t, v = time[known], speed[known]
    rolling = v > ROLLING
    leaving = np.flatnonzero(rolling[1:] & ~rolling[:-1])
    return float(t[leaving[0]]) if len(leaving) else None


def start_from_shocks(moved: Sequence[ShockMotion]) -> float | None:
    """Return when the first of the shocks begins to move after standing still. [s]

    None if they move from the beginning, or never: the rms velocity over `STIRRING_TIME` tells.
    """
    starts = []
    for m in moved:
        width = max(round(STIRRING_TIME / m.step), STIRRING_SAMPLES)
        power = np.convolve(m.velocity**2, np.ones(width) / width, mode="same")
        stirring = power > max(STIRRING, STIRRING_OVER_NOISE * m.smoothing.noise) ** 2
        if stirring.any():
            starts.append(float(m.time[np.argmax(stirring)] - m.time[0]))
    if not starts or min(starts) < REST_FIRST:
        return None
    return min(starts) + float(moved[0].time[0])


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


def at_rest(time: FloatArray, travel: FloatArray, start: float | None) -> RestZero:
    """Return the zero of a channel and where it comes from: the median before the start, else of the whole log.

    Parameters
    ----------
    time, travel
        Shape (n,); travel may hold NaN. [s, m]
    start
        When the car leaves the line; None where it is not known. [s]
    """
    before = (time < start - BEFORE) & np.isfinite(travel) if start is not None else np.zeros(len(time), dtype=bool)
    if np.count_nonzero(before) >= ZERO_SAMPLES:
        return RestZero(float(np.median(travel[before])), "the median before the start")
    return RestZero(float(np.nanmedian(travel)), "the median of the whole log")
