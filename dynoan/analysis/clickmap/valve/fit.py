"""A valve's parameters fitted to the tests, with openings and the sizes of what it leaves over taken for granted."""

from __future__ import annotations

from dataclasses import replace
from functools import lru_cache

import numpy as np
from scipy.linalg import cholesky
from scipy.linalg.lapack import dtrtri

from dynoan.analysis.clickmap.assumptions import views as a
from dynoan.analysis.clickmap.tested.data import DirectionData
from dynoan.analysis.clickmap.trends.discrepancy import pieces
from dynoan.analysis.clickmap.trends.openings import even
from dynoan.analysis.clickmap.trends.spread import MapSpread
from dynoan.analysis.clickmap.trends.trend import FittedDirection
from dynoan.analysis.clickmap.valve.law import INDEX, Roles, Ways, log_force_at, solved
from dynoan.analysis.clickmap.valve.prior import prior_of
from dynoan.analysis.clickmap.valve.slopes import log_force_slopes
from dynoan.analysis.clickmap.valve.trend import ValveTrend
from dynoan.model.arrays import FloatArray


def whitener(total: FloatArray) -> FloatArray:
    """Return what makes residuals of a covariance independent ones of one, a lower triangle of its shape. [1]"""
    return np.asarray(dtrtri(cholesky(total, lower=True), lower=1)[0])


def most_probable(
    data: DirectionData, trend: ValveTrend, root: FloatArray, start: FloatArray, rounds: int
) -> tuple[FloatArray, float]:
    """Return the most probable parameters, and the cost there; `root` is the `whitener` of the residuals. [1]"""
    from scipy.optimize import least_squares  # who only reads maps is spared it

    play = np.flatnonzero(trend.width > 0)
    turned = trend.turned(data.clicks)

    def full(z: FloatArray) -> FloatArray:
        theta = trend.prior.copy()
        theta[play] += z * trend.width[play]
        return theta

    last: dict[bytes, tuple[Ways, FloatArray]] = {}  # slopes are asked for where the gap was worked out just before

    def now(z: FloatArray) -> tuple[Ways, FloatArray]:
        if z.tobytes() not in last:
            last.clear()
            last[z.tobytes()] = solved(full(z), turned, trend.roles, data.speeds)
        return last[z.tobytes()]

    def residual(z: FloatArray) -> FloatArray:
        gap = (log_force_at(full(z), now(z), data.speeds) - data.logs).ravel()
        return np.concatenate([root @ gap, z])

    def jacobian(z: FloatArray) -> FloatArray:
        slopes = log_force_slopes(full(z), turned, trend.roles, data.speeds, now(z))[1]
        j = slopes.reshape(data.logs.size, -1)[:, play] * trend.width[play]
        return np.vstack([root @ j, np.eye(len(play))])

    z0 = (start[play] - trend.prior[play]) / trend.width[play]
    found = least_squares(residual, np.clip(z0, -3, 3), jac=jacobian, method="trf", bounds=(-5.0, 5.0),
                          max_nfev=rounds, ftol=1e-6, xtol=1e-5, gtol=1e-6)  # fmt: skip
    return full(found.x), float(found.cost)


@lru_cache(maxsize=4)
def _rough(data: DirectionData, spread: MapSpread) -> FloatArray:
    """Return the `whitener` of residuals about a valve that is not yet known, whatever its openings and roles. [1]"""
    return whitener(pieces(data, spread).total(spread))


def fit_parameters(
    data: DirectionData, roles: Roles, spread: MapSpread, starts: list[FloatArray] | None = None,
    openings: tuple[FloatArray, ...] | None = None,
) -> ValveTrend:  # fmt: skip
    """Return the valve fitted with discrepancy, spread and openings taken for granted, from several fixed starts."""
    prior, width = prior_of(data, roles)
    trend = ValveTrend(prior, roles, openings or tuple(even(axis.clicks) for axis in data.axes), prior, width)
    rough = _rough(data, spread)
    starts = starts or _starts(prior, width)
    # A few steps from each start tell which valley is the deepest; only that one is followed to its floor.
    best = starts[0]
    if len(starts) > 1:
        tried = [most_probable(data, trend, rough, start, a.FIRST_STEPS) for start in starts]
        best = min(tried, key=lambda pair: pair[1])[0]
    return replace(trend, theta=most_probable(data, trend, rough, best, 40)[0])


def _starts(prior: FloatArray, width: FloatArray) -> list[FloatArray]:
    out = []
    for opening, blow in ((0.0, 0.0), (-0.7, 0.5), (0.6, -0.5)):
        start = prior.copy()
        start[INDEX["opening"]] += opening
        start[INDEX["blow"]] += blow
        out.append(np.where(width > 0, start, prior))
    return out


def as_fitted(data: DirectionData, trend: ValveTrend, spread: MapSpread) -> FittedDirection:
    """Return one direction's tests with a valve fitted to them and the sizes of what it leaves over."""
    bare = FittedDirection(data, trend, spread, np.zeros(data.logs.size))
    width = np.where(trend.width > 0, trend.width, 1.0)
    moved = np.where(trend.width > 0, (trend.theta - trend.prior) / width, 0.0)
    return replace(bare, offset=np.asarray(bare.jacobian @ moved), settled=moved)


def whitener_about(fitted: FittedDirection) -> FloatArray:
    """Return the `whitener` of the tests about the trend as it stands, (T·S, T·S). [1]"""
    return whitener(pieces(fitted.data, fitted.spread, None, fitted.slopes, fitted.worn).total(fitted.spread))


def fairly_weighed(data: DirectionData, fitted: FloatArray) -> DirectionData:
    """Return the data with errors as shares of the fitted force: as shares of the force seen, what was seen too high
    would count for more.

    Where a force is hardly more than its error, that error is even in newtons and not in the logarithm: there the
    logarithm is taken as a straight line about the fit.
    """
    away = data.logs - fitted
    share = np.exp(np.clip(away, -a.WEIGHED_ANEW, a.WEIGHED_ANEW))
    nuisances = [one * share for one in (data.split, data.common, data.rubbed) if len(one)]
    variance = data.variance * share**2
    error = np.sqrt(variance + sum((one**2 for one in nuisances), np.zeros_like(variance)))
    logs = np.where(error > a.FEEBLE_SHARE, fitted + np.minimum(np.expm1(np.minimum(away, 1.0)), 1.0), data.logs)
    return replace(data, logs=logs, variance=variance, split=data.split * share, common=data.common * share,
                   rubbed=data.rubbed * share)  # fmt: skip
