"""What is said of shocks that lie far from the others, or from how they were themselves."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

import numpy as np

from dynoan.analysis.clickmap.assumptions.spread import ODD_LEAST, ONE_FACTOR, SURELY_CHANGED
from dynoan.analysis.clickmap.assumptions.views import JUDGED_FROM
from dynoan.analysis.clickmap.shocks.effects import state_effects
from dynoan.analysis.clickmap.tested.setting import Tested
from dynoan.analysis.clickmap.trends.trend import FittedDirection
from dynoan.model.arrays import FloatArray
from dynoan.model.curve import Direction


def shock_words(tested: Sequence[Tested], fits: Mapping[Direction, FittedDirection]) -> list[str]:
    """Return the shocks that differ far more than the others, and say by how much."""
    shocks, words = sorted({t.shock for t in tested}), []
    for direction, fitted in fits.items():
        speeds = fitted.data.speeds
        effects, states = state_effects(fitted, speeds), fitted.data.states
        for number in fitted.spread.odd:
            mine = [i for i, state in enumerate(states) if state.shock == shocks[number]]
            worst = max(mine, key=lambda i: float(np.max(np.abs(effects[i]))))
            share = 100 * np.expm1(effects[worst])
            words.append(f"{shocks[number]} is {_how_weak(share, speeds, direction)} than the other shocks with this "
                         "pack; it is left out of their mean and spread")  # fmt: skip
        words += _changed(fitted, direction, shocks)
    return words


def _changed(fitted: FittedDirection, direction: Direction, shocks: Sequence[str]) -> list[str]:
    """Return the shocks that have changed, and the states that lie far from how the others are."""
    speeds, states = fitted.data.speeds, fitted.data.states
    effects, felt = state_effects(fitted, speeds), speeds >= JUDGED_FROM * 0.999
    words = []
    for at, (state, size) in enumerate(zip(states, fitted.spread.states, strict=False)):
        earlier = [i for i, other in enumerate(states[:at]) if other.shock == state.shock]
        if earlier and state == [s for s in states if s.shock == state.shock][-1]:
            since = effects[at] - effects[earlier[-1]]
            if size >= SURELY_CHANGED and float(np.max(np.abs(since[felt]))) > ODD_LEAST:
                weak = _how_weak(100 * np.expm1(since), speeds, direction)
                words.append(f"{state.shock} as tested on {state.last} is {weak} than on {states[earlier[-1]].last}; "
                             "it counts as it is now")  # fmt: skip
                continue
        others = [i for i, other in enumerate(states) if other.shock != state.shock]
        if size < ODD_LEAST or shocks.index(state.shock) in fitted.spread.odd or not others:
            continue
        away = effects[at] - np.median(effects[others], axis=0)
        if float(np.max(np.abs(away[felt]))) > ODD_LEAST:
            when = f" as tested on {state.last}" if state.last else ""
            words.append(f"{state.shock}{when} is {_how_weak(100 * np.expm1(away), speeds, direction)} than the other "
                         "shocks with this pack")  # fmt: skip
    return words


def _how_weak(share: FloatArray, speeds: FloatArray, direction: Direction) -> str:
    """Return by how much a shock differs [%], over speeds [m/s]: one factor where it is about the same at all."""
    felt = speeds >= JUDGED_FROM * 0.999
    away, at = share[felt], int(np.argmax(np.abs(share)))
    way = "weaker" if share[at] < 0 else "stronger"
    if float(np.ptp(away)) <= ONE_FACTOR * abs(float(away.mean())):
        return f"about {abs(float(away.mean())):.0f} % {way} in {direction} at all speeds"
    return f"up to {abs(share[at]):.0f} % {way} in {direction} (at {1000 * speeds[at]:.0f} mm/s)"
