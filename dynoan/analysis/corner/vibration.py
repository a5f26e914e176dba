"""One mass, one spring, one damper: the formulas every damping ratio rests on."""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike

from dynoan.errors import QuantityError
from dynoan.model.arrays import FloatArray
from dynoan.units import GRAVITY


def positive(name: str, value: ArrayLike) -> FloatArray:
    """Return `value` as an array.

    Raises
    ------
    QuantityError
        If any element is zero, negative or infinite. NaN stays NaN.
    """
    array = np.asarray(value, dtype=float)
    if np.any(array <= 0) or np.any(np.isinf(array)):
        raise QuantityError(f"{name} must be a finite number above zero, found {np.min(array):g}")
    return array


def critical_damping(*, mass: ArrayLike, rate: ArrayLike) -> FloatArray:
    r"""Return the damping at which a displaced mass just no longer oscillates. [N·s/m]

    Parameters
    ----------
    mass
        Sprung mass on the corner. [kg]
    rate
        Wheel rate; broadcast against `mass`. [N/m]

    Raises
    ------
    QuantityError
        If any mass or rate is zero, negative or infinite.

    Notes
    -----
    :math:`c_c = 2\sqrt{k m}`, the double root of :math:`m\ddot x + c\dot x + kx = 0` (S. S. Rao, *Mechanical
    Vibrations*, free vibration with viscous damping). Tyre and unsprung mass are left out.

    Examples
    --------
    >>> round(float(critical_damping(mass=200.0, rate=2358.2652)), 2)
    1373.54
    """
    return np.asarray(2.0 * np.sqrt(positive("rate", rate) * positive("mass", mass)))


def natural_frequency(*, mass: ArrayLike, rate: ArrayLike) -> FloatArray:
    r"""Return the undamped angular frequency :math:`\sqrt{k/m}`, broadcast. [rad/s]

    Raises
    ------
    QuantityError
        If any mass or rate is zero, negative or infinite.
    """
    return np.asarray(np.sqrt(positive("rate", rate) / positive("mass", mass)))


def series_rate(first: ArrayLike, second: ArrayLike) -> FloatArray:
    r"""Return the rate of two springs in series, :math:`k_1 k_2/(k_1 + k_2)`: wheel rate and tyre give ride rate. [N/m]

    Raises
    ------
    QuantityError
        If any rate is zero, negative or infinite.
    """
    a, b = positive("rate", first), positive("tyre rate", second)
    return np.asarray(a * b / (a + b))


def static_deflection(*, mass: ArrayLike, rate: ArrayLike) -> FloatArray:
    r"""Return how far a linear spring gives under its mass, :math:`m g/k`. [m]

    Raises
    ------
    QuantityError
        If any mass or rate is zero, negative or infinite.
    """
    return np.asarray(positive("mass", mass) * GRAVITY / positive("rate", rate))


def log_decrement(ratio: ArrayLike) -> FloatArray:
    r"""Return the logarithm of the ratio of successive peaks, :math:`2\pi\zeta/\sqrt{1-\zeta^2}`.

    Infinite from a damping ratio of 1 on, where there is no second peak.
    """
    zeta = np.asarray(ratio, dtype=float)
    under = np.minimum(zeta, 1.0)
    with np.errstate(divide="ignore"):
        return np.asarray(2 * np.pi * under / np.sqrt((1 - under) * (1 + under)))


def overshoot(ratio: ArrayLike) -> FloatArray:
    r"""Return how far a released or stepped mass goes past rest, as a share: :math:`e^{-\delta/2}`.

    Half a cycle after release the amplitude has fallen by half the logarithmic decrement.
    """
    return np.asarray(np.exp(-log_decrement(ratio) / 2))
