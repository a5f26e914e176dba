"""The setting of another pack or shock that stands in for a curve: every click scored, exactly."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from dynoan.analysis.clickmap.asked.authority import usable_speeds
from dynoan.analysis.clickmap.assumptions.data import LEAST_FORCE
from dynoan.analysis.clickmap.assumptions.tables import EQUIVALENT_SPEEDS
from dynoan.model.arrays import FloatArray
from dynoan.model.clickmap import ClickMap, DirectionMap
from dynoan.model.curve import DIRECTIONS, Curve, Direction, Standing


@dataclass(frozen=True)
class Equivalent:
    """One setting that stands in for a curve, and how well. Differences in % of the wanted force."""

    pack: str
    from_closed: dict[str, int]
    worst: float  #: largest difference over speeds and directions [%]
    mean: float  #: mean difference [%]
    worst_direction: Direction
    worst_speed: float  #: [m/s]
    band: float  #: half of the 95 % band of the stand-in where it is worst [%]
    standing: Standing


def on_all_axes(values: FloatArray, table: DirectionMap, map: ClickMap) -> FloatArray:
    """Return values over a direction's clicks with one axis for every adjuster of the map. [as given]"""
    order = [table.adjusters.index(a.name) for a in map.adjusters if a.name in table.adjusters]
    lengths = [a.clicks + 1 if a.name in table.adjusters else 1 for a in map.adjusters]
    return np.asarray(np.transpose(values, order).reshape(lengths))


def over_clicks(values: FloatArray, positions: Sequence[FloatArray], shape: tuple[int, ...]) -> FloatArray:
    """Return values (positions…, …) at some clicks of each axis as straight lines over all, (shape…, …). [as given]"""
    for axis, (at, count) in enumerate(zip(positions, shape, strict=True)):
        where = np.interp(np.arange(count), at, np.arange(len(at)))
        low = np.minimum(where.astype(int), max(len(at) - 2, 0))
        high = np.minimum(low + 1, len(at) - 1)
        part = (where - low).reshape((-1, *[1] * (values.ndim - axis - 1)))
        lower, upper = np.take(values, low, axis=axis), np.take(values, high, axis=axis)
        values = lower * (1.0 - part) + upper * part
    return np.asarray(values)


def shares(table: DirectionMap, curve: Curve, direction: Direction, speeds: FloatArray) -> FloatArray:
    """Return the difference from a curve at every click and speed, a share of its force, (clicks…, s). [1]"""
    wanted = curve.side(direction).force(speeds)
    force, _ = table.at(speeds)
    return np.asarray((force - wanted) / np.maximum(wanted, LEAST_FORCE))


def common_speeds(curve: Curve, direction: Direction, table: DirectionMap) -> FloatArray:
    """Return the speeds that both a curve and a click map hold in a direction. [m/s]"""
    top = curve.side(direction).top_speed
    inside = usable_speeds((table,), EQUIVALENT_SPEEDS)
    return inside[inside <= top * 1.001] if np.any(inside <= top * 1.001) else np.array([min(top, table.top_speed)])


def equivalents(curve: Curve, maps: Sequence[ClickMap], *, count: int = 5) -> tuple[Equivalent, ...]:
    """Return the settings of other packs that come closest to a curve, best first.

    Every click is scored by its largest difference, a tenth of the mean difference settling ties.

    Parameters
    ----------
    curve
        What is to be stood in for.
    maps
        The packs (or shocks) to choose from.
    count
        How many settings to return from each pack.
    """
    found = [one for map in maps for one in _of_pack(curve, map, count)]
    return tuple(sorted(found, key=lambda e: (e.worst + 0.1 * e.mean, e.pack)))


def _of_pack(curve: Curve, map: ClickMap, count: int) -> list[Equivalent]:
    worst: FloatArray = np.zeros(tuple(a.clicks + 1 for a in map.adjusters))
    mean: FloatArray = np.zeros_like(worst)
    for direction in DIRECTIONS:
        table = map.direction(direction)
        off = np.abs(shares(table, curve, direction, common_speeds(curve, direction, table)))
        worst = np.maximum(worst, on_all_axes(off.max(axis=-1), table, map))
        mean = mean + on_all_axes(off.mean(axis=-1), table, map) / 2
    score = (worst + 0.1 * mean).ravel()
    best = np.argsort(score, kind="stable")[:count]
    return [_named(curve, map, np.unravel_index(int(i), worst.shape), worst, mean) for i in best]


def _named(curve: Curve, map: ClickMap, index: tuple[np.intp, ...], worst: FloatArray, mean: FloatArray) -> Equivalent:
    clicks = {a.name: int(n) for a, n in zip(map.adjusters, index, strict=True)}
    where: tuple[float, Direction, float, float] = (-1.0, "compression", 0.0, 0.0)
    for direction in DIRECTIONS:
        table = map.direction(direction)
        speeds = common_speeds(curve, direction, table)
        off = np.abs(shares(table, curve, direction, speeds)[table.index(clicks)])
        force, low, high = (one[table.index(clicks)] for one in table.limits(speeds))
        half = np.maximum(force - low, high - force) / np.maximum(curve.side(direction).force(speeds), LEAST_FORCE)
        i = int(np.argmax(off))
        where = max(where, (float(off[i]), direction, float(speeds[i]), float(half[i])))
    return Equivalent(
        pack=map.pack, from_closed=clicks, worst=100 * float(worst[index]), mean=100 * float(mean[index]),
        worst_direction=where[1], worst_speed=where[2], band=100 * where[3], standing=map.standing(clicks),
    )  # fmt: skip
