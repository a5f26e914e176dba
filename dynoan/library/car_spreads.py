"""The ± behind values of a car file: written, moved to an end, and where a key stands."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from typing import Any

from dynoan.library.car_keys import KINDS
from dynoan.units import parse

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


def _kind_of(key: str) -> str:
    return KINDS.get(key, "ratio")
