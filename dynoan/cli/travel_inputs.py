"""What `dynoan travel` is told of a log: which column is which shock, how volts become millimetres, where zero lies."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from dynoan.cli.logs import LogColumn, like, named
from dynoan.errors import CallError, QuantityError
from dynoan.model.car import CORNER_NAMES, CORNERS
from dynoan.units import FACTORS, normal_unit, parse, split_quantity

if TYPE_CHECKING:
    from dynoan.analysis.travel.summary import Part
    from dynoan.model.arrays import FloatArray

_NAMES = {
    "fl": r"\b(fl|lf|front left|left front)\b", "fr": r"\b(fr|rf|front right|right front)\b",
    "rl": r"\b(rl|lr|rear left|left rear)\b", "rr": r"\b(rr|rear right|right rear)\b",
}  # fmt: skip
_VOLT = {"v", "volt", "volts", "mv", "millivolt", "millivolts"}
_MILLI = {"mv", "millivolt", "millivolts"}
_PART = re.compile(r"^(?:([\w ]+)=)?\s*([\d.,]+)\s*(?:s)?\s*(?:\.\.|to)\s*([\d.,]+)\s*(?:s)?$")


@dataclass(frozen=True)
class Scale:
    """Travel per unit of a column."""

    factor: float  #: [m per unit], negative where the number rises as the shock gets longer
    unit: str
    text: str


def per_corner(texts: Sequence[str], option: str) -> dict[str, str]:
    """Return options such as "fl=…" by corner; one without a corner is for all that have none of their own.

    Raises
    ------
    CallError
        If a text names no corner, or a corner is given twice.
    """
    every, own = "", {}
    for text in texts:
        name, equals, value = (p.strip() for p in text.partition("="))
        corner = name.lower()
        if not equals and option != "--corner":
            every = text.strip()
        elif not equals or corner not in CORNERS or not value:
            raise CallError(f"{option}: '{text}' is not like fl=… (corners: {', '.join(CORNERS)})")
        elif corner in own:
            raise CallError(f"{option}: {corner} stands twice")
        else:
            own[corner] = value
    return (dict.fromkeys(CORNERS, every) if every else {}) | own


def parse_scale(text: str) -> Scale:
    """Return a scale from text such as "25 mm per V" or "-25 mm/V".

    Raises
    ------
    QuantityError
        If it is no length per unit, or zero.
    """
    match = re.match(r"^\s*(.+?)\s*(?:\bper\b|/)\s*(\S+)\s*$", text)
    if match is None:
        raise QuantityError(f"--scale: '{text}' is not like \"25 mm per V\"")
    factor = parse(match[1], "length", where="--scale")
    if factor == 0:
        raise QuantityError(f"--scale: '{text}' would make all travel zero")
    return Scale(factor, _unit(match[2]), text.strip())


def _unit(text: str) -> str:
    plain = text.strip().lower()
    return ("mv" if plain in _MILLI else "v") if plain in _VOLT else normal_unit(text)


def columns_of(columns: Sequence[LogColumn], told: Mapping[str, str]) -> dict[str, LogColumn]:
    """Return the travel column of each corner: as told, else by name.

    Raises
    ------
    CallError
        If none is told and none can be told by its name, or two corners share one.
    """
    if told:
        found = {corner: named(columns, name) for corner, name in told.items()}
    else:
        maybe = [c for c in columns if _may_be_travel(c)]
        found = {corner: c for corner, pattern in _NAMES.items() if (c := like(maybe, pattern)) is not None}
    if not found:
        have = ", ".join(c.name for c in columns)
        raise CallError(f"{columns[0].file}: no column names a corner; say which, such as --corner fl=COLUMN ({have})")
    names = [c.name for c in found.values()]
    for corner, column in found.items():
        if names.count(column.name) > 1:
            raise CallError(f"{column.file}: column '{column.name}' is taken for two corners ({corner} is one)")
    return found


def _may_be_travel(column: LogColumn) -> bool:
    unit = column.unit.strip().lower()
    return not unit or unit in _VOLT or normal_unit(unit) in FACTORS["length"] or unit in ("counts", "count", "bit")


def in_metres(column: LogColumn, scale: Scale | None) -> FloatArray:
    """Return a column as travel before its zero is taken. [m]

    Raises
    ------
    QuantityError
        If its unit is no length and no scale is given, or the scale is per another unit.
    """
    where = f"{column.file}: column '{column.name}'"
    if scale is None:
        if normal_unit(column.unit) not in FACTORS["length"]:
            unit = column.unit or "a number without unit"
            raise QuantityError(f'{where} is in {unit}, no length; say what it means, such as --scale "25 mm per V"')
        return column.si("length")
    if column.unit and _unit(column.unit) != scale.unit:
        raise QuantityError(f"{where} is in {column.unit}, but --scale is '{scale.text}'")
    return column.values * scale.factor


def parse_zero(text: str, column: LogColumn, scale: Scale | None) -> float:
    """Return the travel [m] that counts as zero, from a reading such as "2.1 V" or "58 mm".

    Raises
    ------
    QuantityError
        If the reading is not in the column's unit.
    """
    if scale is None:
        return parse(text, "length", where="--zero")
    number, unit = split_quantity(text)
    if _unit(unit) != scale.unit:
        raise QuantityError(f"--zero: '{text}' is not in the unit of --scale '{scale.text}'")
    return number * scale.factor


def parse_parts(texts: Sequence[str]) -> tuple[Part, ...]:
    """Return parts such as "2.0..5.0" (the launch) or "hairpin=12..15".

    Raises
    ------
    CallError
        If a text is no such part, ends before it starts, or a name stands twice.
    """
    from dynoan.analysis.travel.summary import Part

    out: list[Part] = []
    for text in texts:
        match = _PART.match(text.strip())
        if match is None:
            raise CallError(f"--part: '{text}' is not like launch=2.0..5.0 (seconds)")
        name = (match[1] or "launch").strip()
        start, end = (float(match[i].replace(",", ".")) for i in (2, 3))
        if end <= start:
            raise CallError(f"--part: '{text}' ends before it starts")
        if name in {"all", "the rest", *(p.name for p in out)}:
            raise CallError(f"--part: the name '{name}' is taken; give another")
        out.append(Part(name, start, end))
    return tuple(out)


def corner_name(corner: str) -> str:
    """Return the name of a corner for people."""
    return CORNER_NAMES[corner]
