"""Which unit a column is in, as the user, the column or the lines above state it."""

from __future__ import annotations

import re
from typing import NamedTuple

from dynoan.errors import QuantityError, ReadError
from dynoan.model.arrays import FloatArray
from importers.header import HeaderColumn
from importers.parts import SweepPart
from importers.patterns import regex
from importers.words.unit_text import KIND, clean_unit, scale_of

#: units as people write them, by kind
_SUCH = {"force": "N, kN, lbf or kgf", "velocity": "mm/s, m/s or in/s", "length": "mm, m or in", "time": "s or ms",
         "temperature": "°C or °F", "pressure": "bar or psi"}  # fmt: skip
EXAMPLE = {"force": "N", "velocity": "mm/s", "displacement": "mm", "time": "s", "temperature": "°C", "pressure": "bar"}


class FoundUnit(NamedTuple):
    """A column's unit."""

    unit: str  #: empty where none is stated
    why: str
    warning: str = ""  #: where the user's is not the file's


class MeasuredColumn(NamedTuple):
    """A column's numbers in SI."""

    values: FloatArray  #: shape (rows,)
    found: FoundUnit

    @property
    def warnings(self) -> tuple[str, ...]:
        """The warning of its unit, if any."""
        return (self.found.warning,) if self.found.warning else ()


def unit_of(part: SweepPart, channel: str, column: HeaderColumn) -> FoundUnit:
    """Return a column's unit; an empty one if none is stated.

    Raises
    ------
    ReadError
        If what stands as the unit is none of that kind.
    """
    kind = KIND[channel]
    said = part.table.options.units.get(channel, "")
    if said:
        who = part.table.stated_by(user=part.table.user.units.get(channel))
        _check(said, kind, f"--unit {channel}={said}" if who == "the user" else f"{who}, unit of {channel}")
        differs = bool(column.unit) and clean_unit(said) != clean_unit(column.unit)
        warning = f"{channel} is taken in {said} as told, though the file says {column.unit}" if differs else ""
        return FoundUnit(said, f"stated by {who}", warning)
    above = part.facts.units
    if column.unknown_unit and channel not in above:
        raise ReadError(
            f"'{column.unknown_unit}' is no unit of {kind} that is known here",
            where=f"{part.name}, column '{column.text}'",
            hint=unit_hint(channel, column.text),
        )
    if column.unit:
        _check(column.unit, kind, f"{part.name}, column '{column.text}'")
        other = above.get(channel, "") or column.other_unit
        differs = bool(other) and clean_unit(other) != clean_unit(column.unit)
        warning = f"{channel} is taken in {column.unit}, as its column says, though {other} is stated as well"
        if column.told:
            warning = f"{channel} is taken in {column.unit} as told, though the file says {other}"
            return FoundUnit(column.unit, "stated by the user", warning if differs else "")
        why = "worked out as told below" if column.worked_out else "stated at the column"
        return FoundUnit(column.unit, why, warning if differs else _of_many_meanings(channel, column.unit))
    unit = above.get(channel, "")
    return FoundUnit(unit, "stated in the lines above" if unit else "", _of_many_meanings(channel, unit))


def _of_many_meanings(channel: str, unit: str) -> str:
    """Return a warning where a unit is one thing in one country and another elsewhere; else nothing."""
    if clean_unit(unit) != "tonf":
        return ""
    newtons, metric = (scale_of(name, "force").factor for name in ("tonf", "tf"))
    return (f"{channel} in {unit} is taken as US short tons, {newtons:.0f} N each; --unit {channel}=tf reads metric "
            f"ones, {metric:.0f} N")  # fmt: skip


_RAW = regex(r"[\[(]\s*(m?V|volts?|counts?|digits?|bits?|lsb)\s*[\])]", re.IGNORECASE)


def unit_hint(channel: str, column: str = "") -> str:
    """Return how to give a channel's unit; of a column in volts or counts, how to state what one is worth."""
    if (raw := _RAW.search(column)) is not None:
        unit = EXAMPLE[channel]
        line = f"'{channel} scale: 500 {unit} per {raw[1]}'"
        return f"it is in {raw[1]}: write a line such as {line} above, or export it in {unit}"
    return f"give --unit {channel}=UNIT with the unit it is, such as {EXAMPLE[channel]}"


def _check(unit: str, kind: str, where: str) -> None:
    try:
        scale_of(unit, kind)
    except QuantityError as error:
        raise ReadError(error.text, where=where, hint=f"write one such as {_SUCH[kind]}") from None


def measured(part: SweepPart, channel: str, column: HeaderColumn) -> MeasuredColumn:
    """Return a column in SI by the unit that is stated.

    Raises
    ------
    ReadError
        If none is stated, or it is none of that kind.
    """
    found = unit_of(part, channel, column)
    if not found.unit:
        raise ReadError(
            f"{channel} has no unit and nothing tells it",
            where=f"{part.name}, column '{column.text}'",
            hint=unit_hint(channel, column.text),
        )
    return MeasuredColumn(scale_of(found.unit, KIND[channel]).si(part.values[column.index]), found)
