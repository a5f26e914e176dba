"""How far what a shock has lost at the clicks that were run may be another loss at other clicks.

A screw opens one way of several, so that a worn shock loses more at some clicks than at others, and one run does not
tell how: oil that is let by in parallel takes most where the screws are closed, a tired spring takes the same share
everywhere. Maps carry the share that was seen; here is how far the others lie from it.
"""

from __future__ import annotations

import numpy as np

from dynoan.analysis.clickmap.assumptions.spread import (
    LEAK_POWERS,
    LOSS_KNOWN,
    LOSS_LEAST,
    LOSS_POINTS,
    LOSS_REACH,
    LOSS_SPEEDS,
)
from dynoan.analysis.clickmap.trends.discrepancy import click_kernel
from dynoan.analysis.clickmap.trends.trend import FittedDirection
from dynoan.analysis.statistics import Z95
from dynoan.model.arrays import FloatArray
from dynoan.model.clickmap import LossDoubt


def loss_doubt(
    fitted: FittedDirection, positions: tuple[FloatArray, ...], speeds: FloatArray, force: FloatArray,
    effects: FloatArray,
) -> LossDoubt:  # fmt: skip
    """Return how far states' losses may be others away from the clicks at which each state was run.

    Parameters
    ----------
    fitted
        One direction of a pack.
    positions
        Clicks of each axis at which it is worked out, whole ones; those of states that were run once come to them.
    speeds, force
        Of the tables: speeds above zero, shape (S,) [m/s], and the mean shock's force at every click, shape
        (clicks+1, …, S) [N].
    effects
        ln of each state's force over the mean shock's, shape (states, S). [1]
    """
    data = fitted.data
    once = [k for k in range(len(effects)) if np.sum(data.state == k) == 1]
    positions = tuple(np.union1d(p, data.clicks[np.isin(data.state, once), i]) for i, p in enumerate(positions))
    grids = np.meshgrid(*positions, indexing="ij")
    points = np.stack([g.ravel() for g in grids], axis=1) if positions else np.zeros((1, 0))
    few = np.geomspace(data.speeds[0], data.top_speed, LOSS_SPEEDS)
    there = force[tuple(points.astype(int).T)].reshape(len(points), -1)
    out = np.zeros((len(effects), len(points), len(few)))
    for number, effect in enumerate(effects):
        run = data.clicks[data.state == number]
        if not run.size:
            continue
        run = np.unique(run, axis=0)
        lost = np.abs(np.interp(few, speeds, effect))
        nearest = np.argmax(click_kernel(points, run, data.last, fitted.spread.span), axis=1)
        for k in np.unique(nearest):
            clicks = run[k]
            here = force[tuple(clicks.astype(int))].reshape(-1)
            out[number, nearest == k] = apart(speeds, here, there[nearest == k], few, lost)
    return LossDoubt(positions, few, out.reshape(len(effects), *[len(p) for p in positions], len(few)))


def apart(speeds: FloatArray, here: FloatArray, there: FloatArray, at: FloatArray, lost: FloatArray) -> FloatArray:
    """Return the variance of ln(force) at other clicks, (n, b): of leaks and of one share about the share. [1]

    `here` (S,) and `there` (n, S) are forces of a sound shock over `speeds`, `lost` (b,) of ln(force) here at `at`.
    """
    rising, left = np.maximum.accumulate(here), np.interp(at, speeds, here) * np.exp(-lost)
    passed = at - np.interp(left, np.r_[0.0, rising], np.r_[0.0, speeds])
    ways, shown = [np.zeros((len(there), len(at)))], [_unlike(np.full(len(at), np.mean(lost)), lost)]
    for power in LEAK_POWERS:
        ways.append(lost - _leaking(speeds, there, at, passed / left**power, power))
        one = np.full(len(at), np.sum(lost * passed / left**power) / max(float(np.sum(lost)), 1e-9))
        shown.append(_unlike(_leaking(speeds, here[None, :], at, one, power)[0], lost))
    likely = LOSS_LEAST + np.exp(-0.5 * np.array(shown))
    variance = np.tensordot(likely / likely.sum(), np.square(ways), axes=1)
    # There is no way beyond the furthest one, as there would be of a Gaussian.
    return np.asarray(np.minimum(variance, np.square(LOSS_REACH / Z95 * np.max(np.abs(ways), axis=0))))


def _leaking(speeds: FloatArray, force: FloatArray, at: FloatArray, size: FloatArray, power: float) -> FloatArray:
    """Return what leaks take of ln(force) (n, S) over `speeds` at (b,), of `size` [m/s/N^power] there, (n, b). [1]"""
    through = speeds + size[:, None] * force[:, None, :] ** power
    leaky = [[np.interp(v, over, f) for v, over in zip(at, rows, strict=True)]
             for f, rows in zip(force, through, strict=True)]  # fmt: skip
    return np.array([np.log(np.interp(at, speeds, f) / one) for f, one in zip(force, leaky, strict=True)])


def _unlike(told: FloatArray, lost: FloatArray) -> float:
    """Return how far a way of losing is from telling the loss at every speed: squares over their expected size. [1]"""
    return float(np.mean((told - lost) ** 2 / (LOSS_KNOWN[0] ** 2 + (LOSS_KNOWN[1] * lost) ** 2)) * LOSS_POINTS)
