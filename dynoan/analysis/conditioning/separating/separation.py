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
from dynoan.analysis.conditioning.forces.columns import GAS_COLUMNS, RUBBING, Columns, Linear
from dynoan.analysis.conditioning.forces.resting import NO_RESTS, Rests
from dynoan.analysis.conditioning.forces.state import ALL_LAGS, LAGS, Lag, Stage, State
from dynoan.analysis.conditioning.left_open.model_error import calm, left_over, loss, turn_scatter, weights
from dynoan.analysis.conditioning.left_open.open_end import Open
from dynoan.analysis.conditioning.left_open.structure import Unexplained, most_left
from dynoan.analysis.conditioning.left_open.untold import Untold, untold
from dynoan.analysis.conditioning.samples.rows import Rows, one_speed
from dynoan.analysis.conditioning.separating.expectations import Kind
from dynoan.analysis.conditioning.separating.prior import Normal, coefficients, normal
from dynoan.analysis.conditioning.separating.weighing import Drawn, drawn
from dynoan.model.arrays import FloatArray


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


@dataclass(frozen=True)
class Taken:
    """Where a round of steps has come to."""

    state: State
    rest: FloatArray  #: residuals [N]
    weight: FloatArray  #: for the next step [1/N²]
    loss: float


def separate(rows: Rows, *, gas_out: bool = False, rests: Rests = NO_RESTS) -> Separated:
    """Return the parts of a trace; where two ways explain it equally well, the open end holds the draws of both.

    `gas_out` says that gas force was taken out of the record before, `rests` where it stood still.
    """
    found = _apart(Columns(rows, gas_out=gas_out, rests=rests))
    if one_speed(rows) or not _left_at_low_speed(found):
        return found
    steep = _apart(Columns(rows, gas_out=gas_out, rests=rests, steep=a.STEEP_START))
    return steep if loss(steep.rows, steep.rest) < a.FAR_LESS * loss(found.rows, found.rest) else found


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
    settling = a.ENOUGH if one_speed(rows) else a.SOME_ROWS
    few, some = (whole.few(max(1, len(rows) // many)) for many in (a.FEW_ROWS, settling))
    ends = [_settled(some, state, stage) for state, stage in _starts(few)]
    weighings = [_weighed_on(whole, end) for end in ends]
    # Weights of one way would count against what another explains and this one does not.
    weight = 1.0 / np.mean([1.0 / weighing.weight for weighing in weighings], axis=0)
    ways = [_way(whole, end, weight, weighing) for end, weighing in zip(ends, weighings, strict=True)]
    ways.sort(key=lambda way: way.loss)
    return _described(whole, ways, drawn(whole, [(way.problem, way.x) for way in ways]))


def _starts(columns: Columns) -> list[tuple[State, Stage]]:
    """Return where to start from: the best of a coarse net of lags, then freed, for each way damping may begin.

    Where both ways come to the same, it is one.
    """
    rows = columns.rows
    early = Stage(ALL_LAGS, True, a.FRICTION_FIRST)
    first = _rounds(columns, State(), 1.0 / rows.variance, 2, early)
    if not columns.timed:
        stages = [Stage(ALL_LAGS, yields=yields) for yields in (False, True)]
        return [(_rounds(columns, first.state, first.weight, 2, stage).state, stage) for stage in stages]
    net = [Lag(lag, 0.0, give) for lag in a.LAG_NET for give in a.GIVE_NET if lag or give]
    ways = [first, *(_rounds(columns, replace(first.state, lag=lag), first.weight, 1, early) for lag in net)]
    ways.sort(key=lambda way: way.loss)
    freed = replace(early, shut=())
    done = [_rounds(columns, way.state, way.weight, 4, freed) for way in ways[: a.BASINS]]
    poor = min(done, key=lambda way: way.loss)
    # A bleed beside friction, and a valve that yields behind a spring, explain much the same: both are followed.
    ends = []
    for stage in (Stage(), Stage(yields=True)):
        both = [_rounds(columns, way.state, way.weight, a.TRIED, stage) for way in (poor, first)]
        better = min(both, key=lambda way: way.loss)
        ends.append((_rounds(columns, better.state, better.weight, a.FOLLOWED, stage), stage))
    (best, stage), (other, _) = ends = sorted(ends, key=lambda end: end[0].loss)
    apart = other.loss < a.TIE * best.loss and not _alike(columns, best, other, stage)
    return [(end.state, stage) for end, stage in (ends if apart else ends[:1])]


def _alike(columns: Columns, one: Taken, other: Taken, stage: Stage) -> bool:
    """Return whether two ways come to about as much friction, and to lags that make the same of force within its noise.

    `stage` is that of the first.
    """
    effects = columns.at(one.state, a.TURN_SCATTER, shut=stage.shut, early=stage.early).effects
    rub = columns.size + np.flatnonzero([effect.kind == "friction" for effect in effects])
    friction = [0.0 if end.state.x is None else float(np.sum(end.state.x[rub])) for end in (one, other)]
    late = [e.column * (getattr(one.state.lag, e.name) - getattr(other.state.lag, e.name))
            for e in effects if e.name in LAGS]  # fmt: skip
    off = np.sum(late, axis=0)
    return (
        abs(friction[0] - friction[1]) < a.RUB_ALIKE * columns.peak
        and float(np.mean((off - np.mean(off)) ** 2 / columns.rows.variance)) < a.LATE_ALIKE
    )


def _rounds(columns: Columns, state: State, weight: FloatArray, many: int, stage: Stage) -> Taken:
    """Return where so many steps lead from the best state met, outliers weighed down after each.

    Whole steps swing to and fro where give and delay look alike, and lead astray where give is large: a step that
    fits worse is halved.
    """
    best = Taken(state, np.zeros(0), weight, np.inf)
    onward = state
    for _ in range(many):
        linear = columns.at(state, a.TURN_SCATTER, shut=stage.shut, early=stage.early)
        _, x, rest = _solved(columns, state, linear, weight, stage)
        now = loss(columns.rows, rest)
        if now <= best.loss:
            weight = calm(columns.rows, rest)
            still = best.loss - now < a.STILL * now
            onward = _stepped(columns, state, linear, x, stage)
            best = Taken(replace(onward, lag=state.lag), rest, weight, now)
            if still:
                break
        else:
            onward = replace(onward, lag=onward.lag.halfway(best.state.lag))
        state = onward
    return replace(best, state=onward)


def _solved(
    columns: Columns, state: State, linear: Linear, weight: FloatArray, stage: Stage, *, whole: bool = False
) -> tuple[Normal, FloatArray, FloatArray]:
    """Return the normal equations of a linearised problem, the best coefficients and the residuals.

    The normal equations hold for what the stage expects, or for all sets of expectations where they are to be `whole`.
    """
    kind = _kind(stage)
    problem = normal(columns, linear, weight, state, None if whole else kind)
    near = None if state.x is None or len(state.x) != len(problem.load) else state.x > 0
    x = coefficients(columns, problem, kind, _exponents(stage), near)
    return problem, x, _rest(columns, linear, x)


def _rest(columns: Columns, linear: Linear, x: FloatArray) -> FloatArray:
    """Return the residuals of steps of the splines and coefficients. [N]"""
    n = columns.size
    return linear.y - linear.lines.times(np.concatenate([columns.to_weights @ x[:n], x[n:]]))


def _kind(stage: Stage) -> Kind:
    """Return what is expected while lags settle: a fluid that may yield, or a bleed."""
    return Kind(stage.friction, yields=stage.loose, early=stage.early)


def _exponents(stage: Stage) -> tuple[float, float]:
    """Return those of the slopes near zero while lags settle."""
    return (0.0, 0.0) if stage.loose else (a.BLEEDS, a.BLEEDS)


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


@dataclass(frozen=True)
class Way:
    """One way to explain a record, settled."""

    state: State
    stage: Stage
    linear: Linear
    problem: Normal
    x: FloatArray  #: steps of the splines, then coefficients
    rest: FloatArray  #: residuals [N]
    loss: float


@dataclass(frozen=True)
class Weighting:
    """How the rows count for a way to explain a record, and how much its damping scatters."""

    linear: Linear
    weight: FloatArray  #: of the rows, model error counted [1/N²]
    gain: float  #: scatter of damping from turn to turn, a share


def _weighed(columns: Columns, linear: Linear, x: FloatArray, rest: FloatArray) -> Weighting:
    rows = columns.rows
    weight = weights(rows, columns.place, rest, columns.size + a.PAID, linear.unsure)
    return Weighting(linear, weight, turn_scatter(rows, rest, _smooth(columns, linear, x)))


def _smooth(columns: Columns, linear: Linear, x: FloatArray) -> FloatArray:
    """Return the damping force of the rows. [N]"""
    n = columns.size
    amount = np.where([e.kind == "yield" for e in linear.effects], x[n:], 0.0)
    return linear.lines.times(np.concatenate([columns.to_weights @ x[:n], amount]))


def _settled(columns: Columns, state: State, stage: Stage) -> Way:
    """Return where a start leads, rows weighed with the model's error; a step that fits worse is halved, then left."""
    linear = columns.at(state, a.TURN_SCATTER, shut=stage.shut, early=stage.early)
    _, x, rest = _solved(columns, state, linear, 1.0 / columns.rows.variance, stage)
    at = _stepped(columns, state, linear, x, stage)
    way = _stepped_way(columns, at, stage, _weighed(columns, linear, x, rest))
    for _ in range(a.SETTLED):
        weighing = _weighed(columns, way.linear, way.x, way.rest)
        at = _stepped(columns, way.state, way.linear, way.x, stage)
        new = _stepped_way(columns, at, stage, weighing)
        if new.loss > way.loss:
            new = _stepped_way(columns, replace(at, lag=at.lag.halfway(way.state.lag)), stage, weighing)
        if new.loss > way.loss:
            return _stepped_way(columns, replace(at, lag=way.state.lag), stage, weighing)
        still = way.loss - new.loss < a.STILL * way.loss
        way = new
        if still:
            break
    return way


def _stepped_way(columns: Columns, state: State, stage: Stage, weighing: Weighting) -> Way:
    linear = columns.at(state, weighing.gain, shut=stage.shut, early=stage.early)
    problem, x, rest = _solved(columns, state, linear, weighing.weight, stage)
    return Way(state, stage, linear, problem, x, rest, loss(columns.rows, rest))


def _weighed_on(columns: Columns, end: Way) -> Weighting:
    """Return how the rows count for a way that has settled on some of them."""
    state = State(end.state.lag, end.x, np.maximum(end.x[: columns.size], 1e-9))
    linear = columns.at(state, a.TURN_SCATTER, shut=end.stage.shut, early=end.stage.early)
    return _weighed(columns, linear, end.x, _rest(columns, linear, end.x))


def _way(columns: Columns, end: Way, weight: FloatArray, weighing: Weighting) -> Way:
    """Return a way on the rows it was looked at, under weights of the rows, shape (n,) [1/N²]."""
    state = State(end.state.lag, end.x, np.maximum(end.x[: columns.size], 1e-9))
    linear = weighing.linear.scattering(weighing.gain / a.TURN_SCATTER)
    problem, x, rest = _solved(columns, state, linear, weight, end.stage, whole=True)
    return Way(state, end.stage, linear, problem, x, rest, loss(columns.rows, rest))


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
