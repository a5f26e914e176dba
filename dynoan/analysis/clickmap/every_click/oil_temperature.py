"""A curve in oil warmer or cooler than it was measured in.

How far damping follows the oil's thickness is a matter of the valve: hardly where sharp orifices rule, wholly where
leaks do. So each correction has a band, until tests at unlike temperatures tell what a pack itself does.
"""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from dynoan.analysis.clickmap.assumptions.data import (
    REFERENCE_C,
    THINNED_ALIKE,
    THINNING,
    THINNING_AT,
    THINNING_SD,
    THINNING_TOLD,
)
from dynoan.analysis.clickmap.assumptions.identify import UNSAID_WARMTH
from dynoan.analysis.clickmap.tested.loss_per_kelvin import (
    OilTold,
    Thinning,
    thinning,
    thinning_at,
    thinning_of_table,
    thinning_parts,
    thinning_sd,
)
from dynoan.analysis.clickmap.trends.trend import FittedDirection
from dynoan.analysis.statistics import Z95
from dynoan.model.arrays import FloatArray
from dynoan.model.clickmap import ClickMap
from dynoan.model.curve import DIRECTIONS, Curve, Direction
from dynoan.model.side import Side

#: points of a fitted side that is tabulated because it no longer is of its pieces
_POINTS = 400


def learned_thinning(fitted: FittedDirection, speeds: FloatArray) -> FloatArray:
    """Return what damping of a pack loses a kelvin as its tests tell, and the standard deviation, (2, S). [1/K]

    Where all were as warm, nothing is learned: `thinning` and `thinning_sd`.
    """
    data, parts = fitted.data, thinning_parts(speeds)
    own = np.sqrt(1.0 - THINNED_ALIKE) * thinning_sd(speeds)
    if not len(data.warm):
        return np.stack([thinning(speeds), thinning_sd(speeds)])
    moves = np.array([(data.warm[:, None] * part).ravel() for part in thinning_parts(data.speeds)])
    gained = moves @ fitted.pull.ravel()
    left = np.eye(2) - moves @ fitted.inverse @ moves.T
    variance = np.einsum("is,ij,js->s", parts, left, parts) + own**2
    return np.stack([thinning(speeds) - gained @ parts, np.sqrt(np.maximum(variance, 0.0))])


def rate_of(told: OilTold | None) -> tuple[float, float]:
    """Return what damping loses at middling speed, the mean over directions, and its standard deviation. [1/K]"""
    if not told:
        return THINNING, THINNING_SD
    known = [[float(np.interp(THINNING_AT, one.speeds, row)) for row in (one.rate, one.sd)] for one in told.values()]
    rate, sd = np.mean(known, axis=0)
    return float(rate), float(sd)


def is_told(told: OilTold | None) -> bool:
    """Return whether tests tell what damping loses better than is known of any shock."""
    return bool(told) and rate_of(told)[1] < THINNING_TOLD * float(thinning_sd(np.array(THINNING_AT)))


def thinning_of(map: ClickMap) -> dict[Direction, Thinning]:
    """Return what damping of a pack loses a kelvin, by direction, where its map tells."""
    told = {d: thinning_of_table(map.direction(d)) for d in DIRECTIONS}
    return {d: one for d, one in told.items() if one is not None}


def in_oil(curve: Curve, celsius: float, told: OilTold | None = None) -> Curve:
    """Return a curve as it is in oil so warm [°C]: damping less by what it loses, the band wider by the doubt of that.

    `told` is what a pack's tests tell of it, else it is `thinning`. Where the curve's own temperature is not known, it
    is taken to be of `REFERENCE_C`, with the doubt that leaves. Friction and gas stay.
    """
    known = curve.temperature is not None
    away = celsius - (curve.temperature if curve.temperature is not None else REFERENCE_C)
    if known and not away:
        return curve
    untold = 0.0 if known else UNSAID_WARMTH
    sides = {name: _side(curve.side(name), away, untold, (told or {}).get(name)) for name in DIRECTIONS}
    return replace(curve, compression=sides["compression"], rebound=sides["rebound"], temperature=celsius)


def _tabulated(side: Side) -> Side:
    """Return a side by its forces on a grid that its pieces' ends are part of."""
    if side.forces is not None:
        return side
    ends = [end for segment in side.segments for end in (segment.start, segment.end)]
    grid = np.union1d(np.union1d(side.speeds, ends), np.linspace(0.0, side.speeds[-1], _POINTS))
    grid = grid[grid <= side.speeds[-1]]
    force, low, high = side.force_and_band(grid)
    inside = grid <= side.top_speed
    low, high = (np.where(inside, limit, np.interp(grid, side.speeds, kept))
                 for limit, kept in ((low, side.low), (high, side.high)))  # fmt: skip
    total = side.total
    if total is not None:
        friction = np.interp(grid, side.speeds, total[0] - side.force(side.speeds))
        below, above = (np.interp(grid, side.speeds, np.abs(one - total[0])) for one in total[1:])
        total = (force + friction, force + friction - below, force + friction + above)
    return replace(side, speeds=grid, low=low, high=high, forces=force, total=total)


def _side(side: Side, away: float, untold: float, told: Thinning | None) -> Side:
    """Return a direction in oil warmer by `away` [K], `untold` the doubt of how warm it was [1]."""
    side = _tabulated(side)
    rate, sd = thinning_at(told, side.speeds)
    factor = np.exp(-rate * away)
    assert side.forces is not None
    force = side.forces
    share = Z95 * np.hypot(sd * away, untold) * factor * force
    down, up = np.hypot(factor * (force - side.low), share), np.hypot(factor * (side.high - force), share)
    total = side.total
    if total is not None:
        middle = total[0] + (factor - 1.0) * force
        total = (middle, middle - np.hypot(total[0] - total[1], share), middle + np.hypot(total[2] - total[0], share))

    def there(speed: float) -> float:
        return float(np.interp(speed, side.speeds, factor))

    segments = tuple(
        replace(s, start_force=there(s.start) * s.start_force, slope_in=there(s.end) * s.slope_in,
                bend=there(s.end) * s.bend)
        for s in side.segments
    )  # fmt: skip
    return replace(
        side, segments=segments, knees=tuple(replace(k, force=there(k.velocity) * k.force) for k in side.knees),
        low=np.maximum(factor * force - down, 0.0), high=factor * force + up, forces=factor * force, total=total,
    )  # fmt: skip
