"""The linear equivalent of a damper under a Gaussian velocity, and a corner on a random road by it.

The program reckons a corner on a rough road from its whole distribution (`analysis/corner/rough_road.py`).
"""

from __future__ import annotations

from collections.abc import Callable

import numpy as np

from dynoan.analysis.corner.equivalent_damping import EquivalentDamper, Law, _over, random_speeds
from dynoan.errors import QuantityError
from dynoan.model.car import Corner
from dynoan.model.curve import Curve

LEAST_SIGMA, MOST_SIGMA = 1e-4, 100.0  #: between these an rms suspension velocity is looked for [m/s]
SIGMA_EXACT = 1e-10  #: how exactly its logarithm is found [1]
LEAST_DAMPING = 1e-9  #: a damper of no force counts as this much, so that the search ends with an error [N·s/m]


def in_random_motion(law: Law, sigma: float) -> EquivalentDamper:
    """Return the equivalent under a Gaussian velocity of zero mean.

    Parameters
    ----------
    law
        Signed force at signed velocities, compression positive. [N]
    sigma
        Standard deviation of the velocity at the shock. [m/s]

    Raises
    ------
    QuantityError
        If sigma is not a finite number above zero.
    """
    return _over(law, *random_speeds(sigma))


def road_sigma(spectrum: float, *, tyre: float, damping_at: Callable[[float], float]) -> float:
    r"""Return the root mean square suspension velocity of a nonlinear damper on a random road. [m/s]

    Statistical linearisation (J. B. Roberts and P. D. Spanos, *Random Vibration and Statistical Linearization*): the
    velocity :math:`\sigma = \sqrt{q k_t / 2c}` of a linear damper, where c is the equivalent damping at that very
    sigma.

    Parameters
    ----------
    spectrum
        One-sided, of the road's vertical velocity. [(m/s)²/Hz]
    tyre
        Tyre rate. [N/m]
    damping_at
        Equivalent damping at the wheel for a Gaussian suspension velocity of that sigma. [N·s/m]

    Raises
    ------
    QuantityError
        If no velocity between `LEAST_SIGMA` and `MOST_SIGMA` balances, as with a damper of no force.
    """
    from scipy.optimize import brentq

    def excess(log_sigma: float) -> float:
        sigma = float(np.exp(log_sigma))
        return float(2 * sigma**2 * max(damping_at(sigma), LEAST_DAMPING) - spectrum / 2 * tyre)

    low, high = float(np.log(LEAST_SIGMA)), float(np.log(MOST_SIGMA))
    if not excess(low) < 0 < excess(high):
        raise QuantityError(
            "no suspension velocity on this road balances the damping", hint="check roughness and speed"
        )
    return float(np.exp(brentq(excess, low, high, xtol=SIGMA_EXACT)))


def surface_sigma(corner: Corner, curve: Curve, spectrum: float) -> float:
    """Return the root mean square velocity at the shock on a random road, by statistical linearisation. [m/s]

    Parameters
    ----------
    corner
        With a tyre rate.
    curve
        Of the setting on the corner.
    spectrum
        Of the road's vertical velocity, from `road.velocity_spectrum`. [(m/s)²/Hz]

    Raises
    ------
    QuantityError
        If the corner has no tyre rate, or nothing balances.
    """
    if corner.tyre is None:
        raise QuantityError(f"{corner.name}.tyre is missing", hint="a rough surface acts through the tyre")
    ratio = corner.shock_ratio
    return ratio * road_sigma(
        spectrum,
        tyre=corner.tyre,
        damping_at=lambda sigma: in_random_motion(curve, sigma * ratio).damping * ratio**2,
    )
