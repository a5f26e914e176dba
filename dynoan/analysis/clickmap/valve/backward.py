"""Which way round an adjuster is counted: as written, or the other way where the tests fit that far better."""

from __future__ import annotations

from collections.abc import Sequence

from dynoan.analysis.clickmap.assumptions.screws import BACKWARD_ODDS, CLEARLY_FALLS
from dynoan.analysis.clickmap.assumptions.views import FIRST_STEPS
from dynoan.analysis.clickmap.tested.data import DirectionData
from dynoan.analysis.clickmap.tested.plain_least_squares import plain_slopes
from dynoan.analysis.clickmap.trends.openings import even
from dynoan.analysis.clickmap.trends.spread import MapSpread
from dynoan.analysis.clickmap.valve.fit import as_fitted, fit_parameters, most_probable, whitener_about
from dynoan.analysis.clickmap.valve.law import Roles
from dynoan.analysis.clickmap.valve.trend import ValveTrend


def best_way_round(data: DirectionData, roles: Roles, spread: MapSpread) -> ValveTrend:
    """Return the valve fitted with every adjuster as written, or with some the other way where that fits far better."""
    plain = tuple(even(axis.clicks) for axis in data.axes)
    first = fit_parameters(data, roles, spread, None, plain)
    doubtful = [i for i in _doubtful(data) if i in (roles.bleed, roles.opening)]
    if not doubtful:
        return first
    root = whitener_about(as_fitted(data, first, spread))
    best, least = first, most_probable(data, first, root, first.theta, FIRST_STEPS)[1]
    for which in _subsets(doubtful):
        ways = tuple(even(x.clicks, i in which) for i, x in enumerate(data.axes))
        trial = fit_parameters(data, roles, spread, None, ways)
        root = whitener_about(as_fitted(data, trial, spread))
        cost = most_probable(data, trial, root, trial.theta, FIRST_STEPS)[1] - BACKWARD_ODDS * len(which)
        if cost < least:
            best, least = trial, cost
    return best


def _subsets(axes: Sequence[int]) -> list[tuple[int, ...]]:
    return [tuple(x for k, x in enumerate(axes) if number >> k & 1) for number in range(1, 1 << len(axes))]


def _doubtful(data: DirectionData) -> list[int]:
    """Return the moved axes with which force does not clearly fall as they open, by plain least squares."""
    slopes = plain_slopes(data, data.logs.mean(axis=1))
    return [i for i, (slope, error) in slopes.items() if slope > -CLEARLY_FALLS * error]
