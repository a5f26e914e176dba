"""Which of the lines above a table's rows name its columns, state their units, group them; what is left is preamble."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import replace
from typing import NamedTuple

from importers.assumptions import GROUPS_REACH, HEADER_REACH, MEASURE_WORTH, NAME_WORTH, NAMES_REACH, UNITS_REACH
from importers.grid import CellGrid, split_cells
from importers.header.column import HeaderColumn, describe_column
from importers.header.line_cells import header_cells, padded
from importers.words.clicks import clicks_of
from importers.words.directions import direction_of
from importers.words.shock_names import corner_or_shock_in
from importers.words.spelling import plain
from importers.words.unit_text import is_unit, kinds_of

_LISTED = (
    r"^\W*(?:column|col\.?|channel|ch|chan|spalte|kanal|colonne"
    r"|canal|voie|columna|colonna|canale|field|feld)\s*#?(\d{1,2})\s*[:=).-]*\s*(.+)$"
)
#: what stands in a line of units and is no unit of a channel
_BESIDE_UNITS = frozenset(("rpm", "hz", "1", "%", "v", "n/a", "text", "#"))
#: channels that one column gives all groups of a wide table
_SHARED = frozenset(("velocity", "time", "displacement", "temperature"))


class Header(NamedTuple):
    """What stands over a table's body."""

    columns: tuple[HeaderColumn, ...]
    preamble: tuple[str, ...]  #: the other lines above, as they stood
    lines: frozenset[str]  #: the header's own lines, to know repeats
    units_row: bool = False
    found: bool = True  #: whether a line names the columns
    cells: int = 0  #: how many cells the names' line has, before it is made as wide as the body

    @property
    def names(self) -> tuple[str, ...]:
        """The column names as they stood."""
        return tuple(column.text for column in self.columns)


class _Near(NamedTuple):
    """The lines near above the rows that may be a header, by their number."""

    at: list[int]
    cells: Mapping[int, list[str]]


def find_header(above: Sequence[str], grid: CellGrid, first_row: str = "") -> Header:
    """Return the header in the lines above a body; `found` is False where no line names a column."""
    at = [i for i in range(len(above)) if above[i].strip()][-HEADER_REACH:]
    near = _Near(at, {i: header_cells(above[i], grid, first_row) for i in at})
    units_at = next((i for i in reversed(at) if _is_units(near.cells[i])), None)
    names_at = _names_line(near, units_at, grid.width)
    if names_at is None:
        return _listed(above, grid) or _nameless(above, grid, near, units_at)
    if units_at is not None and abs(at.index(units_at) - at.index(names_at)) > UNITS_REACH:
        units_at = None
    group_at = _group_line(near, names_at)
    way_at = next((i for i in at if i > names_at and i != units_at and _only_directions(near.cells[i])), None)
    names = _names(near, names_at, group_at, way_at, grid.width)
    second_at = None if {group_at, way_at, units_at} != {None} else _second_row(near, names_at, grid.width)
    if second_at is not None:
        names = _over_one_another(near, names_at, second_at)
    units = padded(near.cells[units_at], grid.width) if units_at is not None else [""] * grid.width
    used = {i for i in (names_at, second_at, units_at, group_at, way_at) if i is not None}
    return Header(
        columns=tuple(describe_column(k, n, u.strip("-–")) for k, (n, u) in enumerate(zip(names, units, strict=True))),
        preamble=tuple(line for i, line in enumerate(above) if i not in used and line.strip()),
        lines=frozenset(above[i].strip() for i in used),
        units_row=units_at is not None,
        cells=len(near.cells[names_at]),
    )


def _names(near: _Near, names_at: int, group_at: int | None, way_at: int | None, width: int) -> list[str]:
    """Return the columns' names, each with its group above and its direction below."""
    names = padded(near.cells[names_at], width)
    if group_at is not None:
        names = _joined(padded(near.cells[group_at], width), names)
    if way_at is not None:
        names = [f"{name} {way}".strip() for name, way in zip(names, padded(near.cells[way_at], width), strict=True)]
    return names


def _second_row(near: _Near, names_at: int, width: int) -> int | None:
    """Return the line next to the names that says more together with them: names in two rows."""
    at = near.at.index(names_at)
    for other in near.at[max(at - 1, 0) : at] + near.at[at + 1 : at + 2]:
        cells = near.cells[other]
        if abs(other - names_at) != 1 or not len(cells) == len(near.cells[names_at]) == width or ":" in "".join(cells):
            continue
        if _worth(_over_one_another(near, names_at, other)) > _worth(near.cells[names_at]):
            return other
    return None


def _over_one_another(near: _Near, first: int, second: int) -> list[str]:
    """Return the names that two lines make, the upper one's words first."""
    upper, lower = near.cells[min(first, second)], near.cells[max(first, second)]
    return [f"{a} {b}".strip() for a, b in zip(upper, lower, strict=True)]


def _worth(names: Sequence[str]) -> tuple[int, int]:
    """Return how many different quantities with their units names give, and how few of them by the unit alone."""
    columns = [describe_column(0, name) for name in names]
    measured = {(c.channel, c.direction) for c in columns if c.channel and c.unit}
    return len(measured), -sum(c.by_unit for c in columns)


def _names_line(near: _Near, units_at: int | None, width: int) -> int | None:
    """Return the line that names most columns; of equals the lowest."""
    scores = {
        i: _name_score(near.cells[i]) * min(1.0, len(near.cells[i]) / max(width, 1))
        for i in near.at
        if i != units_at and not _only_units(near.cells[i])
    }
    best = max(scores.values(), default=0.0)
    return max(i for i, score in scores.items() if score == best) if best > 0 else None


def _name_score(cells: list[str]) -> float:
    if len([c for c in cells if c]) < 2:
        return 0.0
    columns = [describe_column(0, cell) for cell in cells if cell]
    measures = sum(c.channel is not None and not c.by_unit for c in columns)
    known = sum(c.known for c in columns)
    if known < 1 or (known < 2 and not measures):
        return 0.0
    return (known + MEASURE_WORTH * measures) / max(len(cells), 1) + NAME_WORTH * known


def _is_units(cells: list[str]) -> bool:
    some = [c for c in cells if c.strip("-–[]() ")]
    return len(some) >= 1 and len(cells) >= 2 and all(is_unit(c) or plain(c) in _BESIDE_UNITS for c in some)


def _only_units(cells: list[str]) -> bool:
    """Whether a line is units and nothing that could name a column, such as "s;mm;N"."""
    kinds = [kinds_of(c) for c in cells if c]
    return len(kinds) >= 3 and all(kinds) and len(set(kinds)) >= 2


def _only_directions(cells: list[str]) -> bool:
    some = [c for c in cells if c]
    return len(some) >= 2 and all(direction_of(plain(c)) for c in some)


def _group_line(near: _Near, names_at: int) -> int | None:
    """Return the line above the names whose few cells each stand over several columns."""
    above = [i for i in near.at if i < names_at][-GROUPS_REACH:]
    for i in reversed(above):
        cells = [c for c in near.cells[i] if c]
        clicks = sum(bool(clicks_of(c)) for c in cells)
        ways = {direction_of(plain(c)) for c in cells if len(plain(c).split()) <= 3} - {None}
        shocks = len({corner_or_shock_in(c) for c in cells} - {None})
        if len(near.cells[i]) >= 3 and (clicks >= 2 or shocks >= 2 or (len(ways) == 2 and len(cells) <= 4)):
            return i
    return None


def _joined(groups: list[str], names: list[str]) -> list[str]:
    """Return names with the group each stands under; a shared column stands under none."""
    out, group = [], ""
    for over, name in zip(groups, names, strict=True):
        group = _short(over) or group
        alone = describe_column(0, name)
        shared = alone.channel in _SHARED and not alone.direction and not over
        out.append(name if not name or shared else f"{group} {name}".strip())
    return out


def _short(group: str) -> str:
    """Return a group's clicks alone where it states some: its words for directions are no column's."""
    clicks = clicks_of(group)
    worded = any(len(w) > 1 and direction_of(w) for w in plain(group).split())
    return " ".join(f"{k}={v}" for k, v in clicks.items()) if clicks and worded else group


def _listed(above: Sequence[str], grid: CellGrid) -> Header | None:
    """Return the header of a file that lists its columns in the preamble: "Column 2: Force [N]"."""
    found = {int(m[1]): m[2].strip().strip("\"'") for line in above if (m := re.match(_LISTED, line, re.IGNORECASE))}
    if not found or not any(describe_column(0, name).known for name in found.values()):
        return None
    base = 0 if 0 in found else 1
    names = [found.get(k + base, "") for k in range(grid.width)]
    columns = tuple(describe_column(k, _with_brackets(name)) for k, name in enumerate(names))
    return Header(columns, tuple(line for line in above if line.strip()), frozenset())


def _with_brackets(name: str) -> str:
    """Return a listed name with its unit in brackets where it stands behind a mark."""
    parts = [part.strip() for part in re.split(r"[;|\t,]", name) if part.strip()]
    return f"{parts[0]} [{parts[1]}]" if len(parts) >= 2 and is_unit(parts[1]) else name


def _nameless(above: Sequence[str], grid: CellGrid, near: _Near, units_at: int | None) -> Header:
    lines = tuple(line for i, line in enumerate(above) if line.strip() and i != units_at)
    if units_at is None:
        columns = tuple(describe_column(k, "") for k in range(grid.width))
        return Header(columns, lines, frozenset(), found=False)
    cells = padded(near.cells[units_at], grid.width)
    columns = tuple(replace(describe_column(k, "", c), text=c) for k, c in enumerate(cells))
    return Header(columns, lines, frozenset({above[units_at].strip()}), units_row=True)


def names_columns(lines: Sequence[str]) -> bool:
    """Whether a line of a file without rows names columns."""
    return any(
        sum(describe_column(0, c).channel is not None for c in split_cells(line, mark)) >= 2
        for line in lines[:NAMES_REACH]
        for mark in ";\t|,"
    )
