"""A column of which nothing is known but that the user states the unit of a channel that no other column is."""

from __future__ import annotations

from dataclasses import replace

from importers.header import HeaderColumn
from importers.tables import ParsedTable
from importers.words.channels import OTHER
from importers.words.spelling import plain


def with_unit_alone(table: ParsedTable) -> ParsedTable:
    """Return a table whose one open column is the channel that no other is and whose unit the user states, else it."""
    for channel in table.user.units:
        held = {"force" if c.direction and c.channel is None else c.channel for c in table.columns}
        left = [c for c in table.columns if c.index in table.values and _is_open(c)]
        if channel in held or channel in table.options.columns or len(left) != 1:
            continue
        (one,) = left
        said = (
            f"column '{one.text}' is taken as {channel}, as you give its unit and nothing tells what else it could be"
        )
        columns = tuple(replace(c, channel=channel, unknown_unit="") if c is one else c for c in table.columns)
        table = replace(table, columns=columns, warnings=(*table.warnings, said))
    return table


def _is_open(column: HeaderColumn) -> bool:
    """Whether a named column says nothing that is known here, not even that it is something else."""
    return bool(column.text) and not column.known and not set(plain(column.text).split()) & OTHER
