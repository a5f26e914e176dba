"""Slopes by local polynomials, and over how long a window they may be taken."""

from __future__ import annotations

from functools import lru_cache
from typing import NamedTuple

import numpy as np

from dynoan.model.arrays import FloatArray


def local_slope(y: FloatArray, window: int, order: int = 3) -> FloatArray:
    """Return the derivative by local polynomials over an odd window (Savitzky and Golay, 1964). [as `y`, per sample]

    Shape (n,), as `y`.
    The ends are read off the first and the last window's polynomial.
    """
    window = min(window | 1, len(y) if len(y) % 2 else len(y) - 1)
    order = min(order, window - 1)
    if order < 1:
        return np.gradient(y)
    slopes = _slopes(window // 2, order)
    middle = np.convolve(y, slopes.middle, mode="valid")
    return np.concatenate([slopes.start @ y[:window], middle, slopes.end @ y[-window:]])


class _Slopes(NamedTuple):
    """What makes slopes of the values of a window: at its middle, as a kernel, and before and after it."""

    middle: FloatArray  #: shape (window,)
    start: FloatArray  #: shape (half, window)
    end: FloatArray


@lru_cache(maxsize=256)
def _slopes(half: int, order: int) -> _Slopes:
    u, fit = _polynomial(half, order)
    by_power = fit[1:] * np.arange(1, order + 1)[:, None] / half
    start, end = (np.vander(at, order, increasing=True) @ by_power for at in (u[:half], u[half + 1 :]))
    return _Slopes(np.ascontiguousarray(fit[1][::-1] / half), start, end)


@lru_cache(maxsize=256)
def _polynomial(half: int, order: int) -> tuple[FloatArray, FloatArray]:
    """Return the places of a window, -1 to 1, and the matrix from values there to a polynomial's coefficients."""
    u = np.arange(-half, half + 1) / half
    return u, np.asarray(np.linalg.pinv(np.vander(u, order + 1, increasing=True)))


def slope_noise(window: int, order: int = 3) -> float:
    """Return the standard deviation of `local_slope` away from the ends, for noise of one. [1/sample]"""
    half = window // 2
    return float(np.linalg.norm(_polynomial(half, order)[1][1] / half))


def longest_window(x: FloatArray, noise: float) -> int:
    """Return the longest window whose local polynomials leave no more than the noise. [samples]"""
    best = 5
    part = x[:50_000]
    for window in (7, 9, 13, 17, 23, 31, 41, 55, 75, 101, 141, 201):
        if window > len(part) // 4:
            break
        half = window // 2
        u = np.arange(-half, half + 1) / half
        smooth = np.convolve(part, np.linalg.pinv(np.vander(u, 4, increasing=True))[0][::-1], mode="valid")
        rest = float(np.sqrt(np.mean((part[half : half + len(smooth)] - smooth) ** 2)))
        if rest > 1.15 * noise + 1e-6 * float(np.ptp(part)):
            break
        best = window
    return best
