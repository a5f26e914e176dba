"""What pushes the car off the line: drive force against time."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

import numpy as np

from dynoan.analysis.checks import positive_number
from dynoan.analysis.launch.assumptions import (
    FOOT_TIME,
    HELD_SLIPS,
    MORE_THAN_GRIP,
    RISE,
)
from dynoan.analysis.launch.large.tyre import law_of
from dynoan.analysis.launch.model import HalfCar
from dynoan.errors import QuantityError
from dynoan.model.arrays import FloatArray
from dynoan.model.car import Surface
from dynoan.model.links import Engine

_TINY = 1e-12
_FOREVER = 1e6  #: later than any launch ends [s]


@dataclass(frozen=True)
class Turning:
    """What turns the driven wheels where slip counts."""

    throttle: FloatArray  #: share of the torque, at the times of the drive
    speeds: tuple[float, ...]  #: of the engine, ascending; one alone where the torque is the same at all [rad/s]
    torques: tuple[float, ...]  #: at these speeds; of the wheels where there is one alone [N·m]


@dataclass(frozen=True)
class Foot:
    """A driver who lifts: his foot comes down or up the faster the further the wheels' slip is from what he holds."""

    slip: float  #: of the driven wheels [1]
    begins: float  #: how far down the foot is as the car leaves, 0 to 1
    time: float = FOOT_TIME  #: from the floor to off at the fastest [s]


@dataclass(frozen=True)
class Drive:
    """The drive asked for, as force over car mass, against time from the start."""

    time: FloatArray  #: from 0, shape (n,) [s]
    asked: FloatArray  #: drive force over mass, shape (n,) [m/s²]
    limited: bool  #: whether grip times tyre load limits it; a measured acceleration is taken as it is
    label: str
    turning: Turning | None = None  #: torque in the place of a force: the tyres' slip says how much of it is held
    held: float = 0.0  #: what the brakes hold before the start, as the drive force over mass [m/s²]
    foot: Foot | None = None  #: of a driver who holds a slip; None: the foot stays where it is


def ramp(value: float, rise: float, label: str, *, limited: bool) -> Drive:
    """Return a drive that comes in over a time and stays.

    Parameters
    ----------
    value
        Drive force over the car's mass, once it has come in. [m/s²]
    rise
        0 for at once. [s]
    label
        For people.
    limited
        Whether grip times tyre load limits it.

    Raises
    ------
    QuantityError
        If a value is not finite, or the time below zero.
    """
    if not (math.isfinite(rise) and rise >= 0):
        raise QuantityError(f"the drive must come in over 0 s or more, not {rise:g} s")
    if not math.isfinite(value):
        raise QuantityError("the drive is not a finite number")
    if rise == 0:
        return Drive(np.array([0.0, _FOREVER]), np.array([value, value]), limited, label)
    return Drive(np.array([0.0, rise, _FOREVER]), np.array([0.0, value, value]), limited, label)


def constant_acceleration(acceleration: float, *, rise: float = RISE) -> Drive:
    """Return a steady acceleration [m/s²], whatever the grip, after a rise [s]. Errors as of `ramp`."""
    return ramp(acceleration, rise, f"{acceleration:.2f} m/s² after {rise:g} s", limited=False)


def held_back(drive: Drive, held: float) -> Drive:
    """Return a drive that is held on the brakes at first and comes in from there on, its rise shortened or not.

    Parameters
    ----------
    drive
        As of `ramp`, `torque_drive` or `engine_drive`.
    held
        Drive force before the start, over the car's mass. [m/s²]

    Raises
    ------
    QuantityError
        If that is not above zero, or more than the drive gives.
    """
    most = float(drive.asked[-1])
    if not 0 < held <= most:
        text = f"{held:.2f} m/s² is not between 0 and the {most:.2f} m/s² of the whole drive"
        raise QuantityError(f"what the brakes hold, {text}", part="held")
    asked = np.asarray(held + (most - held) * drive.asked / most)
    turning = drive.turning
    if turning is not None:
        torque = turning.torques[0] / max(turning.torques)  # of the standing wheel, as a share of the most
        if held > most * torque:
            raise QuantityError(
                "at a standstill the engine does not push so hard as the brakes are to hold", part="held"
            )
        begin = held / (most * torque)
        turning = replace(turning, throttle=np.asarray(begin + (1 - begin) * turning.throttle))
    return replace(drive, asked=asked, turning=turning, held=held, label=f"{drive.label}, held on the brakes before")


def slip_held(drive: Drive, half: HalfCar, surface: Surface, slip: float) -> Drive:
    """Return a drive whose driver holds a slip of the driven wheels; he begins with what they hold at rest with it.

    Parameters
    ----------
    drive
        As of `torque_drive` or `engine_drive`.
    half, surface
        The car, and what it leaves on.
    slip
        By how much the tread is faster than the car, over the car's speed. [1]

    Raises
    ------
    QuantityError
        If nobody can hold such a slip.
    """
    least, most = HELD_SLIPS
    if not least <= slip <= most:
        raise QuantityError(f"a driver holds a slip of {least:g} to {most:g}, not {slip:g}", part="slip")
    _, _, static, _ = half.driven_loads
    held = float(law_of(surface).at(slip)) * static
    whole = max(float(drive.asked[-1]) * half.frame.mass, _TINY)
    return replace(drive, foot=Foot(slip, min(held / whole, 1.0)), label=f"{drive.label}, slip held at {slip:g}")


def torque_drive(half: HalfCar, torque: float, wheel_radius: float | None, *, rise: float = RISE) -> Drive:
    """Return a torque at the driven wheels together, limited by the grip of the surface.

    Parameters
    ----------
    torque
        [N·m]
    wheel_radius
        Rolling radius of the driven wheels. [m]
    rise
        [s]

    Raises
    ------
    QuantityError
        If the radius is missing or no length, or as of `ramp`.
    """
    if wheel_radius is None:
        raise QuantityError(
            "wheel_radius is missing in the car, and a launch from torque needs it", hint='add "300 mm"'
        )
    force = torque / positive_number("wheel_radius", wheel_radius)
    label = f"{torque:.0f} N m at the wheels after {rise:g} s"
    drive = ramp(force / half.frame.mass, rise, label, limited=True)
    return replace(drive, turning=Turning(np.asarray(drive.asked / max(drive.asked[-1], _TINY)), (0.0,), (torque,)))


def engine_drive(half: HalfCar, engine: Engine, wheel_radius: float, *, rise: float = RISE) -> Drive:
    """Return the drive of an engine through its ratio at full throttle, with slip, on any surface.

    Parameters
    ----------
    half
        The car.
    engine
        Torque against speed; beyond its last speed the last torque holds, which is 0 at a limiter.
    wheel_radius
        [m]
    rise
        Time over which the clutch comes in. [s]

    Raises
    ------
    QuantityError
        As of `ramp`.
    """
    most = max(engine.torques) * engine.ratio
    label = f"the engine through {engine.ratio:g}:1, clutch in after {rise:g} s"
    drive = ramp(most / wheel_radius / half.frame.mass, rise, label, limited=True)
    throttle = np.asarray(drive.asked / drive.asked[-1])
    return replace(drive, turning=Turning(throttle, engine.speeds, engine.torques))


def full_grip(half: HalfCar, surface: Surface, *, rise: float = RISE) -> Drive:
    """Return a drive of so much more than the driven tyres hold at rest that the grip limits it, after a rise [s]."""
    _, _, static, _ = half.driven_loads
    return ramp(MORE_THAN_GRIP * surface.grip * static / half.frame.mass, rise, "all the grip there is", limited=True)


def traced(time: FloatArray, acceleration: FloatArray, label: str) -> Drive:
    """Return a recorded acceleration against time, whatever the grip.

    Parameters
    ----------
    time, acceleration
        Shape (n,); the first row is the start. [s, m/s²]
    label
        For people, and for errors.

    Raises
    ------
    QuantityError
        If time does not rise, or a value is not finite.
    """
    if len(time) < 2 or not np.all(np.isfinite(time)) or not np.all(np.isfinite(acceleration)):
        raise QuantityError("an acceleration trace needs at least two rows of finite numbers", where=label)
    if np.any(np.diff(time) <= 0):
        raise QuantityError("time must rise from row to row", where=label)
    return Drive(np.asarray(time - time[0]), np.asarray(acceleration), False, label)
