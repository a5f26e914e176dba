"""Is this a car? Limits that catch a slipped unit, an inverted motion ratio or a swapped number, in words.

The limits are wide on purpose and say only "no car is like this": common practice, no source. They bound what anyone
could have built, not what is good.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from dynoan.model.car import AXLES, CORNERS, Car, Corner, Surface, Target, Targets


@dataclass(frozen=True)
class CarFault:
    """One thing wrong with a car: the key as the car's file has it ("fl.mass"), and what is wrong in words."""

    key: str
    text: str

    def __str__(self) -> str:
        return f"{self.key}: {self.text}"


@dataclass(frozen=True)
class Limit:
    """The least and most of a quantity, how to show it, and what to do about a value outside."""

    least: float
    most: float
    unit: str
    factor: float  #: SI value of one shown unit
    hint: str

    def fault(self, key: str, value: float) -> Iterator[CarFault]:
        """Yield a fault where the value lies outside."""
        if not math.isfinite(value) or not self.least <= value <= self.most:
            shown = f"{value / self.factor:.4g}{self.unit}"
            least, most = (f"{v / self.factor:.4g}{self.unit}" for v in (self.least, self.most))
            yield CarFault(key, f"{shown} is outside {least} to {most}; {self.hint}")


_INVERSE = "it is spring or shock travel per wheel travel, and many people quote the inverse"
MASS = Limit(20.0, 2000.0, " kg", 1.0, "it is what the scale under this wheel shows")
UNSPRUNG = Limit(1.0, 300.0, " kg", 1.0, "it is the wheel, tyre, hub, brake and half of the links of one corner")
SPRING = Limit(2e3, 1e6, " N/mm", 1e3, "check the number and its unit")
RATIO = Limit(0.2, 2.5, "", 1.0, _INVERSE)
TYRE = Limit(3e4, 1.5e6, " N/mm", 1e3, "check the number and its unit")
TRAVEL = Limit(1e-3, 1.0, " mm", 1e-3, "it is wheel travel from static to the stop")
LENGTH = Limit(1.0, 6.0, " mm", 1e-3, "check the number and its unit")
HEIGHT = Limit(0.05, 2.0, " mm", 1e-3, "it is the height of the centre of gravity above the ground")
PITCH = Limit(20.0, 50e3, " kg m2", 1.0, "it is the inertia of the sprung mass about the axis across the car")
ROLL = Limit(5.0, 20e3, " kg m2", 1.0, "it is the inertia of the sprung mass about the axis along the car")
ANTISQUAT = Limit(-2.0, 4.0, " %", 0.01, "100 % leaves the driven suspension where it is")
ANTILIFT = Limit(0.0, 4.0, " %", 0.01, "100 % leaves the front suspension where it is")
FRONT_DRIVE = Limit(0.0, 1.0, " %", 0.01, "it is the share of the drive at the front where all wheels drive")
WHEEL = Limit(0.1, 1.0, " mm", 1e-3, "it is the rolling radius of the driven wheels")
GAS = Limit(0.0, 1e5, " N/mm", 1e3, "it is the rate of the shock's gas, at the shock")
AHEAD = Limit(-50.0, 50.0, " m", 1.0, "it is measured from the contact patch of the driven axle")
UP = Limit(-5.0, 5.0, " m", 1.0, "it is measured from the ground")
GRIP = Limit(0.01, 4.0, "", 1.0, "it is the peak friction coefficient")
STIFF = Limit(1.0, 100.0, "", 1.0, "it is the tyre's slip stiffness over its load, some 10 to 30")
FALLS = Limit(0.0, 0.5, "", 1.0, "it is the power of its load by which a tyre's grip falls, 0 to 0.2 on most ground")
ROUGH = Limit(0.0, 0.3, " m3", 1.0, "it is the ISO 8608 Gd(n0) at 0.1 cycle/m, 256e-6 m3 for class C")
SPIN = Limit(0.05, 20.0, " kg m2", 1.0, "it is the inertia of one driven wheel with its tyre and brake")
BAR = Limit(0.0, 1e6, " N/mm", 1e3, "it is the force at one wheel per its travel while the other goes the opposite way")
TYRE_DAMPING = Limit(0.0, 5e3, " N s/m", 1.0, "it is the damping of one tyre, some 50 to 500")
FRICTION = Limit(0.0, 2e3, " N", 1.0, "it is the friction of one shock's seals")
STOPS = Limit(1e3, 5e6, " N/mm", 1e3, "it is the rate of one wheel's bump or droop stop")
DAMPING = Limit(0.02, 3.0, "", 1.0, "it is a damping ratio, a share of critical damping, not a force")
SPEED = Limit(1e-3, 3.0, " mm/s", 1e-3, "it is a speed at the shock")
WEIGHT = Limit(0.0, 1e3, "", 1.0, "1 is the same weight for both directions")
RIDE = Limit(0.4, 12.0, " Hz", 1.0, "check mass, unsprung, spring and spring_ratio and their units")
#: by the key of a car's file: what one value can be, whatever the others are
OF_KEY: Mapping[str, Limit] = {
    "wheelbase": LENGTH, "cg_height": HEIGHT, "pitch_inertia": PITCH, "wheel_radius": WHEEL, "antisquat": ANTISQUAT,
    "mass": MASS, "unsprung": UNSPRUNG, "spring": SPRING, "spring_ratio": RATIO, "shock_ratio": RATIO, "tyre": TYRE,
    "bump_travel": TRAVEL, "droop_travel": TRAVEL, "gas_rate": GAS, "grip": GRIP,
}  # fmt: skip


def check_car(car: Car) -> tuple[CarFault, ...]:
    """Return what cannot be true of a car, each with the key of its file; empty where nothing is wrong."""
    return (
        *_whole(car),
        *_of_extras(car),
        *(fault for corner in car.corners.values() for fault in _corner(corner)),
        *_rest(car),
    )


def _whole(car: Car) -> Iterator[CarFault]:
    for name in car.corners:
        if name not in CORNERS:
            yield CarFault(name, f"is no corner; the corners are {', '.join(CORNERS)}")
    yield from _given(LENGTH, "wheelbase", car.wheelbase)
    yield from _given(HEIGHT, "cg_height", car.cg_height)
    yield from _given(PITCH, "pitch_inertia", car.pitch_inertia)
    yield from _given(ROLL, "roll_inertia", car.roll_inertia)
    yield from _given(WHEEL, "wheel_radius", car.wheel_radius)
    yield from _given(FRONT_DRIVE, "front_drive", car.front_drive)
    for axle, track in car.track.items():
        yield from LENGTH.fault(f"{axle}.track", track)
    axle = car.driven if car.driven in AXLES else "rear"
    yield from _given(ANTISQUAT, f"{axle}.antisquat", car.antisquat)
    if car.instant_centre is not None:
        yield from AHEAD.fault(f"{axle}.instant_centre", car.instant_centre[0])
        yield from UP.fault(f"{axle}.instant_centre", car.instant_centre[1])


def _of_extras(car: Car) -> Iterator[CarFault]:
    extras = car.extras
    yield from _given(SPIN, "wheel_inertia", extras.wheel_inertia)
    for axle in AXLES:
        yield from _given(BAR, f"{axle}.anti_roll", extras.anti_roll.get(axle))
        yield from _given(TYRE_DAMPING, f"{axle}.tyre_damping", extras.tyre_damping.get(axle))
        yield from _given(FRICTION, f"{axle}.friction", extras.friction.get(axle))
        yield from _given(STOPS, f"{axle}.stop_rate", extras.stop_rate.get(axle))
        yield from _given(ANTILIFT, f"{axle}.anti_lift", extras.anti_lift.get(axle))
        for key, travel in (("bump_stop", "bump_travel"), ("droop_stop", "droop_travel")):
            if axle in getattr(extras, key) and any(getattr(c, travel) is None for c in car.axle(axle)):
                yield CarFault(
                    f"{axle}.{key}", f"needs {travel} beside it: how far the wheel goes before it is touched"
                )


def _given(limit: Limit, key: str, value: float | None) -> Iterator[CarFault]:
    if value is not None:
        yield from limit.fault(key, value)


def _corner(corner: Corner) -> Iterator[CarFault]:
    name = corner.name
    single = [
        *MASS.fault(f"{name}.mass", corner.mass),
        *UNSPRUNG.fault(f"{name}.unsprung", corner.unsprung),
        *SPRING.fault(f"{name}.spring", corner.spring),
        *RATIO.fault(f"{name}.spring_ratio", corner.spring_ratio),
        *RATIO.fault(f"{name}.shock_ratio", corner.shock_ratio),
        *_given(TYRE, f"{name}.tyre", corner.tyre),
        *_given(TRAVEL, f"{name}.bump_travel", corner.bump_travel),
        *_given(TRAVEL, f"{name}.droop_travel", corner.droop_travel),
        *_given(GAS, f"{name}.gas_rate", corner.gas_rate),
    ]
    yield from single
    if corner.unsprung >= corner.mass > 0:
        yield CarFault(
            f"{name}.unsprung",
            f"{corner.unsprung:.4g} kg unsprung is not less than the {corner.mass:.4g} kg on the scale; "
            "mass is the whole corner, wheel included",
        )
    elif not single:
        hertz = math.sqrt(corner.wheel_rate / corner.sprung) / (2 * math.pi)
        yield from (
            CarFault(fault.key, "the corner would ride at " + fault.text)
            for fault in RIDE.fault(f"{name}.spring", hertz)
        )
    for adjuster, click in corner.clicks.items():
        if click < 0:
            yield CarFault(f"{name}.clicks", f"{adjuster}={click} is negative; clicks count from 0")


def _rest(car: Car) -> Iterator[CarFault]:
    for axle, targets in car.targets.items():
        yield from _targets(f"targets.{axle}", targets)
    for name, surface in car.surfaces.items():
        yield from _surface(f"surfaces.{name}", surface)


def _surface(key: str, surface: Surface) -> Iterator[CarFault]:
    yield from GRIP.fault(f"{key}.grip", surface.grip)
    yield from ROUGH.fault(f"{key}.roughness", surface.roughness)
    yield from _given(GRIP, f"{key}.sliding_grip", surface.sliding_grip)
    yield from _given(STIFF, f"{key}.slip_stiffness", surface.slip_stiffness)
    yield from _given(FALLS, f"{key}.load_sensitivity", surface.load_sensitivity)
    if surface.sliding_grip is not None and surface.sliding_grip > surface.grip:
        yield CarFault(
            f"{key}.sliding_grip", f"{surface.sliding_grip:.4g} is above the peak grip of {surface.grip:.4g}"
        )


def _targets(key: str, targets: Targets) -> Iterator[CarFault]:
    yield from SPEED.fault(f"{key}.low_velocity", targets.low_velocity)
    yield from SPEED.fault(f"{key}.high_velocity", targets.high_velocity)
    if not targets.low_velocity < targets.high_velocity:
        yield CarFault(f"{key}.high_velocity", "is not above low_velocity")
    yield from _target(f"{key}.compression", targets.compression)
    yield from _target(f"{key}.rebound", targets.rebound)


def _target(key: str, target: Target) -> Iterator[CarFault]:
    yield from _given(DAMPING, f"{key}.low", target.low)
    yield from _given(DAMPING, f"{key}.high", target.high)
    yield from WEIGHT.fault(f"{key}.weight", target.weight)
    last = 0.0
    for speed, ratio in target.curve:
        yield from SPEED.fault(f"{key}.curve", speed)
        yield from DAMPING.fault(f"{key}.curve", ratio)
        if speed <= last:
            yield CarFault(f"{key}.curve", "its speeds do not rise")
        last = speed
