"""So many free knees as are asked for, by the program's own exact search, and how sure they are.

The program itself searches all patterns of a curve in one go and tells what a curve is worth: held against this.
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import ArrayLike

from dynoan.analysis.fitting.assumptions import KNEE_WORTH
from dynoan.analysis.fitting.choice import criterion
from dynoan.analysis.knees.assumptions import MOST_KNEES
from dynoan.analysis.knees.broken_line import BrokenStick, candidates, stick_at
from dynoan.analysis.knees.errors import Profile, _interval, jacobian
from dynoan.analysis.knees.moments import Moments, cost, moments
from dynoan.analysis.knees.polish import polish
from dynoan.analysis.knees.search import KnotGrid, search
from dynoan.analysis.statistics import t_quantile
from dynoan.errors import FitError
from dynoan.model.arrays import BoolArray, FloatArray

LEAST_POINTS = 3  #: of a segment where the caller asks for none: two points make any line
LEVEL = 0.95  #: confidence of an interval where the caller asks for none


def broken_stick(
    x: ArrayLike,
    y: ArrayLike,
    knees: int,
    *,
    through_zero: bool = False,
    weights: ArrayLike | None = None,
    bent: Sequence[bool] | bool = False,
    least: int = LEAST_POINTS,
) -> BrokenStick:
    """Return the best continuous piecewise line with a number of free knees.

    The same answer for any order of the points; no seed, no starting guess.

    Parameters
    ----------
    x, y
        Points in any order, shape (n,).
    knees
        0 to 3.
    through_zero
        Fix the value zero at x = 0; x must then not be negative.
    weights
        Of the squared residuals, shape (n,).
    bent
        Which of the knees+1 segments are parabolas, or one answer for all.
    least
        Fewest points of a segment.

    Raises
    ------
    FitError
        If the points are too few or too close together for that many knees, or not finite.

    Notes
    -----
    The optimum over all candidate knots is found exactly by sums over prefix sums, then polished to continuous
    positions from the best basins.
    """
    xs, ys, ws = _points(x, y, weights, through_zero)
    pattern = np.full(knees + 1, bent) if isinstance(bent, bool) else np.asarray(bent, dtype=bool)
    if not 0 <= knees <= MOST_KNEES or len(pattern) != knees + 1:
        raise FitError(f"{knees} knees with {len(pattern)} segments: wanted 0 to {MOST_KNEES}, and one segment more")
    m = moments(xs, ys, ws, pinned=through_zero, bends=bool(pattern.any()))
    found = _best(m, pattern, least, 0.0)
    if found is None:
        raise FitError(f"{len(xs)} points are too few, or lie too close together, for {knees} knees")
    stick = stick_at(m, found[0], pattern)
    residual = ys - stick(xs)
    sse = float(np.sum(residual**2 if ws is None else ws * residual**2))
    return BrokenStick(stick.knots, stick.values, stick.heights, pattern, sse, len(xs), through_zero)


def _points(
    x: ArrayLike, y: ArrayLike, weights: ArrayLike | None, through_zero: bool
) -> tuple[FloatArray, FloatArray, FloatArray | None]:
    xs, ys = np.asarray(x, dtype=float).ravel(), np.asarray(y, dtype=float).ravel()
    ws = None if weights is None else np.asarray(weights, dtype=float).ravel()
    if len(xs) != len(ys) or (ws is not None and len(ws) != len(xs)):
        raise FitError(f"{len(xs)} positions, {len(ys)} values: wanted as many of each, and of weights")
    if len(xs) < 2 or not (np.isfinite(xs).all() and np.isfinite(ys).all()):
        raise FitError("wanted at least two points, all of them finite numbers")
    if ws is not None and not (np.isfinite(ws).all() and (ws >= 0).all()):
        raise FitError("weights must be finite and not negative")
    if through_zero and xs.min() < 0:
        raise FitError("a curve forced through zero takes positions from 0 upward")
    return xs, ys, ws


def _best(m: Moments, bent: BoolArray, least: int, width: float) -> tuple[FloatArray, float] | None:
    """Return the best knees (scaled), shape (k,), and the cost (scaled); None where no set of knees is allowed. [1]"""
    if len(bent) == 1:
        return np.empty(0), float(cost(m, np.empty((1, 0)), bent)[0])
    starts, _ = search(KnotGrid(m, candidates(m), least, width), bent)
    if len(starts) == 0:
        return None
    return polish(m, starts, bent, least, width)


def choose_lines(x: FloatArray, y: FloatArray) -> BrokenStick:
    """Return the broken line with 0 to 3 knees that the points carry, free at both ends, by the same criterion."""
    sticks = [broken_stick(x, y, k) for k in range(min(MOST_KNEES, (len(x) - 2) // 3) + 1)]
    return min(sticks, key=lambda s: criterion(s.sse + 1e-300, len(x), 2 + KNEE_WORTH * len(s.knees)))


def knee_errors(stick: BrokenStick, x: ArrayLike, y: ArrayLike) -> FloatArray:
    """Return the linearised standard errors of the knees, shape (k,), for equal, independent scatter. [as x]

    Not defined where a knee lies on a point; too short on the flat side of a skew profile. See `profile_interval`.
    """
    xs, ys = np.asarray(x, dtype=float), np.asarray(y, dtype=float)
    j = jacobian(stick, xs)
    sigma2 = float(np.sum((ys - stick(xs)) ** 2)) / (len(xs) - stick.parameters)
    covariance = np.linalg.pinv(j.T @ j) * sigma2
    k = len(stick.knees)
    return np.sqrt(np.diag(covariance)[len(covariance) - k :])


def profile_interval(
    x: ArrayLike, y: ArrayLike, stick: BrokenStick, level: float = LEVEL, *, knee: int = 0
) -> tuple[float, float]:
    """Return the interval of a knee in which the sum of squares stays below its F limit, the other knees at their best.

    The set where ``S(τ) ≤ S_min (1 + F/(n−p))``, F with 1 and n − p degrees of freedom, from its outermost points; it
    ends at the data where the profile never rises that high (Seber and Wild, *Nonlinear Regression*, 1989, ch. 5).
    Lowest and highest position [as x].
    """
    xs, ys = np.asarray(x, dtype=float), np.asarray(y, dtype=float)
    m = moments(xs, ys, None, pinned=stick.pinned, bends=bool(stick.bent.any()))
    dof = len(xs) - stick.parameters
    rise = float(np.sum((ys - stick(xs)) ** 2)) * t_quantile(0.5 + level / 2, dof) ** 2 / dof
    low, high = _interval(Profile(m, stick, knee), rise)
    return float(low), float(high)
