"""Take a trace apart: damping that rises, and all else that may be in the force channel, by one fit with priors.

``F(t) = D(u)(1 + k w + gains) + g(x) + friction + m a + drift``, seen through a channel that is late by L with a
spread of q, u the valve's velocity behind a series spring that may soften near zero force. What a record cannot tell
stays as wide as its prior; what the model cannot explain shows as residuals that stand still over the phase of the
cycle, and counts as an error of every phase.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from dynoan.analysis.conditioning import assumptions as a
from dynoan.analysis.conditioning.forces.columns import GAS_COLUMNS, RUBBING, Columns, Linear
from dynoan.analysis.conditioning.forces.resting import NO_RESTS, Rests
from dynoan.analysis.conditioning.forces.state import LAGS, Lag
from dynoan.analysis.conditioning.left_open.low_speed_untold import Untold, untold
from dynoan.analysis.conditioning.left_open.model_error import left_over, loss
from dynoan.analysis.conditioning.left_open.open_end import Open
from dynoan.analysis.conditioning.left_open.structure import Unexplained, most_left
from dynoan.analysis.conditioning.samples.rows import Rows, one_speed
from dynoan.analysis.conditioning.separating import settling_assumptions as b
from dynoan.analysis.conditioning.separating.starting import starts
from dynoan.analysis.conditioning.separating.ways import Way, settled, way_on, weighed_on
from dynoan.analysis.conditioning.separating.weighing import Drawn, drawn
from dynoan.model.arrays import FloatArray

#: where friction slides in either direction [m/s]; numerics
TILT_AT = 0.05


@dataclass(frozen=True)
class Separated:
    """What the fit found. One entry a row of those that were recorded. SI."""

    rows: Rows
    lag: Lag
    lag_sd: Lag
    velocity: FloatArray  #: of the valve [m/s]
    damping: FloatArray  #: all else out [N]
    rest: FloatArray  #: residual [N]
    effects: dict[str, tuple[float, float]]  #: coefficient and standard deviation by name
    open: Open
    reach: float  #: half stroke, zero where displacement was not recorded [m]
    left: tuple[float, float]  #: unexplained at the same phase of every cycle, about reversal and above, rms [N]
    most: Unexplained | None  #: where most of that is
    peak: float  #: largest force about its middle [N]
    gas_draws: FloatArray  #: slope of the gas force at mid-stroke over that reach, shape (draws,) [N]
    heat_draws: FloatArray  #: more of it where gas has not given its warmth away, shape (draws,) [N]
    untold: Untold  #: of damping at low speed


def separate(rows: Rows, *, gas_out: bool = False, rests: Rests = NO_RESTS) -> Separated:
    """Return the parts of a trace; where two ways explain it equally well, the open end holds the draws of both.

    `gas_out` says that gas force was taken out of the record before, `rests` where it stood still.
    """
    found, tilts = _apart(Columns(rows, gas_out=gas_out, rests=rests)), 1.0
    if _tilts_beyond(found):
        alike = _apart(Columns(rows, gas_out=gas_out, rests=rests, tilts=a.TILT_HARDLY))
        if loss(alike.rows, alike.rest) < a.NOT_MORE * loss(found.rows, found.rest):
            found, tilts = alike, a.TILT_HARDLY
    if one_speed(rows) or not _left_at_low_speed(found):
        return found
    steep = _apart(Columns(rows, gas_out=gas_out, rests=rests, steep=a.STEEP_START, tilts=tilts))
    return steep if loss(steep.rows, steep.rest) < a.FAR_LESS * loss(found.rows, found.rest) else found


def least_loss(rows: Rows, *, gas_out: bool, rests: Rests) -> float:
    """Return about what the best way to explain a trace leaves of it, as `loss` counts it: on some rows. [1]"""
    whole = Columns(rows, gas_out=gas_out, rests=rests)
    few, some = (whole.few(max(1, len(rows) // many)) for many in (b.FEW_ROWS, b.SOME_ROWS))
    return min(settled(some, state, stage).loss for state, stage in starts(few))


def _tilts_beyond(found: Separated) -> bool:
    """Return whether friction differs between directions by more than a seal's lip makes of it."""
    rubs = found.open.friction(np.array([TILT_AT, -TILT_AT])).mean(axis=0)
    level, tilt = 0.5 * (rubs[0] - rubs[1]), 0.5 * abs(rubs[0] + rubs[1])
    return bool(tilt > max(a.TILT_MOST * level, a.TILT_SMALL))


def _left_at_low_speed(found: Separated) -> bool:
    """Return whether far more is left over at low speed than above it, and than noise makes."""
    slow = np.abs(found.rows.velocity) < a.BLEED_SPEEDS[0]
    if slow.all() or not slow.any():
        return False
    low, high = (float(np.sqrt(np.mean(found.rest[some] ** 2))) for some in (slow, ~slow))
    return low > a.LEFT_OVER * max(high, float(np.sqrt(np.mean(found.rows.variance))))


def _apart(whole: Columns) -> Separated:
    rows = whole.rows
    if not rows.count.all():
        whole = whole.some(np.flatnonzero(rows.count))
        rows = whole.rows
    # Of one speed alone every row counts: lag, gas and friction look so alike there that a few rows settle elsewhere.
    settling = a.ENOUGH if one_speed(rows) else b.SOME_ROWS
    few, some = (whole.few(max(1, len(rows) // many)) for many in (b.FEW_ROWS, settling))
    ends = [settled(some, state, stage) for state, stage in starts(few)]
    weighings = [weighed_on(whole, end) for end in ends]
    # Weights of one way would count against what another explains and this one does not.
    weight = 1.0 / np.mean([1.0 / weighing.weight for weighing in weighings], axis=0)
    ways = [way_on(whole, end, weight, weighing) for end, weighing in zip(ends, weighings, strict=True)]
    ways.sort(key=lambda way: way.loss)
    return _described(whole, ways, drawn(whole, [(way.problem, way.x) for way in ways], ways[0].state.lag.give))


def _described(columns: Columns, ways: list[Way], all_: Drawn) -> Separated:
    """Return what draws of the coefficients mean, rows taken apart as the first of the ways has them."""
    linear, found = ways[0].linear, all_.draws
    n, names = columns.size, [e.name for e in linear.effects]
    mean, sd = found.mean(axis=0), found.std(axis=0)
    yields = [n + i for i, e in enumerate(linear.effects) if e.kind == "yield"]
    gas = [n + i for i, name in enumerate(names) if name in GAS_COLUMNS]
    heat = found[:, [n + i for i, e in enumerate(linear.effects) if e.kind == "heat"]].sum(axis=1)
    open_ = _open(columns, linear, found)
    smooth = linear.lines.curve(columns.to_weights @ mean[:n])[0]
    smooth = smooth + mean[yields] @ linear.lines.effects[[i - n for i in yields]]
    rest = linear.y - linear.lines.times(np.concatenate([columns.to_weights @ mean[:n], mean[n:]]))
    got = {name: (float(m), float(d)) for name, m, d in zip(names, mean[n:], sd[n:], strict=True)}
    nothing = np.zeros(len(found))
    # By time and by work look much alike, each by itself open; their sum is what happened from start to end.
    grown = {"fade by time": -1.0, "fade by work": -1.0, "growth": 1.0}
    fade = found[:, n:] @ np.array([grown.get(name, 0.0) for name in names])
    got["fade"] = (float(fade.mean()), float(fade.std()))
    late, early = (found[:, n + names.index(k)] if k in names else nothing for k in ("lag", "early"))
    pairs = [got.get(k, (0.0, 0.0)) for k in LAGS[1:]]
    return Separated(
        columns.rows,
        Lag(float(np.mean(late - early)), *(p[0] for p in pairs)),
        Lag(float(np.std(late - early)), *(p[1] for p in pairs)),
        linear.velocity, smooth + rest, rest, got, open_, columns.reach, left_over(columns.rows, rest),
        most_left(columns.rows, rest), columns.peak, found[:, gas].sum(axis=1), heat,
        untold(open_, [_open(columns, linear, one[None]) for one in all_.middles], columns.rows, all_.either),
    )  # fmt: skip


def _open(columns: Columns, linear: Linear, found: FloatArray) -> Open:
    """Return draws of the coefficients as damping and friction."""
    n = columns.size
    laws = [n + i for i, e in enumerate(linear.effects) if e.kind in RUBBING]
    yields = [n + i for i, e in enumerate(linear.effects) if e.kind == "yield"]
    names = tuple(linear.effects[i - n].name for i in laws)
    return Open(columns.edges, found[:, :n] @ columns.to_weights.T, names, found[:, laws], found[:, yields])
