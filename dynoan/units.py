"""Quantities as text with a unit, to and from SI.

One table a kind of quantity, so that "lb" is a force where a force is meant and a mass where a mass is meant.
A units library is not used here: the trade's "lb" would need overriding everywhere, and importing one costs more
time than the whole of ``dynoan --help``.

Factors: 1 in = 0.0254 m and 1 lb = 0.45359237 kg exactly (international yard and pound agreement, 1959);
standard gravity 9.80665 m/s² exactly (3rd CGPM, 1901); see NIST SP 811, appendix B.8.
"""

from __future__ import annotations

import math
import re
from contextvars import ContextVar
from dataclasses import dataclass
from typing import Literal

from dynoan.errors import QuantityError, Where

INCH = 0.0254
POUND = 0.45359237
GRAVITY = 9.80665
POUND_FORCE = POUND * GRAVITY
PSI = POUND_FORCE / INCH**2
ATMOSPHERE = 101325.0
ZERO_CELSIUS = 273.15

Shown = Literal["metric", "us"]

_FORCE = {
    "n": 1.0, "newton": 1.0, "newtons": 1.0, "kn": 1e3, "dan": 10.0,
    "lbf": POUND_FORCE, "lb": POUND_FORCE, "lbs": POUND_FORCE, "pound": POUND_FORCE, "pounds": POUND_FORCE,
    "kip": 1e3 * POUND_FORCE, "kips": 1e3 * POUND_FORCE, "tonf": 2e3 * POUND_FORCE, "tf": 1e3 * GRAVITY,
    "gf": 1e-3 * GRAVITY, "kgf": GRAVITY, "kg": GRAVITY, "kp": GRAVITY,
}  # fmt: skip
_LENGTH = {
    "m": 1.0, "mm": 1e-3, "cm": 1e-2, "dm": 0.1, "µm": 1e-6, "um": 1e-6, "in": INCH, "inch": INCH, "inches": INCH,
    '"': INCH, "ft": 12 * INCH, "mil": 1e-3 * INCH, "mils": 1e-3 * INCH, "thou": 1e-3 * INCH, "thous": 1e-3 * INCH,
}  # fmt: skip
_TIME = {
    "s": 1.0, "sec": 1.0, "second": 1.0, "seconds": 1.0, "ms": 1e-3, "msec": 1e-3, "µs": 1e-6, "us": 1e-6,
    "min": 60.0, "h": 3600.0,
}  # fmt: skip
_PER_SECOND = ("s", "sec", "second")


def _per(top: dict[str, float], bottom: dict[str, float]) -> dict[str, float]:
    return {f"{a}/{b}": x / y for a, x in top.items() for b, y in bottom.items()}


def _only(table: dict[str, float], *names: str) -> dict[str, float]:
    return {name: table[name] for name in names}


_VELOCITY = (
    _per(_LENGTH, _only(_TIME, *_PER_SECOND, "min"))
    | {"ips": INCH, "fpm": 12 * INCH / 60, "mps": 1.0}
    | {"km/h": 1 / 3.6, "kmh": 1 / 3.6, "kph": 1 / 3.6, "mph": 63360 * INCH / 3600}
)  # fmt: skip
_STIFF = _per(
    _only(_FORCE, "n", "kn", "dan", "lbf", "lb", "lbs", "pound", "pounds", "kgf"),
    _only(_LENGTH, "m", "mm", "cm", "in", "inch", '"', "ft"),
)
#: what a "300 lb spring" means in the trade: pounds an inch
_POUNDS = dict.fromkeys(("lb", "lbs", "pound", "pounds"), POUND_FORCE / INCH)
_FOOT_POUND = POUND_FORCE * 12 * INCH


def _times(tops: dict[str, float], others: dict[str, float]) -> dict[str, float]:
    """Return products in either order, as people write them: "lb ft" and "ft lb"."""
    return {text: x * y for a, x in tops.items() for b, y in others.items() for text in (f"{a}*{b}", f"{b}*{a}")}


_TORQUE = _times(_only(_FORCE, "n", "kn", "lbf", "lb", "lbs", "pound", "pounds"), _only(_LENGTH, "m", "ft", "in")) | {
    "nm": 1.0, "foot*pounds": _FOOT_POUND, "foot*pound": _FOOT_POUND,
}  # fmt: skip

#: factor to SI by kind of quantity and unit in lower case, blanks and "·" written as "*"
FACTORS: dict[str, dict[str, float]] = {
    "force": _FORCE,
    "length": _LENGTH,
    "time": _TIME,
    "velocity": _VELOCITY,
    "mass": {"kg": 1.0, "g": 1e-3, "t": 1e3, "slug": POUND_FORCE / (12 * INCH)}
    | dict.fromkeys(("lb", "lbs", "lbm", "pound", "pounds"), POUND),
    "stiffness": _STIFF | _POUNDS,
    "damping": {f"{f}*s/{d}": v for k, v in _STIFF.items() for f, d in [k.split("/")]}
    | {f"{f}/({d}/s)": v for k, v in _STIFF.items() for f, d in [k.split("/")]},
    "pressure": {"pa": 1.0, "kpa": 1e3, "mpa": 1e6, "bar": 1e5, "mbar": 100.0, "psi": PSI, "psig": PSI, "lb/in2": PSI},
    "inertia": {"kg*m2": 1.0, "lb*ft2": POUND * (12 * INCH) ** 2, "slug*ft2": POUND_FORCE * 12 * INCH},
    "acceleration": dict.fromkeys(("m/s2", "m/s/s", "m*s-2", "m*s^-2", "m*s⁻²"), 1.0)
    | {"ft/s2": 12 * INCH, "cm/s2": 0.01, "mg": 1e-3 * GRAVITY}
    | dict.fromkeys(("g", "gs", "g's"), GRAVITY),
    "torque": _TORQUE,
    "energy": {"j": 1.0, "kj": 1e3} | _times(_only(_FORCE, "lbf", "lb"), _only(_LENGTH, "ft")),
    "angle": {"rad": 1.0, "deg": math.pi / 180, "°": math.pi / 180},
    "frequency": {"hz": 1.0, "khz": 1e3, "1/s": 1.0, "s/s": 1.0, "rpm": 1 / 60, "r/min": 1 / 60, "1/min": 1 / 60},
    "ratio": {"%": 0.01, "": 1.0},
}
#: the form shown when a unit is missing or unknown, metric and US
EXAMPLES = {
    "force": ("850 N", "190 lbf"), "length": ("2430 mm", "95.7 in"), "time": ("3 s", "3 s"),
    "velocity": ("50 mm/s", "2 in/s"), "mass": ("268 kg", "590 lb"), "stiffness": ("45 N/mm", "260 lb/in"),
    "damping": ("3500 N s/m", "20 lbf s/in"), "pressure": ("10 bar", "145 psi"),
    "inertia": ("1150 kg m2", "27300 lb ft2"), "acceleration": ("5 m/s2", "16 ft/s2"),
    "torque": ("240 N m", "180 lb ft"), "energy": ("12 J", "9 ft lbf"), "angle": ("15 deg", "15 deg"),
    "frequency": ("1000 Hz", "1000 Hz"), "ratio": ("60 %", "60 %"), "temperature": ("45 °C", "110 °F"),
}  # fmt: skip
#: the units that examples in errors are written in: those of the library at hand
HINTED: ContextVar[Shown] = ContextVar("hinted", default="metric")


def example(kind: str) -> str:
    """Return how a kind of quantity is written, such as '45 N/mm', in the units of the library at hand."""
    return EXAMPLES[kind][HINTED.get() == "us"]


TEMPERATURES = {"°c", "c", "degc", "°f", "f", "degf", "k", "kelvin", "celsius", "fahrenheit", "º c", "ºc", "ºf"}

LONGEST_SHOWN = 60  #: of what was given, in a message [characters]
BRACKETS = {"[": "]", "(": ")", "{": "}"}
_TEXT = re.compile(r"^\s*([-+]?(?:\d[\d ']*(?:[.,]\d+)?|[.,]\d+)(?:[eE][-+]?\d+)?)\s*(.*?)\s*$", re.DOTALL)


def normal_unit(unit: str) -> str:
    """Return a unit in the spelling of the tables: lower case, products with ``*``, no brackets around it."""
    text = unit.strip().lower().replace("μ", "µ")
    if text[:1] in BRACKETS and text.endswith(BRACKETS[text[0]]):
        text = text[1:-1].strip()
    text = text.replace("#", "lb").replace("²", "2").replace("^2", "2").replace("in.", "in").replace("lbs.", "lbs")
    text = re.sub(r"\s*(?:/|\bper\b)\s*", "/", text)
    text = re.sub(r"(?<=[a-z])-(?=[a-z])", "*", text).replace("·", "*").replace("⋅", "*")
    text = re.sub(r"\s+", "*", text)
    return re.sub(r"\bsec\b", "s", text) if "*sec" in text else text


def brief(text: object) -> str:
    """Return what was given, for a message: its beginning where it is long, codes for what could steer a screen."""
    shown = "".join(c if c.isprintable() else f"\\u{ord(c):04x}" for c in str(text)[: LONGEST_SHOWN + 1])
    return shown if len(shown) <= LONGEST_SHOWN else f"{shown[: LONGEST_SHOWN - 1]}…"


def factor(unit: str, kind: str) -> float:
    """Return the factor from `unit` to SI for a `kind` of quantity.

    Raises
    ------
    QuantityError
        If the unit does not belong to that kind.
    """
    found = FACTORS[kind].get(normal_unit(unit))
    if found is None:
        raise QuantityError(f"'{brief(unit)}' is no unit of {kind}", hint=f"write it like '{example(kind)}'")
    return found


def to_celsius(value: float, unit: str) -> float:
    """Return a temperature in °C from °C, °F or K.

    >>> round(to_celsius(100, "°F"), 5)
    37.77778
    """
    name = normal_unit(unit).replace("*", "").replace("º", "°")
    if name in {"°c", "c", "degc", "celsius"}:
        return value
    if name in {"°f", "f", "degf", "fahrenheit"}:
        return (value - 32.0) / 1.8
    if name in {"k", "kelvin"}:
        return value - ZERO_CELSIUS
    raise QuantityError(f"'{brief(unit)}' is no unit of temperature", hint=f"write it like '{example('temperature')}'")


def split_quantity(text: str) -> tuple[float, str]:
    """Split "275 lb/in" into 275.0 and "lb/in"; the unit is empty where there is none."""
    match = _TEXT.match(text)
    if match is None:
        raise QuantityError(f"'{brief(text)}' is not a number with a unit")
    number = match[1].replace(" ", "").replace("'", "")
    if "," in number:
        number = number.replace(",", ".")
    return float(number), match[2]


def parse(text: object, kind: str, *, where: Where = "") -> float:
    """Return a quantity, given as text with a unit, in SI (temperatures in °C).

    Parameters
    ----------
    text
        Such as "275 lb/in". A bare number is an error except for kind "ratio".
    kind
        A key of `FACTORS`, or "temperature".
    where
        File and key, put in front of an error.

    Raises
    ------
    QuantityError
        If the unit is missing or of another kind, or the number is not finite.

    Examples
    --------
    >>> round(parse("275 lb/in", "stiffness"), 3)
    48159.88
    """
    if isinstance(text, bool) or not isinstance(text, str | int | float):
        raise QuantityError(f"found {brief(repr(text))}, wanted text like '{example(kind)}'", where=where)
    try:
        if not str(text).strip():
            raise QuantityError("nothing stands here", hint=f"write it like '{example(kind)}'")
        number, unit = split_quantity(str(text))
        if not unit and kind != "ratio":
            raise QuantityError(f"'{brief(text)}' has no unit", hint=f"write it like '{example(kind)}'")
        value = to_celsius(number, unit) if kind == "temperature" else number * factor(unit, kind)
    except QuantityError as error:
        raise error.again(where=where) from None
    if not math.isfinite(value):
        raise QuantityError(f"'{brief(text)}' is not a finite number", where=where)
    return value


@dataclass(frozen=True)
class Display:
    """How one kind of quantity is shown: `value_si / factor` with `unit`, to `digits` places."""

    unit: str
    factor: float
    digits: int

    def number(self, si: float) -> float:
        """Return an SI value in this unit."""
        return si / self.factor

    def text(self, si: float, *, unit: bool = True) -> str:
        """Return an SI value as text, with the unit unless told otherwise."""
        if si != si:
            return "–"
        body = f"{si / self.factor:.{self.digits}f}"
        body = body[1:] if float(body) == 0 and body.startswith("-") else body
        return f"{body} {self.unit}" if unit else body


_SHOWN: dict[str, dict[str, Display]] = {
    "metric": {
        "force": Display("N", 1.0, 0),
        "velocity": Display("mm/s", 1e-3, 0),
        "length": Display("mm", 1e-3, 1),
        "stiffness": Display("N/mm", 1e3, 1),
        "damping": Display("N s/m", 1.0, 0),
        "mass": Display("kg", 1.0, 1),
        "pressure": Display("bar", 1e5, 1),
        "energy": Display("J", 1.0, 1),
        "angle": Display("°", math.pi / 180, 2),
        "rotation": Display("°/s", math.pi / 180, 1),
        "acceleration": Display("m/s²", 1.0, 2),
        "inertia": Display("kg m²", 1.0, 0),
        "torque": Display("N m", 1.0, 0),
        "far": Display("m", 1.0, 2),
        "speed": Display("km/h", 1 / 3.6, 1),
    },
    "us": {
        "force": Display("lbf", POUND_FORCE, 1),
        "velocity": Display("in/s", INCH, 1),
        "length": Display("in", INCH, 2),
        "stiffness": Display("lb/in", POUND_FORCE / INCH, 0),
        "damping": Display("lbf s/in", POUND_FORCE / INCH, 2),
        "mass": Display("lb", POUND, 0),
        "pressure": Display("psi", PSI, 0),
        "energy": Display("ft lbf", POUND_FORCE * 12 * INCH, 1),
        "angle": Display("°", math.pi / 180, 2),
        "rotation": Display("°/s", math.pi / 180, 1),
        "acceleration": Display("ft/s²", 12 * INCH, 1),
        "inertia": Display("lb ft²", POUND * (12 * INCH) ** 2, 0),
        "torque": Display("lb ft", POUND_FORCE * 12 * INCH, 0),
        "far": Display("ft", 12 * INCH, 1),
        "speed": Display("mph", 63360 * INCH / 3600, 1),
    },
}


def shown(kind: str, units: Shown = "metric") -> Display:
    """Return how a kind of quantity is shown to people in metric or US units."""
    return _SHOWN[units][kind]


def degrees(celsius: float, units: Shown = "metric", *, unit: bool = True) -> str:
    """Return a temperature as people read it, such as "40 °C" or "104 °F"; a dash where it is not a number.

    >>> degrees(40.0, "us"), degrees(40.0, unit=False)
    ('104 °F', '40')
    """
    if celsius != celsius:
        return "–"
    value = celsius if units == "metric" else celsius * 1.8 + 32.0
    return f"{value:.0f}{f' {degree_unit(units)}' if unit else ''}"


def degree_unit(units: Shown = "metric") -> str:
    """Return the unit that temperatures are shown in."""
    return "°C" if units == "metric" else "°F"
