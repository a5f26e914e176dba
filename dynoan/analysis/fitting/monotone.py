"""Curves that do not fall with speed: least squares with slopes not negative."""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from dynoan.analysis.fitting.assumptions import INSIST, INSIST_FALL
from dynoan.analysis.knees.broken_line import BrokenStick
from dynoan.model.arrays import FloatArray


def rises(stick: BrokenStick) -> bool:
    """Return whether a curve falls nowhere."""
    start, end = stick.end_slopes()
    return bool(min(start.min(), end.min()) >= 0)


def monotone(free: BrokenStick, points: tuple[FloatArray, FloatArray, FloatArray]) -> BrokenStick:
    """Return a curve kept from falling with speed unless the data (speed, force, weight) insist on it."""
    if rises(free):
        return free
    held = hold_up(free, *points)
    n = len(points[0])
    insist = held.sse > free.sse * (1 + INSIST / n) and _drop(free) > INSIST_FALL * float(np.max(np.abs(free.values)))
    return free if insist else held


def falls_between(stick: BrokenStick, force: FloatArray) -> bool:
    """Return whether a curve falls by what may be told, and the rows it was made of, in order of speed, do not."""
    least = INSIST_FALL * float(np.max(np.abs(force)))
    return _drop(stick) > least >= float(np.max(np.maximum.accumulate(force) - force))


def _drop(stick: BrokenStick) -> float:
    at = stick(np.linspace(stick.knots[0], stick.knots[-1], 400))
    return float(np.max(np.maximum.accumulate(at) - at))


def hold_up(stick: BrokenStick, speed: FloatArray, force: FloatArray, weight: FloatArray) -> BrokenStick:
    """Return the best curve with the same knees that nowhere falls: least squares with end slopes not negative.

    A bent piece is written by its slopes p and q at either end, ``p (u − u²/2h) + q u²/2h``, a straight one by its
    slope; all of these not negative is exactly what keeps a piecewise parabola from falling.
    """
    columns: list[FloatArray] = []
    for a, b, bent in zip(stick.knots[:-1], stick.knots[1:], stick.bent, strict=True):
        u, h = np.clip(speed - a, 0.0, b - a), b - a
        columns += [u - u**2 / (2 * h), u**2 / (2 * h)] if bent else [u]
    found = not_negative(np.column_stack(columns), force, weight)
    values, heights, i = [0.0], [], 0
    for a, b, bent in zip(stick.knots[:-1], stick.knots[1:], stick.bent, strict=True):
        p, q = (found[i], found[i + 1]) if bent else (found[i], found[i])
        i += 2 if bent else 1
        values.append(values[-1] + 0.5 * (p + q) * (b - a))
        heights.append(0.5 * (p - q) * (b - a))
    new = replace(stick, values=np.array(values), heights=np.array(heights))
    return replace(new, sse=float(np.sum(weight * (force - new(speed)) ** 2)))


def not_negative(matrix: FloatArray, y: FloatArray, weight: FloatArray) -> FloatArray:
    """Return the weighted least-squares solution without negative entries, shape (p,). [as `y`, per column]

    The active-set method of Lawson and Hanson, *Solving Least Squares Problems* (1974).

    A handful of columns; written out because importing scipy.optimize takes longer than all of a fit.
    """
    root = np.sqrt(weight)
    scale = np.sqrt(np.sum(weight[:, None] * matrix**2, axis=0)) + 1e-300
    rows, goal = matrix * root[:, None] / scale, y * root
    gram, load = rows.T @ rows, rows.T @ goal
    n = len(load)
    active = np.zeros(n, dtype=bool)
    x = np.zeros(n)
    for _ in range(6 * n):
        gradient = load - gram @ x
        rest = ~active & (gradient > 1e-10 * np.abs(load).max())
        if not rest.any():
            break
        active[int(np.argmax(np.where(rest, gradient, -np.inf)))] = True
        while True:
            trial = np.zeros(n)
            # By the rows themselves: normal equations lose half of the digits.
            trial[active] = np.linalg.lstsq(rows[:, active], goal, rcond=None)[0]
            if not (trial[active] < 0).any():
                break
            bad = active & (trial < 0)
            share = float(np.min(x[bad] / (x[bad] - trial[bad] + 1e-300)))
            x = x + share * (trial - x)
            active &= x > 1e-14 * np.abs(x).max(initial=0.0)
            x[~active] = 0.0
        x = trial
    return np.asarray(x / scale)
