"""What a car's file says beyond its corners and links: engine, wheelie bar, what an axle may state besides."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping
from itertools import pairwise
from typing import Any

from dynoan.errors import QuantityError, Spot
from dynoan.library.car_keys import MILLIMETRES, OF_AXLE, UNITS, written
from dynoan.library.stop_curves import stop_curves
from dynoan.library.tables import TomlTable
from dynoan.model.links import STOPS, Engine, Extras, StopCurve, WheelieBar
from dynoan.units import example, parse

RPM = math.pi / 30  #: rad/s


def extras_from(top: TomlTable, axles: Mapping[str, TomlTable | None]) -> Extras:
    """Return what only a launch at large angles takes.

    Raises
    ------
    QuantityError
        If a value is none, file and key named.
    """
    by_axle: dict[str, dict[str, float]] = {key: {} for key in OF_AXLE}
    for axle, table in axles.items():
        for key, kind in OF_AXLE.items() if table is not None else ():
            value = table.quantity(key, kind) if table is not None else None
            if value is not None and table is not None:
                if not value > 0 and not (value == 0 and key != "stop_rate"):
                    raise table.fault(key, "must be above zero")
                by_axle[key][axle] = value
    _only_in_front(axles)
    bump, droop = _stops(axles)
    return Extras(
        _positive(top, "wheel_inertia", top.quantity("wheel_inertia", "inertia")), _bar(top), _engine(top),
        top.number("axle_ratio", 0.1, 20.0), by_axle["anti_roll"], by_axle["tyre_damping"],
        by_axle["friction"], by_axle["stop_rate"], bump_stop=bump, droop_stop=droop, anti_lift=by_axle["anti_lift"],
    )  # fmt: skip


def _only_in_front(axles: Mapping[str, TomlTable | None]) -> None:
    """Raise where anti-lift stands at the rear: what the links hold there is its antisquat."""
    rear = axles["rear"]
    if rear is not None and "anti_lift" in rear:
        raise rear.fault("anti_lift", "belongs in [front]", hint="what the links hold at the rear is antisquat")


def _stops(axles: Mapping[str, TomlTable | None]) -> list[dict[str, StopCurve]]:
    found = {axle: stop_curves(table) for axle, table in axles.items() if table is not None}
    return [{axle: of[key] for axle, of in found.items() if key in of} for key in STOPS]


def _positive(table: TomlTable, key: str, value: float | None) -> float | None:
    if value is not None and not value > 0:
        raise table.fault(key, "must be above zero")
    return value


def _bar(top: TomlTable) -> WheelieBar | None:
    table = top.table("wheelie_bar", ("behind", "above", "rate"))
    if table is None:
        return None
    found = {
        key: table.quantity(key, kind)
        for key, kind in (("behind", "length"), ("above", "length"), ("rate", "stiffness"))
    }
    for key, usual in (("behind", "1200 mm"), ("above", "80 mm"), ("rate", "200 N/mm")):
        if found[key] is None:
            raise table.fault(key, "missing", hint=f'write {key} = "{usual}"')
        _positive(table, key, found[key])
    return WheelieBar(*(float(found[key] or 0.0) for key in ("behind", "above", "rate")))


def _engine(top: TomlTable) -> Engine | None:
    table = top.table("engine", ("torque", "ratio", "inertia", "limit"))
    if table is None:
        return None
    pairs = table.data.get("torque")
    right = 'write it like torque = [["2000 rpm", "180 N m"], ["5000 rpm", "240 N m"]]'
    if (
        not isinstance(pairs, list)
        or not 2 <= len(pairs) <= 100
        or not all(isinstance(p, list) and len(p) == 2 for p in pairs)
    ):
        raise table.fault("torque", right)
    speeds = [2 * math.pi * _turning(p[0], table.where("torque")) for p in pairs]
    torques = [parse(p[1], "torque", where=table.where("torque")) for p in pairs]
    if any(b <= a for a, b in pairwise(speeds)) or min(torques) < 0:
        raise table.fault("torque", "speeds must rise from row to row, torques be at zero or above")
    ratio, limit = table.number("ratio", 0.1, 100.0), table.data.get("limit")
    if ratio is None:
        raise table.fault(
            "ratio", "missing", hint="write turns of the engine a turn of the wheels, such as ratio = 10.4"
        )
    last = 2 * math.pi * _turning(limit, table.where("limit")) if limit is not None else speeds[-1]
    if last < speeds[-1]:
        raise table.fault("limit", "lies below the last speed of the torque")
    # Beyond the limiter there is no torque: over a fiftieth of the speed, so that it is a slope and not a step.
    return Engine((*speeds, max(last, speeds[-1] * 1.0001), last * 1.02), (*torques, torques[-1], 0.0), ratio,
                  table.quantity("inertia", "inertia") or 0.0)  # fmt: skip


def _turning(value: object, where: Spot) -> float:
    """Return an engine's speed; what is wrong with it is told in turns a minute. [Hz]"""
    try:
        return parse(value, "frequency", where=where)
    except QuantityError as error:
        raise error.again(told=lambda text: text.replace(f"like '{example('frequency')}'", "like '3500 rpm'")) from None


def extras_to_data(extras: Extras) -> dict[str, Any]:
    """Return the tables that `extras_from` reads, what stands under the axles aside."""
    out: dict[str, Any] = {}
    if extras.wheel_inertia is not None:
        out["wheel_inertia"] = f"{extras.wheel_inertia:.12g} kg m2"
    if extras.axle_ratio is not None:
        out["axle_ratio"] = extras.axle_ratio
    if extras.bar is not None:
        bar = extras.bar
        out["wheelie_bar"] = {
            "behind": written(bar.behind, *MILLIMETRES),
            "above": written(bar.above, *MILLIMETRES),
            "rate": written(bar.rate, "N/mm", 1e3),
        }
    if extras.engine is not None:
        engine = extras.engine
        rows = zip(engine.speeds[:-2], engine.torques[:-2], strict=True)
        out["engine"] = {
            "torque": [[f"{speed / RPM:.12g} rpm", f"{torque:.12g} N m"] for speed, torque in rows],
            "ratio": engine.ratio, "limit": f"{engine.speeds[-1] / 1.02 / RPM:.12g} rpm",
        } | ({"inertia": f"{engine.inertia:.12g} kg m2"} if engine.inertia else {})  # fmt: skip
    return out


def of_axles(extras: Extras) -> Iterator[tuple[str, str, str]]:
    """Yield what stands under the axles: axle, key, value as text."""
    for key, kind in OF_AXLE.items():
        unit, factor = UNITS[kind]
        for axle, value in getattr(extras, key).items():
            yield axle, key, written(value, unit, factor)
