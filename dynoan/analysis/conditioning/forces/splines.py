"""A smooth curve of each direction as quadratic B-splines, zero at zero, and sparse least squares with them.

Every row touches three splines of its own direction and all other effects, so the normal equations are sums of a sparse
matrix beside one dense product.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from scipy.linalg.blas import dsyrk
from scipy.sparse import csc_array

from dynoan.model.arrays import FloatArray, IntArray

_TOGETHER = 900  #: rows that are multiplied at a time: more do not stay in the processor's own memory
_PAIRS = ((0, 1), (1, 2), (0, 2))  #: of the three splines that a row touches


@dataclass(frozen=True)
class Turn:
    """What rows that average both directions hold of rebound, shape (3, m) each; compression's stands in the design."""

    at: IntArray  #: which rows, shape (m,)
    place: IntArray
    value: FloatArray
    slope: FloatArray


@dataclass(frozen=True)
class Design:
    """A least-squares design: three splines a row and some dense effects."""

    place: IntArray  #: spline of each of the three values, `size` where it is the one left out; shape (3, n)
    value: FloatArray  #: shape (3, n)
    slope: FloatArray  #: their derivatives by signed velocity, shape (3, n)
    size: int  #: number of splines
    effects: FloatArray  #: shape (e, n)
    turn: Turn | None = None

    def curve(self, weights: FloatArray) -> tuple[FloatArray, FloatArray]:
        """Return the splines' weighted sum and its slope by signed velocity, shape (n,) each. [N], [N·s/m]"""
        padded = np.append(weights, 0.0)
        w = padded[self.place]
        force, slope = (self.value * w).sum(axis=0), (self.slope * w).sum(axis=0)
        if self.turn is not None:
            w = padded[self.turn.place]
            force[self.turn.at] += (self.turn.value * w).sum(axis=0)
            slope[self.turn.at] += (self.turn.slope * w).sum(axis=0)
        return np.asarray(force), np.asarray(slope)

    def times(self, x: FloatArray) -> FloatArray:
        """Return the design times coefficients, shape (n,). [N]"""
        w = np.append(x[: self.size], 0.0)
        out = np.asarray(sum(v * w[p] for p, v in zip(self.place, self.value, strict=True)))
        if self.turn is not None:
            out[self.turn.at] += (self.turn.value * w[self.turn.place]).sum(axis=0)
        return np.asarray(out + np.einsum("en,e->n", self.effects, x[self.size :]))

    def normal(self, y: FloatArray, weight: FloatArray, kept: IntArray | None = None) -> tuple[FloatArray, FloatArray]:
        """Return the Gram matrix and the load, shape (p, p) and (p,), for weights in [1/N²].

        Splines first, then the effects in their order, those `kept` or all. An entry's unit is one over that of its
        coefficients: load [1/N] and Gram [1/N²] for splines, whose coefficients are in newtons.
        """
        kept = np.arange(len(self.effects)) if kept is None else kept
        k, e, root = self.size + 1, len(kept), np.sqrt(weight)
        value = self.value * root
        beside, upper = np.zeros((k, e + 1)), np.zeros((e + 1, e + 1), order="F")
        for start in range(0, len(y), _TOGETHER):
            some = slice(start, start + _TOGETHER)
            # Effects and y beside one another, a row together: one symmetric product gives all they make of themselves.
            dense = _beside(self.effects[kept, some], y[some], root[some])
            upper = dsyrk(1.0, dense.T, beta=1.0, c=upper, overwrite_c=1)
            beside += _summed_by(self.place[:, some], value[:, some], k) @ dense
        own = _overlaps(self.place, value, k)
        if self.turn is not None:
            at, place, turned = self.turn.at, self.turn.place, self.turn.value * root[self.turn.at]
            beside += _summed_by(place, turned, k) @ _beside(self.effects[kept[:, None], at], y[at], root[at])
            own += _overlaps(place, turned, k)
            both = _products(self.place[:, at], value[:, at], (place, turned), k)
            own += both + both.T
        gram = np.empty((k + e, k + e))
        gram[:k, :k], gram[:k, k:], gram[k:, :k] = own, beside[:, :e], beside[:, :e].T
        gram[k:, k:] = upper[:e, :e] + np.triu(upper[:e, :e], 1).T
        keep = np.delete(np.arange(k + e), self.size)
        return gram[keep[:, None], keep], np.concatenate([beside[:, e], upper[:e, e]])[keep]


def _beside(effects: FloatArray, y: FloatArray, root: FloatArray) -> FloatArray:
    """Return effects and y times the root of each row's weight, a row of the record in a row, shape (m, e + 1)."""
    lying = np.concatenate([effects, y[None]])
    lying *= root
    return np.ascontiguousarray(lying.T)


def _summed_by(place: IntArray, value: FloatArray, size: int) -> csc_array:
    """Return the matrix that sums rows by their splines, shape (size, n), of places and values of shape (3, n)."""
    n = place.shape[1]
    return csc_array((value.T.ravel(), place.T.ravel(), np.arange(0, 3 * n + 1, 3)), shape=(size, n))


def _overlaps(place: IntArray, value: FloatArray, size: int) -> FloatArray:
    """Return the Gram matrix of splines with three values a row, shape (size, size)."""
    squares = np.bincount(place.ravel(), (value * value).ravel(), minlength=size)
    keys = np.concatenate([place[a] * size + place[b] for a, b in _PAIRS])
    products = np.concatenate([value[a] * value[b] for a, b in _PAIRS])
    upper = np.bincount(keys, products, minlength=size * size).reshape(size, size)
    return np.asarray(upper + upper.T + np.diag(squares))


def _products(place: IntArray, value: FloatArray, other: tuple[IntArray, FloatArray], size: int) -> FloatArray:
    """Return the products of three splines a row with another three, by their places, shape (size, size)."""
    keys = place[:, None] * size + other[0][None]
    products = value[:, None] * other[1][None]
    return np.asarray(np.bincount(keys.ravel(), products.ravel(), minlength=size * size).reshape(size, size), float)


def design(velocity: FloatArray, edges: tuple[FloatArray, FloatArray], half: FloatArray | None = None) -> Design:
    """Return the design of rows at signed velocities: compression's splines first, then rebound's; no effects yet.

    `half` is by how much velocity moves either way within each row, shape (n,) [m/s]; a row that averages both
    directions holds some of either.
    """
    n_c, size = len(edges[0]), len(edges[0]) + len(edges[1])
    at, share, (up, down) = turning(velocity, half)
    up_velocity = velocity.copy()
    up_velocity[at] = up
    place = np.full((3, len(velocity)), size)
    value, slope = np.zeros((3, len(velocity))), np.zeros((3, len(velocity)))
    for sign, one, base in ((1.0, edges[0], 0), (-1.0, edges[1], n_c)):
        mine = np.flatnonzero(sign * up_velocity > 0)
        place[:, mine], value[:, mine], slope[:, mine] = _columns(sign, up_velocity[mine], one, (base, size))
    if not len(at):
        return Design(place, value, slope, size, np.empty((0, len(velocity))))
    value[:, at] *= share
    slope[:, at] *= share
    other, values, slopes = _columns(-1.0, down, edges[1], (n_c, size))
    turn = Turn(at, other, (1.0 - share) * values, (1.0 - share) * slopes)
    return Design(place, value, slope, size, np.empty((0, len(velocity))), turn)


def turning(
    velocity: FloatArray, half: FloatArray | None
) -> tuple[IntArray, FloatArray, tuple[FloatArray, FloatArray]]:
    """Return which rows average both directions, the share of compression in each, and either direction's middle.

    Shapes (m,); the middles are signed velocities. [1], [m/s]
    """
    at = np.flatnonzero(np.abs(velocity) < half) if half is not None else np.empty(0, dtype=np.int64)
    if half is None or not len(at):
        return np.empty(0, dtype=np.int64), np.empty(0), (np.empty(0), np.empty(0))
    v, reach = velocity[at], half[at]
    return at, 0.5 * (v + reach) / reach, (0.5 * (v + reach), 0.5 * (v - reach))


def _columns(
    sign: float, velocity: FloatArray, edges: FloatArray, numbers: tuple[int, int]
) -> tuple[IntArray, FloatArray, FloatArray]:
    """Return places, values and slopes of one direction's splines, shape (3, m) each.

    `numbers` are that of its first spline and that of the one left out.
    """
    base, size = numbers
    first, values, slopes = _pieces(sign * velocity, edges)
    places = (first + base) + np.array([[-1], [0], [1]])
    places[0, first == 0] = size
    return places, sign * np.array(values), np.array(slopes)


def spline_at(u: FloatArray, edges: FloatArray, weights: FloatArray) -> tuple[FloatArray, FloatArray]:
    """Return a weighted sum of those splines and its slope at speeds u ≥ 0 [m/s], shape (n,) each. [N], [N·s/m]"""
    m, value, slope = _pieces(u, edges)
    w = np.concatenate([[0.0], weights])
    near = [w[m], w[m + 1], w[m + 2]]
    return sum(a * b for a, b in zip(value, near, strict=True)), sum(a * b for a, b in zip(slope, near, strict=True))


def _pieces(u: FloatArray, edges: FloatArray) -> tuple[IntArray, list[FloatArray], list[FloatArray]]:
    """Return the first of the three splines that are not zero at u, their values and slopes.

    Cox-de Boor recursion written out for degree two; spline 0, the one not zero at zero, is left out by the callers.
    """
    t = np.concatenate([edges[:1], edges, edges[-1:]])
    gap = t[2:-1] - t[1:-2]
    low, high = (t[2:-1] - t[:-3]) * gap, (t[3:] - t[1:-2]) * gap
    u = np.minimum(u, edges[-1])
    m = np.minimum(np.searchsorted(edges[1:], u, side="right"), len(edges) - 2)
    down, up, low, high = edges[m + 1] - u, u - edges[m], low[m], high[m]
    first, last = down**2 / low, up**2 / high
    first_slope, last_slope = -2 * down / low, 2 * up / high
    return m, [first, 1 - first - last, last], [first_slope, -first_slope - last_slope, last_slope]
