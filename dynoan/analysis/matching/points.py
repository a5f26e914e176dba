"""Two peak tables at the same speeds, held against each other point by point.

A curve through ten points does not know what lies between them, but where two tables have the same speeds nothing need
be known: the points themselves are compared, and how they scatter about a smooth difference says how sure that is.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

import numpy as np
from scipy.special import stdtrit

from dynoan.analysis.matching.assumptions import ALIKE_SPEEDS, FELT, FEWEST_POINTS, LEAST_SCATTER
from dynoan.model.arrays import FloatArray
from dynoan.model.curve import DIRECTIONS, Curve, Direction
from dynoan.model.side import Side

Points = tuple[FloatArray, FloatArray]


def sides_of(velocity: FloatArray, force: FloatArray) -> dict[Direction, Points]:
    """Return speeds and forces of each direction as magnitudes, slowest first, from signed damping force."""
    out: dict[Direction, Points] = {}
    for direction, sign in zip(DIRECTIONS, (1.0, -1.0), strict=True):
        mine = (sign * velocity > 0) & np.isfinite(force)
        order = np.argsort(sign * velocity[mine], kind="stable")
        out[direction] = (sign * velocity[mine][order], sign * force[mine][order])
    return out


def same_speeds(tables: Sequence[dict[Direction, Points]]) -> bool:
    """Return whether tables hold the same speeds, enough of them, in both directions."""
    first = tables[0]
    return all(
        len(t[d][0]) == len(first[d][0]) >= FEWEST_POINTS and bool(np.all(np.diff(t[d][0]) > 0))
        and bool(np.allclose(t[d][0], first[d][0], rtol=ALIKE_SPEEDS, atol=5e-4))
        for t in tables for d in DIRECTIONS
    )  # fmt: skip


def point_curves(
    a: dict[Direction, Points], b: dict[Direction, Points], curves: tuple[Curve, Curve]
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


def _pair(a: Points, b: Points) -> tuple[Side, Side]:
    speeds, (fa, fb) = a[0], (a[1], b[1])
    mean = np.maximum((fa + fb) / 2, FELT)
    share = (fa - fb) / mean
    smooth = np.polynomial.Polynomial.fit(np.log(speeds), share, 1)
    freedom = len(speeds) - 2
    scatter = float(np.sqrt(np.sum((share - smooth(np.log(speeds))) ** 2) / freedom / 2))
    half = float(stdtrit(freedom, 0.975)) * max(scatter, LEAST_SCATTER) * mean
    return _side(speeds, fa, half), _side(speeds, fb, half)


def _side(speeds: FloatArray, force: FloatArray, half: FloatArray) -> Side:
    grid, table = np.concatenate([[0.0], speeds]), np.concatenate([[0.0], force])
    wide = np.concatenate([[half[0]], half])
    return Side((), (), grid, table - wide, table + wide, top_speed=float(speeds[-1]), low_speed=float(speeds[0]),
                forces=table, samples=len(speeds))  # fmt: skip
