"""Values of known keys that are no plain number with a unit: a range, one of about so much, what is not known."""

from __future__ import annotations

import re

from importers.patterns import regex
from importers.stated.quantities import quantity

_NUMBER = r"[-+−]?\d+(?:[.,]\d+)?"
_ABOUT = regex(
    r"^(?:~|≈|≃|c\.|ca\.?|circa|about|around|approx\.?|approximately|env\.?|environ|ungef[aä]hr|etwa)\s*", re.I
)
_RANGE = regex(
    rf"(?P<low>{_NUMBER})\s*(?P<unit>°?\s?[CF])?\s*(?P<mark>-+>|=>|→|[-–—]|\.{{2,3}}|…|to|bis|a|à|bis zu|till)\s*"
    rf"(?P<high>\d+(?:[.,]\d+)?)\s*(?P<last>°?\s?[CF]|deg\s?[CF])",
    re.I,
)
_GRAD = regex(r"(?<=\d)\s*(?:grad|grader|gradi|grados)$", re.I)  #: of languages that know no other
_BEGINS = regex(r"[<>~≈]?\s*[-+−]?\d")
_BARE = regex(r"[-+\d.,']+")


def temperature_of(key: str, value: str, decimal: str) -> tuple[float | None, tuple[str, ...]]:
    """Return the temperature that a value states, and what is to be said of how it was taken. [°C]

    >>> temperature_of("temp", "38-42 C", ".")
    (40.0, ("'temp: 38-42 C' is a range: its middle, 40 °C, was taken",))
    >>> temperature_of("temp", "40C/104F", "."), temperature_of("temp", "~40 °C", ".")
    ((40.0, ()), (40.0, ()))
    """
    found = _RANGE.fullmatch(value.strip())
    if found is None:
        warmth = quantity(_GRAD.sub(" °C", _ABOUT.sub("", value)), "temperature", decimal)
        return warmth, not_understood(key, value, "temperature") if warmth is None else ()
    low, high = (quantity(f"{found[end]} {found['last']}", "temperature", decimal) for end in ("low", "high"))
    if low is None or high is None:
        return None, not_understood(key, value, "temperature")
    if found["mark"].endswith((">", "→")):
        return low, (f"'{key}: {value}' goes from one to another: the first, {low:.3g} °C, was taken",)
    if high <= low:
        return None, not_understood(key, value, "temperature")
    middle = (low + high) / 2
    return middle, (f"'{key}: {value}' is a range: its middle, {middle:.3g} °C, was taken",)


def not_understood(key: str, value: str, what: str) -> tuple[str, ...]:
    """Return a warning where a value begins with a number, and something behind it is no unit of what it should be."""
    if not _BEGINS.match(value) or _BARE.fullmatch(value) or "%" in value:
        return ()
    return (f"'{key}: {value}' is no {what} that is known here: none was taken",)
