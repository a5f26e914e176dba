"""Published laws of the tyre along the road that the launch does not use, for tests of the one that it does."""

from __future__ import annotations

import math

import numpy as np
from numpy.typing import ArrayLike

from dynoan.model.arrays import FloatArray


def sine_arctangent(slip: ArrayLike, coefficients: tuple[float, float, float, float]) -> FloatArray:
    """Return the grip of the full law, of the slips' shape. [1]

    Parameters
    ----------
    slip
        Any shape. [1]
    coefficients
        B, C, D, E as published.
    """
    b, c, d, e = coefficients
    x = b * np.asarray(slip, dtype=float)
    return np.asarray(d * np.sin(c * np.arctan(x - e * (x - np.arctan(x)))))


def exponential(slip: ArrayLike, coefficients: tuple[float, float, float]) -> FloatArray:
    """Return the grip of the exponential law ``c1·(1 − exp(−c2·s)) − c3·s``, of the slips' shape. [1]

    M. Burckhardt, *Fahrwerktechnik: Radschlupf-Regelsysteme*, 1993. Driving slip is over the wheel's speed there.

    Parameters
    ----------
    slip
        Any shape. [1]
    coefficients
        As published.
    """
    c1, c2, c3 = coefficients
    s = np.asarray(slip, dtype=float)
    return np.asarray(c1 * (1 - np.exp(-c2 * s)) - c3 * s)


def exponential_peak(coefficients: tuple[float, float, float]) -> tuple[float, float]:
    """Return slip and grip at the peak of the exponential law. [1]

    Parameters
    ----------
    coefficients
        As published, c3 above zero.
    """
    c1, c2, c3 = coefficients
    best = math.log(c1 * c2 / c3) / c2
    return best, float(exponential(best, coefficients))


def brush(slip: ArrayLike, *, stiffness: float, grip: float, load: float) -> FloatArray:
    """Return the force of a tread of bristles under parabolic pressure, of the slips' shape. [N]

    H. B. Pacejka, *Tyre and Vehicle Dynamics*, ch. 3 (from memory). Slip in the tread's own measure, κ/(1 + κ).

    Parameters
    ----------
    slip
        At zero or above. [1]
    stiffness, grip, load
        [N], [1], [N]
    """
    c = stiffness * np.asarray(slip, dtype=float)
    most = grip * load
    force = c - c**2 / (3 * most) + c**3 / (27 * most**2)
    return np.asarray(np.where(c >= 3 * most, most, force))


def rolling_radius(*, free: float, loaded: float) -> float:
    """Return the radius a tyre rolls on, a third of the way from the loaded one to the free one. [m]

    Parameters
    ----------
    free, loaded
        [m]
    """
    return free * 2 / 3 + loaded / 3
