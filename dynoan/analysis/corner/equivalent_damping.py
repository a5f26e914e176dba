r"""The linear damper that takes as much energy out as a nonlinear one, in a swing or in random motion.

Notes
-----
Over a cycle of amplitude X at angular frequency ω a damper takes out :math:`\oint F\,dx`, a linear one
:math:`\pi c\omega X^2`: that they are equal fixes c (S. S. Rao, *Mechanical Vibrations*, equivalent viscous damping).
Under a Gaussian velocity it is :math:`c = E[F v]/E[v^2]` that leaves the least mean square error of force
(statistical linearisation, J. B. Roberts and P. D. Spanos, *Random Vibration and Statistical Linearization*).
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from functools import lru_cache

import numpy as np
from numpy.typing import ArrayLike

from dynoan.analysis.checks import positive_number
from dynoan.analysis.corner.assumptions import BELL_END, MOTION_POINTS
from dynoan.model.arrays import FloatArray

KEPT_SPEEDS = 64  #: motions whose speeds are kept: a corner at the ends of what its car leaves open asks for a few
Law = Callable[[FloatArray], FloatArray]  #: signed force at signed velocities, such as a `Curve`


@dataclass(frozen=True)
class EquivalentDamper:
    """What one motion makes of a damper."""

    damping: float  #: over the whole motion [N·s/m]
    compression: float  #: over the compression half alone [N·s/m]
    rebound: float  #: over the rebound half alone [N·s/m]
    mean_force: float  #: positive pushes the body up, negative pulls it down [N]


def mean_damping(force: ArrayLike, velocity: ArrayLike, weight: ArrayLike = 1.0) -> float:
    r"""Return :math:`E[F v]/E[v^2]` over samples: the linear damper of equal power. [N·s/m]

    Over whole cycles of a swing this is :math:`\oint F\,dx/(\pi\omega X^2)`; in random motion it is the damping of
    statistical linearisation.

    Parameters
    ----------
    force, velocity, weight
        Samples, one shape or broadcast. [N, m/s, any]

    Examples
    --------
    >>> round(mean_damping([50.0, -100.0], [0.1, -0.2]), 6)
    500.0
    """
    f, v, w = (np.asarray(a, dtype=float) for a in (force, velocity, weight))
    return float(np.sum(w * f * v) / np.sum(w * v * v))


@lru_cache(KEPT_SPEEDS)
def swing_speeds(*, amplitude: float, omega: float) -> tuple[FloatArray, FloatArray]:
    """Return speeds over half a sinusoidal swing and their weights. [m/s], [1]

    Parameters
    ----------
    amplitude
        Of the displacement at the shock, zero to peak. [m]
    omega
        Angular frequency. [rad/s]

    Returns
    -------
    :
        `MOTION_POINTS` magnitudes at the middles of equal spans of time, and as many ones.

    Raises
    ------
    QuantityError
        If amplitude or frequency is not a finite number above zero.

    Examples
    --------
    >>> speeds, _ = swing_speeds(amplitude=0.02, omega=10.0)
    >>> round(float(speeds.max()), 6)
    0.2
    """
    peak = positive_number("amplitude", amplitude) * positive_number("omega", omega)
    angle = (np.arange(MOTION_POINTS) + 1 / 2) * (np.pi / 2 / MOTION_POINTS)
    return _fixed(peak * np.cos(angle)), _fixed(np.ones(MOTION_POINTS))


@lru_cache(KEPT_SPEEDS)
def random_speeds(sigma: float) -> tuple[FloatArray, FloatArray]:
    """Return speeds on one side of a Gaussian of zero mean and their weights. [m/s], [1]

    Parameters
    ----------
    sigma
        Standard deviation of the velocity. [m/s]

    Returns
    -------
    :
        `MOTION_POINTS` magnitudes, equally far apart, and the height of the bell at each over that at its middle.

    Raises
    ------
    QuantityError
        If sigma is not a finite number above zero.
    """
    speed = (np.arange(MOTION_POINTS) + 1 / 2) * (positive_number("sigma", sigma) * BELL_END / MOTION_POINTS)
    return _fixed(np.asarray(speed)), _fixed(np.asarray(np.exp(-1 / 2 * (speed / sigma) ** 2)))


def _fixed(values: FloatArray) -> FloatArray:
    values.flags.writeable = False  # the next who asks for the same motion gets this array
    return values


def in_swing(law: Law, *, amplitude: float, omega: float) -> EquivalentDamper:
    """Return the energy equivalent over a sinusoidal swing; its energy per cycle is π·damping·omega·amplitude².

    Parameters
    ----------
    law
        Signed force at signed velocities, compression positive. [N]
    amplitude, omega
        As of `swing_speeds`. [m], [rad/s]

    Raises
    ------
    QuantityError
        If amplitude or frequency is not a finite number above zero.

    Examples
    --------
    >>> round(in_swing(lambda v: 2000 * v, amplitude=0.02, omega=10.0).damping, 6)
    2000.0
    """
    return _over(law, *swing_speeds(amplitude=amplitude, omega=omega))


def _over(law: Law, speed: FloatArray, weight: FloatArray) -> EquivalentDamper:
    up, down = law(speed), law(-speed)
    compression = mean_damping(up, speed, weight)
    rebound = mean_damping(down, -speed, weight)
    mean = float(np.sum(weight * (up + down)) / (2 * np.sum(weight)))
    return EquivalentDamper((compression + rebound) / 2, compression, rebound, mean)
