"""How sure knees are: linearised standard errors, and intervals from the profile of the sum of squares."""

from __future__ import annotations

import math

import numpy as np
from numpy.typing import ArrayLike

from dynoan.analysis.knees import BrokenStick, candidates
from dynoan.analysis.knees_moments import Moments, cost, moments
from dynoan.model.arrays import FloatArray


def t_cdf(t: float, dof: int) -> float:
    """Return the distribution function of Student's t for whole degrees of freedom.

    Notes
    -----
    Closed forms 26.7.3 and 26.7.4 of Abramowitz and Stegun, *Handbook of Mathematical Functions*. Written out here
    because importing scipy.special costs a fresh process more than fitting a curve.
    """
    theta = math.atan(t / math.sqrt(dof))
    cos2 = math.cos(theta) ** 2
    total, term = 0.0, 1.0
    if dof % 2:
        for k in range(1, (dof - 1) // 2 + 1):
            total += term
            term *= cos2 * 2 * k / (2 * k + 1)
        a = 2 / math.pi * (theta + math.sin(theta) * math.cos(theta) * total)
    else:
        for k in range(1, dof // 2 + 1):
            total += term
            term *= cos2 * (2 * k - 1) / (2 * k)
        a = math.sin(theta) * total
    return 0.5 + 0.5 * a


def t_quantile(p: float, dof: float) -> float:
    """Return the quantile of Student's t, by bisection; beyond 2000 degrees of freedom those of 2000.

    >>> round(t_quantile(0.975, 10), 4)
    2.2281
    """
    whole = max(1, min(int(dof), 2000))
    low, high = 0.0, 1e4
    for _ in range(200):
        middle = 0.5 * (low + high)
        low, high = (middle, high) if t_cdf(middle, whole) < p else (low, middle)
        if high - low < 1e-12 * high:
            break
    return 0.5 * (low + high)


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
        Shape (n, p); a value pinned to zero has no column. Knees last. Where the first piece is a power law, its
        exponent stands in the place of its bend.
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
        values[own, 1], bends[own, 0] = v**m, stick.values[1] * v**m * np.log(v)
        steep[own] = stick.values[1] * m * v ** (m - 1)
    ends = np.zeros((len(x), len(stick.knots)))
    ends[rows, j] += steep * (u - 1) / width
    ends[rows, j + 1] += -steep * u / width
    return np.column_stack([values[:, int(stick.pinned) :], bends[:, stick.bent], ends[:, 1:-1]])


def knee_errors(stick: BrokenStick, x: ArrayLike, y: ArrayLike) -> FloatArray:
    """Return the linearised standard errors of the knees, shape (k,), from residuals of equal, independent scatter.

    Not defined where a knee lies on a point; too short on the flat side of a skew profile. See `profile_interval`.
    """
    xs, ys = np.asarray(x, dtype=float), np.asarray(y, dtype=float)
    j = jacobian(stick, xs)
    sigma2 = float(np.sum((ys - stick(xs)) ** 2)) / (len(xs) - stick.parameters)
    covariance = np.linalg.pinv(j.T @ j) * sigma2
    k = len(stick.knees)
    return np.sqrt(np.diag(covariance)[len(covariance) - k :])


def profile_interval(x: ArrayLike, y: ArrayLike, stick: BrokenStick, level: float = 0.95) -> tuple[float, float]:
    """Return the interval of a single knee in which the sum of squares stays below its F limit.

    The set where ``S(τ) ≤ S_min (1 + F/(n−p))``, F with 1 and n − p degrees of freedom, from its outermost points; it
    ends at the data where the profile never rises that high.
    """
    xs, ys = np.asarray(x, dtype=float), np.asarray(y, dtype=float)
    m = moments(xs, ys, None, pinned=stick.pinned, bends=bool(stick.bent.any()))
    dof = len(xs) - stick.parameters
    best = (float(stick.knees[0]) - m.lo) / m.width
    limit = float(cost(m, np.array([[best]]), stick.bent)[0]) * (1 + t_quantile(0.5 + level / 2, dof) ** 2 / dof)
    points = np.unique(np.concatenate([np.linspace(0, 1, 2001)[1:-1], candidates(m), [best]]))
    inside = cost(m, points[:, None], stick.bent) <= limit
    first, last = int(np.argmax(inside)), len(points) - 1 - int(np.argmax(inside[::-1]))
    low = points[first] if first == 0 else _edge(m, stick, (points[first - 1], points[first]), limit)
    high = points[last] if last == len(points) - 1 else _edge(m, stick, (points[last + 1], points[last]), limit)
    return float(m.lo + m.width * low), float(m.lo + m.width * high)


def _edge(m: Moments, stick: BrokenStick, between: tuple[float, float], limit: float) -> float:
    outside, inside = between
    for _ in range(60):
        middle = 0.5 * (outside + inside)
        if cost(m, np.array([[middle]]), stick.bent)[0] <= limit:
            inside = middle
        else:
            outside = middle
    return inside
