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

from dynoan.analysis.clickmap.assumptions.screws import (
    EVIDENCE_SHARE,
    NO_RETURN_CLICKS,
    NO_RETURN_COMMON,
    NO_RETURN_FROM,
    WARPS,
    WARPS_COMMON,
)
from dynoan.analysis.clickmap.assumptions.spread import (
    REPEAT_SHARE,
    REPEAT_WIDTH,
    REPEATS,
    STATES,
    STATES_COMMON,
    UNIT_MORE,
)
from dynoan.analysis.clickmap.trends.discrepancy import Pieces, log_likelihood, pieces
from dynoan.analysis.clickmap.trends.spread import MapSpread, Size
from dynoan.analysis.clickmap.trends.trend import FittedDirection
from dynoan.model.curve import Direction


def not_returning(fits: Mapping[Direction, FittedDirection]) -> dict[str, float]:
    """Return of each adjuster that tests move how probable it is that it does not come back to the same place. [1]

    Adjusters of which too few tests tell are left out.
    """
    odds: dict[str, float] = {}
    for fitted in fits.values():
        for axis, more in enumerate(_evidence(fitted)):
            name = fitted.data.axes[axis].name
            odds[name] = odds.get(name, 0.0) + EVIDENCE_SHARE * more
    before = np.log(NO_RETURN_COMMON / (1.0 - NO_RETURN_COMMON))
    return {name: float(1.0 / (1.0 + np.exp(-np.clip(before + more, -50.0, 50.0)))) for name, more in odds.items()}


def _evidence(fitted: FittedDirection) -> list[float]:
    """Return of each axis the logarithm of how much likelier the tests are where it does not return. [1]"""
    data, spread = fitted.data, fitted.spread
    if data.tests < NO_RETURN_FROM or not spread.warps:
        return [0.0] * len(data.axes)
    spread = replace(spread, loose=(), unit_more=UNIT_MORE)
    axes = [axis for axis, moved in enumerate(data.moved[: len(spread.warps)]) if moved]
    out, parts = [0.0] * len(data.axes), _parts(fitted, spread)
    for axis in axes:
        out[axis] = _likely(fitted, (spread, parts), axis, NO_RETURN_CLICKS) - _likely(fitted, (spread, parts), axis, 0)
    return out


def _parts(fitted: FittedDirection, spread: MapSpread) -> Pieces:
    return pieces(fitted.data, spread, fitted.jacobian, fitted.slopes, fitted.worn)


def _likely(fitted: FittedDirection, under: tuple[MapSpread, Pieces], axis: int, loose: float) -> float:
    """Return the logarithm of how likely the tests are with a screw so loose [clicks], other sizes averaged. [1]

    `under` are the sizes, and the pieces of the covariance under them.
    """
    spread, parts = under
    by_run, by_turn = Size("repeat"), Size("warps", axis)
    of_run, of_turn = parts.ruled_by(by_run), parts.ruled_by(by_turn)
    without = parts.total(by_turn.at(by_run.at(spread, 0.0), 0.0)) + loose**2 * parts.loose[axis]
    return float(logsumexp([
        log_likelihood(without + r**2 * of_run + w**2 * of_turn, fitted.residual, used_up=True) + p + q
        for r, p in _repeats() for w, q in zip(WARPS, np.log(WARPS_COMMON), strict=True)
    ]))  # fmt: skip


def rather_than_changed(fits: Mapping[Direction, FittedDirection]) -> dict[str, float]:
    """Return of each adjuster how probable it is that it stood beside its click where a shock seems changed. [1]

    Against that the shock has changed and every screw came back; adjusters of directions without a change are left out.
    """
    out: dict[str, float] = {}
    for fitted in fits.values():
        data, spread = fitted.data, replace(fitted.spread, loose=(), unit_more=UNIT_MORE)
        if data.tests < NO_RETURN_FROM or not spread.warps or max(spread.states, default=0.0) < STATES[1]:
            continue
        calm = replace(spread, states=tuple(min(size, STATES[0]) for size in spread.states))
        now, then = ((sizes, _parts(fitted, sizes)) for sizes in (spread, calm))
        before = np.log(NO_RETURN_COMMON / sum(STATES_COMMON[1:]))
        for axis, moved in enumerate(data.moved[: len(spread.warps)]):
            if moved:
                more = _likely(fitted, then, axis, NO_RETURN_CLICKS) - _likely(fitted, now, axis, 0.0)
                odds = before + EVIDENCE_SHARE * more
                out[data.axes[axis].name] = float(1.0 / (1.0 + np.exp(-np.clip(odds, -50.0, 50.0))))
    return out


def _repeats() -> list[tuple[float, float]]:
    """Return scatters from run to run, and the logarithm of how common each is."""
    return [(r, -0.5 * float(np.log(r / REPEAT_SHARE) / REPEAT_WIDTH) ** 2) for r in REPEATS[:-1]]
