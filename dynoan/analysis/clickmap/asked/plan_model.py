"""The model that plans rest on: the hydraulic valve, every adjuster in play, linearised at what is known so far."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

import numpy as np

from dynoan.analysis.clickmap.assumptions.data import FRICTION_LEFT_IN, MOST_COMMON
from dynoan.analysis.clickmap.assumptions.identify import FRICTION_SPLIT
from dynoan.analysis.clickmap.assumptions.plan import (
    LADDER,
    PLANNED_DISCREPANCY,
    PLANNED_FROM,
    RUN_ERROR,
    WEIGHED_SPEEDS,
)
from dynoan.analysis.clickmap.assumptions.screws import WARPS, WARPS_COMMON
from dynoan.analysis.clickmap.assumptions.spread import SHARED_NOISE
from dynoan.analysis.clickmap.tested.data import Tested, axes_of, crossing_axis, gather
from dynoan.analysis.clickmap.trends.discrepancy import (
    click_kernel,
    own_covariance,
    shared_covariance,
    speed_kernel,
    warp_kernel,
)
from dynoan.analysis.clickmap.trends.openings import averaged, even, tables
from dynoan.analysis.clickmap.trends.spread import MapSpread
from dynoan.analysis.clickmap.valve.fit import fit_parameters
from dynoan.analysis.clickmap.valve.hydraulic import fit_hydraulic
from dynoan.analysis.clickmap.valve.law import PARAMETERS, Roles, ways
from dynoan.analysis.clickmap.valve.prior import widths
from dynoan.analysis.clickmap.valve.trend import ValveTrend
from dynoan.model.arrays import FloatArray
from dynoan.model.curve import Direction
from dynoan.model.shock import Adjuster

#: a valve of middling size, where no test says anything [SI, in logarithms where the model has them]; judged: only its
#: uncertainty matters to a plan
MIDDLING = {
    "bleed": np.log(0.06), "bleed_gain": np.log(0.14), "bleed_shape": 0.5, "opening": np.log(400.0),
    "opening_drop": np.log(0.8), "opening_shape": 0.0, "blow": np.log(0.5), "blow_power": 1.0, "blow_flow": 0.25,
    "blow_gain": 0.0, "port": np.log(2.0), "leak": np.log(0.004), "corner": np.log(0.1), "corner_power": 0.5,
    "bleed_power": 0.55, "crossing": 0.0, "rest": 0.0,
}  # fmt: skip


@dataclass(frozen=True)
class PlanDirection:
    """One direction: the trend, what it is taken to miss, and what the tests so far have settled."""

    names: tuple[str, ...]  #: adjusters, in the order of the clicks' columns
    trend: ValveTrend
    last: FloatArray  #: last click of each, (A,)
    speeds: FloatArray  #: at which errors are weighed [m/s]
    top: float  #: [m/s]
    spread: MapSpread
    clicks: FloatArray  #: of the tests, (T, A)
    test_speeds: FloatArray  #: (S',)
    total: FloatArray | None  #: covariance of the tests, None where there is none
    #: covariance of each axis' openings before any test, shares of the turn squared, (clicks + 1, clicks + 1) each
    openings: tuple[FloatArray, ...] = ()
    #: error of a planned run's curve, as the tests so far have it, a share of force, (S,) [1]
    run_error: FloatArray | None = None
    alike: float = FRICTION_SPLIT  #: error that all tests have alike and no run takes away, standard deviation [N]

    @property
    def noise(self) -> FloatArray:
        """Covariance of a planned run's own errors of ln(force), (S, S). [1]"""
        shared = SHARED_NOISE * speed_kernel(self.speeds, self.speeds)
        sd = np.full(len(self.speeds), RUN_ERROR) if self.run_error is None else self.run_error
        return np.asarray(np.outer(sd, sd) * (shared + (1 - SHARED_NOISE) * np.eye(len(self.speeds))))

    def left(self, clicks: FloatArray) -> FloatArray:
        """Return the variance of ln(force) over clicks and the weighed speeds that no run takes away, (n·S,). [1]"""
        share = self.alike / np.exp(self.trend.logs(clicks, self.speeds))
        return np.asarray(np.minimum(share, MOST_COMMON).ravel() ** 2)

    def prior(self, a: FloatArray, va: FloatArray, b: FloatArray, vb: FloatArray) -> FloatArray:
        """Return the covariance of ln(force) between two sets of clicks and speeds before any test. [1]"""
        ja = self.trend.sensitivity(a, va).reshape(len(a) * len(va), -1)
        jb = self.trend.sensitivity(b, vb).reshape(len(b) * len(vb), -1)
        alike = click_kernel(a, b, self.last, self.spread.span)
        out = ja @ jb.T + self.spread.discrepancy**2 * np.kron(alike, speed_kernel(va, vb))
        sa, sb = self.trend.slopes(a, va), self.trend.slopes(b, vb)
        each = np.ones((len(va), len(vb)))
        for i, doubt in enumerate(self.openings):
            both = doubt[np.ix_(a[:, i].astype(int), b[:, i].astype(int))]
            out = out + np.outer(sa[:, :, i].ravel(), sb[:, :, i].ravel()) * np.kron(both, each)
        return np.asarray(out)

    def posterior(self, clicks: FloatArray) -> FloatArray:
        """Return the covariance of ln(force) over clicks and the weighed speeds given the tests, (n·S, n·S). [1]"""
        prior = self.prior(clicks, self.speeds, clicks, self.speeds)
        if self.total is None:
            return prior
        cross = self.prior(clicks, self.speeds, self.clicks, self.test_speeds)
        return np.asarray(prior - cross @ np.linalg.solve(self.total, cross.T))


def plan_direction(
    direction: Direction, adjusters: Sequence[Adjuster], tested: Sequence[Tested], top: float
) -> PlanDirection:
    """Return the planning model of one direction, every adjuster in play whether or not tests moved it."""
    axes = axes_of(direction, adjusters)
    other = crossing_axis(direction, adjusters)
    if other is not None and len(axes) < 3:
        axes = (*axes, other)
    names = tuple(a.name for a in axes)
    roles = _all_roles(direction, names)
    last = np.array([max(a.clicks, 1) for a in axes], dtype=float)
    if not tested:
        prior = np.array([MIDDLING[p] for p in PARAMETERS])
        trend = ValveTrend(prior, roles, tuple(even(one.clicks) for one in axes), prior, widths(roles))
        speeds = np.array(WEIGHED_SPEEDS) * top
        return PlanDirection(names, trend, last, speeds, top, MapSpread(PLANNED_DISCREPANCY), np.zeros((0, len(axes))),
                             speeds, None, tuple(_doubt(one.clicks) for one in axes))  # fmt: skip
    data = gather(direction, axes, tested)
    spread, known, doubt = MapSpread(PLANNED_DISCREPANCY), None, tuple(_doubt(one.clicks) for one in axes)
    if len(tested) > PLANNED_FROM:
        fitted = fit_hydraulic(data)
        spread = MapSpread(max(fitted.spread.discrepancy, 0.5 * PLANNED_DISCREPANCY))
        assert isinstance(fitted.trend, ValveTrend)
        known = fitted.trend.openings
        sizes = fitted.spread.warps
        doubt = tuple(_still(fitted.doubt[i], one.clicks, sizes[i]) if data.moved[i] else doubt[i]
                      for i, one in enumerate(axes))  # fmt: skip
    trend = fit_parameters(data, roles, MapSpread(PLANNED_DISCREPANCY), None, known)
    speeds = np.array(WEIGHED_SPEEDS) * data.top_speed
    own = np.interp(np.log(speeds), np.log(data.speeds), np.sqrt(np.median(data.variance, axis=0)))
    alike = data.alike if np.isfinite(data.alike) else FRICTION_LEFT_IN
    bare = PlanDirection(names, trend, last, speeds, data.top_speed, spread, data.clicks, data.speeds, None, doubt,
                         np.maximum(own, RUN_ERROR), alike)  # fmt: skip
    total = bare.prior(data.clicks, data.speeds, data.clicks, data.speeds) \
        + own_covariance(data) + shared_covariance(data)  # fmt: skip
    return replace(bare, total=total)


def _doubt(clicks: int) -> FloatArray:
    """Return the covariance of an axis' openings before any test, shares of the turn squared. [1]"""
    opened = tables(clicks)
    warp = float(np.sqrt(np.dot(WARPS_COMMON, np.square(WARPS))))
    return _still(averaged(opened, np.zeros(len(opened))).doubt, clicks, warp)


def _still(doubt: FloatArray, clicks: int, warp: float) -> FloatArray:
    at = np.arange(clicks + 1.0)
    return np.asarray(doubt + warp**2 * warp_kernel(at, at, max(clicks, 1)))


def _all_roles(direction: Direction, names: Sequence[str]) -> Roles:
    own = ("lsc", "c", "cr") if direction == "compression" else ("lsr", "r", "cr")
    high = ("hsc", "c", "cr") if direction == "compression" else ("hsr", "r", "cr")
    cross = ("lsr", "r") if direction == "compression" else ("lsc", "c")

    def column(wanted: Sequence[str]) -> int | None:
        return next((i for i, n in enumerate(names) if n in wanted), None)

    return Roles(column(own), column(high), column(cross))


def run_speeds(models: Mapping[Direction, PlanDirection], clicks: Mapping[str, int]) -> tuple[float, ...]:
    """Return the peak speeds to run at a setting: an even ladder, and one at each expected knee. [m/s]"""
    top = max(model.top for model in models.values())
    speeds = [s for s in LADDER if s <= top * 1.001]
    for model in models.values():
        turned = model.trend.turned(np.array([[clicks[n] for n in model.names]], dtype=float))
        valve = ways(model.trend.theta, turned, model.trend.roles)
        knee = round(float(valve.speed(valve.opening)[0, 0]) / 0.005) * 0.005
        if 0.015 < knee < top and min(abs(np.log(knee / s)) for s in speeds) > 0.12:
            speeds.append(knee)
    return tuple(sorted(round(s, 4) for s in speeds))
