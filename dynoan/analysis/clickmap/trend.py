"""A fitted trend with its discrepancy: logarithms of force, and their standard deviation, at any click and speed."""

from __future__ import annotations

from dataclasses import dataclass, field
from functools import cached_property
from typing import Protocol

import numpy as np

from dynoan.analysis.clickmap.assumptions import EVEN_SHARE, ODD_SHARE
from dynoan.analysis.clickmap.data import DirectionData
from dynoan.analysis.clickmap.discrepancy import (
    MapSpread,
    click_kernel,
    pieces,
    speed_kernel,
    untested_share,
    warp_kernel,
)
from dynoan.analysis.clickmap.openings import ClickOpening
from dynoan.model.arrays import FloatArray


class Trend(Protocol):
    """The part of a click map that knows how adjusters work."""

    def logs(self, clicks: FloatArray, speeds: FloatArray) -> FloatArray:
        """Return ln(force / 1 N) at clicks (n, A) and speeds (S,), shape (n, S). [1]"""
        ...

    def sensitivity(self, clicks: FloatArray, speeds: FloatArray) -> FloatArray:
        """Return by how much ln(force) moves with one prior deviation of each parameter, (n, S, P). [1]"""
        ...

    def slopes(self, clicks: FloatArray, speeds: FloatArray) -> FloatArray:
        """Return by how much ln(force) moves with a whole turn of each axis, as the slope there, (n, S, A). [1]"""
        ...

    def unseen(self, clicks: FloatArray, speeds: FloatArray) -> FloatArray:
        """Return the variance of ln(force) from how force runs between tested clicks and beyond, (n, S). [1]"""
        ...


@dataclass(frozen=True)
class FittedDirection:
    """One direction of a pack: trend, the sizes of what it leaves over, and the data both rest on."""

    data: DirectionData
    trend: Trend
    spread: MapSpread
    offset: FloatArray  #: what linearising adds to the residuals, ``J·(θ − prior)``, shape (T·S,)
    #: where the parameters stand, prior deviations from the prior's centre, shape (P,); none: at the centre
    settled: FloatArray = field(default_factory=lambda: np.zeros(0))
    #: covariance of each axis' openings, click by click, that the tests leave apart from the warps, shares of the turn
    #: squared, (clicks + 1, clicks + 1) each
    doubt: tuple[FloatArray, ...] = ()
    openings: tuple[ClickOpening, ...] = ()  #: what is known of how each axis opens
    crossing: float = 0.0  #: probability that the other direction's adjuster, the last axis, moves this one too
    scale: float = 1.0  #: by what left-out tests say that standard deviations are too small [1]
    calibration: float = 0.0  #: error of the rigs' scales that all of the map may share, a share of force [1]

    @cached_property
    def jacobian(self) -> FloatArray:
        """Sensitivity at the tests, shape (T·S, P). [1]"""
        j = self.trend.sensitivity(self.data.clicks, self.data.speeds)
        return j.reshape(self.data.logs.size, -1)

    @cached_property
    def slopes(self) -> FloatArray:
        """Slopes by the openings at the tests, shape (T, S, A). [1]"""
        return self.trend.slopes(self.data.clicks, self.data.speeds)

    @cached_property
    def total(self) -> FloatArray:
        """Covariance of the tests about the prior trend, shape (T·S, T·S). [1]"""
        return pieces(self.data, self.spread, self.jacobian, self.slopes).total(self.spread)

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

    @property
    def pull(self) -> FloatArray:
        """How hard each value pulls at what is alike in it, shape (T, S). [1]"""
        return self._pull.reshape(self.data.logs.shape)

    def logs(self, clicks: FloatArray, speeds: FloatArray) -> FloatArray:
        """Return ln(force) at clicks (n, A) and speeds (S,) for the mean shock, shape (n, S). [1]"""
        kc = click_kernel(clicks, self.data.clicks, self.data.last, self.spread.span)
        kv = speed_kernel(self.data.speeds, speeds)
        pull = self._pull.reshape(self.data.logs.shape)
        return np.asarray(self.trend.logs(clicks, speeds) + self.spread.discrepancy**2 * (kc @ (pull @ kv)))

    def unsettled(self, clicks: FloatArray, speeds: FloatArray) -> FloatArray:
        """Return what parameters that have not settled where the tests pull them owe to `logs`, (n, S). [1]"""
        if not len(self.settled):
            return np.zeros((len(clicks), len(speeds)))
        owed = self.jacobian.T @ self._pull - self.settled
        return np.asarray(self.trend.sensitivity(clicks, speeds) @ owed)

    def warps(self) -> tuple[FloatArray, ...]:
        """Return how far each axis' openings lie from the ones taken, by click, shares of the turn. [1]"""
        pull = self._pull.reshape(self.data.logs.shape)
        out = []
        for i, size in enumerate(self.spread.warps):
            last = float(self.data.last[i])
            force = np.sum(self.slopes[:, :, i] * pull, axis=1)
            out.append(size**2 * (warp_kernel(np.arange(last + 1), self.data.clicks[:, i], last) @ force))
        return tuple(out)

    def cross(self, clicks: FloatArray, speeds: FloatArray) -> FloatArray:
        """Return the covariance of ln(force) at clicks and speeds with the tests, (n·S, T·S'). [1]"""
        kc = click_kernel(clicks, self.data.clicks, self.data.last, self.spread.span)
        kv = speed_kernel(speeds, self.data.speeds)
        j = self.trend.sensitivity(clicks, speeds).reshape(len(clicks) * len(speeds), -1)
        out = self.spread.discrepancy**2 * np.kron(kc, kv) + j @ self.jacobian.T
        here = self.trend.slopes(clicks, speeds) if self.spread.warps else None
        each = np.ones((len(speeds), len(self.data.speeds)))
        for i, size in enumerate(self.spread.warps):
            alike = warp_kernel(clicks[:, i], self.data.clicks[:, i], float(self.data.last[i]))
            assert here is not None
            out = out + size**2 * np.outer(here[:, :, i].ravel(), self.slopes[:, :, i].ravel()) * np.kron(alike, each)
        return np.asarray(out)

    def covariance(self, clicks: FloatArray, speeds: FloatArray) -> FloatArray:
        """Return the covariance over speeds of ln(force) of the mean shock at clicks, shape (n, S, S). [1]"""
        n, s = len(clicks), len(speeds)
        j, slopes = self.trend.sensitivity(clicks, speeds), self.trend.slopes(clicks, speeds)
        sizes = np.array([*self.spread.warps, *([0.0] * (slopes.shape[2] - len(self.spread.warps)))])
        turns = slopes * sizes
        prior = self.spread.discrepancy**2 * speed_kernel(speeds, speeds)
        cross = self.cross(clicks, speeds)
        weights = cross @ self._inverse
        known = weights.reshape(n, s, -1) @ cross.reshape(n, s, -1).swapaxes(1, 2)
        out = prior + j @ j.swapaxes(1, 2) + turns @ turns.swapaxes(1, 2) - known
        least = np.maximum(1e-8 - np.einsum("nss->ns", out), 0.0)
        out = out + least[:, :, None] * np.eye(s)
        for i, doubt in enumerate(self.doubt):
            acts = self._of_openings(i, clicks, slopes[:, :, i], weights)
            out = out + (acts @ doubt).reshape(n, s, -1) @ acts.reshape(n, s, -1).swapaxes(1, 2)
        apart = np.sqrt(self.trend.unseen(clicks, speeds))
        shared = untested_share(self.data, clicks)[:, None, None] ** 2 + self.calibration**2
        return np.asarray(self.scale**2 * (out + apart[:, :, None] * apart[:, None, :]) + shared)

    def _of_openings(self, axis: int, clicks: FloatArray, slopes: FloatArray, weights: FloatArray) -> FloatArray:
        """Return by how much ln(force) moves with each click's opening of an axis, (n·S, clicks + 1). [1]

        Other openings would have put other forces at the tests too, and the tests pull them back: at a tested click
        little is left. `slopes` (n, S) by the openings, `weights` (n·S, T·S') with which the tests count.
        """
        last = len(self.doubt[axis])
        acts = np.zeros((slopes.size, last))
        here = np.repeat(clicks[:, axis].astype(int), slopes.shape[1])
        acts[np.arange(slopes.size), here] = slopes.ravel()
        felt = (weights.reshape(slopes.size, *self.data.logs.shape) * self.slopes[:, :, axis]).sum(axis=2)
        at_tests = np.zeros((self.data.tests, last))
        at_tests[np.arange(self.data.tests), self.data.clicks[:, axis].astype(int)] = 1.0
        return np.asarray(acts - felt @ at_tests)

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

    def state_effects(self, speeds: FloatArray) -> FloatArray:
        """Return the deviation of each shock's states from the mean shock as ln(force), shape (states, S). [1]"""
        shocks = sorted({state.shock for state in self.data.states})
        of_shock = self.shock_effects(speeds)
        own = np.array([of_shock[i] if (i := shocks.index(state.shock)) < len(of_shock) else np.zeros(len(speeds))
                        for state in self.data.states])  # fmt: skip
        pull = self._pull.reshape(self.data.logs.shape)
        member = (np.arange(len(own))[:, None] == self.data.state[None, :]).astype(float)
        by_state = member @ pull
        waves = by_state @ speed_kernel(self.data.speeds, speeds)
        sizes = np.array(self._state_sizes)[:, None]
        changes = EVEN_SHARE * by_state.sum(axis=1, keepdims=True) + (1.0 - EVEN_SHARE) * waves
        return np.asarray(own + sizes**2 * changes)

    @property
    def _state_sizes(self) -> tuple[float, ...]:
        return self.spread.states or (0.0,) * len(self.data.states)

    def state_variances(self, clicks: FloatArray, speeds: FloatArray) -> FloatArray:
        """Return what knowing the state adds to the variance of ln(force) at some clicks and speeds, (states,). [1]

        Negative where a state is known better than the mean shock. The mean over the clicks and speeds given.
        """
        cross, inverse = self.cross(clicks, speeds), self._inverse
        spread, data = self.spread, self.data
        known = np.einsum("ij,ij->i", cross @ inverse, cross)
        shocks = sorted({state.shock for state in data.states})
        n, s = len(clicks), len(data.speeds)
        over = EVEN_SHARE + (1.0 - EVEN_SHARE) * speed_kernel(speeds, data.speeds)
        out = []
        for number, state in enumerate(data.states):
            mine = (data.state == number).astype(float)[None, :, None] * over[:, None, :]
            odd = shocks.index(state.shock) in spread.odd
            of_shock = 0.0 if odd else spread.shock**2
            same = (data.shock == shocks.index(state.shock)).astype(float)[None, :, None] * np.ones((len(speeds), 1, s))
            size = self._state_sizes[number]
            both = np.tile((size**2 * mine + of_shock * same).reshape(len(speeds), -1), (n, 1))
            more = cross + both
            gain = np.einsum("ij,ij->i", more @ inverse, more) - known
            out.append(size**2 + of_shock - float(np.mean(gain)))
        return self.scale**2 * np.array(out)
