"""Units that stand in a list of their own beside columns, such as ["s", "mm", "N"] beside time, position and force."""

from __future__ import annotations

from collections.abc import Sequence

from importers.header import describe_column
from importers.words.unit_text import KIND, kinds_of


def units_by_kind(names: Sequence[str], units: Sequence[str]) -> list[str]:
    """Return the unit of each column by its name, empty for all where the list cannot be theirs.

    A list in another order than the columns, as where a program sorts them by name, gives each the one unit of its
    kind; where kinds leave a choice the order counts.

    >>> units_by_kind(["Force", "Position", "Time"], ["s", "mm", "N"]), units_by_kind(["Force", "x"], ["s", "mm"])
    (['N', 'mm', 's'], ['', ''])
    """
    if len(names) != len(units):
        return [""] * len(names)
    channels = [describe_column(0, name).channel for name in names]
    fits = [[u for u in units if c is not None and KIND[c] in kinds_of(u)] for c in channels]
    if all(len(found) == 1 for found in fits):
        return [found[0] for found in fits]
    ordered = all(c is None or unit in found for c, unit, found in zip(channels, units, fits, strict=True))
    return list(units) if ordered else [""] * len(names)
