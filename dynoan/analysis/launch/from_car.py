"""The half-car that a car's file makes: left and right summed per axle, and what had to be assumed."""

from __future__ import annotations

from collections.abc import Mapping

import numpy as np

from dynoan.analysis.checks import positive_number
from dynoan.analysis.gas import spring_of_gas
from dynoan.analysis.inertia import estimated_pitch_inertia
from dynoan.analysis.launch import load_transfer as lt
from dynoan.analysis.launch.assumptions import FRONT_DRIVE, NO_STOP, STOP_RATE, WHEEL_RADIUS
from dynoan.analysis.launch.links import follow
from dynoan.analysis.launch.model import Axle, HalfCar
from dynoan.analysis.launch.stops import axle_stops
from dynoan.errors import Lacking, QuantityError, Spot
from dynoan.model.car import AXLES, Car, Corner
from dynoan.model.curve import Curve
from dynoan.units import GRAVITY

#: in a note on what a shock's tests tell, before the figures: those of another setting's tests differ by their errors
OF_DYNO = "as the dyno found:"
#: the same before what friction leaves open of where the car comes to stand
STAYS_OFF = "it may truly stay off by"


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
    notes += estimated + _about_stops(car) + _about_gas(car, curves or {})
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
        front, lift = f"{100 * shares['front']:.0f} %", car.extras.anti_lift.get("front")
        if lift:
            slopes["front"] = -lt.antisquat_slope(frame, lift, share=shares["front"])
        held = "none of it (anti_lift in [front] states it)" if lift is None else f"{100 * lift:.0f} % of the lift"
        notes.append(
            f"all wheels drive: {front} of the drive at the front, whose links carry {held}; the same "
            "at every travel, since [links] are those of the rear"
        )
    elif "front" in car.extras.anti_lift:
        notes.append(f"{_file(car)}: anti_lift in [front] says nothing where the {axle} alone drives")
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
        gas=sum(spring_of_gas(c, curves.get(c.name)) * c.shock_ratio**2 for c in corners),
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


def _about_gas(car: Car, curves: Mapping[str, Curve]) -> list[str]:
    told, untold = [], []
    for axle in AXLES:
        corners = [c for c in car.axle(axle) if c.gas_rate is None]
        rates = [spring_of_gas(c, curves.get(c.name)) for c in corners]
        if any(rates):
            told.append(f"{float(np.mean(rates)) * 1e-3:.2f} N/mm a shock at the {axle}")
        elif corners:
            untold.append(axle)
    notes = [f"the gas of the shocks is a spring, {OF_DYNO} {', '.join(told)}"] if told else []
    if untold:
        where = "" if len(untold) == len(AXLES) else f" at the {untold[0]}"
        notes.append(f"the gas of the shocks{where} adds no spring, since gas_rate is not stated and no sweep tells it")
    return notes
