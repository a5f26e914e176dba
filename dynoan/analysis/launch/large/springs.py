"""What springs, gas and stops of an axle hold, and where its links lead the wheels, over travel."""

from __future__ import annotations

import numpy as np

from dynoan.analysis.launch.large.model import AxlePath
from dynoan.analysis.launch.large.motion import Path
from dynoan.analysis.launch.model import Axle
from dynoan.model.arrays import FloatArray


def path_at(path: AxlePath, u: FloatArray) -> Path:
    """Return where an axle's links lead its wheels at travels, of their shape. [SI]

    Parameters
    ----------
    path
        Of the axle.
    u
        Travel, compression positive. [m]
    """
    zero = np.zeros_like(u)
    ahead = slope = bend = turn = zero
    for k in range(len(path.ahead) - 1, -1, -1):
        bend = bend * u + 2.0 * slope
        slope = slope * u + ahead
        ahead = ahead * u + path.ahead[k]
    for k in range(len(path.turn) - 1, 0, -1):
        turn = turn * u + k * path.turn[k]
    return Path(ahead, slope, bend, turn)


def suspension(axle: Axle, u: FloatArray) -> FloatArray:
    """Return the force of springs, gas and stops beyond the one at rest, of the travel's shape. [N]

    Parameters
    ----------
    axle
        Both wheels.
    u
        Travel, compression positive. [m]
    """
    spring = np.maximum(axle.spring * u + axle.preload, 0.0) - axle.preload + axle.gas * u
    bump, droop = axle.hinges
    for way, hinges in ((1.0, bump), (-1.0, droop)):
        for at, rate in hinges:
            spring = spring + way * rate * np.maximum(way * u - at, 0.0)
    return np.asarray(spring)
