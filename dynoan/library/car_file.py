"""``cars/NAME.toml``: the car as its team measured it. Read strictly, written so that people can go on editing it."""

from __future__ import annotations

import re
from collections.abc import Mapping
from typing import Any

from dynoan.errors import CallError, QuantityError, Spot
from dynoan.library import car_axle_mass
from dynoan.library.car_extras import extras_from
from dynoan.library.car_keys import CORNER, LIKE, NEEDED, NUMBERS, OF_AXLE, QUANTITIES, STANDS, TOP
from dynoan.library.car_links import links_from
from dynoan.library.faults import ManyFaults, key_in
from dynoan.library.names import other_words, printable
from dynoan.library.tables import TomlTable
from dynoan.library.toml_text import parse_toml
from dynoan.model.car import AXLES, CORNERS, ROAD_CLASSES, SPEEDS, Car, Corner, Surface, Target, Targets, axle_of
from dynoan.model.car_check import ANTISQUAT, check_car
from dynoan.model.links import STOPS
from dynoan.model.shock import parse_clicks
from dynoan.units import HINTED, Shown, example, parse

_CENTRE = (r"\s+(ahead|behind)$", r"\s+(up|down)$")


def car_from_text(text: str, file: str, name: str | None = None, *, units: Shown = "metric") -> Car:
    """Return the car that a car file describes; `units` are its library's, in which usual speeds are round.

    Raises
    ------
    QuantityError
        If the text is not TOML, a key is unknown or missing, or a value is impossible; file and key are named.
    """
    return car_from_data(parse_toml(text, file), file, name, units=units)


def _in_place(data: Mapping[str, Any], file: str) -> None:
    """Refuse a key at the top that stands in a table, where it would be of no corner or axle, and say in which."""
    # The first key that is none of the top's is told here or by what reads the table: no other is looked at.
    key = next((k for k in data if k not in TOP), None)
    right = next((k for k in (key, *other_words(key)) if k in STANDS or k in TOP), None) if key else None
    if key and right is not None and right in STANDS:
        place = f"it stands {STANDS[right]}"
        slip = "" if right == key else f" (did you mean '{right}'?)"
        said = f"unknown key{slip} at the top of the file: {place}"
        raise QuantityError(said, where=Spot(file, printable(key)[:80]))


def car_from_data(data: Mapping[str, Any], file: str, name: str | None = None, *, units: Shown = "metric") -> Car:
    """Return the car that a car file's tables describe; `car_from_text` with the TOML already parsed."""
    car = stated_car(data, file, name, units=units)
    if faults := _impossible(car, data):
        more = f" (and {len(faults) - 1} more)" if len(faults) > 1 else ""
        key, text = faults[0]
        error = ManyFaults(f"{printable(key)}: {printable(text)}{more}", where=file)
        error.each = faults
        raise error
    return car


def stated_car(data: Mapping[str, Any], file: str, name: str | None = None, *, units: Shown = "metric") -> Car:
    """Return the same, whether or not there could be such a car; all else is refused as by `car_from_text`."""
    _in_place(data, file)
    top = TomlTable(data, file, TOP)
    driven: Any = top.choice("driven", ("front", "rear", "all"))
    known = (*CORNER, *OF_AXLE, *STOPS, car_axle_mass.KEY, "track", "antisquat", "instant_centre")
    axles = {axle: top.table(axle, known) for axle in AXLES}
    squat, on_axles = _squat_table(top, axles, driven), car_axle_mass.stated_masses(axles)
    shared = car_axle_mass.shared_out(top, on_axles)
    car = Car(
        name=name or re.sub(r"\.toml$", "", file.replace("\\", "/").rpartition("/")[2]) or "car",
        wheelbase=top.quantity("wheelbase", "length"), cg_height=_quantity(top, "cg_height", "length"), driven=driven,
        pitch_inertia=top.quantity("pitch_inertia", "inertia"), roll_inertia=top.quantity("roll_inertia", "inertia"),
        corners={c: _corner(top, axles[axle_of(c)], c, shared.get(c)) for c in CORNERS},
        antisquat=_antisquat(squat), instant_centre=_instant_centre(squat),
        targets=_targets(top, SPEEDS[units]), surfaces={key: _surface(top, key) for key in top.names("surfaces")},
        track={axle: _quantity(t, "track", "length") or 0.0 for axle, t in axles.items() if t and "track" in t},
        wheel_radius=_quantity(top, "wheel_radius", "length"), front_drive=top.quantity("front_drive", "ratio"),
        file=file, links=links_from(top), extras=extras_from(top, axles), plus_minus=top.spread, units=units,
        axle_mass=on_axles,
    )  # fmt: skip
    if car.links is not None and (car.antisquat is not None or car.instant_centre is not None):
        raise top.fault("links", "state links, antisquat or instant_centre: keep one of them")
    return car


def _impossible(car: Car, data: Mapping[str, Any]) -> tuple[tuple[str, str], ...]:
    """Return what cannot be true of a car, each once, by the keys under which its file has the values."""
    found = []
    for fault in check_car(car):
        key = key_in(data, fault.key)
        axle, _, last = key.partition(".")
        if last in ("antisquat", "instant_centre") and axle in AXLES and last in data:
            key = last
        found.append((key, fault.text))
    return tuple(dict.fromkeys(found))


def _antisquat(table: TomlTable) -> float | None:
    """Return anti-squat as a share; a bare number that no share can be is a percentage without its sign. [1]"""
    bare = table.data.get("antisquat")
    if isinstance(bare, str) and re.fullmatch(r"\s*[-+]?\d+(\.\d*)?\s*", bare):
        bare = float(bare)
    if isinstance(bare, int | float) and not isinstance(bare, bool) and abs(bare) > ANTISQUAT.most:
        what = f"{bare:g} without a sign is taken as a share of 1, and no car has that"
        raise table.fault("antisquat", what, hint=f'write "{bare:g} %"')
    return table.quantity("antisquat", "ratio")


def _corner(top: TomlTable, axle: TomlTable | None, name: str, shared: float | None) -> Corner:
    own = top.table(name, CORNER)
    found: dict[str, Any] = {} if shared is None else {"mass": shared}
    for key in CORNER:
        if key in found:
            continue
        holder = own if own is not None and key in own else axle
        if holder is not None and key in holder:
            found[key] = _corner_value(holder, key)
    for key, examples in NEEDED.items():
        if key not in found:
            example = examples[HINTED.get() == "us"]
            place = Spot(top.file, f"{name}.{key}")
            both = f", or {car_axle_mass.KEY} under [{axle_of(name)}] for both wheels together"
            where = f"under [{name}]{both}" if key == "mass" else f"under [{name}] or [{axle_of(name)}]"
            raise QuantityError("missing", where=place, hint=f"write {key} = {example} {where}")
    return Corner(name=name, **found)


def _corner_value(holder: TomlTable, key: str) -> Any:
    if key in QUANTITIES:
        return _quantity(holder, key, QUANTITIES[key])
    if key in NUMBERS:
        return holder.number(key, -1e6, 1e6)  # judged with words of its own by check_car
    text = holder.text(key) or ""
    if key != "clicks":
        return text or None
    try:
        return parse_clicks(text, where=holder.where(key))
    except CallError as error:
        raise error.again(kind=QuantityError, told=printable) from None


def _quantity(holder: TomlTable, key: str, kind: str) -> float | None:
    """Return a quantity; what is wrong with it is told with an example of that key, not of any such quantity."""
    try:
        return holder.quantity(key, kind)
    except QuantityError as error:
        usual, own = example(kind), NEEDED.get(key, LIKE.get(key, ("", "")))[HINTED.get() == "us"].strip('"')
        raise error.again(told=lambda text: text.replace(f"like '{usual}'", f"like '{own or usual}'")) from None


def _squat_table(top: TomlTable, axles: Mapping[str, TomlTable | None], driven: str | None) -> TomlTable:
    """Return the table that states anti-squat: the driven axle's, or the top of the file."""
    stated = [t for t in (top, *axles.values()) if t is not None and ("antisquat" in t or "instant_centre" in t)]
    if not stated:
        return top
    table = stated[0]
    key = "antisquat" if "antisquat" in table else "instant_centre"
    if len(stated) > 1 or ("antisquat" in table and "instant_centre" in table):
        last = stated[-1]
        again = "instant_centre" if "instant_centre" in last else "antisquat"
        raise last.fault(again, "stated twice: keep either antisquat or instant_centre, in one place and of one axle")
    if driven in AXLES and table.path not in ("", driven):
        raise table.fault(key, f"belongs in [{driven}], the driven axle")
    return table


def _instant_centre(table: TomlTable) -> tuple[float, float] | None:
    if "instant_centre" not in table:
        return None
    texts = table.texts("instant_centre")
    if len(texts) != 2:
        raise table.fault("instant_centre", 'write it like ["1900 mm ahead", "420 mm up"]')
    values = []
    for text, pattern in zip(texts, _CENTRE, strict=True):
        way = re.search(pattern, text.strip())
        if way is None:
            right = 'write it like ["1900 mm ahead", "420 mm up"]'
            raise table.fault("instant_centre", f"'{printable(text[:40])}' says no way", hint=right)
        size = parse(text.strip()[: way.start()], "length", where=table.where("instant_centre"))
        values.append(-size if way[1] in ("behind", "down") else size)
    return values[0], values[1]


def _targets(top: TomlTable, speeds: tuple[float, float]) -> dict[str, Targets]:
    both = top.table("targets", AXLES)
    return {} if both is None else {axle: _axle_targets(both, axle, speeds) for axle in AXLES if axle in both}


def _axle_targets(both: TomlTable, axle: str, speeds: tuple[float, float]) -> Targets:
    table = both.table(axle, ("compression", "rebound", "low_velocity", "high_velocity"))
    assert table is not None  # the key was just seen
    low, high = table.quantity("low_velocity", "velocity"), table.quantity("high_velocity", "velocity")
    return Targets(
        _target(table, "compression"), _target(table, "rebound"),
        speeds[0] if low is None else low, speeds[1] if high is None else high,
    )  # fmt: skip


def _target(table: TomlTable, direction: str) -> Target:
    wanted = table.table(direction, ("low", "high", "curve", "weight"))
    if wanted is None:
        return Target()
    weight = wanted.number("weight", 0, 1e3)
    return Target(wanted.number("low", -1e3, 1e3), wanted.number("high", -1e3, 1e3), _curve(wanted),
                  1.0 if weight is None else weight)  # fmt: skip


def _curve(wanted: TomlTable) -> tuple[tuple[float, float], ...]:
    pairs = wanted.data.get("curve", [])
    right = 'write it like curve = [["50 mm/s", 0.5], ["250 mm/s", 0.3]]'
    if not isinstance(pairs, list) or len(pairs) > 100:
        raise wanted.fault("curve", right)
    points = []
    for pair in pairs:
        if not isinstance(pair, list) or len(pair) != 2 or isinstance(pair[1], bool):
            raise wanted.fault("curve", right)
        if not isinstance(pair[1], int | float):
            raise wanted.fault("curve", right)
        points.append((parse(pair[0], "velocity", where=wanted.where("curve")), float(pair[1])))
    return tuple(points)


def _surface(top: TomlTable, name: str) -> Surface:
    known = ("grip", "roughness", "sliding_grip", "slip_stiffness", "load_sensitivity")
    table = TomlTable(top.names("surfaces")[name], top.file, known, f"surfaces.{name}", top.spread)
    more = {
        "sliding_grip": table.number("sliding_grip", 0.01, 1e3),
        "slip_stiffness": table.number("slip_stiffness", 1.0, 1e3),
        "load_sensitivity": table.number("load_sensitivity", 0.0, 1e3),
    }
    grip = table.number("grip", -1e3, 1e3)
    if grip is None:
        raise table.fault("grip", "missing", hint="write the peak friction coefficient, such as grip = 0.65")
    rough = table.data.get("roughness")
    if isinstance(rough, str):
        if rough.upper() not in ROAD_CLASSES:
            raise table.fault(
                "roughness", f"'{printable(rough[:40])}' is no road class", hint="write a letter A to H (ISO 8608)"
            )
        return Surface(name, grip, ROAD_CLASSES[rough.upper()], **more)
    number = table.number("roughness", 0.0, 1e3)
    return Surface(name, grip, 0.0 if number is None else number, **more)
