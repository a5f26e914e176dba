"""What a click map's trend leaves over: a Gaussian process over clicks and speed, and the bands that follow from it.

Logarithms of force are ``trend(clicks, speed) + discrepancy + shock + noise``. The discrepancy is smooth over
clicks and over the logarithm of speed, so that it pulls the map onto the tested curves and grows away from them:
kriging with a trend (C. E. Rasmussen and C. K. I. Williams, *Gaussian Processes for Machine Learning*, MIT Press
2006, chapter 2, and section 5.4.2 for leaving out; a whole test is left out here, not a point).
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache

import numpy as np
from scipy.linalg.lapack import dposv

from dynoan.analysis.clickmap.assumptions.screws import OWN_CLICK, WARP_SPAN
from dynoan.analysis.clickmap.assumptions.spread import (
    EVEN_SHARE,
    ODD_SHARE,
    SHARED_NOISE,
    SPEED_SPAN,
    UNTESTED_SHARE,
    WORN_MORE,
)
from dynoan.analysis.clickmap.tested.data import DirectionData
from dynoan.analysis.clickmap.tested.loss_per_kelvin import thinning_parts
from dynoan.analysis.clickmap.trends.spread import MapSpread, Size
from dynoan.model.arrays import FloatArray


def click_kernel(a: FloatArray, b: FloatArray, last: FloatArray, span: float) -> FloatArray:
    """Return how alike the discrepancies at two sets of clicks are, shape (len(a), len(b)): Matérn, 5/2. [1]"""
    if a.shape[1] == 0:
        return np.ones((len(a), len(b)))
    gap = (a[:, None, :] - b[None, :, :]) / (last * span)
    r = np.sqrt(5.0 * np.sum(gap**2, axis=2))
    return np.asarray((1.0 + r + r**2 / 3.0) * np.exp(-r))


def speed_kernel(a: FloatArray, b: FloatArray) -> FloatArray:
    """Return how alike the discrepancies at two sets of speeds are, shape (len(a), len(b)). [1]"""
    gap = np.log(np.maximum(a, 1e-4))[:, None] - np.log(np.maximum(b, 1e-4))[None, :]
    return np.asarray(np.exp(-0.5 * (gap / SPEED_SPAN) ** 2))


def own_covariance(data: DirectionData) -> FloatArray:
    """Return the covariance of what each curve errs by for itself as its band says, friction apart, (T·S, T·S). [1]"""
    sd, s = np.sqrt(data.variance), len(data.speeds)
    of_tests = SHARED_NOISE * speed_kernel(data.speeds, data.speeds) * (sd[:, :, None] * sd[:, None, :])
    of_tests[:, np.arange(s), np.arange(s)] += (1 - SHARED_NOISE) * data.variance
    return _by_test(of_tests)


def shared_covariance(data: DirectionData) -> FloatArray:
    """Return the covariance of what friction and warmth leave in ln(force) of the tests, (T·S, T·S). [1]"""
    s = len(data.speeds)
    n, each = data.logs.size, np.ones((s, s))
    out = _by_test(data.split[:, :, None] * data.split[:, None, :]) if len(data.split) else np.zeros((n, n))
    out += np.outer(data.common, data.common)
    if len(data.rubbed):
        same = (data.shock[:, None] == data.shock[None, :]).astype(float)
        out += np.outer(data.rubbed, data.rubbed) * _whole(same, each)
    if len(data.warm):
        parts = thinning_parts(data.speeds)
        out += _whole(np.outer(data.warm, data.warm), parts.T @ parts)
    return out


def _by_test(blocks: FloatArray) -> FloatArray:
    """Return blocks of each test (T, S, S) as the covariance of tests that have nothing in common, (T·S, T·S)."""
    tests, s = blocks.shape[:2]
    whole = np.zeros((tests, s, tests, s))
    whole[np.arange(tests), :, np.arange(tests), :] = blocks
    return whole.reshape(tests * s, tests * s)


def warp_kernel(a: FloatArray, b: FloatArray, last: float) -> FloatArray:
    """Return how alike an adjuster's openings err at two rows of clicks, shape (len(a), len(b)). [1]

    Most of it runs on from click to click, the rest is each click's own.
    """
    gap = np.abs(a[:, None] - b[None, :])
    return np.asarray((1.0 - OWN_CLICK) * np.exp(-gap / (WARP_SPAN * last)) + OWN_CLICK * (gap < 0.5))


@dataclass(frozen=True)
class Pieces:
    """What a covariance of the tests is put together from, each (T·S, T·S), so that sizes can be tried cheaply."""

    own: FloatArray  #: what each curve errs by for itself, and what friction and warmth leave
    alike: FloatArray  #: correlation of the discrepancy
    same: FloatArray  #: how alike two values are for being of one shock
    free: FloatArray | float = 0.0  #: covariance of what odd shocks have of their own
    trend: FloatArray | float = 0.0  #: covariance of the trend, ``J P Jᵀ``
    states: tuple[FloatArray, ...] = ()  #: correlation of what a shock has in each state
    runs: FloatArray | float = 0.0  #: correlation of what one run has
    warps: tuple[FloatArray, ...] = ()  #: of each axis, for openings that err by a whole turn
    loose: tuple[FloatArray, ...] = ()  #: of each axis, for a screw that stands a click off, each time anew

    def ruled_by(self, size: Size) -> FloatArray | float:
        """Return what a size scales, (T·S, T·S); zero where that is nothing. [1]"""
        of_axes = {"warps": self.warps, "loose": self.loose, "states": self.states}
        if size.name in of_axes:
            return of_axes[size.name][size.number]
        return {"discrepancy": self.alike, "repeat": self.runs, "shock": self.same}[size.name]

    def total(self, spread: MapSpread) -> FloatArray:
        """Return the covariance of all logarithms of force about the prior trend, shape (T·S, T·S). [1]"""
        out = spread.discrepancy**2 * self.alike
        out += self.own
        out += self.trend
        out += self.free
        parts = [(spread.repeat, self.runs), *zip(spread.warps, self.warps, strict=False)]
        parts += [*zip(spread.loose, self.loose, strict=False), *zip(spread.states, self.states, strict=False)]
        parts += [(spread.shock, self.same)]
        scaled = np.empty_like(out)
        for size, part in parts:
            if size > 0:
                out += np.multiply(size**2, part, out=scaled)
        return out


@lru_cache(maxsize=4)
def _of_curves(data: DirectionData) -> FloatArray:
    return own_covariance(data) + shared_covariance(data)


def pieces(
    data: DirectionData, spread: MapSpread, jacobian: FloatArray | None = None, slopes: FloatArray | None = None,
    worn: FloatArray | None = None,
) -> Pieces:  # fmt: skip
    """Return the pieces of the covariance.

    `jacobian` (T·S, P) where the trend's parameters are uncertain, `slopes` (T, S, A) by the axes' openings where
    these are, `worn` (T, S) by passages, in which shocks differ and which wear opens.
    """
    s = len(data.speeds)
    over, each = speed_kernel(data.speeds, data.speeds), np.ones((s, s))
    same = (data.shock[:, None] == data.shock[None, :]).astype(float)
    trend = 0.0 if jacobian is None else np.asarray(jacobian @ jacobian.T, dtype=float)
    odd = np.isin(data.shock, spread.odd)
    smoothly = 1.0 - spread.odd_own - spread.odd_even
    uneven = smoothly * over + spread.odd_own * np.eye(s) + spread.odd_even * each
    free = _whole(ODD_SHARE**2 * same * odd, uneven) if spread.odd else 0.0
    mostly = EVEN_SHARE * each + (1.0 - EVEN_SHARE) * over
    member = [(data.state == k).astype(float) for k in range(len(spread.states))]
    passed = np.zeros(()) if worn is None else np.outer(worn, worn)
    states = tuple(_whole(np.outer(m, m), mostly) + WORN_MORE**2 * passed * _whole(np.outer(m, m), each) if size > 0
                   else np.zeros((1, 1)) for m, size in zip(member, spread.states, strict=True))  # fmt: skip
    runs = _of_runs(data) if len(data.runs) else 0.0
    warps: tuple[FloatArray, ...] = ()
    loose: tuple[FloatArray, ...] = ()
    if slopes is not None:
        warps = tuple(_warp(data, slopes[:, :, i], i) for i in range(slopes.shape[2]))
        loose = tuple(_loose(data, slopes[:, :, i], i) for i in range(slopes.shape[2]))
    units = _of_units(data, spread.odd)
    units = units * (1.0 + spread.unit_more**2 * passed) if spread.unit_more else units
    return Pieces(_of_curves(data), _of_clicks(data, spread.span), units, free, trend, states, runs,
                  warps, loose)  # fmt: skip


@lru_cache(maxsize=2)
def _of_clicks(data: DirectionData, span: float) -> FloatArray:
    """Return the correlation of the discrepancy."""
    alike = click_kernel(data.clicks, data.clicks, data.last, span)
    return _whole(alike, speed_kernel(data.speeds, data.speeds))


@lru_cache(maxsize=2)
def _of_units(data: DirectionData, odd: tuple[int, ...]) -> FloatArray:
    """Return how alike two values are for being of one shock, odd ones left out."""
    same = (data.shock[:, None] == data.shock[None, :]).astype(float) * ~np.isin(data.shock, odd)
    return _whole(same, np.ones((len(data.speeds), len(data.speeds))))


@lru_cache(maxsize=2)
def _of_runs(data: DirectionData) -> FloatArray:
    """Return the correlation of what one run has."""
    s = len(data.speeds)
    mostly = EVEN_SHARE * np.ones((s, s)) + (1.0 - EVEN_SHARE) * speed_kernel(data.speeds, data.speeds)
    return _by_test(mostly / data.runs[:, None, None])


def _warp(data: DirectionData, slopes: FloatArray, axis: int) -> FloatArray:
    """Return the covariance of the tests for openings of one axis that err by a whole turn."""
    clicks, last = data.clicks[:, axis], float(data.last[axis])
    alike = warp_kernel(clicks, clicks, last)
    whole = slopes[:, :, None, None] * slopes * alike[:, None, :, None]
    return np.asarray(whole.reshape(slopes.size, slopes.size))


def _loose(data: DirectionData, slopes: FloatArray, axis: int) -> FloatArray:
    """Return the covariance of the tests of a screw that stands a click off its own, each time anew."""
    g = slopes / float(data.last[axis])
    runs = data.runs if len(data.runs) else np.ones(data.tests)
    return _by_test(g[:, :, None] * g[:, None, :] / runs[:, None, None])


def _whole(by_test: FloatArray, each: FloatArray) -> FloatArray:
    """Return the Kronecker product of two matrices, for which numpy's own takes twice as long."""
    n, s = len(by_test), len(each)
    return np.asarray((by_test[:, None, :, None] * each[None, :, None, :]).reshape(n * s, n * s), dtype=float)


def leave_one_out(total: FloatArray, residual: FloatArray, tests: int) -> tuple[FloatArray, FloatArray]:
    """Return each test's residual of ln(force) when it is left out, and its expected size, both (T, S). [1]"""
    inverse = np.linalg.inv(total)
    pulled = inverse @ residual
    s = len(residual) // tests
    error, sd = np.empty((tests, s)), np.empty((tests, s))
    for t in range(tests):
        block = slice(t * s, (t + 1) * s)
        own = np.linalg.inv(inverse[block, block])
        error[t] = own @ pulled[block]
        sd[t] = np.sqrt(np.maximum(np.diag(own), 0.0))
    return error, sd


def log_likelihood(total: FloatArray, residual: FloatArray, *, used_up: bool = False) -> float:
    """Return the Gaussian log-likelihood of residuals under a covariance, without its constant. [1]

    `used_up` where `total` need not be kept: its factor is written into it.

    Raises
    ------
    numpy.linalg.LinAlgError
        If the covariance is not positive definite.
    """
    # Symmetric, so the other way round is the order that LAPACK takes without turning it.
    factor, solved, failed = dposv(total.T, residual, lower=1, overwrite_a=used_up)
    if failed:
        raise np.linalg.LinAlgError("a covariance that is not positive definite")
    return -0.5 * float(residual @ solved) - float(np.sum(np.log(np.diag(factor))))


def untested_share(data: DirectionData, clicks: FloatArray) -> FloatArray:
    """Return the standard deviation owed to adjusters that no test moved, a share of force, shape (n,). [1]"""
    if data.clicks.shape[1] == 0:
        return np.zeros(len(clicks))
    still = ~np.asarray(data.moved)
    away = np.abs(clicks - data.clicks[0]) / data.last
    return np.asarray(UNTESTED_SHARE * np.sqrt(np.sum((away[:, still]) ** 2, axis=1)))
