"""What is asked of logged travel, from values as people give them."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field

from dynoan.analysis.travel.summary import LogPart
from dynoan.errors import CallError, QuantityError
from dynoan.jobs.answering import quantity
from dynoan.model.car import CORNERS
from dynoan.model.log import Log
from dynoan.units import normal_unit

VOLT = {"v", "volt", "volts", "mv", "millivolt", "millivolts"}
_MILLI = {"mv", "millivolt", "millivolts"}
_SCALES = {"length": "25 mm per V", "acceleration": "1 g per V", "velocity": "10 m/s per V"}
_TAKEN = ("all", "the rest")
_PART = re.compile(r"^(?:([\w ]+)=)?\s*([\d.,]+)\s*(?:s)?\s*(?:\.\.|to)\s*([\d.,]+)\s*(?:s)?$")


@dataclass(frozen=True)
class TravelScale:
    """Travel, or another quantity, per unit of a column."""

    factor: float  #: [SI per unit], of travel negative where the number rises as the shock gets longer
    unit: str
    text: str  #: as it was given

    @classmethod
    def parsed(cls, text: str, kind: str = "length") -> TravelScale:
        """Return a scale from text such as "25 mm per V" or "-25 mm/V".

        Raises
        ------
        QuantityError
            If it is no length, or other kind of quantity, per unit, or zero.
        """
        match = re.match(r"^\s*(.+?)\s*(?:\bper\b|/(?=[^/]*$))\s*(\S+)\s*$", text)
        if match is None:
            raise QuantityError(f"'{text}' is not like \"{_SCALES[kind]}\"", part="scale")
        factor = quantity(match[1], kind, "scale")
        if factor == 0:
            raise QuantityError(f"'{text}' would make all of it zero", part="scale")
        return cls(factor, sensor_unit(match[2]), text.strip())


def sensor_unit(text: str) -> str:
    """Return a sensor's unit in one spelling: "v", "mv", or as `dynoan.units.normal_unit` spells it."""
    plain = text.strip().lower()
    return ("mv" if plain in _MILLI else "v") if plain in VOLT else normal_unit(text)


def by_corner(given: str | Mapping[str, str] | None, part: str, others: Iterable[str] = ()) -> dict[str, str]:
    """Return what is given for one corner or for all, by corner; `others` may be spoken of as if they were corners.

    Raises
    ------
    CallError
        If a key is no corner and none of the others.
    """
    known = (*CORNERS, *others)
    if given is None or isinstance(given, str):
        return dict.fromkeys(CORNERS, given) if given else {}
    for corner in given:
        if corner not in known:
            raise CallError(f"'{corner}' is no corner (corners: {', '.join(known)})", part=part)
    return dict(given)


@dataclass(frozen=True)
class TravelQuestion:
    """Which log, and what is known of it; what is not told is found in it."""

    log: Log
    car: str | None = None  #: whose curves to lay under the velocities
    columns: Mapping[str, str] = field(default_factory=dict)  #: by corner
    scales: Mapping[str, TravelScale] = field(default_factory=dict)  #: by corner
    zeros: Mapping[str, str] = field(default_factory=dict)  #: readings at rest, by corner
    parts: tuple[LogPart, ...] = ()
    window: float | None = None  #: of the velocity filter; None: set from the record [s]
    time: str | None = None  #: the column that is the time; None: told by its name

    @classmethod
    def asked(
        cls, log: Log, *, car: str | None = None, corner: Mapping[str, str] | None = None,
        scale: str | Mapping[str, str] | None = None, zero: str | Mapping[str, str] | None = None,
        part: Mapping[str, tuple[float, float]] | None = None, window: float | str | None = None,
        time: str | None = None,
    ) -> TravelQuestion:  # fmt: skip
        """Return the question from values as people give them; a scale or zero may be one for all, or by corner.

        Raises
        ------
        QuantityError
            If a value is no such quantity.
        CallError
            If a part ends before it starts or has a name that is taken, or a key is no corner.
        """
        scales = {c: TravelScale.parsed(text) for c, text in by_corner(scale, "scale").items()}
        return cls(
            log, car, by_corner(corner, "corner"), scales, by_corner(zero, "zero"),
            tuple(_part(name, *span) for name, span in (part or {}).items()),
            None if window is None else quantity(window, "time", "window"), time,
        )  # fmt: skip


def _part(name: str, start: float, end: float) -> LogPart:
    if end <= start:
        raise CallError(f"'{start:g}..{end:g}' ends before it starts", part="part")
    if name in _TAKEN:
        raise CallError(f"the name '{name}' is taken", hint="give another", part="part")
    return LogPart(name, start, end)


def parts_from(texts: Sequence[str]) -> dict[str, tuple[float, float]]:
    """Return parts such as "2.0..5.0" (the launch) or "hairpin=12..15": start and end by name. [s]

    Raises
    ------
    CallError
        If a text is no such part, or a name stands twice.
    """
    found: dict[str, tuple[float, float]] = {}
    for text in texts:
        match = _PART.match(text.strip())
        if match is None:
            raise CallError(f"'{text}' is not like launch=2.0..5.0 (seconds)", part="part")
        name = (match[1] or "launch").strip()
        if name in found:
            raise CallError(f"the name '{name}' is taken", hint="give another", part="part")
        found[name] = (float(match[2].replace(",", ".")), float(match[3].replace(",", ".")))
    return found
