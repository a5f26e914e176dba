"""What a place wants of one direction of a pack, as forces at a few velocities: where ratios and tables meet."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np

from dynoan.analysis.choosing.aims import CornerAim, Place
from dynoan.analysis.clickmap.every_click.one_shock import named_table
from dynoan.analysis.corner.secants import ratio_per_force
from dynoan.model.arrays import FloatArray
from dynoan.model.clickmap import ClickMap
from dynoan.model.curve import Direction


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
    known = [_known(click_map, aim) for aim in place.aims]
    keys = sorted({
        (w.velocity, shock)
        for aim, shock in zip(place.aims, known, strict=True)
        for w in aim.wanted
        if w.direction == direction
    })  # fmt: skip
    number = {key: i for i, key in enumerate(keys)}
    a, b, c = (np.zeros(len(keys)) for _ in range(3))
    least, most = np.zeros(len(keys)), np.full(len(keys), np.inf)
    for aim, shock in zip(place.aims, known, strict=True):
        wanted = [w for w in aim.wanted if w.direction == direction]
        speeds, ratios, weights = (np.array([getattr(w, n) for w in wanted]) for n in ("velocity", "ratio", "weight"))
        p = np.array([number[w.velocity, shock] for w in wanted], dtype=int)
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
    flat = replace(table, adjusters=(), force=one, half_width=np.zeros_like(one), losses=None)
    whole = np.zeros((len(one), len(points)))
    for shock in {name for _, name in points}:
        which = [i for i, (_, name) in enumerate(points) if name == shock]
        own = named_table(click_map, direction, flat, shock)
        whole[:, which] = own.force_at([points[i][0] for i in which])
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
