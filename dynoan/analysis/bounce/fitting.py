"""Least squares of a swinging corner on the free swings of a log."""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from dynoan.analysis.bounce import assumptions as taken
from dynoan.analysis.bounce.finding import check_decay, free_swings
from dynoan.analysis.bounce.limits import SwingFit, fit_of
from dynoan.analysis.bounce.problem import KnownCorner, Logged, Problem, sizes_of
from dynoan.analysis.bounce.pushes import Swing
from dynoan.analysis.bounce.starting import starts
from dynoan.model.arrays import FloatArray

#: of these: rate, damping and friction, by which two ends of a search are told apart
_TOLD = [0, 2, 6]


def fit_swings(logged: Logged, known: KnownCorner | None = None, amplitude: float = taken.AMPLITUDE) -> SwingFit:
    """Return a corner's frequency and ratio from the free swings of a log.

    Parameters
    ----------
    logged
        A channel, about zero at rest.
    known
        What the car's file tells; None: what corners have as a rule.
    amplitude
        For which frequency and ratio are given: shock travel at the wheel. [m]

    Raises
    ------
    FitError
        If no push is found, none swings free, what is logged is no decay, or the sensor ran out of its range.
    """
    logged = thinned(logged)
    problem = Problem(logged, free_swings(logged), known or KnownCorner())
    check_decay(problem)
    minima, scale = _solved(problem)
    free = _without_hands(problem, minima[0])
    if free != problem.found:
        problem = Problem(logged, free, known or KnownCorner())
        minima, scale = _solved(problem)
    return fit_of(problem, minima, scale, amplitude)


def thinned(logged: Logged) -> Logged:
    """Return a log with neighbouring samples averaged, where it is quicker than a swing needs."""
    step = float(np.median(np.diff(logged.time)))
    many = int(1.0 / (step * taken.QUICK_ENOUGH))
    if many < 2:
        return logged
    rows = len(logged.time) // many
    time, values = (a[: rows * many].reshape(rows, many).mean(axis=1) for a in (logged.time, logged.values))
    ends = None if logged.ends is None else np.asarray(logged.ends[: rows * many].reshape(rows, many).any(axis=1))
    return Logged(time, values, logged.acceleration, ends)


def _solved(problem: Problem) -> tuple[list[FloatArray], float]:
    """Return the best values, others that fit as well within the limits, and the scatter of what they leave.

    Weights are set from the scatter twice. Friction and damping take each other's place in a short swing, so that a
    search may end in several places: each is followed.
    """
    y = np.concatenate(problem.values)
    scale = 0.03 * float(np.sqrt(np.mean(y**2)))
    tried = [_closest(problem, begun, scale) for begun in starts(problem)]
    tried.sort(key=lambda done: done[0])
    theta = tried[0][1]
    for _ in range(2):
        theta = _closest(problem, theta, scale)[1]
        left = np.concatenate([m - v for m, v in zip(problem.made(theta), problem.values, strict=True)])
        scale = max(float(np.sqrt(np.mean(left**2))), 1e-9) * np.sqrt(_correlated(problem, theta))
    near = taken.FOLLOWED * tried[0][0]
    apart = [t for cost, t in tried if cost < near and np.abs(t[_TOLD] - theta[_TOLD]).max() > taken.APART]
    ends = sorted((_closest(problem, start, scale) for start in (theta, *apart)), key=lambda end: end[0])
    return [end for cost, end in ends if cost <= ends[0][0] + taken.AS_GOOD], scale


def _without_hands(problem: Problem, theta: FloatArray) -> tuple[Swing, ...]:
    """Return the swings, those cut short at whose end a hand was on the car again while it still swung."""
    kept = []
    for made, y, t, swing in zip(problem.made(theta), problem.values, problem.times, problem.found, strict=True):
        left = np.abs(made - y)
        count = max(2, int(np.searchsorted(t, t[0] + taken.HAND_END)))
        usual = taken.HAND_OVER * float(np.sqrt(np.mean(left[:-count] ** 2))) if len(left) > 2 * count else np.inf
        if left[-count:].max() > max(usual, taken.HAND_SHARE * swing.peak):
            much = np.flatnonzero(left <= 0.5 * taken.HAND_SHARE * swing.peak)
            before = int(np.searchsorted(t, t[0] + taken.HAND_BEFORE))
            stop = swing.start + max(int(much[-1]) + 1 - before, 3 * count)
            swing = replace(swing, stop=min(swing.stop, stop))
        kept.append(swing)
    return tuple(kept)


def _closest(problem: Problem, begun: FloatArray, scale: float) -> tuple[float, FloatArray]:
    """Return the least cost that a search comes to from a start, and where."""
    from scipy.optimize import least_squares

    done = least_squares(problem.residuals, begun, problem.slopes, args=(scale,), x_scale=sizes_of(begun), max_nfev=25)
    return float(done.cost), np.asarray(done.x)


def _correlated(problem: Problem, theta: FloatArray) -> float:
    """Return how many neighbouring residuals count as one: the integrated autocorrelation, one at least."""
    total = 1.0
    for m, y in zip(problem.made(theta), problem.values, strict=True):
        left = m - y
        left = left - left.mean()
        power = float(left @ left)
        if power <= 0 or len(left) < 8:
            continue
        rho = np.correlate(left, left, "full")[len(left) :] / power
        below = np.flatnonzero(rho < 0)
        total = max(total, 1.0 + 2.0 * float(np.sum(rho[: below[0] if len(below) else len(rho)])))
    return total
