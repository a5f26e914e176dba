"""How the cars of a launch are driven off, and for how long, from values as people give them."""

from __future__ import annotations

from dataclasses import dataclass, replace

from dynoan.analysis.launch import drive as driving
from dynoan.analysis.launch.assumptions import (
    DURATION,
    FOOT_TIME,
    HELD_SLIPS,
    MORE_THAN_GRIP,
    RISE,
    RISE_UNKNOWN,
    WHEEL_RADIUS,
)
from dynoan.analysis.launch.drive import Drive
from dynoan.analysis.launch.model import HalfCar
from dynoan.analysis.launch.scene import Scene
from dynoan.analysis.road import SEED
from dynoan.errors import CallError, Lacking, QuantityError
from dynoan.jobs.answering import quantity
from dynoan.jobs.launch.recorded import recorded
from dynoan.jobs.launch.settings import LaunchCase
from dynoan.library.tables import value_and_spread
from dynoan.model.car import Car, Surface
from dynoan.model.log import Log


@dataclass(frozen=True)
class DriveAsked:
    """How the car is driven off: one of acceleration, torque and trace, or none for all the grip there is."""

    acceleration: float | None = None  #: steady, whatever the grip [m/s²]
    torque: float | None = None  #: at the driven wheels together, limited by the grip [N·m]
    trace: Log | None = None  #: a recorded acceleration, whatever the grip
    rise: float | None = None  #: time over which the drive comes in; None where nobody says it [s]
    held: float | None = None  #: torque at the driven wheels that the brakes hold before the start [N·m]
    slip: float | None = None  #: of the driven wheels, which the driver holds by lifting; None: his foot stays down [1]
    rise_half: float = 0.0  #: what a stated rise may be off by [s]

    @classmethod
    def asked(
        cls,
        accel: float | str | None,
        torque: float | str | None,
        trace: Log | None,
        rise: float | str | None,
        held: float | str | None = None,
        slip: float | str | None = None,
    ) -> DriveAsked:
        """Return the drive from values as people give them.

        Raises
        ------
        QuantityError
            If a value is no such quantity.
        CallError
            If two exclude one another.
        """
        if slip is not None and held is not None:
            raise CallError("slip and held exclude one another", hint="give one")
        given = [n for n, v in (("accel", accel), ("torque", torque), ("trace", trace)) if v is not None]
        if len(given) > 1:
            raise CallError(f"{given[0]} and {given[1]} exclude one another", hint="give one")
        if trace is not None and rise is not None:
            raise CallError("does not go with a trace: the recorded acceleration has its own", part="rise")
        if trace is not None and held is not None:
            raise CallError("does not go with a trace: the recorded acceleration begins as it began", part="held")
        if slip is not None and (accel is not None or trace is not None):
            raise CallError("holds the wheels' slip, and with a given acceleration no wheel slips", part="slip")
        stated, half = (None, 0.0) if rise is None else _with_half(rise)
        return cls(
            None if accel is None else quantity(accel, "acceleration", "accel"),
            None if torque is None else quantity(torque, "torque", "torque"),
            trace, stated,
            None if held is None else quantity(held, "torque", "held"),
            None if slip is None else _held_slip(quantity(slip, "ratio", "slip")), half,
        )  # fmt: skip

    @property
    def rise_ends(self) -> tuple[float, float] | None:
        """The least and the most time in which the drive may come in, 19 times of 20; None where that is known. [s]"""
        if self.trace is not None or (self.rise is not None and self.rise_half == 0):
            return None
        if self.rise is not None:
            return self.rise - self.rise_half, self.rise + self.rise_half
        return RISE / RISE_UNKNOWN, RISE * RISE_UNKNOWN

    def coming_in(self, rise: float) -> DriveAsked:
        """Return the same drive coming in over another time, which is known then. [s]"""
        return replace(self, rise=rise, rise_half=0.0)

    @property
    def notes(self) -> tuple[str, ...]:
        """What a person must know of the start, in words."""
        if self.slip is not None:
            return (
                f"the driver holds a slip of {self.slip:g} at the driven wheels: he begins with what the tyres hold at "
                f"rest, and his foot goes from the floor to off in {FOOT_TIME:g} s at the fastest",
            )
        if self.held is None:
            return ()
        return (
            f"held on the brakes of the axle that does not drive against {self.held:.0f} N m at the driven wheels "
            "before the start; they let go at once; rise, squat and pitch count from the car as it stands free",
        )

    def taken(self, car: Car) -> tuple[str, ...]:
        """Return what the drive takes for granted on a car, in words: `notes`, and how all the grip there is comes in.

        Parameters
        ----------
        car
            With an engine it drives by that.
        """
        given = (self.acceleration, self.torque, self.trace, car.extras.engine)
        if any(one is not None for one in given):
            return (*self.notes, *self._unknown)
        rise = RISE if self.rise is None else self.rise
        return (
            *self.notes,
            *self._unknown,
            f"all the grip there is: the drive asked for rises evenly within {rise:g} s to "
            f"{MORE_THAN_GRIP:g} times what the driven tyres hold at rest, so that the grip limits it from about "
            f"{rise / MORE_THAN_GRIP:.2g} s on",
        )

    @property
    def _unknown(self) -> tuple[str, ...]:
        """What nobody said of how the drive comes in, in words."""
        if self.rise is not None or self.trace is not None:
            return ()
        low, high = RISE / RISE_UNKNOWN, RISE * RISE_UNKNOWN
        return (
            f"nobody says how the drive comes in: it rises within {RISE:g} s, and the bands hold {low:.2g} to "
            f"{high:.2g} s; a launch that is told how, '{RISE:g} s' or '{RISE:g} ± 0.05 s', takes it as known so well",
        )

    def on(self, half: HalfCar, car: Car, surface: Surface) -> Drive:
        """Return the drive of a car on a surface, from where the brakes held it before the start.

        Raises
        ------
        QuantityError
            If the car's file lacks the wheel radius that a torque needs, a trace is not finite and rising, or the
            brakes are to hold more than the drive gives.
        CallError
            If no column of the trace is named an acceleration.
        """
        drive = self._free(half, car, surface)
        if self.slip is not None:
            return driving.slip_held(_with_wheels(drive, car), half, surface, self.slip)
        if self.held is None:
            return drive
        of_mass = (car.wheel_radius or WHEEL_RADIUS) * half.frame.mass
        if not 0 < self.held <= drive.asked[-1] * of_mass:
            most = f"{drive.asked[-1] * of_mass:.0f} N m"
            raise QuantityError(f"{self.held:.0f} N m is not between 0 and the {most} of the whole drive", part="held")
        return driving.held_back(drive, self.held / of_mass)

    def _free(self, half: HalfCar, car: Car, surface: Surface) -> Drive:
        """Return the drive of a car that stands free.

        Raises
        ------
        QuantityError
            If the car's file lacks the wheel radius that a torque needs, or a trace is not finite and rising.
        CallError
            If no column of the trace is named an acceleration.
        """
        rise = RISE if self.rise is None else self.rise
        if self.trace is not None:
            return recorded(self.trace)
        if self.acceleration is not None:
            return driving.constant_acceleration(self.acceleration, rise=rise)
        if self.torque is None and car.extras.engine is not None:
            return driving.engine_drive(half, car.extras.engine, car.wheel_radius or WHEEL_RADIUS, rise=rise)
        if self.torque is None:
            return driving.full_grip(half, surface, rise=rise)
        if car.wheel_radius is None:
            raise Lacking(
                "wheel_radius is missing, and a drive by torque needs it",
                where=car.file or car.name,
                hint='add wheel_radius = "300 mm"',
            )
        return driving.torque_drive(half, self.torque, car.wheel_radius, rise=rise)


def _held_slip(slip: float) -> float:
    least, most = HELD_SLIPS
    if not least <= slip <= most:
        raise QuantityError(
            f"a driver holds a slip of {least:g} to {most:g}, not {slip:g}",
            part="slip",
            hint="write it like 0.15 or '15 %'",
        )
    return slip


def _with_half(rise: float | str) -> tuple[float, float]:
    """Return a time and what it may be off by, from "0.15 ± 0.05 s" or a time alone. [s]"""
    if not isinstance(rise, str):
        return quantity(rise, "time", "rise"), 0.0
    both = value_and_spread(rise)
    if both is None:
        return quantity(rise, "time", "rise"), 0.0
    value, half = (quantity(text, "time", "rise") for text in both)
    if not 0 < half < value:
        raise QuantityError(
            f"± {both[1]} must be above zero and below the time itself",
            part="rise",
            hint="write by how much it may be off, 19 times of 20, like '0.15 ± 0.05 s'",
        )
    return value, half


def _with_wheels(drive: Drive, car: Car) -> Drive:
    if drive.turning is not None:
        return drive
    raise Lacking(
        "engine is missing, and a driver who holds a slip lifts from its torque",
        where=car.file or car.name,
        hint='give --torque "2400 N m", or write [engine]',
    )


@dataclass(frozen=True)
class RunAsked:
    """What all settings meet alike: how the car is driven off, for how long, on which made-up road."""

    drive: DriveAsked = DriveAsked()
    duration: float = DURATION  #: [s]
    seed: int = SEED

    @classmethod
    def asked(cls, drive: DriveAsked, time: float | str | None, seed: int | None) -> RunAsked:
        """Return it from values as people give them.

        Raises
        ------
        QuantityError
            If the time is none, or the seed is below zero.
        """
        if seed is not None and seed < 0:
            raise QuantityError(f"write a whole number from 0, not {seed}", part="seed")
        duration = DURATION if time is None else quantity(time, "time", "time")
        return cls(drive, duration, SEED if seed is None else seed)

    def scene(self, case: LaunchCase, surface: Surface) -> Scene:
        """Return drive, ground and time for one setting on one surface."""
        return Scene(self.drive.on(case.half, case.car, surface), surface, self.duration, seed=self.seed)
