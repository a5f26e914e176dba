"""A small table that lies on its side: each line a quantity, its name first, its values after it."""

from __future__ import annotations

from collections.abc import Sequence

from importers.grid.cells import is_missing, is_number, split
from importers.header.column import describe

_MOST_LINES = 60
_LEAST_VALUES = 3


def transposed(lines: Sequence[str]) -> list[str] | None:
    """Return the lines of a table turned upright, tab-separated; None where the text is no table on its side."""
    some = [line for line in lines if line.strip()]
    if not 2 <= len(some) <= _MOST_LINES:
        return None
    for mark in (";", "\t", "|", ","):
        rows = [(at, cells) for at, line in enumerate(some) if _is_row(cells := split(line, mark))]
        if len(rows) >= 2 and len({len(cells) for _, cells in rows}) == 1 and _measures([c[0] for _, c in rows]):
            at = {i for i, _ in rows}
            upright = ["\t".join(cells) for cells in zip(*(cells for _, cells in rows), strict=True)]
            return [line for i, line in enumerate(some) if i not in at] + upright + [""]
    return None


def _is_row(cells: list[str]) -> bool:
    values = [c for c in cells[1:] if not is_missing(c)]
    decimal = "," if any("," in v for v in values) else "."
    return len(values) >= _LEAST_VALUES and not is_number(cells[0], ".") and all(is_number(v, decimal) for v in values)


def _measures(names: Sequence[str]) -> bool:
    columns = [describe(0, name) for name in names]
    motion = any(c.channel in ("velocity", "displacement") for c in columns)
    return motion and any(c.channel == "force" or c.direction for c in columns)
