"""The lines above a table's body: column names, units, the groups of a wide table, and what is left as preamble."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass

from importers.grid.cells import BLANKS, split
from importers.grid.judging import Grid
from importers.header.column import Column, describe
from importers.words.clicks import clicks_of
from importers.words.units import is_unit
from importers.words.vocabulary import direction_of, plain

_COMMENT = re.compile(r"^\s*(?:#+|%+|//+|!+|\*+(?=\s)|;+(?=\s*[^;]*$)|'(?=\s)|--+(?=\s)|rem\b)\s*", re.IGNORECASE)
_REACH = 6  #: how many lines above the body may belong to the header
_LISTED = re.compile(
    r"^\W*(?:column|col\.?|channel|ch|chan|spalte|kanal|colonne|canal|voie|columna|colonna|canale|field|feld)\s*#?(\d{1,2})\s*[:=).-]*\s*(.+)$",
    re.IGNORECASE,
)


@dataclass(frozen=True)
class Header:
    """What stands over a table's body."""

    columns: tuple[Column, ...]
    preamble: tuple[str, ...]  #: the other lines above, as they stood
    lines: frozenset[str]  #: the header's own lines, to know repeats
    units_row: bool = False
    found: bool = True
    cells: int = 0  #: how many cells the names' line has, before it is made as wide as the body

    @property
    def names(self) -> tuple[str, ...]:
        """The column names as they stood."""
        return tuple(column.text for column in self.columns)


def uncomment(line: str) -> str:
    """Return a line without a leading comment mark."""
    return _COMMENT.sub("", line)


def find(above: Sequence[str], grid: Grid, first_row: str = "") -> Header:
    """Return the header in the lines above a body; `found` is False where no line names a column."""
    near = [i for i in range(len(above)) if above[i].strip()][-_REACH:]
    rows = {i: _cells(above[i], grid, first_row) for i in near}
    units_at = next((i for i in reversed(near) if _is_units(rows[i])), None)
    names_at = _names_line(near, rows, units_at, grid.width)
    if names_at is None:
        return _listed(above, grid) or _nameless(above, grid, rows, units_at)
    if units_at is not None and abs(near.index(units_at) - near.index(names_at)) > 2:
        units_at = None
    group_at = _group_line(near, rows, names_at)
    names = _pad(rows[names_at], grid.width)
    if group_at is not None:
        names = _joined(_pad(rows[group_at], grid.width), names)
    way_at = next((i for i in near if i > names_at and i != units_at and _only_directions(rows[i])), None)
    if way_at is not None:
        names = [f"{name} {way}".strip() for name, way in zip(names, _pad(rows[way_at], grid.width), strict=True)]
    units = _pad(rows[units_at], grid.width) if units_at is not None else [""] * grid.width
    used = {i for i in (names_at, units_at, group_at, way_at) if i is not None}
    return Header(
        columns=tuple(describe(k, n, u.strip("-–")) for k, (n, u) in enumerate(zip(names, units, strict=True))),
        preamble=tuple(line for i, line in enumerate(above) if i not in used and line.strip()),
        lines=frozenset(above[i].strip() for i in used),
        units_row=units_at is not None,
        cells=len(rows[names_at]),
    )


def _names_line(near: list[int], rows: dict[int, list[str]], units_at: int | None, width: int) -> int | None:
    best: tuple[float, int] | None = None
    for i in near:
        if i == units_at:
            continue
        score = _name_score(rows[i]) * min(1.0, len(rows[i]) / max(width, 1))
        if score > 0 and (best is None or score >= best[0]):
            best = (score, i)
    return None if best is None else best[1]


def _name_score(cells: list[str]) -> float:
    if len([c for c in cells if c]) < 2:
        return 0.0
    columns = [describe(0, cell) for cell in cells if cell]
    measures = sum(c.channel is not None and not c.by_unit for c in columns)
    known = sum(c.known for c in columns)
    return (
        (known + 0.5 * measures) / max(len(cells), 1) + 0.05 * known if known >= 1 and (known >= 2 or measures) else 0.0
    )


def _is_units(cells: list[str]) -> bool:
    some = [c for c in cells if c.strip("-–[]() ")]
    return (
        len(some) >= 1
        and len(cells) >= 2
        and all(is_unit(c) or plain(c) in {"rpm", "hz", "1", "%", "v", "n/a", "text", "#"} for c in some)
    )


def _only_directions(cells: list[str]) -> bool:
    some = [c for c in cells if c]
    return len(some) >= 2 and all(direction_of(plain(c)) for c in some)


def _group_line(near: list[int], rows: dict[int, list[str]], names_at: int) -> int | None:
    above = [i for i in near if i < names_at][-2:]
    for i in reversed(above):
        cells = [c for c in rows[i] if c]
        clicks = sum(bool(clicks_of(c)) for c in cells)
        ways = {direction_of(plain(c)) for c in cells if len(plain(c).split()) <= 3} - {None}
        if len(rows[i]) >= 3 and (clicks >= 2 or (len(ways) == 2 and len(cells) <= 4)):
            return i
    return None


def _joined(groups: list[str], names: list[str]) -> list[str]:
    out, group = [], ""
    for over, name in zip(groups, names, strict=True):
        group = over or group
        plainly = describe(0, name)
        alone = plainly.channel in {"velocity", "time", "displacement", "temperature"} and not plainly.direction
        out.append(name if not name or (alone and not over) else f"{group} {name}".strip())
    return out


def _listed(above: Sequence[str], grid: Grid) -> Header | None:
    """Return the header of a file that lists its columns in the preamble: "Column 2: Force [N]"."""
    found = {int(m[1]): m[2].strip().strip("\"'") for m in map(_LISTED.match, above) if m}
    if not found or not any(describe(0, name).known for name in found.values()):
        return None
    base = 0 if 0 in found else 1
    names = [found.get(k + base, "") for k in range(grid.width)]
    columns = tuple(describe(k, _loose(name)) for k, name in enumerate(names))
    return Header(columns, tuple(line for line in above if line.strip()), frozenset())


def _loose(name: str) -> str:
    parts = [part.strip() for part in re.split(r"[;|\t,]", name) if part.strip()]
    return f"{parts[0]} [{parts[1]}]" if len(parts) >= 2 and is_unit(parts[1]) else name


def _nameless(above: Sequence[str], grid: Grid, rows: dict[int, list[str]], units_at: int | None) -> Header:
    lines = tuple(line for i, line in enumerate(above) if line.strip() and i != units_at)
    if units_at is None:
        return Header(tuple(describe(k, "") for k in range(grid.width)), lines, frozenset(), found=False)
    cells = _pad(rows[units_at], grid.width)
    return Header(tuple(describe(k, c) for k, c in enumerate(cells)), lines, frozenset({above[units_at].strip()}), True)


def _pad(cells: list[str], width: int) -> list[str]:
    return (cells + [""] * width)[:width]


def _cells(line: str, grid: Grid, first_row: str) -> list[str]:
    """Return a header line's cells; a header may be set otherwise than its body."""
    bare = uncomment(line)
    if grid.delimiter == BLANKS:
        return _blank_cells(bare, line, grid, first_row)
    cells = _trim(split(bare, grid.delimiter), grid.width)
    if 2 <= len(cells) <= grid.width:
        return cells
    for other in (";", "\t", "|", ","):
        cells = _trim(split(bare, other), grid.width)
        if other != grid.delimiter and len(cells) == grid.width and len(cells) > 1:
            return cells
    return [] if len(cells) > grid.width else split(bare, grid.delimiter)


def _trim(cells: list[str], width: int) -> list[str]:
    while len(cells) > 1 and not cells[-1] and len(cells) > width:
        cells.pop()
    return cells


def _blank_cells(bare: str, line: str, grid: Grid, first_row: str) -> list[str]:
    for other in (";", "|", ","):
        cells = [c for c in split(bare, other) if c]
        if len(cells) == grid.width and len(cells) > 1:
            return cells
    for pattern in (r"\t+|\s{2,}", r"\s+(?![\[({<])", r"\s+"):
        cells = [c for c in re.split(pattern, bare.strip()) if c]
        if len(cells) == grid.width:
            return cells
    cells = [c.strip() for c in re.findall(r"[^\])}>]+[\[({<][^\])}>]*[\])}>]", bare)]
    return cells if len(cells) == grid.width else _by_position(line, first_row, grid.width)


def _by_position(line: str, first_row: str, width: int) -> list[str]:
    """Return the words of a header line, each put to the column of the body that it stands over."""
    spans = [m.span() for m in re.finditer(r"\S+", first_row)]
    if len(spans) != width:
        return []
    cells = [""] * width
    for word in re.finditer(r"\S+", line):
        centre = (word.start() + word.end()) / 2
        at = min(range(width), key=lambda k: abs((spans[k][0] + spans[k][1]) / 2 - centre))
        cells[at] = f"{cells[at]} {word[0]}".strip()
    return cells


def names_columns(lines: Sequence[str]) -> bool:
    """Whether a line of a file without rows names columns."""
    return any(
        sum(describe(0, c).channel is not None for c in split(line, mark)) >= 2
        for line in lines[:100]
        for mark in ";\t|,"
    )
