"""Text with a unit to SI."""

from __future__ import annotations

import math
import re

from dynoan.errors import QuantityError, Where
from dynoan.units.examples import example
from dynoan.units.factors import FACTORS, ZERO_CELSIUS

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


def split_quantity(text: str, kind: str = "") -> tuple[float, str]:
    """Split "275 lb/in" into 275.0 and "lb/in"; the unit is empty where there is none.

    Parameters
    ----------
    text
        What somebody typed.
    kind
        The kind of quantity that is wanted, for the example in an error.

    Raises
    ------
    QuantityError
        If it does not begin with a number.
    """
    match = _TEXT.match(text)
    if match is None:
        like = f"write it like '{example(kind)}'" if kind else ""
        raise QuantityError(f"'{brief(text)}' is not a number with a unit", hint=like)
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
        number, unit = split_quantity(str(text), kind)
        if not unit and kind != "ratio":
            raise QuantityError(f"'{brief(text)}' has no unit", hint=f"write it like '{example(kind)}'")
        value = to_celsius(number, unit) if kind == "temperature" else number * factor(unit, kind)
    except QuantityError as error:
        raise error.again(where=where) from None
    if not math.isfinite(value):
        like = f"write it like '{example(kind)}'"
        raise QuantityError(f"'{brief(text)}' is not a finite number", where=where, hint=like)
    return value
