"""The score of every setting of one pack, direction by direction, as exact whole numbers.

The score is a sum over directions, so two small tables stand for all settings. Each entry packs three things into one
integer, so that sums and comparisons are exact and the rule for ties is part of the score: the miss; among equal
misses how much a click changes the ratios; among equals again how far the clicks are from those on the car.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from typing import NamedTuple

import numpy as np

from dynoan.analysis.choosing.aims import CornerAim, Place
from dynoan.analysis.choosing.assumptions import MISS_STEP, OTHER_PACK, SENSITIVITY_STEP, SLACK
from dynoan.analysis.clickmap.mapping import named_shock
from dynoan.analysis.corner.ratios import ratio_per_force
from dynoan.model.arrays import BoolArray, FloatArray, IntArray
from dynoan.model.clickmap import ClickMap, DirectionMap
from dynoan.model.curve import Direction

# How a key is laid out: miss, sensitivity and distance from high bits to low, room for sums of a few places in each.
DISTANCE_BITS, SENSITIVITY_BITS, MISS_BITS = 10, 20, 28
BIG = 1 << 61  #: a key no setting has
#: settings scored at a time, so that the work stays in the processor's cache
ROWS = 4096
#: added to a sum of squares before it rules a setting out, so that no rounding does: those that stay are looked at anew
NEARLY = 1e-5


class ClickRange(NamedTuple):
    """The clicks of an adjuster that may be used, from closed."""

    first: int
    last: int

    @property
    def cut(self) -> slice:
        """The same as a span of a table's axis."""
        return slice(self.first, self.last + 1)


Ranges = Mapping[str, ClickRange]  #: by adjuster


@dataclass(frozen=True)
class WantedPoints:
    """The points wanted in one direction, corners with the same shock together, as one square per point.

    The sum over corners of ``w (a f/t - 1)²`` is a quadratic in the force f, hence ``(f·scale - middle)² + rest``.
    """

    columns: slice  #: of the table, those that matter
    unit: FloatArray  #: from these columns to the force at each point, shape (columns, points)
    scale: FloatArray  #: shape (points,) [1/N]
    middle: FloatArray  #: shape (points,)
    rest: float  #: summed over the points
    least: FloatArray  #: lowest force that keeps every corner within the tolerance, shape (points,) [N]
    most: FloatArray  #: highest force that does [N]
    fitting: float  #: no square is above this where every ratio is within the tolerance


def points_of(place: Place, click_map: ClickMap, direction: Direction, tolerance: float) -> WantedPoints:
    """Return what is wanted in one direction at a place; weights sum to 1 over both directions and all corners.

    Parameters
    ----------
    place
        With something wanted.
    click_map
        Of the pack; corners with the same shock in it share a point.
    direction
        Of the two.
    tolerance
        How far a ratio may be off to fit, as a share of it.

    Raises
    ------
    QuantityError
        If a sprung mass or a wheel rate is not a finite number above zero.
    """
    total = sum(w.weight for aim in place.aims for w in aim.wanted)
    parts = [(aim, w) for aim in place.aims for w in aim.wanted if w.direction == direction]
    keys = sorted({(w.velocity, _known(click_map, aim)) for aim, w in parts})
    a, b, c = (np.zeros(len(keys)) for _ in range(3))
    least, most = np.zeros(len(keys)), np.full(len(keys), np.inf)
    for aim in place.aims:
        wanted = [w for w in aim.wanted if w.direction == direction]
        speeds, ratios, weights = (np.array([getattr(w, n) for w in wanted]) for n in ("velocity", "ratio", "weight"))
        p = np.array([keys.index((w.velocity, _known(click_map, aim))) for w in wanted], dtype=int)
        per = ratio_per_force(aim.corner, speeds) / ratios
        for sums, power in ((a, 2), (b, 1), (c, 0)):
            np.add.at(sums, p, weights / total * per**power)
        np.maximum.at(least, p, (1 - tolerance) / per)
        np.minimum.at(most, p, (1 + tolerance) / per)
    columns, unit = _forces_at(click_map, direction, keys)
    scale = np.sqrt(a)
    rest, fitting = float(np.sum(c - b**2 / a)), tolerance**2 * float(c.sum())
    return WantedPoints(columns, unit, scale, b / scale, rest, least, most, fitting)


def _known(click_map: ClickMap, aim: CornerAim) -> str:
    """Return the corner's shock where the map knows it apart from the mean shock, else nothing."""
    known = (*click_map.shocks, *(unit.shock for unit in click_map.carried))
    return aim.corner.shock if aim.corner.shock in known else ""


def _forces_at(
    click_map: ClickMap, direction: Direction, points: Sequence[tuple[float, str]]
) -> tuple[slice, FloatArray]:
    """Return the span of the table's columns that matters, and the matrix from it to forces at (velocity, shock).

    Linear as `DirectionMap.at`: between tabulated speeds, and on beyond the last. A shock that the map knows has its
    own force at each tabulated speed.
    """
    table = click_map.direction(direction)
    # A table of one newton at one speed after another, once through what the map itself says of force and shock.
    one = np.eye(len(table.speeds))
    flat = replace(table, adjusters=(), force=one, half_width=np.zeros_like(one))
    whole = np.zeros((len(one), len(points)))
    for shock in {name for _, name in points}:
        which = [i for i, (_, name) in enumerate(points) if name == shock]
        own = named_shock(replace(click_map, compression=flat, rebound=flat), shock).compression if shock else flat
        whole[:, which] = own.at([points[i][0] for i in which])[0]
    used = np.flatnonzero(np.any(whole != 0, axis=1))
    columns = slice(int(used[0]), int(used[-1]) + 1) if len(used) else slice(0, 0)
    return columns, whole[columns]


def mean_ratios(
    place: Place, click_map: ClickMap, direction: Direction, velocities: Sequence[float]
) -> tuple[slice, FloatArray]:
    """Return the span of the table's columns that matters, and the matrix from it to the mean ratio of the corners.

    Parameters
    ----------
    place
        Its corners.
    click_map
        Of the pack; a shock it knows apart has its own force.
    direction, velocities
        Magnitudes at the shock. [m/s]

    Returns
    -------
    :
        The span, and a matrix of shape (columns of it, velocities). [1/N]

    Raises
    ------
    QuantityError
        If a sprung mass or a wheel rate is not a finite number above zero.
    """
    v = np.asarray(velocities, dtype=float)
    points = [(float(x), _known(click_map, aim)) for aim in place.aims for x in v]
    columns, unit = _forces_at(click_map, direction, points)
    per = np.concatenate([ratio_per_force(aim.corner, v) for aim in place.aims]) / len(place.aims)
    return columns, (unit * per).reshape(len(unit), len(place.aims), len(v)).sum(axis=1)


@dataclass(frozen=True)
class Scored:
    """One direction of one pack, scored: tables over the allowed clicks of the adjusters that act on it."""

    adjusters: tuple[str, ...]  #: an axis of the tables each, in this order
    key: IntArray  #: the miss in steps, or miss, sensitivity and distance in one number; the lower the better
    fits: BoolArray  #: every wanted ratio of the direction within the tolerance


def unpacked(key: int) -> tuple[int, int, int]:
    """Return miss, sensitivity and distance of a key, in their steps.

    Examples
    --------
    >>> unpacked((7 << 30) + (5 << 10) + 3)
    (7, 5, 3)
    """
    rest = key & ((1 << (DISTANCE_BITS + SENSITIVITY_BITS)) - 1)
    return key >> (DISTANCE_BITS + SENSITIVITY_BITS), rest >> DISTANCE_BITS, rest & ((1 << DISTANCE_BITS) - 1)


def with_miss(key: int, miss: int) -> int:
    """Return a key with another miss, in its steps, sensitivity and distance kept.

    Examples
    --------
    >>> unpacked(with_miss((7 << 30) + (5 << 10) + 3, 9))
    (9, 5, 3)
    """
    return (miss << (SENSITIVITY_BITS + DISTANCE_BITS)) + (key & ((1 << (SENSITIVITY_BITS + DISTANCE_BITS)) - 1))


def missed(place: Place, click_map: ClickMap, direction: Direction, ranges: Ranges, tolerance: float) -> Scored:
    """Return the misses of one direction over the allowed clicks, in steps of `MISS_STEP`.

    Parameters
    ----------
    place
        With something wanted.
    click_map
        Of the pack.
    direction
        Of the two.
    ranges
        The allowed clicks, from closed.
    tolerance
        How far a ratio may be off to fit, as a share of it.

    Returns
    -------
    :
        Squares of the share off, weighted: those of both directions add up to the square of the miss.
    """
    table = click_map.direction(direction)
    force = table.force[cut(table, ranges)]
    shape = force.shape[:-1]
    points = points_of(place, click_map, direction, tolerance)
    squares, fits = _squares(force.reshape(-1, force.shape[-1]), points)
    steps = np.rint(np.minimum(squares / MISS_STEP, float(1 << MISS_BITS))).astype(np.int64)
    return Scored(table.adjusters, steps.reshape(shape), fits.reshape(shape))


def ranked(
    place: Place, click_map: ClickMap, direction: Direction, ranges: Ranges, scored: Scored, which: BoolArray
) -> Scored:
    """Return the full keys of the entries of `scored` that `which` picks; the others can never be chosen.

    Parameters
    ----------
    place, click_map, direction, ranges
        As they were scored.
    scored
        From `missed`.
    which
        Of the tables' shape, as from `search.contenders`.
    """
    table = click_map.direction(direction)
    # A direction that no adjuster acts on is a single entry without axes.
    at = np.nonzero(which) if which.ndim else ()
    clicks = tuple(axis + ranges[name].first for axis, name in zip(at, table.adjusters, strict=True))
    # What both directions share is counted once, with rebound.
    skip = frozenset(click_map.rebound.adjusters) if direction == "compression" else frozenset()
    ties = sensitivity(place, click_map, direction, clicks) << DISTANCE_BITS
    ties += _distance(table.adjusters, place, clicks, skip)
    key = np.full(scored.key.shape, BIG)
    key[at] = (scored.key[at] << (SENSITIVITY_BITS + DISTANCE_BITS)) + ties.reshape(scored.key[at].shape)
    return Scored(table.adjusters, key, scored.fits)


def cut(table: DirectionMap, ranges: Ranges) -> tuple[slice, ...]:
    """Return the part of a table that the allowed clicks are, an axis an adjuster."""
    return tuple(ranges[name].cut for name in table.adjusters)


def _squares(force: FloatArray, points: WantedPoints) -> tuple[FloatArray, BoolArray]:
    """Return the weighted squares and the fits of settings, shape (n,) each; `force` has shape (n, speeds). [1]"""
    into = points.unit * points.scale
    least = points.least * points.scale - points.middle - SLACK
    most = points.most * points.scale - points.middle + SLACK
    squares, fits = np.empty(len(force)), np.zeros(len(force), dtype=bool)
    room = np.empty(
        (min(ROWS, len(force)), len(points.scale))
    )  # once: fresh memory each time costs as much as the work
    for start in range(0, len(force), ROWS):
        part = force[start : start + ROWS, points.columns]
        off = np.matmul(part, into, out=room[: len(part)])
        off -= points.middle
        here = np.einsum("ij,ij->i", off, off) + points.rest
        squares[start : start + ROWS] = here
        near = np.flatnonzero(here <= points.fitting + NEARLY)
        for end in (0, -1) if len(most) else ():  # the ends rule most out, and cost little
            near = near[(off[near, end] >= least[end]) & (off[near, end] <= most[end])]
        fits[start + near] = np.all((off[near] >= least) & (off[near] <= most), axis=1)
    return np.maximum(squares, 0.0), fits


def sensitivity(place: Place, click_map: ClickMap, direction: Direction, clicks: tuple[IntArray, ...]) -> IntArray:
    """Return how much a click changes the ratios at the low and the high velocity, in steps, shape (n,).

    Parameters
    ----------
    place, click_map, direction
        The corners, the pack, one of the two.
    clicks
        Settings, from closed: shape (n,) for each adjuster of the direction.

    Returns
    -------
    :
        The larger of the changes up and down, squared and summed over the adjusters of the direction.
    """
    table = click_map.direction(direction)
    columns, into = mean_ratios(place, click_map, direction, (place.low_velocity, place.high_velocity))

    def ratios(at: tuple[IntArray, ...]) -> FloatArray:
        return np.asarray(table.force[at].reshape(-1, len(table.speeds))[:, columns] @ into)

    here = ratios(clicks)
    total = np.zeros(len(here))
    for axis, last in enumerate(table.force.shape[:-1]):
        # At an end the neighbour outside is the setting itself: no change that way.
        sides = [np.clip(clicks[axis] + step, 0, last - 1) for step in (-1, 1)]
        changes = [np.sum((ratios((*clicks[:axis], side, *clicks[axis + 1 :])) - here) ** 2, axis=1) for side in sides]
        total += np.maximum(*changes)
    most = float((1 << (SENSITIVITY_BITS - 1)) - 1)
    return np.asarray(np.rint(np.minimum(total / SENSITIVITY_STEP, most)).astype(np.int64))


def _distance(
    adjusters: tuple[str, ...], place: Place, clicks: tuple[IntArray, ...], skip: frozenset[str]
) -> IntArray | int:
    """Return by how many clicks settings are away from those on the car, over all corners, shape (n,).

    Kept below what another pack counts, so that among equals the pack on the car comes first.
    """
    away = [
        np.abs(clicks[axis] - aim.now[name])
        for axis, name in enumerate(adjusters)
        for aim in place.aims
        if name not in skip and aim.now and name in aim.now
    ]
    return np.minimum(np.sum(away, axis=0), OTHER_PACK // 2 - 1) if away else 0


def allowed(click_map: ClickMap, place: Place, *, inside: bool, within: int | None) -> Ranges | None:
    """Return the clicks that may be used; None where the pack may not be used at all.

    Parameters
    ----------
    click_map
        Of the pack.
    place
        Its corners: no adjuster goes beyond the last click of any of their shocks.
    inside
        Only between the tested clicks of every adjuster.
    within
        Only so many clicks from those on the car, which keeps its pack; None for any.

    Returns
    -------
    :
        By adjuster. One that no table knows is left out: nothing says what it does, so it stays as it is.
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
        out[adjuster.name] = ClickRange(low, high)
    return out
