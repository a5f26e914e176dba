"""Take a trace apart: damping that rises, and all else that may be in the force channel, by one fit with priors.

``F(t) = D(u)(1 + k w + gains) + g(x) + friction + m a + drift``, seen through a channel that is late by L with a
spread of q, u the valve's velocity behind a series spring that may soften near zero force. What a record cannot tell
stays as wide as its prior; what the model cannot explain shows as residuals that stand still over the phase of the
cycle, and counts as an error of every phase.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np

from dynoan.analysis.conditioning import assumptions as a
from dynoan.analysis.conditioning.columns import Columns, Linear
from dynoan.analysis.conditioning.model_error import calm, loss, phases, turn_scatter, weights
from dynoan.analysis.conditioning.open_end import Open
from dynoan.analysis.conditioning.posterior import draws
from dynoan.analysis.conditioning.prior import Kind, Normal, normal, posterior
from dynoan.analysis.conditioning.rows import Rows
from dynoan.analysis.conditioning.state import ALL_LAGS, LAGS, Lag, Stage, State
from dynoan.model.arrays import FloatArray


@dataclass(frozen=True)
class Separated:
    """What the fit found. One entry a row. SI."""

    lag: Lag
    lag_sd: Lag
    velocity: FloatArray  #: of the valve [m/s]
    damping: FloatArray  #: all else out [N]
    rest: FloatArray  #: residual [N]
    effects: dict[str, tuple[float, float]]  #: coefficient and standard deviation by name
    open: Open
    reach: float  #: half stroke, zero where displacement was not recorded [m]
    gas_draws: FloatArray  #: slope of the gas force at mid-stroke over that reach, shape (draws,) [N]


@dataclass(frozen=True)
class Taken:
    """Where a round of steps has come to."""

    state: State
    rest: FloatArray  #: residuals [N]
    weight: FloatArray  #: for the next step [1/N²]
    loss: float


def separate(rows: Rows) -> Separated:
    """Return the parts of a trace; where two ways explain it equally well, the open end holds the draws of both."""
    whole = Columns(rows)
    every = max(1, len(rows) // a.FEW_ROWS)
    few = rows.take(np.arange(0, len(rows), every))
    few = replace(few, window=few.window / every)
    found = [_finished(whole, state) for state in _starts(Columns(few, whole.edges))]
    return found[0] if len(found) == 1 else replace(found[0], open=found[0].open.beside(found[1].open))


def _starts(columns: Columns) -> list[State]:
    """Return where to start from, the likeliest first: the best of a coarse net of lags, then freed."""
    rows = columns.rows
    early = Stage(ALL_LAGS, True, a.FRICTION_FIRST)
    first = _rounds(columns, State(), 1.0 / rows.variance, 2, early)
    if not columns.timed:
        return [_rounds(columns, first.state, first.weight, 2, Stage(ALL_LAGS)).state]
    net = [Lag(lag, 0.0, give) for lag in a.LAG_NET for give in a.GIVE_NET if lag or give]
    ways = [first, *(_rounds(columns, replace(first.state, lag=lag), first.weight, 1, early) for lag in net)]
    ways.sort(key=lambda way: way.loss)
    freed = replace(early, shut=())
    done = [_rounds(columns, way.state, way.weight, 4, freed) for way in ways[: a.BASINS]]
    poor = min(done, key=lambda way: way.loss)
    # Friction that turns around over travel and a yielding valve behind a spring look alike: both are followed.
    ends = [_rounds(columns, way.state, way.weight, a.FOLLOWED, Stage()) for way in (poor, first)]
    ends.sort(key=lambda way: way.loss)
    alike = ends[1].loss > a.TIE * ends[0].loss or not ends[0].state.lag.differs(ends[1].state.lag)
    return [ends[0].state] if alike else [end.state for end in ends]


def _rounds(columns: Columns, state: State, weight: FloatArray, many: int, stage: Stage) -> Taken:
    """Return where so many steps lead, outliers weighed down after each."""
    rest = np.zeros(0)
    for _ in range(many):
        linear, _, x, rest = _solved(columns, state, weight, stage, a.TURN_SCATTER)
        state = _stepped(columns, state, linear, x, stage)
        weight = calm(columns.rows, rest)
    return Taken(state, rest, weight, loss(columns.rows, rest))


def _solved(
    columns: Columns, state: State, weight: FloatArray, stage: Stage, gain: float
) -> tuple[Linear, Normal, FloatArray, FloatArray]:
    """Return the linearised problem, its normal equations, the best coefficients and the residuals."""
    linear = columns.at(state, gain, shut=stage.shut, early=stage.early)
    problem = normal(columns, linear, weight, state.steps)
    x = posterior(columns, problem, Kind(friction=stage.friction, early=stage.early)).x
    return linear, problem, x, linear.y - linear.lines.times(problem.turn @ x)


def _stepped(columns: Columns, state: State, linear: Linear, x: FloatArray, stage: Stage) -> State:
    """Return the state after a step, lags moved no further than their linearisation is good for."""
    found = {e.name: float(c) for e, c in zip(linear.effects, x[columns.size :], strict=True)}
    found["lag"] = found.get("lag", 0.0) - found.get("early", 0.0)
    moved = {}
    for name in LAGS:
        was = float(getattr(state.lag, name))
        step = float(getattr(a.LONGEST_STEP, name))
        moved[name] = was if name in stage.shut else float(np.clip(found.get(name, 0.0), was - step, was + step))
    return State(Lag(**moved), x, np.maximum(x[: columns.size], 1e-9))


def _finished(columns: Columns, state: State) -> Separated:
    """Return what is found from a start on, rows weighed with the model's error."""
    rows, place = columns.rows, phases(columns.rows)
    stage = Stage() if columns.timed else Stage(ALL_LAGS)
    taken = _rounds(columns, state, 1.0 / rows.variance, 1, stage)
    state, rest = taken.state, taken.rest
    last = None
    for _ in range(3):
        if last is not None:
            state = _stepped(columns, state, last[0], last[2], stage)
        weight = weights(rows, place, rest, columns.size + a.PAID)
        last = _solved(columns, state, weight, stage, turn_scatter(rows, rest, _smooth(columns, state)))
        rest = last[3]
    assert last is not None
    return _described(columns, last[0], _drawn(columns, last[1]))


def _smooth(columns: Columns, state: State) -> FloatArray:
    """Return the damping force of the rows at a state. [N]"""
    linear = columns.at(state, a.TURN_SCATTER, shut=ALL_LAGS, early=False)
    assert state.x is not None
    keep = np.array([e.kind == "yield" for e in linear.effects])
    amount = np.where(keep, np.resize(state.x[columns.size :], len(keep)), 0.0)
    assert state.steps is not None
    return linear.lines.times(np.concatenate([columns.to_weights @ state.steps, amount]))


def _drawn(columns: Columns, problem: Normal) -> FloatArray:
    """Return draws of the coefficients, under each set of expectations as often as it is likely, shape (draws, p)."""
    kinds = [
        Kind(0.0 if start == a.YIELDS else start, friction, start == a.YIELDS)
        for friction in a.FRICTION_TOTALS for start in a.STARTS
    ]  # fmt: skip
    ways = [posterior(columns, problem, kind) for kind in kinds]
    score = np.log(np.outer(a.FRICTION_PRIOR, a.STARTS_PRIOR).ravel()) + np.array([way.evidence for way in ways])
    chance = np.exp(a.TEMPER * (score - score.max()))
    shares = np.diff(np.floor(np.cumsum(chance / chance.sum()) * a.DRAWS + 0.5).astype(int), prepend=0)
    rng = np.random.default_rng(1)
    return np.concatenate([
        draws(way.gram, way.load, problem.held, rng.standard_normal((many, len(way.load)))) / way.size
        for way, many in zip(ways, shares, strict=True) if many
    ])  # fmt: skip


def _described(columns: Columns, linear: Linear, found: FloatArray) -> Separated:
    """Return what draws of the coefficients mean."""
    n, names = columns.size, [e.name for e in linear.effects]
    mean, sd = found.mean(axis=0), found.std(axis=0)
    laws = [n + i for i, e in enumerate(linear.effects) if e.kind in ("friction", "breakaway")]
    yields = [n + i for i, e in enumerate(linear.effects) if e.kind == "yield"]
    gas = [n + i for i, name in enumerate(names) if name.startswith("gas ") and name != "gas bend"]
    weights_ = found[:, :n] @ columns.to_weights.T
    open_ = Open(columns.edges, weights_, tuple(names[i - n] for i in laws), found[:, laws], found[:, yields])
    smooth = linear.lines.curve(columns.to_weights @ mean[:n])[0]
    smooth = smooth + mean[yields] @ linear.lines.effects[[i - n for i in yields]]
    rest = linear.y - linear.lines.times(np.concatenate([columns.to_weights @ mean[:n], mean[n:]]))
    got = {name: (float(m), float(d)) for name, m, d in zip(names, mean[n:], sd[n:], strict=True)}
    nothing = np.zeros(len(found))
    late, early = (found[:, n + names.index(k)] if k in names else nothing for k in ("lag", "early"))
    pairs = [got.get(k, (0.0, 0.0)) for k in LAGS[1:]]
    return Separated(
        Lag(float(np.mean(late - early)), *(p[0] for p in pairs)),
        Lag(float(np.std(late - early)), *(p[1] for p in pairs)),
        linear.velocity, smooth + rest, rest, got, open_, columns.reach, found[:, gas].sum(axis=1),
    )  # fmt: skip
