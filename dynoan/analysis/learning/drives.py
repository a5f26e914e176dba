"""How a launch was driven: when the drive came in, how fast, and how its plateau wandered; unknown to the logger."""

from __future__ import annotations

from functools import lru_cache

import numpy as np

from dynoan.analysis.launch.assumptions import MORE_THAN_GRIP
from dynoan.analysis.launch.drive import Drive
from dynoan.analysis.launch.model import HalfCar
from dynoan.analysis.learning.assumptions import (
    BEFORE,
    KNOT,
    LEVEL_OFF,
    RISE,
    RISE_OFF,
    SEEN_LATE,
    SEEN_OFF,
    SHORT,
    TYRE_LAG,
    TYRE_LAG_OFF,
    WANDER,
)
from dynoan.model.arrays import FloatArray

#: of what is unknown of a drive: when it comes in, its rise, how late the tyres follow, then the plateau
START, RISING, LAGGING, PLATEAU = 0, 1, 2, 3


def unknowns(length: float) -> int:
    """Return how many unknowns, each with a standard normal prior, tell the drive of a launch of a length [s]."""
    return PLATEAU + 1 + int(np.ceil(length / KNOT))


@lru_cache(maxsize=32)
def spread_of(count: int, wander: float) -> FloatArray:
    """Return what standard normal unknowns make of the plateau's logarithm at its knots, shape (count, count). [1]"""
    place = np.arange(count)
    walk = np.minimum(place[:, None], place[None, :])
    apart = KNOT * np.abs(place[:, None] - place[None, :])
    short = (wander**2 - 1.0) * np.exp(-apart / SHORT)  # what goes by: a change of gear
    return np.asarray(np.linalg.cholesky(WANDER**2 * (walk + short) + LEVEL_OFF**2 + 1e-12 * np.eye(count)))


def asked_for(half: HalfCar, grip: float, unknown: FloatArray, times: FloatArray) -> Drive:
    """Return the drive that a foot asks for: more than the tyres hold, which their grip then limits.

    Parameters
    ----------
    half
        The car.
    grip
        Of the surface. [1]
    unknown
        Standard normal by `unknowns`.
    times
        At which it is given, from 0. [s]
    """
    most = MORE_THAN_GRIP * grip * half.driven_loads.static / half.frame.mass
    start = BEFORE - SEEN_LATE + SEEN_OFF * float(unknown[START])
    rise = RISE * float(np.exp(RISE_OFF * unknown[RISING]))
    return Drive(times, np.asarray(most * np.clip((times - start) / rise, 0.0, 1.0)), True, "as logged")


def wandered(held: FloatArray, unknown: FloatArray, times: FloatArray, wander: float) -> Drive:
    """Return the drive of a launch: what the tyres held, and how that wandered.

    Parameters
    ----------
    held
        Drive force over mass that the tyres would hold of an even grip, at the times, shape (n,). [m/s²]
    unknown
        Standard normal by `unknowns`.
    times
        Shape (n,). [s]
    wander
        How much more than usual it may wander. [1]
    """
    from scipy.signal import lfilter  # it takes half a second, and a window that opens has nothing to learn yet

    count = len(unknown) - PLATEAU
    knots = spread_of(count, wander) @ unknown[PLATEAU:]
    share = 1.0 - float(np.exp(-(times[1] - times[0]) / (TYRE_LAG * np.exp(TYRE_LAG_OFF * unknown[LAGGING]))))
    held = lfilter([share], [1.0, share - 1.0], held)
    return Drive(times, np.asarray(held * np.exp(np.interp(times, KNOT * np.arange(count), knots))), False, "as logged")
