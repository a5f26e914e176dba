"""Whether an adjuster comes back to the same place when it is set to the same click again.

One that does not stands half a click to either side, each time anew: its tests lie off as a click there would move
them, which differs from speed to speed and from setting to setting, unlike scatter from run to run. Both are held
against one another by how likely the tests are under each, other sizes averaged.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

import numpy as np
from scipy.special import logsumexp

from dynoan.analysis.clickmap import assumptions as a
from dynoan.analysis.clickmap.discrepancy import log_likelihood, pieces
from dynoan.analysis.clickmap.trend import FittedDirection
from dynoan.model.curve import Direction


def not_returning(fits: Mapping[Direction, FittedDirection]) -> dict[str, float]:
    """Return of each adjuster that tests move how probable it is that it does not come back to the same place. [1]

    Adjusters of which too few tests tell are left out.
    """
    odds: dict[str, float] = {}
    for fitted in fits.values():
        for axis, more in enumerate(_evidence(fitted)):
            name = fitted.data.axes[axis].name
            odds[name] = odds.get(name, 0.0) + a.EVIDENCE_SHARE * more
    before = np.log(a.NO_RETURN_COMMON / (1.0 - a.NO_RETURN_COMMON))
    return {name: float(1.0 / (1.0 + np.exp(-np.clip(before + more, -50.0, 50.0)))) for name, more in odds.items()}


def _evidence(fitted: FittedDirection) -> list[float]:
    """Return of each axis the logarithm of how much likelier the tests are where it does not return. [1]"""
    data, spread = fitted.data, fitted.spread
    if data.tests < a.NO_RETURN_FROM or not spread.warps:
        return [0.0] * len(data.axes)
    spread = replace(spread, loose=())
    parts = pieces(data, spread, fitted.jacobian, fitted.slopes)
    tried = [(r, w, p + q) for r, p in _repeats() for w, q in zip(a.WARPS, np.log(a.WARPS_COMMON), strict=True)]
    out = []
    for axis, moved in enumerate(data.moved[: len(spread.warps)]):
        before, after = spread.warps[:axis], spread.warps[axis + 1 :]
        totals = [parts.total(replace(spread, repeat=r, warps=(*before, w, *after))) for r, w, _ in tried]
        scores = [
            logsumexp([log_likelihood(t + more, fitted.residual) + p for t, (*_, p) in zip(totals, tried, strict=True)])
            for more in ((0.0, a.NO_RETURN_CLICKS**2 * parts.loose[axis]) if moved else (0.0, 0.0))
        ]
        out.append(float(scores[1] - scores[0]))
    return out


def _repeats() -> list[tuple[float, float]]:
    """Return scatters from run to run, and the logarithm of how common each is."""
    return [(r, -0.5 * float(np.log(r / a.REPEAT_SHARE) / a.REPEAT_WIDTH) ** 2) for r in a.REPEATS[:-1]]
