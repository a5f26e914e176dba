"""From knees on a grid to continuous ones: Gauss-Newton on the exact sum of squares, then a scan over data points.

Linearised in the knees, a continuous curve may jump at each of them, so one Gauss-Newton step is: fit every segment
freely, and move each knee to where its neighbours cross. The sum of squares has kinks at the data points, where such
steps can stick (and where the optimum may lie); so the points around each knee are tried one by one as well.
"""

from __future__ import annotations

from itertools import product

import numpy as np

from dynoan.analysis.knees.assumptions import FEW_POINTS, FINE, GAIN, NEAR, REACH
from dynoan.analysis.knees.moments import Moments, cost, forms, knots_of, solve_values
from dynoan.model.arrays import BoolArray, FloatArray

_TINY = 1e-300
_SHARES = np.array([1.0, 0.5, 0.25, 0.0625, 0.00390625])


def polish(
    m: Moments, knees: FloatArray, bent: BoolArray, least: int, width: float, gain: float = GAIN
) -> tuple[FloatArray, float]:
    """Return the best knees, shape (k,), near the given sets of shape (b, k), and their cost, to a share `gain`. [1]"""
    limits = (least, width)
    with np.errstate(all="ignore"):
        knees, costs = _descend(m, knees, bent, limits)
        order = np.argsort(costs, kind="stable")
        # A basin whose floor lies well above the best one's will not get below it by a walk over a few points.
        near = [order[0], *(i for i in order[1:2] if costs[i] <= NEAR * costs[order[0]])]
        best, low = min((_walk(m, knees[i], bent, limits, gain) for i in near), key=lambda pair: pair[1])
        if gain > FINE:
            return best, low
        fine = _scan(m, best, bent, limits, rounds=4)
        fine, c = _descend(m, _both_sides(fine), bent, limits)
        at = int(np.argmin(c))
    return (fine[at], float(c[at])) if c[at] < low else (best, low)


def _walk(
    m: Moments, start: FloatArray, bent: BoolArray, limits: tuple[int, float], gain: float
) -> tuple[FloatArray, float]:
    """Scan and step in turn until neither gains."""
    low = float(cost(m, start[None], bent)[0])
    for _ in range(4):
        both, c = _descend(m, _both_sides(_scan(m, start, bent, limits, rounds=1)), bent, limits)
        at = int(np.argmin(c))
        gained = low - float(c[at])
        if gained > 0:
            start, low = both[at], float(c[at])
        if gained <= gain * abs(low):
            break
    return start, low


def settle(m: Moments, knees: FloatArray, bent: BoolArray, least: int, width: float) -> tuple[FloatArray, FloatArray]:
    """Return sets of knees after a few Gauss-Newton steps, shape (b, k), and their costs, shape (b,). [1], scaled

    Each set has bends of its own, `bent` of shape (b, k+1).
    """
    with np.errstate(all="ignore"):
        return _descend(m, knees, bent, (least, width), 4)


def _both_sides(knees: FloatArray) -> FloatArray:
    """Return the knees and all sets with each moved a hair: a point on a knee may count to its left or its right."""
    hair = np.array(list(product((-1e-9, 1e-9), repeat=len(knees))))
    return np.concatenate([knees[None], np.clip(knees + hair, 1e-9, 1 - 1e-9)])


def _judged(m: Moments, knees: FloatArray, bent: BoolArray, limits: tuple[int, float]) -> FloatArray:
    """Return the costs of sets of knees, infinite where a segment is too short or holds too few points."""
    least, width = limits
    knots = knots_of(knees)
    index = m.places(knots)
    at = m.sums[:, index]
    f = forms(at[..., 1:] - at[..., :-1], knots[..., :-1], knots[..., 1:], bent)
    apart = (f.h >= max(width, 1e-9)).all(axis=-1)
    # A point that lies on a knee belongs to both neighbours.
    enough = (index[..., 1:] - index[..., :-1] >= least - 1).all(axis=-1)
    values = solve_values(f, m.pinned)[1]
    return np.where(apart & enough & (values == values), values, np.inf)


def _steps(m: Moments, knees: FloatArray, bent: BoolArray) -> FloatArray:
    knots = knots_of(knees)
    f = forms(m.between(knots), knots[..., :-1], knots[..., 1:], bent)
    det = f.A * f.C - f.B * f.B
    det = np.where(np.abs(det) < _TINY, _TINY, det)
    a, b = (f.C * f.D - f.B * f.E) / det, (f.A * f.E - f.B * f.D) / det
    if m.pinned:
        a[..., 0], b[..., 0] = 0.0, f.E[..., 0] / (f.C[..., 0] + _TINY)
    height = f.height(a, b)
    rise = (b - a) / f.h
    slope_in, slope_out = rise + height / f.h, rise - height / f.h
    change = slope_in[..., 1:] - slope_out[..., :-1]
    jump = a[..., 1:] - b[..., :-1]
    step = np.where(np.abs(change) > 1e-12, -jump / np.where(change == 0, 1.0, change), 0.0)
    reach = 0.5 * np.minimum(f.h[..., 1:], f.h[..., :-1])
    return np.clip(step, -reach, reach)


def _descend(
    m: Moments, knees: FloatArray, bent: BoolArray, limits: tuple[int, float], rounds: int = 14
) -> tuple[FloatArray, FloatArray]:
    """Step every set of knees downhill until nothing moves; `bent` is common to all sets, or a row for each."""
    knees = knees.copy()
    costs = cost(m, knees, bent)
    for _ in range(rounds):
        step = _steps(m, knees, bent)
        tries = knees[:, None, :] + _SHARES[:, None] * step[:, None, :]
        tries = np.clip(tries, 1e-9, 1 - 1e-9)
        values = _judged(m, tries, bent[..., None, :], limits)
        pick = np.argmin(values, axis=1)
        rows = np.arange(len(knees))
        low = values[rows, pick]
        better = low < costs
        gain = np.max(np.where(better, costs - low, 0.0) / np.abs(costs), initial=0.0)
        knees[better], costs[better] = tries[rows, pick][better], low[better]
        if gain < 1e-10:
            break
    return knees, costs


def _scan(m: Moments, knees: FloatArray, bent: BoolArray, limits: tuple[int, float], *, rounds: int) -> FloatArray:
    """Try the data points around each knee in turn, and in further rounds ever finer between them; the others fixed."""
    for j in range(len(knees)):
        near = np.searchsorted(m.z, knees[j])
        points = _with_gaps(np.unique(np.append(m.z[max(near - REACH, 0) : near + REACH], knees[j])), m)
        for _ in range(rounds if len(m.z) <= FEW_POINTS else 1):
            tries = np.repeat(knees[None], len(points), axis=0)
            tries[:, j] = points
            values = _judged(m, tries, bent, limits)
            at = int(np.argmin(values))
            if values[at] == np.inf:
                break
            knees = tries[at]
            points = np.linspace(points[max(at - 1, 0)], points[min(at + 1, len(points) - 1)], 17)
        else:
            knees = tries[at] if rounds == 1 else _parabola(m, tries, values, (j, at), bent)
    return knees


def _with_gaps(points: FloatArray, m: Moments) -> FloatArray:
    """Add the quarters of each gap where points are few: each gap may hold a minimum of its own."""
    if len(m.z) > FEW_POINTS or len(points) < 2:
        return points
    quarters = points[:-1, None] + np.diff(points)[:, None] * np.array([0.0, 0.25, 0.5, 0.75])
    return np.append(quarters.ravel(), points[-1])


def _parabola(m: Moments, tries: FloatArray, values: FloatArray, at: tuple[int, int], bent: BoolArray) -> FloatArray:
    """Return the set at the foot of the parabola through the lowest value and its neighbours, where that is lower."""
    j, i = at
    if not 0 < i < len(values) - 1 or not np.isfinite(values[i - 1 : i + 2]).all():
        return np.asarray(tries[i])
    below, here, above = values[i - 1 : i + 2]
    bow = below - 2 * here + above
    foot = tries[i].copy()
    foot[j] += 0.5 * (below - above) / bow * (tries[i + 1, j] - tries[i, j]) if bow > 0 else 0.0
    return foot if cost(m, foot[None], bent)[0] < here else np.asarray(tries[i])
