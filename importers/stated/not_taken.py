"""Amounts of gas pressure and of warmth in the lines of a file that nothing was taken of: they are said."""

from __future__ import annotations

from collections.abc import Iterable

from importers.patterns import regex
from importers.stated.facts import StatedFacts
from importers.stated.gas_in_sentence import OF_OTHERS, PRESSURE
from importers.words.spelling import plain

_WARMTH = regex(r"(?<![\w.])(?<!\d,)[-+]?\d{1,3}(?:[.,]\d)?\s?(?:°\s?[CF]|℃|℉|deg\.?\s?[CF])(?![\w/])", 2)
#: a warmth beside it is of the weather; a pressure beside it is said
_OF_AIR = regex(r"\b(?:air|luft\w*)\b")
_MOST = 200  #: longer lines are prose [characters]


def amounts_not_taken(lines: Iterable[str], facts: StatedFacts) -> tuple[str, ...]:
    """Return a warning of the first pressure and of the first temperature in lines, where none of each was taken.

    >>> amounts_not_taken(["canister 200 psi", "tyre pressure 1.6 bar"], StatedFacts())
    ("'canister 200 psi' has a pressure that is not said to be the shock's gas: none was taken",)
    >>> amounts_not_taken(["air temp 14 °C", "air spring 60 psi"], StatedFacts())
    ("'air spring 60 psi' has a pressure that is not said to be the shock's gas: none was taken",)
    """
    said = []
    gas, warm = "a pressure that is not said to be the shock's gas", "a temperature that is not said to be the shock's"
    kinds = [(PRESSURE, gas, [OF_OTHERS])] if facts.gas_pressure is None else []
    kinds += [(_WARMTH, warm, [OF_OTHERS, _OF_AIR])] if facts.temperature is None else []
    if any("pressure" in w or "temperature" in w or "°C" in w for w in facts.warnings):
        return ()
    for pattern, words, others in kinds:
        found = (line for line in lines if len(line) <= _MOST and pattern.search(line))
        line = next((line for line in found if not any(other.search(plain(line)) for other in others)), None)
        said += [f"'{line.strip()[:60]}' has {words}: none was taken"] if line else []
    return tuple(said)
