"""A launch to be run: its drive, over which ground and for how long, and what the compiled car gets of them."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

import numpy as np

from dynoan.analysis.launch import load_transfer as lt
from dynoan.analysis.launch.assumptions import (
    DURATION,
    LONGEST,
    MOST_GRIP,
    NO_LIMIT,
    ROAD_BAND,
    SHORTEST,
    START,
    STEP,
)
from dynoan.analysis.launch.drive import Drive
from dynoan.analysis.launch.model import HalfCar
from dynoan.analysis.road import SEED, profile
from dynoan.errors import QuantityError
from dynoan.model.arrays import FloatArray
from dynoan.model.car import Surface
from dynoan.units import GRAVITY


@dataclass(frozen=True)
class Scene:
    """Drive, ground and time: the same for all settings that are compared."""

    drive: Drive
    surface: Surface
    duration: float = DURATION  #: [s]
    step: float = STEP  #: [s]
    seed: int = SEED

    @property
    def steps(self) -> int:
        """Number of whole steps."""
        return round(self.duration / self.step)

    @property
    def grip(self) -> float:
        """The grip that limits the drive. [1]"""
        return self.surface.grip if self.drive.limited else NO_LIMIT


def check(scene: Scene) -> Scene:
    """Return the scene, which can be run.

    Raises
    ------
    QuantityError
        If grip or duration are none of a launch.
    """
    if not (math.isfinite(scene.surface.grip) and 0 < scene.surface.grip <= MOST_GRIP):
        raise QuantityError(
            f"grip of surface {scene.surface.name} is {scene.surface.grip:g}", hint=f"it must lie in 0 to {MOST_GRIP:g}"
        )
    if not (math.isfinite(scene.duration) and SHORTEST <= scene.duration <= LONGEST):
        raise QuantityError(f"a launch lasts {SHORTEST:g} to {LONGEST:g} s, not {scene.duration:g} s")
    return scene


def nominal_speed(half: HalfCar, scene: Scene, time: FloatArray) -> FloatArray:
    """Return the speed the road passes at: from the drive, or from the grip where that is less; shape (n,). [m/s]

    Parameters
    ----------
    time
        From the start, shape (n,). [s]
    """
    asked = np.interp(time, scene.drive.time, scene.drive.asked)
    if scene.drive.limited:
        # With all wheels driven at fixed shares the weaker axle holds the other back; the rise is what counts here.
        most = lt.grip_limited_acceleration(half.frame, scene.surface.grip, half.driven)
        asked = np.clip(asked, -scene.surface.grip * GRAVITY, most)
    step = np.diff(time)
    gained = np.concatenate([[0.0], np.cumsum((asked[1:] + asked[:-1]) / 2 * step)])
    return np.asarray(np.maximum(gained, 0.0))


def table(half: HalfCar, scene: Scene) -> FloatArray:
    """Return what the compiled half-car drives over and is driven by, at half steps, shape (2·steps + 1, 4).

    Columns as in `layout`: road heights front and rear [m], drive forces asked for front and rear [N].
    """
    time = np.arange(2 * scene.steps + 1) * scene.step / 2
    asked = np.interp(time, scene.drive.time, scene.drive.asked) * half.frame.mass
    speed = nominal_speed(half, scene, time)
    gone = np.concatenate([[0.0], np.cumsum((speed[1:] + speed[:-1]) / 2 * np.diff(time))])
    front = _under(gone, scene)
    rear = _under(gone - half.frame.wheelbase, scene)
    return np.stack([front, rear, asked * half.front.share, asked * half.rear.share], axis=1)


def _under(place: FloatArray, scene: Scene) -> FloatArray:
    """Return the road height at places from where the front wheels stood [m], above where the wheels stood at rest."""
    height = profile(scene.surface.roughness, START + place, seed=scene.seed, band=ROAD_BAND)
    return np.asarray(height - height[0])


def level(scene: Scene) -> Scene:
    """Return the scene without the road: what the drive alone does."""
    return replace(scene, surface=replace(scene.surface, roughness=0.0))
