"""The trackside page's view as the JSON that the page carries."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from typing import Any

import numpy as np

from dynoan.analysis.choosing.assumptions import SLACK, TOLERANCE
from dynoan.analysis.clickmap.every_click.one_shock import shock_terms
from dynoan.cautions import CAUTIONS
from dynoan.errors import CallError
from dynoan.jobs.trackside import WEATHER
from dynoan.model.car import AXLES, CORNER_NAMES, Car, Corner, Target, Targets, axle_of
from dynoan.model.clickmap import ClickMap
from dynoan.model.curve import DIRECTIONS, Curve
from dynoan.model.setup import Setup
from dynoan.model.shock import ADJUSTERS, Adjuster, Shock
from dynoan.show.low_speed import LOW_SPEED
from dynoan.show.pages.trackside.tables import DRAWN, added_variance, pack_table
from dynoan.show.pages.trackside.view import RankedChoice, TracksideView
from dynoan.units import FACTORS, shown

KINDS = ("force", "velocity", "stiffness", "mass")
TYPED = ("stiffness", "mass")  #: kinds that can be typed on the page, with any of their units
#: characters of base64 that all tables together are made to take, and may take where the coarsest are larger
TABLE_AIM, TABLE_LIMIT = 850_000, 1_850_000


def payload(view: TracksideView) -> dict[str, Any]:
    """Return the page's data as JSON types.

    Raises
    ------
    CallError
        If the car has no corner, there is no pack, or the tables are too large for a phone.
    """
    if not view.maps or not view.car.corners:
        raise CallError("a page needs at least one tested pack and one corner", where=view.car.name)
    tables = _packs(view)
    return {
        "car": view.car.name,
        "made": view.made,
        "system": view.units,
        "units": {kind: vars(shown(kind, view.units)) for kind in KINDS},
        "low_speed": LOW_SPEED[view.units] * shown("velocity", view.units).factor,
        "forms": {kind: FACTORS[kind] for kind in TYPED},
        "weather": WEATHER,
        "tolerance": TOLERANCE,
        "slack": SLACK,
        "surfaces": list(view.car.surfaces),
        "axles": {axle: _axle(view.car.targets_of(axle)) for axle in AXLES},
        "corners": {name: _corner(view, corner, tables) for name, corner in view.car.corners.items()},
        "packs": tables,
        "labels": dict(ADJUSTERS),
        "choices": [_choice(choice) for choice in view.choices],
        "setups": [_setup(view, setup) for setup in view.setups],
        "trials": [
            {"name": t.name, "a": t.a, "b": t.b, "plan": t.plan, "unit": t.unit, "runs": len(t.counted)}
            for t in view.trials
        ],
        "car_text": view.car_text,
        "corner_text": dict(view.corner_text),
        "warnings": list(view.warnings),
        "cautions": CAUTIONS,
    }


def _packs(view: TracksideView) -> list[dict[str, Any]]:
    velocities = shown_velocities(view.car)
    for drawn in DRAWN:
        tables = [pack_table(m, velocities, drawn) for m in view.maps.values()]
        if (size := sum(map(_size, tables))) <= TABLE_AIM:
            break
    if size <= TABLE_LIMIT:
        return tables
    names = ", ".join(view.maps)
    raise CallError(
        f"the tables of {len(view.maps)} packs ({names}) are over 2 MB", hint="name fewer", need="fewer packs"
    )


def _size(table: Mapping[str, Any]) -> int:
    return sum(
        sum(len(e["force"]["data"]) + len(e["half"]["data"]) for e in table[d]["exact"])
        + sum(len(e["data"]) for e in table[d]["drawn"])
        for d in ("compression", "rebound")
    )


def shown_velocities(car: Car) -> tuple[float, ...]:
    """Return the speeds at which the page gives numbers: low and high of both axles. [m/s]"""
    axles = [car.targets_of(axle) for axle in AXLES]
    return tuple(sorted({v for t in axles for v in (t.low_velocity, t.high_velocity)}))


def _axle(targets: Targets) -> dict[str, Any]:
    return {
        "low": targets.low_velocity,
        "high": targets.high_velocity,
        "compression": _target(targets.compression),
        "rebound": _target(targets.rebound),
    }


def _target(target: Target) -> dict[str, float | None]:
    return {"low": target.low, "high": target.high}


def _corner(view: TracksideView, corner: Corner, tables: Sequence[Mapping[str, Any]]) -> dict[str, Any]:
    own = view.tested.get(corner.name, {})
    return {
        "label": CORNER_NAMES[corner.name],
        "axle": axle_of(corner.name),
        "mass": corner.mass,
        "unsprung": corner.unsprung,
        "spring": corner.spring,
        "spring_ratio": corner.spring_ratio,
        "shock_ratio": corner.shock_ratio,
        "gas_rate": corner.gas_rate or 0.0,
        "alert": next((w.short for w in view.worn if corner.name in w.corners), None),
        **_on(view, corner),
        "counting": {name: _counting(view, corner.name, name) for name in view.maps},
        "own": {t["name"]: _own(t, view.maps[t["name"]], corner.shock) for t in tables},
        "tested": {t["name"]: [_tested(curve, t) for curve in own.get(t["name"], ())] for t in tables},
    }


def _tested(curve: Curve, table: Mapping[str, Any]) -> dict[str, Any]:
    """A shock's own curve at a tested setting, at its table's speeds: it stands before the map, as in `ratio`."""
    out: dict[str, Any] = {"clicks": dict(curve.clicks)}
    for d in DIRECTIONS:
        exact, drawn = (np.array([column["velocity"] for column in table[d][which]]) for which in ("exact", "drawn"))
        force, low, high = curve.side(d).force_and_band(exact)
        out[d] = {
            "force": force.round(2).tolist(), "half": ((high - low) / 2).round(2).tolist(),
            "drawn": curve.side(d).force(drawn).round(1).tolist(),
        }  # fmt: skip
    return out


def _on(view: TracksideView, corner: Corner) -> dict[str, Any]:
    """What a file says is on a corner; None for what it does not say, and a pack that the page lacks apart."""
    if corner.pack and corner.pack in view.maps:
        names = view.maps[corner.pack].adjusters
        return {"pack": corner.pack, "clicks": {a.name: corner.clicks.get(a.name) for a in names}, "other": None}
    other = {"pack": corner.pack, "clicks": dict(corner.clicks)} if corner.pack or corner.clicks else None
    return {"pack": None, "clicks": {}, "other": other}


def _adjusters(view: TracksideView, corner: str, pack: str) -> dict[str, Adjuster]:
    """The map's adjusters, each as the corner's shock counts it; one that the shock lacks counts from closed."""
    own = {a.name: a for a in view.counting.get(corner, {}).get(pack, Shock("")).adjusters}
    return {a.name: own.get(a.name, a) for a in view.maps[pack].adjusters}


def _counting(view: TracksideView, corner: str, pack: str) -> dict[str, dict[str, Any]]:
    adjusters = _adjusters(view, corner, pack)
    return {n: {"last": a.clicks, "soft": a.counted == "from soft"} for n, a in adjusters.items()}


def _own(table: Mapping[str, Any], click_map: ClickMap, shock: str | None) -> dict[str, Any] | None:
    """What the corner's own shock makes of the tables, which are of the mean one; None where no shock is named."""
    if not shock:
        return None
    own: dict[str, Any] = {}
    for d in DIRECTIONS:
        factor, added = shock_terms(click_map, shock, d)
        exact = [column["velocity"] for column in table[d]["exact"]]
        own[d] = {"added": added_variance(click_map.direction(d), added, exact)}
        for speeds in ("exact", "drawn"):
            at = [column["velocity"] for column in table[d][speeds]]
            own[d][speeds] = np.interp(at, click_map.direction(d).speeds, factor).round(6).tolist()
    return own


def _choice(choice: RankedChoice) -> dict[str, Any]:
    return {
        "where": choice.where,
        "pack": choice.pack,
        "clicks": {corner: dict(clicks) for corner, clicks in choice.clicks.items()},
        "ratio": {d: {k: _number(v) for k, v in part.items()} for d, part in choice.ratio.items()},
        "miss": _number(choice.miss),
        "standing": choice.standing,
    }


def _number(value: float | None) -> float | None:
    return None if value is None or not math.isfinite(value) else float(value)


def _setup(view: TracksideView, setup: Setup) -> dict[str, Any]:
    return {
        "name": setup.name,
        "date": setup.date[:16].replace("T", " "),
        "surface": setup.surface,
        "result": setup.result,
        "good": setup.good,
        "remarks": setup.remarks,
        "corners": {
            name: {
                "pack": corner.pack,
                "clicks": dict(corner.clicks),
                "spring": corner.spring,
                "mass": corner.mass,
            }
            for name, corner in setup.car.corners.items()
        },
    }
