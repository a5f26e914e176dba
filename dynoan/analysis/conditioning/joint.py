"""Take a trace apart by one least-squares fit: damping, gas and zero, friction, delay, compliance, drift.

``F(t+τ) = D(v − c·Ḋ) + g0 + g1·x + g2·x² + F_f·tanh(v/v0)``, times ``1 + k·(T − T̄)`` on D, where D is a free smooth
curve of each direction (quadratic B-splines, zero at zero), so that nothing is assumed about its shape. Delay τ and
series compliance c enter linearised and are iterated (Gauss-Newton).
"""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from dynoan.analysis.conditioning.assumptions import (
    BOUND,
    COLLINEAR,
    ENOUGH,
    FEWEST,
    HUBER_FIT,
    LEAST_COMPLIANCE,
    LONGEST_STEP,
    MOST_COMPLIANCE,
    MOST_DELAY,
    OUT,
    TURNING,
)
from dynoan.analysis.conditioning.rows import Rows
from dynoan.analysis.conditioning.splines import Design, design, edges_for
from dynoan.analysis.conditioning.trace_model import Terms, TraceModel, corrected, gas_bend, static, valve_force_rate
from dynoan.analysis.statistics import robust_scale
from dynoan.model.arrays import BoolArray, FloatArray, IntArray


def take_apart(rows: Rows, terms: Terms, start: TraceModel | None = None) -> TraceModel:
    """Return the model of a trace by iterated least squares.

    Parameters
    ----------
    rows
        Of one record.
    terms
        Which effects to fit; the others are zero.
    start
        Values to start from.
    """
    first = start or TraceModel(terms, middle=middle(rows), reference_temperature=reference_temperature(rows))
    weight = 1.0 / rows.variance
    model = replace(first, terms=terms, turning=first.turning if start else TURNING[0])
    for i in range(9):
        before = model.cost
        model, weight = _round(rows, model, weight)
        if i > 1 and abs(model.cost - before) < 1e-3 * before:
            break
    if terms.friction and start is None:
        model = _turned(rows, model, weight)
    return _solve(rows, model, weight, judge=True)[0]


def _turned(rows: Rows, model: TraceModel, weight: FloatArray) -> TraceModel:
    """Return the model with the speed over which friction turns around that fits best.

    What the others that fit about as well would have taken for friction is kept as a doubt.
    """
    tried = [_solve(rows, model, weight)[0]]
    for way in (TURNING[1:3], TURNING[3:]):
        for turning in way:
            tried.append(_solve(rows, replace(tried[0], turning=turning), weight)[0])
            if _worse(tried, tried[-1], len(rows)) > OUT:
                break
    best = min(tried, key=lambda other: other.cost)
    likely = np.exp([-0.5 * _worse(tried, other, len(rows)) for other in tried])
    apart = np.array([other.friction - best.friction for other in tried])
    return replace(best, bias=float(np.sqrt(np.sum(likely * apart**2) / np.sum(likely))))


def _worse(tried: list[TraceModel], other: TraceModel, n: int) -> float:
    """Return by how much χ² of one fit is above the least. [1]"""
    least = min(one.cost for one in tried)
    return n * (other.cost / least - 1)


def with_terms(rows: Rows, model: TraceModel, terms: Terms) -> TraceModel:
    """Return the model after one step with other linear effects (gas slope and gas_curvature, friction, drift)."""
    return _solve(rows, replace(model, terms=terms), weights(rows, model), judge=True)[0]


def weights(rows: Rows, model: TraceModel) -> FloatArray:
    """Return the weights of the rows: one over the variance, less for outliers (Huber). [1/N²]"""
    velocity, force, _ = corrected(rows, model)
    return _huber(rows, force - static(rows, model) - model.damping(velocity)[0])


def enough(rows: Rows) -> Rows:
    """Return the rows themselves, or those of evenly spread cycles, at least one of each block."""
    every = -(-len(rows) // ENOUGH)
    if every == 1:
        return rows
    first = np.flatnonzero(np.diff(rows.block, prepend=-1))
    within = rows.cycle - rows.cycle[first][np.searchsorted(first, np.arange(len(rows)), side="right") - 1]
    return rows.take(np.asarray(within % every == 0))


def _round(rows: Rows, model: TraceModel, weight: FloatArray) -> tuple[TraceModel, FloatArray]:
    """Return the model after one more step, and the weights for the next."""
    found, rest = _solve(rows, model, weight)
    return found, _huber(rows, rest)


def _huber(rows: Rows, rest: FloatArray) -> FloatArray:
    off = np.abs(rest) / np.sqrt(rows.variance)
    scale = max(robust_scale(off), 1e-9)
    # A spike in the load cell must not bend the curve.
    return np.minimum(1.0, HUBER_FIT * scale / np.maximum(off, 1e-12)) / rows.variance


def middle(rows: Rows) -> float:
    """Return mid-stroke. [m]"""
    x = rows.displacement
    return 0.0 if x is None else 0.5 * float(np.min(x) + np.max(x))


def reference_temperature(rows: Rows) -> float:
    """Return the temperature that forces are taken to, NaN where none was recorded. [°C]"""
    return float("nan") if rows.temperature is None else float(np.median(rows.temperature))


def _effects(rows: Rows, model: TraceModel, splines: Design, force_rate: FloatArray) -> dict[str, FloatArray]:
    """Return the columns of the effects beside the splines, by name."""
    terms = model.terms
    columns: dict[str, FloatArray] = {"offset": np.ones(len(rows))}
    if rows.displacement is not None:
        z = rows.displacement - model.middle
        bend = gas_bend(z, model.column)
        columns |= {
            name: column
            for name, column, on in (("slope", z, terms.slope), ("gas_curvature", bend, terms.gas_curvature))
            if on
        }
    if terms.friction:
        columns["friction"] = np.tanh(rows.velocity / model.turning)
    if model.spline is None:
        return columns
    smooth, steep = splines.curve(np.concatenate(model.spline[1::2]))
    if terms.delay:
        columns["delay"] = -force_rate
    if terms.compliance:
        columns["compliance"] = -steep * valve_force_rate(rows, model, force_rate)
    if terms.drift and rows.temperature is not None:
        columns["drift"] = (rows.temperature - model.reference_temperature) * smooth
    return columns


def _solve(rows: Rows, model: TraceModel, weight: FloatArray, *, judge: bool = False) -> tuple[TraceModel, FloatArray]:
    """Return the model after one step, and the residuals; with the errors of the model if it is to `judge` them."""
    velocity, force, force_rate = corrected(rows, model)
    # Compliance moves the speeds by little: the edges stay where the first step put them.
    edges = _edges(velocity) if model.spline is None else (model.spline[0], model.spline[2])
    splines = design(velocity, edges)
    columns = _effects(rows, model, splines, force_rate)
    lines = replace(splines, effects=np.array(list(columns.values())))
    gram, load = lines.normal(force, weight)
    scale = np.sqrt(np.diag(gram)) + 1e-12
    inverse = np.linalg.inv(gram / np.outer(scale, scale) + 1e-11 * np.eye(len(scale)))
    open_ = np.diag(inverse) > COLLINEAR
    inverse = inverse / np.outer(scale, scale)
    found = inverse @ load
    rest = force - lines.times(found)
    n_c = len(edges[0])
    stepped = replace(
        _stepped(model, dict(zip(columns, found[lines.size :], strict=True))),
        spline=(edges[0], found[:n_c], edges[1], found[n_c : lines.size]),
        cost=float(np.sum(weight * rest**2)), loss=float(np.mean(np.minimum(rest**2 / rows.variance, BOUND**2))),
        noise=float(np.sqrt(np.mean(rest**2))),
    )  # fmt: skip
    return (_judged(stepped, lines.scores(weight * rest, clusters(rows)), list(columns), inverse, open_) if judge
            else stepped), rest  # fmt: skip


def _judged(
    model: TraceModel, scores: FloatArray, names: list[str], inverse: FloatArray, open_: BoolArray
) -> TraceModel:
    """Return the model with its errors: sandwich variance over clusters, shape of `scores` (clusters, parameters)."""
    g, first = len(scores), inverse.shape[0] - len(names)
    variance = np.diag(inverse @ (scores.T @ scores) @ inverse) * (g / max(g - 1, 1))
    sd = np.where(open_, np.inf, np.sqrt(np.maximum(variance, 0.0)))[first:]
    return replace(
        model, sd={name: float(one) for name, one in zip(names, sd, strict=True)},
        correlation=_correlation(names, inverse[first:, first:]),
        influence=_influence(names, scores @ inverse[:, first:]),
    )  # fmt: skip


def _edges(velocity: FloatArray) -> tuple[FloatArray, FloatArray]:
    return edges_for(velocity[velocity > 0]), edges_for(-velocity[velocity < 0])


def _influence(names: list[str], influence: FloatArray) -> FloatArray:
    """Return by how much each cluster pulled offset and friction, shape (clusters, 2). [N]"""
    zero = np.zeros(len(influence))
    return np.column_stack([influence[:, names.index(n)] if n in names else zero for n in ("offset", "friction")])


def _correlation(names: list[str], inverse: FloatArray) -> float:
    """Return how closely the errors of delay and compliance hang together, from -1 to 1."""
    if "delay" not in names or "compliance" not in names:
        return 0.0
    i, j = names.index("delay"), names.index("compliance")
    return float(inverse[i, j] / np.sqrt(inverse[i, i] * inverse[j, j]))


def _stepped(model: TraceModel, effects: dict[str, float]) -> TraceModel:
    """Return the model after one Gauss-Newton step: delay and compliance are steps, the others values."""
    # Steps are held short: linearised, they overshoot where the curve is steep.
    later = float(np.clip(effects.get("delay", 0.0), -LONGEST_STEP.delay, LONGEST_STEP.delay))
    softer = float(np.clip(effects.get("compliance", 0.0), -LONGEST_STEP.compliance, LONGEST_STEP.compliance))
    return replace(
        model,
        offset=effects.get("offset", model.offset), slope=effects.get("slope", model.slope),
        gas_curvature=effects.get("gas_curvature", model.gas_curvature),
        friction=effects.get("friction", model.friction), drift=effects.get("drift", model.drift),
        delay=float(np.clip(model.delay + later, -MOST_DELAY, MOST_DELAY)),
        compliance=float(np.clip(model.compliance + softer, LEAST_COMPLIANCE, MOST_COMPLIANCE)),
    )  # fmt: skip


def clusters(rows: Rows) -> IntArray:
    """Return numbers from 0 of rows that err together: whole cycles, or half cycles or twelfths where those are few."""
    turn = np.diff(np.signbit(rows.velocity), prepend=np.signbit(rows.velocity[:1])) | (
        np.diff(rows.span, prepend=0) != 0
    )
    twelfths = np.arange(len(rows)) * FEWEST * 3 // (2 * len(rows))
    for group in (np.cumsum(np.diff(rows.cycle, prepend=rows.cycle[0]) != 0), np.cumsum(turn), twelfths):
        if group[-1] + 1 >= FEWEST:
            break
    return np.asarray(group - group[0])
