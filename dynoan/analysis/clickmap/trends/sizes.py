"""How large discrepancy, warps, scatter, states and spread are: each averaged over the sizes that may be.

An average, not the best size: few tests leave much open, and what they leave open belongs in the band.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace

import numpy as np

from dynoan.analysis.clickmap.assumptions.screws import LOOSE, LOOSE_COMMON, WARPS, WARPS_COMMON
from dynoan.analysis.clickmap.assumptions.spread import (
    DISCREPANCIES,
    DISCREPANCY_WIDTH,
    EXPECTED_DISCREPANCY,
    EXPECTED_SPREAD,
    REPEAT_SHARE,
    REPEAT_WIDTH,
    REPEATS,
    SIZE_ROUNDS,
    SPREAD_WIDTH,
    SPREADS,
    STATES,
    STATES_COMMON,
)
from dynoan.analysis.clickmap.trends.discrepancy import MapSpread, log_likelihood, pieces
from dynoan.analysis.clickmap.trends.trend import FittedDirection
from dynoan.model.arrays import FloatArray

Change = Callable[[MapSpread, float], MapSpread]


def fitted_sizes(fitted: FittedDirection) -> FittedDirection:
    """Return a fit with the sizes that its tests lead one to expect."""
    parts = pieces(fitted.data, fitted.spread, fitted.jacobian, fitted.slopes, fitted.worn)
    residual = fitted.residual
    spread = fitted.spread
    for _ in range(SIZE_ROUNDS):
        for change, sizes, prior in _questions(spread):
            score = np.array([log_likelihood(parts.total(change(spread, size)), residual) for size in sizes])
            spread = change(spread, _mean_size(score + prior, sizes))
    return replace(fitted, spread=spread)


def _questions(spread: MapSpread) -> list[tuple[Change, Sequence[float], FloatArray]]:
    """Return how each size is changed, which are tried, and the logarithm of how common each is."""

    def around(sizes: Sequence[float], centre: float, width: float) -> FloatArray:
        return np.asarray(-0.5 * (np.log(np.array(sizes) / centre) / width) ** 2)

    def warp(axis: int) -> Change:
        return lambda s, size: replace(s, warps=(*s.warps[:axis], size, *s.warps[axis + 1 :]))

    def loose(axis: int) -> Change:
        return lambda s, size: replace(s, loose=(*s.loose[:axis], size, *s.loose[axis + 1 :]))

    def state(number: int) -> Change:
        return lambda s, size: replace(s, states=(*s.states[:number], size, *s.states[number + 1 :]))

    # First whether a shock has changed: a screw that stood beside its click in the one later test would do as well.
    later = [k for k, size in enumerate(spread.states) if size > 0]
    out: list[tuple[Change, Sequence[float], FloatArray]] = [(state(k), STATES, np.log(STATES_COMMON)) for k in later]
    out += [(loose(i), LOOSE, np.log(LOOSE_COMMON)) for i in range(len(spread.loose))]
    out += [
        (lambda s, size: replace(s, discrepancy=size), DISCREPANCIES,
         around(DISCREPANCIES, EXPECTED_DISCREPANCY, DISCREPANCY_WIDTH)),
        (lambda s, size: replace(s, repeat=size), REPEATS, around(REPEATS, REPEAT_SHARE, REPEAT_WIDTH)),
    ]  # fmt: skip
    out += [(warp(i), WARPS, np.log(WARPS_COMMON)) for i in range(len(spread.warps))]
    if spread.shock > 0:
        prior = around(SPREADS, EXPECTED_SPREAD, SPREAD_WIDTH)
        out.append((lambda s, size: replace(s, shock=size), SPREADS, prior))
    return out


def _mean_size(score: FloatArray, sizes: Sequence[float]) -> float:
    share = np.exp(score - score.max())
    return float(np.sqrt(np.sum(share * np.square(sizes)) / np.sum(share)))
