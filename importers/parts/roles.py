"""Which of a table's columns is what: one column a channel, columns a direction or a click position, keys of a row."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace
from typing import NamedTuple

import numpy as np

from dynoan.errors import ReadError
from importers.assumptions.parts import CLICKS_BELOW, SAME_NUMBERS, SAME_QUANTITY
from importers.header import HeaderColumn
from importers.parts.branches import sum_of_others
from importers.parts.gas_column import is_gas
from importers.parts.key_columns import key_columns
from importers.parts.part import ColumnRoles
from importers.parts.several import itself, of_the_shock, unfiltered
from importers.parts.stated_columns import DIRECTIONS, stated_columns
from importers.parts.wide_columns import wide_columns
from importers.patterns import regex
from importers.tables import ParsedTable
from importers.words.adjusters import CLICK_WORD
from importers.words.channels import DEVIATIONS, EXTREMES, MEANS, TABLE_WORDS, TOTAL
from importers.words.spelling import plain
from importers.words.unit_text import KIND, kinds_of, scale_of

CHANNELS = tuple(KIND)
_BRACKETS = regex(r"[\[(].*")
#: what a sensor gave before it was scaled
_VOLTS = regex(r"[\[(]\s*(?:m?V|[Vv]olts?)\s*[\])]|[_\s](?:m?V|[Vv]olts?|raw|counts?|adc)\s*$")
#: names of a time column that is none of the run
_CLOCKS = frozenset(("timestamp", "clock"))


class _Directed(NamedTuple):
    """Columns that hold one direction only, by direction."""

    forces: dict[str, HeaderColumn]
    speeds: dict[str, HeaderColumn]


def assign_roles(table: ParsedTable, name: str) -> ColumnRoles:
    """Return the roles of a table's columns.

    Raises
    ------
    ReadError
        If a channel could be two columns, or a named column is not there.
    """
    columns = stated_columns(table, name)
    usable = [c for c in columns if c.index in table.values or (c.role and c.index in table.texts)]
    usable = [settled(c, usable, table) for c in usable]
    keys = key_columns(columns, usable, table)
    numeric = [c for c in usable if c.index in table.values and not c.role]
    wide = wide_columns(numeric, table, name)
    rest = _of_trace([c for c in numeric if c not in wide])
    directed = _directed(rest, table, name)
    taken = {c.index for c in (*directed.forces.values(), *directed.speeds.values())}
    channels = {}
    forced = bool(wide or directed.forces) or any(c.channel == "force" for c in rest)
    for channel in CHANNELS:
        found = [c for c in rest if c.channel == channel and c.index not in taken]
        if found and not (channel == "force" and len(directed.forces) == 2):
            # A log of several positions without force is refused as that, not asked which position it is.
            channels[channel] = _one(found, channel, table, name) if forced or len(found) == 1 else found[0]
    return ColumnRoles(channels, directed.forces, directed.speeds, wide, keys)


def settled(column: HeaderColumn, others: Sequence[HeaderColumn], table: ParsedTable) -> HeaderColumn:
    """Settle "Compression" or "C" without a unit: forces of a direction, or clicks where there is a force column."""
    if column.direction is None or column.channel or column.unit or column.clicks:
        return column
    if column.role not in (None, "c", "r") or re.search(rf"\b{CLICK_WORD}\b", plain(column.text)):
        return column
    forces = any(_is_force_beside(c, column) for c in others if c.index != column.index)
    if not forces:
        return replace(column, role=None)
    x = table.values.get(column.index)
    there = np.empty(0) if x is None else x[np.isfinite(x)]
    whole = len(there) > 0 and bool(np.all((np.round(there) == there) & (there >= 0) & (there < CLICKS_BELOW)))
    return replace(column, role=column.direction[0]) if whole else column


def _is_force_beside(other: HeaderColumn, column: HeaderColumn) -> bool:
    """Whether beside another column this one is clicks: it is a force of no direction, or of the same by its unit."""
    return (other.channel == "force" and not other.lesser) or (
        other.direction == column.direction and "force" in kinds_of(other.unit)
    )


def _of_trace(rest: list[HeaderColumn]) -> list[HeaderColumn]:
    """Take a trace's one force column that names a direction as the force, positive in that direction.

    Under a click, such as "Reb 4", the direction is the adjuster's.
    """
    forces = [c for c in rest if c.direction and c.channel == "force"]
    if len(forces) != 1 or not any(c.channel == "time" for c in rest):
        return rest
    if any(c.channel == "force" and c not in forces and not c.lesser for c in rest):
        return rest
    one = forces[0]
    return [replace(c, direction=None, positive=None if one.clicks else one.direction) if c is one else c for c in rest]


def _directed(rest: Sequence[HeaderColumn], table: ParsedTable, name: str) -> _Directed:
    found = _Directed({}, {})
    for way in DIRECTIONS:
        mine = [c for c in rest if c.direction == way]
        force = [c for c in mine if c.may_be_force]
        speed = [c for c in mine if c.channel == "velocity"]
        if force:
            found.forces[way] = _the_one(force, way, table, name)
        if speed:
            found.speeds[way] = _the_one(speed, way, table, name)
    if len(found.speeds) == 1 and not found.forces:
        return _Directed({}, {})
    undirected = any(c.channel == "force" and c.direction is None and not c.lesser for c in rest)
    beside = {c.channel for c in rest} & {"time", "displacement"}
    # A whole trace carries its force itself: what it names by direction beside that are results.
    results = undirected and (len(beside) == 2 or (beside and len(found.forces) == 1))
    return _Directed({}, {}) if results else found


def _the_one(found: list[HeaderColumn], way: str, table: ParsedTable, name: str) -> HeaderColumn:
    """Return the one column of a direction."""
    best = _means(found) or [c for c in found if not c.lesser] or found
    if len(best) == 1 or _same(best, best[0].channel or "force", table):
        return best[0]
    if (one := itself(best)) is not None:
        return one
    raise _several(best, way, name)


def _means(found: Sequence[HeaderColumn]) -> list[HeaderColumn]:
    """Return the column of means where all others say how far it scatters or are its runs; none where they do not."""
    if len(found) < 2:
        return []
    words = [set(plain(c.text).split()) for c in found]
    means = [c for c, w in zip(found, words, strict=True) if w & MEANS]
    rest = [w for w in words if not w & MEANS]
    scatter = all(w & (EXTREMES | DEVIATIONS) for w in rest) or len({frozenset(_unnumbered(w)) for w in words}) == 1
    apart = len(rest) >= 2 or all(w & DEVIATIONS for w in rest)
    return means if len(means) == 1 and rest and apart and scatter else []


def _unnumbered(words: set[str]) -> set[str]:
    return {word for word in words - MEANS - TABLE_WORDS["run"] if not word.isdigit()}


def _one(found: list[HeaderColumn], channel: str, table: ParsedTable, name: str) -> HeaderColumn:
    """Return the one column that is a channel."""
    best = (
        _means(found)
        or [c for c in found if not c.lesser and not c.by_unit]
        or [c for c in found if not c.lesser]
        or found
    )
    best = [c for c in best if not c.unknown_unit and not _VOLTS.search(c.text)] or best
    if channel == "pressure":
        best = [c for c in best if is_gas(c)] or best
    if channel == "time":
        best = [c for c in best if plain(_BRACKETS.sub("", c.text)) not in _CLOCKS] or best
    if len(best) == 1 or channel in ("temperature", "pressure"):
        return best[0]
    exact = [c for c in best if len(plain(c.text.split("[")[0].split("(")[0]).split()) == 1]
    if len(exact) == 1:
        return exact[0]
    if _same(best, channel, table) and not (channel == "force" and _are_numbered(best)):
        return best[0]
    sums = [c for c in found if c not in best and not c.lesser and {*plain(c.text).split()} & TOTAL]
    if (total := sum_of_others([*best, *sums], table)) is not None:
        return total
    if (one := of_the_shock(best) or unfiltered(best, table) or itself(best)) is not None:
        return one
    raise _several(best, channel, name)


def _are_numbered(found: Sequence[HeaderColumn]) -> bool:
    """Whether names are alike but for a number, as of cells that share a load: equal halves are no copies."""
    words = [plain(c.text).split() for c in found]
    numbers = [[w for w in name if w.isdigit()] for name in words]
    alike = len({tuple(w for w in name if not w.isdigit()) for name in words}) == 1
    return alike and all(numbers) and len({*map(tuple, numbers)}) == len(found)


def _several(columns: Sequence[HeaderColumn], what: str, name: str) -> ReadError:
    texts = [c.text for c in columns]
    told = [c.text if texts.count(c.text) == 1 else f"{c.text}#{texts[: i + 1].count(c.text)}"
            for i, c in enumerate(columns)]  # fmt: skip
    names = ", ".join(f"'{text}'" for text in told)
    both = "; if they are the two directions, name them with --column compression=NAME --column rebound=NAME; "
    both += "if they share the load, add them up in one column first"
    hint = both if what == "force" and len(columns) == 2 else ""
    return ReadError(f"{what} could be {names}", where=name, hint=f"choose with --column {what}=NAME{hint}")


def _same(columns: Sequence[HeaderColumn], channel: str, table: ParsedTable) -> bool:
    """Whether columns hold the same quantity in several units."""
    kind = KIND[channel]
    if not all(c.unit and kind in kinds_of(c.unit) for c in columns):
        return False
    scales = [scale_of(c.unit, kind) for c in columns]
    scaled = [table.values[c.index] * s.factor + s.zero for c, s in zip(columns, scales, strict=True)]
    # In one unit only a copy is the same quantity: a force with and without the moving mass differ by little.
    share = SAME_QUANTITY if len({s.factor for s in scales}) == len(columns) else SAME_NUMBERS
    if all(c.direction for c in columns):
        scaled = [np.abs(x) for x in scaled]  # of one direction the sign is how a column writes it
    beside = [x - scaled[0] for x in scaled[1:]]
    size = share * float(np.nanmax(np.abs(scaled[0]), initial=0.0))
    if channel == "displacement":
        # From another zero it is the same motion.
        size = share * float(np.nanmax(scaled[0], initial=-np.inf) - np.nanmin(scaled[0], initial=np.inf))
        beside = [x - x[np.isfinite(x)][:1].sum() for x in beside]
    return all(float(np.nanmax(np.abs(x), initial=0.0)) <= size for x in beside)
