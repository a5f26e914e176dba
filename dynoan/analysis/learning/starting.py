"""Where each launch starts, looked for before anything else: the model is far from linear in it."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
from scipy.linalg import solve_triangular

from dynoan.analysis.learning.assumptions import SEEN_OFF, STARTS
from dynoan.analysis.learning.problem import LearnProblem, LearnState
from dynoan.analysis.learning.roughness import covariance
from dynoan.model.arrays import FloatArray


def first_starts(problem: LearnProblem, state: LearnState) -> LearnState:
    """Return the state with each launch's start where it fits best, all else as thought before."""
    rows = [
        (n, np.concatenate([[shift / SEEN_OFF], drive[1:]])) for n, drive in enumerate(state.drives) for shift in STARTS
    ]
    found = problem.run(state, state.values, rows)
    best: dict[int, tuple[float, FloatArray]] = {}
    for (n, drive), raw in zip(rows, found, strict=True):
        one = problem.seen(raw, state.sensors)
        assert problem.hits is not None
        factor = np.linalg.cholesky(covariance(problem.launches[n], one, problem.hits, 10 * state.roughness))
        off = solve_triangular(factor, problem.logged(n) - problem.chosen(n, one), lower=True)
        cost = float(off @ off)
        if n not in best or cost < best[n][0]:
            best[n] = (cost, drive)
    return replace(state, drives=tuple(best[n][1] for n in range(len(state.drives))))
