"""Tables of one direction, each under a title with its clicks: "Compression, 8 clicks", then "Rebound, 8 clicks"."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

import numpy as np

from importers.header import uncomment
from importers.patterns import regex
from importers.tables import ParsedTable
from importers.words.adjusters import CLICKS_ALONE
from importers.words.directions import direction_of
from importers.words.shock_names import corner_or_shock_in
from importers.words.spelling import plain

_POSITION = regex(
    rf"(?:\bat\b|\bbei\b)?\s*(?:{CLICKS_ALONE}\s*[:=]?\s*(\d{{1,2}})|(\d{{1,2}})\s*{CLICKS_ALONE})|\bat\s(\d{{1,2}})$"
)
_FILL = frozenset(("stroke", "side", "damping", "force", "forces", "curve", "run", "table", "peaks", "out", "open"))


def with_half_titles_apart(tables: Sequence[ParsedTable]) -> list[ParsedTable]:
    """Return the tables with the clicks and the direction of each title in lines of their own.

    Only where every table has such a title, both directions have one, and no speed has a sign: a line
    "Rebound: 8 clicks" above a whole run is its setting.
    """
    titles = [(table.own or table.shared or ("",))[-1] for table in tables]
    found = [_way_and_clicks(title) for title in titles]
    ways = {one[0] for one in found if one is not None}
    if None in found or ways != {"compression", "rebound"} or not all(map(_bears_no_sign, tables)):
        return list(tables)
    shared = tables[0].shared if tables[0].own else tables[0].shared[:-1]
    names = [corner_or_shock_in(title) for title in titles]
    named = [(f"Shock: {name}",) if name else () for name in names]
    return [
        replace(table, shared=shared, own=(*table.own[:-1], *shock, f"{way[0].upper()} = {clicks}", way))
        for table, shock, (way, clicks) in zip(tables, named, filter(None, found), strict=True)
    ]


def _way_and_clicks(title: str) -> tuple[str, int] | None:
    """Return the direction and the clicks that a title is of; None where it says more than these and the shock.

    >>> [_way_and_clicks(t) for t in ("Compression, 8 clicks", "Rebound @ 4", "FL-3 Reb 4 clicks", "Hot, reb 4 clicks")]
    [('compression', 8), ('rebound', 4), ('rebound', 4), None]
    """
    name = corner_or_shock_in(title)
    bare = plain(uncomment(title.replace(name, " ") if name else title).strip(' "').replace("@", " at "))
    position = _POSITION.search(bare) if len(bare) <= 60 else None
    words = [w for w in _POSITION.sub(" ", bare).replace(",", " ").split() if w.strip("-–:;()") and w not in _FILL]
    ways = {direction_of(word) for word in words} if position else set()
    way = ways.pop() if len(ways) == 1 else None
    return (way, int(next(filter(None, position.groups())))) if way and position else None


def _bears_no_sign(table: ParsedTable) -> bool:
    """Whether a table holds one force over speeds of one sign."""
    held = {c.channel or c.direction for c in table.columns if c.index in table.values}
    speed = next((c for c in table.columns if c.channel == "velocity" and c.index in table.values), None)
    if speed is None or held - {"velocity", "force", "temperature", None} or any(c.clicks for c in table.columns):
        return False
    return len({*np.sign(table.values[speed.index])} - {0.0}) == 1
