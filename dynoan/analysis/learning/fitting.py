"""The fit: values of the car, scales of its sensors and the drive of each launch, by Gauss-Newton with priors.

Rounds of Gauss-Newton go in turn with a look at how rough the road was and how much the drive wandered, by the
likelihood with all unknowns integrated out (linearised there).
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

import numpy as np
from scipy.linalg import cho_factor, cho_solve, solve_triangular

from dynoan.analysis.learning import drives as driving
from dynoan.analysis.learning.assumptions import ROUGHNESSES, ROUNDS, WANDERS
from dynoan.analysis.learning.logged import CHANNELS, LoggedLaunch
from dynoan.analysis.learning.problem import SENSORS, LearnProblem, LearnScene, LearnState
from dynoan.analysis.learning.roughness import covariance
from dynoan.analysis.learning.starting import first_starts
from dynoan.errors import FitError
from dynoan.model.arrays import FloatArray

__all__ = ["LearnFit", "LearnScene", "LearnState", "fit_launches"]


@dataclass(frozen=True)
class LearnFit:
    """The state after, and how sure it is."""

    state: LearnState
    spread: FloatArray  #: covariance of the car's values in their own standard deviations, shape (values, values)
    predicted: tuple[FloatArray, ...]  #: a launch each, shape (channels, blocks), in the order of `CHANNELS`
    imagined: Mapping[str, FloatArray]  #: standard deviations of the values, had more been logged, by what


def fit_launches(scene: LearnScene, launches: Sequence[LoggedLaunch]) -> LearnFit:
    """Return what launches tell of a car.

    Parameters
    ----------
    scene
        What is known before.
    launches
        One at least.

    Raises
    ------
    FitError
        If no launch is given, or the launch model cannot follow what was logged.
    QuantityError
        If the car's file lacks a key that a launch needs.
    """
    if not launches:
        raise FitError("no launch to learn from")
    problem = LearnProblem(scene, launches)
    state = replace(problem.start(), roughness=scene.surface.roughness or ROUGHNESSES[len(ROUGHNESSES) // 2])
    problem.look_at_road(state, state.roughness)
    state = first_starts(problem, state)
    for turn in range(2):
        for _ in range(ROUNDS):
            state, base, slopes = _round(problem, state)
        state = _road_and_wander(problem, state, base, slopes)
        if turn == 0:
            problem.look_at_road(state, state.roughness)
    state, base, slopes = _round(problem, state)
    _, rows, _ = problem.whitened(state, base, slopes)
    spread = np.linalg.inv(rows.T @ rows + np.eye(rows.shape[1]))
    count = len(scene.values)
    imagined = _imagined(problem, state, base, slopes)
    return LearnFit(state, np.asarray(spread[:count, :count]), tuple(problem.predict(state)), imagined)


def _round(problem: LearnProblem, state: LearnState) -> tuple[LearnState, list[FloatArray], list[FloatArray]]:
    """Return the state after one round of Gauss-Newton, with the prediction and derivatives it was taken from."""
    base, slopes = problem.jacobian(state)
    residual, rows, _ = problem.whitened(state, base, slopes)
    normal = rows.T @ rows + np.eye(rows.shape[1])
    wanted = np.linalg.solve(normal, rows.T @ (residual + rows @ state.all))
    before = float(residual @ residual + state.all @ state.all)
    share = 1.0
    for _ in range(5):
        tried = state.moved(state.all + share * (wanted - state.all))
        if problem.cost(tried) < before:
            return tried, base, slopes
        share /= 2
    return state, base, slopes


def _road_and_wander(
    problem: LearnProblem, state: LearnState, base: list[FloatArray], slopes: list[FloatArray]
) -> LearnState:
    """Return the state with the roughness and the wander that make the logs likeliest, all unknowns integrated out."""
    residual_at = state  # the derivatives were taken one round before; near enough
    base = problem.predict(state)
    scores = {r: _likelihood(problem, residual_at, base, slopes, r) for r in ROUGHNESSES}
    rough = max(scores, key=lambda r: scores[r])
    turned = {w: [_other_wander(problem, state, s, w) for s in slopes] for w in WANDERS}
    by_wander = {w: _likelihood(problem, _with_wander(state, w), base, turned[w], rough) for w in WANDERS}
    wander = max(by_wander, key=lambda w: by_wander[w])
    return replace(_with_wander(state, wander), roughness=rough)


def _likelihood(
    problem: LearnProblem, state: LearnState, base: list[FloatArray], slopes: list[FloatArray], roughness: float
) -> float:
    residual, rows, determinant = problem.whitened(state, base, slopes, roughness)
    off = residual + rows @ state.all
    factor = cho_factor(rows.T @ rows + np.eye(rows.shape[1]), lower=True)
    right = rows.T @ off
    more = 2 * float(np.log(np.diag(factor[0])).sum())
    return -0.5 * (float(off @ off - right @ cho_solve(factor, right)) + determinant + more)


def _turn(count: int, old: float, new: float) -> FloatArray:
    """Return what unknowns of a plateau become when it may wander otherwise, shape (count, count)."""
    return np.asarray(solve_triangular(driving.spread_of(count, new), driving.spread_of(count, old), lower=True))


def _with_wander(state: LearnState, wander: float) -> LearnState:
    made = []
    for drive in state.drives:
        turn = _turn(len(drive) - driving.PLATEAU, state.wander, wander)
        made.append(np.concatenate([drive[: driving.PLATEAU], turn @ drive[driving.PLATEAU :]]))
    return replace(state, drives=tuple(made), wander=wander)


def _other_wander(problem: LearnProblem, state: LearnState, slopes: FloatArray, wander: float) -> FloatArray:
    """Return derivatives by unknowns that wander otherwise."""
    out, place = slopes.copy(), len(state.values) + SENSORS
    for drive in state.drives:
        part = slice(place + driving.PLATEAU, place + len(drive))
        back = _turn(len(drive) - driving.PLATEAU, wander, state.wander)
        out[:, :, part] = slopes[:, :, part] @ back
        place += len(drive)
    return np.asarray(out)


def _imagined(
    problem: LearnProblem, state: LearnState, base: list[FloatArray], slopes: list[FloatArray]
) -> dict[str, FloatArray]:
    """Return how far off each value would still be, had every channel been logged, or on smooth ground, or both."""
    logged = {name for launch in problem.launches for name in launch.names}
    lacking = tuple(c for c in CHANNELS if c not in logged)
    out = {}
    cases = {"channels": (CHANNELS, 1.0)} if lacking else {}
    for what, (names, share) in (cases | {"smooth": (tuple(c for c in CHANNELS if c in logged), 0.1),
                                          "both": (CHANNELS, 0.1)}).items():  # fmt: skip
        normal = np.eye(len(state.all))
        for n, launch in enumerate(problem.launches):
            assert problem.hits is not None
            spread = covariance(launch, base[n], problem.hits, share * state.roughness, names=names)
            rows = solve_triangular(np.linalg.cholesky(spread), problem.chosen(n, slopes[n], names), lower=True)
            normal += rows.T @ rows
        out[what] = np.sqrt(np.diag(np.linalg.inv(normal)))[: len(state.values)]
    return out
