"""A car with keys of its file changed, such as "front.spring" to "275 lb/in": nothing is written."""

from __future__ import annotations

import tomllib
from collections.abc import Mapping
from dataclasses import replace
from typing import Any

from dynoan.errors import CallError, QuantityError
from dynoan.library.car_axle_mass import taken_apart
from dynoan.library.car_file import car_from_data
from dynoan.library.car_keys import TEXTS
from dynoan.library.car_spreads import places_of, shifted
from dynoan.library.car_written import car_to_data
from dynoan.library.names import printable
from dynoan.model.car import AXLES, CORNERS, Car, axle_of
from dynoan.model.links import MEMBERS
from dynoan.model.shock import clicks_over

MOST_PARTS = 6  #: of a key
#: keys of which one rules the other out
_EITHER = ("antisquat", "instant_centre")


def changed(car: Car, changes: Mapping[str, str]) -> Car:
    """Return a car with keys of its file changed. What an axle shares replaces what its corners state themselves.

    Parameters
    ----------
    changes
        New values as text, by key: "front.spring" to "275 lb/in", "rl.clicks" to "lsc=4" (other clicks stay).

    Raises
    ------
    CallError
        If a key is none.
    QuantityError
        If a key is unknown or a value impossible; the key is named.
    """
    data = car_to_data(car)
    for key, text in changes.items():
        taken_apart(data, car.corners, key)
        _change(data, key, text)
    try:
        return car_from_data(data, car.file or car.name, car.name, units=car.units)
    except QuantityError as error:
        raise error.again(where=f"with {', '.join(f'{k}={v}' for k, v in changes.items())}") from None


def _change(data: dict[str, Any], key: str, text: str) -> None:
    parts = [part.strip() for part in key.split(".")]
    if not all(parts) or len(parts) > MOST_PARTS:
        raise CallError(
            f"'{printable(key)[:60]}' is no key of a car file", hint="write one like front.spring or fl.mass"
        )
    *path, last = _home(parts, text)
    if path and path[0] in AXLES and len(path) == 1:
        for corner in (c for c in CORNERS if axle_of(c) == path[0]):
            if last in TEXTS or last in data.get(corner, {}):
                _set(data, [corner], last, text)
        if last in TEXTS or all(last in data.get(c, {}) for c in CORNERS if axle_of(c) == path[0]):
            return
    _set(data, path, last, text)


def _home(parts: list[str], text: str) -> list[str]:
    """Return where a key stands: what states anti-squat stands once, at the top; a hole under its links."""
    if parts[-1] in _EITHER and len(parts) == 2 and parts[0] in AXLES:
        return [parts[-1]]
    if parts[0] == "links" and len(parts) == 2 and parts[1] in MEMBERS and not text.startswith("{"):
        return ["links", "holes", parts[1]]
    return parts


def _set(data: dict[str, Any], path: list[str], last: str, text: str) -> None:
    table: Any = data
    for name in path:
        table = table.setdefault(name, {})
        if not isinstance(table, dict):
            raise CallError(f"{'.'.join([*path, last])} is no key of a car file: {name} holds no keys")
    if last in _EITHER and not path:
        for other in (*_EITHER, "links"):
            data.pop(other, None)
    if last == "clicks" and isinstance(table.get(last), str):
        text = clicks_over(table[last], text)
    table[last] = text if last in TEXTS else _value(text)


def _value(text: str) -> Any:
    """Return a value as TOML would have it: a number, a list or a table where it is one, else text."""
    try:
        found = tomllib.loads(f"x = {text}")
    except tomllib.TOMLDecodeError:
        return text
    return found["x"] if set(found) == {"x"} else text


def moved(car: Car, key: str, sign: float) -> Car:
    """Return a car with one of its uncertain values moved to an end of its ±, all of that key alike.

    Parameters
    ----------
    key
        One of `Car.plus_minus`.
    sign
        -1 for the lower end, 1 for the upper.

    Raises
    ------
    QuantityError
        If no such car can be: the value leaves what a car may be.
    """
    return shifted_car(car, {key: sign * car.plus_minus[key]})


def shifted_car(car: Car, shifts: Mapping[str, float]) -> Car:
    """Return a car with values of its file moved by so much, all of each key alike.

    Parameters
    ----------
    shifts
        By key of `Car.plus_minus`, SI.

    Raises
    ------
    QuantityError
        If no such car can be: a value leaves what a car may be.
    """
    data = car_to_data(car)
    for key, by in shifts.items():
        for table, last in places_of(data, key.split(".")):
            table[last] = shifted(table[last], last, by)
    made = car_from_data(data, car.file or car.name, car.name, units=car.units)
    return replace(made, plus_minus=car.plus_minus)
