"""What stands twice in one line with another value: that of two shocks side by side, and of neither for sure."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from importers.patterns import regex
from importers.stated.facts import StatedFacts
from importers.stated.pairs import StatedPair
from importers.words.adjusters import adjuster_of
from importers.words.spelling import plain

_CELLS = regex(r"[,;\t]")


def said_twice(parts: Sequence[tuple[StatedPair, StatedFacts]]) -> dict[str, list[StatedPair]]:
    """Return the pairs of a line, by key, that say two things of a shock under one key: those of two, side by side."""
    by_key: dict[str, dict[str, StatedPair]] = {}
    for pair, facts in parts:
        if any((facts.shock, facts.pack, facts.gas_pressure, facts.rod, facts.temperature)):
            by_key.setdefault(plain(pair.key), {}).setdefault(plain(pair.value), pair)
    return {key: list(values.values()) for key, values in by_key.items() if len(values) > 1}


def clicks_twice(line: str) -> list[tuple[str, str, str]]:
    """Return adjusters that stand in two cells of a line with another number in the next cell: its name and both."""
    cells = [cell.strip() for cell in _CELLS.split(line)]
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
