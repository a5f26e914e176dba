"""Steps of one way to explain a record, linearised about where the last one led."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np

from dynoan.analysis.conditioning import assumptions as a
from dynoan.analysis.conditioning.forces.columns import Columns, Linear
from dynoan.analysis.conditioning.forces.state import LAGS, Lag, Stage, State
from dynoan.analysis.conditioning.left_open.model_error import calm, loss
from dynoan.analysis.conditioning.separating import settling_assumptions as b
from dynoan.analysis.conditioning.separating.expectations import Kind
from dynoan.analysis.conditioning.separating.prior import Normal, coefficients, normal
from dynoan.model.arrays import FloatArray


@dataclass(frozen=True)
class Taken:
    """Where a round of steps has come to."""

    state: State
    rest: FloatArray  #: residuals [N]
    weight: FloatArray  #: for the next step [1/N²]
    loss: float


def rounds(
    columns: Columns, state: State, weight: FloatArray, many: int, stage: Stage, near: FloatArray | None = None,
    known: Linear | None = None,
) -> Taken:  # fmt: skip
    """Return where so many steps lead from the best state met, outliers weighed down after each.

    Whole steps swing to and fro where give and delay look alike, and lead astray where give is large: a step that
    fits worse is halved. The coefficients of the first may be like those `near`, where others than the state's are;
    `known` is its problem, where that is linearised already.
    """
    best = Taken(state, np.zeros(0), weight, np.inf)
    onward = state
    for _ in range(many):
        linear = known or columns.at(state, a.TURN_SCATTER, shut=stage.shut, early=stage.early)
        _, x, rest = solved(columns, state, linear, weight, stage, near=near)
        now, near, known = loss(columns.rows, rest), None, None
        if now <= best.loss:
            weight = calm(columns.rows, rest)
            still = best.loss - now < b.STILL * now
            onward = stepped(columns, state, linear, x, stage)
            best = Taken(replace(onward, lag=state.lag), rest, weight, now)
            if still:
                break
        else:
            onward = replace(onward, lag=onward.lag.halfway(best.state.lag))
        state = onward
    return replace(best, state=onward)


def solved(
    columns: Columns, state: State, linear: Linear, weight: FloatArray, stage: Stage, *, whole: bool = False,
    near: FloatArray | None = None,
) -> tuple[Normal, FloatArray, FloatArray]:  # fmt: skip
    """Return the normal equations of a linearised problem, the best coefficients and the residuals. [N]

    The normal equations hold for what the stage expects, or for all sets of expectations where they are to be `whole`.
    The search begins from what is not zero `near` the coefficients, in the state where nothing is given.
    """
    kind = _kind(stage, columns.larger)
    problem = normal(columns, linear, weight, state, None if whole else kind)
    known = state.x if near is None else near
    start = np.ones(len(problem.load), dtype=bool)
    if known is not None:  # effects that a step has beyond those of another stand at the end
        both = min(len(known), len(start))
        start[:both] = known[:both] > 0
    x = coefficients(columns, problem, kind, _exponents(stage), start)
    return problem, x, residuals(columns, linear, x)


def residuals(columns: Columns, linear: Linear, x: FloatArray) -> FloatArray:
    """Return the residuals of steps of the splines and coefficients. [N]"""
    n = columns.size
    return linear.y - linear.lines.times(np.concatenate([columns.to_weights @ x[:n], x[n:]]))


def _kind(stage: Stage, larger: float) -> Kind:
    """Return what is expected while lags settle: a fluid that may yield, or a bleed."""
    return Kind(larger * stage.friction, larger * a.USUAL_FRICTION, yields=stage.loose, early=stage.early)


def _exponents(stage: Stage) -> tuple[float, float]:
    """Return those of the slopes near zero while lags settle."""
    return (0.0, 0.0) if stage.loose else (b.BLEEDS, b.BLEEDS)


def stepped(columns: Columns, state: State, linear: Linear, x: FloatArray, stage: Stage) -> State:
    """Return the state after a step, lags moved no further than their linearisation is good for."""
    found = {e.name: float(c) for e, c in zip(linear.effects, x[columns.size :], strict=True)}
    found["lag"] = found.get("lag", 0.0) - found.get("early", 0.0)
    moved = {}
    for name in LAGS:
        was = float(getattr(state.lag, name))
        step = float(getattr(b.LONGEST_STEP, name))
        moved[name] = was if name in stage.shut else float(np.clip(found.get(name, 0.0), was - step, was + step))
    return State(Lag(**moved), x, np.maximum(x[: columns.size], 1e-9))
