"""A table with several shocks side by side cut apart: one table for each shock that its columns name."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable
from dataclasses import replace

from importers.header import HeaderColumn
from importers.tables import ParsedTable
from importers.words.shock_names import corner_or_shock_in


def cut_by_shocks(table: ParsedTable) -> dict[str | None, ParsedTable]:
    """Return the table of each shock, by its name; the whole under None where its columns name fewer than two."""
    named = {c.index: shock for c in table.columns if _measured(c) and (shock := corner_or_shock_in(c.text))}
    shocks = list(dict.fromkeys(named.values()))
    forces = [c for c in table.columns if c.index in named and (c.channel == "force" or c.direction)]
    if len(shocks) < 2 or table.options.columns or not _same_again(forces):
        return {None: table}
    return {shock: replace(table, columns=tuple(
        replace(c, channel=None, role=None, direction=None, clicks={}, unit="", unknown_unit="")
        if named.get(c.index, shock) != shock else c for c in table.columns)) for shock in shocks}  # fmt: skip


def _measured(column: HeaderColumn) -> bool:
    return column.channel is not None or column.direction is not None


def _same_again(forces: Iterable[HeaderColumn]) -> bool:
    """Whether force columns repeat: of one shock each stands but once."""
    counts = Counter((c.direction, tuple(c.clicks.items())) for c in forces)
    return bool(counts) and min(counts.values()) >= 2
