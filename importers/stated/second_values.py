"""A second amount behind the one that a key's value was taken as: "Gas: 10 bar cold, 12 bar hot"."""

from __future__ import annotations

from collections.abc import Iterator

from dynoan.units import FACTORS
from importers.assumptions.stated import APART_DEGREES, APART_SHARE
from importers.patterns import regex
from importers.stated.facts import StatedFacts
from importers.stated.pair import StatedPair
from importers.stated.quantities import quantity

_AMOUNT = regex(
    r"(?<![\w.])(?<!\d[,/])[-+−]?\d+(?:[.,]\d+)?\s?(?:°\s?[CF]|deg\s?[CF]|[CF](?!\w)|bar|psi|kPa|MPa|mm|cm|in(?!\w)|inch|\")"
)
#: cells behind a value that are amounts and have no name of their own
_CELLS_BEHIND = regex(rf'(?:"?\s*[,;\t|/]\s*"?{_AMOUNT.pattern}[^,;\t|/:=\d]{{0,20}})+(?=[,;\t|"]|$)')
#: "10;bar", in cells of their own
_UNIT_APART = regex(r"(?<=\d)\s?[,;\t|]\s?(?=(?:°?[CF]|bar|psi|kPa|MPa|mm|cm|in)\b)")
_WORD_AND_CELLS = regex(rf"(?:\s\(?[^\W\d_]{{2,12}}\)?)?{_CELLS_BEHIND.pattern}")
_SHOWN = {"pressure": (FACTORS["pressure"]["bar"], "bar"), "length": (1e-3, "mm"), "temperature": (1.0, "°C")}


def second_values(line: str, pair: StatedPair, facts: StatedFacts, decimal: str) -> tuple[str, ...]:
    """Return a warning where the value of a pair, or the cells behind it, give another amount than was taken.

    >>> gas = StatedPair("Gas", "10 bar cold, 12 bar hot")
    >>> second_values("Gas: 10 bar cold, 12 bar hot", gas, StatedFacts(gas_pressure=1e6), ".")
    ("'Gas: 10 bar cold, 12 bar hot' gives 10 bar and 12 bar: the first was taken",)
    """
    found = next(_amounts(facts), None)
    if found is None or facts.warnings:
        return ()
    line = _UNIT_APART.sub(" ", line)
    at = line.find(pair.value)
    behind = _CELLS_BEHIND.match(line, at + len(pair.value)) if at >= 0 else None
    text = pair.value + (behind[0] if behind else "")
    return _said(f"{pair.key}: {text}", text, *found, decimal)


def second_within(line: str, facts: StatedFacts, decimal: str) -> tuple[str, ...]:
    """Return the same of the amounts that stand behind their names within a line: "Gas 10 bar cold, 12 bar hot"."""
    said = list[str]()
    for kind, taken in _amounts(facts):
        firsts = (m for m in _AMOUNT.finditer(line) if quantity(m[0], kind, decimal) == taken)
        first = next(firsts, None)
        behind = _WORD_AND_CELLS.match(line, first.end()) if first else None
        if first and behind:
            text = line[first.start() : behind.end()]
            said += _said(text, text, kind, taken, decimal)
    return tuple(said)


def _amounts(facts: StatedFacts) -> Iterator[tuple[str, float]]:
    stated = (("pressure", facts.gas_pressure), ("temperature", facts.temperature), ("length", facts.rod))
    return ((kind, taken) for kind, taken in stated if taken is not None)


def _said(quoted: str, text: str, kind: str, taken: float, decimal: str) -> tuple[str, ...]:
    least = APART_DEGREES if kind == "temperature" else APART_SHARE * abs(taken)
    others = (quantity(m[0], kind, decimal) for m in _AMOUNT.finditer(text))
    other = next((x for x in others if x is not None and abs(x - taken) > least), None)
    if other is None:
        return ()
    size, unit = _SHOWN[kind]
    return (f"'{quoted}' gives {taken / size:.4g} {unit} and {other / size:.4g} {unit}: the first was taken",)
