"""A launch predicted by given values of the car: only how it was driven is read from its log."""

from __future__ import annotations

from dataclasses import replace
from typing import NamedTuple

import numpy as np
from scipy.linalg import solve_triangular

from dynoan.analysis.learning.assumptions import BLOCK, EVENED, ROUGHNESSES
from dynoan.analysis.learning.logged import CHANNELS, SHOCKS, LoggedLaunch
from dynoan.analysis.learning.problem import SENSORS, LearnProblem, LearnScene, LearnState
from dynoan.analysis.learning.roughness import RoadHits, covariance
from dynoan.analysis.learning.starting import first_starts
from dynoan.model.arrays import FloatArray

#: what tells how a launch was driven and not what the car does of it
_OF_THE_DRIVE = tuple(name for name in CHANNELS if name not in SHOCKS)
_ROUNDS = 4


class Followed(NamedTuple):
    """How a launch is predicted."""

    off: float  #: of the shocks' travel, evened out, root mean square over the launch [m]
    floor: float  #: what road, sensors and the model itself leave of that with the car's true values, expected [m]


def followed(
    scene: LearnScene, launch: LoggedLaunch, values: FloatArray, sensors: FloatArray, taken: LearnState
) -> Followed:
    """Return how far off the travel of the shocks is predicted, and how far it would be with the right values.

    The drive is fitted to acceleration and speed; where neither was logged, the tyres' grip is taken as used to the
    full and only the start is looked for.

    Parameters
    ----------
    scene, launch
        The car, and what is predicted.
    values, sensors
        Standard normal unknowns of car and sensors, held.
    taken
        Roughness and wander of the drive are taken from it.
    """
    problem = LearnProblem(scene, [launch])
    state = replace(problem.start(), values=values, sensors=sensors, roughness=taken.roughness, wander=taken.wander)
    problem.look_at_road(state, state.roughness)
    state = first_starts(problem, state)
    names = tuple(n for n in launch.names if n in _OF_THE_DRIVE)
    for _ in range(_ROUNDS if names else 0):
        state = _round(problem, state, names)
    predicted = problem.predict(state)[0]
    shocks = tuple(c for c in launch.channels if c.name not in _OF_THE_DRIVE)
    off = np.concatenate([c.values - predicted[CHANNELS.index(c.name)] for c in shocks])
    assert problem.hits is not None
    spread = _likeliest(launch, predicted, problem.hits, off)
    evening = np.kron(np.eye(len(shocks)), _evening(launch.blocks))
    floor = np.mean(np.einsum("ij,jk,ik->i", evening, spread, evening))
    return Followed(float(np.sqrt(np.mean((evening @ off) ** 2))), float(np.sqrt(floor)))


def _likeliest(launch: LoggedLaunch, predicted: FloatArray, hits: RoadHits, off: FloatArray) -> FloatArray:
    """Return the covariance of the shocks' travel at the roughness that this launch's own log tells.

    Launches of one day leave over other ground: what the others met says little of how rough this one's was.
    """
    names = tuple(c.name for c in launch.channels if c.name not in _OF_THE_DRIVE)
    spreads = [covariance(launch, predicted, hits, roughness, names=names) for roughness in ROUGHNESSES]
    scores = []
    for spread in spreads:
        factor = np.linalg.cholesky(spread)
        white = solve_triangular(factor, off, lower=True)
        scores.append(-0.5 * float(white @ white) - float(np.log(np.diag(factor)).sum()))
    return spreads[int(np.argmax(scores))]


def _evening(blocks: int) -> FloatArray:
    """Return what evens a channel out, shape (n, blocks): means of neighbouring blocks."""
    width = min(max(1, round(EVENED / BLOCK)), blocks)
    rows = blocks - width + 1
    return np.stack([np.roll(np.concatenate([np.ones(width) / width, np.zeros(rows - 1)]), n) for n in range(rows)])


def _round(problem: LearnProblem, state: LearnState, names: tuple[str, ...]) -> LearnState:
    """Return the state after one round of Gauss-Newton on the drive alone."""
    base, slopes = problem.by_drives(state)
    launch = problem.launches[0]
    first = len(state.values) + SENSORS
    assert problem.hits is not None
    factor = np.linalg.cholesky(covariance(launch, base[0], problem.hits, state.roughness, names=names))
    logged = np.concatenate([c.values for c in launch.channels if c.name in names])
    residual = solve_triangular(factor, logged - problem.chosen(0, base[0], names), lower=True)
    rows = solve_triangular(factor, problem.chosen(0, slopes[0], names)[:, first:], lower=True)
    drive = state.drives[0]
    wanted = np.linalg.solve(rows.T @ rows + np.eye(len(drive)), rows.T @ (residual + rows @ drive))
    step = np.clip(wanted - drive, -2.0, 2.0)
    return replace(state, drives=(drive + step,))
