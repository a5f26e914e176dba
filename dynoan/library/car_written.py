"""A car as the text of its file, in metric units; reading it gives the same car."""

from __future__ import annotations

from typing import Any

from dynoan.library.car_axle_mass import write_whole
from dynoan.library.car_extras import extras_to_data, of_axles
from dynoan.library.car_keys import CORNER, MILLIMETRES, QUANTITIES, TEXTS, UNITS, written
from dynoan.library.car_links import links_to_data
from dynoan.library.car_spreads import with_spreads
from dynoan.library.stop_curves import stop_rows
from dynoan.model.car import AXLES, CORNERS, Car, Corner, Target, axle_of
from dynoan.model.links import STOPS
from dynoan.model.shock import clicks_text

#: what a surface may state besides
_OF_SURFACE = ("sliding_grip", "slip_stiffness", "load_sensitivity")


def car_to_text(car: Car) -> str:
    """Return a car as the text of a car file, in metric units; reading it gives the same car.

    What both corners of an axle share stands once, under the axle; shock, pack and clicks stand with each corner.
    """
    import tomli_w

    return tomli_w.dumps(car_to_data(car))


def car_to_data(car: Car) -> dict[str, Any]:
    """Return the tables of `car_to_text`, as `car_from_data` takes them."""
    data = _whole(car) | extras_to_data(car.extras) | links_to_data(car.links) | _corners(car) | _wanted(car)
    for axle, key, text in of_axles(car.extras):
        data[axle][key] = text
    for axle in AXLES:
        data[axle] |= {key: stop_rows(of[axle]) for key in STOPS if axle in (of := getattr(car.extras, key))}
    write_whole(data, car.corners, car.axle_mass)
    return with_spreads(data, car.plus_minus)


def _whole(car: Car) -> dict[str, Any]:
    lengths = {"wheelbase": car.wheelbase, "cg_height": car.cg_height, "wheel_radius": car.wheel_radius}
    inertias = {"pitch_inertia": car.pitch_inertia, "roll_inertia": car.roll_inertia}
    whole: dict[str, Any] = {key: written(value, *MILLIMETRES) for key, value in lengths.items() if value is not None}
    whole |= {key: written(value, *UNITS["inertia"]) for key, value in inertias.items() if value is not None}
    shares = {"antisquat": car.antisquat, "front_drive": car.front_drive}
    whole |= {key: written(value, *UNITS["ratio"]) for key, value in shares.items() if value is not None}
    if car.instant_centre is not None:
        ahead, up = car.instant_centre
        whole["instant_centre"] = [f"{written(abs(ahead), *MILLIMETRES)} {'ahead' if ahead >= 0 else 'behind'}",
                                   f"{written(abs(up), *MILLIMETRES)} {'up' if up >= 0 else 'down'}"]  # fmt: skip
    return whole | ({"driven": car.driven} if car.driven else {})


def _corners(car: Car) -> dict[str, Any]:
    stated = {name: _corner_texts(corner) for name, corner in car.corners.items()}
    tables: dict[str, Any] = {}
    for axle in AXLES:
        left, right = (stated[name] for name in CORNERS if axle_of(name) == axle)
        tables[axle] = {k: v for k, v in left.items() if k not in (*TEXTS, "mass") and right.get(k) == v}
        if axle in car.track:
            tables[axle]["track"] = written(car.track[axle], *MILLIMETRES)
    for name in CORNERS:
        shared = tables[axle_of(name)]
        tables[name] = {k: v for k, v in stated[name].items() if k not in shared}
    return tables


def _corner_texts(corner: Corner) -> dict[str, Any]:
    texts: dict[str, Any] = {}
    for key in CORNER:
        value = getattr(corner, key)
        if key == "clicks" and value:
            texts[key] = clicks_text(value)
        elif key in QUANTITIES and value is not None:
            texts[key] = written(value, *UNITS[QUANTITIES[key]])
        elif value is not None and key != "clicks":
            texts[key] = value
    return texts


def _wanted(car: Car) -> dict[str, Any]:
    out: dict[str, Any] = {}
    for axle, targets in car.targets.items():
        table = {d: t for d in ("compression", "rebound") if (t := _target_table(getattr(targets, d)))}
        speeds = {key: written(getattr(targets, key), "mm/s", 1e-3) for key in ("low_velocity", "high_velocity")}
        out.setdefault("targets", {})[axle] = speeds | table
    for name, surface in car.surfaces.items():
        more = {k: v for k in _OF_SURFACE if (v := getattr(surface, k)) is not None}
        out.setdefault("surfaces", {})[name] = {"grip": surface.grip, "roughness": surface.roughness} | more
    return out


def _target_table(target: Target) -> dict[str, Any]:
    table: dict[str, Any] = {k: getattr(target, k) for k in ("low", "high") if getattr(target, k) is not None}
    if target.curve:
        table["curve"] = [[written(speed, "mm/s", 1e-3), ratio] for speed, ratio in target.curve]
    return table | ({"weight": target.weight} if target.weight != 1.0 else {})
