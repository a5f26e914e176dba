"""Values with their ± put into a car file's own text: remarks, order and all other lines stay as they are."""

from __future__ import annotations

import math
import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from dynoan.errors import QuantityError
from dynoan.library.car_edit import LineChange
from dynoan.library.car_file import car_from_data, car_from_text
from dynoan.library.car_keys import KINDS, UNITS
from dynoan.library.text_edit import Value, with_values
from dynoan.library.toml_text import parse_toml
from dynoan.model.car import AXLES, CORNERS, axle_of
from dynoan.units import in_decimals, parse

_NUMBER = re.compile(r"^\s*([-+]?[\d.,]+(?:[eE][-+]?\d+)?)\s*(.*)$")


@dataclass(frozen=True)
class NewValue:
    """A value that goes into a car's file."""

    before: float  #: as the file has it, the mean of an axle's corners [SI]
    after: float  #: [SI]
    half_width: float  #: of its 95 % limits [SI]


def with_learned(text: str, file: str, values: Mapping[str, NewValue]) -> tuple[str, tuple[LineChange, ...]]:
    """Return a car file's text with values and their ± in the place of those it has, and the lines that change.

    Parameters
    ----------
    text, file
        Of the car, and its name for messages.
    values
        By key, such as "cg_height", "front.spring" or "surfaces.loose.grip". What corners state themselves is changed
        in the same proportion there.

    Raises
    ------
    QuantityError
        If the file is written so that a value cannot be put in safely, or the car would be none.
    """
    data = parse_toml(text, file)
    car_from_data(data, file)
    puts: dict[tuple[str, ...], Value | None] = {}
    changes = []
    for key, value in values.items():
        for path in _paths(data, tuple(key.split("."))):
            old = _at(data, path)
            made = _written(path[-1], old, value)
            puts[path] = made
            changes.append(LineChange(".".join(path[:-1]), _line(path[-1], old), _line(path[-1], made)))
            sliding = _at(data, (*path[:-1], "sliding_grip")) if path[-1] == "grip" else None
            if isinstance(sliding, int | float):  # goes with the grip, or it would come to lie above it
                kept = round(sliding * value.after / value.before, 3)
                puts[*path[:-1], "sliding_grip"] = kept
                changes.append(
                    LineChange(".".join(path[:-1]), _line("sliding_grip", sliding), _line("sliding_grip", kept))
                )
    after = with_values(text, puts)
    car_from_text(after, file)
    return after, tuple(changes)


def _paths(data: Mapping[str, Any], path: tuple[str, ...]) -> Iterator[tuple[str, ...]]:
    """Yield where a value stands: in corners that state it themselves, else in their axle; anti-squat anywhere."""
    if path == ("antisquat",):
        yield next(((a, "antisquat") for a in AXLES if "antisquat" in data.get(a, {})), path)
        return
    if len(path) != 2 or path[0] not in AXLES:
        yield path
        return
    corners = [c for c in CORNERS if axle_of(c) == path[0]]
    own = [c for c in corners if path[1] in data.get(c, {})]
    yield from ((c, path[1]) for c in own)
    if len(own) < len(corners):
        yield path


def _at(data: Mapping[str, Any], path: tuple[str, ...]) -> Any:
    found: Any = data
    for part in path:
        found = found.get(part) if isinstance(found, Mapping) else None
    return found


def _line(key: str, value: Any) -> str:
    return "" if value is None else f'{key} = "{value}"' if isinstance(value, str) else f"{key} = {value}"


def _written(key: str, old: Any, value: NewValue) -> str:
    """Return a value with its ± in the unit the file has it in, to the digits that the ± leaves."""
    kind = KINDS.get(key, "")
    unit = UNITS[kind][0] if kind else ""
    own = value.before
    if isinstance(old, int | float):
        own, unit = float(old), ""
    elif old is not None:
        found = _NUMBER.match(in_decimals(str(old).replace("+-", "±").partition("±")[0].strip()))
        if found is None:
            raise QuantityError(f"'{old}' is written in an unusual way", where=key, hint="change it by hand")
        unit = found[2].strip() or str(old).partition("±")[2].strip().partition(" ")[2]
        own = parse(f"{found[1]} {unit}", kind) if kind else float(found[1])
    factor = parse(f"1 {unit}", kind) if kind and unit else 1.0
    change = value.after - value.before if key == "antisquat" else own * (value.after / value.before - 1.0)
    share = 1.0 if key == "antisquat" else own / value.before
    half = value.half_width * share / factor
    digits = max(0, 1 - math.floor(math.log10(half)))
    return f"{(own + change) / factor:.{digits}f} ± {half:.{digits}f} {unit}".strip()
