"""The interpolated view of a click map: what each click adds or takes, monotone between tested clicks.

``ln force = base(speed) + Σ effect(adjuster, clicks, speed)``: additive, so that a handful of settings carries it; the
effects never rise as an adjuster opens, and run between tested clicks by PCHIP (F. N. Fritsch and R. E. Carlson,
"Monotone piecewise cubic interpolation", SIAM J. Numer. Anal. 17 (1980) 238-246).
"""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np
from scipy.interpolate import PchipInterpolator

from dynoan.analysis.clickmap.assumptions.views import (
    BETWEEN_SHARE,
    BEYOND_SHARE,
    CLEARLY_RISES,
    FADE,
    LEAST_DISCREPANCY,
    RIDGE,
    SMOOTHING,
)
from dynoan.analysis.clickmap.tested.data import DirectionData
from dynoan.analysis.clickmap.trends.discrepancy import click_kernel, pieces
from dynoan.analysis.clickmap.trends.spread import MapSpread
from dynoan.analysis.clickmap.trends.trend import FittedDirection
from dynoan.model.arrays import FloatArray


@dataclass(frozen=True)
class AdditiveTrend:
    """Effects of each adjuster's tested positions on ln(force), shape of each (positions, S)."""

    speeds: FloatArray  #: (S,)
    base: FloatArray  #: (S,)
    positions: tuple[FloatArray, ...]  #: tested positions of each axis
    effects: tuple[FloatArray, ...]  #: (positions, S)
    last: FloatArray  #: last click of each axis

    def logs(self, clicks: FloatArray, speeds: FloatArray) -> FloatArray:
        """Return ln(force / 1 N) at clicks (n, A) and speeds (S,), shape (n, S). [1]"""
        total = np.tile(self.base, (len(clicks), 1))
        for i, (positions, effects) in enumerate(zip(self.positions, self.effects, strict=True)):
            total = total + _effect(positions, effects, clicks[:, i], FADE * self.last[i])
        return _over_speed(self.speeds, total, speeds)

    def sensitivity(self, clicks: FloatArray, speeds: FloatArray) -> FloatArray:
        """Return an empty sensitivity, (n, S, 0): effects are taken as found, the discrepancy holds their doubt. [1]"""
        return np.zeros((len(clicks), len(speeds), 0))

    def slopes(self, clicks: FloatArray, speeds: FloatArray) -> FloatArray:
        """Return no slopes, (n, S, A) zeros: here too the discrepancy holds the doubt of openings. [1]"""
        return np.zeros((len(clicks), len(speeds), clicks.shape[1]))

    def passages(self, clicks: FloatArray, speeds: FloatArray) -> FloatArray:
        """Return none, (n, S) zeros: no passage is known here. [1]"""
        return np.zeros((len(clicks), len(speeds)))

    def unseen(self, clicks: FloatArray, speeds: FloatArray) -> FloatArray:
        """Return the variance of ln(force) from how effects run between tested clicks and beyond, (n, S). [1]"""
        total = np.zeros((len(clicks), len(self.speeds)))
        for i, (positions, effects) in enumerate(zip(self.positions, self.effects, strict=True)):
            if len(positions) > 1:
                total = total + _doubt(positions, effects, clicks[:, i]) ** 2
        x, at = np.log(self.speeds), np.log(np.maximum(speeds, 1e-4))
        return np.array([np.interp(at, x, row) for row in total])


def _doubt(positions: FloatArray, effects: FloatArray, at: FloatArray) -> FloatArray:
    """Return the standard deviation of an effect between its tested clicks, and beyond them, (n, S). [1]"""
    low = np.clip(np.searchsorted(positions, at, side="right") - 1, 0, len(positions) - 2)
    width = positions[low + 1] - positions[low]
    part = np.clip((at - positions[low]) / width, 0.0, 1.0)
    beyond = np.maximum(np.maximum(positions[0] - at, at - positions[-1]), 0.0) / width
    share = BETWEEN_SHARE * np.sqrt(4.0 * part * (1.0 - part)) + BEYOND_SHARE * beyond
    return np.asarray(share[:, None] * np.abs(effects[low + 1] - effects[low]))


def _effect(positions: FloatArray, effects: FloatArray, at: FloatArray, fade: float) -> FloatArray:
    if len(positions) < 2:
        return np.zeros((len(at), effects.shape[1]))
    curve = PchipInterpolator(positions, effects, axis=0)
    inside = np.clip(at, positions[0], positions[-1])
    slopes = curve.derivative()(np.array([positions[0], positions[-1]]))
    below, above = np.maximum(positions[0] - at, 0.0), np.maximum(at - positions[-1], 0.0)
    reach = fade * (1.0 - np.exp(-(below + above) / fade))
    ahead = np.where(below[:, None] > 0, -slopes[0], slopes[1])
    return np.asarray(curve(inside) + reach[:, None] * ahead)


def _over_speed(known: FloatArray, logs: FloatArray, speeds: FloatArray) -> FloatArray:
    """Interpolate ln(force) over ln(speed), straight on at both ends, below no flatter than proportion."""
    x, at = np.log(known), np.log(np.maximum(speeds, 1e-4))
    inside = PchipInterpolator(x, logs, axis=1)(np.clip(at, x[0], x[-1]))
    low = np.maximum((logs[:, 1] - logs[:, 0]) / (x[1] - x[0]), 1.0)[:, None]
    high = np.maximum((logs[:, -1] - logs[:, -2]) / (x[-1] - x[-2]), 0.0)[:, None]
    return np.asarray(inside + low * np.minimum(at - x[0], 0.0) + high * np.maximum(at - x[-1], 0.0))


def _design(data: DirectionData) -> tuple[FloatArray, tuple[FloatArray, ...], FloatArray]:
    """Return the additive design (T, 1 + Σ positions), the positions of each axis and the smoothing rows."""
    columns, rows, all_positions = [np.ones((data.tests, 1))], [], []
    for i in range(data.clicks.shape[1]):
        positions = np.unique(data.clicks[:, i])
        columns.append((data.clicks[:, i][:, None] == positions[None, :]).astype(float))
        rows.append(_smoothing_rows(positions / data.last[i]))
        all_positions.append(positions)
    width = sum(c.shape[1] for c in columns)
    penalty, start = [np.sqrt(RIDGE) * np.eye(width)[1:]], 1
    for block in rows:
        wide = np.zeros((len(block), width))
        wide[:, start : start + block.shape[1]] = block
        penalty.append(wide)
        start += block.shape[1]
    return np.hstack(columns), tuple(all_positions), np.vstack(penalty)


def _smoothing_rows(x: FloatArray) -> FloatArray:
    out = np.zeros((max(len(x) - 2, 0), len(x)))
    for i in range(len(x) - 2):
        a, b = x[i + 1] - x[i], x[i + 2] - x[i + 1]
        out[i, i : i + 3] = np.array([1 / a, -1 / a - 1 / b, 1 / b]) * np.sqrt(SMOOTHING) / 2
    return out


def _falling(effects: FloatArray) -> FloatArray:
    """Return the effects without rises over clicks: halfway between the running least and the running greatest.

    Without falls where they clearly rise: an adjuster that works the other way.
    """
    down = np.minimum.accumulate(effects, axis=0)
    up = np.maximum.accumulate(effects[::-1], axis=0)[::-1]
    falling = (down + up) / 2
    rising = -(np.minimum.accumulate(-effects, axis=0) + np.maximum.accumulate(-effects[::-1], axis=0)[::-1]) / 2
    misses = [float(np.sum((effects - one) ** 2)) for one in (falling, rising)]
    return np.asarray(rising if misses[1] < CLEARLY_RISES * misses[0] else falling)


def additive(data: DirectionData) -> AdditiveTrend:
    """Return the additive effects fitted by weighted, lightly smoothed least squares."""
    design, positions, penalty = _design(data)
    weight = 1.0 / np.sqrt(np.mean(data.variance, axis=1))
    weight = weight / weight.mean()
    left = np.vstack([design * weight[:, None], penalty])
    right = np.vstack([data.logs * weight[:, None], np.zeros((len(penalty), data.logs.shape[1]))])
    solution = np.linalg.lstsq(left, right, rcond=None)[0]
    effects, start = [], 1
    for p in positions:
        effects.append(_falling(solution[start : start + len(p)]))
        start += len(p)
    return AdditiveTrend(data.speeds, solution[0], positions, tuple(effects), data.last)


def fit_interpolated(data: DirectionData, near: MapSpread | None = None) -> FittedDirection:
    """Return the interpolated view of one direction, its discrepancy sized by leaving tests out.

    `near` tells the spread of shocks, states and runs.
    """
    size = LEAST_DISCREPANCY
    if data.tests > 2:
        error = left_out_errors(data)
        reach = 1.0 - _alike_to_others(data) ** 2
        size = float(np.sqrt(np.mean(error**2 / np.maximum(reach, 0.2)[:, None])))
    spread = replace(near or MapSpread(), discrepancy=float(np.clip(size, LEAST_DISCREPANCY, 0.5)), warps=())
    return FittedDirection(data, additive(data), spread, np.zeros(data.logs.size))


def _alike_to_others(data: DirectionData) -> FloatArray:
    alike = click_kernel(data.clicks, data.clicks, data.last, MapSpread().span)
    return np.asarray(np.max(alike - np.eye(data.tests), axis=1))


def left_out_errors(data: DirectionData) -> FloatArray:
    """Return measured minus predicted ln(force) of each test with the test left out, shape (T, S). [1]"""
    out, spread = np.empty_like(data.logs), MapSpread(discrepancy=0.05)
    parts = pieces(data, spread)
    inverse = np.linalg.inv(parts.total(spread))
    size = len(data.speeds)
    for t in range(data.tests):
        trend = additive(data.without(t))
        gap = data.logs - trend.logs(data.clicks, data.speeds)
        mine = np.zeros(data.logs.size, dtype=bool)
        mine[t * size : (t + 1) * size] = True
        rest = gap.ravel()[~mine]
        # The inverse without a test follows from the whole one's blocks.
        own, cross = inverse[np.ix_(mine, mine)], inverse[np.ix_(mine, ~mine)]
        pull = inverse[np.ix_(~mine, ~mine)] @ rest - cross.T @ np.linalg.solve(own, cross @ rest)
        out[t] = gap[t] - spread.discrepancy**2 * parts.alike[np.ix_(mine, ~mine)] @ pull
    return out
