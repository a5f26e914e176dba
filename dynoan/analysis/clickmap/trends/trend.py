"""A fitted trend with its discrepancy: logarithms of force, and their standard deviation, at any click and speed."""

from __future__ import annotations

from dataclasses import dataclass, field
from functools import cached_property
from typing import Protocol

import numpy as np

from dynoan.analysis.clickmap.assumptions.data import FRICTION_LEFT_IN, MOST_LEFT_IN
from dynoan.analysis.clickmap.tested.data import DirectionData
from dynoan.analysis.clickmap.trends.discrepancy import click_kernel, pieces, speed_kernel, untested_share, warp_kernel
from dynoan.analysis.clickmap.trends.openings import ClickOpening
from dynoan.analysis.clickmap.trends.spread import MapSpread
from dynoan.analysis.statistics import Z95
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

    def passages(self, clicks: FloatArray, speeds: FloatArray) -> FloatArray:
        """Return by how much ln(force) moves as more oil passes beside the blow-off, to scale, (n, S). [1]"""
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
    shared: int | None = None  #: which parameter says how much, where it is in the map [1]
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
    def worn(self) -> FloatArray:
        """How much a worn passage takes at the tests, 1 where it takes most, shape (T, S). [1]"""
        return self.passages(self.data.clicks, self.data.speeds)

    def passages(self, clicks: FloatArray, speeds: FloatArray) -> FloatArray:
        """Return how much a worn passage takes, as a share of what it takes at most at the tests, (n, S). [1]"""
        most = float(np.max(np.abs(self.trend.passages(self.data.clicks, self.data.speeds)), initial=0.0))
        return np.asarray(-self.trend.passages(clicks, speeds) / max(most, 1e-9))

    @cached_property
    def total(self) -> FloatArray:
        """Covariance of the tests about the prior trend, shape (T·S, T·S). [1]"""
        return pieces(self.data, self.spread, self.jacobian, self.slopes, self.worn).total(self.spread)

    @cached_property
    def residual(self) -> FloatArray:
        """Residuals of ln(force) about the linearised prior trend, shape (T·S,). [1]"""
        fitted = self.trend.logs(self.data.clicks, self.data.speeds)
        return np.asarray((self.data.logs - fitted).ravel() + self.offset)

    @cached_property
    def inverse(self) -> FloatArray:
        """Inverse of `total`, (T·S, T·S). [1]"""
        return np.asarray(np.linalg.inv(self.total), dtype=float)

    @cached_property
    def _pull(self) -> FloatArray:
        return np.asarray(self.inverse @ self.residual)

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

    def alike(self) -> tuple[float, float]:
        """Return by how much force may lie below and above for what all tests err by alike, 95 %. [N]

        Where no test tells friction, the form of the curves has some of it taken off: all that may be left lies below,
        what was taken off above.
        """
        if np.isfinite(self.data.alike):
            return Z95 * self.data.alike, Z95 * self.data.alike
        off = self.taken_off
        return MOST_LEFT_IN - off, off

    @property
    def taken_off(self) -> float:
        """Friction that the form of the curves has taken off where no test tells it, the mean over shocks. [N]"""
        pull = np.sum(self.data.rubbed * self.pull, axis=1)
        each = [float(np.sum(pull[self.data.shock == k])) for k in np.unique(self.data.shock)]
        return float(np.clip(FRICTION_LEFT_IN * np.mean(each), 0.0, MOST_LEFT_IN))

    def owed(self, clicks: FloatArray, speeds: FloatArray) -> FloatArray:
        """Return what `logs` lacks, (n, S): the `unsettled`, and the `undecided` as far as it may be nothing. [1]"""
        return self.unsettled(clicks, speeds) - (1.0 - self.crossing) * self.undecided(clicks, speeds)

    def undecided(self, clicks: FloatArray, speeds: FloatArray) -> FloatArray:
        """Return what the other direction's adjuster does to `logs` that would not be there if it did nothing, (n, S).

        Tests would have pulled a map without it to where they are: at a tested setting little is left. [1]
        """
        if self.shared is None:
            return np.zeros((len(clicks), len(speeds)))
        of_tests = self.jacobian[:, self.shared]
        j = self.trend.sensitivity(clicks, speeds)[:, :, self.shared].ravel()
        cross = self.cross(clicks, speeds) - np.outer(j, of_tests)
        pulled = np.linalg.solve(self.total - np.outer(of_tests, of_tests), of_tests)
        return np.asarray(((j - cross @ pulled) * self.settled[self.shared]).reshape(len(clicks), len(speeds)))

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
        weights = cross @ self.inverse
        known = weights.reshape(n, s, -1) @ cross.reshape(n, s, -1).swapaxes(1, 2)
        out = prior + j @ j.swapaxes(1, 2) + turns @ turns.swapaxes(1, 2) - known
        least = np.maximum(1e-8 - np.einsum("nss->ns", out), 0.0)
        out = out + least[:, :, None] * np.eye(s)
        for i, doubt in enumerate(self.doubt):
            acts = self._of_openings(i, clicks, slopes[:, :, i], weights)
            out = out + (acts @ doubt).reshape(n, s, -1) @ acts.reshape(n, s, -1).swapaxes(1, 2)
        apart = np.sqrt(self.trend.unseen(clicks, speeds))
        shared = untested_share(self.data, clicks)[:, None, None] ** 2 + self.calibration**2
        if self.shared is not None:
            there = self.undecided(clicks, speeds)
            out = out + self.crossing * (1.0 - self.crossing) * there[:, :, None] * there[:, None, :]
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
