"""How sure knees are: what moves the curve, and intervals from the profile of the sum of squares."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import combinations, product

import numpy as np

from dynoan.analysis.knees.assumptions import (
    CLOSE_BY,
    LONE_PLACES,
    PLACES,
    SHRINKING,
    STARTS_OF_ONE,
    STARTS_OF_TWO,
)
from dynoan.analysis.knees.broken_line import BrokenStick, candidates
from dynoan.analysis.knees.moments import Moments, cost, knots_of, moments
from dynoan.model.arrays import FloatArray


def jacobian(stick: BrokenStick, x: FloatArray) -> FloatArray:
    """Return the derivatives of the curve by its values at the knots, the heights of its bends, and its knees.

    Parameters
    ----------
    stick
        The curve.
    x
        Where, shape (n,).

    Returns
    -------
    :
        Shape (n, p) [y per unit of the parameter]; a value pinned to zero has no column. Knees last. Where the first
        piece is a power law, its exponent stands in the place of its bend.
    """
    # A point on a knee counts to its left: there the derivative by the knee is not defined.
    j = np.clip(np.searchsorted(stick.knots, x) - 1, 0, len(stick.heights) - 1)
    width = np.diff(stick.knots)[j]
    u = (x - stick.knots[j]) / width
    rows = np.arange(len(x))
    values = np.zeros((len(x), len(stick.values)))
    values[rows, j], values[rows, j + 1] = 1 - u, u
    bends = np.zeros((len(x), len(stick.heights)))
    bends[rows, j] = u * (1 - u)
    # The slope by u, times how u moves with either end of the segment.
    steep = stick.values[j + 1] - stick.values[j] + stick.heights[j] * (1 - 2 * u)
    if stick.power == stick.power:
        # The first piece is values[1]·u^m: its derivatives by that value and, in the place of the bend, by m.
        own, m = j == 0, stick.power
        v = np.maximum(u[own], 1e-12)
        share = v**m
        values[own, 1], bends[own, 0] = share, stick.values[1] * share * np.log(v)
        steep[own] = stick.values[1] * m * v ** (m - 1)
    ends = np.zeros((len(x), len(stick.knots)))
    ends[rows, j] += steep * (u - 1) / width
    ends[rows, j + 1] += -steep * u / width
    return np.column_stack([values[:, int(stick.pinned) :], bends[:, stick.bent], ends[:, 1:-1]])


def profile_intervals(points: tuple[FloatArray, FloatArray, FloatArray], stick: BrokenStick, rise: float) -> FloatArray:
    """Return for every knee the interval in which the sum of squares, the others at their best, rises by no more.

    Parameters
    ----------
    points
        x, y and weights, shape (n,) each.
    stick
        Their best curve.
    rise
        Of the weighted sum of squares above its least.

    Returns
    -------
    :
        Lowest and highest position [as x], shape (k, 2). Every piece keeps two points.
    """
    x, y, weights = points
    m = moments(x, y, weights, pinned=stick.pinned, bends=bool(stick.bent.any()))
    return np.array([_interval(Profile(m, stick, j, least=2), rise) for j in range(len(stick.knees))]).reshape(-1, 2)


@dataclass(frozen=True)
class Profile:
    """The least sum of squares (scaled) over the place (scaled) of one knee of a curve."""

    m: Moments
    stick: BrokenStick
    knee: int
    least: int = 0  #: fewest points of a piece; one on a knee belongs to both

    @property
    def best(self) -> FloatArray:
        """The knees of the curve, shape (k,), as shares of the span of the points. [1]"""
        return np.asarray((self.stick.knees - self.m.lo) / self.m.width)

    def __call__(self, at: FloatArray) -> FloatArray:
        """Return the least sums of squares with the knee at places, shape (t,), infinite where none is allowed."""
        if len(self.best) == 1:
            return self._costs(at[:, None])
        others = self._starts()
        sets = np.insert(np.broadcast_to(others, (len(at), *others.shape)), self.knee, at[:, None], axis=2)
        rows = np.arange(len(at))
        for step in SHRINKING:
            costs = self._costs(sets)
            found = sets[rows, np.argmin(costs, axis=1)]
            moves = np.array(list(product((-step, 0.0, step), repeat=len(self.best) - 1)))
            sets = found[:, None, :] + np.insert(moves, self.knee, 0.0, axis=1)
        return np.asarray(np.min(self._costs(sets), axis=1))

    def _starts(self) -> FloatArray:
        """Return where the other knees may start from, shape (c, k−1), in order."""
        mine = np.delete(self.best, self.knee)
        even = np.linspace(0.0, 1.0, STARTS_OF_ONE if len(mine) == 1 else STARTS_OF_TWO)[1:-1]
        return np.vstack([mine, np.array(list(combinations(even, len(mine))))])

    def _costs(self, sets: FloatArray) -> FloatArray:
        knots = knots_of(sets)
        counts = np.diff(self.m.places(knots), axis=-1)
        fits = (np.diff(knots, axis=-1) > 1e-6) & (counts >= self.least - 1)
        allowed = np.asarray(fits.all(axis=-1))
        with np.errstate(all="ignore"):
            costs = cost(self.m, np.where(allowed[..., None], sets, self.best), self.stick.bent)
        return np.where(allowed & np.isfinite(costs), costs, np.inf)


def _interval(profile: Profile, rise: float) -> tuple[float, float]:
    """Return the outermost places at which the sum of squares is no more than `rise` above its least."""
    m, best = profile.m, float(profile.best[profile.knee])
    lone = len(profile.best) == 1
    near = best + np.linspace(-CLOSE_BY, CLOSE_BY, 21)
    fine = (
        np.concatenate([np.linspace(0, 1, LONE_PLACES)[1:-1], candidates(m)])
        if lone
        else np.linspace(0, 1, PLACES)[1:-1]
    )
    points = np.unique(np.concatenate([fine, near[(near > 0) & (near < 1)]]))
    costs = profile(points)
    limit = float(np.min(costs)) + rise / m.scale**2
    inside = np.flatnonzero(costs <= limit)
    first, last = int(inside[0]), int(inside[-1])
    low = points[first] if first == 0 else _edge(profile, (points[first - 1], points[first]), limit)
    high = points[last] if last == len(points) - 1 else _edge(profile, (points[last + 1], points[last]), limit)
    return m.lo + m.width * low, m.lo + m.width * high


def _edge(profile: Profile, between: tuple[float, float], limit: float) -> float:
    """Return where the sum of squares passes the limit between a place outside and one inside."""
    outside, inside = between
    for _ in range(6 if len(profile.best) == 1 else 3):
        tries = np.linspace(outside, inside, 9)[1:]
        first = int(np.argmax(np.append(profile(tries[:-1]), -np.inf) <= limit))
        outside, inside = (outside if first == 0 else tries[first - 1]), tries[first]
    return float(inside)
