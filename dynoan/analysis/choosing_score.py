"""The score of every setting of one pack, direction by direction, as exact whole numbers.

The score is a sum over directions, so two small tables stand for all settings. Each entry packs three things into one
integer, so that sums and comparisons are exact and the rule for ties is part of the score: the miss; among equal
misses how much a click changes the ratios; among equals again how far the clicks are from those on the car.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike

from dynoan.analysis.choosing_aims import Aim, Place
from dynoan.analysis.damping import ratio_per_force
from dynoan.model.arrays import BoolArray, FloatArray, IntArray
from dynoan.model.clickmap import ClickMap, DirectionMap
from dynoan.model.curve import Direction

#: squared misses closer than this are equal: at a miss of 1 % a difference of 0.005 %
MISS_STEP = 1e-6
#: squared change of ratio by a click, summed over adjusters; closer than this is equal
SENSITIVITY_STEP = 1e-5
DISTANCE_BITS, SENSITIVITY_BITS = 10, 20
OTHER_PACK = 500  #: what changing the pack counts, in clicks
BIG = 1 << 61
ROWS = 2048  #: settings scored at a time, so that the work stays in the processor's cache


@dataclass(frozen=True)
class Points:
    """The points wanted in one direction, all corners together, as one square per velocity.

    The sum over corners of ``w (a f/t - 1)²`` is a quadratic in the force f, hence ``(f·scale - middle)² + rest``.
    """

    velocities: FloatArray  #: [m/s]
    scale: FloatArray  #: [1/N]
    middle: FloatArray
    rest: float
    least: FloatArray  #: lowest force that keeps every corner within the tolerance [N]
    most: FloatArray  #: [N]


def points_of(place: Place, click_map: ClickMap, direction: Direction, tolerance: float) -> Points:
    """Return what is wanted in one direction at a place; weights sum to 1 over both directions and all corners."""
    total = sum(w.weight for aim in place.aims for w in aim.wanted)
    wanted = [(aim, w) for aim in place.aims for w in aim.wanted if w.direction == direction]
    velocities = np.array(sorted({w.velocity for _, w in wanted}))
    a, b, c = (np.zeros(len(velocities)) for _ in range(3))
    least, most = np.zeros(len(velocities)), np.full(len(velocities), np.inf)
    for aim, w in wanted:
        p = int(np.searchsorted(velocities, w.velocity))
        per = float(per_newton(aim, click_map, direction, w.velocity)) / w.ratio
        weight = w.weight / total
        a[p], b[p], c[p] = a[p] + weight * per**2, b[p] + weight * per, c[p] + weight
        least[p] = max(least[p], (1 - tolerance) / per)
        most[p] = min(most[p], (1 + tolerance) / per)
    scale = np.sqrt(a)
    return Points(velocities, scale, b / scale, float(np.sum(c - b**2 / a)), least, most)


def per_newton(aim: Aim, click_map: ClickMap, direction: Direction, velocity: ArrayLike) -> FloatArray:
    """Return the ratio that one newton of the mean shock makes at a corner, whose own shock may differ. [1/N]"""
    return np.asarray(ratio_per_force(aim.corner, velocity) * _own_scale(click_map, direction, aim.corner.shock))


def _own_scale(click_map: ClickMap, direction: Direction, shock: str | None) -> float:
    scales = dict(zip(click_map.shocks, click_map.direction(direction).scales, strict=False))
    return scales.get(shock or "", 1.0)


@dataclass(frozen=True)
class Scored:
    """One direction of one pack, scored: tables over the allowed clicks of the adjusters that act on it."""

    adjusters: tuple[str, ...]
    key: IntArray  #: miss, sensitivity and distance in one number, the lower the better
    fits: BoolArray  #: every wanted ratio of the direction within the tolerance


def unpacked(key: int) -> tuple[int, int, int]:
    """Return miss, sensitivity and distance of a key, in their steps."""
    rest = key & ((1 << (DISTANCE_BITS + SENSITIVITY_BITS)) - 1)
    return key >> (DISTANCE_BITS + SENSITIVITY_BITS), rest >> DISTANCE_BITS, rest & ((1 << DISTANCE_BITS) - 1)


Ranges = Mapping[str, tuple[int, int]]


def scored(place: Place, click_map: ClickMap, direction: Direction, ranges: Ranges, tolerance: float) -> Scored:
    """Return the scores of one direction over the allowed clicks (from closed)."""
    table = click_map.direction(direction)
    cut = tuple(slice(ranges[name][0], ranges[name][1] + 1) for name in table.adjusters)
    force = table.force[cut]
    shape = force.shape[:-1]
    points = points_of(place, click_map, direction, tolerance)
    squares, fits = _squares(table, force.reshape(-1, force.shape[-1]), points)
    squares = np.minimum(squares / MISS_STEP, float(1 << 28))
    key = np.rint(squares).astype(np.int64).reshape(shape) << (DISTANCE_BITS + SENSITIVITY_BITS)
    key += sensitivity(place, click_map, direction)[cut] << DISTANCE_BITS
    # What both directions share is counted once, with rebound.
    skip = frozenset(click_map.rebound.adjusters) if direction == "compression" else frozenset()
    key += _distance(table.adjusters, place, ranges, skip)
    return Scored(table.adjusters, key, fits.reshape(shape))


def _squares(table: DirectionMap, force: FloatArray, points: Points) -> tuple[FloatArray, BoolArray]:
    columns, weights = between(table, points.velocities)
    into = weights * points.scale
    # One part in a million of slack: a ratio on the edge of its tolerance fits, whatever the last digit does.
    least = points.least * points.scale - points.middle - 1e-6
    most = points.most * points.scale - points.middle + 1e-6
    squares, fits = np.empty(len(force)), np.empty(len(force), dtype=bool)
    for start in range(0, len(force), ROWS):
        part = slice(start, start + ROWS)
        off = force[part][:, columns] @ into - points.middle
        squares[part] = np.einsum("ij,ij->i", off, off) + points.rest
        fits[part] = np.all((off >= least) & (off <= most), axis=1)
    return np.maximum(squares, 0.0), fits


def between(table: DirectionMap, velocities: FloatArray) -> tuple[IntArray, FloatArray]:
    """Return the table's columns that matter at velocities, and the matrix from them to the velocities.

    Linear as `DirectionMap.at`: between tabulated speeds, and on beyond the last.
    """
    whole = np.eye(len(table.speeds))
    flat = DirectionMap((), table.speeds, whole, np.zeros_like(whole), table.top_speed)
    weights, _ = flat.at(velocities)
    columns = np.flatnonzero(np.any(weights != 0, axis=1))
    return columns, weights[columns]


def sensitivity(place: Place, click_map: ClickMap, direction: Direction) -> IntArray:
    """Return how much a click changes the ratios at the low and the high velocity, in steps, over all clicks.

    The larger of the changes up and down, squared and summed over the adjusters of the direction.
    """
    table = click_map.direction(direction)
    velocities = np.array([place.low_velocity, place.high_velocity])
    columns, weights = between(table, velocities)
    per = np.mean([per_newton(aim, click_map, direction, velocities) for aim in place.aims], axis=0)
    ratios = table.force[..., columns] @ (weights * per)
    total = np.zeros(ratios.shape[:-1])
    for axis in range(len(table.adjusters)):
        step = np.einsum("...j,...j->...", *(2 * [np.diff(ratios, axis=axis)]))
        change = np.zeros_like(total)
        if step.size:
            lower, upper = (tuple([slice(None)] * axis + [s]) for s in (slice(None, -1), slice(1, None)))
            change[lower] = step
            change[upper] = np.maximum(change[upper], step)
        total += change
    most = float((1 << (SENSITIVITY_BITS - 1)) - 1)
    return np.asarray(np.rint(np.minimum(total / SENSITIVITY_STEP, most)).astype(np.int64))


def _distance(adjusters: tuple[str, ...], place: Place, ranges: Ranges, skip: frozenset[str]) -> IntArray:
    total = np.zeros([ranges[name][1] - ranges[name][0] + 1 for name in adjusters], dtype=np.int64)
    for axis, name in enumerate(adjusters):
        if name in skip:
            continue
        clicks = np.arange(ranges[name][0], ranges[name][1] + 1)
        away = sum(
            (np.abs(clicks - aim.now[name]) for aim in place.aims if aim.now and name in aim.now), np.zeros_like(clicks)
        )
        total += away.reshape([-1 if i == axis else 1 for i in range(len(adjusters))])
    return np.minimum(total, OTHER_PACK // 2 - 1)


def allowed(click_map: ClickMap, place: Place, *, inside: bool, within: int | None) -> Ranges | None:
    """Return the clicks that may be used, from closed; None where the pack may not be used at all.

    Parameters
    ----------
    inside
        Only between the tested clicks of every adjuster.
    within
        Only so many clicks from those on the car, which keeps its pack; None for any.

    An adjuster that no table knows is left out: nothing says what it does, so it stays as it is.
    """
    if within is not None and place.packs_now - {click_map.pack}:
        return None
    out = {}
    known = {*click_map.compression.adjusters, *click_map.rebound.adjusters}
    for adjuster in (a for a in click_map.adjusters if a.name in known):
        low, high = 0, adjuster.clicks
        seen = [int(t[adjuster.name]) for t in click_map.tested if adjuster.name in t]
        if inside and seen:
            low, high = max(low, min(seen)), min(high, max(seen))
        high = min([high, *(aim.last.get(adjuster.name, high) for aim in place.aims if aim.last)])
        for aim in place.aims if within is not None else ():
            if aim.now and adjuster.name in aim.now:
                now = aim.now[adjuster.name]
                low, high = max(low, now - (within or 0)), min(high, now + (within or 0))
        if low > high:
            return None
        out[adjuster.name] = (low, high)
    return out
