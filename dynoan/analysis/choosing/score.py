"""The score of every setting of one pack, direction by direction, as exact whole numbers.

The score is a sum over directions, so two small tables stand for all settings. Each entry packs three things into one
integer, so that sums and comparisons are exact and the rule for ties is part of the score: the miss; among equal
misses how much a click changes the ratios; among equals again how far the clicks are from those on the car.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from dynoan.analysis.choosing.aims import Place
from dynoan.analysis.choosing.assumptions import MISS_STEP, OTHER_PACK, SENSITIVITY_STEP, SLACK
from dynoan.analysis.choosing.points import WantedPoints, mean_ratios, points_of
from dynoan.analysis.choosing.ranges import Ranges, cut
from dynoan.model.arrays import BoolArray, FloatArray, IntArray
from dynoan.model.clickmap import ClickMap
from dynoan.model.curve import Direction

# How a key is laid out: miss, sensitivity and distance from high bits to low, room for sums of a few places in each.
DISTANCE_BITS, SENSITIVITY_BITS, MISS_BITS = 10, 20, 28
BIG = 1 << 61  #: a key no setting has
#: settings scored at a time, so that the work stays in the processor's cache
ROWS = 4096
#: added to a sum of squares before it rules a setting out, so that no rounding does: those that stay are looked at anew
#: [1] (numerics)
NEARLY = 1e-5


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
