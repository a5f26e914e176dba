"""Statistics written once: normal and Student quantiles, a robust scale, the noise of samples."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence

import numpy as np
from numpy.typing import ArrayLike

from dynoan.model.arrays import FloatArray
from dynoan.model.ranks import median

#: two-sided 95 % quantile of the normal distribution [1]; tabulated (Abramowitz and Stegun, 1964), table 26.1
Z95 = 1.959964
#: median absolute value of a standard normal variable [1]: its 75 % quantile, to four digits. Every weight of a fit
#: rests on it: more digits would move curves by some 1e-6, and ends of hardly known knees by up to 2e-3 (numerics)
MEDIAN_OF_NORMAL = 0.6745
#: a fourth difference scatters so many times as much as a sample [1]: the root of 1 + 16 + 36 + 16 + 1 (numerics)
FOURTH_DIFFERENCE = math.sqrt(70.0)


def robust_scale(values: ArrayLike) -> float:
    """Return the standard deviation that the median absolute value tells of, as if normal about zero. [as the values]

    >>> round(robust_scale([-1.0, 1.0, 1.0, -1.0, 50.0]), 4)
    1.4826
    """
    off = np.abs(np.asarray(values, dtype=float)).ravel()
    return median(off) / MEDIAN_OF_NORMAL if len(off) else np.nan


def mean_of_finite(values: Iterable[float]) -> float:
    """Return the mean of the numbers that are known, not-a-number where none is. [as the values]

    >>> mean_of_finite([1.0, float("nan"), 3.0])
    2.0
    """
    known = [value for value in values if np.isfinite(value)]
    return float(np.mean(known)) if known else float("nan")


def mean_of_stated(values: Iterable[float | None]) -> float | None:
    """Return the mean of the numbers that are stated, None where none is. [as the values]

    >>> mean_of_stated([20.0, None, 30.0]), mean_of_stated([None])
    (25.0, None)
    """
    stated = [value for value in values if value is not None]
    return float(np.mean(stated)) if stated else None


def sample_noise(stretches: Sequence[FloatArray]) -> float:
    """Return the standard deviation of white noise on a smooth signal, from its fourth differences. [as the values]

    `stretches` are runs of evenly spaced samples, no difference taken across two of them; 0 where all hold fewer than
    five.

    >>> noise = np.random.default_rng(1).normal(0.0, 0.5, 20_000)
    >>> round(sample_noise([noise + np.linspace(0.0, 9.0, 20_000) ** 3]), 2)
    0.5
    """
    fourth = np.concatenate([d[4:] - 4 * d[3:-1] + 6 * d[2:-2] - 4 * d[1:-3] + d[:-4] for d in stretches])
    return robust_scale(fourth) / FOURTH_DIFFERENCE if len(fourth) else 0.0


def t_cdf(t: float, dof: int) -> float:
    """Return the distribution function of Student's t for whole degrees of freedom. [1]

    Notes
    -----
    Closed forms 26.7.3 and 26.7.4 of Abramowitz and Stegun, *Handbook of Mathematical Functions*. Written out here
    because importing scipy.special costs a fresh process more than fitting a curve.
    """
    theta = math.atan(t / math.sqrt(dof))
    cos2 = math.cos(theta) ** 2
    total, term = 0.0, 1.0
    if dof % 2:
        for k in range(1, (dof - 1) // 2 + 1):
            total += term
            term *= cos2 * 2 * k / (2 * k + 1)
        a = 2 / math.pi * (theta + math.sin(theta) * math.cos(theta) * total)
    else:
        for k in range(1, dof // 2 + 1):
            total += term
            term *= cos2 * (2 * k - 1) / (2 * k)
        a = math.sin(theta) * total
    return 0.5 + 0.5 * a


def t_quantile(p: float, dof: float) -> float:
    """Return the quantile of Student's t, by bisection; beyond 2000 degrees of freedom those of 2000. [1]

    >>> round(t_quantile(0.975, 10), 4)
    2.2281
    """
    whole = max(1, min(int(dof), 2000))
    low, high = 0.0, 1e4
    for _ in range(200):
        middle = 0.5 * (low + high)
        low, high = (middle, high) if t_cdf(middle, whole) < p else (low, middle)
        if high - low < 1e-12 * high:
            break
    return 0.5 * (low + high)
