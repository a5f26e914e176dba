"""The hydraulic view of a click map: one valve fitted to all tested curves of a pack at once.

A Gaussian prior on every parameter keeps apart what force and velocity alone cannot (leak from bleed, spring from
corner); the tests overrule it where they can. Weights come from the curves' bands. The fit goes in rounds: first with
everything regular, then with the openings that the tests show (see `openings`), then with the sizes of discrepancy,
warps, run scatter, states and unit-to-unit spread that make the tests likely.
"""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from dynoan.analysis.clickmap.assumptions import views as a
from dynoan.analysis.clickmap.shocks.odd_shocks import odd_shocks
from dynoan.analysis.clickmap.tested.data import DirectionData
from dynoan.analysis.clickmap.trends.sizes import fitted_sizes
from dynoan.analysis.clickmap.trends.spread import MapSpread
from dynoan.analysis.clickmap.trends.trend import FittedDirection
from dynoan.analysis.clickmap.valve.backward import best_way_round
from dynoan.analysis.clickmap.valve.crossing import crossing_probability
from dynoan.analysis.clickmap.valve.fit import as_fitted, fairly_weighed, most_probable, whitener_about
from dynoan.analysis.clickmap.valve.law import INDEX
from dynoan.analysis.clickmap.valve.openings import with_openings
from dynoan.analysis.clickmap.valve.prior import first_spread, roles_of
from dynoan.analysis.clickmap.valve.trend import ValveTrend


def fit_hydraulic(data: DirectionData, crossing: str | None = None, begun: ValveTrend | None = None) -> FittedDirection:
    """Return the valve fitted to one direction of all tests.

    Parameters
    ----------
    data
        At least two tests; the axis of `crossing` must be among its axes.
    crossing
        The other direction's adjuster that may turn this direction's bleed too.
    begun
        What `best_way_round` found of them, where that was asked before.
    """
    roles = roles_of(data, crossing)
    spread = first_spread(data)
    trend = begun or best_way_round(data, roles, spread)
    # Before it is asked how adjusters open: one worn shock at its one setting looks like an adjuster that jumps.
    weighed, odd = _weighed(data, trend, spread)
    if not odd and rests(as_fitted(data, trend, spread)):
        trend = best_way_round(data, replace(roles, rest=True), spread)
        weighed, odd = _weighed(data, trend, spread)
    data, spread = weighed, replace(spread, odd=odd)
    trend, openings = with_openings(data, trend, spread)
    fitted = fitted_sizes(as_fitted(data, trend, spread))
    odd = _odd(data, trend, spread)
    if odd:
        fitted = fitted_sizes(replace(fitted, spread=replace(fitted.spread, odd=odd)))
    trend = _warped(fitted, trend)
    trend = replace(trend, theta=most_probable(data, trend, whitener_about(fitted), trend.theta, 30)[0])
    fitted = fitted_sizes(as_fitted(data, trend, fitted.spread))
    trend = replace(trend, theta=most_probable(data, trend, whitener_about(fitted), trend.theta, 12)[0])
    fitted = as_fitted(data, trend, fitted.spread)
    return replace(fitted, openings=openings, doubt=tuple(one.doubt for one in openings),
                   crossing=crossing_probability(fitted),
                   shared=None if roles.crossing is None else INDEX["crossing"])  # fmt: skip


def _weighed(data: DirectionData, trend: ValveTrend, spread: MapSpread) -> tuple[DirectionData, tuple[int, ...]]:
    """Return the data with errors as shares of the fitted force, and which shocks lie far from the others."""
    weighed = fairly_weighed(data, trend.logs(data.clicks, data.speeds))
    return weighed, _odd(weighed, trend, spread)


def _odd(data: DirectionData, trend: ValveTrend, spread: MapSpread) -> tuple[int, ...]:
    """Return the shocks that lie far from the others, screws taken to come back: the one run of a shock that leaks
    looks like a screw that does not."""
    return odd_shocks(fitted_sizes(as_fitted(data, trend, replace(spread, loose=()))))


def rests(fitted: FittedDirection) -> bool:
    """Return whether the tests have a force that stays as the shaft comes to rest: more than friction or zero, which
    all of them may have wrong alike, can be off."""
    if not len(fitted.data.common):
        return False
    return abs(float(np.sum(fitted.data.common * fitted.pull))) > a.REST_SUSPECTED


def _warped(fitted: FittedDirection, trend: ValveTrend) -> ValveTrend:
    """Return the trend with openings moved to where the tests pull them."""
    moved = [np.clip(table + warp, -a.PAST_END, 1.0 + a.PAST_END)
             for table, warp in zip(trend.openings, fitted.warps(), strict=True)]  # fmt: skip
    return replace(trend, openings=tuple(moved))
