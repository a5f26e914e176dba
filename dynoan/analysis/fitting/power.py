"""A first piece that is a power law of speed, ``F = a·v^m``, as a bleed between laminar and orifice makes it."""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from dynoan.analysis.fitting.assumptions import LEAST_POWER, MOST_POWER, STEPS
from dynoan.analysis.fitting.shapes import power, scaled_shape
from dynoan.analysis.knees.broken_line import BrokenStick
from dynoan.analysis.knees.errors import jacobian
from dynoan.errors import FitError
from dynoan.model.arrays import FloatArray


def as_power(
    stick: BrokenStick, points: tuple[FloatArray, FloatArray, FloatArray], width: float, steps: int = STEPS
) -> BrokenStick:
    """Return the best curve of as many pieces whose first is a power law, near one whose first piece is a parabola.

    Parameters
    ----------
    stick
        Pinned to zero, the first piece bent: a parabola, or a power law already.
    points
        Speeds, forces and weights of one direction, shape (n,) each.
    width
        Least width of a piece. [m/s]

    Notes
    -----
    Gauss-Newton in values at the knots, bends, knees and the exponent together, each step halved until the weighted
    sum of squares falls.
    """
    speed, force, weight = points
    root = np.sqrt(weight)
    if not len(stick.knees):
        return _alone(stick, points)
    best = stick
    if stick.power != stick.power:
        first = replace(stick, power=_exponent(stick), heights=np.concatenate([[0.0], stick.heights[1:]]))
        best = _refitted(first, _state(first), points)
    for _ in range(steps):
        matrix = jacobian(best, speed) * root[:, None]
        norm = np.sqrt(np.einsum("ij,ij->j", matrix, matrix)) + 1e-300
        matrix /= norm
        gram = matrix.T @ matrix + 1e-10 * np.eye(len(norm))
        step = np.linalg.solve(gram, matrix.T @ (root * (force - best(speed)))) / norm
        now = _state(best)
        tries = (_refitted(best, now + share * step, points) for share in (1.0, 0.5, 0.2, 0.05, 0.01))
        better = next((t for t in tries if _allowed(t, width) and t.sse < best.sse), None)
        if better is None:
            break
        gained, best = best.sse - better.sse, better
        if gained < 1e-7 * best.sse:
            break
    return best


def _alone(stick: BrokenStick, points: tuple[FloatArray, FloatArray, FloatArray]) -> BrokenStick:
    """Return one power law over all speeds; a scaled shape, so that no step can go astray."""
    speed, force, weight = points
    top, root = float(stick.knots[-1]), np.sqrt(weight)

    def weighted(u: FloatArray, m: float) -> tuple[FloatArray, FloatArray]:
        value, slope = power(u, m)
        return root * value, root * slope

    start = stick.power if stick.power == stick.power else _exponent(stick)
    try:
        with np.errstate(all="ignore"):
            found = scaled_shape(np.maximum(speed / top, 1e-9), root * force, weighted, start, 1e-6)
    except FitError:
        return stick  # no power law at all: what it was stays the better one
    return _refitted(replace(stick, heights=np.zeros(1)), np.array([found.a, found.b]), points)


def _exponent(stick: BrokenStick) -> float:
    at = np.linspace(0.25, 1.0, 12) * stick.knots[1]
    force = np.maximum(stick(at), 1e-6 * abs(float(stick.values[1])))
    return float(np.clip(np.polyfit(np.log(at), np.log(force), 1, w=force)[0], LEAST_POWER, MOST_POWER))


def _state(stick: BrokenStick) -> FloatArray:
    """Return the parameters in the order of `jacobian`: values, exponent and bends, knees."""
    return np.concatenate([stick.values[1:], [stick.power], stick.heights[1:][stick.bent[1:]], stick.knees])


def _refitted(stick: BrokenStick, state: FloatArray, points: tuple[FloatArray, FloatArray, FloatArray]) -> BrokenStick:
    pieces, bends = len(stick.heights), int(np.sum(stick.bent[1:]))
    heights = np.zeros(pieces)
    heights[1:][stick.bent[1:]] = state[pieces + 1 : pieces + 1 + bends]
    knots = np.concatenate([stick.knots[:1], state[pieces + 1 + bends :], stick.knots[-1:]])
    power = float(np.clip(state[pieces], LEAST_POWER, MOST_POWER))
    values = np.concatenate([[0.0], state[:pieces]])
    new = replace(stick, knots=knots, values=values, heights=heights, power=power)
    if np.any(np.diff(knots) <= 0):
        return replace(new, sse=float("inf"))
    speed, force, weight = points
    return replace(new, sse=float(np.sum(weight * (force - new(speed)) ** 2)))


def _allowed(stick: BrokenStick, width: float) -> bool:
    return bool(np.all(np.diff(stick.knots) >= width))
