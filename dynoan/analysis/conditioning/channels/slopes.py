"""Slopes by local polynomials, and over how long a window they may be taken."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from functools import cache, lru_cache
from typing import NamedTuple

import numpy as np

from dynoan.analysis.statistics import robust_scale
from dynoan.model.arrays import BoolArray, FloatArray, IntArray

#: windows of local polynomials that are tried; numerics [samples]
WINDOWS = (5, 7, 9, 13, 17, 23, 31, 41, 55, 75, 101, 141, 201, 281, 401)
#: a window is contradicted by a shorter one where both are so many standard deviations apart: where the motion turns,
#: and on ramps and at rest, where only noise can; and so many windows before, the slope is taken from. Judged on made
#: ramps, sines and random motion: with less noise is taken for motion, with more the edge is taken off fast turns. The
#: least noise of a channel that counts, as a share of its range [1]; numerics
TURNING, EVEN, STEPS_BACK, LEAST_NOISE = 1.6, 3.0, 1, 1e-6
#: by how much a slope is worse than its noise says, its window having been chosen for looking well [1]; judged on made
#: ramps, triangles and random motion: 1.4 to 2.3 times
CHOSEN = 1.5
#: fewer samples than about half of so many that choose another window than those around them follow noise; numerics
ALONE = 13
#: more samples than this are taken in halves of it: slopes over all windows are kept meanwhile [samples]; numerics
TOGETHER = 400_000

#: windows tried for the rate of force, in samples, and the share of it that its noise may be [1]; judged
RATE_WINDOWS, RATE_CLEAR = (7, 11, 17, 25, 37, 55, 81), 0.15


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


def steady_slope(y: FloatArray, noise: float, contradicted: float) -> tuple[FloatArray, FloatArray]:
    """Return the derivative by local polynomials, each over the longest window that shorter ones do not contradict.

    And its standard error by the noise, shape (n,) each.

    Where motion turns sharply the window is short, on a long ramp or in a pause it is long (the intersection of
    confidence intervals: Goldenshluger and Nemirovski, 1997). [as `y`, per sample]

    Parameters
    ----------
    y
        Of one stretch without a gap, shape (n,).
    noise
        Standard deviation of `y`. [as `y`]
    contradicted
        By how many standard deviations slopes of two windows differ where one contradicts the other. [1]
    """
    return steady_slopes(y, noise, (contradicted,))[0]


def steady_slopes(y: FloatArray, noise: float, contradicted: Sequence[float]) -> list[tuple[FloatArray, FloatArray]]:
    """Return what `steady_slope` does for each of several `contradicted`: slopes over a window serve them all.

    [as `y`, per sample]
    """
    if len(y) > TOGETHER:
        return _in_pieces(y, noise, contradicted)
    over = cache(lambda i: local_slope(y, WINDOWS[i], 3 if i else 4))
    return [_steady(y, over, noise, k * max(noise, LEAST_NOISE * float(np.ptp(y)))) for k in contradicted]


def _steady(
    y: FloatArray, over: Callable[[int], FloatArray], noise: float, apart: float
) -> tuple[FloatArray, FloatArray]:
    """Return slopes and their standard errors from those `over` the windows by their numbers; `apart` as `y`."""
    from scipy.ndimage import median_filter  # it takes 0.2 s, and a fresh process is spared it where a crank drives

    slopes, noises = [over(0)], [slope_noise(WINDOWS[0], 4)]
    chosen, going = np.zeros(len(y), dtype=np.int64), np.ones(len(y), dtype=bool)
    low, high = (slopes[0] + sign * apart * noises[0] for sign in (-1.0, 1.0))
    for i, window in enumerate(WINDOWS[1:], 1):
        if window > len(y) or not going.any():
            break
        slope, each = over(i), slope_noise(window)
        low, high = np.maximum(low, slope - apart * each), np.minimum(high, slope + apart * each)
        # Noise contradicts here and there, a turn of the motion all around.
        off = low > high
        on = going & (_share_around(off, window // 2) < 0.5)
        here = on & off
        low[here], high[here] = slope[here] - apart * each, slope[here] + apart * each
        # What is not yet contradicted may be off by as much as its noise, always to the same side: hence a step back.
        chosen = np.where(going, np.where(on, i, max(i - 1 - STEPS_BACK, 0)), chosen)
        going = on
        slopes.append(slope)
        noises.append(each)
    chosen = median_filter(chosen, ALONE)
    return np.choose(chosen, slopes), _errors(slopes, np.array(noises) * noise, chosen)


def _in_pieces(y: FloatArray, noise: float, contradicted: Sequence[float]) -> list[tuple[FloatArray, FloatArray]]:
    """Return what `steady_slopes` does, of pieces that overlap by the longest window: those of all windows are kept."""
    out, beside = [(np.empty(len(y)), np.empty(len(y))) for _ in contradicted], WINDOWS[-1]
    for start in range(0, len(y), TOGETHER // 2):
        stop, first = min(start + TOGETHER // 2, len(y)), max(start - beside, 0)
        found = steady_slopes(y[first : stop + beside], noise, contradicted)
        for (slope, error), (piece, its_error) in zip(out, found, strict=True):
            slope[start:stop], error[start:stop] = (
                piece[start - first : stop - first],
                its_error[start - first : stop - first],
            )
    return out


def _errors(slopes: list[FloatArray], noises: FloatArray, chosen: IntArray) -> FloatArray:
    """Return the standard errors of slopes over chosen windows, shape (n,): noise, and what shorter windows see more.

    `noises` are those of the slopes of all windows, shape (windows,). [as the slopes]
    """
    out = np.zeros(len(chosen))
    for i in np.unique(chosen):
        mine = np.flatnonzero(chosen == i)
        more = 0.0
        for k in range(i):
            square = robust_scale(slopes[i][mine] - slopes[k][mine]) ** 2  # but for corners
            luck = 2.0 * noises[k] ** 2 * np.sqrt(2.0 * WINDOWS[k] / len(mine))
            more = max(more, square - (noises[k] ** 2 - noises[i] ** 2) - luck)
        out[mine] = CHOSEN * np.sqrt(noises[i] ** 2 + more)
    return out


def _share_around(some: BoolArray, width: int) -> FloatArray:
    """Return which share of the samples around each is among some, shape (n,). [1]"""
    half = width // 2
    upto = np.concatenate([np.zeros(half + 1), np.cumsum(some), np.full(half, float(np.count_nonzero(some)))])
    return np.asarray((upto[2 * half + 1 :] - upto[: len(some)]) / (2 * half + 1))


def force_rate(force: FloatArray, noise: float) -> tuple[FloatArray, int]:
    """Return the slope of force over the shortest window whose noise is a small share of it, and the window.

    Shape (n,) [N/sample]; [samples].

    A noisier one would correct the force with that force's own noise, and pull delay and compliance off.
    """
    longest = max(5, len(force) // 4)
    window = RATE_WINDOWS[0]
    slope = np.zeros(0)
    for window in RATE_WINDOWS:
        slope = local_slope(force, min(window, longest))
        if window >= longest or slope_noise(window) * noise < RATE_CLEAR * float(np.sqrt(np.mean(slope**2))):
            break
    return slope, min(window, longest)


def longest_window(x: FloatArray, noise: float) -> int:
    """Return the longest window whose local polynomials leave no more than the noise. [samples]"""
    best = 5
    part = x[:50_000]
    for window in WINDOWS[1:-2]:
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
