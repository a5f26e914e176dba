"""From a fitted direction to the tables of a click map: force and band at every click."""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from dynoan.analysis.clickmap.assumptions.identify import FORCE_ERROR
from dynoan.analysis.clickmap.assumptions.tables import BAND_POSITIONS, BAND_SPEEDS, LEAST_BAND, MARGIN, TABLE_SPEEDS
from dynoan.analysis.clickmap.every_click.oil_temperature import learned_thinning
from dynoan.analysis.clickmap.shocks.effects import state_effects, state_variances
from dynoan.analysis.clickmap.shocks.losses import loss_doubt
from dynoan.analysis.clickmap.trends.trend import FittedDirection
from dynoan.analysis.statistics import Z95
from dynoan.model.arrays import FloatArray
from dynoan.model.clickmap import DirectionMap, ErrorsAlike


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
    """Return one direction of a click map from its fit.

    The tables are of the mean shock; where one shock alone was tested, of that shock as it was last.
    """
    data = fitted.data
    last = [axis.clicks for axis in data.axes]
    speeds = table_speeds(data.top_speed)
    clicks = all_clicks(last)
    force = np.zeros((len(clicks), len(speeds)))
    share, owed, errors = _over_clicks(fitted, last, speeds)
    force[:, 1:] = np.exp(fitted.logs(clicks, speeds[1:]) + owed[:, 1:])
    at_top = np.array([np.interp(data.top_speed, speeds, row) for row in force])
    gain = np.where(speeds > data.top_speed, np.abs(force - at_top[:, None]), 0.0)
    half = np.hypot(force * (np.exp(np.minimum(share, 1.5)) - 1.0), Z95 * FORCE_ERROR * (force > 0)) + 0.5 * gain
    shape = (*[n + 1 for n in last], len(speeds))
    names = tuple(axis.name for axis in data.axes)
    scales = np.exp(state_effects(fitted, np.clip(speeds, data.speeds[0], data.speeds[-1])))
    more = state_variances(fitted, _somewhere(last), np.geomspace(data.speeds[0], data.top_speed, BAND_SPEEDS)[::2])
    losses = loss_doubt(fitted, errors.positions, speeds[1:], force.reshape(shape)[..., 1:], np.log(scales[:, 1:]))
    table = DirectionMap(names, speeds, force.reshape(shape), half.reshape(shape), data.top_speed,
                         spread=fitted.spread.shock, losses=losses, errors=errors, alike=fitted.alike(),
                         thinning=learned_thinning(fitted, speeds))  # fmt: skip
    latest = {state.shock: i for i, state in enumerate(data.states)}
    if len(latest) == 1:
        only = next(iter(latest.values()))
        table = of_state(replace(table, states=scales, state_variances=more), only)
        scales, more = scales / scales[only], more - more[only]
        losses = replace(losses, variances=losses.variances - losses.variances[only])
    picked = [latest[shock] for shock in sorted(latest)]
    return replace(table, scales=scales[picked], states=scales, state_variances=more, losses=losses)


def of_state(table: DirectionMap, number: int) -> DirectionMap:
    """Return the tables of one state of a shock instead of the mean shock's, with the band that it has."""
    assert table.states is not None
    assert table.state_variances is not None
    force = table.force * table.states[number]
    half = force * with_variance(table, table.state_variances[number] - table.spread**2 + loss_variance(table, number))
    return replace(table, force=force, half_width=np.where(force > 0, half, 0.0), scales=None, spread=0.0, states=None,
                   state_variances=None, losses=None)  # fmt: skip


def loss_variance(table: DirectionMap, number: int) -> FloatArray:
    """Return what is not known of a state's loss away from the clicks it was run at, a share of force squared. [1]

    Of the shape of the tables, or one that fits it.
    """
    losses = table.losses
    if losses is None:
        return np.zeros(1)
    coarse = losses.variances[number]
    last = [n - 1 for n in table.force.shape[:-1]] if losses.positions else []
    every = _fine(coarse.reshape(-1, coarse.shape[-1]), list(losses.positions), last)
    at = np.interp(np.log(np.maximum(table.speeds, 1e-4)), np.log(losses.speeds), np.arange(len(losses.speeds)))
    low = np.minimum(at.astype(int), len(losses.speeds) - 2)
    over = every[:, low] * (1 - (at - low)) + every[:, low + 1] * (at - low)
    return np.asarray(over.reshape(*[n + 1 for n in last], len(table.speeds)))


def with_variance(table: DirectionMap, added: float | FloatArray) -> FloatArray:
    """Return half a band of tables with a variance of ln(force) added [1], or taken off it, as a share of force. [1]

    Taken off where variances are: half a band as a share of force is more than its logarithm, the wider the more so.
    """
    logs = np.log1p(table.half_width / np.maximum(table.force, 1e-9))
    return np.asarray(np.expm1(np.sqrt(np.maximum(logs**2 + Z95**2 * added, LEAST_BAND**2))))


def _somewhere(last: list[int]) -> FloatArray:
    """Return a few settings all over, the same each time, shape (12, A). [clicks]"""
    rng = np.random.default_rng(7)
    return np.stack([rng.integers(0, n + 1, 12).astype(float) for n in last], axis=1) if last else np.zeros((1, 0))


def _coarse(n: int, tested: FloatArray) -> FloatArray:
    even = np.round(np.linspace(0, n, min(n + 1, BAND_POSITIONS)))
    if len(np.unique(tested)) <= BAND_POSITIONS:
        even = np.union1d(even, np.unique(tested))
    return np.unique(even)


def _over_clicks(
    fitted: FittedDirection, last: list[int], speeds: FloatArray
) -> tuple[FloatArray, FloatArray, ErrorsAlike]:
    """Return half the 95 % band as a share of force, and what `logs` still owes, at every click, (clicks, S) each.

    Both interpolated from a coarser grid; and there how errors hang together.
    """
    data = fitted.data
    coarse = [_coarse(n, data.clicks[:, i]) for i, n in enumerate(last)]
    grids = np.meshgrid(*coarse, indexing="ij")
    points = np.stack([g.ravel() for g in grids], axis=1) if coarse else np.zeros((1, 0))
    few = np.geomspace(speeds[1], data.top_speed, BAND_SPEEDS)
    covariance = fitted.covariance(points, few)
    variance = np.einsum("nss->ns", covariance)
    alike = covariance / np.sqrt(variance[:, :, None] * variance[:, None, :])
    errors = ErrorsAlike(tuple(coarse), few, alike.reshape(*[len(a) for a in coarse], len(few), len(few)))
    sd = np.sqrt(variance + fitted.spread.shock**2)
    at = np.interp(np.log(np.maximum(speeds, 1e-4)), np.log(few), np.arange(len(few)))
    low = np.minimum(at.astype(int), len(few) - 2)
    share, owed = (v[:, low] * (1 - (at - low)) + v[:, low + 1] * (at - low)
                   for v in (Z95 * sd, fitted.owed(points, few)))  # fmt: skip
    return _fine(share, coarse, last), _fine(owed, coarse, last), errors


def _fine(values: FloatArray, coarse: list[FloatArray], last: list[int]) -> FloatArray:
    from scipy.interpolate import RegularGridInterpolator

    axes = [a for a in coarse if len(a) > 1]
    if not axes:
        return values
    moving = [i for i, a in enumerate(coarse) if len(a) > 1]
    table = values.reshape(*[len(a) for a in axes], values.shape[1])
    return np.asarray(RegularGridInterpolator(axes, table)(all_clicks(last)[:, moving]))
