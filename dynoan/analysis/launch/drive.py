"""What pushes the car off the line, and over which ground: drive force and road against time."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

import numpy as np

from dynoan.analysis.checks import positive_number
from dynoan.analysis.launch import load_transfer as lt
from dynoan.analysis.launch.model import Half
from dynoan.analysis.road import SEED, profile
from dynoan.errors import QuantityError
from dynoan.model.arrays import FloatArray
from dynoan.model.car import Surface
from dynoan.units import GRAVITY

RISE = 0.15  #: time over which the drive comes in [s]; common practice, no source
DURATION = 3.0  #: [s]
NO_LIMIT = 1e9
START = 50.0  #: where on the made-up road the front wheels stand [m]
LEVEL_TIME = 1.5  #: a launch on level ground has shown its rise by then [s]
#: waves of the road: longer ones lift the whole car and would pass for nose rise, shorter ones the tyre swallows
BAND = (0.1, 2.83)  #: [cycle/m]
MOST = 30.0  #: a longer launch than this is a mistake [s]


@dataclass(frozen=True)
class Drive:
    """The drive asked for, as force over car mass, against time from the start."""

    time: FloatArray  #: from 0, shape (n,) [s]
    asked: FloatArray  #: drive force over mass, shape (n,) [m/s²]
    limited: bool  #: whether grip times tyre load limits it; a measured acceleration is taken as it is
    label: str


@dataclass(frozen=True)
class Scene:
    """Drive, ground and time: the same for all settings that are compared."""

    drive: Drive
    surface: Surface
    duration: float = DURATION  #: [s]
    step: float = 2.5e-4  #: [s]
    seed: int = SEED

    @property
    def steps(self) -> int:
        """Number of whole steps."""
        return round(self.duration / self.step)

    @property
    def grip(self) -> float:
        """The grip that limits the drive."""
        return self.surface.grip if self.drive.limited else NO_LIMIT


def ramp(value: float, rise: float, label: str, *, limited: bool) -> Drive:
    """Return a drive that comes in over `rise` [s] and stays."""
    if not (math.isfinite(rise) and rise >= 0):
        raise QuantityError(f"the drive must come in over 0 s or more, not {rise:g} s")
    if not math.isfinite(value):
        raise QuantityError("the drive is not a finite number")
    if rise == 0:
        return Drive(np.array([0.0, 1e6]), np.array([value, value]), limited, label)
    return Drive(np.array([0.0, rise, 1e6]), np.array([0.0, value, value]), limited, label)


def constant_acceleration(acceleration: float, *, rise: float = RISE) -> Drive:
    """Return a steady acceleration [m/s²], whatever the grip."""
    return ramp(acceleration, rise, f"{acceleration:.2f} m/s² after {rise:g} s", limited=False)


def torque_drive(half: Half, torque: float, wheel_radius: float | None, *, rise: float = RISE) -> Drive:
    """Return a torque at the driven wheels together [N·m], limited by the grip of the surface."""
    if wheel_radius is None:
        raise QuantityError('wheel_radius is missing in the car, and a launch from torque needs it; add "300 mm"')
    force = torque / positive_number("wheel_radius", wheel_radius)
    label = f"{torque:.0f} N m at the wheels after {rise:g} s"
    return ramp(force / half.frame.mass, rise, label, limited=True)


def full_grip(half: Half, surface: Surface, *, rise: float = RISE) -> Drive:
    """Return a drive of twice what the driven tyres hold at rest: the grip limits it all the way."""
    _, _, static, _ = half.driven_loads
    return ramp(2 * surface.grip * static / half.frame.mass, rise, "all the grip there is", limited=True)


def traced(time: FloatArray, acceleration: FloatArray, label: str) -> Drive:
    """Return a recorded acceleration [m/s²] against time [s], whatever the grip.

    Raises
    ------
    QuantityError
        If time does not rise, or a value is not finite.
    """
    if len(time) < 2 or not np.all(np.isfinite(time)) or not np.all(np.isfinite(acceleration)):
        raise QuantityError(f"{label}: an acceleration trace needs at least two rows of finite numbers")
    if np.any(np.diff(time) <= 0):
        raise QuantityError(f"{label}: time must rise from row to row")
    return Drive(np.asarray(time - time[0]), np.asarray(acceleration), False, label)


def check(scene: Scene) -> Scene:
    """Return a scene that can be run, or raise `QuantityError`."""
    if not (math.isfinite(scene.surface.grip) and 0 < scene.surface.grip <= 5):
        raise QuantityError(f"grip of surface {scene.surface.name} is {scene.surface.grip:g}; it must lie in 0 to 5")
    if not (math.isfinite(scene.duration) and 0.05 <= scene.duration <= MOST):
        raise QuantityError(f"a launch lasts 0.05 to {MOST:g} s, not {scene.duration:g} s")
    return scene


def nominal_speed(half: Half, scene: Scene, time: FloatArray) -> FloatArray:
    """Return the speed the road passes at: from the drive, or from the grip where that is less. [m/s]"""
    asked = np.interp(time, scene.drive.time, scene.drive.asked)
    if scene.drive.limited:
        # With all wheels driven at fixed shares the weaker axle holds the other back; the rise is what counts here.
        most = lt.grip_limited_acceleration(half.frame, scene.surface.grip, half.driven)
        asked = np.clip(asked, -scene.surface.grip * GRAVITY, most)
    step = np.diff(time)
    gained = np.concatenate([[0.0], np.cumsum((asked[1:] + asked[:-1]) / 2 * step)])
    return np.asarray(np.maximum(gained, 0.0))


def table(half: Half, scene: Scene) -> FloatArray:
    """Return road heights front and rear [m] and wanted drive forces front and rear [N] at half steps, shape (n, 4)."""
    time = np.arange(2 * scene.steps + 1) * scene.step / 2
    asked = np.interp(time, scene.drive.time, scene.drive.asked) * half.frame.mass
    speed = nominal_speed(half, scene, time)
    gone = np.concatenate([[0.0], np.cumsum((speed[1:] + speed[:-1]) / 2 * np.diff(time))])
    front = _under(gone, scene)
    rear = _under(gone - half.frame.wheelbase, scene)
    return np.stack([front, rear, asked * half.front.share, asked * half.rear.share], axis=1)


def _under(place: FloatArray, scene: Scene) -> FloatArray:
    """Return the road height at places from where the front wheels stood [m], above where the wheels stood at rest."""
    height = profile(scene.surface.roughness, START + place, seed=scene.seed, band=BAND)
    return np.asarray(height - height[0])


def level(scene: Scene, *, most: float = MOST) -> Scene:
    """Return the scene without the road, what the drive alone does, for at most so long [s]."""
    return replace(scene, surface=replace(scene.surface, roughness=0.0), duration=min(scene.duration, most))
