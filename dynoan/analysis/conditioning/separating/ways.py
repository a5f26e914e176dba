"""One way to explain a record, settled: first on some of its rows, then weighed on all of them."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np

from dynoan.analysis.conditioning import assumptions as a
from dynoan.analysis.conditioning.forces.columns import Columns, Linear
from dynoan.analysis.conditioning.forces.state import Stage, State
from dynoan.analysis.conditioning.left_open.model_error import loss, turn_scatter, weights
from dynoan.analysis.conditioning.separating import settling_assumptions as b
from dynoan.analysis.conditioning.separating.prior import Normal
from dynoan.analysis.conditioning.separating.stepping import residuals, solved, stepped
from dynoan.model.arrays import FloatArray


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


def settled(columns: Columns, state: State, stage: Stage) -> Way:
    """Return where a start leads, rows weighed with the model's error; a step that fits worse is halved, then left."""
    linear = columns.at(state, a.TURN_SCATTER, shut=stage.shut, early=stage.early)
    _, x, rest = solved(columns, state, linear, 1.0 / columns.rows.variance, stage)
    at = stepped(columns, state, linear, x, stage)
    way = _stepped_way(columns, at, stage, _weighed(columns, linear, x, rest))
    for _ in range(b.SETTLED):
        weighing = _weighed(columns, way.linear, way.x, way.rest)
        at = stepped(columns, way.state, way.linear, way.x, stage)
        new = _stepped_way(columns, at, stage, weighing)
        if new.loss > way.loss:
            new = _stepped_way(columns, replace(at, lag=at.lag.halfway(way.state.lag)), stage, weighing)
        if new.loss > way.loss:
            return _stepped_way(columns, replace(at, lag=way.state.lag), stage, weighing)
        still = way.loss - new.loss < b.STILL * way.loss
        way = new
        if still:
            break
    return way


def _stepped_way(columns: Columns, state: State, stage: Stage, weighing: Weighting) -> Way:
    linear = columns.at(state, weighing.gain, shut=stage.shut, early=stage.early)
    problem, x, rest = solved(columns, state, linear, weighing.weight, stage)
    return Way(state, stage, linear, problem, x, rest, loss(columns.rows, rest))


def weighed_on(columns: Columns, end: Way) -> Weighting:
    """Return how the rows count for a way that has settled on some of them."""
    state = State(end.state.lag, end.x, np.maximum(end.x[: columns.size], 1e-9))
    linear = columns.at(state, a.TURN_SCATTER, shut=end.stage.shut, early=end.stage.early)
    return _weighed(columns, linear, end.x, residuals(columns, linear, end.x))


def way_on(columns: Columns, end: Way, weight: FloatArray, weighing: Weighting) -> Way:
    """Return a way on the rows it was looked at, under weights of the rows, shape (n,) [1/N²]."""
    state = State(end.state.lag, end.x, np.maximum(end.x[: columns.size], 1e-9))
    linear = weighing.linear.scattering(weighing.gain / a.TURN_SCATTER)
    problem, x, rest = solved(columns, state, linear, weight, end.stage, whole=True)
    return Way(state, end.stage, linear, problem, x, rest, loss(columns.rows, rest))
