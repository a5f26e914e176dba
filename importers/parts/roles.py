"""Which of a table's columns is what: one column a channel, columns a direction or a click position, keys of a row."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field, replace

import numpy as np

from dynoan.errors import ReadError
from dynoan.model.shock import ADJUSTERS
from importers.header.column import Column
from importers.tables.reading import Table
from importers.words.clicks import adjuster_of, clicks_of
from importers.words.units import KIND, kinds_of, scale_of
from importers.words.vocabulary import ADJUSTER, CLICK_WORD, plain

CHANNELS = tuple(KIND)
DIRECTIONS = ("compression", "rebound")


@dataclass(frozen=True)
class Roles:
    """What the columns of a table are."""

    channels: Mapping[str, Column] = field(default_factory=dict)
    forces: Mapping[str, Column] = field(default_factory=dict)  #: by direction
    speeds: Mapping[str, Column] = field(default_factory=dict)  #: velocities by direction
    wide: tuple[Column, ...] = ()  #: force columns that state clicks
    keys: Mapping[str, Column] = field(default_factory=dict)  #: shock, pack, run, cycle, direction, adjusters


def assign(table: Table, name: str) -> Roles:
    """Return the roles of a table's columns.

    Raises
    ------
    ReadError
        If a channel could be two columns, or a named column is not there.
    """
    columns = _stated(table, name)
    usable = [c for c in columns if c.index in table.values or (c.role and c.index in table.texts)]
    usable = [_settled(c, usable, table) for c in usable]
    keys = {c.role: c for c in reversed(usable) if c.role and c.role != "index"}
    stated = _click_texts(columns, table)
    if stated is not None:
        keys["clicks"] = stated
    elif (group := _groups(columns, table)) is not None:
        keys.setdefault("group", group)
    numeric = [c for c in usable if c.index in table.values and not c.role]
    wide = tuple(c for c in numeric if c.clicks and c.channel in (None, "force"))
    if len(wide) < 2:
        wide = _numbered(numeric, table, name) if not any(c.channel == "force" for c in numeric) else ()
    rest = _of_trace([c for c in numeric if c not in wide])
    forces, speeds = _directed(rest, table, name)
    taken = {c.index for c in (*forces.values(), *speeds.values())}
    channels = {}
    for channel in CHANNELS:
        found = [c for c in rest if c.channel == channel and c.index not in taken]
        if found and not (channel == "force" and len(forces) == 2):
            channels[channel] = _one(found, channel, table, name)
    return Roles(channels, forces, speeds, wide, keys)


def _stated(table: Table, name: str) -> list[Column]:
    """Return the columns with what the user or an own layout says they are."""
    columns = list(table.columns)
    for channel, wanted in table.options.columns.items():
        at = _find(columns, wanted)
        if at is None:
            there = ", ".join(c.text or str(c.index + 1) for c in columns)
            raise ReadError(f"{name}: no column '{wanted}' for {channel}; the file has: {there}")
        for i, column in enumerate(columns):
            if column.channel == channel or column.role == channel:
                columns[i] = replace(column, channel=None, role=None)
        columns[at] = _as(columns[at], channel)
    return columns


def _click_texts(columns: Sequence[Column], table: Table) -> Column | None:
    """Return the text column whose cells state clicks, such as "C4 R6"."""
    for column in columns:
        texts = set(table.texts.get(column.index, ()))
        if texts and len(texts) <= 500 and sum(bool(cell_clicks(column.text, t)) for t in texts) > 0.8 * len(texts):
            return column
    return None


def _groups(columns: Sequence[Column], table: Table) -> Column | None:
    """Return an unnamed text column that changes just where a table's speeds start again: it names its runs."""
    speed = next((c for c in columns if c.channel == "velocity" and c.index in table.values), None)
    if speed is None or any(c.channel in ("time", "displacement") for c in columns) or table.rows > 2000:
        return None
    v = np.abs(table.values[speed.index])
    for column in columns:
        texts = table.texts.get(column.index, [])
        turns = [i for i in range(1, len(texts)) if texts[i] != texts[i - 1]]
        if column.role is None and turns and len(set(texts)) == len(turns) + 1 and all(v[i] < v[i - 1] for i in turns):
            return column
    return None


def cell_clicks(name: str, cell: str) -> dict[str, int]:
    """Return the clicks that a cell states, by itself or under a name such as "Comp/Reb clicks"."""
    if found := clicks_of(cell):
        return found
    adjusters = [adjuster_of(plain(part)) for part in re.split(r"[/,;-]", name)]
    numbers = re.findall(r"\d{1,2}", cell)
    if len(adjusters) < 2 or None in adjusters or len(numbers) != len(adjusters):
        return {}
    return {a: int(n) for a, n in zip(adjusters, numbers, strict=True) if a}


def _settled(column: Column, others: Sequence[Column], table: Table) -> Column:
    """Settle "Compression" or "C" without a unit: forces of a direction, or clicks where there is a force column."""
    if (
        column.direction is None
        or column.channel
        or column.unit
        or column.clicks
        or column.role not in (None, "c", "r")
    ):
        return column
    if re.search(rf"\b{CLICK_WORD}\b", plain(column.text)):
        return column
    forces = any(c.channel == "force" and not c.lesser for c in others if c.index != column.index)
    if not forces:
        return replace(column, role=None)
    x = table.values.get(column.index)
    whole = x is not None and bool(np.all((np.round(x) == x) & (x >= 0) & (x < 100)))
    return replace(column, role=column.direction[0]) if whole else column


def _as(column: Column, channel: str) -> Column:
    if channel in DIRECTIONS:
        return replace(column, channel="force", role=None, direction=channel)
    if channel in ADJUSTERS or channel in ("shock", "pack", "run", "direction"):
        return replace(column, channel=None, role=channel, direction=None)
    return replace(column, channel=channel, role=None, direction=None, clicks={}, lesser=False)


def _find(columns: Sequence[Column], wanted: str) -> int | None:
    """Return the one column that a text names: as it stands, in plain words, without its unit, or by number."""
    tests: tuple[Callable[[Column], bool], ...] = (
        lambda c: c.text == wanted,
        lambda c: plain(c.text) == plain(wanted),
        lambda c: plain(re.split(r"[\[(]", c.text)[0]) == plain(wanted),
        lambda c: str(c.index + 1) == wanted.strip(),
    )
    for test in tests:
        hits = [i for i, c in enumerate(columns) if test(c)]
        if len(hits) == 1:
            return hits[0]
    return None


def _numbered(numeric: list[Column], table: Table, name: str) -> tuple[Column, ...]:
    """Return the columns of a wide table whose names are bare click numbers, where a line says of which adjuster."""
    stated = {c.index: m[1] for c in numeric if (m := re.fullmatch(rf"(\d{{1,2}})\s*{CLICK_WORD}?", plain(c.text)))}
    if len(stated) < 2:
        return ()
    lines = [*table.shared, *table.own, *(c.text for c in table.columns)]
    pattern = rf"(?<![a-z])(?:{ADJUSTER.pattern})\s*{CLICK_WORD}"
    names = {
        key for line in lines for m in re.finditer(pattern, plain(line)) for key, hit in m.groupdict().items() if hit
    }
    if len(names) != 1:
        shown = ", ".join(repr(v) for v in stated.values())
        raise ReadError(f"{name}: the columns {shown} look like clicks of an adjuster that no line names; "
                        "write them like 'LSC 4', or name the one to read with --column force=NAME")  # fmt: skip
    adjuster = next(iter(names))
    return tuple(replace(c, clicks={adjuster: int(stated[c.index])}) for c in numeric if c.index in stated)


def _of_trace(rest: list[Column]) -> list[Column]:
    """Take a trace's one force column that names a direction as the force, positive in that direction."""
    forces = [c for c in rest if c.direction and c.channel == "force"]
    if len(forces) != 1 or not any(c.channel == "time" for c in rest):
        return rest
    if any(c.channel == "force" and c not in forces and not c.lesser for c in rest):
        return rest
    one = forces[0]
    return [replace(c, direction=None, positive=one.direction) if c is one else c for c in rest]


def _directed(rest: list[Column], table: Table, name: str) -> tuple[dict[str, Column], dict[str, Column]]:
    forces: dict[str, Column] = {}
    speeds: dict[str, Column] = {}
    for way in DIRECTIONS:
        mine = [c for c in rest if c.direction == way]
        force = [c for c in mine if c.channel == "force" or (c.channel is None and not c.unknown_unit and not c.unit)]
        speed = [c for c in mine if c.channel == "velocity"]
        if force:
            forces[way] = _the_one(force, way, table, name)
        if speed:
            speeds[way] = _the_one(speed, way, table, name)
    if len(speeds) == 1 and not forces:
        return {}, {}
    undirected = any(c.channel == "force" and c.direction is None and not c.lesser for c in rest)
    if len(forces) == 1 and undirected and any(c.channel in ("time", "displacement") for c in rest):
        return {}, {}
    return forces, speeds


def _the_one(found: list[Column], way: str, table: Table, name: str) -> Column:
    """Return the one column of a direction."""
    best = [c for c in found if not c.lesser] or found
    if len(best) == 1 or _same(best, best[0].channel or "force", table):
        return best[0]
    names = ", ".join(f"'{c.text}'" for c in best)
    raise ReadError(f"{name}: {way} could be {names}; choose with --column {way}=NAME")


def _one(found: list[Column], channel: str, table: Table, name: str) -> Column:
    """Return the one column that is a channel."""
    best = [c for c in found if not c.lesser and not c.by_unit] or [c for c in found if not c.lesser] or found
    if channel == "time":
        best = [c for c in best if plain(c.text) not in {"timestamp", "clock"}] or best
    if len(best) == 1 or channel in ("temperature", "pressure"):
        return best[0]
    exact = [c for c in best if len(plain(c.text.split("[")[0].split("(")[0]).split()) == 1]
    if len(exact) == 1:
        return exact[0]
    if _same(best, channel, table):
        return best[0]
    names = ", ".join(f"'{c.text}'" for c in best)
    raise ReadError(f"{name}: {channel} could be {names}; choose with --column {channel}=NAME")


def _same(columns: list[Column], channel: str, table: Table) -> bool:
    """Whether columns hold the same quantity in several units."""
    kind = KIND[channel]
    if not all(c.unit and kind in kinds_of(c.unit) for c in columns):
        return False
    scaled = [table.values[c.index] * scale_of(c.unit, kind)[0] + scale_of(c.unit, kind)[1] for c in columns]
    size = float(np.nanmax(np.abs(scaled[0]), initial=0.0))
    return all(float(np.nanmax(np.abs(s - scaled[0]), initial=0.0)) <= 0.01 * size for s in scaled[1:])


__all__ = ["Roles", "assign"]
