"""Continuous broken lines with up to three free knees: the exact least-squares optimum.

`broken_stick` fits, `knee_errors` and `profile_interval` say how sure the knees are. Segments may be parabolas.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike

from dynoan.analysis.knees.assumptions import CANDIDATES, LEAST_POINTS, MOST_KNEES
from dynoan.analysis.knees.moments import Moments, cost, forms, knots_of, moments, solve_values
from dynoan.analysis.knees.polish import polish
from dynoan.analysis.knees.search import KnotGrid, search
from dynoan.errors import FitError
from dynoan.model.arrays import BoolArray, FloatArray


@dataclass(frozen=True)
class BrokenStick:
    """A continuous piecewise curve: values at the knots, and a bubble ``height·u(1−u)`` on segments that bend."""

    knots: FloatArray  #: first end, knees, last end, shape (k+2,)
    values: FloatArray  #: at the knots, shape (k+2,)
    heights: FloatArray  #: of the bubbles, shape (k+1,), zero where straight
    bent: BoolArray  #: shape (k+1,)
    sse: float  #: weighted sum of squared residuals
    samples: int
    pinned: bool = False  #: forced through zero at x = 0
    #: exponent of a first piece ``values[1]·u^power``, which then has no bubble; NaN where it is straight or a parabola
    power: float = float("nan")

    @property
    def knees(self) -> FloatArray:
        """The positions of the knees, shape (k,). [as x]"""
        return self.knots[1:-1]

    @property
    def slopes(self) -> FloatArray:
        """Mean slope of each segment, shape (k+1,). [y per x]"""
        return np.asarray(np.diff(self.values) / np.diff(self.knots))

    @property
    def parameters(self) -> int:
        """Free parameters: values at the knots, knees, bends."""
        return len(self.values) - int(self.pinned) + len(self.knees) + int(np.sum(self.bent))

    def end_slopes(self) -> tuple[FloatArray, FloatArray]:
        """Return the slopes at the start and at the end of each segment, shape (k+1,) each. [y per x]"""
        bend = self.heights / np.diff(self.knots)
        start, end = self.slopes + bend, self.slopes - bend
        if self.power == self.power:
            # The slope at zero is none or infinite, and falls nowhere either way.
            start[0], end[0] = (0.0 if self.power > 1 else start[0]), self.power * start[0]
        return start, end

    def __call__(self, x: ArrayLike) -> FloatArray:
        """Return the curve at x; beyond the ends the end segments go on."""
        at = np.asarray(x, dtype=float)
        j = np.clip(np.searchsorted(self.knots, at, side="right") - 1, 0, len(self.heights) - 1)
        u = (at - self.knots[j]) / (self.knots[j + 1] - self.knots[j])
        out = self.values[j] * (1 - u) + self.values[j + 1] * u + self.heights[j] * u * (1 - u)
        if self.power == self.power:
            out = np.where(j == 0, self.values[1] * np.maximum(u, 0.0) ** self.power, out)
        return np.asarray(out)


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

    Examples
    --------
    >>> stick = broken_stick([0, 1, 2, 3, 4, 5, 6, 7], [0, 2, 4, 6, 7, 8, 9, 10], 1, least=2)
    >>> round(float(stick.knees[0]), 6), stick.slopes.round(6).tolist()
    (3.0, [2.0, 1.0])
    """
    xs, ys, ws = _points(x, y, weights, through_zero)
    pattern = np.full(knees + 1, bent) if isinstance(bent, bool) else np.asarray(bent, dtype=bool)
    if not 0 <= knees <= MOST_KNEES or len(pattern) != knees + 1:
        raise FitError(f"{knees} knees with {len(pattern)} segments: wanted 0 to {MOST_KNEES}, and one segment more")
    m = moments(xs, ys, ws, pinned=through_zero, bends=bool(pattern.any()))
    found = best_knees(m, pattern, least, 0.0)
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


def candidates(m: Moments) -> FloatArray:
    """Return candidate knots, sorted, shape (c,), as shares of the span of the points. [1]

    The points where they are few, every few of them where more, else edges of equal cells of position and of rank.
    """
    if len(m.z) <= CANDIDATES:
        return np.unique(m.z)[1:-1]
    if len(m.z) <= 4 * CANDIDATES:
        return np.unique(m.z)[1:-1][:: -(-len(m.z) // CANDIDATES)]
    even = np.linspace(0.0, 1.0, CANDIDATES // 2 + 1)[1:-1]
    rank = m.z[np.linspace(0, len(m.z) - 1, CANDIDATES // 2 + 1).astype(int)[1:-1]]
    return np.unique(np.concatenate([even, rank]))


def best_knees(
    m: Moments, bent: BoolArray, least: int, width: float, grid: KnotGrid | None = None
) -> tuple[FloatArray, float] | None:
    """Return the best knees (scaled), shape (k,), and the cost (scaled); None where no set of knees is allowed. [1]"""
    if len(bent) == 1:
        return np.empty(0), float(cost(m, np.empty((1, 0)), bent)[0])
    grid = grid or KnotGrid(m, candidates(m), least, width)
    starts, _ = search(grid, bent)
    if len(starts) == 0:
        return None
    return polish(m, starts, bent, least, width)


def stick_at(m: Moments, knees: FloatArray, bent: BoolArray) -> BrokenStick:
    """Return the best curve at given knees (scaled), in the units of the points."""
    knots = knots_of(knees)
    f = forms(m.between(knots), knots[:-1], knots[1:], bent)
    values, sse = solve_values(f, m.pinned)
    if m.pinned:
        values[0] = 0.0
    heights = f.height(values[:-1], values[1:]) * m.scale
    base = m.base[0] + m.base[1] * knots
    return BrokenStick(m.lo + m.width * knots, base + m.scale * values, heights, np.asarray(bent),
                       float(sse) * m.scale**2, len(m.z), m.pinned)  # fmt: skip
