"""The exact search: the best of all ways to put up to three knees on a grid of candidates.

Left of a knot t everything can be summed up in one quadratic in the curve's value there, and so can everything right
of it. One knee: add the two at each t. Two knees: extend the left quadratics by a middle segment, for all pairs. Three
knees: for each middle knot, the lowest minimum of a sum of one left and one right quadratic; the lowest left minimum
plus the lowest right minimum is a bound (the curve may jump at t), so few middle knots have to be opened.
Nothing is random and nothing depends on a starting guess.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Any

import numpy as np

from dynoan.analysis.knees.assumptions import BASINS
from dynoan.analysis.knees.moments import Forms, Moments, forms
from dynoan.model.arrays import BoolArray, FloatArray, IntArray

_TINY = 1e-300
_FAR = 1e290


@dataclass(frozen=True)
class Quadratics:
    """Costs ``a φ² − 2 b φ + c`` of all that lies on one side of a knot, for the value φ there."""

    a: FloatArray
    b: FloatArray
    c: FloatArray

    def least(self) -> FloatArray:
        """Return the lowest cost over φ, of the shape of the coefficients. [1], scaled"""
        return np.asarray(self.c - self.b * self.b / self.a)

    def __add__(self, other: Quadratics) -> Quadratics:
        return Quadratics(self.a + other.a, self.b + other.b, self.c + other.c)

    def __getitem__(self, key: Any) -> Quadratics:
        return Quadratics(self.a[key], self.b[key], self.c[key])


@dataclass
class KnotGrid:
    """Candidate knots with the costs of every segment between them, each kind worked out once."""

    moments: Moments
    knots: FloatArray  #: candidates, scaled, sorted, shape (m,)
    least: int  #: fewest points of a segment
    width: float = 0.0  #: least width of a segment, scaled
    _index: IntArray = field(init=False)
    _kept: dict[tuple[str, bool], Quadratics | Forms] = field(default_factory=dict)

    def __post_init__(self) -> None:
        self._index = np.searchsorted(self.moments.z, self.knots)

    def first(self, bent: bool) -> Quadratics:
        """Return what the segment from 0 to each knot costs, its free end eliminated."""
        at = self.moments.sums[:, self._index]
        f = forms(at, np.zeros_like(self.knots), self.knots, bent)
        ok = (self._index >= self.least) & (self.knots >= self.width)
        if self.moments.pinned:
            return _barred(Quadratics(f.C + _TINY, f.E, f.S), ok)
        share = f.B / (f.A + _TINY)
        return _barred(Quadratics(f.C - f.B * share + _TINY, f.E - share * f.D, f.S - f.D**2 / (f.A + _TINY)), ok)

    def last(self, bent: bool) -> Quadratics:
        """Return what the segment from each knot to 1 costs, its free end eliminated."""
        at = self.moments.sums[:, -1:] - self.moments.sums[:, self._index]
        f = forms(at, self.knots, np.ones_like(self.knots), bent)
        ok = (len(self.moments.z) - self._index >= self.least) & (1.0 - self.knots >= self.width)
        share = f.B / (f.C + _TINY)
        return _barred(Quadratics(f.A - f.B * share + _TINY, f.D - share * f.E, f.S - f.E**2 / (f.C + _TINY)), ok)

    def middle(self, bent: bool) -> Forms:
        """Return what the segment between each pair of knots (row to column) costs; barred pairs cost the earth."""
        key = ("middle", bent)
        if key not in self._kept:
            at = self.moments.sums[:, self._index]
            ok = (self._index[None, :] - self._index[:, None] >= self.least) & (
                self.knots[None, :] - self.knots[:, None] >= max(self.width, 1e-9)
            )
            s = np.broadcast_to(self.knots[:, None], ok.shape)
            t = np.where(ok, self.knots[None, :], s + 1.0)
            f = forms(at[:, None, :] - at[:, :, None], s, t, bent)
            a, b, c, d, e = (np.where(ok, v, 1.0) for v in (f.A, f.B, f.C, f.D, f.E))
            self._kept[key] = Forms(a, b, c, d, e, np.where(ok, f.S, _FAR), f.h)
        found = self._kept[key]
        assert isinstance(found, Forms)
        return found


def _barred(q: Quadratics, ok: BoolArray) -> Quadratics:
    return Quadratics(np.where(ok, q.a, 1.0), np.where(ok, q.b, 0.0), np.where(ok, q.c, _FAR))


def _extend_left(q: Quadratics, f: Forms) -> Quadratics:
    """Join what lies left of s (rows) with the segment s to t; the value at s is eliminated."""
    inverse = 1.0 / (q.a[:, None] + f.A)
    load = q.b[:, None] + f.D
    share = f.B * inverse
    return Quadratics(f.C - f.B * share + _TINY, f.E - share * load, q.c[:, None] + f.S - load * load * inverse)


def _extend_right(q: Quadratics, f: Forms) -> Quadratics:
    """Join the segment t to u with what lies right of u (columns); the value at u is eliminated."""
    inverse = 1.0 / (q.a[None, :] + f.C)
    load = q.b[None, :] + f.E
    share = f.B * inverse
    return Quadratics(f.A - f.B * share + _TINY, f.D - share * load, q.c[None, :] + f.S - load * load * inverse)


def search(grid: KnotGrid, bent: BoolArray, keep: int = BASINS) -> tuple[FloatArray, FloatArray]:
    """Return the best sets of knees, best first, and their costs; one set from each of up to `keep` basins.

    Parameters
    ----------
    grid
        The candidates.
    bent
        Which of the k+1 segments bend, k of 1 to 3.

    Returns
    -------
    :
        Knees of shape (b, k) and costs of shape (b,) [1], scaled; empty where no set of knees is allowed.
    """
    knees = len(bent) - 1
    left, right = grid.first(bool(bent[0])), grid.last(bool(bent[-1]))
    with np.errstate(all="ignore"):
        if knees == 1:
            best = (left + right).least()
            chosen = np.arange(len(best))[:, None]
        elif knees == 2:
            best, chosen = _two(left, right, grid.middle(bool(bent[1])))
        else:
            best, chosen = _three(
                _extend_left(left, grid.middle(bool(bent[1]))), _extend_right(right, grid.middle(bool(bent[2])))
            )
    picked = _basins(best, keep)
    return grid.knots[chosen[picked]], best[picked]


def _two(left: Quadratics, right: Quadratics, middle: Forms) -> tuple[FloatArray, IntArray]:
    joined = _extend_left(left, middle)
    total = (joined + Quadratics(right.a[None, :], right.b[None, :], right.c[None, :])).least()
    s = np.argmin(total, axis=0)
    t = np.arange(total.shape[1])
    return total[s, t], np.column_stack([s, t])


def _three(left: Quadratics, right: Quadratics) -> tuple[FloatArray, IntArray]:
    """Return for each middle knot the best cost and knees; exact wherever the bound leaves it a chance to win."""
    low_left, low_right = left.least(), right.least()
    t = np.arange(low_left.shape[1])
    bound = low_left.min(axis=0) + low_right.min(axis=1)
    u = np.argmin(low_right, axis=1)
    for _ in range(2):
        r = right[t, u]
        s = np.argmin((left + Quadratics(r.a[None, :], r.b[None, :], r.c[None, :])).least(), axis=0)
        l = left[s, t]  # noqa: E741
        total = (right + Quadratics(l.a[:, None], l.b[:, None], l.c[:, None])).least()
        u = np.argmin(total, axis=1)
    best = total[t, u]
    for i in np.flatnonzero(bound <= best.min()):
        row_s = np.flatnonzero(low_left[:, i] + low_right[i].min() <= best.min())
        row_u = np.flatnonzero(low_right[i] + low_left[:, i].min() <= best.min())
        l, r = left[row_s, i], right[i, row_u]  # noqa: E741
        both = (Quadratics(l.a[:, None], l.b[:, None], l.c[:, None]) + Quadratics(r.a, r.b, r.c)).least()
        if both.size and both.min() < best[i]:
            j, k = np.unravel_index(int(np.argmin(both)), both.shape)
            best[i], s[i], u[i] = both[j, k], row_s[j], row_u[k]
    return best, np.column_stack([s, t, u])


def _basins(best: FloatArray, keep: int) -> IntArray:
    """Return the places of the lowest local minima, lowest first."""
    padded = np.concatenate([[np.inf], best, [np.inf]])
    low = (padded[1:-1] <= padded[:-2]) & (padded[1:-1] <= padded[2:]) & (best < _FAR / 2)
    places = np.flatnonzero(low)
    return places[np.argsort(best[places], kind="stable")][:keep]
