"""Continuous broken lines with up to three free knees: the exact least-squares optimum.

Segments may be parabolas. `fitting/choice.py` searches which and how many; a fit of so many
knees as are asked for stands with the tests' oracles.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike

from dynoan.analysis.knees.assumptions import CANDIDATES
from dynoan.analysis.knees.moments import Moments, forms, knots_of, solve_values
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
            out, first = np.asarray(out), np.asarray(j == 0)
            out[first] = self.values[1] * np.maximum(np.asarray(u)[first], 0.0) ** self.power
        return np.asarray(out)


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
