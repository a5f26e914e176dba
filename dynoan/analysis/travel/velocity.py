"""Velocity from logged travel: Savitzky-Golay, its window set from the record's own noise.

A wider window takes out more noise and, past some width, eats the peaks. The widest window is taken whose velocity does
not differ from that of any narrower one by more than that one's noise explains (O. V. Lepski's rule).
"""

from __future__ import annotations

import itertools
import math
from dataclasses import dataclass

import numpy as np

from dynoan.analysis.statistics import sample_noise
from dynoan.analysis.travel.assumptions import (
    EXPLAINED,
    GAP,
    LEAST,
    NOISE_SAMPLES,
    ORDER,
    QUIET_SHARE,
    QUIET_SHOWS,
    SAME,
    STEPPED,
    WIDEST,
    WINDOWS,
)
from dynoan.errors import QuantityError
from dynoan.model.arrays import FloatArray, IntArray

#: a step has so many times the standard deviation of what rounding to it leaves
_UNIFORM = math.sqrt(12.0)
#: the share of amplitude at 3 dB
_HALF_POWER = math.sqrt(0.5)
#: how finely the filter's cutoff is looked for: first place and number of frequencies up to half the rate
_LOWEST, _FREQUENCIES = 1e-3, 2000


@dataclass(frozen=True)
class VelocityFilter:
    """How velocity was made from travel."""

    window: float  #: [s]
    samples: int  #: the same in samples
    order: int  #: of the polynomial
    cutoff: float  #: frequency at which velocity comes out 3 dB low [Hz]
    noise: float  #: standard deviation of the velocity's noise that is left [m/s]
    travel_noise: float  #: standard deviation of the travel's noise [m]

    @property
    def text(self) -> str:
        """In words."""
        return (
            f"velocity from a smooth curve through {self.window * 1e3:.0f} ms at a time (Savitzky-Golay, "
            f"{self.samples} samples, order {self.order}): it holds motion of up to about {self.cutoff:.0f} Hz "
            f"(-3 dB), with noise of {self.noise * 1e3:.1f} mm/s"
        )


@dataclass(frozen=True)
class ShockMotion:
    """Travel and velocity of one shock at even steps, gaps left out; all of shape (n,)."""

    time: FloatArray  #: [s]
    travel: FloatArray  #: smoothed [m]
    velocity: FloatArray  #: positive in compression [m/s]
    step: float  #: [s]
    smoothing: VelocityFilter
    gaps: int  #: how many gaps there were


def shock_motion(time: FloatArray, travel: FloatArray, *, window: float | None = None) -> ShockMotion:
    """Return evenly sampled travel and its velocity.

    Savitzky-Golay (A. Savitzky, M. J. E. Golay, 1964); the window by O. V. Lepski's rule, with the noise estimated from
    fourth differences or, where it is more, from the logger's steps.

    Parameters
    ----------
    time
        Ascending, shape (n,). [s]
    travel
        Shock travel, positive in compression, shape (n,); NaN where the logger had none. [m]
    window
        Width of the filter instead of one chosen from the record. [s]

    Returns
    -------
    :
        Travel and velocity at the record's own step; what lies in gaps is left out, and half a window at the ends of a
        stretch, where the polynomial hangs in the air.

    Raises
    ------
    QuantityError
        If time does not rise, there are too few samples, or the window is narrower than the polynomial needs.

    Examples
    --------
    >>> t = np.arange(0.0, 2.0, 0.002)
    >>> moved = shock_motion(t, 0.01 * np.sin(2 * np.pi * 2.0 * t))
    >>> round(float(moved.velocity.max()), 3)  # 0.01 m · 2π · 2 Hz
    0.126
    """
    known = np.isfinite(time) & np.isfinite(travel)
    t, x = time[known], travel[known]
    if len(t) < LEAST:
        raise QuantityError(f"only {len(t)} samples of travel: too few for a velocity, which needs {LEAST}")
    if np.any(np.diff(t) <= 0):
        raise QuantityError("time does not rise from row to row")
    step = float(np.median(np.diff(t)))
    stretches = [_even(t[i:j], x[i:j], step) for i, j in _stretches(t, step)]
    if not stretches:
        raise QuantityError("the log is in pieces too short for a velocity", hint="check the time column")
    noise = _noise([s[1] for s in stretches])
    samples = _wanted(window, step) if window is not None else _choose([s[1] for s in stretches], step, noise)
    inner = [slice(w, len(s[0]) - w) for s in stretches for w in (min(samples // 2, (len(s[0]) - 2) // 2),)]
    smooth = [(_filter(s[1], samples, 0, step), _filter(s[1], samples, 1, step)) for s in stretches]
    return ShockMotion(
        np.concatenate([s[0][cut] for s, cut in zip(stretches, inner, strict=True)]),
        np.concatenate([s[0][cut] for s, cut in zip(smooth, inner, strict=True)]),
        np.concatenate([s[1][cut] for s, cut in zip(smooth, inner, strict=True)]),
        step, _smoothing(samples, step, noise), len(stretches) - 1,
    )  # fmt: skip


def _stretches(t: FloatArray, step: float) -> list[tuple[int, int]]:
    cuts: IntArray = np.flatnonzero(np.diff(t) > GAP * step) + 1
    edges = [0, *(int(c) for c in cuts), len(t)]
    return [(i, j) for i, j in itertools.pairwise(edges) if j - i >= LEAST]


def _even(t: FloatArray, x: FloatArray, step: float) -> tuple[FloatArray, FloatArray]:
    even = t[0] + np.arange(round((t[-1] - t[0]) / step) + 1) * step
    return even, np.asarray(np.interp(even, t, x))


def _noise(stretches: list[FloatArray]) -> float:
    """Return the standard deviation of the samples' noise from fourth differences, at least that of their steps."""
    x = np.concatenate(stretches)
    levels = np.diff(np.unique(np.round(x, SAME)))
    # A logger that writes whole steps has many equal samples, and then no scatter at rest.
    stepped = float(np.median(levels)) if len(levels) and len(levels) < STEPPED * len(x) else 0.0
    return max(_quiet_noise(stretches), stepped / _UNIFORM)


def _quiet_noise(stretches: list[FloatArray]) -> float:
    """Return the noise of the quietest parts of a record, or of all of it where there is too little to choose from."""
    blocks = [s[i : i + NOISE_SAMPLES] for s in stretches for i in range(0, len(s) - NOISE_SAMPLES + 1, NOISE_SAMPLES)]
    if len(blocks) * QUIET_SHARE < 2:
        return sample_noise(stretches)
    return float(np.quantile([sample_noise([b]) for b in blocks], QUIET_SHARE)) / QUIET_SHOWS


def _choose(stretches: list[FloatArray], step: float, noise: float) -> int:
    longest = min(len(s) for s in stretches)
    allowed = [w for w in WINDOWS if w == WINDOWS[0] or (w * step <= WIDEST and w <= longest // 2)]
    made: list[tuple[FloatArray, float]] = []
    best = allowed[0]
    for w in allowed:
        v = np.concatenate([_filter(s, w, 1, step) for s in stretches])
        if any(float(np.sqrt(np.mean((v - u) ** 2))) > EXPLAINED * left for u, left in made):
            break
        made.append((v, noise * _gain(w, step)))
        best = w
    return best


def _wanted(window: float, step: float) -> int:
    samples = 2 * round(window / step / 2) + 1
    if samples < WINDOWS[0]:
        least = WINDOWS[0] * step * 1e3
        raise QuantityError(
            f"a window of {window * 1000.0:g} ms is too narrow at this rate", hint=f"it must span {least:.0f} ms"
        )
    return samples


def _filter(x: FloatArray, samples: int, derivative: int, step: float) -> FloatArray:
    from scipy.signal import savgol_filter

    return np.asarray(savgol_filter(x, min(samples, (len(x) - 1) | 1), ORDER, deriv=derivative, delta=step))


def _weights(samples: int, step: float) -> FloatArray:
    from scipy.signal import savgol_coeffs

    return np.asarray(savgol_coeffs(samples, ORDER, deriv=1, delta=step, use="dot"))


def _gain(samples: int, step: float) -> float:
    """Return how much noise of velocity a unit of noise of travel makes. [1/s]"""
    return float(np.sqrt(np.sum(_weights(samples, step) ** 2)))


def _smoothing(samples: int, step: float, noise: float) -> VelocityFilter:
    return VelocityFilter(samples * step, samples, ORDER, _cutoff(samples, step), noise * _gain(samples, step), noise)


def _cutoff(samples: int, step: float) -> float:
    """Return the frequency at which the filter's velocity is 3 dB below the true one. [Hz]"""
    weights = _weights(samples, step)
    f = np.linspace(_LOWEST, 0.5, _FREQUENCIES) / step
    place = (np.arange(samples) - samples // 2) * step
    response = np.abs(np.exp(2j * np.pi * np.outer(f, place)) @ weights) / (2 * np.pi * f)
    low = np.flatnonzero(response < _HALF_POWER)
    return float(f[low[0]]) if len(low) else float(f[-1])
