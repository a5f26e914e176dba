"""A fitted trend with its discrepancy: logarithms of force, and their standard deviation, at any click and speed."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property
from typing import Protocol

import numpy as np

from dynoan.analysis.clickmap.assumptions import ODD_SHARE
from dynoan.analysis.clickmap.data import DirectionData
from dynoan.analysis.clickmap.discrepancy import MapSpread, click_kernel, pieces, speed_kernel, untested_share
from dynoan.model.arrays import FloatArray


class Trend(Protocol):
    """The part of a click map that knows how adjusters work."""

    def logs(self, clicks: FloatArray, speeds: FloatArray) -> FloatArray:
        """Return ln(force / 1 N) at clicks (n, A) and speeds (S,), shape (n, S). [1]"""
        ...

    def sensitivity(self, clicks: FloatArray, speeds: FloatArray) -> FloatArray:
        """Return by how much ln(force) moves with one prior deviation of each parameter, (n, S, P). [1]"""
        ...


@dataclass(frozen=True)
class FittedDirection:
    """One direction of a pack: trend, the sizes of what it leaves over, and the data both rest on."""

    data: DirectionData
    trend: Trend
    spread: MapSpread
    offset: FloatArray  #: what linearising adds to the residuals, ``J·(θ − prior)``, shape (T·S,)

    @cached_property
    def jacobian(self) -> FloatArray:
        """Sensitivity at the tests, shape (T·S, P). [1]"""
        j = self.trend.sensitivity(self.data.clicks, self.data.speeds)
        return j.reshape(self.data.logs.size, -1)

    @cached_property
    def total(self) -> FloatArray:
        """Covariance of the tests about the prior trend, shape (T·S, T·S). [1]"""
        return pieces(self.data, self.spread, self.jacobian).total(self.spread)

    @cached_property
    def residual(self) -> FloatArray:
        """Residuals of ln(force) about the linearised prior trend, shape (T·S,). [1]"""
        fitted = self.trend.logs(self.data.clicks, self.data.speeds)
        return np.asarray((self.data.logs - fitted).ravel() + self.offset)

    @cached_property
    def _inverse(self) -> FloatArray:
        return np.asarray(np.linalg.inv(self.total), dtype=float)

    @cached_property
    def _pull(self) -> FloatArray:
        return np.asarray(self._inverse @ self.residual)

    def logs(self, clicks: FloatArray, speeds: FloatArray) -> FloatArray:
        """Return ln(force) at clicks (n, A) and speeds (S,) for the mean shock, shape (n, S). [1]"""
        kc = click_kernel(clicks, self.data.clicks, self.data.last, self.spread.span)
        kv = speed_kernel(self.data.speeds, speeds)
        pull = self._pull.reshape(self.data.logs.shape)
        # The trend was refitted, so that its own share of the correction is already in it.
        return np.asarray(self.trend.logs(clicks, speeds) + self.spread.discrepancy**2 * (kc @ (pull @ kv)))

    def cross(self, clicks: FloatArray, speeds: FloatArray) -> FloatArray:
        """Return the covariance of ln(force) at clicks and speeds with the tests, (n·S, T·S'). [1]"""
        kc = click_kernel(clicks, self.data.clicks, self.data.last, self.spread.span)
        kv = speed_kernel(speeds, self.data.speeds)
        j = self.trend.sensitivity(clicks, speeds).reshape(len(clicks) * len(speeds), -1)
        return np.asarray(self.spread.discrepancy**2 * np.kron(kc, kv) + j @ self.jacobian.T)

    def variance(self, clicks: FloatArray, speeds: FloatArray) -> FloatArray:
        """Return the variance of ln(force) of the mean shock at clicks and speeds, shape (n, S). [1]"""
        j = self.trend.sensitivity(clicks, speeds).reshape(len(clicks) * len(speeds), -1)
        cross = self.cross(clicks, speeds)
        prior = self.spread.discrepancy**2 + np.sum(j**2, axis=1)
        known = np.einsum("ij,ij->i", cross @ self._inverse, cross)
        out = np.maximum(prior - known, 1e-8).reshape(len(clicks), len(speeds))
        return np.asarray(out + untested_share(self.data, clicks)[:, None] ** 2)

    def shock_effects(self, speeds: FloatArray) -> FloatArray:
        """Return each shock's deviation from the mean shock as ln(force), by number and speed, shape (n, S). [1]

        One factor over all speeds, but for odd shocks, whose deviation is free to change with speed.
        """
        pull = self._pull.reshape(self.data.logs.shape)
        count = int(self.data.shock.max()) + 1
        member = (np.arange(count)[:, None] == self.data.shock[None, :]).astype(float)
        by_shock = member @ pull
        out = self.spread.shock**2 * by_shock.sum(axis=1, keepdims=True) * np.ones(len(speeds))
        odd = np.array(self.spread.odd, dtype=int)
        out[odd, :] = ODD_SHARE**2 * by_shock[odd, :] @ speed_kernel(self.data.speeds, speeds)
        return np.asarray(out)
