"""Text with a unit to SI."""

from __future__ import annotations

import math
import re
from collections.abc import Sequence
from functools import lru_cache

from dynoan.errors import QuantityError, Where
from dynoan.units.examples import example
from dynoan.units.factors import FACTORS, ZERO_CELSIUS
from dynoan.units.lengths import inches

NOTHING = "nothing stands here"  #: what is wrong with a value of a file to fill in that is still empty
LONGEST_SHOWN = 60  #: of what was given, in a message [characters]
BRACKETS = {"[": "]", "(": ")", "{": "}"}
_WHOLE = r"(?:\d{1,3}(?:[ '\u00a0\u202f]\d{3})+(?!\d)|\d{1,3}(?:,\d{3})+(?=\.\d)|\d{1,3}(?:,\d{3}){2,}(?!\d)|\d+)"
_TEXT = rf"^\s*([-+−]?(?:{_WHOLE}(?:[.,]\d+)?|[.,]\d+)(?:[eE][-+]?\d+)?)\s*(.*?)\s*$"
#: 1,190 is 1190 to one reader and 1.19 to another
_EITHER = r"^\s*[-+−]?([1-9]\d{0,2}),(\d{3})(?![\d.,])"
_ONE_FORM = {
    "lbs": "lb", "pound": "lb", "pounds": "lb", "foot": "ft", "feet": "ft", "inch": "in", "inches": "in", "sec": "s",
    "second": "s", "seconds": "s", "sec2": "s2", "degree": "deg", "degrees": "deg", "centigrade": "celsius",
}  # fmt: skip
_MARKS = str.maketrans({"μ": "µ", "²": "2", "·": "*", "⋅": "*", "”": '"', "″": '"', "˚": "°", "º": "°", "\u00a0": " "})


@lru_cache(maxsize=1024)
def normal_unit(unit: str) -> str:
    """Return a unit in the spelling of the tables: lower case, products with ``*``, no brackets around it.

    >>> normal_unit("lbs. per inch"), normal_unit("ft-lbs"), normal_unit("lb/sq. in")
    ('lb/in', 'ft*lb', 'lb/in2')
    """
    text = unit.strip().lower().translate(_MARKS)
    if text[:1] in BRACKETS and text.endswith(BRACKETS[text[0]]):
        text = text[1:-1].strip()
    text = text.replace("#", "lb").replace("^2", "2")
    text = re.sub(r"(?<=[a-z])\.(?=[a-z])", "*", re.sub(r"(?<=[a-z])\.(?![a-z0-9])", "", text))
    text = re.sub(r"\s*(?:/|\bper\b)\s*", "/", text)
    text = re.sub(r"\s+", "*", re.sub(r"(?<=[a-z])\s*-\s*(?=[a-z])", "*", text))
    text = re.sub(r"[a-z]+2?", lambda word: _ONE_FORM.get(word[0], word[0]), text)
    return re.sub(r"\b(?:sq|square)\*(in|ft)\b", r"\g<1>2", text)


def brief(text: object) -> str:
    """Return what was given, for a message: its beginning where it is long, codes for what could steer a screen."""
    shown = "".join(c if c.isprintable() else f"\\u{ord(c):04x}" for c in str(text)[: LONGEST_SHOWN + 1])
    return shown if len(shown) <= LONGEST_SHOWN else f"{shown[: LONGEST_SHOWN - 1]}…"


def enumerated(names: Sequence[str]) -> str:
    """Return names as a sentence tells them.

    >>> enumerated(["FL-01", "FR-02", "RL-03"])
    'FL-01, FR-02 and RL-03'
    """
    return " and ".join([", ".join(names[:-1]), names[-1]] if len(names) > 1 else names)


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
    name = re.sub(r"^(?:°|deg)\*?", "", normal_unit(unit))
    if name in {"c", "celsius"}:
        return value
    if name in {"f", "fahrenheit"}:
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
    match = re.match(_TEXT, text, re.DOTALL)
    if match is None:
        like = f"write it like '{example(kind)}'" if kind else ""
        raise QuantityError(f"'{brief(text)}' is not a number with a unit", hint=like)
    number = re.sub(r"[ '\u00a0\u202f]", "", match[1]).replace("−", "-")
    grouped = "." in number or number.count(",") > 1
    return float(number.replace(",", "" if grouped else ".")), match[2]


def _certain(text: str, kind: str) -> None:
    """Refuse a comma that stands where thousands are set apart as well; times are written to the thousandth."""
    found = re.match(_EITHER, text)
    if found and kind != "time":
        whole, rest = found.groups()
        hint = f"write {whole}{rest} or {whole}.{rest}"
        raise QuantityError(f"'{brief(text)}' can be read in two ways", hint=hint)


@lru_cache(maxsize=2048)  # a car whose values are moved one after another is read again each time
def _in_si(text: str, kind: str) -> float:
    if not text.strip():
        raise QuantityError(NOTHING, hint=f"write it like '{example(kind)}'")
    _certain(text, kind)
    number, unit = (inches(text) if kind == "length" else None) or split_quantity(text, kind)
    if not unit and kind != "ratio":
        raise QuantityError(f"'{brief(text)}' has no unit", hint=f"write it like '{example(kind)}'")
    return to_celsius(number, unit) if kind == "temperature" else number * factor(unit, kind)


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
        value = _in_si(str(text), kind)
    except QuantityError as error:
        raise error.again(where=where) from None
    if not math.isfinite(value):
        like = f"write it like '{example(kind)}'"
        raise QuantityError(f"'{brief(text)}' is not a finite number", where=where, hint=like)
    return value
