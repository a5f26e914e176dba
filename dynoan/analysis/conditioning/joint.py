"""Take a trace apart by one least-squares fit: damping, gas and zero, friction, delay, compliance, drift.

``F(t+τ) = D(v − c·Ḋ) + g0 + g1·x + g2·x² + F_f·tanh(v/v0)``, times ``1 + k·(T − T̄)`` on D, where D is a free smooth
curve of each direction (quadratic B-splines, zero at zero), so that nothing is assumed about its shape. Delay τ and
series compliance c enter linearised and are iterated (Gauss-Newton).
"""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from dynoan.analysis.conditioning.rows import Rows
from dynoan.analysis.conditioning.splines import Design, design, edges_for
from dynoan.analysis.conditioning.trace_model import Parts, Terms, corrected, gas_bend, static, valve_rise
from dynoan.model.arrays import FloatArray, IntArray

#: speeds over which friction turns around, tried in turn [m/s]
TURNING = (0.002, 0.001, 0.0005, 0.004)
#: χ² above the least from which a speed is out of the question
OUT = 12.0
MOST_DELAY = 0.01  #: [s]
#: rows the joint fit works on; the estimates change no more beyond that
ENOUGH = 25_000

#: clusters to judge scatter by
FEWEST = 8
#: an effect that the others make up to one part in this cannot be told from them (one speed: x² is a function of v)
COLLINEAR = 1e4


def take_apart(rows: Rows, terms: Terms, start: Parts | None = None) -> Parts:
    """Return the parts of a trace by iterated least squares.

    Parameters
    ----------
    rows
        Of one record.
    terms
        Which effects to fit; the others are zero.
    start
        Values to start from.
    """
    first = start or Parts(terms, middle=middle(rows), warm=warm(rows))
    weight = 1.0 / rows.variance
    parts = replace(first, terms=terms, turning=first.turning if start else TURNING[0])
    for i in range(9):
        before = parts.cost
        parts, weight = _round(rows, parts, weight)
        if i > 1 and abs(parts.cost - before) < 1e-3 * before:
            break
    if terms.friction and start is None:
        parts = _turned(rows, parts, weight)
    return _solve(rows, parts, weight, judge=True)[0]


def _turned(rows: Rows, parts: Parts, weight: FloatArray) -> Parts:
    """Return the parts with the speed over which friction turns around that fits best.

    What the others that fit about as well would have taken for friction is kept as a doubt.
    """
    tried = [_solve(rows, parts, weight)[0]]
    for way in (TURNING[1:3], TURNING[3:]):
        for turning in way:
            tried.append(_solve(rows, replace(tried[0], turning=turning), weight)[0])
            if _worse(tried, tried[-1], len(rows)) > OUT:
                break
    best = min(tried, key=lambda other: other.cost)
    likely = np.exp([-0.5 * _worse(tried, other, len(rows)) for other in tried])
    apart = np.array([other.friction - best.friction for other in tried])
    return replace(best, missed=float(np.sqrt(np.sum(likely * apart**2) / np.sum(likely))))


def _worse(tried: list[Parts], other: Parts, n: int) -> float:
    """Return by how much χ² of one fit is above the least. [1]"""
    least = min(one.cost for one in tried)
    return n * (other.cost / least - 1)


def with_terms(rows: Rows, parts: Parts, terms: Terms) -> Parts:
    """Return the parts after one step with other linear effects (gas slope and bow, friction, drift)."""
    return _solve(rows, replace(parts, terms=terms), weights(rows, parts), judge=True)[0]


def weights(rows: Rows, parts: Parts) -> FloatArray:
    """Return the weights of the rows: one over the variance, less for outliers (Huber). [1/N²]"""
    velocity, force, _ = corrected(rows, parts)
    return _huber(rows, force - static(rows, parts) - parts.damping(velocity)[0])


def enough(rows: Rows) -> Rows:
    """Return the rows themselves, or those of evenly spread cycles, at least one of each block."""
    every = -(-len(rows) // ENOUGH)
    if every == 1:
        return rows
    first = np.flatnonzero(np.diff(rows.block, prepend=-1))
    within = rows.cycle - rows.cycle[first][np.searchsorted(first, np.arange(len(rows)), side="right") - 1]
    return rows.take(np.asarray(within % every == 0))


def _round(rows: Rows, parts: Parts, weight: FloatArray) -> tuple[Parts, FloatArray]:
    """Return the parts after one more step, and the weights for the next."""
    found, rest = _solve(rows, parts, weight)
    return found, _huber(rows, rest)


def _huber(rows: Rows, rest: FloatArray) -> FloatArray:
    off = np.abs(rest) / np.sqrt(rows.variance)
    scale = max(float(np.median(off)) / 0.6745, 1e-9)
    # A spike in the load cell must not bend the curve.
    return np.minimum(1.0, 2.5 * scale / np.maximum(off, 1e-12)) / rows.variance


def middle(rows: Rows) -> float:
    """Return mid-stroke. [m]"""
    x = rows.displacement
    return 0.0 if x is None else 0.5 * float(np.min(x) + np.max(x))


def warm(rows: Rows) -> float:
    """Return the temperature that forces are taken to, NaN where none was recorded. [°C]"""
    return float("nan") if rows.temperature is None else float(np.median(rows.temperature))


def _effects(rows: Rows, parts: Parts, splines: Design, rise: FloatArray) -> dict[str, FloatArray]:
    """Return the columns of the effects beside the splines, by name."""
    terms = parts.terms
    columns: dict[str, FloatArray] = {"offset": np.ones(len(rows))}
    if rows.displacement is not None:
        z = rows.displacement - parts.middle
        bend = gas_bend(z, parts.column)
        columns |= {name: column for name, column, on in (("slope", z, terms.slope), ("bow", bend, terms.bow)) if on}
    if terms.friction:
        columns["friction"] = np.tanh(rows.velocity / parts.turning)
    if parts.spline is None:
        return columns
    smooth, steep = splines.curve(np.concatenate(parts.spline[1::2]))
    if terms.delay:
        columns["delay"] = -rise
    if terms.compliance:
        columns["compliance"] = -steep * valve_rise(rows, parts, rise)
    if terms.drift and rows.temperature is not None:
        columns["drift"] = (rows.temperature - parts.warm) * smooth
    return columns


def _solve(rows: Rows, parts: Parts, weight: FloatArray, *, judge: bool = False) -> tuple[Parts, FloatArray]:
    """Return the parts after one step, and the residuals; with the errors of the parts if it is to `judge` them."""
    velocity, force, rise = corrected(rows, parts)
    # Compliance moves the speeds by little: the edges stay where the first step put them.
    edges = _edges(velocity) if parts.spline is None else (parts.spline[0], parts.spline[2])
    splines = design(velocity, edges)
    columns = _effects(rows, parts, splines, rise)
    lines = replace(splines, effects=np.array(list(columns.values())))
    gram, load = lines.normal(force, weight)
    scale = np.sqrt(np.diag(gram)) + 1e-12
    inverse = np.linalg.inv(gram / np.outer(scale, scale) + 1e-11 * np.eye(len(scale)))
    open_ = np.diag(inverse) > COLLINEAR
    inverse = inverse / np.outer(scale, scale)
    found = inverse @ load
    rest = force - lines.times(found)
    n_c = len(edges[0])
    new = {
        "spline": (edges[0], found[:n_c], edges[1], found[n_c : lines.size]),
        "cost": float(np.sum(weight * rest**2)), "loss": float(np.mean(np.minimum(rest**2 / rows.variance, 9.0))),
        "noise": float(np.sqrt(np.mean(rest**2))),
    }  # fmt: skip
    if judge:
        scores = lines.scores(weight * rest, clusters(rows))
        g = len(scores)
        variance = np.diag(inverse @ (scores.T @ scores) @ inverse) * (g / max(g - 1, 1))
        sd = np.where(open_, np.inf, np.sqrt(np.maximum(variance, 0.0)))[lines.size :]
        new |= {
            "tie": _tie(list(columns), inverse[lines.size :, lines.size :]), "sd": dict(zip(columns, sd, strict=True)),
            "pulls": _pulls(list(columns), scores @ inverse[:, lines.size :]),
        }  # fmt: skip
    return _stepped(parts, dict(zip(columns, found[lines.size :], strict=True)), new), rest


def _edges(velocity: FloatArray) -> tuple[FloatArray, FloatArray]:
    return edges_for(velocity[velocity > 0]), edges_for(-velocity[velocity < 0])


def _pulls(names: list[str], influence: FloatArray) -> FloatArray:
    """Return by how much each cluster pulled offset and friction, shape (clusters, 2). [N]"""
    zero = np.zeros(len(influence))
    return np.column_stack([influence[:, names.index(n)] if n in names else zero for n in ("offset", "friction")])


def _tie(names: list[str], inverse: FloatArray) -> float:
    """Return how closely the errors of delay and compliance hang together, from -1 to 1."""
    if "delay" not in names or "compliance" not in names:
        return 0.0
    i, j = names.index("delay"), names.index("compliance")
    return float(inverse[i, j] / np.sqrt(inverse[i, i] * inverse[j, j]))


def _stepped(parts: Parts, effects: dict[str, float], rest: dict[str, object]) -> Parts:
    """Return the parts after one Gauss-Newton step: delay and compliance are steps, the others values."""
    new = {**vars(parts), **rest, **{k: v for k, v in effects.items() if k not in ("delay", "compliance")}}
    # Steps are held short: linearised, they overshoot where the curve is steep.
    later = float(np.clip(effects.get("delay", 0.0), -0.0015, 0.0015))
    softer = float(np.clip(effects.get("compliance", 0.0), -4e-7, 4e-7))
    new["delay"] = float(np.clip(parts.delay + later, -MOST_DELAY, MOST_DELAY))
    new["compliance"] = float(np.clip(parts.compliance + softer, -1e-6, 2e-5))
    return Parts(**new)


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
