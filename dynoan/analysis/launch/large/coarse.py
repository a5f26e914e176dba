"""How long a step a search may take while it only ranks: as long as nothing in the car runs away from it."""

from __future__ import annotations

import numpy as np

from dynoan.analysis.launch.assumptions import COARSE_STEP, FRICTION_TURN, LONG_STEP
from dynoan.analysis.launch.hinges import Hinges
from dynoan.analysis.launch.large.model import LargeCar
from dynoan.analysis.launch.large.rows import STEP
from dynoan.analysis.launch.large.tyre import SLOWEST, law_of
from dynoan.analysis.launch.model import Axle
from dynoan.analysis.launch.scene import Scene
from dynoan.analysis.launch.sides import Sides
from dynoan.model.arrays import FloatArray

#: a step times the fastest rate in the car that the method keeps stable, with some room [1] (numerics: the classical
#: method of fourth order does so to 2.78)
STABLE = 2.0
#: load of a driven tyre over the one at rest that its slip is reckoned with [1]; judged
LOADED = 1.5


def coarse_steps(car: LargeCar, scene: Scene, damping: Sides) -> FloatArray:
    """Return the step in which each setting is ranked, shape (m,). [s]

    Parameters
    ----------
    car, scene
        What is launched.
    damping
        Of m settings.

    Notes
    -----
    The fastest that a wheel feels are the seals' friction, closed clicks at slow speeds, stops and tyres. Where torque
    turns the wheels, their slip at slow speed is faster still; it alone never asks for less than `COARSE_STEP`, for
    slip that trembles about its middle moves no figure by 1 %.
    """
    axles = car.half.front, car.half.rear
    rates = np.max([_rates(car, i, axle, damping[2 * i : 2 * i + 2]) for i, axle in enumerate(axles)], axis=0)
    longest = LONG_STEP if _slipping(car, scene) * LONG_STEP <= STABLE else COARSE_STEP
    steps = np.where(rates * COARSE_STEP <= STABLE, COARSE_STEP, STEP)
    return np.asarray(np.where(rates * LONG_STEP <= STABLE, longest, steps))


def _rates(car: LargeCar, i: int, axle: Axle, sides: tuple[Hinges, ...]) -> FloatArray:
    """Return the fastest rate of an axle's wheels with each setting, shape (m,). [1/s]"""
    steepest = np.max([np.cumsum(side.gains, axis=1).max(axis=1) for side in sides], axis=0)
    damping = steepest + car.friction[i] / FRICTION_TURN + car.tyre_damping[i]
    stops = max(sum(rate for _, rate in stop) for stop in axle.hinges)
    stiffness = axle.spring + axle.gas + axle.tyre + stops
    return np.asarray(damping / axle.unsprung + np.sqrt(stiffness / axle.unsprung))


def _slipping(car: LargeCar, scene: Scene) -> float:
    """Return the rate at which the driven wheels' slip settles at the slowest speed that slip is reckoned at. [1/s]"""
    if scene.drive.turning is None:
        return 0.0
    stiffness = LOADED * law_of(scene.surface).stiffness * car.radius**2 / SLOWEST
    axles = zip((car.half.front, car.half.rear), car.spin, strict=True)
    return max(stiffness * axle.static_load / spin for axle, spin in axles if axle.share)
