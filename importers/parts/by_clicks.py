"""A wide table cut apart: one part for each click position among the column names."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace

import numpy as np

from dynoan.errors import ReadError
from dynoan.model.warned import TakenForBoth
from importers.assumptions.parts import SIGNS_AGREE
from importers.header import HeaderColumn
from importers.parts.numbered_runs import numbered_runs, runs_said, without_clicks
from importers.parts.part import ColumnRoles, SweepPart
from importers.parts.swept import with_swept_adjuster
from importers.parts.told import told
from importers.parts.wide_columns import BY_TITLE, with_title_named
from importers.words.clicks import clicks_of
from importers.words.parted_clicks import parted_clicks

_WAYS = {"c": "compression", "r": "rebound"}


def cut_by_clicks(part: SweepPart) -> Iterator[SweepPart]:
    """Yield the columns of each click position as a part of their own.

    Raises
    ------
    ReadError
        If several columns are of one position and do not say which direction each is.
    """
    if odd := [c.text for c in part.table.columns if c.direction and parted_clicks(c.text)]:
        done = "left out" if part.roles.wide else "no clicks were taken of it"
        of_parts = f"'{odd[0]}'{' and so on are' if len(odd) > 1 else ' is'} of no whole number of clicks: {done}"
        part = replace(part, facts=replace(part.facts, warnings=(*part.facts.warnings, of_parts)))
    if not part.roles.wide:
        yield part
        return
    part = replace(part, roles=replace(part.roles, wide=with_title_named(part.roles.wide, part.direction)))
    part = with_swept_adjuster(part)
    if any(BY_TITLE in c.clicks for c in part.roles.wide):
        raise ReadError(
            f"clicks such as '{part.roles.wide[0].text}' stand under a title that names no direction",
            where=part.name,
            hint="write them like 'LSC 4'",
        )
    if runs := numbered_runs(part.roles.wide):
        yield from _by_runs(part, runs)
        return
    if (both := _one_setting(part.roles.wide)) is not None:
        stated = replace(part.facts, clicks={**part.facts.clicks, **both})
        yield replace(part, facts=told(stated, part.table.options), roles=_roles(part, part.roles.wide))
        return
    groups: dict[tuple[tuple[str, int], ...], list[HeaderColumn]] = {}
    wide = [replace(c, direction=None) if _holds_both_ways(part, c) else c for c in part.roles.wide]
    wide, told_ways = _ways_of_knobs(part, wide)
    both_ways = _pairs_of_knobs(wide)
    shared = _of_all(part, wide)
    of_all = (f"'{c.text}' names no clicks: taken as of each setting of the other direction" for c in shared)
    said = (*told_ways, *_knob_said(wide), *of_all)
    for column in wide:
        key = tuple(sorted(both_ways.get(column.index, column.clicks).items()))
        groups.setdefault(key, []).append(column)
    for clicks, columns in groups.items():
        together = (both_knobs_said([c.text for c in columns], dict(clicks)),) * bool(both_ways)
        warnings = (*part.facts.warnings, *said, *together)
        stated = replace(part.facts, clicks={**part.facts.clicks, **dict(clicks)}, warnings=warnings)
        label = ", ".join(f"{k} {v}" for k, v in clicks)
        roles = _roles(part, [*columns, *shared])
        yield replace(part.labelled(label, told(stated, part.table.options)), roles=roles)


def _of_all(part: SweepPart, wide: Sequence[HeaderColumn]) -> list[HeaderColumn]:
    """Return the one force of a direction that has no clicks beside forces at clicks of the other alone."""
    ways = {c.direction for c in wide}
    others = [column for way, column in part.roles.forces.items() if way not in ways]
    return others if len(ways) == 1 and None not in ways and len(others) == 1 else []


def _by_runs(part: SweepPart, runs: Mapping[int, int]) -> Iterator[SweepPart]:
    """Yield the columns of each run, both directions together."""
    wide = part.roles.wide
    facts = replace(part.facts, warnings=(*part.facts.warnings, runs_said(wide)))
    for run in sorted(set(runs.values())):
        mine = without_clicks([c for c in wide if runs[c.index] == run])
        yield replace(part.labelled(f"run {run}", facts), roles=_roles(part, mine))


def _one_setting(columns: Sequence[HeaderColumn]) -> dict[str, int] | None:
    """Return the clicks of one compression and one rebound column that each state their own adjusters alone.

    "C 8" over compression and "R 10" over rebound are one setting; "C 8" over both would be another matter.
    """
    by_way = {c.direction: c for c in columns}
    if len(columns) != 2 or set(by_way) != {"compression", "rebound"}:
        return None
    own = all(key != "cr" and way and key.endswith(way[0]) for way, c in by_way.items() for key in c.clicks)
    return {k: v for c in columns for k, v in c.clicks.items()} if own else None


def _holds_both_ways(part: SweepPart, column: HeaderColumn) -> bool:
    """Whether a column of forces turns its sign with the speed: "Reb 4" is a click then, the column a whole curve."""
    speed = part.roles.channels.get("velocity")
    if column.direction is None or speed is None or speed.index not in part.values:
        return False
    v, force = part.values[speed.index], part.values[column.index]
    moving = np.isfinite(v) & np.isfinite(force) & (v != 0) & (force != 0)
    alike = np.sign(v[moving]) == np.sign(force[moving])
    both = bool((v[moving] > 0).any() and (v[moving] < 0).any())
    return both and max(float(np.mean(alike)), float(np.mean(~alike))) >= SIGNS_AGREE


def _pairs_of_knobs(columns: Sequence[HeaderColumn]) -> dict[int, dict[str, int]]:
    """Return both clicks for each column of a table of pairs, by column; empty where they are no pairs.

    "Comp @ 0 clicks", "Reb @ 0 clicks", "Comp @ 8 clicks", "Reb @ 8 clicks": the two of one number, beside one another,
    are one run with both knobs there; so are "C0, C8, R0, R8" and all of a direction under its title.
    """
    half = len(columns) // 2
    beside = zip(columns[::2], columns[1::2], strict=False)
    apart = zip(columns[:half], columns[half:], strict=False)
    for pairs in (list(beside), list(apart)):
        if len(columns) == 2 * len(pairs) >= 4 and all(_is_pair(a, b) for a, b in pairs):
            return {c.index: {**a.clicks, **b.clicks} for a, b in pairs for c in (a, b)}
    return _pairs_in_turn(columns)


def _pairs_in_turn(columns: Sequence[HeaderColumn]) -> dict[int, dict[str, int]]:
    """Return both clicks for each column where the directions stand in turn and no two pairs are the same.

    "Comp 2, Reb 4, Comp 6, Reb 8" are two runs: a sweep of one knob has its columns beside one another.
    """
    pairs = [*zip(columns[::2], columns[1::2], strict=False)]
    if len(columns) != 2 * len(pairs) or len(pairs) < 2 or not all(_are_ways_own(a, b) for a, b in pairs):
        return {}
    alike = len({(a.direction, *a.clicks, *b.clicks) for a, b in pairs}) == 1
    again = len({(*a.clicks.values(), *b.clicks.values()) for a, b in pairs}) < len(pairs)
    return {} if again or not alike else {c.index: {**a.clicks, **b.clicks} for a, b in pairs for c in (a, b)}


def both_knobs_said(halves: Sequence[str], clicks: Mapping[str, int]) -> str:
    """Return the warning of two halves, by their names, that were taken as one run at the clicks of both."""
    named = " and ".join(f"'{half}'" for half in halves)
    at = " and ".join(f"{knob}={n}" for knob, n in clicks.items())
    return f"{named} were taken as one run with both knobs so, {at}; if one alone was turned, state the other's clicks"


def _knob_said(columns: Sequence[HeaderColumn]) -> tuple[str, ...]:
    """Return the warning of clicks over whole runs of which no word says the knob."""
    alone = [c.text for c in columns if "cr" in c.clicks and not clicks_of(c.text)]
    return (TakenForBoth.of(alone[0]),) if alone else ()


def _is_pair(one: HeaderColumn, other: HeaderColumn) -> bool:
    return _are_ways_own(one, other) and {*one.clicks.values()} == {*other.clicks.values()}


def _are_ways_own(one: HeaderColumn, other: HeaderColumn) -> bool:
    """Whether two columns are of both directions, each at clicks of its own knob."""
    knobs = [(c.direction, next(iter(c.clicks))) for c in (one, other) if len(c.clicks) == 1]
    if len(knobs) != 2 or {way for way, _ in knobs} != {"compression", "rebound"}:
        return False
    return all(way and key != "cr" and key.endswith(way[0]) for way, key in knobs)


def _ways_of_knobs(part: SweepPart, columns: Sequence[HeaderColumn]) -> tuple[list[HeaderColumn], tuple[str, ...]]:
    """Return columns that name an adjuster and no direction as forces of its direction, with what is to be said of it.

    Only in a table of peaks over speeds without sign, where the columns of each adjuster have one sign: where a column
    has both, it is a whole curve.
    """
    keys = {key for c in columns for key in c.clicks}
    speed = part.roles.channels.get("velocity")
    open_one = all(c.direction is None and len(c.clicks) == 1 for c in columns)
    if not open_one or "cr" in keys or "displacement" in part.roles.channels:
        return list(columns), ()
    if speed is None or np.nanmin(part.values[speed.index], initial=0.0) < 0 or not _one_sign_each(part, columns):
        return list(columns), ()
    named = [replace(c, direction=_WAYS[next(iter(c.clicks))[-1]]) for c in columns]
    first = {str(c.direction): c.text for c in reversed(named)}
    ways = [way for way in _WAYS.values() if way in first]
    texts = " and ".join(f"'{first[way]}'" for way in ways)
    verb = "names" if len(ways) == 1 else "name"
    return named, (f"{texts} {verb} an adjuster and no direction: taken as the forces of {' and '.join(ways)}",)


def _one_sign_each(part: SweepPart, columns: Sequence[HeaderColumn]) -> bool:
    """Whether the forces of each direction's adjusters are all positive or all negative; compression's are positive."""
    signs: dict[str, set[float]] = {}
    for column in columns:
        x = part.values[column.index]
        signs.setdefault(next(iter(column.clicks))[-1], set()).update(np.sign(x[np.isfinite(x)]).tolist())
    found = {way: held - {0.0} for way, held in signs.items()}
    return found.get("c", {1.0}) == {1.0} and len(found.get("r", {1.0})) == 1


def _roles(part: SweepPart, columns: Sequence[HeaderColumn]) -> ColumnRoles:
    """Return the roles of a part with the force columns of one click position."""
    forces = {c.direction: c for c in columns if c.direction}
    undirected = [c for c in columns if not c.direction]
    if len(undirected) > 1 or len(forces) + len(undirected) < len(columns):
        raise ReadError(
            f"several columns say {columns[0].text!r} and not which direction",
            where=part.name,
            hint="name them compression and rebound",
        )
    channels = dict(part.roles.channels)
    if undirected and not forces:
        channels["force"] = undirected[0]
    else:
        channels.pop("force", None)
    return ColumnRoles(channels, forces, part.roles.speeds, keys=part.roles.keys)
