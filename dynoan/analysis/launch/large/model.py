"""The car at large angles: the half-car's axles, and where things sit in the plane."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import NamedTuple

import numpy as np

from dynoan.analysis.launch.assumptions import FARTHEST, WHEEL_INERTIA, WHEEL_RADIUS
from dynoan.analysis.launch.from_car import OF_DYNO, STAYS_OFF
from dynoan.analysis.launch.links import LinkTravel, follow, polynomials, runs_away
from dynoan.analysis.launch.model import Axle, HalfCar
from dynoan.analysis.launch.torque_reaction import reaction_of
from dynoan.errors import QuantityError
from dynoan.model.arrays import FloatArray
from dynoan.model.car import AXLES, Car
from dynoan.model.curve import Curve
from dynoan.model.links import Engine, Extras, WheelieBar
from dynoan.units import GRAVITY

#: which way the shaft loads the tyres (T. D. Gillespie, *Fundamentals of Vehicle Dynamics*, ch. 2; from memory)
SHAFT = (
    "the driveshaft turns as most do, so that the left driven tyre gains what the right one loses; it is the other way "
    "round with a shaft that turns the other way"
)


class AxlePath(NamedTuple):
    """Polynomials over travel, lowest power first: how far wheels are led ahead [m] and the axle turns [rad]."""

    ahead: FloatArray
    turn: FloatArray


@dataclass(frozen=True)
class LargeCar:
    """What the equations at large angles take besides the half-car."""

    half: HalfCar
    height: float  #: of the sprung mass's centre of gravity at rest [m]
    radius: float  #: of the wheels, loaded, at rest [m]
    paths: tuple[AxlePath, AxlePath]  #: front, rear
    links: LinkTravel | None  #: of the axle that has them
    spin: tuple[float, float]  #: inertia that turns with the wheels of each axle, engine included [kg·m²]
    #: share of the torque beyond the tyres' that the axle passes on to its wheels; the rest spins the engine itself up
    through: tuple[float, float]
    tyre_damping: tuple[float, float]  #: of both tyres of an axle [N·s/m]
    friction: tuple[float, float]  #: of both shocks' seals, at the wheel [N]
    bar: WheelieBar | None
    engine: Engine | None
    reaction: float | None  #: load one driven tyre gains and the other loses per drive force; None where not known
    notes: tuple[str, ...]
    friction_sd: tuple[float, float] = (0.0, 0.0)  #: of what the dyno told of `friction` [N]
    #: share of `friction` that holds each axle up where the car stands, minus where it holds it down; -1 to 1 [1]
    stuck: tuple[float, float] = (0.0, 0.0)
    uneven: float = 0.0  #: load of the driven axle's left tyre less its right one's, at rest [N]


def large_car(car: Car, half: HalfCar, curves: Mapping[str, Curve] | None = None) -> LargeCar:
    """Return what the equations at large angles take of a car.

    Parameters
    ----------
    car
        As its file has it.
    half
        The same, left and right summed.
    curves
        At each corner, by its name: what friction the dyno found counts where the car's file states none.

    Raises
    ------
    QuantityError
        If its links are no linkage, or its wheels larger than its centre of gravity is high.
    """
    notes: list[str] = []
    where = car.file or f"car {car.name}"
    radius = car.wheel_radius
    if radius is None:
        radius = WHEEL_RADIUS
        notes.append(f"{where} has no wheel_radius: taken as {1e3 * radius:.0f} mm")
    frame, extras = half.frame, car.extras
    unsprung = half.front.unsprung + half.rear.unsprung
    height = (frame.mass * frame.height - unsprung * radius) / half.sprung
    if height <= radius / 2:
        raise QuantityError(f"cg_height is too low for wheels of {1000.0 * radius:.0f} mm radius", where=where)
    axle = "front" if half.driven == "front" else "rear"
    links = _followed(car, half.front if axle == "front" else half.rear, radius, notes, where)
    reaction = reaction_of(car, radius)
    if reaction is not None:
        notes.append(SHAFT)
    paths = tuple(_path(name, half, radius, links if name == axle else None) for name in AXLES)
    friction = _friction(car, curves or {}, notes)
    notes += _about_sticking(half, friction)
    spin = _spin(extras, half)
    wheels = _wheels(extras)
    return LargeCar(
        half, height, radius, (paths[0], paths[1]), links, spin, (wheels / spin[0], wheels / spin[1]),
        _pair(extras.tyre_damping, 2.0), friction, extras.bar, extras.engine,
        None if reaction is None else reaction.per_force, tuple(notes),
        _friction_sd(car, curves or {}), uneven=_uneven(car, axle),
    )  # fmt: skip


def _uneven(car: Car, axle: str) -> float:
    left, right = (c.mass for c in car.axle(axle))
    return GRAVITY * (left - right)


def _followed(car: Car, axle: Axle, radius: float, notes: list[str], where: str) -> LinkTravel | None:
    if car.links is None:
        return None
    found = follow(car.links, radius, bump=min(axle.bump, FARTHEST), droop=min(axle.droop, FARTHEST))
    if runs_away(found, car.wheelbase or 1.0):
        notes.append(
            f"{where}: the instant centre of the links runs away within the travel: look at anti-squat over it"
        )
    return found


def _path(name: str, half: HalfCar, radius: float, links: LinkTravel | None) -> AxlePath:
    if links is not None:
        ahead, turn = polynomials(links)
        return AxlePath(ahead, turn if half.torque_in_links else np.zeros_like(turn))
    axle = half.front if name == "front" else half.rear
    if half.torque_in_links:
        return AxlePath(np.zeros(2), np.array([0.0, -axle.slope / radius]))
    return AxlePath(np.array([0.0, -axle.slope]), np.zeros(2))


def _wheels(extras: Extras) -> float:
    return 2.0 * (WHEEL_INERTIA if extras.wheel_inertia is None else extras.wheel_inertia)


def _spin(extras: Extras, half: HalfCar) -> tuple[float, float]:
    wheels = _wheels(extras)
    engine = 0.0 if extras.engine is None else extras.engine.inertia * extras.engine.ratio**2
    return wheels + engine * half.front.share, wheels + engine * half.rear.share


def _pair(of: Mapping[str, float], times: float) -> tuple[float, float]:
    return times * of.get("front", 0.0), times * of.get("rear", 0.0)


def _friction(car: Car, curves: Mapping[str, Curve], notes: list[str]) -> tuple[float, float]:
    """Return the friction of both shocks' seals at the wheel, front and rear: as stated, else from the dyno. [N]"""
    out, tested, unknown = [], [], []
    for axle in AXLES:
        corners = car.axle(axle)
        ratios = np.array([c.shock_ratio for c in corners])
        each = np.array([curves[c.name].friction if c.name in curves else 0.0 for c in corners])
        if axle in car.extras.friction:
            each = np.full(len(corners), car.extras.friction[axle])
        elif not np.all(np.isfinite(each)):
            unknown.append(axle)
            each = np.nan_to_num(each, nan=0.0)
        elif each.any():
            tested.append(f"{float(np.mean(each)):.0f} N a shock at the {axle}")
        out.append(float(ratios @ each))
    if tested:
        notes.append(f"the seals rub, {OF_DYNO} {', '.join(tested)}")
    if unknown:
        where = " and ".join(unknown)
        notes.append(
            f"the friction of the seals at the {where} is taken for none where no test tells it, as peak tables "
            f"cannot; friction in [{unknown[0]}] states it"
        )
    return out[0], out[1]


def _about_sticking(half: HalfCar, friction: tuple[float, float]) -> list[str]:
    """Return how far beside its rest a car may truly stop that the model lets creep there."""
    beside = [f"{1e3 * rub / (axle.spring + axle.gas):.1f} mm at the {axle.name}"
              for axle, rub in zip((half.front, half.rear), friction, strict=True) if rub]  # fmt: skip
    if not beside:
        return []
    return ["a car that comes to rest stuck beside its middle is not modelled, since friction slides however slowly: "
            f"{STAYS_OFF} {' and '.join(beside)}, at the wheel"]  # fmt: skip


def _friction_sd(car: Car, curves: Mapping[str, Curve]) -> tuple[float, float]:
    """Return the standard errors of `_friction` where the dyno told it: left and right err alike. [N]"""
    out = []
    for axle in AXLES:
        stated = axle in car.extras.friction
        each = [c.shock_ratio * curves[c.name].friction_sd for c in car.axle(axle) if c.name in curves and not stated]
        out.append(float(np.sum([sd for sd in each if np.isfinite(sd)])))
    return out[0], out[1]
