"""The values of a car that a launch can tell something of, how far off each may be, and the car with others."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import Any

import numpy as np

from dynoan.analysis.inertia import estimated_pitch_inertia
from dynoan.analysis.launch.large.tyre import LOAD_SENSITIVITIES, load_sensitivity
from dynoan.analysis.learning.assumptions import (
    FRICTION,
    FRICTION_OFF,
    USUAL,
    USUAL_ANTISQUAT,
    USUAL_DAMPING,
    USUAL_LINKS,
)
from dynoan.analysis.statistics import Z95
from dynoan.model.car import AXLES, Car, Surface
from dynoan.model.links import Links

#: kinds of quantity of the keys, for showing; a plain number has none
_KINDS = {"cg_height": "length", "pitch_inertia": "inertia", "spring": "stiffness", "tyre": "stiffness",
          "antisquat": "share", "mass": "mass"}  # fmt: skip


#: how much higher the ends of the links at the body sit than the file says, all alike
LINKS = "links.body"
#: end of the key by which a tyre's grip falls with its load: no launch tells it, and the grip hangs on it
LOADED = ".load_sensitivity"


@dataclass(frozen=True)
class UncertainValue:
    """One value and how far off it may be."""

    key: str  #: of the car's file, such as "front.spring"; or of what stands in none, such as "front.damping"
    value: float  #: SI
    half_width: float  #: of its 95 % limits, SI
    stated: bool  #: whether the car's file states the ±, or it is what is usual
    kind: str = ""  #: of quantity, for showing; "" for a plain number
    in_file: bool = True  #: whether the value itself stands in the car's file
    writable: bool = True  #: whether there is such a key
    shown: bool = True  #: whether people are told

    @property
    def added(self) -> bool:
        """Whether it is moved by adding, not as a factor."""
        return self.key in ("antisquat", LINKS) or self.key.endswith(LOADED)

    def at(self, z: float) -> float:
        """Return the value so many standard deviations off. [SI]"""
        sd = self.half_width / Z95
        return self.value + z * sd if self.added else self.value * float(np.exp(z * sd / self.value))


def uncertain_values(car: Car, surface: Surface) -> tuple[UncertainValue, ...]:
    """Return what a launch may tell of a car: height, anti-squat, inertia, grip; masses, springs, tyres of each axle.

    Parameters
    ----------
    car
        As its file has it; with links, anti-squat is theirs: how much higher their ends at the body sit is looked for.
    surface
        What the launches were driven on.

    Returns
    -------
    :
        Those of an axle are the mean of its corners; each with the ± of the car's file, else the usual one
        (`assumptions.USUAL`). [SI]
    """
    out = [_of_car(car, "cg_height", car.cg_height or 0.0)]
    if car.antisquat is not None:
        half = car.plus_minus.get("antisquat", car.plus_minus.get(f"{car.driven}.antisquat"))
        out.append(UncertainValue("antisquat", car.antisquat, half or USUAL_ANTISQUAT, half is not None, "share"))
    if car.links is not None:
        out.append(UncertainValue(LINKS, 0.0, USUAL_LINKS, False, "length", in_file=False, writable=False))
    out.append(_inertia(car))
    out.append(_of_car(car, f"surfaces.{surface.name}.grip", surface.grip))
    out += _loaded(car, surface)
    for axle in AXLES:
        corners = car.axle(axle)
        for key in ("mass", "spring", "tyre", "shock_ratio"):
            value = float(np.mean([getattr(c, key) or 0.0 for c in corners]))
            out.append(_of_car(car, f"{axle}.{key}", value, [f"{c.name}.{key}" for c in corners]))
        out.append(UncertainValue(f"{axle}.damping", 1.0, USUAL_DAMPING, False, in_file=False, writable=False))
        rub = car.extras.friction.get(axle)
        half = Z95 * FRICTION_OFF * (rub or FRICTION)
        out.append(UncertainValue(f"{axle}.friction", rub or FRICTION, half, False, "force", shown=False))
    return tuple(out)


def _of_car(car: Car, key: str, value: float, more: list[str] | None = None) -> UncertainValue:
    last = key.rpartition(".")[2]
    stated = [car.plus_minus[k] for k in (key, *(more or ())) if k in car.plus_minus]
    half = max(stated) if stated else USUAL[last] * value
    return UncertainValue(key, value, half, bool(stated), _KINDS.get(last, ""))


def _loaded(car: Car, surface: Surface) -> list[UncertainValue]:
    """Return how far off it may be that grip falls with load: nothing where the car's file states it without a ±."""
    key = f"surfaces.{surface.name}{LOADED}"
    usual = 0.5 * (LOAD_SENSITIVITIES[1] - LOAD_SENSITIVITIES[0]) if surface.load_sensitivity is None else None
    half = car.plus_minus.get(key, usual)
    if half is None:
        return []
    value = load_sensitivity(surface)
    return [UncertainValue(key, value, half, usual is None, writable=False, shown=False)]


def _inertia(car: Car) -> UncertainValue:
    if car.pitch_inertia is not None:
        return _of_car(car, "pitch_inertia", car.pitch_inertia)
    sprung = [sum(c.sprung for c in car.axle(axle)) for axle in AXLES]
    value = estimated_pitch_inertia(front=sprung[0], rear=sprung[1], wheelbase=car.wheelbase or 0.0)
    return UncertainValue("pitch_inertia", value, USUAL["pitch_inertia"] * value, False, "inertia", in_file=False)


def with_values(car: Car, values: Mapping[str, float]) -> Car:
    """Return a car with values of `uncertain_values` changed; what corners of an axle differ in, they go on to.

    Parameters
    ----------
    car
        As its file has it.
    values
        By key. [SI] Those of damping are no car's and left alone.
    """
    top: dict[str, Any] = {}
    corners, surfaces, friction = dict(car.corners), dict(car.surfaces), dict(car.extras.friction)
    for key, value in values.items():
        *path, last = key.split(".")
        if key == LINKS or last == "damping":
            continue
        changed: Any = {last: value}
        if path[:1] == ["surfaces"]:
            old = surfaces[path[1]]
            surfaces[path[1]] = _gripping(old, value) if last == "grip" else replace(old, **changed)
        elif path and last == "friction":
            friction[path[0]] = value
        elif path:
            mean = float(np.mean([getattr(c, last) for c in car.axle(path[0])]))
            for corner in car.axle(path[0]):
                factor: Any = {last: getattr(corner, last) * value / mean}
                corners[corner.name] = replace(corners[corner.name], **factor)
        else:
            top |= changed
    if car.links is not None and LINKS in values:
        top["links"] = _raised(car.links, values[LINKS])
    return replace(car, corners=corners, surfaces=surfaces, extras=replace(car.extras, friction=friction), **top)


def _gripping(surface: Surface, grip: float) -> Surface:
    """Return a surface with another grip; sliding goes with it."""
    sliding = None if surface.sliding_grip is None else surface.sliding_grip * grip / surface.grip
    return replace(surface, grip=grip, sliding_grip=sliding)


def _raised(links: Links, by: float) -> Links:
    members = {
        name: replace(link, body={hole: (ahead, up + by) for hole, (ahead, up) in link.body.items()})
        for name, link in links.members.items()
    }
    return replace(links, members=members)
