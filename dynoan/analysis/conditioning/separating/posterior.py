"""Least squares with priors and coefficients that may not be negative, and draws of what the data leave open."""

from __future__ import annotations

import numpy as np
from scipy.linalg.lapack import dposv, dpotrf

from dynoan.model.arrays import BoolArray, FloatArray

#: exchanges of the active set before only one at a time is allowed
BOLD, MOST = 12, 200


def bounded(gram: FloatArray, load: FloatArray, held: BoolArray, start: BoolArray | None = None) -> FloatArray:
    """Return the x that minimises ``x·gram·x/2 − load·x`` with x not negative where `held`, shape (p,). [as its scale]

    Block principal pivoting (Portugal, Júdice and Vicente, 1994): exact, and quick from a good start (`start`: which
    entries are not at zero).
    """
    free = np.ones(len(load), dtype=bool) if start is None else start | ~held
    best = len(load) + 1
    for turn in range(MOST):
        at = free.nonzero()[0]
        x = np.zeros(len(load))
        x[at] = _solved(gram.take(at, 0).take(at, 1), load[at])
        # Where a coefficient is free its slack is rounding alone, and it may not be negative where it is held.
        wrong = np.where(free, held & (x < 0), gram @ x - load < -1e-9).nonzero()[0]
        if not len(wrong):
            return x
        if turn >= BOLD and len(wrong) >= best:
            wrong = wrong[-1:]
        best = min(best, len(wrong))
        free[wrong] = ~free[wrong]
    return np.where(held, np.maximum(x, 0.0), x)


def _solved(gram: FloatArray, load: FloatArray) -> FloatArray:
    # Symmetric, so the other way round is the order that LAPACK takes without a copy.
    _, x, failed = dposv(gram.T, load, lower=1)
    return np.asarray(np.linalg.solve(gram, load) if failed else x)


def log_volume(gram: FloatArray) -> float:
    """Return half the logarithm of the determinant of a symmetric positive matrix, shape (p, p). [1]

    Raises
    ------
    numpy.linalg.LinAlgError
        If it is not positive.
    """
    factor, failed = dpotrf(gram.T, lower=1, clean=0)
    if failed:
        raise np.linalg.LinAlgError("the matrix is not positive definite")
    return float(np.sum(np.log(factor.diagonal())))


def draws(
    gram: FloatArray, load: FloatArray, held: BoolArray, normal: FloatArray, best: FloatArray | None = None
) -> FloatArray:
    """Return draws of x: the problem solved again for data and priors drawn anew, shape (draws, p). [as its scale]

    `normal` holds standard normal numbers, shape (draws, p), `best` is the x without them, where it is known. Without
    bounds these are exact draws of the posterior; with them they gather at the bounds as they should (randomise, then
    optimise; Bardsley et al., 2014).
    """
    lower = np.linalg.cholesky(gram)
    start = ~held | ((bounded(gram, load, held) if best is None else best) > 0)
    return np.array([bounded(gram, load + lower @ z, held, start.copy()) for z in normal])
