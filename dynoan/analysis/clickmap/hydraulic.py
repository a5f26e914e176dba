"""The hydraulic view of a click map: one valve fitted to all tested curves of a pack at once.

A Gaussian prior on every parameter keeps apart what force and velocity alone cannot (leak from bleed, spring from
corner); the tests overrule it where they can. Weights come from the curves' bands. The fit goes in two rounds: first
with a discrepancy taken for granted, then with the sizes of discrepancy and unit-to-unit spread that make the tests
likeliest.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np
from scipy.linalg import cholesky
from scipy.optimize import least_squares

from dynoan.analysis.clickmap.assumptions import (
    DISCREPANCIES,
    EXPECTED_DISCREPANCY,
    EXPECTED_SPREAD,
    FIRST_STEPS,
    ODD_LEAST,
    ODD_TIMES,
    PRIOR_WIDTH,
    SPREADS,
)
from dynoan.analysis.clickmap.data import DirectionData
from dynoan.analysis.clickmap.discrepancy import MapSpread, log_likelihood, pieces
from dynoan.analysis.clickmap.trend import FittedDirection
from dynoan.analysis.clickmap.valve import INDEX, PARAMETERS, Roles, log_force, log_force_slopes
from dynoan.model.arrays import FloatArray


@dataclass(frozen=True)
class ValveTrend:
    """The valve with its fitted parameters, as a trend over clicks and speed."""

    theta: FloatArray
    roles: Roles
    last: FloatArray
    prior: FloatArray  #: centre of the prior, (P,)
    width: FloatArray  #: standard deviation of the prior, zero where a parameter is not in play, (P,)

    def logs(self, clicks: FloatArray, speeds: FloatArray) -> FloatArray:
        """Return ln(force / 1 N) at clicks (n, A) and speeds (S,), shape (n, S). [1]"""
        return log_force(self.theta, clicks / self.last, self.roles, speeds)

    def sensitivity(self, clicks: FloatArray, speeds: FloatArray) -> FloatArray:
        """Return by how much ln(force) moves with one prior deviation of each parameter, (n, S, P). [1]"""
        slopes = log_force_slopes(self.theta, clicks / self.last, self.roles, speeds)[1]
        return np.asarray(slopes * self.width)


def roles_of(data: DirectionData, crossing: str | None = None) -> Roles:
    """Return which axis turns the bleed, the opening force and the crossing; only axes that the tests moved."""
    names = [axis.name for axis in data.axes]

    def column(*wanted: str) -> int | None:
        return next((i for i, n in enumerate(names) if n in wanted and data.moved[i]), None)

    own = ("lsc", "c", "cr") if data.direction == "compression" else ("lsr", "r", "cr")
    high = ("hsc", "c", "cr") if data.direction == "compression" else ("hsr", "r", "cr")
    return Roles(column(*own), column(*high), column(crossing) if crossing else None)


def prior_of(data: DirectionData, roles: Roles) -> tuple[FloatArray, FloatArray]:
    """Return centre and standard deviation of the prior, (P,) each, from data and trade. [as `PARAMETERS`]"""
    forces = np.exp(data.logs)
    k = len(data.speeds) // 2
    stiff, soft = np.max(forces, axis=0), np.min(forces, axis=0)
    root = np.sqrt(1000.0)
    closed = data.speeds[k // 2] * root / np.sqrt(stiff[k // 2])
    open_ = data.speeds[k // 2] * root / np.sqrt(soft[k // 2])
    opening = 0.7 * stiff[k]
    rise = max(float(stiff[-1] - stiff[k]), 0.1 * float(stiff[-1]))
    blow = max(0.7 * float(data.speeds[-1] - data.speeds[k]) / rise * 1000.0, 0.05)
    centre = {
        "bleed": np.log(closed), "bleed_gain": np.log(max(open_ - closed, closed)), "bleed_shape": 0.5,
        "opening": np.log(opening), "opening_drop": np.log(0.8), "opening_shape": 0.0,
        "blow": np.log(blow), "blow_power": 1.0, "blow_gain": 0.0, "port": np.log(2.0), "leak": np.log(0.004),
        "corner": np.log(0.1), "bleed_power": 0.5, "crossing": 0.0,
    }  # fmt: skip
    return np.array([centre[p] for p in PARAMETERS]), widths(roles)


def widths(roles: Roles) -> FloatArray:
    """Return the prior standard deviations, zero where no adjuster turns, (P,). [as `PARAMETERS`]"""
    out = dict(PRIOR_WIDTH)
    still = {
        "bleed": ("bleed_gain", "bleed_shape"),
        "opening": ("opening_drop", "opening_shape", "blow_gain"),
        "crossing": ("crossing",),
    }
    for role, names in still.items():
        if getattr(roles, role) is None:
            out |= dict.fromkeys(names, 0.0)
    return np.array([out[p] for p in PARAMETERS])


def _maximum(
    data: DirectionData, trend: ValveTrend, total: FloatArray, start: FloatArray, rounds: int
) -> tuple[FloatArray, float]:
    """Return the most probable parameters under a covariance of the residuals, and the cost there."""
    root = np.linalg.inv(cholesky(total, lower=True))
    play = np.flatnonzero(trend.width > 0)
    turned = data.clicks / trend.last

    def full(z: FloatArray) -> FloatArray:
        theta = trend.prior.copy()
        theta[play] += z * trend.width[play]
        return theta

    def residual(z: FloatArray) -> FloatArray:
        gap = (log_force(full(z), turned, trend.roles, data.speeds) - data.logs).ravel()
        return np.concatenate([root @ gap, z])

    def jacobian(z: FloatArray) -> FloatArray:
        slopes = log_force_slopes(full(z), turned, trend.roles, data.speeds)[1]
        j = slopes.reshape(data.logs.size, -1)[:, play] * trend.width[play]
        return np.vstack([root @ j, np.eye(len(play))])

    z0 = (start[play] - trend.prior[play]) / trend.width[play]
    found = least_squares(residual, np.clip(z0, -3, 3), jac=jacobian, method="trf", bounds=(-5.0, 5.0),
                          max_nfev=rounds, ftol=1e-6, xtol=1e-5, gtol=1e-6)  # fmt: skip
    return full(found.x), float(found.cost)


def _starts(prior: FloatArray, width: FloatArray) -> list[FloatArray]:
    out = []
    for opening, blow in ((0.0, 0.0), (-0.7, 0.5), (0.6, -0.5)):
        start = prior.copy()
        start[INDEX["opening"]] += opening
        start[INDEX["blow"]] += blow
        out.append(np.where(width > 0, start, prior))
    return out


def _sizes(data: DirectionData, trend: ValveTrend, spread: MapSpread) -> tuple[MapSpread, float]:
    """Return the discrepancy and unit-to-unit spread that make the tests likeliest, and how likely that is."""
    fitted = _fitted(data, trend, spread)
    parts = pieces(data, spread, fitted.jacobian)

    def score(trial: MapSpread) -> float:
        expected = (np.log(trial.discrepancy / EXPECTED_DISCREPANCY) / 0.7) ** 2
        if trial.shock:
            expected += (np.log(trial.shock / EXPECTED_SPREAD) / 0.6) ** 2
        return log_likelihood(parts.total(trial), fitted.residual) - 0.5 * float(expected)

    for _ in range(2 if spread.shock else 1):
        spread = max((replace(spread, discrepancy=size) for size in DISCREPANCIES), key=score)
        if spread.shock:
            spread = max((replace(spread, shock=unit) for unit in SPREADS), key=score)
    return spread, score(spread)


def _fitted(data: DirectionData, trend: ValveTrend, spread: MapSpread) -> FittedDirection:
    bare = FittedDirection(data, trend, spread, np.zeros(data.logs.size))
    width = np.where(trend.width > 0, trend.width, 1.0)
    moved = np.where(trend.width > 0, (trend.theta - trend.prior) / width, 0.0)
    return replace(bare, offset=np.asarray(bare.jacobian @ moved))


def parameter_sd(fitted: FittedDirection, width: FloatArray) -> FloatArray:
    """Return the posterior standard deviations, given the prior's, (P,). [as `PARAMETERS`]"""
    j = fitted.jacobian
    known = np.einsum("ij,ij->j", j, np.linalg.solve(fitted.total, j))
    return np.asarray(width * np.sqrt(np.clip(1.0 - known, 0.0, 1.0)))


def crossing_evidence(fitted: FittedDirection) -> float:
    """Return by how many standard deviations the crossing lies above none. [1]

    Opening a passage that both directions share only lets more through: a negative one is a misfit.
    """
    trend = fitted.trend
    if not isinstance(trend, ValveTrend) or trend.roles.crossing is None:
        return 0.0
    i = INDEX["crossing"]
    return float(trend.theta[i] / max(parameter_sd(fitted, trend.width)[i], 1e-9))


def fit_hydraulic(
    data: DirectionData, crossing: str | None = None, near: FittedDirection | None = None
) -> FittedDirection:
    """Return the valve fitted to one direction of all tests.

    Parameters
    ----------
    data
        At least two tests; the axis of `crossing` must be among its axes.
    crossing
        The other direction's adjuster that may turn this direction's bleed too.
    near
        A fit without crossing to start from.
    """
    roles = roles_of(data, crossing)
    several = len(set(data.shock.tolist())) > 1
    spread = MapSpread(discrepancy=0.02, shock=EXPECTED_SPREAD if several else 0.0)
    starts = [near.trend.theta] if near is not None and isinstance(near.trend, ValveTrend) else None
    trend = fit_parameters(data, roles, spread, starts)
    spread, _ = _sizes(data, trend, spread)
    odd = _odd_shocks(_fitted(data, trend, spread))
    if odd:
        spread, _ = _sizes(data, trend, replace(spread, odd=odd))
    theta, _ = _maximum(data, trend, pieces(data, spread).total(spread), trend.theta, 30)
    trend = replace(trend, theta=theta)
    spread, _ = _sizes(data, trend, spread)
    return _fitted(data, trend, spread)


def _odd_shocks(fitted: FittedDirection) -> tuple[int, ...]:
    """Return the shocks that lie far from the others, where there are enough to tell which: worn, or another build."""
    numbers = np.unique(fitted.data.shock)
    if len(numbers) < 3:
        return ()
    effects = fitted.shock_effects(fitted.data.speeds).mean(axis=1)[numbers]
    away = np.abs(effects - np.median(effects))
    limit = max(ODD_LEAST, ODD_TIMES * float(np.median(away)))
    odd = numbers[away > limit]
    return tuple(int(n) for n in odd) if len(odd) < len(numbers) / 2 else ()


def fit_parameters(
    data: DirectionData, roles: Roles, spread: MapSpread, starts: list[FloatArray] | None = None
) -> ValveTrend:
    """Return the valve fitted with discrepancy and spread taken for granted, from several fixed starts."""
    prior, width = prior_of(data, roles)
    trend = ValveTrend(prior, roles, data.last, prior, width)
    rough = pieces(data, spread).total(spread)
    starts = starts or _starts(prior, width)
    # A few steps from each start tell which valley is the deepest; only that one is followed to its floor.
    tried = [_maximum(data, trend, rough, s, FIRST_STEPS) for s in starts] if len(starts) > 1 else [(starts[0], 0.0)]
    best = min(tried, key=lambda pair: pair[1])
    return replace(trend, theta=_maximum(data, trend, rough, best[0], 40)[0])
