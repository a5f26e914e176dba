"""What else is in a force channel, as columns along the motion: friction, gas, mass, drift. One entry a row."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

import numpy as np

from dynoan.analysis.conditioning import assumptions as a
from dynoan.analysis.conditioning.rows import Rows
from dynoan.analysis.conditioning.velocity import local_slope
from dynoan.model.arrays import BoolArray, FloatArray


@dataclass(frozen=True)
class Effect:
    """One column with its prior: normal about zero, or its positive half."""

    name: str
    column: FloatArray
    prior: float  #: standard deviation of the coefficient
    positive: bool = False
    kind: str = ""
    late: bool = False  #: left out until lag is roughly known, since it can look like lag


def strokes(rows: Rows) -> tuple[FloatArray, FloatArray]:
    """Return the row lengths in time [s] and the travel since the record's start [m]."""
    dt = np.diff(rows.time, append=rows.time[-1:])
    dt = np.clip(dt, 0.0, 5 * np.median(dt))
    return dt, np.cumsum(np.abs(rows.velocity) * dt)


def dahl(rows: Rows, length: float) -> FloatArray:
    """Return unit friction that turns over a travel [m] after each reversal (Dahl, 1976)."""
    _, way = strokes(rows)
    sign = np.where(rows.velocity >= 0, 1.0, -1.0)
    turn = np.flatnonzero(np.diff(sign)) + 1
    first = np.concatenate([[0], turn])
    begin = np.empty(len(first))
    before = 0.0
    ends = np.concatenate([way[turn], way[-1:]])
    for i, at in enumerate(first):
        begin[i] = before
        before = sign[at] + (before - sign[at]) * np.exp(-(ends[i] - way[at]) / length)
    stroke = np.searchsorted(first, np.arange(len(rows)), side="right") - 1
    return np.asarray(sign + (begin[stroke] - sign) * np.exp(-(way - way[first][stroke]) / length))


def frictions(rows: Rows) -> list[Effect]:
    """Return the friction laws: turning over a speed, with breakaway, over a travel, and growing with travel."""
    v = rows.velocity
    out = [Effect(f"turn {u}", np.tanh(v / u), a.FRICTION_SCALE, True, "friction") for u in a.TURNING_SPEEDS]
    out += [Effect(f"breakaway {s}", np.tanh(v / min(0.3 * s, 0.002)) * np.exp(-((v / s) ** 2)),
                   a.BREAKAWAY_SCALE, True, "breakaway", True) for s in a.STRIBECK_SPEEDS]  # fmt: skip
    out += [Effect(f"slide {s}", dahl(rows, s), a.FRICTION_SCALE, True, "friction", True) for s in a.PRESLIDING]
    if rows.displacement is not None:
        z = rows.displacement - 0.5 * (rows.displacement.min() + rows.displacement.max())
        out.append(Effect("by travel", np.tanh(v / 0.002) * z / np.abs(z).max(), a.TRAVEL_FRICTION, False, "travel"))
    return out


def acceleration(rows: Rows) -> FloatArray:
    """Return the time derivative of velocity, span by span. [m/s²]"""
    return slope_in_time(rows, rows.velocity, 5)


def slope_in_time(rows: Rows, values: FloatArray, window: int) -> FloatArray:
    """Return the time derivative of a channel, span by span, shape (n,). [as `values`, per second]"""
    out = np.zeros(len(rows))
    edge = np.flatnonzero(np.diff(rows.span, prepend=-1, append=rows.span[-1] + 1))
    for lo, hi in pairwise(edge):
        if hi - lo > window:
            step = float(np.median(np.diff(rows.time[lo:hi])))
            out[lo:hi] = local_slope(values[lo:hi], window) / step
    return out


def steady(names: Sequence[str], coefficients: FloatArray, velocity: FloatArray) -> FloatArray:
    """Return the friction of long sliding of given laws at velocities, shape (n,). [N]"""
    out = np.zeros(len(velocity))
    for name, c in zip(names, coefficients, strict=True):
        what, _, scale = name.partition(" ")
        if what == "turn":
            out += c * np.tanh(velocity / float(scale))
        elif what == "breakaway":
            s = float(scale)
            out += c * np.tanh(velocity / min(0.3 * s, 0.002)) * np.exp(-((velocity / s) ** 2))
        elif what == "slide":
            out += c * np.sign(velocity)
    return out


def positive(effects: list[Effect]) -> BoolArray:
    """Return which coefficients may not be negative."""
    return np.array([e.positive for e in effects], dtype=bool)


def gradient(rows: Rows, values: FloatArray) -> FloatArray:
    """Return a column's slope in time, smoothed as force's is, span by span, shape (n,). [as `values`, per second]"""
    out = np.zeros(len(rows))
    edge = np.flatnonzero(np.diff(rows.span, prepend=-1, append=rows.span[-1] + 1))
    for lo, hi in pairwise(edge):
        window = round(float(rows.window[lo])) | 1
        if hi - lo > 5:
            step = float(np.median(np.diff(rows.time[lo:hi])))
            slope = local_slope(values[lo:hi], window) if window > 3 else np.gradient(values[lo:hi])
            out[lo:hi] = slope / max(step, 1e-9)
    return out


def gas_law(z: FloatArray, column: float) -> FloatArray:
    """Return the force of a polytropic column of gas of unit slope at z = 0, straight where endless, shape (n,). [m]

    ``p V^n = const`` makes a column of length h push with ``(h/n)·((1 − z/h)^(−n) − 1)`` beyond its force at z = 0.
    """
    if not np.isfinite(column):
        return z
    return np.asarray(column / a.POLYTROPIC * ((1.0 - z / column) ** -a.POLYTROPIC - 1.0))


def gas_effects(rows: Rows, reach: float) -> list[Effect]:
    """Return gas force over travel: columns of several lengths, none pulling, and a small free bend."""
    if rows.displacement is None:
        return []
    z = rows.displacement - 0.5 * (rows.displacement.min() + rows.displacement.max())
    out = [Effect(f"gas {h}", gas_law(z, h * reach) / reach, a.GAS_RATE * reach, True) for h in a.COLUMNS]
    return [*out, Effect("gas bend", (z / reach) ** 2, a.GAS_BEND)]


def yielding(u: FloatArray) -> list[tuple[FloatArray, FloatArray]]:
    """Return columns of a fluid that yields over some speeds, compression's first, and their slopes."""
    out = []
    for way in (u > 0, u < 0):
        for speed in a.YIELD_SPEEDS:
            t = np.tanh(u / speed)
            out.append((np.where(way, t, 0.0), np.where(way, (1 - t * t) / speed, 0.0)))
    return out
