"""The secant damping ratio: force over velocity at the shock, over what is critical there."""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike

from dynoan.analysis.corner.vibration import critical_damping
from dynoan.model.arrays import FloatArray
from dynoan.model.car import Corner
from dynoan.model.curve import Curve


def ratio_per_force(corner: Corner, velocity: ArrayLike) -> FloatArray:
    r"""Return the damping ratio that one newton at the shock makes at a velocity of the shock. [1/N]

    Parameters
    ----------
    corner
        Mass, spring and motion ratios.
    velocity
        Of the shock, signed or not, other than zero; any shape. [m/s]

    Returns
    -------
    :
        Of the same shape, above zero.

    Raises
    ------
    QuantityError
        If sprung mass or wheel rate is not a finite number above zero.

    Notes
    -----
    :math:`\zeta = (F/v)\,R^2/2\sqrt{k_w m_s}`: the secant coefficient, carried to the wheel by virtual work.

    Examples
    --------
    >>> corner = Corner("fl", mass=340.0, unsprung=40.0, spring=40e3, spring_ratio=1.0, shock_ratio=1.0)
    >>> round(float(600.0 * ratio_per_force(corner, 0.1)), 4)
    0.866
    """
    critical = critical_damping(mass=corner.sprung, rate=corner.rate)
    return np.asarray(corner.shock_ratio**2 / (critical * np.abs(np.asarray(velocity, dtype=float))))


def ratio_curve(corner: Corner, curve: Curve, velocity: ArrayLike) -> FloatArray:
    """Return the secant damping ratio at velocities of the shock. [1]

    Parameters
    ----------
    corner
        Mass, spring and motion ratios.
    curve
        Of the setting on the corner.
    velocity
        Signed, compression positive, other than zero; any shape. [m/s]

    Returns
    -------
    :
        Of the same shape.

    Raises
    ------
    QuantityError
        If sprung mass or wheel rate is not a finite number above zero.
    """
    v = np.asarray(velocity, dtype=float)
    return np.asarray(np.abs(curve(v)) * ratio_per_force(corner, v))
