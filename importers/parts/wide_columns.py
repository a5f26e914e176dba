"""Force columns of a wide table: one for each click position."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace

from dynoan.errors import ReadError
from importers.header import HeaderColumn
from importers.parts.by_breaks import direction_above
from importers.tables import ParsedTable
from importers.words.adjusters import ADJUSTER, CLICK_WORD
from importers.words.channels import MEANS
from importers.words.directions import direction_of
from importers.words.spelling import plain

BY_TITLE = "?"  #: the adjuster whose direction the title over a block says: "Compression" over "0 clicks", "6 clicks"


def wide_columns(numeric: Sequence[HeaderColumn], table: ParsedTable, name: str) -> tuple[HeaderColumn, ...]:
    """Return the force columns whose names state clicks, none where the table is not wide.

    Raises
    ------
    ReadError
        If names are bare click numbers, and no line says of which adjuster.
    """
    wide = tuple(c for c in numeric if c.clicks and c.channel in (None, "force"))
    if any(set(plain(c.text).split()) & MEANS and c.direction and not c.clicks for c in numeric):
        return ()  # "Comp 1", "Comp 2" beside "Comp avg" are runs
    if len(wide) >= 2:
        return wide
    return () if any(c.channel == "force" for c in numeric) else _numbered(numeric, table, name)


def _numbered(numeric: Sequence[HeaderColumn], table: ParsedTable, name: str) -> tuple[HeaderColumn, ...]:
    """Return the columns of a wide table whose names are bare click numbers, where a line says of which adjuster."""
    stated = {c.index: m[1] for c in numeric if (m := re.fullmatch(rf"(\d{{1,2}})\s*{CLICK_WORD}?", plain(c.text)))}
    if len(stated) < 2:
        return ()
    adjusters = _adjusters([*table.shared, *table.own, *(c.text for c in table.columns)])
    if not adjusters and _said_to_be_clicks(table) and direction_above(table.own or table.shared):
        adjusters = {BY_TITLE}
    if not adjusters and _said_to_be_clicks(table) and _runs_both_ways(numeric, table):
        adjusters = {"cr"}
    if len(adjusters) != 1:
        shown = ", ".join(repr(v) for v in stated.values())
        raise ReadError(
            f"the columns {shown} look like clicks of an adjuster that no line names",
            where=name,
            hint="write them like 'LSC 4', or name the one to read with --column force=NAME",
        )
    (adjuster,) = adjusters
    way = _way_of(adjuster, (*table.shared, *table.own))
    return tuple(
        replace(c, clicks={adjuster: int(stated[c.index])}, direction=c.direction or way)
        for c in numeric
        if c.index in stated
    )


def _runs_both_ways(columns: Sequence[HeaderColumn], table: ParsedTable) -> bool:
    """Whether the speeds beside bare clicks have both signs: each column is a whole run then, at clicks of one knob."""
    speeds = [table.values[c.index] for c in columns if c.channel == "velocity" and c.index in table.values]
    return len(speeds) == 1 and bool((speeds[0] < 0).any() and (speeds[0] > 0).any())


def numbers_over(table: ParsedTable) -> list[str]:
    """Return the bare numbers over all columns but the first in the line above the rows; none without such."""
    last = next(reversed((*table.shared, *table.own)), "")
    first, *rest = table.grid.cells(last) or [""]
    found = [cell.strip() for cell in rest]
    alone = len(found) >= 2 and len(found) == table.grid.width - 1 and not re.match(r"\s*[\d.,]+\s*$", first)
    return found if alone and all(re.fullmatch(r"\d{1,2}", cell) for cell in found) else []


def _way_of(adjuster: str, lines: Sequence[str]) -> str | None:
    """Return the direction of an adjuster where the lines name that direction and not the other: "Rebound sweep"."""
    said = {direction_of(word) for line in lines for word in plain(line).split() if len(word) > 1} - {None}
    way = {"c": "compression", "r": "rebound"}.get(adjuster[-1]) if adjuster != "cr" else None
    return way if said == {way} else None


def _said_to_be_clicks(table: ParsedTable) -> bool:
    """Whether the columns' names or the lines above speak of clicks."""
    texts = (*table.own, *table.shared, *(c.text for c in table.columns))
    return any(re.search(rf"(?<![a-z]){CLICK_WORD}(?![a-z])", plain(text)) for text in texts)


def with_title_named(columns: Sequence[HeaderColumn], way: str | None) -> tuple[HeaderColumn, ...]:
    """Return columns of clicks that only the title over their block gives an adjuster, with that adjuster."""
    if way is None:
        return tuple(columns)
    return tuple(
        replace(c, clicks={way[0]: c.clicks[BY_TITLE]}, direction=way) if BY_TITLE in c.clicks else c for c in columns
    )


def _adjusters(lines: Sequence[str]) -> set[str]:
    """Return the adjusters that lines name beside a word for clicks."""
    pattern = re.compile(rf"(?<![a-z])(?:{ADJUSTER.pattern})\s*{CLICK_WORD}")
    return {key for line in lines for m in pattern.finditer(plain(line)) for key, hit in m.groupdict().items() if hit}
