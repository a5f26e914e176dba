"""Damping that rises: splines as sums of steps that are not negative, and how alike the slopes of neighbours are.

The damping of one direction is a quadratic B-spline, zero at zero. Written by the steps from one weight to the next,
not negative, it nowhere falls (a B-spline with weights that rise rises). A prior on the ratio of neighbouring slopes
says that a valve's slope changes smoothly over the logarithm of speed unless the record shows a knee.
"""

from __future__ import annotations

from functools import lru_cache

import numpy as np

from dynoan.analysis.conditioning.assumptions import (
    BLEED_SPEEDS,
    EDGE_RATIO,
    FIRST_EDGES,
    LAMINAR_FIRST,
    LEAK_BESIDE,
    LITTLE_LEAK,
    SLOPE_CHANGE,
    SLOPE_FLOOR,
)
from dynoan.model.arrays import FloatArray
from dynoan.model.ranks import finite_median


def speed_edges(speed: FloatArray, near_zero: tuple[float, ...] = FIRST_EDGES) -> FloatArray:
    """Return the spline edges of one direction, close near zero and even in ratio above, shape (k,). [m/s]

    `speed` holds its speeds as magnitudes, `near_zero` the first edges where speeds reach so far. [m/s]
    """
    top = float(speed.max()) if len(speed) else 1.0
    first = [edge for edge in near_zero if edge < 0.3 * top]
    start = first[-1] if first else 0.05 * top
    more = max(2, round(np.log(top / start) / np.log(EDGE_RATIO)))
    return np.concatenate([[0.0], first[:-1], np.geomspace(start, top, more + 1)])


def centres(edges: FloatArray) -> FloatArray:
    """Return the speeds the weights belong to (Greville, 1964), the first at zero left out, shape (k,). [m/s]"""
    knots = np.concatenate([edges[[0, 0]], edges, edges[[-1, -1]]])
    return np.asarray(0.5 * (knots[2:-2] + knots[3:-1])[: len(edges)])


def steps_to_weights(sizes: tuple[int, int]) -> FloatArray:
    """Return the matrix from steps to spline weights of both directions, shape (p, p). [1]"""
    n, total = sizes[0], sizes[0] + sizes[1]
    out = np.zeros((total, total))
    out[:n, :n] = np.tri(n)
    out[n:, n:] = np.tri(sizes[1])
    return out


def smoothness(edges: FloatArray, steps: FloatArray, exponent: float, steep: float = SLOPE_FLOOR) -> FloatArray:
    """Return the root of the precision that ties neighbouring slopes together, upper triangular, shape (k, k). [1/N]

    Where all flow goes through bleed and leaks the slope is expected to go with speed to the power of `exponent`: 0
    where leaks rule, 1 where a bleed is an orifice, for both as `leaking` has it; ever less surely so from
    `BLEED_SPEEDS[0]` on, and flat from the second of them. Sizes are those of the present `steps`. [N] Below the first,
    a slope may be `steep` times the secant there, where that is more.
    """
    at, gaps, free = _places(edges.tobytes())
    slope = steps / gaps
    secant = np.cumsum(steps) / at
    padded = np.concatenate([slope[:1], slope, slope[-1:]])
    near = (padded[:-2] + padded[1:-1] + padded[2:]) / 3
    size = np.maximum(near, SLOPE_FLOOR * secant) + 1e-9
    # Near zero the slope's own size says nothing: friction looks like a steep start.
    size = np.maximum(size, 0.02 * finite_median(size))
    first = BLEED_SPEEDS[0]
    ref = (at > 0.6 * first) & (at < 2.0 * first)
    below = np.maximum(size, steep * secant)
    size[at < first] = finite_median(below[ref]) if ref.any() else finite_median(size)
    law = _law(at, exponent)
    size[at >= first] /= law[at >= first]
    scale = free * np.sqrt(size[1:] * size[:-1])
    rows = np.zeros((len(at), len(at)))
    i = np.arange(len(at) - 1)
    rows[i, i] = -1.0 / (gaps[:-1] * law[:-1] * scale)
    rows[i, i + 1] = 1.0 / (gaps[1:] * law[1:] * scale)
    rows[-1, -1] = 1.0 / (gaps[-1] * law[-1] * 5.0 * size[-1])
    return rows


def _law(at: FloatArray, exponent: float) -> FloatArray:
    """Return how the slope goes with speeds [m/s], one at the first of `BLEED_SPEEDS`, shape (k,). [1]"""
    first, last = BLEED_SPEEDS
    over = np.minimum(at, last) / first
    if exponent == LAMINAR_FIRST:
        return np.asarray(LAMINAR_FIRST + (1.0 - LAMINAR_FIRST) * over)
    if exponent in (LEAK_BESIDE, LITTLE_LEAK):
        return leaking(over, exponent) / leaking(np.ones(1), exponent)
    return np.asarray(over**exponent)


def leaking(over: FloatArray, leak: float) -> FloatArray:
    """Return how the slope of force goes with flow through an orifice and a laminar leak side by side, to a factor.

    Both see the same pressure p, so the flow is `leak` · p + (1 - leak) · √p; `over` is the flow over that at p = 1,
    shape (n,). [1] The leak takes more of it the faster it goes, so force starts as the square and ends as a line.
    """
    orifice = 1.0 - leak
    return np.asarray(1.0 - orifice / np.sqrt(orifice**2 + 4.0 * leak * over))


@lru_cache(maxsize=64)
def _places(edges: bytes) -> tuple[FloatArray, FloatArray, FloatArray]:
    """Return where the weights of edges belong, the gaps between, and how freely slopes change from one to the next.

    [m/s], [m/s], [1]
    """
    at = centres(np.frombuffer(edges))
    free = np.interp(np.log(at[1:]), np.log(BLEED_SPEEDS), SLOPE_CHANGE)
    return at, np.diff(at, prepend=0.0), free * np.sqrt(np.log(at[1:] / at[:-1]))
