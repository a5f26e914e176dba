"""From the columns of a log to the travel of each shock: which column is which, and metres of volts."""

from __future__ import annotations

from collections.abc import Mapping

from dynoan.errors import CallError, QuantityError
from dynoan.jobs.answering import quantity
from dynoan.jobs.travel.asked import VOLT, TravelScale, sensor_unit
from dynoan.model.arrays import FloatArray
from dynoan.model.log import Log, LogColumn, like
from dynoan.units import FACTORS, normal_unit, split_quantity

_NAMES = {
    "fl": r"\b(fl|lf|front left|left front)\b", "fr": r"\b(fr|rf|front right|right front)\b",
    "rl": r"\b(rl|lr|rear left|left rear)\b", "rr": r"\b(rr|rear right|right rear)\b",
}  # fmt: skip
#: the same in German: front and rear are "vorne" and "hinten"; taken only where no column has an English name
_GERMAN = {
    "fl": r"\b(vl|vorne links|links vorne)\b", "fr": r"\b(vr|vorne rechts|rechts vorne)\b",
    "rl": r"\b(hl|hinten links|links hinten)\b", "rr": r"\b(hr|hinten rechts|rechts hinten)\b",
}  # fmt: skip
_COUNTS = {"counts", "count", "bit"}


def travel_columns(log: Log, told: Mapping[str, str]) -> dict[str, LogColumn]:
    """Return the travel column of each corner: as told, else by name.

    Raises
    ------
    CallError
        If none is told and none can be told by its name, or two corners share one.
    """
    if told:
        found = {corner: log.named(name) for corner, name in told.items()}
    else:
        found = _by_name(tuple(c for c in log.columns if _may_be_travel(c)))
        found = found or _by_name(tuple(c for c in log.columns if _of_no_kind(c)))
    if not found:
        raise CallError("no column names a corner", where=log.file, hint=f"it has {log.names}", need="corner")
    names = [c.name for c in found.values()]
    for corner, column in found.items():
        if names.count(column.name) > 1:
            raise CallError(f"{column.place} is taken for two corners ({corner} is one)")
    return found


def _by_name(columns: tuple[LogColumn, ...]) -> dict[str, LogColumn]:
    """Return the column of each corner that is named, in one language; empty where none is."""
    for names in (_NAMES, _GERMAN):
        found = {corner: c for corner, pattern in names.items() if (c := like(columns, pattern)) is not None}
        if found:
            return found
    return {}


def _of_no_kind(column: LogColumn) -> bool:
    """Return whether a column's unit is a share, or none that is known: it takes a scale to be travel."""
    unit = normal_unit(column.unit)
    return unit == "%" or not any(unit in units for units in FACTORS.values())


def _may_be_travel(column: LogColumn) -> bool:
    unit = column.unit.strip().lower()
    return not unit or unit in VOLT or normal_unit(unit) in FACTORS["length"] or unit in _COUNTS


def in_metres(column: LogColumn, scale: TravelScale | None) -> FloatArray:
    """Return a column as travel before its zero is taken, shape (n,). [m]

    Raises
    ------
    QuantityError
        As `in_si`.
    """
    return in_si(column, scale, "length")


def in_si(column: LogColumn, scale: TravelScale | None, kind: str) -> FloatArray:
    """Return a column as a quantity before its zero is taken, shape (n,). [SI]

    Raises
    ------
    QuantityError
        If its unit is none of the kind and no scale is given, or the scale is per another unit.
    """
    if scale is None:
        if normal_unit(column.unit) not in FACTORS[kind]:
            what = f"is in {column.unit}, no {kind}" if column.unit else "states no unit"
            raise QuantityError(f"{column.place} {what}", hint="say what it means", need="scale")
        return column.si(kind)
    if column.unit and sensor_unit(column.unit) != scale.unit:
        raise QuantityError(f"{column.place} is in {column.unit}, but the scale is '{scale.text}'")
    return column.values * scale.factor


def zero_of(text: str, scale: TravelScale | None, kind: str = "length") -> float:
    """Return what counts as zero, from a reading such as "2.1 V" or "58 mm". [SI]

    Raises
    ------
    QuantityError
        If the reading is not in the column's unit.
    """
    if scale is None:
        return quantity(text, kind, "zero")
    number, unit = split_quantity(text)
    if sensor_unit(unit) != scale.unit:
        raise QuantityError(f"'{text}' is not in the unit of the scale '{scale.text}'", part="zero")
    return number * scale.factor
