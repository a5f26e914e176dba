"""The car as a planar half-car, 4 degrees of freedom, left and right summed per axle.

Equations (heave z and wheels z_f, z_r up, pitch θ nose up, all from the standing car; u = wheel travel, positive in
compression; S = spring + stops + damper above static; X = drive force; h, L, a, b as usual):

    m_s·z''  = (S_f + s_f·X_f) + (S_r + s_r·X_r)
    I·θ''    = a·(S_f + s_f·X_f) − b·(S_r + s_r·X_r) + h·(X_f + X_r)
    m_u·z_u'' = N − N_static − (S + s·X)     for each axle

The moment h·X takes the inertia of the wheels along: carriers cannot hold a moment, so the links pass it to the body,
and the steady state is m·a·h/L whatever the springs and links do. s·X is what the links carry at a driven axle whose
torque they react (s = tan φ of the line from contact patch to side-view instant centre, signed): at s·X = m·a·h/L,
100 % anti-squat, the driven suspension stays where it is. Left out: friction of the seals, drag, damping of the tyres,
change of h.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import NamedTuple

import numpy as np

from dynoan.analysis.checks import positive_number
from dynoan.analysis.inertia import estimated_pitch_inertia
from dynoan.analysis.launch import layout as at
from dynoan.analysis.launch import load_transfer as lt
from dynoan.analysis.launch.assumptions import FRONT_DRIVE, NO_STOP, STOP_RATE, WHEEL_RADIUS
from dynoan.analysis.launch.links import follow
from dynoan.analysis.launch.stops import StopHinges, axle_stops
from dynoan.errors import Lacking, QuantityError, Spot
from dynoan.model.arrays import FloatArray
from dynoan.model.car import AXLES, Car, Corner
from dynoan.model.curve import Curve
from dynoan.units import GRAVITY


@dataclass(frozen=True)
class Axle:
    """Both wheels of an axle, at the wheel."""

    name: str
    sprung: float  #: [kg]
    unsprung: float  #: [kg]
    spring: float  #: wheel rate of the springs [N/m]
    gas: float  #: wheel rate of the gas [N/m]
    preload: float  #: what the springs carry at rest; beyond it they go slack [N]
    tyre: float  #: [N/m]
    bump: float  #: travel to the bump stops [m]
    droop: float  #: travel to the droop stops [m]
    stop_rate: float  #: of both wheels' stops, where they have no curve of their own [N/m]
    share: float  #: of the drive force
    slope: float  #: upward force on the body per drive force of this axle
    #: bump and droop stops as hinges: travel at which each begins [m] and the rate it adds [N/m]; of both wheels
    stops: tuple[StopHinges, StopHinges] | None = None

    @property
    def hinges(self) -> tuple[StopHinges, StopHinges]:
        """The stops as hinges: their own, or one rate from the end of the travel on."""
        return self.stops or (((self.bump, self.stop_rate),), ((self.droop, self.stop_rate),))

    @property
    def mass(self) -> float:
        """What the scales show. [kg]"""
        return self.sprung + self.unsprung

    @property
    def static_load(self) -> float:
        """Of both tyres. [N]"""
        return self.mass * GRAVITY


class DrivenLoads(NamedTuple):
    """The load of the driven tyres: what counts of each axle, and what it would be in the steady state."""

    front: float  #: share of the front load that counts, 1 or 0
    rear: float  #: of the rear load
    static: float  #: at rest [N]
    change: float  #: per drive force, by load transfer alone


@dataclass(frozen=True)
class HalfCar:
    """The half-car."""

    front: Axle
    rear: Axle
    frame: lt.Frame  #: masses of the whole car
    pitch_inertia: float  #: of the sprung mass about its centre of gravity [kg·m²]
    driven: str
    notes: tuple[str, ...] = ()  #: what was estimated or left out for want of a key
    torque_in_links: bool = True  #: whether the links hold the driving torque, or a final drive on the body

    @property
    def sprung(self) -> float:
        """Sprung mass of the car. [kg]"""
        return self.front.sprung + self.rear.sprung

    @property
    def arms(self) -> lt.Arms:
        """Sprung centre of gravity to front and to rear axle. [m]"""
        return lt.centre_of_gravity(front=self.front.sprung, rear=self.rear.sprung, wheelbase=self.frame.wheelbase)

    @property
    def driven_loads(self) -> DrivenLoads:
        """How the load of the driven tyres is made up."""
        front, rear = float(self.driven != "rear"), float(self.driven != "front")
        static = front * self.front.static_load + rear * self.rear.static_load
        return DrivenLoads(front, rear, static, (rear - front) * self.frame.height / self.frame.wheelbase)

    def packed(self, grip: float) -> FloatArray:
        """Return the parameters as the compiled half-car takes them, shape (PARAMETERS,). [SI, see `layout`]"""
        f, r, arms, driven = self.front, self.rear, self.arms, self.driven_loads
        out = np.empty(at.PARAMETERS)
        out[at.SPRUNG], out[at.INERTIA], out[at.HEIGHT] = self.sprung, self.pitch_inertia, self.frame.height
        out[at.TO_FRONT], out[at.TO_REAR], out[at.GRIP] = arms.front, arms.rear, grip
        out[at.FRONT_UNSPRUNG], out[at.REAR_UNSPRUNG] = f.unsprung, r.unsprung
        out[at.FRONT_STATIC], out[at.REAR_STATIC] = f.static_load, r.static_load
        out[at.FRONT_TYRE], out[at.REAR_TYRE] = f.tyre, r.tyre
        out[at.FRONT_SLOPE], out[at.REAR_SLOPE] = f.slope, r.slope
        for start, axle in ((at.FRONT_AXLE, f), (at.REAR_AXLE, r)):
            out[start + at.SPRING], out[start + at.GAS], out[start + at.PRELOAD] = axle.spring, axle.gas, axle.preload
            out[start + at.BUMP], out[start + at.DROOP] = axle.bump, axle.droop
            out[start + at.STOP_RATE] = axle.stop_rate
        out[at.FRONT_DRIVEN], out[at.REAR_DRIVEN] = driven.front, driven.rear
        out[at.DRIVEN_STATIC], out[at.DRIVEN_CHANGE] = driven.static, driven.change
        return out


def half_car(car: Car, curves: Mapping[str, Curve] | None = None) -> HalfCar:
    """Return the half-car of a car, left and right summed per axle.

    Parameters
    ----------
    curves
        By corner; their gas force tells how much of the load the springs carry. Without: none of it is gas.

    Raises
    ------
    QuantityError
        If a key the launch needs is missing or cannot be, naming file and key.
    """
    wheelbase, height = (_needed(car, key) for key in ("wheelbase", "cg_height"))
    masses = [sum(c.mass for c in _corners(car, axle)) for axle in AXLES]
    to_front, to_rear = lt.centre_of_gravity(front=masses[0], rear=masses[1], wheelbase=wheelbase)
    frame = lt.Frame(sum(masses), to_front, to_rear, height)
    if car.driven not in ("front", "rear", "all"):
        raise QuantityError("driven is missing", where=_file(car), hint='say which wheels drive: driven = "rear"')
    slopes, notes = _slopes(car, frame)
    axles = [_axle(car, axle, slopes[axle], curves or {}) for axle in AXLES]
    inertia, estimated = _inertia(car, axles[0], axles[1])
    notes += estimated + _about_stops(car) + _about_gas(car)
    held = car.links is None or car.links.torque == "links"
    return HalfCar(axles[0], axles[1], frame, inertia, car.driven, tuple(notes), held)


def _file(car: Car) -> str:
    return car.file or f"car {car.name}"


def _needed(car: Car, key: str) -> float:
    value = getattr(car, key)
    if value is None:
        example = {"wheelbase": "2430 mm", "cg_height": "510 mm"}[key]
        raise Lacking(f"{key} is missing, and a launch needs it", where=_file(car), hint=f'add {key} = "{example}"')
    return positive_number(Spot(_file(car), key), value)


def _corners(car: Car, axle: str) -> tuple[Corner, ...]:
    corners = car.axle(axle)
    if len(corners) != 2:
        raise QuantityError(
            f"a launch needs both corners of the {axle} axle", where=_file(car), hint="give each its mass"
        )
    for corner in corners:
        if corner.tyre is None:
            raise Lacking(
                f"tyre is missing for {corner.name}, and a launch needs it",
                where=_file(car),
                hint=f'add tyre = "210 N/mm" under [{axle}]',
            )
        for key in ("sprung", "unsprung", "wheel_rate", "shock_ratio", "tyre"):
            positive_number(Spot(_file(car), f"{key} of {corner.name}"), getattr(corner, key))
    return corners


def drive_shares(car: Car) -> tuple[float, float]:
    """Return the shares of the drive force at the front and at the rear axle, 1 together. [1]"""
    front = {"front": 1.0, "rear": 0.0}.get(
        str(car.driven), FRONT_DRIVE if car.front_drive is None else car.front_drive
    )
    return front, 1.0 - front


def _slopes(car: Car, frame: lt.Frame) -> tuple[dict[str, float], list[str]]:
    """Return the signed slopes by axle, and what had to be assumed."""
    shares = dict(zip(AXLES, drive_shares(car), strict=True))
    axle = "front" if car.driven == "front" else "rear"
    slopes, notes = {"front": 0.0, "rear": 0.0}, []
    if car.links is not None:
        radius = WHEEL_RADIUS if car.wheel_radius is None else car.wheel_radius
        try:
            found = follow(car.links, radius)
        except QuantityError as error:
            raise error.again(where=_file(car)) from None
        slopes[axle] = found.at_rest(found.slope)
    elif car.antisquat is None and car.instant_centre is None:
        notes.append(f"{_file(car)} states neither antisquat nor instant_centre: taken as 0 % anti-squat")
    elif car.antisquat is not None:
        sign = -1.0 if axle == "front" else 1.0
        slopes[axle] = sign * lt.antisquat_slope(frame, car.antisquat, share=shares[axle])
    elif car.instant_centre is not None:
        slopes[axle] = lt.instant_centre_slope(*car.instant_centre)
    if car.driven == "all":
        front = f"{100 * shares['front']:.0f} %"
        notes.append(f"all wheels drive: {front} of the drive at the front, whose links carry none of it")
    return slopes, notes


def _axle(car: Car, name: str, slope: float, curves: Mapping[str, Curve]) -> Axle:
    corners = car.axle(name)
    gas_lift = sum(_gas_force(curves.get(c.name)) * c.shock_ratio for c in corners)
    sprung = sum(c.sprung for c in corners)
    travel = {key: min(_travel(getattr(c, key)) for c in corners) for key in ("bump_travel", "droop_travel")}
    rate = 2 * car.extras.stop_rate.get(name, STOP_RATE)
    return Axle(
        name=name, sprung=sprung, unsprung=sum(c.unsprung for c in corners),
        spring=sum(c.wheel_rate for c in corners),
        gas=sum((c.gas_rate or 0.0) * c.shock_ratio**2 for c in corners),
        preload=max(sprung * GRAVITY - gas_lift, 0.0), tyre=sum(c.tyre or 0.0 for c in corners),
        bump=travel["bump_travel"], droop=travel["droop_travel"],
        stop_rate=rate, stops=axle_stops(car, corners, rate),
        share=dict(zip(AXLES, drive_shares(car), strict=True))[name], slope=slope,
    )  # fmt: skip


def _travel(value: float | None) -> float:
    return NO_STOP if value is None else value


def _gas_force(curve: Curve | None) -> float:
    return 0.0 if curve is None or not np.isfinite(curve.gas_force) else curve.gas_force


def _inertia(car: Car, front: Axle, rear: Axle) -> tuple[float, list[str]]:
    if car.pitch_inertia is not None:
        return positive_number(f"{_file(car)}: pitch_inertia", car.pitch_inertia), []
    value = estimated_pitch_inertia(front=front.sprung, rear=rear.sprung, wheelbase=car.wheelbase or 0.0)
    return value, [f"{_file(car)} has no pitch_inertia: estimated as {value:.0f} kg m2 (sprung mass times both arms)"]


def _about_stops(car: Car) -> list[str]:
    out = []
    for axle in AXLES:
        missing = [k for k in ("bump_travel", "droop_travel") if any(getattr(c, k) is None for c in car.axle(axle))]
        if missing:
            out.append(f"{_file(car)} has no {' and no '.join(missing)} for the {axle}: no such stops in the model")
    return out


def _about_gas(car: Car) -> list[str]:
    given = all(c.gas_rate is not None for c in car.corners.values())
    return [] if given else ["the gas of the shocks adds no spring, since gas_rate is not stated"]
