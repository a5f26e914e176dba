"""One mass, one spring, one damper: the formulas every damping ratio rests on.

Equation of motion ``m·x'' + c·x' + k·x = 0``, x the displacement from rest; the damping ratio is ``c`` over the
critical damping ``2·√(k·m)``. Source of all: S. S. Rao, *Mechanical Vibrations*, free vibration of systems with one
degree of freedom.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike

from dynoan.analysis.checks import positive
from dynoan.model.arrays import FloatArray
from dynoan.units import GRAVITY


def critical_damping(*, mass: ArrayLike, rate: ArrayLike) -> FloatArray:
    r"""Return the damping at which a displaced mass just no longer oscillates. [N·s/m]

    Parameters
    ----------
    mass
        Sprung mass on the corner. [kg]
    rate
        Wheel rate; broadcast against `mass`. [N/m]

    Returns
    -------
    :
        At the wheel, of the broadcast shape.

    Raises
    ------
    QuantityError
        If any mass or rate is not a finite number above zero.

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
    r"""Return the undamped angular frequency :math:`\sqrt{k/m}`. [rad/s]

    Parameters
    ----------
    mass
        What swings. [kg]
    rate
        Of all that holds it; broadcast against `mass`. [N/m]

    Returns
    -------
    :
        Of the broadcast shape.

    Raises
    ------
    QuantityError
        If any mass or rate is not a finite number above zero.

    Notes
    -----
    S. S. Rao, *Mechanical Vibrations*, free vibration of an undamped system.

    Examples
    --------
    >>> float(natural_frequency(mass=4.0, rate=400.0))
    10.0
    """
    return np.asarray(np.sqrt(positive("rate", rate) / positive("mass", mass)))


def series_rate(first: ArrayLike, second: ArrayLike) -> FloatArray:
    r"""Return the rate of two springs in series, :math:`k_1 k_2/(k_1 + k_2)`: wheel rate and tyre give ride rate. [N/m]

    Parameters
    ----------
    first, second
        Rates of the two; broadcast. [N/m]

    Returns
    -------
    :
        Of the broadcast shape; below either of the two.

    Raises
    ------
    QuantityError
        If any rate is not a finite number above zero.

    Notes
    -----
    The force is one, the deflections add up (S. S. Rao, *Mechanical Vibrations*, combination of springs).

    Examples
    --------
    >>> float(series_rate(30e3, 60e3))
    20000.0
    """
    a, b = positive("rate", first), positive("tyre rate", second)
    return np.asarray(a * b / (a + b))


def static_deflection(*, mass: ArrayLike, rate: ArrayLike) -> FloatArray:
    r"""Return how far a linear spring gives under its mass, :math:`m g/k`. [m]

    Parameters
    ----------
    mass
        On the spring. [kg]
    rate
        Of the spring, where the mass acts; broadcast against `mass`. [N/m]

    Returns
    -------
    :
        Of the broadcast shape, positive in compression.

    Raises
    ------
    QuantityError
        If any mass or rate is not a finite number above zero.

    Examples
    --------
    >>> round(float(static_deflection(mass=100.0, rate=9806.65)), 6)
    0.1
    """
    return np.asarray(positive("mass", mass) * GRAVITY / positive("rate", rate))


def log_decrement(ratio: ArrayLike) -> FloatArray:
    r"""Return the logarithm of the ratio of successive peaks, :math:`2\pi\zeta/\sqrt{1-\zeta^2}`. [1]

    Parameters
    ----------
    ratio
        Damping ratio, any shape. [1]

    Returns
    -------
    :
        Of the same shape; infinite from a damping ratio of 1 on, where there is no second peak.

    Notes
    -----
    S. S. Rao, *Mechanical Vibrations*, logarithmic decrement.

    Examples
    --------
    >>> round(float(log_decrement(0.5)), 4)
    3.6276
    """
    zeta = np.asarray(ratio, dtype=float)
    under = np.minimum(zeta, 1.0)
    with np.errstate(divide="ignore"):
        return np.asarray(2 * np.pi * under / np.sqrt((1 - under) * (1 + under)))


def overshoot(ratio: ArrayLike) -> FloatArray:
    r"""Return how far a released or stepped mass goes past rest, as a share of the step: :math:`e^{-\delta/2}`. [1]

    Parameters
    ----------
    ratio
        Damping ratio, any shape. [1]

    Returns
    -------
    :
        Of the same shape, between 1 and 0; 0 from a damping ratio of 1 on.

    Notes
    -----
    Half a cycle after release the amplitude has fallen by half the logarithmic decrement.

    Examples
    --------
    >>> round(float(overshoot(0.5)), 3)
    0.163
    """
    return np.asarray(np.exp(-log_decrement(ratio) / 2))
