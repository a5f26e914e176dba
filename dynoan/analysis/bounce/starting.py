"""Where a search for a swinging corner begins: the linear decay that fits best, and what a tyre that rings tells."""

from __future__ import annotations

import numpy as np

from dynoan.analysis.bounce import assumptions as taken
from dynoan.analysis.bounce.problem import LOGS, Problem
from dynoan.model.arrays import FloatArray


def starts(problem: Problem) -> list[FloatArray]:
    """Return where searches begin: a linear decay, with more or less friction; held by friction, where a tyre rings.

    Each a vector of the problem's unknowns, logarithms of SI. [1]
    """
    guess = _guess(problem)
    starts = []
    for dry, share in taken.BEGUN:
        begun = guess.copy()
        begun[6], begun[2] = np.log(dry), guess[2] + np.log(share)
        starts.append(begun)
    rings = ringing(problem.times, problem.raw) if problem.acceleration else None
    if rings is not None and (2 * np.pi * rings) ** 2 > taken.RINGS_STIFFER * np.exp(guess[0]):
        for begun in [s.copy() for s in starts[1:3]]:
            begun[1] = 2 * np.log(2 * np.pi * rings) + np.log1p(np.exp(begun[7])) - begun[0]
            begun[8] = np.log(taken.HELD)
            starts.append(begun)
    return starts


def linear_share(problem: Problem) -> float:
    """Return the share of all swings' power that the linear decay nearest to them leaves. [1]"""
    whole = sum(float(np.sum((y - y.mean()) ** 2)) for y in problem.raw)
    return _nearest(problem)[0] / whole if whole > 0 else 1.0


def _nearest(problem: Problem) -> tuple[float, float, float]:
    """Return what the linear decay that fits best leaves, its frequency [Hz] and ratio, over a grid of both."""
    best = (np.inf, 1.5, 0.3)
    for frequency in np.geomspace(taken.SLOWEST, taken.FASTEST, 36):
        for ratio in (0.05, 0.1, 0.2, 0.3, 0.45, 0.65, 0.9):
            left = _linear_left(problem, frequency, ratio)
            best = min(best, (left, float(frequency), ratio))
    return best


def _guess(problem: Problem) -> FloatArray:
    """Return where to begin: the linear decay that fits best."""
    _, frequency, ratio = _nearest(problem)
    omega = 2 * np.pi * frequency
    theta = np.concatenate([problem.middle, np.zeros(3 * len(problem.found))])
    over = np.exp(problem.middle[1])
    theta[0] = np.log(omega**2 * (1 + over) / over)
    theta[2] = np.log(2 * ratio * omega * 1.3)
    for n, (t, y) in enumerate(zip(problem.times, problem.raw, strict=True)):
        (a, b, offset), _ = _linear(t, y, frequency, ratio)
        slope = b * omega * np.sqrt(1 - ratio**2) - a * ratio * omega
        size = 1 / omega**2 if problem.acceleration else 1.0
        theta[LOGS + 3 * n : LOGS + 3 * n + 3] = a * size, slope * size, offset * 0.0
    return theta


def ringing(times: list[FloatArray], values: list[FloatArray]) -> float | None:
    """Return the frequency at which a body bounces on its tyres once friction holds its shocks. [Hz]

    Parameters
    ----------
    times, values
        Of each swing from where the car is let go, and its acceleration.

    Returns
    -------
    :
        None where nothing goes on behind the swing.
    """
    tails = [(t[late], y[late]) for t, y in zip(times, values, strict=True) for late in [t > taken.SWUNG]]
    tails = [(t, y - y.mean()) for t, y in tails if len(t) and t[-1] - t[0] > taken.RINGS_FOR]
    if not tails:
        return None
    tried = np.linspace(*taken.RINGS, 181)
    left = [sum(_linear(t, y, float(f), 0.0)[1] for t, y in tails) for f in tried]
    whole = sum(float(y @ y) for _, y in tails)
    return float(tried[int(np.argmin(left))]) if min(left) < taken.RINGS_SHARE * whole else None


def _linear_left(problem: Problem, frequency: float, ratio: float) -> float:
    return sum(_linear(t, y, frequency, ratio)[1] for t, y in zip(problem.times, problem.raw, strict=True))


def _linear(t: FloatArray, y: FloatArray, frequency: float, ratio: float) -> tuple[FloatArray, float]:
    omega = 2 * np.pi * frequency
    fall = np.exp(-ratio * omega * t)
    turn = omega * np.sqrt(1 - ratio**2) * t
    base = np.column_stack([fall * np.cos(turn), fall * np.sin(turn), np.ones(len(t))])
    values = np.linalg.lstsq(base, y, rcond=None)[0]
    return values, float(np.sum((y - base @ values) ** 2))
