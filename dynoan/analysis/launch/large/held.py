"""The car held on its brakes while the driven wheels already push: how it stands, and its states as it is let go.

The brakes hold the axle that does not drive: its tyres push back as hard as the driven ones push ahead. Nothing moves,
so the dampers are still; what the links make of the driving force, and the knuckles of the braking torque, has squatted
or lifted the ends before the start. The brakes let go at once.
"""

from __future__ import annotations

import math

import numpy as np

from dynoan.analysis.launch.large.layout import FRONT, FRONT_SPIN, PITCH, REAR, STATES, X, Z
from dynoan.analysis.launch.large.model import LargeCar
from dynoan.analysis.launch.large.motion import Angle, AxleState, Push, accelerations, wheel_centre
from dynoan.analysis.launch.large.springs import path_at, suspension
from dynoan.analysis.launch.large.tyre import SLOWEST, law_of, load_sensitivity
from dynoan.analysis.launch.scene import Scene
from dynoan.errors import QuantityError
from dynoan.model.arrays import FloatArray
from dynoan.units import GRAVITY

#: rounds of Newton's method, its step for derivatives [m, rad], accelerations that count as none [m/s²] (numerics)
ROUNDS, NUDGE, STILL = 40, 1e-7, 1e-8
#: a tyre in the air has this share of its load [1] (numerics)
SMALL = 1e-9


def held_start(car: LargeCar, scene: Scene) -> FloatArray:
    """Return a car's states as it is let go: at rest, or held by its brakes against the drive; shape (STATES,). [SI]

    Parameters
    ----------
    car
        At large angles.
    scene
        Whose drive says how hard the driven wheels push before the start.

    Raises
    ------
    QuantityError
        If tyres do not hold that, all wheels drive, or no such stand is found.
    """
    start = np.zeros(STATES)
    start[Z] = car.height
    force = scene.drive.held * car.half.frame.mass
    if force == 0.0:
        return start
    if car.half.driven == "all":
        raise QuantityError(
            "a start held on the brakes needs an axle that does not drive", hint="all wheels do", part="held"
        )
    pose, loads = _stand(car, force)
    driven = 0 if car.half.driven == "front" else 1
    _hold(car, scene, force, loads)
    start[[Z, PITCH, FRONT, REAR]] = pose
    start[X] = _shift(car, pose)
    if scene.drive.turning is not None:
        law = law_of(scene.surface).loaded(_shares(car, loads)[driven], load_sensitivity(scene.surface))
        slip = math.tan(math.asin(force / (law.grip * loads[driven])) / law.shape) / law.factor
        start[FRONT_SPIN + driven] = slip * SLOWEST / car.radius
    return start


def _shares(car: LargeCar, loads: FloatArray) -> FloatArray:
    """Return both axles' loads over those at rest. [1]"""
    return np.asarray(loads / np.array([car.half.front.static_load, car.half.rear.static_load]))


def _hold(car: LargeCar, scene: Scene, force: float, loads: FloatArray) -> None:
    keeps = np.maximum(_shares(car, loads), SMALL) ** -load_sensitivity(scene.surface)
    most, name = scene.surface.grip * keeps * loads, scene.surface.name
    if scene.drive.limited and force > min(most):
        which = "driven" if (most[0] < most[1]) == (car.half.driven == "front") else "braked"
        torques = f"{min(most) * car.radius:.0f} N m on {name}, not {force * car.radius:.0f} N m"
        raise QuantityError(f"the {which} tyres hold at most {torques}", part="held")


def _stand(car: LargeCar, force: float) -> tuple[FloatArray, FloatArray]:
    pose = np.array([car.height, 0.0, 0.0, 0.0])
    for _ in range(ROUNDS):
        off, loads = _unrest(car, force, pose)
        if np.max(np.abs(off)) < STILL:
            return pose, loads
        steps = NUDGE * np.eye(4)
        jacobian = np.stack([(_unrest(car, force, pose + s)[0] - off) / NUDGE for s in steps], axis=1)
        pose = pose - np.linalg.solve(jacobian, off)
    raise QuantityError(
        "no stand is found in which the brakes hold the car", hint="hold it against less drive", part="held"
    )


def _unrest(car: LargeCar, force: float, pose: FloatArray) -> tuple[FloatArray, FloatArray]:
    """Return how z, pitch and both travels accelerate at a pose, and both axles' loads."""
    half, angle = car.half, Angle(math.sin(pose[1]), math.cos(pose[1]), 0.0)
    states, pushes, loads = [], [], []
    ahead = (force, -force) if half.driven == "front" else (-force, force)
    for i, (axle, state) in enumerate(zip((half.front, half.rear), _axles(car, pose), strict=True)):
        height = float(pose[0] + wheel_centre(state, angle)[1])
        load = max(axle.static_load + axle.tyre * (car.radius - height), 0.0)
        s = axle.sprung * GRAVITY + float(suspension(axle, np.asarray(pose[2 + i])))
        pushes.append(Push(ahead[i], load - axle.unsprung * GRAVITY, s, ahead[i] * height))
        states.append(state)
        loads.append(load)
    a = accelerations((half.sprung, half.pitch_inertia), (states[0], states[1]), angle, (pushes[0], pushes[1]),
                      (0.0, -half.sprung * GRAVITY, 0.0))  # fmt: skip
    return np.array([a.z, a.pitch, a.front, a.rear]), np.array(loads)


def _axles(car: LargeCar, pose: FloatArray) -> tuple[AxleState, AxleState]:
    half, depth = car.half, car.height - car.radius
    made = [
        AxleState(place, depth, axle.unsprung, pose[2 + i], 0.0, path_at(car.paths[i], np.asarray(pose[2 + i])))
        for i, (axle, place) in enumerate(((half.front, half.arms.front), (half.rear, -half.arms.rear)))
    ]
    return made[0], made[1]


def _shift(car: LargeCar, pose: FloatArray) -> float:
    """Return how far ahead of rest the body stands, so that the braked wheels are where they were."""
    braked = 1 if car.half.driven == "front" else 0
    angle = Angle(math.sin(pose[1]), math.cos(pose[1]), 0.0)
    state = _axles(car, pose)[braked]
    return float(state.place - wheel_centre(state, angle)[0])
