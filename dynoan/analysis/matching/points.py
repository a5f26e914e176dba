"""Peak tables held against each other, or against a curve, point by point.

A curve through ten points does not know what lies between them, but where two tables have the same speeds nothing need
be known: the points themselves are compared, and how they scatter about a smooth difference says how sure that is. So
is a table against a curve that tells damping and friction together: at the table's own speeds both were measured.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace

import numpy as np

from dynoan.analysis.matching.assumptions import (
    ALIKE_SPEEDS,
    BETWEEN_POINTS,
    FELT,
    FEWEST_POINTS,
    FLOOR_SHARE,
    LEAST_HELD,
    LEAST_SCATTER,
)
from dynoan.analysis.statistics import Z95
from dynoan.model.arrays import FloatArray
from dynoan.model.curve import DIRECTIONS, Curve, Direction
from dynoan.model.side import Side

Points = tuple[FloatArray, FloatArray]  #: speeds [m/s] and forces [N], magnitudes, slowest first


def sides_of(velocity: FloatArray, force: FloatArray) -> dict[Direction, Points]:
    """Return speeds and forces of each direction as magnitudes, slowest first, from signed damping force."""
    out: dict[Direction, Points] = {}
    for direction, sign in zip(DIRECTIONS, (1.0, -1.0), strict=True):
        mine = (sign * velocity > 0) & np.isfinite(force)
        order = np.argsort(sign * velocity[mine], kind="stable")
        out[direction] = (sign * velocity[mine][order], sign * force[mine][order])
    return out


def same_speeds(tables: Sequence[Mapping[Direction, Points]]) -> bool:
    """Return whether tables hold the same speeds, enough of them, in both directions."""
    first = tables[0]
    return all(
        len(t[d][0]) == len(first[d][0]) >= FEWEST_POINTS and bool(np.all(np.diff(t[d][0]) > 0))
        and bool(np.allclose(t[d][0], first[d][0], rtol=ALIKE_SPEEDS, atol=5e-4))
        for t in tables for d in DIRECTIONS
    )  # fmt: skip


def point_curves(
    a: Mapping[Direction, Points], b: Mapping[Direction, Points], curves: tuple[Curve, Curve]
) -> tuple[Curve, Curve]:
    """Return two curves that are straight from point to point, with bands from the scatter of their differences.

    Parameters
    ----------
    a, b
        Points of each direction, the same speeds in both; see `same_speeds`.
    curves
        The fitted curves, for everything else.
    """
    sides = {d: _pair(a[d], b[d]) for d in DIRECTIONS}
    first, second = (
        replace(curves[i], compression=sides["compression"][i], rebound=sides["rebound"][i]) for i in range(2)
    )
    return first, second


def table_and_curve(
    table: Mapping[Direction, Points], of_table: Curve, curve: Curve, offset_sd: float
) -> tuple[Curve, Curve] | None:
    """Return a table's curve and another one over the speeds both hold, both as damping and friction together.

    Between the table's points force runs as the curve's does: their ratio is straight from point to point.

    Parameters
    ----------
    table
        Points of each direction; see `sides_of`.
    of_table
        The curve fitted to them, for everything else.
    curve
        What it is held against; its friction and damping together must be known.
    offset_sd
        Standard error of the gas force or zero taken out of the table. [N]

    Returns
    -------
    tuple of Curve, or None
        None where the speeds that both hold have too few points.
    """
    sides = {d: _held_against(table[d], curve, d, offset_sd) for d in DIRECTIONS}
    c, r = sides["compression"], sides["rebound"]
    if c is None or r is None:
        return None
    return replace(of_table, compression=c[0], rebound=r[0]), replace(curve, compression=c[1], rebound=r[1])


def _held_against(points: Points, curve: Curve, direction: Direction, offset_sd: float) -> tuple[Side, Side] | None:
    side, sign = curve.side(direction), 1.0 if direction == "compression" else -1.0
    held = (points[0] >= side.low_speed * LEAST_HELD) & (points[0] <= side.top_speed * (1.0 + ALIKE_SPEEDS))
    speeds, seen = points[0][held], points[1][held]
    if len(speeds) < FEWEST_POINTS:
        return None
    there = np.abs(curve.total(sign * speeds))
    share = (seen - there) / np.maximum((seen + there) / 2, FELT)
    rough = _roughness(there)
    scatter = max(_scatter(speeds, share, rough), LEAST_SCATTER)
    grid = np.union1d(speeds, np.geomspace(speeds[0], speeds[-1], BETWEEN_POINTS))
    total = np.abs(curve.total(sign * grid))
    low, high = curve.total_band(sign * grid)
    more = np.interp(np.log(grid), np.log(speeds), share) * np.maximum(total, FELT)
    share_half = _student(len(speeds) - 2) * scatter
    own = share_half * np.hypot(np.maximum(total, FELT), FLOOR_SHARE * np.max(there))
    return _as_sum(grid, total + more, np.hypot(own, Z95 * offset_sd)), _as_sum(grid, total, (high - low) / 2)


def _student(free: int) -> float:
    """Return how many standard errors hold 95 %, of values with so many degrees of freedom. [1]"""
    from scipy.special import stdtrit  # who fits curves is spared it

    return float(stdtrit(free, 0.975))


def _as_sum(speeds: FloatArray, force: FloatArray, half: FloatArray) -> Side:
    side = _side(speeds, force, half)
    assert side.forces is not None
    return replace(side, total=(side.forces, side.low, side.high))


def _scatter(speeds: FloatArray, share: FloatArray, rough: FloatArray | float = 1.0) -> float:
    """Return how far shares lie off a smooth difference, standard deviation, each so many times as rough. [1]"""
    smooth = np.polynomial.Polynomial.fit(np.log(speeds), share, 1, w=np.full(len(speeds), 1.0) / rough)
    return float(np.sqrt(np.sum(((share - smooth(np.log(speeds))) / rough) ** 2) / (len(speeds) - 2)))


def _roughness(force: FloatArray) -> FloatArray:
    """Return how many times as much of its force each point scatters as one at high speed does, shape (n,). [1]

    A cell's own error is the same newtons at all speeds: slow points scatter by more of their force.
    """
    return np.asarray(np.hypot(1.0, FLOOR_SHARE * np.max(force) / np.maximum(force, FELT)))


def _pair(a: Points, b: Points) -> tuple[Side, Side]:
    speeds, (fa, fb) = a[0], (a[1], b[1])
    mean = np.maximum((fa + fb) / 2, FELT)
    share, rough = (fa - fb) / mean, _roughness(mean)
    scatter = max(_scatter(speeds, share, rough) / np.sqrt(2.0), LEAST_SCATTER)
    half = _student(len(speeds) - 2) * scatter * rough * mean
    return _side(speeds, fa, half), _side(speeds, fb, half)


def _side(speeds: FloatArray, force: FloatArray, half: FloatArray) -> Side:
    grid, table = np.concatenate([[0.0], speeds]), np.concatenate([[0.0], force])
    wide = np.concatenate([[half[0]], half])
    return Side((), (), grid, table - wide, table + wide, top_speed=float(speeds[-1]), low_speed=float(speeds[0]),
                forces=table, samples=len(speeds))  # fmt: skip
