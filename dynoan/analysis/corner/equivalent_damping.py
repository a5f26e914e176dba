"""The linear damper that takes as much energy out as a nonlinear one, in a swing or in random motion."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike

from dynoan.analysis.corner.vibration import positive
from dynoan.model.arrays import FloatArray

Law = Callable[[FloatArray], FloatArray]  #: signed force at signed velocities, such as a `Curve`
#: points per quarter cycle or per side of the bell: a knee between two of them costs less than 1e-8 of the result
POINTS = 1 << 13
#: how far the bell is followed, in standard deviations
REACH = 9.0


@dataclass(frozen=True)
class Equivalent:
    """What one motion makes of a damper. Damping in N·s/m."""

    damping: float  #: over the whole motion
    compression: float  #: over the compression half alone
    rebound: float  #: over the rebound half alone
    mean_force: float  #: positive pushes the body up, negative pulls it down [N]


def mean_damping(force: ArrayLike, velocity: ArrayLike, weight: ArrayLike = 1.0) -> float:
    r"""Return :math:`E[F v]/E[v^2]` over samples: the linear damper of equal power. [N·s/m]

    Over whole cycles of a swing this is :math:`\oint F\,dx/(\pi\omega X^2)`; in random motion it is the damping of
    statistical linearisation.

    Parameters
    ----------
    force, velocity, weight
        Samples, one shape or broadcast. [N, m/s, any]
    """
    f, v, w = (np.asarray(a, dtype=float) for a in (force, velocity, weight))
    return float(np.sum(w * f * v) / np.sum(w * v * v))


def swing_speeds(*, amplitude: float, omega: float) -> tuple[FloatArray, FloatArray]:
    """Return speeds over half a sinusoidal swing and their weights, shape (n,) each. [m/s]

    Parameters
    ----------
    amplitude
        Of the displacement at the shock, zero to peak. [m]
    omega
        Angular frequency. [rad/s]

    Raises
    ------
    QuantityError
        If amplitude or frequency is not above zero.
    """
    peak = float(positive("amplitude", amplitude) * positive("omega", omega))
    angle = (np.arange(POINTS) + 0.5) * (np.pi / 2 / POINTS)
    return np.asarray(peak * np.cos(angle)), np.ones(POINTS)


def random_speeds(sigma: float) -> tuple[FloatArray, FloatArray]:
    """Return speeds on one side of a Gaussian of standard deviation `sigma` and their weights, shape (n,). [m/s]

    Raises
    ------
    QuantityError
        If sigma is not above zero.
    """
    speed = (np.arange(POINTS) + 0.5) * (float(positive("sigma", sigma)) * REACH / POINTS)
    return np.asarray(speed), np.asarray(np.exp(-0.5 * (speed / sigma) ** 2))


def in_swing(law: Law, *, amplitude: float, omega: float) -> Equivalent:
    """Return the energy equivalent over a sinusoidal swing; its energy per cycle is π·damping·omega·amplitude².

    Parameters and errors as of `swing_speeds`.
    """
    return _over(law, *swing_speeds(amplitude=amplitude, omega=omega))


def in_random_motion(law: Law, sigma: float) -> Equivalent:
    """Return the equivalent under a Gaussian velocity of zero mean and standard deviation `sigma`. [m/s]

    Raises
    ------
    QuantityError
        If sigma is not above zero.
    """
    return _over(law, *random_speeds(sigma))


def _over(law: Law, speed: FloatArray, weight: FloatArray) -> Equivalent:
    up, down = law(speed), law(-speed)
    compression = mean_damping(up, speed, weight)
    rebound = mean_damping(down, -speed, weight)
    mean = float(np.sum(weight * (up + down)) / (2 * np.sum(weight)))
    return Equivalent((compression + rebound) / 2, compression, rebound, mean)
