"""A small table that lies on its side: each line a quantity, its name first, its values after it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from dynoan.model.importing import HEAD
from importers.assumptions.tables import SIDEWAYS_LINES, SIDEWAYS_VALUES
from importers.grid import is_missing, is_number, split_cells
from importers.header import describe_column
from importers.patterns import regex
from importers.words.spelling import plain
from importers.words.unit_text import is_unit

#: "Comp [N]: 142  249  403", "Speed  25  50  100  mm/s": a name, values, a unit that may stand behind them
_LINE = regex(r"\s*(?P<name>[^\d].*?)(?:\s*[:=]\s*|\s+)(?P<values>[-+−]?\d[-+−\d.,;\s]*?)\s*(?P<unit>[^\W\d][^\d;,]*)?")
_APART = regex(r"\s*[;]\s*|,\s+|\s+")
_LARGEST = 5_000_000  #: that is turned [bytes]


def turned_upright(lines: Sequence[str]) -> list[str] | None:
    """Return the lines of a table turned upright, tab-separated; None where the text is no table on its side."""
    some = [line for line in lines if line.strip()]
    if not 2 <= len(some) <= SIDEWAYS_LINES:
        return None
    for mark in (";", "\t", "|", ","):
        rows = {at: cells for at, line in enumerate(some) if _is_quantity(cells := _cells(line, mark))}
        alike = len({len(cells) for cells in rows.values()}) == 1
        if len(rows) >= 2 and alike and _measures([cells[0] for cells in rows.values()]):
            return _upright(some, rows)
    return _of_words(some)


def _upright(lines: Sequence[str], rows: Mapping[int, Sequence[str]]) -> list[str]:
    """Return lines with their rows turned upright; where the names begin again, as tables below one another."""
    at, names = list(rows), [plain(cells[0]) for cells in rows.values()]
    size = next((k for k in range(1, len(names)) if names[k] == names[0]), len(names))
    size = size if names == names[:size] * (len(names) // size) else len(names)
    out, done = list(lines[at[-1] + 1 :]), 0  # what stands below holds for all
    for k in range(0, len(at), size):
        mine = at[k : k + size]
        out += [line for i, line in enumerate(lines[done : mine[-1]], done) if i not in rows]
        out += ["\t".join(cells) for cells in zip(*(rows[i] for i in mine), strict=True)] + [""]
        done = mine[-1] + 1
    return out


def _cells(line: str, mark: str) -> list[str]:
    """Return a line's cells: its name with a unit that has a cell of its own, and a value behind its colon apart."""
    first, *rest = split_cells(line, mark)
    if rest and is_unit(rest[0]) and not is_unit(first):
        first, rest = f"{first} [{rest[0]}]", rest[1:]
    name, colon, value = first.rpartition(":")
    if colon and (is_number(value.strip(), ".") or is_number(value.strip(), ",")):
        first, rest = name.strip(), [value.strip(), *rest]
    return [first, *rest]


def _of_words(lines: Sequence[str]) -> list[str] | None:
    """Return the lines of a table on its side whose names and values blanks or a colon set apart, turned upright."""
    rows = {at: cells for at, line in enumerate(lines) if _is_quantity(cells := _worded(line))}
    if len(rows) < 2 or len({len(cells) for cells in rows.values()}) != 1:
        return None
    if not _measures([cells[0] for cells in rows.values()]):
        return None
    return _upright(lines, rows)


def _worded(line: str) -> list[str]:
    """Return the name, with its unit, and the values of a line; empty where it is none."""
    match = _LINE.fullmatch(line)
    if match is None:
        return []
    values = match["values"].strip()
    commas = values.count(",") > 0 and " " not in values and ";" not in values
    cells = values.split(",") if commas else _APART.split(values)
    unit = (match["unit"] or "").strip()
    if unit and not is_unit(unit):
        return []
    return [f"{match['name'].strip()} [{unit}]" if unit else match["name"].strip(), *cells]


def long_turned_upright(data: bytes) -> bytes:
    """Return a file's bytes upright where its few lines are longer than its head, each a quantity; else as they are."""
    if not HEAD < len(data) <= _LARGEST or data.count(b"\n", 0, HEAD) > 2 or data.count(b"\n") > SIDEWAYS_LINES:
        return data
    try:
        upright = turned_upright(data.decode().splitlines())
    except UnicodeDecodeError:
        return data
    return data if upright is None else "\n".join(upright).encode()


def _is_quantity(cells: list[str]) -> bool:
    values = [c for c in cells[1:] if not is_missing(c)]
    decimal = "," if any("," in v for v in values) else "."
    if len(values) < SIDEWAYS_VALUES or is_number(cells[0], "."):
        return False
    return all(is_number(v, decimal) for v in values)


def _measures(names: Sequence[str]) -> bool:
    columns = [describe_column(0, name) for name in names]
    motion = any(c.channel in ("velocity", "displacement") for c in columns)
    return motion and any(c.channel == "force" or c.direction for c in columns)
