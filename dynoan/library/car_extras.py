"""What a car's file says beyond its corners: links with their holes, engine, wheelie bar; and the ± of its values."""

from __future__ import annotations

import math
import re
from collections.abc import Iterator, Mapping
from itertools import pairwise
from typing import Any, Literal

from dynoan.library.names import printable
from dynoan.library.stop_curves import stop_curves
from dynoan.library.tables import TomlTable
from dynoan.model.links import MEMBERS, STOPS, Engine, Extras, Link, Links, Point, StopCurve, WheelieBar
from dynoan.units import parse

#: what an axle may state besides, with its kind of quantity and the unit it is written in
OF_AXLE = {"anti_roll": "stiffness", "tyre_damping": "damping", "friction": "force", "stop_rate": "stiffness"}
_WRITTEN = {"stiffness": ("N/mm", 1e3), "damping": ("N s/m", 1.0), "force": ("N", 1.0)}
MOST_HOLES = 20  #: of a link
RPM = math.pi / 30  #: rad/s
_POINT = 'write a point like ["520 mm", "250 mm"]: ahead of the axle and above the ground'


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
    return Extras(
        _positive(top, "wheel_inertia", top.quantity("wheel_inertia", "inertia")), _bar(top), _engine(top),
        top.number("axle_ratio", 0.1, 20.0), by_axle["anti_roll"], by_axle["tyre_damping"],
        by_axle["friction"], by_axle["stop_rate"], *_stops(axles),
    )  # fmt: skip


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
    for key, example in (("behind", "1200 mm"), ("above", "80 mm"), ("rate", "200 N/mm")):
        if found[key] is None:
            raise table.fault(key, "missing", hint=f'write {key} = "{example}"')
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
    speeds = [2 * math.pi * parse(p[0], "frequency", where=table.where("torque")) for p in pairs]
    torques = [parse(p[1], "torque", where=table.where("torque")) for p in pairs]
    if any(b <= a for a, b in pairwise(speeds)) or min(torques) < 0:
        raise table.fault("torque", "speeds must rise from row to row, torques be at zero or above")
    ratio, limit = table.number("ratio", 0.1, 100.0), table.quantity("limit", "frequency")
    if ratio is None:
        raise table.fault(
            "ratio", "missing", hint="write turns of the engine a turn of the wheels, such as ratio = 10.4"
        )
    last = 2 * math.pi * limit if limit is not None else speeds[-1]
    if last < speeds[-1]:
        raise table.fault("limit", "lies below the last speed of the torque")
    # Beyond the limiter there is no torque: over a fiftieth of the speed, so that it is a slope and not a step.
    return Engine((*speeds, max(last, speeds[-1] * 1.0001), last * 1.02), (*torques, torques[-1], 0.0), ratio,
                  table.quantity("inertia", "inertia") or 0.0)  # fmt: skip


def links_from(top: TomlTable) -> Links | None:
    """Return the side-view links, None where the file has none.

    Raises
    ------
    QuantityError
        If a point or a hole is none, file and key named.
    """
    table = top.table("links", (*MEMBERS, "holes", "torque"))
    if table is None:
        return None
    torque: Any = table.choice("torque", ("links", "body")) or "links"
    holes = table.table("holes", MEMBERS)
    members = {name: _link(table, name, holes) for name in MEMBERS if name in table}
    if not members:
        raise table.fault(
            "",
            'give lower and upper, or lower and torque_arm, or swing_arm = { body = [["1100 mm", "300 mm"]] }',
        )
    if holes is not None:
        for name in holes.data:
            if name not in members:
                raise holes.fault(name, f"there is no link {name}", hint=f"there are {', '.join(members)}")
    kind: Literal["links", "body"] = torque
    return Links(members, kind)


def _link(links: TomlTable, name: str, holes: TomlTable | None) -> Link:
    table = links.table(name, ("axle", "body"))
    assert table is not None  # the key was just seen
    given = table.data.get("body")
    if isinstance(given, Mapping):
        named = {str(key): value for key, value in given.items()}
    elif isinstance(given, list) and given and isinstance(given[0], list):
        named = {str(i + 1): value for i, value in enumerate(given)}
    else:
        named = {"1": given}
    if not 1 <= len(named) <= MOST_HOLES:
        raise table.fault("body", f"give 1 to {MOST_HOLES} holes")
    body = {key: _point(table, "body", value) for key, value in named.items()}
    picked = None if holes is None or name not in holes.data else str(holes.data[name])
    if picked is not None and picked not in body and holes is not None:
        raise holes.fault(name, f"there is no hole {printable(picked)[:20]}", hint=f"there are {', '.join(body)}")
    axle = _point(table, "axle", table.data["axle"]) if "axle" in table else None
    return Link(body, axle, picked or next(iter(body)))


def _point(table: TomlTable, key: str, value: Any) -> Point:
    if not isinstance(value, list) or len(value) != 2:
        raise table.fault(key, _POINT)
    ahead, up = (parse(v, "length", where=table.where(key)) for v in value)
    if max(abs(ahead), abs(up)) > 5.0:
        raise table.fault(key, "lies more than 5 m (16 ft) away", hint=_POINT)
    return ahead, up


def extras_to_data(extras: Extras) -> dict[str, Any]:
    """Return the tables that `extras_from` reads, what stands under the axles aside."""
    out: dict[str, Any] = {}
    if extras.wheel_inertia is not None:
        out["wheel_inertia"] = f"{extras.wheel_inertia:.12g} kg m2"
    if extras.axle_ratio is not None:
        out["axle_ratio"] = extras.axle_ratio
    if extras.bar is not None:
        bar = extras.bar
        out["wheelie_bar"] = {"behind": _mm(bar.behind), "above": _mm(bar.above), "rate": f"{bar.rate / 1e3:.12g} N/mm"}
    if extras.engine is not None:
        engine = extras.engine
        rows = zip(engine.speeds[:-2], engine.torques[:-2], strict=True)
        out["engine"] = {
            "torque": [[f"{speed / RPM:.12g} rpm", f"{torque:.12g} N m"] for speed, torque in rows],
            "ratio": engine.ratio, "limit": f"{engine.speeds[-1] / 1.02 / RPM:.12g} rpm",
        } | ({"inertia": f"{engine.inertia:.12g} kg m2"} if engine.inertia else {})  # fmt: skip
    return out


def links_to_data(links: Links | None) -> dict[str, Any]:
    """Return the tables that `links_from` reads."""
    if links is None:
        return {}
    table: dict[str, Any] = {"torque": links.torque, "holes": {}}
    for name, link in links.members.items():
        table[name] = {"body": {hole: [_mm(v) for v in point] for hole, point in link.body.items()}}
        if link.axle is not None:
            table[name]["axle"] = [_mm(v) for v in link.axle]
        table["holes"][name] = link.hole
    return {"links": table}


def of_axles(extras: Extras) -> Iterator[tuple[str, str, str]]:
    """Yield what stands under the axles: axle, key, value as text."""
    for key, kind in OF_AXLE.items():
        unit, factor = _WRITTEN[kind]
        for axle, value in getattr(extras, key).items():
            yield axle, key, f"{value / factor:.12g} {unit}"


def _mm(value: float) -> str:
    return f"{value / 1e-3:.12g} mm"


_VALUE = re.compile(r"^([-+]?[\d.eE+-]+)\s*(.*)$")


def with_spreads(data: dict[str, Any], spreads: Mapping[str, float]) -> dict[str, Any]:
    """Return a car's tables with ± behind the values that have one."""
    for key, spread in spreads.items():
        for table, last in places_of(data, key.split(".")):
            value = table[last]
            if isinstance(value, int | float):
                table[last] = f"{value:.12g} ± {spread:.12g}"
                continue
            found = _VALUE.match(str(value))
            if found is None:
                continue
            scale = parse(f"1 {found[2]}", _kind_of(last), where=key)
            table[last] = f"{found[1]} ± {spread / scale:.12g} {found[2]}"
    return data


def shifted(value: Any, key: str, by: float) -> Any:
    """Return a value of a file, a number or text with a unit and perhaps a ±, moved by so much in SI, without its ±."""
    if isinstance(value, int | float):
        return value + by
    found = _VALUE.match(str(value).partition("±")[0].strip())
    unit = ""
    if "±" in str(value):
        unit = str(value).partition("±")[2].strip().partition(" ")[2]
    elif found is not None:
        unit = found[2]
    if found is None:
        return value
    if not unit:
        return float(found[1]) + by
    of_unit = parse(f"1 {unit}", _kind_of(key), where=key)
    return f"{float(found[1]) + by / of_unit:.12g} {unit}"


def places_of(data: dict[str, Any], parts: list[str]) -> Iterator[tuple[dict[str, Any], str]]:
    """Yield the tables a key stands in, and its name there: what an axle shares may be written with its corners."""
    from dynoan.model.car import AXLES, CORNERS, axle_of

    *path, last = parts
    tables = [path]
    if path and path[0] in AXLES:
        tables += [[c] for c in CORNERS if axle_of(c) == path[0]] + [[]]
    elif path and path[0] in CORNERS:
        tables += [[axle_of(path[0])]]
    for names in tables:
        table: Any = data
        for name in names:
            table = table.get(name, {}) if isinstance(table, dict) else {}
        if isinstance(table, dict) and last in table:
            yield table, last
            if names == path:
                return


_KINDS = {
    "wheelbase": "length", "cg_height": "length", "wheel_radius": "length", "track": "length", "mass": "mass",
    "unsprung": "mass", "spring": "stiffness", "tyre": "stiffness", "gas_rate": "stiffness", "bump_travel": "length",
    "droop_travel": "length", "pitch_inertia": "inertia", "roll_inertia": "inertia", "wheel_inertia": "inertia",
    "antisquat": "ratio", "front_drive": "ratio", "low_velocity": "velocity", "high_velocity": "velocity",
    "behind": "length", "above": "length", "rate": "stiffness", **OF_AXLE,
}  # fmt: skip


def _kind_of(key: str) -> str:
    return _KINDS.get(key, "ratio")
