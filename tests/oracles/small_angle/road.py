"""What the compiled half-car drives over and is driven by."""

from __future__ import annotations

import numpy as np

from dynoan.analysis.launch.assumptions import ROAD_BAND, START
from dynoan.analysis.launch.model import HalfCar
from dynoan.analysis.launch.scene import Scene
from dynoan.analysis.road import profile
from dynoan.model.arrays import FloatArray
from dynoan.units import GRAVITY
from tests.oracles.load_transfer import grip_limited_acceleration


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
        most = grip_limited_acceleration(half.frame, scene.surface.grip, half.driven)
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
