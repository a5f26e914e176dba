"""What a click is worth: newtons and percent a click by speed, dead clicks, cross-talk, who covers which speeds."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

import numpy as np

from dynoan.analysis.clickmap.assumptions.tables import (
    AUTHORITY_SPEEDS,
    AUTHORITY_SPEEDS_US,
    DEAD_SHARE,
    FEWEST_DEAD,
    SAY_SHARE,
)
from dynoan.model.arrays import BoolArray, FloatArray
from dynoan.model.clickmap import ClickMap, DirectionMap
from dynoan.model.curve import DIRECTIONS, Direction
from dynoan.model.shock import ACTS_ON, Adjuster
from dynoan.units import Shown


@dataclass(frozen=True)
class Authority:
    """What one adjuster does to one direction, by speed; the other adjusters at the base setting."""

    adjuster: str
    direction: Direction
    speeds: FloatArray  #: (s,) [m/s]
    newtons: FloatArray  #: force lost a click opened, mean over the turn, (s,) [N]
    percent: FloatArray  #: the same in % of the force, (s,)
    intended: bool  #: False where the adjuster belongs to the other direction: cross-talk
    known: bool  #: False where no test moved it


@dataclass(frozen=True)
class DeadClicks:
    """A run of clicks of one adjuster that change nothing at any speed, from closed, both ends counted."""

    adjuster: str
    first: int
    last: int


@dataclass(frozen=True)
class Coverage:
    """The speeds at which an adjuster has the greatest say among those of a direction."""

    adjuster: str
    direction: Direction
    low: float  #: [m/s]
    high: float  #: [m/s]
    percent: float  #: a click, where it is greatest


def usable_speeds(tables: Sequence[DirectionMap], wanted: Sequence[float] = AUTHORITY_SPEEDS) -> FloatArray:
    """Return the wanted speeds that every table's tests hold, at least the highest one they hold. [m/s]"""
    top = min(table.top_speed for table in tables)
    inside = [s for s in wanted if s <= top * 1.001]
    return np.array(inside or [top])


def along(table: DirectionMap, adjuster: str, setting: Mapping[str, int], speeds: FloatArray) -> FloatArray:
    """Return force over one adjuster's clicks at speeds, the others at a setting, (clicks+1, s). [N]"""
    index = tuple(slice(None) if name == adjuster else int(setting[name]) for name in table.adjusters)
    turn = replace(table, adjusters=(adjuster,), force=table.force[index], half_width=table.half_width[index])
    return turn.at(speeds)[0]


def moved(map: ClickMap, adjuster: str) -> bool:
    """Return whether the tests sit at more than one position of an adjuster."""
    return len({int(t[adjuster]) for t in map.tested if adjuster in t}) > 1


def authority(
    map: ClickMap, base: Mapping[str, int] | None = None, speeds: Sequence[float] | None = None
) -> tuple[Authority, ...]:
    """Return what each adjuster does to each direction it acts on.

    Parameters
    ----------
    map
        The click map.
    base
        Clicks from closed of the adjusters that stand still; else each at its most tested position.
    speeds
        [m/s]; else the usual ones that the tests hold.
    """
    setting = map.complete(base or {})
    at = usable_speeds((map.compression, map.rebound)) if speeds is None else np.asarray(speeds, dtype=float)
    out = []
    for direction in DIRECTIONS:
        table = map.direction(direction)
        for name in table.adjusters:
            force = along(table, name, setting, at)
            clicks = max(len(force) - 1, 1)
            lost = (force[0] - force[-1]) / clicks
            share = 1.0 - (force[-1] / np.maximum(force[0], 1e-9)) ** (1.0 / clicks)
            intended = direction in ACTS_ON[name]
            out.append(Authority(name, direction, at, lost, 100 * share, intended, moved(map, name)))
    return tuple(out)


def authority_shown(map: ClickMap, base: Mapping[str, int] | None, units: Shown) -> tuple[Authority, ...]:
    """Return what each adjuster does, as `told`, at speeds that are round in the units people are shown."""
    wanted = AUTHORITY_SPEEDS if units == "metric" else AUTHORITY_SPEEDS_US
    return told(map, authority(map, base, usable_speeds((map.compression, map.rebound), wanted).tolist()))


def told(map: ClickMap, found: Sequence[Authority]) -> tuple[Authority, ...]:
    """Return what adjusters do, cross-talk only where the tests are sure of it.

    A map has a passage that both directions may share in it, faint as it may be, long before it is known to be there.
    """
    sure = {one.adjuster for one in map.oddities if one.kind == "cross-talk"}
    return tuple(one for one in found if one.intended or one.adjuster in sure)


def click_worth(map: ClickMap, setting: Mapping[str, int]) -> tuple[tuple[FloatArray, FloatArray], ...]:
    """Return what one click of each adjuster is worth at a setting, all together as a root of squares.

    Of compression and of rebound: the tabulated speeds [m/s] and the shares of force there [1].
    """
    out = []
    for direction in DIRECTIONS:
        table = map.direction(direction)
        squares = np.zeros(len(table.speeds) - 1)
        for name in table.adjusters:
            last = table.force.shape[table.adjusters.index(name)] - 1
            ends = [{**setting, name: int(np.clip(setting[name] + step, 0, last))} for step in (-1, 1)]
            low, high = (np.log(np.maximum(table.force[table.index(end)][1:], 1e-9)) for end in ends)
            squares += ((high - low) / max(ends[1][name] - ends[0][name], 1)) ** 2
        out.append((table.speeds[1:], np.sqrt(squares)))
    return tuple(out)


def dead_clicks(map: ClickMap, base: Mapping[str, int] | None = None) -> tuple[DeadClicks, ...]:
    """Return the runs of clicks that change no force, for adjusters that tests moved, as far as tests reach."""
    setting = map.complete(base or {})
    runs = [run for one in map.adjusters if moved(map, one.name) for run in _runs(map, one, setting)]
    return tuple(seen for run in runs if (seen := _as_tested(run, map)) is not None)


def _as_tested(run: DeadClicks, map: ClickMap) -> DeadClicks | None:
    """Return the part of a run between the ends tested: what lies beyond is the law's word, not the tests'.

    None of fewer clicks than `FEWEST_DEAD`: that one click does less than the next is no dead range.
    """
    tested = [int(t[run.adjuster]) for t in map.tested if run.adjuster in t]
    first, last = max(run.first, min(tested)), min(run.last, max(tested))
    return DeadClicks(run.adjuster, first, last) if last > first and run.last - run.first >= FEWEST_DEAD else None


def _runs(map: ClickMap, adjuster: Adjuster, setting: Mapping[str, int]) -> list[DeadClicks]:
    alive = np.zeros(adjuster.clicks, dtype=bool)
    for direction in DIRECTIONS:
        table = map.direction(direction)
        if adjuster.name in table.adjusters:
            force = along(table, adjuster.name, setting, usable_speeds((table,)))
            alive |= np.any(np.abs(np.diff(force, axis=0)) > DEAD_SHARE * force[:-1], axis=1)
    runs, start = [], None
    for i, lives in enumerate([*alive.tolist(), True]):
        if not lives and start is None:
            start = i
        elif lives and start is not None:
            runs.append(DeadClicks(adjuster.name, start, i))
            start = None
    return runs


def coverage(authorities: Sequence[Authority]) -> tuple[Coverage, ...]:
    """Return, for each adjuster and direction, the widest span of speeds where a click of it has the greatest say."""
    out = []
    for direction in DIRECTIONS:
        mine = [a for a in authorities if a.direction == direction and a.known]
        if not mine:
            continue
        share = np.array([a.percent for a in mine]) / 100
        first = np.argmax(share, axis=0)
        for i, one in enumerate(mine):
            span = _longest(one.speeds, (first == i) & (share[i] >= SAY_SHARE))
            if len(span):
                top = float(one.percent.max())
                out.append(Coverage(one.adjuster, direction, float(span[0]), float(span[-1]), top))
    return tuple(out)


def _longest(speeds: FloatArray, where: BoolArray) -> FloatArray:
    """Return the longest run of neighbouring speeds that are wanted, the first of equals."""
    runs = np.split(np.arange(len(where)), np.flatnonzero(np.diff(where.astype(int))) + 1)
    wanted = [run for run in runs if len(run) and where[run[0]]]
    return speeds[max(wanted, key=len)] if wanted else speeds[:0]
