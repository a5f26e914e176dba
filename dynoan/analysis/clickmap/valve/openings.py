"""How each adjuster opens between its ends, as far as the tests show: every table tried in the fitted valve."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
from scipy.linalg import cho_factor, cho_solve

from dynoan.analysis.clickmap.assumptions.screws import WARPS
from dynoan.analysis.clickmap.assumptions.views import (
    FIRST_STEPS,
    OPENING_POINTS,
    OPENING_ROUNDS,
    OPENINGS_ALIKE,
    OPENINGS_TRIED,
    OTHER_OPENING,
    TOLD_APART,
)
from dynoan.analysis.clickmap.tested.data import DirectionData
from dynoan.analysis.clickmap.trends.discrepancy import log_likelihood
from dynoan.analysis.clickmap.trends.openings import ClickOpening, OpeningTable, averaged, tables
from dynoan.analysis.clickmap.trends.spread import MapSpread
from dynoan.analysis.clickmap.trends.trend import FittedDirection
from dynoan.analysis.clickmap.valve.fit import as_fitted, most_probable, whitener_about
from dynoan.analysis.clickmap.valve.law import log_force
from dynoan.analysis.clickmap.valve.trend import ValveTrend
from dynoan.model.arrays import FloatArray


def with_openings(
    data: DirectionData, trend: ValveTrend, spread: MapSpread
) -> tuple[ValveTrend, tuple[ClickOpening, ...]]:
    """Return the trend with each axis' openings averaged over what they may be, and what is known of them."""
    calm = replace(spread, warps=tuple(WARPS[0] for _ in data.axes))
    known: dict[int, ClickOpening] = {}
    for turn in range(OPENING_ROUNDS):
        before = trend.openings
        for i, axis in enumerate(data.axes):
            if data.moved[i] and axis.clicks > 0 and i in (trend.roles.bleed, trend.roles.opening):
                found = _evidence(as_fitted(data, trend, calm), trend, i)
                if turn == 0 and (likeliest := _likeliest(as_fitted(data, trend, calm), trend, i, found)) is not trend:
                    trend = likeliest
                    found = _evidence(as_fitted(data, trend, calm), trend, i)
                known[i] = averaged(*found)
                trend = _opened(trend, i, known[i].table)
        if all(np.allclose(x, y, atol=OPENINGS_ALIKE) for x, y in zip(before, trend.openings, strict=True)):
            break
        about = whitener_about(as_fitted(data, trend, calm))
        trend = replace(trend, theta=most_probable(data, trend, about, trend.theta, FIRST_STEPS)[0])
    plain = [averaged(tables(1), np.zeros(len(tables(1)))) for _ in data.axes]
    still = [replace(p, table=t, doubt=np.zeros((len(t), len(t)))) for p, t in zip(plain, trend.openings, strict=True)]
    return trend, tuple(known.get(i, one) for i, one in enumerate(still))


def _opened(trend: ValveTrend, axis: int, table: FloatArray) -> ValveTrend:
    """Return the trend with one axis opening along a table."""
    return replace(trend, openings=(*trend.openings[:axis], table, *trend.openings[axis + 1 :]))


def _evidence(fitted: FittedDirection, trend: ValveTrend, axis: int) -> tuple[list[OpeningTable], FloatArray]:
    """Return the ways an axis may open, and how likely the tests are under each, a logarithm. [1]

    Every table is tried in the fitted valve, its parameters following in a straight line.
    """
    data = fitted.data
    table = trend.openings[axis]
    ways = tables(len(table) - 1, bool(table[-1] < table[0]))
    logs = _force_over_opening(fitted, trend, axis)
    at = np.array([way.table[data.clicks[:, axis].astype(int)] for way in ways]) * (OPENING_POINTS - 1)
    low = np.minimum(at.astype(int), OPENING_POINTS - 2)
    part, rows = (at - low)[:, :, None], np.arange(data.tests)
    here = logs[rows, low] * (1.0 - part) + logs[rows, low + 1] * part
    gap = (data.logs - here).reshape(len(ways), -1) + fitted.offset
    factor = cho_factor(fitted.total, lower=True)
    return ways, np.asarray(-0.5 * np.einsum("ij,ij->i", gap, cho_solve(factor, gap.T).T))


def _likeliest(
    fitted: FittedDirection, trend: ValveTrend, axis: int, found: tuple[list[OpeningTable], FloatArray]
) -> ValveTrend:
    """Return the trend with the likeliest way an axis may open, the valve fitted anew to the few best.

    `found` is the `_evidence`; the trend itself where it tells the first few apart no further than they may be.

    A straight line from a valve that was fitted to other openings shows which few to try, not which is right.
    """
    data = fitted.data
    ways, evidence = found
    score = evidence + np.log([max(way.common, 1e-12) for way in ways])
    tested = np.array([way.table for way in ways])[:, data.clicks[:, axis].astype(int)]
    picked: list[int] = []
    for k in np.argsort(-score):
        if all(np.max(np.abs(tested[k] - tested[other])) > OTHER_OPENING for other in picked):
            picked.append(int(k))
        if len(picked) == OPENINGS_TRIED:
            break
    if score[picked[0]] - score[picked[-1]] < TOLD_APART:
        return trend
    about = whitener_about(fitted)
    best, most = trend, -np.inf
    for k in picked:
        trial = _opened(trend, axis, ways[k].table)
        trial = replace(trial, theta=most_probable(data, trial, about, trial.theta, FIRST_STEPS)[0])
        anew = as_fitted(data, trial, fitted.spread)
        likely = log_likelihood(anew.total, anew.residual) + float(np.log(max(ways[k].common, 1e-12)))
        if likely > most:
            best, most = trial, likely
    return best


def _force_over_opening(fitted: FittedDirection, trend: ValveTrend, axis: int) -> FloatArray:
    """Return ln(force) of each test with one axis at openings all over its range, (T, points, S). [1]"""
    data = fitted.data
    turned = np.repeat(trend.turned(data.clicks)[:, None, :], OPENING_POINTS, axis=1)
    turned[:, :, axis] = np.linspace(0.0, 1.0, OPENING_POINTS)
    logs = log_force(trend.theta, turned.reshape(-1, turned.shape[2]), trend.roles, data.speeds)
    return np.asarray(logs.reshape(data.tests, OPENING_POINTS, -1))
