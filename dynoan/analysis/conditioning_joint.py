"""Take a trace apart by one least-squares fit: damping, gas and zero, friction, delay, compliance, drift.

``F(t+τ) = D(v − c·Ḋ) + g0 + g1·x + g2·x² + F_f·tanh(v/v0)``, times ``1 + k·(T − T̄)`` on D, where D is a free smooth
curve of each direction (quadratic B-splines, zero at zero), so that nothing is assumed about its shape. Delay τ and
series compliance c enter linearised and are iterated (Gauss-Newton).
"""

from __future__ import annotations

from dataclasses import dataclass, field, replace

import numpy as np

from dynoan.analysis.conditioning_rows import Rows
from dynoan.model.arrays import BoolArray, FloatArray, IntArray

#: speeds over which friction turns around, tried in turn [m/s]
TURNING = (0.002, 0.001, 0.0005, 0.004)
MOST_DELAY = 0.01  #: [s]
#: rows the joint fit works on; the estimates change no more beyond that
ENOUGH = 10_000


@dataclass(frozen=True)
class Terms:
    """Which effects a joint fit holds."""

    slope: bool = True  #: gas force over displacement
    bow: bool = False  #: its curvature
    friction: bool = True
    delay: bool = True
    compliance: bool = True
    drift: bool = False


@dataclass(frozen=True)
class Parts:
    """What a joint fit found. `sd` holds standard errors by name, from the scatter between half cycles."""

    terms: Terms
    offset: float = 0.0  #: gas and zero at mid-stroke [N]
    slope: float = 0.0  #: [N/m]
    bow: float = 0.0  #: [N/m²]
    friction: float = 0.0  #: [N]
    turning: float = 0.002  #: v0 of the friction [m/s]
    delay: float = 0.0  #: the force channel is late by [s]
    compliance: float = 0.0  #: [m/N]
    drift: float = 0.0  #: of the damping force, per kelvin
    middle: float = 0.0  #: mid-stroke [m]
    warm: float = float("nan")  #: temperature the damping force belongs to [°C]
    noise: float = float("nan")  #: residual of a row, root mean square [N]
    cost: float = float("inf")
    sd: dict[str, float] = field(default_factory=dict)
    tie: float = 0.0  #: correlation of the errors of delay and compliance
    spline: tuple[FloatArray, FloatArray, FloatArray, FloatArray] | None = None  #: edges and weights, both directions

    def damping(self, v: FloatArray) -> tuple[FloatArray, FloatArray]:
        """Return the smooth damping force and its slope at signed velocities. [N], [N·s/m]"""
        assert self.spline is not None
        edges_c, w_c, edges_r, w_r = self.spline
        c, dc = splines(np.maximum(v, 0.0), edges_c)
        r, dr = splines(np.maximum(-v, 0.0), edges_r)
        return c @ w_c - r @ w_r, np.where(v >= 0, dc @ w_c, dr @ w_r)


def splines(u: FloatArray, edges: FloatArray) -> tuple[FloatArray, FloatArray]:
    """Return quadratic B-splines that are zero at zero, and their slopes, shape (n, len(edges)) each.

    Parameters
    ----------
    u
        Speeds, from 0; those beyond the last edge are held there. [m/s]
    edges
        Increasing, from 0. [m/s]

    Notes
    -----
    Cox-de Boor recursion written out for degree two; the one function that is not zero at zero is left out.
    """
    t = np.concatenate([edges[[0, 0]], edges, edges[[-1, -1]]])
    u = np.minimum(u, edges[-1])
    m = np.clip(np.searchsorted(edges, u, side="right") - 1, 0, len(edges) - 2) + 2
    gap = t[m + 1] - t[m]
    down, up = t[m + 1] - u, u - t[m]
    low, high = (t[m + 1] - t[m - 1]) * gap, (t[m + 2] - t[m]) * gap
    rows = np.arange(len(u))
    value, slope = np.zeros((2, len(u), len(edges) + 1))
    value[rows, m - 2], slope[rows, m - 2] = down**2 / low, -2 * down / low
    value[rows, m], slope[rows, m] = up**2 / high, 2 * up / high
    value[rows, m - 1] = 1 - value[rows, m - 2] - value[rows, m]
    slope[rows, m - 1] = -slope[rows, m - 2] - slope[rows, m]
    return value[:, 1:], slope[:, 1:]


def edges_for(speed: FloatArray) -> FloatArray:
    """Return spline edges for the speeds of one direction: closer near zero, each piece holding enough rows."""
    top = float(speed.max()) if len(speed) else 1.0
    wanted = np.concatenate([[0.0], np.geomspace(min(0.015, 0.2 * top), top, max(4, int(np.log(max(top / 0.015, 5)) * 5)))])
    ordered = np.sort(speed)
    edges = [0.0]
    for edge in wanted[1:-1]:
        held = np.searchsorted(ordered, edge) - np.searchsorted(ordered, edges[-1])
        left = len(ordered) - np.searchsorted(ordered, edge)
        if held >= 12 and left >= 12:
            edges.append(float(edge))
    return np.array([*edges, top])


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
    first = start or Parts(terms, middle=_middle(rows), warm=_warm(rows))
    weight = 1.0 / rows.variance
    parts = replace(first, terms=terms, turning=first.turning if start else TURNING[0])
    for i in range(6):
        before = parts.cost
        parts, weight = _round(rows, parts, weight)
        if i > 1 and abs(parts.cost - before) < 1e-3 * before:
            break
    if terms.friction and start is None:
        tried = [_solve(rows, replace(parts, turning=t), weight)[0] for t in TURNING]
        parts, _ = _round(rows, min(tried, key=lambda p: p.cost), weight)
    return parts


def with_terms(rows: Rows, parts: Parts, terms: Terms) -> Parts:
    """Return the parts after one step with other linear effects (gas slope and bow, friction, drift)."""
    return _solve(rows, replace(parts, terms=terms), weights(rows, parts))[0]


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


def _middle(rows: Rows) -> float:
    x = rows.displacement
    return 0.0 if x is None else 0.5 * float(np.min(x) + np.max(x))


def _warm(rows: Rows) -> float:
    return float("nan") if rows.temperature is None else float(np.median(rows.temperature))


def corrected(rows: Rows, parts: Parts) -> tuple[FloatArray, FloatArray, FloatArray]:
    """Return velocity of the valve [m/s], force with the delay taken out [N], and its rise [N/s]."""
    force, rise = rows.force, rows.rise
    if parts.delay:
        # Spans are far apart on this clock, so nothing is interpolated from one into the next.
        apart = rows.span * 1e3
        force = np.interp(rows.time + parts.delay + apart, rows.time + apart, rows.force)
        rise = np.interp(rows.time + parts.delay + apart, rows.time + apart, rows.rise)
    velocity = rows.velocity
    if parts.compliance or parts.terms.compliance:
        velocity = rows.velocity - parts.compliance * valve_rise(rows, parts, rise)
    return velocity, force, rise


def valve_rise(rows: Rows, parts: Parts, rise: FloatArray) -> FloatArray:
    """Return the rise of the damping force alone: friction and gas do not load the series spring. [N/s]"""
    out = rise - parts.slope * rows.velocity
    if parts.friction:
        back = np.gradient(np.tanh(rows.velocity / parts.turning)) / np.maximum(np.gradient(rows.time), 1e-9)
        edge = np.diff(rows.span, prepend=-1, append=-1) != 0
        out = out - parts.friction * np.where(edge[1:] | edge[:-1], 0.0, back)
    return np.asarray(out)


def static(rows: Rows, parts: Parts) -> FloatArray:
    """Return gas, zero and friction at the rows. [N]"""
    out = parts.offset + parts.friction * np.tanh(rows.velocity / parts.turning)
    if rows.displacement is not None:
        z = rows.displacement - parts.middle
        out = out + parts.slope * z + parts.bow * z * z
    return np.asarray(out)


def _columns(rows: Rows, parts: Parts) -> tuple[list[str], FloatArray, FloatArray, tuple[FloatArray, FloatArray]]:
    """Return names and columns of the effects after the splines, the force, and the spline edges."""
    velocity, force, rise = corrected(rows, parts)
    edges = (edges_for(velocity[velocity > 0]), edges_for(-velocity[velocity < 0]))
    c, r = splines(np.maximum(velocity, 0), edges[0])[0], splines(np.maximum(-velocity, 0), edges[1])[0]
    columns: dict[str, FloatArray] = {"offset": np.ones(len(rows))}
    terms = parts.terms
    if rows.displacement is not None:
        z = rows.displacement - parts.middle
        columns |= {name: z**power for name, power, on in (("slope", 1, terms.slope), ("bow", 2, terms.bow)) if on}
    if terms.friction:
        columns["friction"] = np.tanh(rows.velocity / parts.turning)
    if parts.spline is not None:
        smooth, steep = parts.damping(velocity)
        if terms.delay:
            columns["delay"] = -rise
        if terms.compliance:
            columns["compliance"] = -steep * valve_rise(rows, parts, rise)
        if terms.drift and rows.temperature is not None:
            columns["drift"] = (rows.temperature - parts.warm) * smooth
    return list(columns), np.column_stack([c, -r, *columns.values()]), force, edges


def _solve(rows: Rows, parts: Parts, weight: FloatArray) -> tuple[Parts, FloatArray]:
    names, matrix, force, edges = _columns(rows, parts)
    weighted = matrix * weight[:, None]
    gram = weighted.T @ matrix
    scale = np.sqrt(np.diag(gram)) + 1e-12
    inverse = np.linalg.pinv(gram / np.outer(scale, scale), rcond=1e-12, hermitian=True) / np.outer(scale, scale)
    found = inverse @ (weighted.T @ force)
    rest = force - matrix @ found
    spread = _covariance(weighted * rest[:, None], inverse, rows)
    n_c, n_r = len(edges[0]), len(edges[1])
    effects = dict(zip(names, found[n_c + n_r :], strict=True))
    sd = dict(zip(names, np.sqrt(np.diag(spread))[n_c + n_r :], strict=True))
    tie = 0.0
    if "delay" in names and "compliance" in names:
        i, j = n_c + n_r + names.index("delay"), n_c + n_r + names.index("compliance")
        tie = float(inverse[i, j] / np.sqrt(inverse[i, i] * inverse[j, j]))
    spline = (edges[0], found[:n_c], edges[1], found[n_c : n_c + n_r])
    cost = float(np.sum(weight * rest**2))
    return _stepped(parts, effects, sd, {"tie": tie, "spline": spline, "cost": cost,
                                         "noise": float(np.sqrt(np.mean(rest**2)))}), rest  # fmt: skip


def _stepped(parts: Parts, effects: dict[str, float], sd: dict[str, float], rest: dict[str, object]) -> Parts:
    """Return the parts after one Gauss-Newton step: delay and compliance are steps, the others values."""
    new = {**vars(parts), **rest, "sd": sd, **{k: v for k, v in effects.items() if k not in ("delay", "compliance")}}
    new["delay"] = float(np.clip(parts.delay + effects.get("delay", 0.0), -MOST_DELAY, MOST_DELAY))
    new["compliance"] = float(np.clip(parts.compliance + effects.get("compliance", 0.0), -1e-6, 2e-5))
    return Parts(**new)  # type: ignore[arg-type]


def _covariance(scores: FloatArray, inverse: FloatArray, rows: Rows) -> FloatArray:
    """Return the covariance of estimates from the scatter of the scores of half cycles (Huber-White, clustered)."""
    group = clusters(rows)
    starts = np.flatnonzero(np.diff(group, prepend=-1))
    summed = np.add.reduceat(scores, starts, axis=0)
    g = len(starts)
    return np.asarray(inverse @ (summed.T @ summed) @ inverse * (g / max(g - 1, 1)))


def clusters(rows: Rows) -> IntArray:
    """Return a number for each half cycle: rows of one number lie side by side and err together."""
    turn = np.diff(np.signbit(rows.velocity), prepend=False) | (np.diff(rows.span, prepend=0) != 0)
    return np.cumsum(turn)
