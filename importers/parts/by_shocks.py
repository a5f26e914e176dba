"""A table with several shocks side by side cut apart: one table for each shock that its columns name."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import replace

from importers.header import HeaderColumn
from importers.tables import ParsedTable
from importers.words.shock_names import corner_or_shock_in, side_in

_BOTH = {"compression", "rebound"}
_MOTIONS = frozenset(("velocity", "displacement"))


def cut_by_shocks(table: ParsedTable) -> dict[str | None, ParsedTable]:
    """Return the table of each shock, by its name; the whole under None where its columns name fewer than two."""
    measured = [c for c in table.columns if c.index in table.values and _measured(c)]
    named = {c.index: shock for c in measured if (shock := corner_or_shock_in(c.text))} or _by_sides(measured)
    shocks = list(dict.fromkeys(named.values()))
    forces = [c for c in table.columns if c.index in named and (c.channel == "force" or c.direction)]
    if len(shocks) < 2 or table.options.columns or not _same_again(forces):
        return {None: table}
    return {shock: replace(table, columns=tuple(
        replace(c, channel=None, role=None, direction=None, clicks={}, unit="", unknown_unit="")
        if named.get(c.index, shock) != shock else c for c in table.columns)) for shock in shocks}  # fmt: skip


def _by_sides(columns: Sequence[HeaderColumn]) -> dict[int, str]:
    """Return the side of the car that columns name, where each has its own motion beside its force, or both directions.

    Two forces over one motion may be two cells under one shock, whose sum counts.
    """
    named = {c.index: side for c in columns if (side := side_in(c.text))}
    held = {side: {c.channel for c in columns if named.get(c.index) == side} for side in named.values()}
    whole = all("force" in channels and channels & _MOTIONS for channels in held.values())
    alone = any(c.channel in ("force", *_MOTIONS) and c.index not in named for c in columns)
    ways = {side: {c.direction for c in columns if named.get(c.index) == side} for side in named.values()}
    both = bool(ways) and all(found == _BOTH for found in ways.values())
    speeds = [c for c in columns if c.index not in named]
    peaks = both and len(speeds) == 1 and speeds[0].channel == "velocity"
    return named if peaks or (whole and not alone) else {}


def _measured(column: HeaderColumn) -> bool:
    return column.channel is not None or column.direction is not None


def _same_again(forces: Iterable[HeaderColumn]) -> bool:
    """Whether force columns repeat: of one shock each stands but once."""
    counts = Counter((c.direction, tuple(c.clicks.items())) for c in forces)
    return bool(counts) and min(counts.values()) >= 2
