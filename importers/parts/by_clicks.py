"""A wide table cut apart: one part for each click position among the column names."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

from dynoan.errors import ReadError
from importers.header import HeaderColumn
from importers.parts.part import ColumnRoles, SweepPart
from importers.parts.told import told


def cut_by_clicks(part: SweepPart) -> Iterator[SweepPart]:
    """Yield the columns of each click position as a part of their own.

    Raises
    ------
    ReadError
        If several columns are of one position and do not say which direction each is.
    """
    if not part.roles.wide:
        yield part
        return
    groups: dict[tuple[tuple[str, int], ...], list[HeaderColumn]] = {}
    for column in part.roles.wide:
        groups.setdefault(tuple(sorted(column.clicks.items())), []).append(column)
    for clicks, columns in groups.items():
        stated = replace(part.facts, clicks={**part.facts.clicks, **dict(clicks)})
        label = ", ".join(f"{k} {v}" for k, v in clicks)
        roles = _roles(part, columns)
        yield replace(part.labelled(label, told(stated, part.table.options)), roles=roles)


def _roles(part: SweepPart, columns: Sequence[HeaderColumn]) -> ColumnRoles:
    """Return the roles of a part with the force columns of one click position."""
    forces = {c.direction: c for c in columns if c.direction}
    undirected = [c for c in columns if not c.direction]
    if len(undirected) > 1 or len(forces) + len(undirected) < len(columns):
        raise ReadError(f"{part.name}: several columns say {columns[0].text!r} and not which direction; name them "
                        "compression and rebound")  # fmt: skip
    channels = dict(part.roles.channels)
    if undirected and not forces:
        channels["force"] = undirected[0]
    else:
        channels.pop("force", None)
    return ColumnRoles(channels, forces, part.roles.speeds, keys=part.roles.keys)
