"""Prefix sums over sorted points, and what a line or a parabola between two knots costs.

With the points sorted, the difference of two prefix sums holds all that least squares needs to know of the points
between two knots, so the cost of a segment does not depend on how many points it holds. A segment between knots s and
t is written by its values a and b at the knots and, where it is bent, by the height of a bubble u(1−u), which is
eliminated at once. Its cost is then a quadratic form in a and b. All arrays here are scaled to [0, 1].
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from dynoan.model.arrays import BoolArray, FloatArray, IntArray

STRAIGHT_SUMS, BENT_SUMS = 6, 9
_TINY = 1e-300


@dataclass(frozen=True)
class Moments:
    """Sorted, scaled points and their prefix sums."""

    z: FloatArray  #: positions scaled to [0, 1], sorted, shape (n,)
    sums: FloatArray  #: shape (6 or 9, n+1): w, wz, wzz, wy, wzy, wyy, and wzzz, wzzzz, wzzy where bends are wanted
    pinned: bool  #: the value at 0 is fixed at zero
    lo: float  #: position of 0
    width: float  #: positions per unit
    base: tuple[float, float]  #: the line taken off y: value at 0 and slope in z
    scale: float  #: y per unit

    @property
    def bends(self) -> bool:
        """Whether the sums serve bent segments."""
        return len(self.sums) == BENT_SUMS

    def between(self, knots: FloatArray) -> FloatArray:
        """Return the sums between neighbouring knots along the last axis, shape (6 or 9, …, knots−1). [1], scaled"""
        at = self.sums[:, self.places(knots)]
        return np.asarray(at[..., 1:] - at[..., :-1])

    def places(self, knots: FloatArray) -> IntArray:
        """Return how many points lie left of each knot; the first knot has none, the last all."""
        index = np.searchsorted(self.z, knots)
        index[..., 0] = 0
        index[..., -1] = len(self.z)
        return index


def moments(x: FloatArray, y: FloatArray, w: FloatArray | None, *, pinned: bool, bends: bool) -> Moments:
    """Return the prefix sums of points, any order; `pinned` fixes the value zero at x = 0.

    A straight line is taken off y first, which keeps the sums small and the differences between them exact.
    """
    order = np.argsort(x)
    x, y = x[order], y[order]
    lo = 0.0 if pinned else float(x[0])
    width = float(x[-1]) - lo or 1.0
    z = (x - lo) / width
    weight = np.ones(len(z)) if w is None else w[order]
    base = _base_line(z, y, weight, pinned)
    rest = y - base[0] - base[1] * z
    scale = float(np.sqrt(np.mean(rest**2))) or 1.0
    rest = rest / scale
    wz, wy = weight * z, weight * rest
    rows = [weight, wz, wz * z, wy, wy * z, wy * rest]
    if bends:
        wzzz = rows[2] * z
        rows += [wzzz, wzzz * z, rows[4] * z]
    sums = np.zeros((len(rows), len(z) + 1))
    for row, total in zip(rows, sums, strict=True):
        np.cumsum(row, out=total[1:])
    return Moments(z, sums, pinned, lo, width, base, scale)


def _base_line(z: FloatArray, y: FloatArray, w: FloatArray, pinned: bool) -> tuple[float, float]:
    if pinned:
        return 0.0, float(np.sum(w * z * y) / max(float(np.sum(w * z * z)), _TINY))
    total = float(np.sum(w))
    zm, ym = float(np.sum(w * z)) / total, float(np.sum(w * y)) / total
    slope = float(np.sum(w * (z - zm) * y)) / max(float(np.sum(w * (z - zm) ** 2)), _TINY)
    return ym - slope * zm, slope


@dataclass(frozen=True)
class Forms:
    """Costs ``A a² + 2 B a b + C b² − 2 D a − 2 E b + S`` of segments with end values a and b; arrays of any shape."""

    A: FloatArray
    B: FloatArray
    C: FloatArray
    D: FloatArray
    E: FloatArray
    S: FloatArray
    h: FloatArray  #: widths
    bubble: tuple[FloatArray, FloatArray, FloatArray] | None = None  #: height = b0 − b1·a − b2·b, 0 where straight

    def height(self, a: FloatArray, b: FloatArray) -> FloatArray:
        """Return the height of the bubble for end values, of their shape. [1], scaled"""
        if self.bubble is None:
            return np.zeros(np.broadcast(a, b).shape)
        b0, b1, b2 = self.bubble
        return np.asarray(b0 - b1 * a - b2 * b)


def forms(d: FloatArray, s: FloatArray, t: FloatArray, bent: BoolArray | bool) -> Forms:
    """Return the costs of segments from s to t with sums `d`; `bent` broadcasts against s."""
    h = t - s
    m0, y0, yy = d[0], d[3], d[5]
    sm0, sy0, square = s * m0, s * y0, h * h
    m1 = (d[1] - sm0) / h
    m2 = (d[2] - s * (2 * d[1] - sm0)) / square
    y1 = (d[4] - sy0) / h
    straight = Forms(m0 - 2 * m1 + m2, m1 - m2, m2, y0 - y1, y1, yy, h)
    if not np.any(bent):
        return straight
    m3 = (d[6] - s * (3 * d[2] - s * (3 * d[1] - sm0))) / h**3
    m4 = (d[7] - s * (4 * d[6] - s * (6 * d[2] - s * (4 * d[1] - sm0)))) / h**4
    y2 = (d[8] - s * (2 * d[4] - sy0)) / square
    return _eliminate_bubble(straight, (m1 - 2 * m2 + m3, m2 - m3, m2 - 2 * m3 + m4, y1 - y2), bent)


def _eliminate_bubble(
    f: Forms, products: tuple[FloatArray, FloatArray, FloatArray, FloatArray], bent: BoolArray | bool
) -> Forms:
    left, right, own, with_y = products
    # Too few points to carry a bend: the bubble is left out there.
    use = np.logical_and(bent, own > 1e-9 * np.abs(f.A + f.C) + _TINY)
    inverse = np.divide(1.0, own, out=np.zeros(use.shape), where=use)
    b0, b1, b2 = with_y * inverse, left * inverse, right * inverse
    return Forms(
        f.A - left * b1, f.B - left * b2, f.C - right * b2, f.D - left * b0, f.E - right * b0, f.S - with_y * b0,
        f.h, (b0, b1, b2),
    )  # fmt: skip


def solve_values(f: Forms, pinned: bool) -> tuple[FloatArray, FloatArray]:
    """Return the values at all knots of continuous curves, shape (…, s+1), and their costs, shape (…). [1], scaled

    The s segments lie along the last axis. The normal equations are tridiagonal: eliminated from the left, substituted
    back from the right.
    """
    shape, segments = f.A.shape[:-1], f.A.shape[-1]
    a = np.full(shape, _TINY)
    b = np.zeros(shape)
    cost = np.zeros(shape)
    pivots, shares = [], []
    for j in range(segments):
        pivot = a + f.A[..., j] + _TINY
        load = b + f.D[..., j]
        if j == 0 and pinned:
            load, share = np.zeros(shape), np.zeros(shape)
        else:
            share = f.B[..., j] / pivot
            cost = cost - load * load / pivot
        pivots.append((load, pivot))
        shares.append(share)
        cost = cost + f.S[..., j]
        a = f.C[..., j] - f.B[..., j] * share
        b = f.E[..., j] - share * load
    a = a + _TINY
    values = np.empty((*shape, segments + 1))
    values[..., segments] = b / a
    cost = cost - b * b / a
    for j in range(segments - 1, -1, -1):
        load, pivot = pivots[j]
        values[..., j] = load / pivot - shares[j] * values[..., j + 1]
    return values, cost


def knots_of(knees: FloatArray) -> FloatArray:
    """Return knees with 0 before and 1 after, along the last axis, shape (…, k+2). [1], scaled"""
    out = np.empty((*knees.shape[:-1], knees.shape[-1] + 2))
    out[..., 0], out[..., 1:-1], out[..., -1] = 0.0, knees, 1.0
    return out


def cost(m: Moments, knees: FloatArray, bent: BoolArray) -> FloatArray:
    """Return the exact sum of squares at knees (…, k), `bent` (k+1,); shape (…). [1], scaled"""
    knots = knots_of(knees)
    f = forms(m.between(knots), knots[..., :-1], knots[..., 1:], bent)
    return solve_values(f, m.pinned)[1]
