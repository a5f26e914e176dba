"""How large discrepancy, warps, scatter, states and spread are: each averaged over the sizes that may be.

An average, not the best size: few tests leave much open, and what they leave open belongs in the band.
"""

from __future__ import annotations

from collections.abc import Sequence
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
from dynoan.analysis.clickmap.trends.discrepancy import log_likelihood, pieces
from dynoan.analysis.clickmap.trends.spread import MapSpread, Size
from dynoan.analysis.clickmap.trends.trend import FittedDirection
from dynoan.model.arrays import FloatArray

Question = tuple[Size, Sequence[float], FloatArray]  #: a size, which values are tried, and how common each is, a log


def fitted_sizes(fitted: FittedDirection) -> FittedDirection:
    """Return a fit with the sizes that its tests lead one to expect."""
    parts = pieces(fitted.data, fitted.spread, fitted.jacobian, fitted.slopes, fitted.worn)
    spread = fitted.spread
    total = parts.total(spread)
    tried = np.empty_like(total)  # one for all: memory that is new to the process takes longer to get than to fill

    def score(value: float, was: float, part: FloatArray | float) -> float:
        np.multiply(value**2 - was**2, part, out=tried)
        return log_likelihood(np.add(tried, total, out=tried), fitted.residual, used_up=True)

    for _ in range(SIZE_ROUNDS):
        for size, values, prior in _questions(spread):
            was, part = size.of(spread), parts.ruled_by(size)
            now = _mean_size(np.array([score(value, was, part) for value in values]) + prior, values)
            total += (now**2 - was**2) * part
            spread = size.at(spread, now)
    return replace(fitted, spread=spread)


def _questions(spread: MapSpread) -> list[Question]:
    """Return which sizes are asked for, in turn."""

    def around(values: Sequence[float], centre: float, width: float) -> FloatArray:
        return np.asarray(-0.5 * (np.log(np.array(values) / centre) / width) ** 2)

    # First whether a shock has changed: a screw that stood beside its click in the one later test would do as well.
    later = [k for k, size in enumerate(spread.states) if size > 0]
    out: list[Question] = [(Size("states", k), STATES, np.log(STATES_COMMON)) for k in later]
    out += [(Size("loose", i), LOOSE, np.log(LOOSE_COMMON)) for i in range(len(spread.loose))]
    out += [
        (Size("discrepancy"), DISCREPANCIES, around(DISCREPANCIES, EXPECTED_DISCREPANCY, DISCREPANCY_WIDTH)),
        (Size("repeat"), REPEATS, around(REPEATS, REPEAT_SHARE, REPEAT_WIDTH)),
    ]
    out += [(Size("warps", i), WARPS, np.log(WARPS_COMMON)) for i in range(len(spread.warps))]
    if spread.shock > 0:
        out.append((Size("shock"), SPREADS, around(SPREADS, EXPECTED_SPREAD, SPREAD_WIDTH)))
    return out


def _mean_size(score: FloatArray, sizes: Sequence[float]) -> float:
    share = np.exp(score - score.max())
    return float(np.sqrt(np.sum(share * np.square(sizes)) / np.sum(share)))
