"""Whether the other direction's adjuster moves this direction too."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
from scipy.special import log_ndtr

from dynoan.analysis.clickmap.assumptions.screws import CROSSING_COMMON, CROSSING_SUSPECTED
from dynoan.analysis.clickmap.assumptions.views import FIRST_STEPS
from dynoan.analysis.clickmap.tested.data import DirectionData
from dynoan.analysis.clickmap.trends.sizes import fitted_sizes
from dynoan.analysis.clickmap.trends.trend import FittedDirection
from dynoan.analysis.clickmap.valve.backward import best_way_round
from dynoan.analysis.clickmap.valve.fit import as_fitted, fairly_weighed, most_probable, whitener_about
from dynoan.analysis.clickmap.valve.law import INDEX
from dynoan.analysis.clickmap.valve.prior import first_spread, roles_of
from dynoan.analysis.clickmap.valve.trend import ValveTrend
from dynoan.model.arrays import FloatArray


def crossing_suspected(data: DirectionData, crossing: str) -> ValveTrend | None:
    """Return the valve with the other direction's adjuster fitted along, if by regular openings it is worth it."""
    roles, spread = roles_of(data, crossing), first_spread(data)
    begun = trend = best_way_round(data, roles, spread)
    data = fairly_weighed(data, trend.logs(data.clicks, data.speeds))
    fitted = fitted_sizes(as_fitted(data, trend, spread))
    trend = replace(trend, theta=most_probable(data, trend, whitener_about(fitted), trend.theta, FIRST_STEPS)[0])
    return begun if crossing_probability(as_fitted(data, trend, fitted.spread)) > CROSSING_SUSPECTED else None


def crossing_probability(fitted: FittedDirection) -> float:
    """Return how probable it is that the other direction's adjuster moves this one too. [1]

    Opening a passage that both directions share only lets more through, so its size is half a Gaussian beforehand; what
    the tests make of none at all against what it was beforehand is the evidence (Dickey's ratio, from memory).
    """
    trend = fitted.trend
    if not isinstance(trend, ValveTrend) or trend.roles.crossing is None:
        return 0.0
    i = INDEX["crossing"]
    sd = max(float(parameter_sd(fitted, trend.width)[i]), 1e-9)
    away = float(trend.theta[i]) / sd
    none_before = np.log(2.0 / trend.width[i])
    none_after = -0.5 * away**2 - np.log(sd) - float(log_ndtr(away))
    odds = CROSSING_COMMON / (1.0 - CROSSING_COMMON) * np.exp(min(none_before - none_after, 50.0))
    return float(odds / (1.0 + odds))


def parameter_sd(fitted: FittedDirection, width: FloatArray) -> FloatArray:
    """Return the posterior standard deviations, given the prior's, (P,). [as `PARAMETERS`]"""
    j = fitted.jacobian
    known = np.einsum("ij,ij->j", j, np.linalg.solve(fitted.total, j))
    return np.asarray(width * np.sqrt(np.clip(1.0 - known, 0.0, 1.0)))
