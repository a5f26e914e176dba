"""From a fitted direction to the tables of a click map: force and band at every click."""

from __future__ import annotations

import numpy as np

from dynoan.analysis.clickmap.assumptions import BAND_POSITIONS, BAND_SPEEDS, MARGIN, TABLE_SPEEDS
from dynoan.analysis.clickmap.trend import FittedDirection
from dynoan.analysis.statistics import Z95
from dynoan.model.arrays import FloatArray
from dynoan.model.clickmap import DirectionMap


def table_speeds(top: float) -> FloatArray:
    """Return the tabulated speeds: zero, then evenly by ratio up to beyond the highest tested speed. [m/s]"""
    return np.concatenate([[0.0], np.geomspace(0.005, MARGIN * top, TABLE_SPEEDS - 1)])


def all_clicks(last: list[int]) -> FloatArray:
    """Return every combination of clicks, shape (Π(last+1), A), the last adjuster quickest. [clicks]"""
    if not last:
        return np.zeros((1, 0))
    grids = np.meshgrid(*[np.arange(n + 1, dtype=float) for n in last], indexing="ij")
    return np.stack([g.ravel() for g in grids], axis=1)


def tabulate(fitted: FittedDirection) -> DirectionMap:
    """Return one direction of a click map from its fit."""
    data = fitted.data
    last = [axis.clicks for axis in data.axes]
    speeds = table_speeds(data.top_speed)
    clicks = all_clicks(last)
    force = np.zeros((len(clicks), len(speeds)))
    force[:, 1:] = np.exp(fitted.logs(clicks, speeds[1:]))
    share = _band_shares(fitted, last, speeds)
    at_top = np.array([np.interp(data.top_speed, speeds, row) for row in force])
    gain = np.where(speeds > data.top_speed, np.abs(force - at_top[:, None]), 0.0)
    half = force * (np.exp(np.minimum(share, 1.5)) - 1.0) + 0.5 * gain
    shape = (*[n + 1 for n in last], len(speeds))
    names = tuple(axis.name for axis in data.axes)
    scales = np.exp(fitted.shock_effects(np.clip(speeds, data.speeds[0], data.speeds[-1])))
    return DirectionMap(names, speeds, force.reshape(shape), half.reshape(shape), data.top_speed, scales,
                        fitted.spread.shock)  # fmt: skip


def _coarse(n: int, tested: FloatArray) -> FloatArray:
    even = np.round(np.linspace(0, n, min(n + 1, BAND_POSITIONS)))
    if len(np.unique(tested)) <= BAND_POSITIONS:
        even = np.union1d(even, np.unique(tested))
    return np.unique(even)


def _band_shares(fitted: FittedDirection, last: list[int], speeds: FloatArray) -> FloatArray:
    """Return half the 95 % band as a share of force at every click, (clicks, S), interpolated from a coarser grid."""
    from scipy.interpolate import RegularGridInterpolator

    data = fitted.data
    coarse = [_coarse(n, data.clicks[:, i]) for i, n in enumerate(last)]
    grids = np.meshgrid(*coarse, indexing="ij")
    points = np.stack([g.ravel() for g in grids], axis=1) if coarse else np.zeros((1, 0))
    few = np.geomspace(speeds[1], data.top_speed, BAND_SPEEDS)
    sd = np.sqrt(fitted.variance(points, few) + fitted.spread.shock**2)
    at = np.interp(np.log(np.maximum(speeds, 1e-4)), np.log(few), np.arange(len(few)))
    low = np.minimum(at.astype(int), len(few) - 2)
    over_speed = sd[:, low] * (1 - (at - low)) + sd[:, low + 1] * (at - low)
    axes = [a for a in coarse if len(a) > 1]
    if not axes:
        return np.asarray(Z95 * over_speed)
    moving = [i for i, a in enumerate(coarse) if len(a) > 1]
    table = over_speed.reshape(*[len(a) for a in axes], len(speeds))
    return np.asarray(Z95 * RegularGridInterpolator(axes, table)(all_clicks(last)[:, moving]))
