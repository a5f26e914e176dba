"""What to turn, on either shock, so that a pair matches; and the best pairs of a whole batch."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import numpy as np

from dynoan.analysis.clickmap.asked.equivalent import on_all_axes
from dynoan.analysis.clickmap.assumptions.data import LEAST_FORCE
from dynoan.analysis.matching.assumptions import MATCH_SPEEDS, WORTH_A_CLICK, WORTH_AN_ADJUSTER
from dynoan.analysis.matching.match import band_grid, common_speeds, common_top, mean_force
from dynoan.model.arrays import FloatArray
from dynoan.model.clickmap import ClickMap
from dynoan.model.curve import DIRECTIONS, Curve


@dataclass(frozen=True)
class Advice:
    """A change of clicks on one shock. Clicks from closed."""

    clicks: dict[str, int]  #: where to go
    change: dict[str, int]  #: from where it is; only adjusters that move
    worst: float  #: the largest difference then [%]


def advise(
    here: Curve, other: Curve, map: ClickMap, now: Mapping[str, int], wanted: Sequence[float] = MATCH_SPEEDS
) -> Advice | None:
    """Return the click change on one shock that brings its worst band closest to the other; None if none helps.

    The measured curve is kept; only its change with the clicks is taken from the click map, so that the shock's own
    deviation from the map cancels.

    Parameters
    ----------
    here, other
        The measured curve of the shock to turn, and the curve it is to match.
    map
        Click map of its pack.
    now
        Its clicks from closed.
    wanted
        Middles of the bands that are compared. [m/s]
    """
    at = map.complete(now)
    worst: FloatArray = np.zeros(tuple(a.clicks + 1 for a in map.adjusters))
    for direction in DIRECTIONS:
        table = map.direction(direction)
        speeds = common_speeds(here.side(direction), other.side(direction), wanted)
        top = common_top(here.side(direction), other.side(direction))
        mine, theirs = (mean_force(curve.side(direction), speeds, top)[0] for curve in (here, other))
        grid = band_grid(speeds, top)
        force = table.at(grid.ravel())[0].reshape(*table.force.shape[:-1], *grid.shape).mean(axis=-2)
        then = mine * force / np.maximum(force[table.index(at)], 1e-9)
        off = 100 * np.abs(then - theirs) / np.maximum((then + theirs) / 2, LEAST_FORCE)
        worst = np.maximum(worst, on_all_axes(off.max(axis=-1), table, map))
    return _cheapest(worst, map, at)


def _cheapest(worst: FloatArray, map: ClickMap, at: Mapping[str, int]) -> Advice | None:
    score = worst.copy()
    for axis, adjuster in enumerate(map.adjusters):
        away = np.abs(np.arange(adjuster.clicks + 1) - at[adjuster.name])
        price = WORTH_A_CLICK * away + WORTH_AN_ADJUSTER * (away > 0)
        score = score + price.reshape([-1 if i == axis else 1 for i in range(len(map.adjusters))])
    index = np.unravel_index(int(np.argmin(score)), score.shape)
    clicks = {a.name: int(n) for a, n in zip(map.adjusters, index, strict=True)}
    change = {name: clicks[name] - at[name] for name in clicks if clicks[name] != at[name]}
    return Advice(clicks, change, float(worst[index])) if change else None


def best_pairs(worst: FloatArray) -> tuple[tuple[int, int], ...]:
    """Return the pairing of a batch with the smallest worst difference, then the smallest sum of differences.

    Solved exactly as two mixed-integer programs by scipy. With an odd number one is left over.

    Parameters
    ----------
    worst
        Largest difference of every two, symmetric, shape (n, n). [%]
    """
    n = len(worst)
    edges = [(i, j) for i in range(n) for j in range(i + 1, n)]
    if n < 2:
        return ()
    cost = np.array([worst[i, j] for i, j in edges])
    limit = _least_bottleneck(n, edges, cost)
    kept = [k for k in range(len(edges)) if cost[k] <= limit * (1 + 1e-9) + 1e-12]
    chosen = _solve(n, [edges[k] for k in kept], cost[kept]) or []
    return tuple(sorted((edges[kept[k]] for k in chosen), key=lambda e: worst[e]))


def _least_bottleneck(n: int, edges: Sequence[tuple[int, int]], cost: FloatArray) -> float:
    """Return the smallest limit under which a whole pairing exists, by bisection over the differences."""
    levels = np.unique(cost)
    low, high = 0, len(levels) - 1
    while low < high:
        middle = (low + high) // 2
        kept = [k for k in range(len(edges)) if cost[k] <= levels[middle]]
        if _solve(n, [edges[k] for k in kept], np.zeros(len(kept))) is None:
            low = middle + 1
        else:
            high = middle
    return float(levels[low])


def _solve(n: int, edges: Sequence[tuple[int, int]], cost: FloatArray) -> list[int] | None:
    """Return which edges make a pairing of least cost, or None where there is no whole pairing."""
    from scipy.optimize import Bounds, LinearConstraint, milp

    if len(edges) < n // 2:
        return None
    touches = np.zeros((n + 1, len(edges)))
    for k, (i, j) in enumerate(edges):
        touches[[i, j], k] = 1
    touches[n] = 1
    least = np.array([0.0 if n % 2 else 1.0] * n + [n // 2])
    found = milp(cost, constraints=LinearConstraint(touches, least, [1.0] * n + [n // 2]),
                 integrality=np.ones(len(edges)), bounds=Bounds(0, 1))  # fmt: skip
    return [int(k) for k in np.flatnonzero(found.x > 0.5)] if found.x is not None else None
