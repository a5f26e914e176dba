"""The line over the names whose few cells each stand over several columns: clicks, shocks, directions, or runs."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace
from itertools import pairwise

from importers.assumptions.header import GROUPS_REACH
from importers.header.column import HeaderColumn, describe_column
from importers.header.header import NearLines
from importers.patterns import regex
from importers.words.adjusters import adjuster_of
from importers.words.clicks import clicks_of
from importers.words.dates import is_month
from importers.words.directions import direction_of
from importers.words.keys import KNOWN
from importers.words.shock_names import corner_or_shock_in
from importers.words.spelling import plain
from importers.words.unit_text import is_unit

_FEW_WAYS = 4  #: cells of a line of directions over groups, at the most
_BRACKETED = regex(r"[\[(][^()\[\]]{1,12}[\])]")
#: channels that one column gives all groups of a wide table
_SHARED = frozenset(("velocity", "time", "displacement", "temperature"))


def group_line(near: NearLines, names_at: int) -> int | None:
    """Return the line above the names whose few cells each stand over several columns."""
    above = [i for i in near.at if i < names_at][-GROUPS_REACH:]
    for i in reversed(above):
        if is_setting(near.cells[i], near.cells[names_at]) or _is_wider(near.cells[i], near.cells[names_at]):
            continue
        if _speaks(near.cells[i]) or _repeats(near.cells[names_at], near.cells[i]):
            return i
    return None


def _is_wider(over: Sequence[str], names: Sequence[str]) -> bool:
    """Whether a line has a cell beyond all names: it is of another square than theirs."""
    last = max((k for k, cell in enumerate(over) if cell), default=0)
    return not any(names[last:])


def _speaks(cells: Sequence[str]) -> bool:
    """Whether a line's cells state clicks, shocks or both directions: what belongs to the columns' names."""
    some = [c for c in cells if c]
    if len(cells) < 3 or any(_states_fact(c) for c in some) or _are_set(some):
        return False
    clicks = sum(bool(clicks_of(c)) for c in some)
    shocks = len({corner_or_shock_in(c) for c in some} - {None})
    days = len({c for c in some if c[-1:].isdigit() and is_month(c)})
    return clicks >= 2 or shocks >= 2 or days >= 2 or (len(some) <= _FEW_WAYS and _are_ways(some))


def _are_ways(some: Sequence[str]) -> bool:
    """Whether cells name both directions; "Comp full hard, reb full soft" is a setting."""
    bare = [plain(_BRACKETED.sub(" ", c)) for c in some]
    ways = {direction_of(c) for c in bare if len(c.split()) <= 3} - {None}
    return len(ways) == 2 and (any(c.isdigit() for c in "".join(some)) or not clicks_of(" ".join(some)))


def _are_set(some: Sequence[str]) -> bool:
    """Whether cells are adjusters, each before its number: "High speed comp", "2", "High speed reb", "3"."""
    pairs = list(zip(some[::2], some[1::2], strict=False))
    return len(some) == 2 * len(pairs) > 0 and all(
        adjuster_of(plain(name)) is not None and re.fullmatch(r"\d{1,2}(?:\.0)?", n) for name, n in pairs
    )


def is_setting(cells: Sequence[str], names: Sequence[str]) -> bool:
    """Whether a line such as "LSC 5, HSC 2, LSR 9" is the run's setting: other adjusters all, or over the speeds."""
    stated = [(k, adjuster) for k, cell in enumerate(cells) for adjuster in clicks_of(cell)]
    if len({adjuster for _, adjuster in stated}) < max(len(stated), 2):
        return False
    if len(stated) >= 3 or _each_over_its_own(stated, names):
        return True
    columns = [describe_column(k, name) for k, name in enumerate(names)]
    first = columns[stated[0][0]] if stated[0][0] < len(columns) else HeaderColumn(0, "")
    if first.channel in _SHARED and not first.direction:
        return True
    return _begins_the_line(cells, columns[0]) or (_tell_directions(columns) and not _repeats(names, cells))


def _begins_the_line(cells: Sequence[str], first: HeaderColumn) -> bool:
    """Whether words that name no column stand over the speeds or the count of rows: a line about the run, no groups."""
    own = describe_column(0, cells[0])
    over = first.channel in _SHARED or first.role == "index"
    return over and bool(cells[0]) and not own.known and not direction_of(plain(cells[0]))


def _tell_directions(columns: Sequence[HeaderColumn]) -> bool:
    """Whether columns tell directions without the line above: by a column of them, or each by its name."""
    ways = [c.direction for c in columns]
    return any(c.role == "direction" for c in columns) or {"compression", "rebound"} <= {*ways}


def _each_over_its_own(stated: Sequence[tuple[int, str]], names: Sequence[str]) -> bool:
    """Whether each adjuster stands over the only column of its direction, or each over that of the other's."""
    ways = [direction_of(plain(name)) for name in names]
    over = {(ways[k] if k < len(ways) else None, adjuster[-1]) for k, adjuster in stated}
    both = over in ({("compression", "c"), ("rebound", "r")}, {("compression", "r"), ("rebound", "c")})
    return both and ways.count("compression") == ways.count("rebound") == 1


def _states_fact(cell: str) -> bool:
    """Whether a cell is a key and its value, such as "Damper no: 12": the line is of the run then, not of columns."""
    key, mark, value = cell.partition(":")
    bare = plain(key)
    known = {bare, re.sub(r"\s+(?:no|nr|id|number)\.?$", "", bare)} & KNOWN
    return bool(mark and value.strip() and known)


def _repeats(names: Sequence[str], over: Sequence[str]) -> bool:
    """Whether the same columns stand under each cell of the line over the names."""
    at = [k for k, cell in enumerate(over) if cell and not is_unit(cell)]
    if len(at) < 2 or at[-1] >= len(names) or any(":" in cell for cell in over):
        return False
    sets = [[n for n in names[a:b] if n] for a, b in pairwise([*at, len(names)])]
    first = next(iter(sets[0]), over[at[0]])
    if len(sets) > 2 and len(sets[0]) < 2 and describe_column(0, first).channel in _SHARED:
        sets = sets[1:]  # all share one time or speed, whose name may stand in the line over the others'
    return len(sets[0]) >= 2 and all(one == sets[0] for one in sets)


def grouped_columns(names: Sequence[str], units: Sequence[str], over: Sequence[str]) -> tuple[HeaderColumn, ...]:
    """Return the columns of names and units, each with the cell of the line over them that it stands under."""
    columns, group = [], ""
    for k, (name, unit, cell) in enumerate(zip(names, units, over, strict=True)):
        group = cell or group
        column = describe_column(k, name, unit.strip("-–"))
        columns.append(replace(column, group=group) if group else column)
    return tuple(columns)


def under_groups(groups: Sequence[str], names: Sequence[str]) -> list[str]:
    """Return names with the group each stands under, where groups say what columns hold; else the names."""
    if _speaks(groups):
        return _joined(list(groups), list(names))
    pairs = zip(groups, names, strict=True)
    return [over if not name and describe_column(0, over).channel in _SHARED else name for over, name in pairs]


def _joined(groups: list[str], names: list[str]) -> list[str]:
    """Return names with the group each stands under; a shared column stands under none."""
    out, group = [], ""
    for over, name in zip(groups, names, strict=True):
        if not name and describe_column(0, over).channel in _SHARED:
            out.append(over)  # its name stands one line higher than the others'
            continue
        group = _short(over) or group
        alone = describe_column(0, name)
        shared = alone.channel in _SHARED and not alone.direction and not over
        if clicks_of(group) and alone.direction and len(name.split()[0]) == 1:
            name = f"{alone.direction} {' '.join(name.split()[1:])}"  # "C lbf", which is no knob under "Reb 5"
        over_it, behind = unit_apart(group) if name[:1].isdigit() else (group, "")
        out.append(name if not name or shared else f"{over_it} {name}{behind}".strip())
    return out


def unit_apart(group: str) -> tuple[str, str]:
    """Return a direction's group without its unit, and the unit as it goes behind a name; any other group as it is.

    >>> unit_apart("Comp (lbf)"), unit_apart("压缩力 N"), unit_apart("Rebound 4")
    (('Comp', ' (lbf)'), ('压缩力', ' (N)'), ('Rebound 4', ''))
    """
    unit = _BRACKETED.search(group)
    if unit and direction_of(plain(_BRACKETED.sub(" ", group))):
        return group.replace(unit[0], " ").strip(), f" {unit[0]}"
    bare, _, last = group.rpartition(" ")
    if bare and is_unit(last, "force") and direction_of(plain(bare)):
        return bare, f" ({last})"
    return group, ""


def _short(group: str) -> str:
    """Return a group's clicks alone where it states some: its words for directions are no column's."""
    clicks = clicks_of(group)
    worded = any(len(w) > 1 and direction_of(w) for w in plain(group).split())
    return " ".join(f"{k}={v}" for k, v in clicks.items()) if clicks and worded else group
