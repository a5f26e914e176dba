"""The hydraulic view of a click map: one valve fitted to all tested curves of a pack at once.

A Gaussian prior on every parameter keeps apart what force and velocity alone cannot (leak from bleed, spring from
corner); the tests overrule it where they can. Weights come from the curves' bands. The fit goes in rounds: first with
everything regular, then with the openings that the tests show (see `openings`), then with the sizes of discrepancy,
warps, run scatter, states and unit-to-unit spread that make the tests likely.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np
from scipy.linalg import cho_factor, cho_solve, cholesky
from scipy.optimize import least_squares
from scipy.special import log_ndtr

from dynoan.analysis.clickmap import assumptions as a
from dynoan.analysis.clickmap.data import DirectionData
from dynoan.analysis.clickmap.discrepancy import MapSpread, log_likelihood, pieces
from dynoan.analysis.clickmap.odd_shocks import odd_shocks
from dynoan.analysis.clickmap.openings import ClickOpening, OpeningTable, averaged, even, tables
from dynoan.analysis.clickmap.plain import plain_slopes
from dynoan.analysis.clickmap.sizes import fitted_sizes
from dynoan.analysis.clickmap.trend import FittedDirection
from dynoan.analysis.clickmap.valve import INDEX, PARAMETERS, Roles, log_force, log_force_slopes
from dynoan.model.arrays import FloatArray


@dataclass(frozen=True)
class ValveTrend:
    """The valve with its fitted parameters, as a trend over clicks and speed."""

    theta: FloatArray
    roles: Roles
    openings: tuple[FloatArray, ...]  #: of each axis, share of the turn by click, (clicks + 1,)
    prior: FloatArray  #: centre of the prior, (P,)
    width: FloatArray  #: standard deviation of the prior, zero where a parameter is not in play, (P,)

    def turned(self, clicks: FloatArray) -> FloatArray:
        """Return the share that each axis is open at clicks (n, A), the same shape. [1]"""
        out = np.empty_like(clicks, dtype=float)
        for i, table in enumerate(self.openings):
            out[:, i] = np.interp(clicks[:, i], np.arange(len(table)), table)
        return out

    def logs(self, clicks: FloatArray, speeds: FloatArray) -> FloatArray:
        """Return ln(force / 1 N) at clicks (n, A) and speeds (S,), shape (n, S). [1]"""
        return log_force(self.theta, self.turned(clicks), self.roles, speeds)

    def sensitivity(self, clicks: FloatArray, speeds: FloatArray) -> FloatArray:
        """Return by how much ln(force) moves with one prior deviation of each parameter, (n, S, P). [1]"""
        slopes = log_force_slopes(self.theta, self.turned(clicks), self.roles, speeds)[1]
        return np.asarray(slopes * self.width)

    def slopes(self, clicks: FloatArray, speeds: FloatArray) -> FloatArray:
        """Return by how much ln(force) moves with a whole turn of each axis, as the slope there, (n, S, A). [1]"""
        at = self.turned(clicks)
        out = np.zeros((len(clicks), len(speeds), clicks.shape[1]))
        for i in range(clicks.shape[1]):
            if i not in (self.roles.bleed, self.roles.opening, self.roles.crossing):
                continue
            up, down = at.copy(), at.copy()
            up[:, i], down[:, i] = np.minimum(at[:, i] + a.SLOPE_STEP, 1.0), np.maximum(at[:, i] - a.SLOPE_STEP, 0.0)
            gap = log_force(self.theta, up, self.roles, speeds) - log_force(self.theta, down, self.roles, speeds)
            out[:, :, i] = gap / (up[:, i] - down[:, i])[:, None]
        return out

    def unseen(self, clicks: FloatArray, speeds: FloatArray) -> FloatArray:
        """Return none, (n, S) zeros: the valve's parameters and openings hold the doubt between tested clicks. [1]"""
        return np.zeros((len(clicks), len(speeds)))


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
        "blow": np.log(blow), "blow_power": 1.0, "blow_flow": 0.25, "blow_gain": 0.0, "port": np.log(2.0),
        "leak": np.log(0.004), "corner": np.log(0.1), "bleed_power": 0.55, "corner_power": 0.5, "crossing": 0.0,
    }  # fmt: skip
    return np.array([centre[p] for p in PARAMETERS]), widths(roles)


def widths(roles: Roles) -> FloatArray:
    """Return the prior standard deviations, zero where no adjuster turns, (P,). [as `PARAMETERS`]"""
    out = dict(a.PRIOR_WIDTH)
    still = {
        "bleed": ("bleed_gain", "bleed_shape"),
        "opening": ("opening_drop", "opening_shape", "blow_gain", "corner_power"),
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
    turned = trend.turned(data.clicks)

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


def _fitted(data: DirectionData, trend: ValveTrend, spread: MapSpread) -> FittedDirection:
    bare = FittedDirection(data, trend, spread, np.zeros(data.logs.size))
    width = np.where(trend.width > 0, trend.width, 1.0)
    moved = np.where(trend.width > 0, (trend.theta - trend.prior) / width, 0.0)
    return replace(bare, offset=np.asarray(bare.jacobian @ moved), settled=moved)


def parameter_sd(fitted: FittedDirection, width: FloatArray) -> FloatArray:
    """Return the posterior standard deviations, given the prior's, (P,). [as `PARAMETERS`]"""
    j = fitted.jacobian
    known = np.einsum("ij,ij->j", j, np.linalg.solve(fitted.total, j))
    return np.asarray(width * np.sqrt(np.clip(1.0 - known, 0.0, 1.0)))


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
    odds = a.CROSSING_COMMON / (1.0 - a.CROSSING_COMMON) * np.exp(min(none_before - none_after, 50.0))
    return float(odds / (1.0 + odds))


def crossing_suspected(data: DirectionData, crossing: str) -> bool:
    """Return whether it is worth fitting the other direction's adjuster along, by a fit with regular openings."""
    roles, spread = roles_of(data, crossing), first_spread(data)
    trend = _best_way_round(data, roles, spread)
    data = _fairly_weighed(data, trend.logs(data.clicks, data.speeds))
    fitted = fitted_sizes(_fitted(data, trend, spread))
    trend = replace(trend, theta=_maximum(data, trend, _about(fitted), trend.theta, a.FIRST_STEPS)[0])
    return crossing_probability(_fitted(data, trend, fitted.spread)) > a.CROSSING_SUSPECTED


def first_spread(data: DirectionData) -> MapSpread:
    """Return the sizes taken before the tests have spoken."""
    several = len(set(data.shock.tolist())) > 1
    first = {state.shock: number for number, state in reversed(list(enumerate(data.states)))}
    states = tuple(0.0 if first[s.shock] == k else a.STATES[1] for k, s in enumerate(data.states))
    return MapSpread(
        discrepancy=a.EXPECTED_DISCREPANCY, shock=a.EXPECTED_SPREAD if several else 0.0,
        states=states, warps=tuple(a.WARPS[1] for _ in data.axes),
    )  # fmt: skip


def fit_hydraulic(data: DirectionData, crossing: str | None = None) -> FittedDirection:
    """Return the valve fitted to one direction of all tests.

    Parameters
    ----------
    data
        At least two tests; the axis of `crossing` must be among its axes.
    crossing
        The other direction's adjuster that may turn this direction's bleed too.
    """
    roles = roles_of(data, crossing)
    spread = first_spread(data)
    trend = _best_way_round(data, roles, spread)
    data = _fairly_weighed(data, trend.logs(data.clicks, data.speeds))
    # Before it is asked how adjusters open: one worn shock at its one setting looks like an adjuster that jumps.
    spread = replace(spread, odd=odd_shocks(fitted_sizes(_fitted(data, trend, spread))))
    trend, openings = _with_openings(data, trend, spread)
    fitted = fitted_sizes(_fitted(data, trend, spread))
    odd = odd_shocks(fitted)
    if odd:
        fitted = fitted_sizes(replace(fitted, spread=replace(fitted.spread, odd=odd)))
    trend = _warped(fitted, trend)
    trend = replace(trend, theta=_maximum(data, trend, _about(fitted), trend.theta, 30)[0])
    fitted = fitted_sizes(_fitted(data, trend, fitted.spread))
    trend = replace(trend, theta=_maximum(data, trend, _about(fitted), trend.theta, 12)[0])
    fitted = _fitted(data, trend, fitted.spread)
    return replace(fitted, openings=openings, doubt=tuple(one.doubt for one in openings),
                   crossing=crossing_probability(fitted))  # fmt: skip


def _fairly_weighed(data: DirectionData, fitted: FloatArray) -> DirectionData:
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


def _about(fitted: FittedDirection) -> FloatArray:
    """Return the covariance of the tests about the trend as it stands, (T·S, T·S). [1]"""
    return pieces(fitted.data, fitted.spread, None, fitted.slopes).total(fitted.spread)


def _warped(fitted: FittedDirection, trend: ValveTrend) -> ValveTrend:
    """Return the trend with openings moved to where the tests pull them."""
    moved = [np.clip(table + warp, -a.PAST_END, 1.0 + a.PAST_END)
             for table, warp in zip(trend.openings, fitted.warps(), strict=True)]  # fmt: skip
    return replace(trend, openings=tuple(moved))


def _best_way_round(data: DirectionData, roles: Roles, spread: MapSpread) -> ValveTrend:
    """Return the valve fitted with every adjuster as written, or with some the other way where that fits far better."""
    plain = tuple(even(axis.clicks) for axis in data.axes)
    first = fit_parameters(data, roles, spread, None, plain)
    doubtful = [i for i in _doubtful(data) if i in (roles.bleed, roles.opening)]
    if not doubtful:
        return first
    total = _about(_fitted(data, first, spread))
    best, least = first, _maximum(data, first, total, first.theta, a.FIRST_STEPS)[1]
    for which in _subsets(doubtful):
        ways = tuple(even(x.clicks, i in which) for i, x in enumerate(data.axes))
        trial = fit_parameters(data, roles, spread, None, ways)
        total = _about(_fitted(data, trial, spread))
        cost = _maximum(data, trial, total, trial.theta, a.FIRST_STEPS)[1] - a.BACKWARD_ODDS * len(which)
        if cost < least:
            best, least = trial, cost
    return best


def _subsets(axes: Sequence[int]) -> list[tuple[int, ...]]:
    return [tuple(x for k, x in enumerate(axes) if number >> k & 1) for number in range(1, 1 << len(axes))]


def _doubtful(data: DirectionData) -> list[int]:
    """Return the moved axes with which force does not clearly fall as they open, by plain least squares."""
    slopes = plain_slopes(data, data.logs.mean(axis=1))
    return [i for i, (slope, error) in slopes.items() if slope > -a.CLEARLY_FALLS * error]


def _with_openings(
    data: DirectionData, trend: ValveTrend, spread: MapSpread
) -> tuple[ValveTrend, tuple[ClickOpening, ...]]:
    """Return the trend with each axis' openings averaged over what they may be, and what is known of them."""
    calm = replace(spread, warps=tuple(a.WARPS[0] for _ in data.axes))
    known: dict[int, ClickOpening] = {}
    for turn in range(a.OPENING_ROUNDS):
        before = trend.openings
        for i, axis in enumerate(data.axes):
            if data.moved[i] and axis.clicks > 0 and i in (trend.roles.bleed, trend.roles.opening):
                if turn == 0:
                    trend = _likeliest(_fitted(data, trend, calm), trend, i)
                known[i] = _opening(_fitted(data, trend, calm), trend, i)
                trend = _opened(trend, i, known[i].table)
        if all(np.allclose(x, y, atol=a.OPENINGS_ALIKE) for x, y in zip(before, trend.openings, strict=True)):
            break
        about = _about(_fitted(data, trend, calm))
        trend = replace(trend, theta=_maximum(data, trend, about, trend.theta, a.FIRST_STEPS)[0])
    plain = [averaged(tables(1), np.zeros(len(tables(1)))) for _ in data.axes]
    still = [replace(p, table=t, doubt=np.zeros((len(t), len(t)))) for p, t in zip(plain, trend.openings, strict=True)]
    return trend, tuple(known.get(i, one) for i, one in enumerate(still))


def _opened(trend: ValveTrend, axis: int, table: FloatArray) -> ValveTrend:
    """Return the trend with one axis opening along a table."""
    return replace(trend, openings=(*trend.openings[:axis], table, *trend.openings[axis + 1 :]))


def _opening(fitted: FittedDirection, trend: ValveTrend, axis: int) -> ClickOpening:
    """Return how one axis opens: every table tried in the fitted valve, its parameters following in a straight line."""
    return averaged(*_evidence(fitted, trend, axis))


def _evidence(fitted: FittedDirection, trend: ValveTrend, axis: int) -> tuple[list[OpeningTable], FloatArray]:
    """Return the ways an axis may open, and how likely the tests are under each, a logarithm. [1]"""
    data = fitted.data
    table = trend.openings[axis]
    ways = tables(len(table) - 1, bool(table[-1] < table[0]))
    logs = _force_over_opening(fitted, trend, axis)
    at = np.array([way.table[data.clicks[:, axis].astype(int)] for way in ways]) * (a.OPENING_POINTS - 1)
    low = np.minimum(at.astype(int), a.OPENING_POINTS - 2)
    part, rows = (at - low)[:, :, None], np.arange(data.tests)
    here = logs[rows, low] * (1.0 - part) + logs[rows, low + 1] * part
    gap = (data.logs - here).reshape(len(ways), -1) + fitted.offset
    factor = cho_factor(fitted.total, lower=True)
    return ways, np.asarray(-0.5 * np.einsum("ij,ij->i", gap, cho_solve(factor, gap.T).T))


def _likeliest(fitted: FittedDirection, trend: ValveTrend, axis: int) -> ValveTrend:
    """Return the trend with the likeliest way an axis may open, the valve fitted anew to the few best.

    A straight line from a valve that was fitted to other openings shows which few to try, not which is right.
    """
    data = fitted.data
    ways, evidence = _evidence(fitted, trend, axis)
    score = evidence + np.log([max(way.common, 1e-12) for way in ways])
    tested = np.array([way.table for way in ways])[:, data.clicks[:, axis].astype(int)]
    picked: list[int] = []
    for k in np.argsort(-score):
        if all(np.max(np.abs(tested[k] - tested[other])) > a.OTHER_OPENING for other in picked):
            picked.append(int(k))
        if len(picked) == a.OPENINGS_TRIED:
            break
    if score[picked[0]] - score[picked[-1]] < a.TOLD_APART:
        return trend
    about = _about(fitted)
    best, most = trend, -np.inf
    for k in picked:
        trial = _opened(trend, axis, ways[k].table)
        trial = replace(trial, theta=_maximum(data, trial, about, trial.theta, a.FIRST_STEPS)[0])
        anew = _fitted(data, trial, fitted.spread)
        likely = log_likelihood(anew.total, anew.residual) + float(np.log(max(ways[k].common, 1e-12)))
        if likely > most:
            best, most = trial, likely
    return best


def _force_over_opening(fitted: FittedDirection, trend: ValveTrend, axis: int) -> FloatArray:
    """Return ln(force) of each test with one axis at openings all over its range, (T, points, S). [1]"""
    data = fitted.data
    turned = np.repeat(trend.turned(data.clicks)[:, None, :], a.OPENING_POINTS, axis=1)
    turned[:, :, axis] = np.linspace(0.0, 1.0, a.OPENING_POINTS)
    logs = log_force(trend.theta, turned.reshape(-1, turned.shape[2]), trend.roles, data.speeds)
    return np.asarray(logs.reshape(data.tests, a.OPENING_POINTS, -1))


def fit_parameters(
    data: DirectionData, roles: Roles, spread: MapSpread, starts: list[FloatArray] | None = None,
    openings: tuple[FloatArray, ...] | None = None,
) -> ValveTrend:  # fmt: skip
    """Return the valve fitted with discrepancy, spread and openings taken for granted, from several fixed starts."""
    prior, width = prior_of(data, roles)
    trend = ValveTrend(prior, roles, openings or tuple(even(axis.clicks) for axis in data.axes), prior, width)
    rough = pieces(data, spread).total(spread)
    starts = starts or _starts(prior, width)
    # A few steps from each start tell which valley is the deepest; only that one is followed to its floor.
    tried = [_maximum(data, trend, rough, s, a.FIRST_STEPS) for s in starts] if len(starts) > 1 else [(starts[0], 0.0)]
    best = min(tried, key=lambda pair: pair[1])
    return replace(trend, theta=_maximum(data, trend, rough, best[0], 40)[0])
