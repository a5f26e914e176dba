"""How shocks, and the states they were in, lie off the mean shock; and how well that is known.

Each lies off by a factor, and by what passes beside its blow-off: bleeds and leaks differ from shock to shock and wear,
which takes much below the knee and next to nothing above. The last is given as it is in the mean of the settings at
which the shock, or the state, was tested; `losses` tells how it may be elsewhere.
"""

from __future__ import annotations

import numpy as np

from dynoan.analysis.clickmap.assumptions.spread import EVEN_SHARE, ODD_SHARE, WORN_MORE
from dynoan.analysis.clickmap.trends.discrepancy import speed_kernel
from dynoan.analysis.clickmap.trends.trend import FittedDirection
from dynoan.model.arrays import BoolArray, FloatArray, IntArray


def _shock_effects(fitted: FittedDirection, numbers: IntArray, there: FloatArray, speeds: FloatArray) -> FloatArray:
    """Return how far shocks by number lie from the mean shock as ln(force) at tests `there` (n, T), shape (n, S). [1]

    That of odd shocks is free to change with speed.
    """
    data, spread, pull = fitted.data, fitted.spread, fitted.pull
    member = (numbers[:, None] == data.shock[None, :]).astype(float)
    by_shock = member @ pull
    even = by_shock.sum(axis=1, keepdims=True) * np.ones(len(speeds))
    out = spread.shock**2 * (even + spread.unit_more**2 * _passed(fitted, member, there, speeds))
    odd = np.isin(numbers, spread.odd)
    out[odd, :] = ODD_SHARE**2 * by_shock[odd, :] @ speed_kernel(data.speeds, speeds)
    return np.asarray(out)


def state_effects(fitted: FittedDirection, speeds: FloatArray) -> FloatArray:
    """Return the deviation of each shock's states from the mean shock as ln(force), shape (states, S). [1]"""
    data = fitted.data
    shocks = sorted({state.shock for state in data.states})
    member = (np.arange(len(data.states))[:, None] == data.state[None, :]).astype(float)
    own = _shock_effects(fitted, np.array([shocks.index(state.shock) for state in data.states]), member, speeds)
    by_state = member @ fitted.pull
    waves = by_state @ speed_kernel(data.speeds, speeds)
    changes = EVEN_SHARE * by_state.sum(axis=1, keepdims=True) + (1.0 - EVEN_SHARE) * waves
    changes = changes + WORN_MORE**2 * _passed(fitted, member, member, speeds)
    return np.asarray(own + np.array(_sizes(fitted))[:, None] ** 2 * changes)


def _passed(fitted: FittedDirection, member: FloatArray, there: FloatArray, speeds: FloatArray) -> FloatArray:
    """Return what passages take of some tests' shock at speeds, for a prior of 1, shape (n, S). [1]

    `member` (n, T) are those tests, `there` (n, T) the ones at whose settings it is given, all where there is none.
    """
    pulled = (member @ (fitted.pull * fitted.worn)).sum(axis=1, keepdims=True)
    taken = fitted.passages(fitted.data.clicks, speeds)
    some = np.where(there.any(axis=1, keepdims=True), there, 1.0)
    return np.asarray(pulled * (some @ taken) / some.sum(axis=1, keepdims=True))


def _sizes(fitted: FittedDirection) -> tuple[float, ...]:
    return fitted.spread.states or (0.0,) * len(fitted.data.states)


def state_variances(fitted: FittedDirection, clicks: FloatArray, speeds: FloatArray) -> FloatArray:
    """Return what knowing the state adds to the variance of ln(force) at some clicks and speeds, (states,). [1]

    Negative where a state is known better than the mean shock. The mean over the clicks and speeds given.
    """
    cross, inverse, data = fitted.cross(clicks, speeds), fitted.inverse, fitted.data
    known = np.einsum("ij,ij->i", cross @ inverse, cross)
    shocks = sorted({state.shock for state in data.states})
    taken, run_at = fitted.passages(clicks, speeds), fitted.passages(data.clicks, speeds)
    waves = EVEN_SHARE + (1.0 - EVEN_SHARE) * speed_kernel(speeds, data.speeds)
    out = []
    for number, (state, size) in enumerate(zip(data.states, _sizes(fitted), strict=True)):
        at = shocks.index(state.shock)
        mine_at = run_at[data.state == number] if np.any(data.state == number) else run_at
        of_shock = 0.0 if at in fitted.spread.odd else fitted.spread.shock
        parts = ((of_shock, fitted.spread.unit_more, data.shock == at, np.ones_like(waves)),
                 (size, WORN_MORE, data.state == number, waves))  # fmt: skip
        more, missed, prior = cross, np.zeros_like(cross), 0.0
        for sd, often, mine, over in parts:
            passed = often * _of(mine, fitted.worn)
            even = (mine.astype(float)[None, :, None] * over[:, None, :]).reshape(len(speeds), -1)
            more = more + sd**2 * (np.tile(even, (len(clicks), 1)) + often * np.outer(taken.ravel(), passed))
            away = often * (taken - mine_at.mean(axis=0))
            missed = missed + sd**2 * np.outer(away.ravel(), passed)
            prior += sd**2 * (1.0 + often**2 * float(np.mean(taken**2)))
        # What passages take differs from click to click; `state_effects` gives what they take where a state was run.
        gain = np.einsum("ij,ij->i", more @ inverse, more) - np.einsum("ij,ij->i", missed @ inverse, missed)
        out.append(prior - float(np.mean(gain - known)))
    return fitted.scale**2 * np.array(out)


def _of(mine: BoolArray, values: FloatArray) -> FloatArray:
    """Return values of some tests, 0 elsewhere, in the order of the covariance, (T·S,)."""
    return np.asarray((values * mine[:, None]).ravel())
