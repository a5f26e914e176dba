"""What differs between two setups, fact by fact."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping
from dataclasses import dataclass, replace
from typing import Any

from dynoan.errors import QuantityError
from dynoan.library.car_extras import extras_to_data, of_axles
from dynoan.library.car_keys import NUMBERS, QUANTITIES
from dynoan.library.car_links import links_to_data
from dynoan.library.stop_curves import stop_rows
from dynoan.model.car import AXLES, CORNER_NAMES, CORNERS, Car, Corner
from dynoan.model.links import STOPS
from dynoan.model.setup import Setup
from dynoan.units import Shown, degrees, parse, shown


@dataclass(frozen=True)
class Difference:
    """One fact that two setups state differently, as text for people and as the values themselves (SI)."""

    what: str
    one: str
    other: str
    one_value: Any
    other_value: Any


@dataclass(frozen=True)
class _Fact:
    value: Any
    text: str


def differences(one: Setup, other: Setup, units: Shown = "metric") -> tuple[Difference, ...]:
    """Return every fact that differs, in the order of a setup file: the day, the car, the corners, the targets."""
    # A fact of the team's own may bear the name of one of ours, and hides none of them.
    taken = {what for setup in (one, other) for what, _ in _facts(replace(setup, extra={}), units)}
    first, second = dict(_facts(one, units, taken)), dict(_facts(other, units, taken))
    found = []
    for what in dict.fromkeys([*first, *second]):
        a, b = first.get(what, _Fact(None, "–")), second.get(what, _Fact(None, "–"))
        if a.value != b.value:
            found.append(Difference(what, a.text, b.text, a.value, b.value))
    return tuple(found)


def _facts(setup: Setup, units: Shown, taken: Collection[str] = ()) -> Iterator[tuple[str, _Fact]]:
    verdict = {True: "good", False: "bad"}
    plain = {"date": setup.date, "surface": setup.surface, "result": setup.result, "remarks": setup.remarks or None,
             "car": setup.car.name}  # fmt: skip
    plain |= {f"extra {key}" if key in taken else key: value for key, value in setup.extra.items()}
    for key, value in plain.items():
        if value is not None:
            yield key, _Fact(value, str(value))
    if setup.good is not None:
        yield "verdict", _Fact(setup.good, verdict[setup.good])
    if setup.temperature is not None:
        yield "temperature", _Fact(setup.temperature, _degrees(setup.temperature, units))
    yield from _whole(setup.car, units)
    for name in CORNERS:
        yield from _corner(setup.car.corners[name], units)
    yield from _targets(setup.car, units)
    for surface in setup.car.surfaces.values():
        yield f"{surface.name} grip", _Fact(surface.grip, f"{surface.grip:g}")
        yield f"{surface.name} roughness", _Fact(surface.roughness, f"{surface.roughness:g} m3")


def _whole(car: Car, units: Shown) -> Iterator[tuple[str, _Fact]]:
    length = shown("length", units)
    lengths = {"wheelbase": car.wheelbase, "CG height": car.cg_height, "wheel radius": car.wheel_radius}
    lengths |= {f"{axle} track": car.track.get(axle) for axle in AXLES}
    for key, value in lengths.items():
        if value is not None:
            yield key, _Fact(value, length.text(value))
    for axle, mass in car.axle_mass.items():
        yield f"{axle} axle mass", _Fact(mass, shown("mass", units).text(mass))
    plain = {"driven": car.driven, "anti-squat": car.antisquat, "front drive": car.front_drive}
    for key, inertia in (("pitch inertia", car.pitch_inertia), ("roll inertia", car.roll_inertia)):
        if inertia is not None:
            unit, text = ("kg m2", str(inertia)) if units == "metric" else _us("inertia", inertia)
            yield f"{key}, {unit}", _Fact(inertia, text)
    if car.instant_centre is not None:
        told = [_us("far", value) for value in car.instant_centre]
        unit, text = ("m", str(car.instant_centre)) if units == "metric" else ("ft", ", ".join(t for _, t in told))
        yield f"instant centre, {unit}", _Fact(car.instant_centre, text)
    for key, fact in plain.items():
        if fact is not None:
            yield key, _Fact(fact, str(fact))
    yield from _large_angles(car, units)


def _large_angles(car: Car, units: Shown) -> Iterator[tuple[str, _Fact]]:
    """Yield links with their holes, what else only a launch takes, and every ±, as the car's file writes them."""
    for path, value in _leaves(links_to_data(car.links) | extras_to_data(car.extras)):
        yield path.replace("_", " "), _Fact(value, _told(value, units))
    for axle, key, text in of_axles(car.extras):
        yield f"{axle} {key.replace('_', ' ')}", _Fact(text, _told(text, units))
    for key in STOPS:
        for axle, curve in getattr(car.extras, key).items():
            yield f"{axle} {key.replace('_', ' ')}", _Fact(curve, _told(stop_rows(curve), units))
    for key, half in car.plus_minus.items():
        what = key.replace(".", " ").replace("_", " ")
        yield f"± of {what}, SI", _Fact(half, f"{half:.4g}")


def _told(value: Any, units: Shown) -> str:
    """Return a value of the car's file as people read it, quantities in their units."""
    if isinstance(value, list | tuple):
        several = any(isinstance(part, list | tuple) for part in value)
        return ("; " if several else ", ").join(_told(part, units) for part in value)
    text = str(value)
    if units == "metric" or not isinstance(value, str) or "±" in text:
        return text
    for kind in ("length", "force", "stiffness", "damping", "mass", "torque"):
        try:
            return shown(kind, units).text(parse(text, kind))
        except QuantityError:
            continue
    return text


def _leaves(table: Mapping[str, Any], before: str = "") -> Iterator[tuple[str, Any]]:
    for key, value in table.items():
        if isinstance(value, Mapping):
            yield from _leaves(value, f"{before}{key} ")
        else:
            yield f"{before}{key}", value


def _us(kind: str, value: float) -> tuple[str, str]:
    display = shown(kind, "us")
    return display.unit, display.text(value, unit=False)


def _degrees(celsius: float, units: Shown) -> str:
    return f"{celsius:g} °C" if units == "metric" else degrees(celsius, units)


def _corner(corner: Corner, units: Shown) -> Iterator[tuple[str, _Fact]]:
    name = CORNER_NAMES[corner.name]
    for key in ("shock", "pack"):
        if value := getattr(corner, key):
            yield f"{name} {key}", _Fact(value, value)
    for adjuster, click in corner.clicks.items():
        yield f"{name} {adjuster}", _Fact(click, str(click))
    for key, kind in QUANTITIES.items():
        number = getattr(corner, key)
        if number is not None:
            yield f"{name} {key.replace('_', ' ')}", _Fact(number, shown(kind, units).text(number))
    for key in NUMBERS:
        yield f"{name} {key.replace('_', ' ')}", _Fact(getattr(corner, key), f"{getattr(corner, key):g}")


def _targets(car: Car, units: Shown) -> Iterator[tuple[str, _Fact]]:
    for axle, targets in car.targets.items():
        for key in ("low_velocity", "high_velocity"):
            value = getattr(targets, key)
            yield f"{axle} target, {key.replace('_', ' ')}", _Fact(value, shown("velocity", units).text(value))
        for direction in ("compression", "rebound"):
            target = getattr(targets, direction)
            for key in ("low", "high", "curve", "weight"):
                value = getattr(target, key)
                if value not in (None, ()):
                    yield f"{axle} target, {direction} {key}", _Fact(value, str(value))
