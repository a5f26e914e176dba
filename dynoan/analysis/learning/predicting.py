"""What the launch model says the logger should have written, for a car, its dampers and drives side by side."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

import numpy as np

from dynoan.analysis.launch.compare import car_damping
from dynoan.analysis.launch.drive import Drive
from dynoan.analysis.launch.from_car import half_car
from dynoan.analysis.launch.hinges import NOMINAL, Hinges
from dynoan.analysis.launch.large import layout as at
from dynoan.analysis.launch.large.model import LargeCar, large_car
from dynoan.analysis.launch.large.rows import RowsMotion, run
from dynoan.analysis.launch.scene import Scene
from dynoan.analysis.launch.sides import Sides, sides
from dynoan.analysis.learning.assumptions import STEP
from dynoan.analysis.learning.values import with_values
from dynoan.model.arrays import FloatArray
from dynoan.model.car import AXLES, Car, Surface
from dynoan.model.curve import Curve
from dynoan.units import GRAVITY


@dataclass(frozen=True)
class RunnableCar:
    """A car at large angles with its dampers."""

    car: Car
    large: LargeCar
    damping: Sides  #: of one setting
    ratios: tuple[float, float]  #: shock travel per wheel travel, front and rear


def runnable_car(car: Car, curves: Mapping[str, Curve], values: Mapping[str, float]) -> RunnableCar:
    """Return a car with other values, ready to run.

    Parameters
    ----------
    car
        As its file has it.
    curves
        At each corner.
    values
        By key of `uncertain_values`, the factors of damping among them. [SI]

    Raises
    ------
    QuantityError
        If the car's file lacks a key that a launch needs, or the values are no car's.
    """
    made = with_values(car, values)
    half = half_car(made, curves)
    nominal = sides(*car_damping(made, curves)).take([NOMINAL])
    factors = [values.get(f"{axle}.damping", 1.0) for axle in AXLES]
    scaled = Sides(*(Hinges(h.knots, h.gains * factors[i // 2]) for i, h in enumerate(nominal)))
    ratios = tuple(float(np.mean([c.shock_ratio for c in made.axle(axle)])) for axle in AXLES)
    return RunnableCar(made, large_car(made, half), scaled, (ratios[0], ratios[1]))


def held_drives(
    car: RunnableCar, drives: Sequence[Drive], surface: Surface, length: float
) -> tuple[FloatArray, FloatArray]:
    """Return time, shape (n,) [s], and drive force over mass that the tyres hold of each drive, (rows, n). [m/s²]

    Parameters
    ----------
    car, drives, surface, length
        As for `motions`; on level ground.
    """
    found = _run(car, drives, replace(surface, roughness=0.0), length, [0] * len(drives))
    force = found.kept[:, at.FORCE] + found.kept[:, at.FORCE + 1]
    return found.time, np.asarray(force / car.large.half.frame.mass)


def _run(
    car: RunnableCar, drives: Sequence[Drive], surface: Surface, length: float, roads: Sequence[int]
) -> RowsMotion:
    scenes = [Scene(d, surface, length, seed=s) for d, s in zip(drives, roads, strict=True)]
    return run(car.large, car.damping, scenes, [(0, i) for i in range(len(scenes))], keep=True, step=STEP)


def motions(
    car: RunnableCar, drives: Sequence[Drive], surface: Surface, length: float, seeds: Sequence[int] | None = None
) -> tuple[FloatArray, dict[str, FloatArray]]:
    """Return time, shape (n,) [s], and what each channel would show, by name, shape (rows, n). [m, m/s² and m/s]

    An accelerometer feels the body's pitch too.

    Parameters
    ----------
    car
        To run.
    drives
        One a row.
    surface
        With its roughness; level where that is 0.
    length
        [s]
    seeds
        Of the road of each row.
    """
    found = _run(car, drives, surface, length, seeds or [0] * len(drives))
    y, force = found.states, found.kept[:, at.FORCE] + found.kept[:, at.FORCE + 1]
    ahead, pitch = force / car.large.half.frame.mass, y[:, at.PITCH]
    return found.time, {
        "front": y[:, at.FRONT] * car.ratios[0],
        "rear": y[:, at.REAR] * car.ratios[1],
        "acceleration": ahead * np.cos(pitch) + GRAVITY * np.sin(pitch),
        "speed": np.cumsum(ahead, axis=1) * STEP,
    }
