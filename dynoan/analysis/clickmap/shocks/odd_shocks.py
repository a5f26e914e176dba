"""Which of a pack's shocks lie far from the others: worn, leaking, or of another build."""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from dynoan.analysis.clickmap.assumptions.spread import EXPECTED_SPREAD, ODD_EVIDENCE, ODD_LEAST
from dynoan.analysis.clickmap.shocks.effects import state_effects
from dynoan.analysis.clickmap.trends.discrepancy import log_likelihood
from dynoan.analysis.clickmap.trends.trend import FittedDirection


def odd_shocks(fitted: FittedDirection) -> tuple[int, ...]:
    """Return the shocks that lie far from the others, where there are enough to tell which.

    One is where the tests are far likelier with its force free, by a factor or from speed to speed, than with what
    sound shocks spread: of a leak a factor takes up little, and the rest would be laid at the door of the adjusters.
    """
    numbers = [int(n) for n in np.unique(fitted.data.shock)]
    if len(numbers) < 3:
        return ()
    # Not with the spread that these have: an odd one among few makes it wide, and hides in it.
    usual = replace(fitted.spread, odd=(), shock=min(fitted.spread.shock, EXPECTED_SPREAD))
    sound = replace(fitted, spread=usual)
    regular = log_likelihood(sound.total, sound.residual)
    odd = tuple(n for n in numbers if _away(sound, n, regular) > ODD_LEAST)
    return odd if len(odd) < len(numbers) / 2 else ()


def _away(sound: FittedDirection, number: int, regular: float) -> float:
    """Return how far a shock lies from the middle one where it differs most, a share of force; 0 where that may be
    chance: `regular` is the logarithm of how likely the tests are without. [1]"""
    # By a factor of its own, or from speed to speed, but not at every speed anew: so much freedom is dear.
    ways = [replace(sound, spread=replace(sound.spread, odd=(number,), odd_own=0.0, odd_even=e)) for e in (1.0, 0.0)]
    likely = [log_likelihood(free.total, free.residual) - regular for free in ways]
    if max(likely) < ODD_EVIDENCE:
        return 0.0
    free = ways[1]
    effects = state_effects(free, free.data.speeds)
    names = sorted({state.shock for state in free.data.states})
    mine = np.array([names.index(state.shock) == number for state in free.data.states])
    return float(np.max(np.abs(effects[mine] - np.median(effects[~mine], axis=0))))
