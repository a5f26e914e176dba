"""What stands twice in one line with another value: that of two shocks side by side, and of neither for sure."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from dynoan.units import FACTORS
from importers.assumptions.stated import APART_DEGREES, APART_SHARE
from importers.patterns import regex
from importers.stated.facts import StatedFacts
from importers.stated.pair import StatedPair
from importers.words.adjusters import adjuster_of
from importers.words.spelling import plain

_BAR = FACTORS["pressure"]["bar"]
_CELLS = regex(r"[,;\t]")


def said_twice(parts: Sequence[tuple[StatedPair, StatedFacts]]) -> dict[str, list[StatedPair]]:
    """Return the pairs of a line, by key, that say two things of a shock under one key: those of two, side by side."""
    by_key: dict[str, dict[str, StatedPair]] = {}
    for pair, facts in parts:
        if any((facts.shock, facts.pack, facts.gas_pressure, facts.rod, facts.temperature)):
            by_key.setdefault(plain(pair.key), {}).setdefault(plain(pair.value), pair)
    return {key: list(values.values()) for key, values in by_key.items() if len(values) > 1}


def clicks_twice(line: str) -> list[tuple[str, str, str]]:
    """Return adjusters that stand in two cells of a line with another number in the next filled one: name and both."""
    cells = [bare for cell in _CELLS.split(line) if (bare := cell.strip())]
    by_name: dict[str, dict[str, str]] = {}
    for cell, following in pairwise(cells):
        if following.isdigit() and adjuster_of(plain(cell)) is not None:
            by_name.setdefault(plain(cell), {})[following] = cell
    apart = [(next(iter(found.values())), list(found)) for found in by_name.values() if len(found) > 1]
    return [(name, numbers[0], numbers[1]) for name, numbers in apart]


def said_once(found: Sequence[StatedPair]) -> list[StatedPair]:
    """Return the pairs of a line whose key says one thing there."""
    values = {plain(p.key): {plain(q.value) for q in found if plain(q.key) == plain(p.key)} for p in found}
    return [p for p in found if len(values[plain(p.key)]) == 1]


def quantities_apart(parts: Sequence[StatedFacts]) -> tuple[str, ...]:
    """Return a warning of each gas pressure, rod and temperature that the parts of a file state otherwise again."""
    pressures = _apart([p.gas_pressure for p in parts], APART_SHARE)
    rods = _apart([p.rod for p in parts], APART_SHARE)
    warmths = _apart([p.temperature for p in parts], 0.0, APART_DEGREES)
    said = (
        *((f"{a / _BAR:.3g}", f"{b / _BAR:.3g} bar", "gas pressure") for a, b in pressures),
        *((f"{1e3 * a:.4g}", f"{1e3 * b:.4g} mm", "rod") for a, b in rods),
        *((f"{a:.3g}", f"{b:.3g} °C", "temperature") for a, b in warmths),
    )
    return tuple(f"the file says {what} {one} and {other}: the first was taken" for one, other, what in said)


def _apart(stated: Sequence[float | None], share: float, least: float = 0.0) -> list[tuple[float, float]]:
    """Return the first number and the first other one that is further from it than a share of it, and than `least`."""
    numbers = [x for x in stated if x is not None]
    far = [x for x in numbers if abs(x - numbers[0]) > max(share * abs(numbers[0]), least)]
    return [(numbers[0], far[0])] if far else []
