"""A small sheet on which tables stand in a grid, beside and below one another, as one column of tables."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from importers.assumptions.tables import TIDY_LINES
from importers.grid import is_any_number, is_number, split_cells
from importers.header import describe_column
from importers.tables.keys_over_columns import is_key
from importers.words.shock_names import corner_alone

_MARKS = (";", "\t", "|", ",")
_LEAST_OWN = 2  #: lines over tables side by side that say something of each: one may be the names of groups
FORCES = frozenset(("force", "compression", "rebound"))
MOTIONS = frozenset(("velocity", "displacement"))


def with_blocks_stacked(lines: Sequence[str]) -> list[str] | None:
    """Return the lines with each table below the one to its left; None where no second row of tables stands there.

    One row of them is stacked where each table has its own value of a key above it: "Serial: 1041,,,,Serial: 1042".
    """
    for mark in _MARKS if len(lines) <= TIDY_LINES else ():
        rows = [split_cells(line, mark) if mark in line else [line.strip()] for line in lines]
        heads = [at for at, cells in enumerate(rows) if _starts(cells)]
        if not heads or any(_starts(rows[at]) != _starts(rows[heads[0]]) for at in heads):
            continue
        starts = _starts(rows[heads[0]])
        bands = [_first_line(rows, at, starts) for at in heads]
        if len(heads) < 2 and not any(len({*_keyed(cells, starts)}) > 1 for cells in rows[bands[0] : heads[0]]):
            own = _first_of_own(rows, heads[0], starts)
            if heads[0] - own < _LEAST_OWN:
                continue
            bands = [own]
        out = list(lines[: bands[0]])
        for first, last in pairwise([*bands, len(rows)]):
            for left, right in pairwise([*starts, max(map(len, rows))]):
                block = [part for cells in rows[first:last] for part in _with_place(cells, starts, left, right)]
                while block and not any(block[-1]):
                    block.pop()
                out += [mark.join(_trimmed(cells)) for cells in block] + [""]
        return out
    return None


def _starts(cells: Sequence[str]) -> list[int]:
    """Return where a line's tables begin, set apart by a blank column or of the very same names, if two or more do."""
    starts = [k for k, cell in enumerate(cells) if cell and (k == 0 or not cells[k - 1])] or [0]
    again = [k for k, cell in enumerate(cells) if cell == cells[0]]
    if len(starts) == 1 and len(again) > 1 and list(cells) == list(cells[: again[1]]) * len(again):
        starts = again
    if len(starts) < 2 or any(map(is_any_number, cells)):
        return []
    for left, right in pairwise([*starts, len(cells)]):
        held = {c.channel or c.direction for name in cells[left:right] if name for c in (describe_column(0, name),)}
        if not held & FORCES or not held & MOTIONS:
            return []
    return starts


def _with_place(cells: Sequence[str], starts: Sequence[int], left: int, right: int) -> list[list[str]]:
    """Return a table's part of a line; where the line begins with places on the car, that as a key's value."""
    own = list(cells[left:right])
    places = [corner_alone(cells[at]) if at < len(cells) and cells[at] else None for at in starts]
    if None in places or len({*places}) < len(places):
        return [own]
    rest = [cell for cell in own[1:] if cell]
    return [[f"Corner: {own[0]}"], *([rest] if rest else [])]


def _first_of_own(rows: Sequence[Sequence[str]], head: int, starts: Sequence[int]) -> int:
    """Return the first of the lines right above names that each say something of every table below, and not the same.

    Such as "Front" and "Rear" over "Gas 3 bar" and "Gas 12 bar"; where none does, the line of the names.
    """
    first = head
    while first > 0:
        cells = rows[first - 1]
        over = [cells[k] if k < len(cells) else "" for k in starts]
        if not all(over) or any(map(is_any_number, over)):
            break
        first -= 1
    return first if any(len({rows[k][at] for at in starts}) > 1 for k in range(first, head)) else head


def _keyed(cells: Sequence[str], starts: Sequence[int]) -> list[str]:
    """Return the values of a line that holds a known key with its value over each table and nothing else; else none."""
    pairs = [_pair(cells[left:right]) for left, right in pairwise([*starts, max(len(cells), starts[-1] + 1)])]
    known = all(map(is_key, (key for key, _ in pairs)))
    return [value for _, value in pairs] if known else []


def _pair(cells: Sequence[str]) -> tuple[str, str]:
    """Return the one key and its value in cells, "Gas: 8 bar" or "Gas", "8 bar"; both empty where they hold more."""
    filled = [cell for cell in cells if cell]
    key, mark, value = filled[0].partition(":") if filled else ("", "", "")
    if mark and value.strip():
        return (key, value.strip()) if len(filled) == 1 else ("", "")
    return (key, filled[1]) if len(filled) == 2 else ("", "")


def _first_line(rows: Sequence[Sequence[str]], head: int, starts: Sequence[int]) -> int:
    """Return the first line that belongs to the tables under a line of names: titles that touch it from above.

    A blank line may stand between the names and a form over each table.
    """
    first = head
    while first > 0:
        above = rows[first - 1]
        if not any(above):
            over = next((cells for cells in reversed(rows[: first - 1]) if any(cells)), [])
            if not _keyed(over, starts):
                break
        elif any(is_number(c, ".") for c in above if c) and not _keyed(above, starts):
            break
        first -= 1
    return first


def _trimmed(cells: Sequence[str]) -> list[str]:
    cells = list(cells)
    while len(cells) > 1 and not cells[-1]:
        cells.pop()
    return cells
