"""A long table with a unit behind the number of each cell, "0.002 s,-25.00 mm", as numbers under a line of units."""

from __future__ import annotations

import re
from collections.abc import Sequence

from dynoan.model.importing import HEAD
from importers.assumptions.tables import UNIT_CELL_LINES
from importers.grid import is_number, split_cells
from importers.patterns import regex
from importers.words.unit_text import is_unit

#: a number and what stands behind it, in one cell
NUMBER_AND_UNIT = regex(r"([-+−]?\d[\d.,' ]*\d|[-+−]?\d)\s*([^\d\s].*)")
_MARKS = (";", "\t", "|", ",")


def units_behind(cells: Sequence[str]) -> list[str]:
    """Return the unit behind each cell's number; none where a cell is no number, or the line is no row."""
    found = []
    for cell in cells:
        match = NUMBER_AND_UNIT.fullmatch(cell)
        unit = match[2].strip() if match and is_unit(match[2]) else ""
        if not unit and cell and not is_number(cell, "."):
            return []
        found.append(unit)
    return found


def with_units_above(data: bytes) -> bytes:
    """Return a file's bytes with the units of its cells in one line above the rows; as they are without such cells.

    The last lines of the head are judged: all must hold the same units, at least one a number and a unit.
    """
    stop = data.rfind(b"\n", 0, HEAD)
    if not _may_be(data[data.rfind(b"\n", 0, max(stop, 0)) + 1 : max(stop, 0)]):
        return data
    lines = data[:stop].split(b"\n")
    if len(lines) <= UNIT_CELL_LINES:
        return data
    for mark in _MARKS:
        rows = [[c.strip() for c in split_cells(_text(line), mark)] for line in lines[-UNIT_CELL_LINES:]]
        kinds = {tuple(units_behind(cells)) for cells in rows}
        units = kinds.pop() if len(kinds) == 1 else ()
        if any(units):
            return _moved(data, lines, units, mark)
    return data


def _moved(data: bytes, lines: Sequence[bytes], units: Sequence[str], mark: str) -> bytes:
    first = next(i for i, line in enumerate(lines) if tuple(units_behind(split_cells(_text(line), mark))) == units)
    at = sum(len(line) + 1 for line in lines[:first])
    longest_first = sorted({u for u in units if u}, key=len, reverse=True)
    words = b"|".join(re.escape(u.encode("latin-1")) for u in longest_first)
    ends = rb"(?=\s*(?:" + re.escape(mark.encode()) + rb"|\r?\n|\r?\Z))"
    bare = re.sub(rb"(?<=\d)[ \t]*(?:" + words + rb")" + ends, b"", data[at:])
    return data[:at] + mark.join(units).encode("latin-1") + b"\n" + bare


def _may_be(line: bytes) -> bool:
    """Whether a line holds a number with a letter behind it."""
    return re.search(rb"\d[ ]?(?:[A-Za-z]|\xb5|\xc2\xb5|\xc2\xb0|\xb0)", line) is not None


def _text(line: bytes) -> str:
    return line.decode("latin-1").strip("\r")
