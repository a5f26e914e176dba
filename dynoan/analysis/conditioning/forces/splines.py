"""A smooth curve of each direction as quadratic B-splines, zero at zero, and least squares with them.

Every row touches three splines of its own direction and all other effects. Laid out with the zeros between them the
normal equations are one symmetric product, which takes less time than a sparse product beside a dense one.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from scipy.linalg.blas import dsyrk

from dynoan.model.arrays import FloatArray, IntArray

_TOGETHER = 900  #: rows that are multiplied at a time: more do not stay in the processor's own memory


@dataclass(frozen=True)
class Turn:
    """What rows that average both directions hold of rebound, shape (3, m) each; compression's stands in the design."""

    at: IntArray  #: which rows, shape (m,)
    place: IntArray
    value: FloatArray
    slope: FloatArray

    def laid(self, lying: FloatArray, start: int, root: FloatArray) -> None:
        """Lay values by their splines into columns that hold the rows from `start` on, times the `root` of weights."""
        first, after = np.searchsorted(self.at, (start, start + lying.shape[1]))
        at = self.at[first:after]
        lying[self.place[:, first:after], at - start] = self.value[:, first:after] * root[at]


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
        # Not a BLAS product: that adds up rows that are alike in other orders, by where they stand.
        return np.asarray(out + np.einsum("en,e->n", self.effects, x[self.size :]))

    def normal(self, y: FloatArray, weight: FloatArray, kept: IntArray | None = None) -> tuple[FloatArray, FloatArray]:
        """Return the Gram matrix and the load, shape (p, p) and (p,), for weights in [1/N²].

        Splines first, then the effects in their order, those `kept` or all. An entry's unit is one over that of its
        coefficients: load [1/N] and Gram [1/N²] for splines, whose coefficients are in newtons.
        """
        kept = np.arange(len(self.effects)) if kept is None else kept
        p, n, root = self.size + len(kept), len(y), np.sqrt(weight)
        value, upper = self.value * root, np.zeros((p + 1, p + 1), order="F")
        parts = max(1, round(n / _TOGETHER))
        column = np.arange(max(1, -(-n // parts)))
        lying = np.empty((p + 1, len(column)))
        for start in range(0, n, len(column)):
            some = slice(start, start + len(column))
            mine = lying[:, : len(y[some])]
            mine[: self.size] = 0.0
            # What belongs to the spline that is left out falls on the row of an effect, which is written after it.
            mine[self.place[:, some], column[: mine.shape[1]]] = value[:, some]
            if self.turn is not None:
                self.turn.laid(mine, start, root)
            np.multiply(self.effects[kept, some], root[some], out=mine[self.size : p])
            np.multiply(y[some], root[some], out=mine[p])
            upper = dsyrk(1.0, mine.T, beta=1.0, c=upper, trans=1, overwrite_c=1)
        # Below its diagonal it is zero.
        gram = np.add(upper[:p, :p], upper[:p, :p].T, out=np.empty((p, p), order="F"))
        gram.reshape(-1, order="F")[:: p + 1] = upper.diagonal()[:p]
        return gram, upper[:p, p].copy()


def design(velocity: FloatArray, edges: tuple[FloatArray, FloatArray], half: FloatArray | None = None) -> Design:
    """Return the design of rows at signed velocities: compression's splines first, then rebound's; no effects yet.

    `half` is by how much velocity moves either way within each row, shape (n,) [m/s]; a row that averages both
    directions holds some of either.
    """
    n_c, size = len(edges[0]), len(edges[0]) + len(edges[1])
    at, share, (up, down) = turning(velocity, half)
    up_velocity = velocity.copy()
    up_velocity[at] = up
    place, value, slope = _columns(up_velocity, edges, (n_c, size))
    if not len(at):
        return Design(place, value, slope, size, np.empty((0, len(velocity))))
    value[:, at] *= share
    slope[:, at] *= share
    other, values, slopes = _columns(down, edges, (n_c, size))
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
    velocity: FloatArray, edges: tuple[FloatArray, FloatArray], numbers: tuple[int, int]
) -> tuple[IntArray, FloatArray, FloatArray]:
    """Return places, values and slopes of both directions' splines at signed velocities, shape (3, m) each.

    `numbers` are that of rebound's first spline and that of the one left out, of both directions.
    """
    base, size = numbers
    first, tables = np.empty(len(velocity), dtype=np.int64), [_table(one) for one in edges]
    back = velocity < 0
    cells = len(edges[0]) - 1
    speed = np.abs(velocity)
    for mine, one, before in ((~back, edges[0], 0), (back, edges[1], cells)):
        first[mine] = np.minimum(np.searchsorted(one[1:], speed[mine], side="right"), len(one) - 2) + before
    value, slope = _in_cell(speed, np.concatenate(tables, axis=1).take(first, axis=1))
    np.negative(value, out=value, where=back)
    start = first + np.where(back, base - cells, 0)
    places = start + np.array([[-1], [0], [1]])
    places[0, (start == 0) | (start == base)] = size
    nowhere = velocity == 0
    if nowhere.any():
        places[:, nowhere], value[:, nowhere], slope[:, nowhere] = size, 0.0, 0.0
    return places, value, slope


def spline_at(u: FloatArray, edges: FloatArray, weights: FloatArray) -> tuple[FloatArray, FloatArray]:
    """Return a weighted sum of those splines and its slope at speeds u ≥ 0 [m/s], shape (n,) each. [N], [N·s/m]"""
    m, value, slope = _pieces(u, edges)
    w = np.concatenate([[0.0], weights])
    near = [w[m], w[m + 1], w[m + 2]]
    return sum(a * b for a, b in zip(value, near, strict=True)), sum(a * b for a, b in zip(slope, near, strict=True))


def _pieces(u: FloatArray, edges: FloatArray) -> tuple[IntArray, FloatArray, FloatArray]:
    """Return the first of the three splines that are not zero at u, their values and slopes, shape (3, n) each.

    Spline 0, the one not zero at zero, is left out by the callers.
    """
    m = np.minimum(np.searchsorted(edges[1:], u, side="right"), len(edges) - 2)
    return m, *_in_cell(u, _table(edges).take(m, axis=1))


def _table(edges: FloatArray) -> FloatArray:
    """Return lower and upper end of each cell between edges, and by what either end's square is divided, (4, k)."""
    t = np.concatenate([edges[:1], edges, edges[-1:]])
    gap = t[2:-1] - t[1:-2]
    return np.array([edges[:-1], edges[1:], (t[2:-1] - t[:-3]) * gap, (t[3:] - t[1:-2]) * gap])


def _in_cell(u: FloatArray, cell: FloatArray) -> tuple[FloatArray, FloatArray]:
    """Return values and slopes of the three splines at speeds, each in its column of a `_table`, shape (3, n) each.

    Cox-de Boor recursion written out for degree two.
    """
    below, above, low, high = cell
    value, slope = np.empty((3, len(u))), np.empty((3, len(u)))
    u = np.minimum(u, above)
    down, up = above - u, u - below
    np.divide(down**2, low, out=value[0])
    np.divide(up**2, high, out=value[2])
    np.subtract(1.0, value[0], out=value[1])
    value[1] -= value[2]
    np.divide(-2.0 * down, low, out=slope[0])
    np.divide(2.0 * up, high, out=slope[2])
    np.subtract(-slope[0], slope[2], out=slope[1])
    return value, slope
