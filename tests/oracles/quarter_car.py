"""The whole response of a linear quarter car to a random road, in closed form.

No command shows it. It stands here because what commands do show of a random road are parts of it: `comfort_ratio` and
`grip_ratio` are where two of its figures are least, `random_motion.road_sigma` is its velocity with a damper
that depends on it.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from dynoan.analysis.checks import positive_number
from dynoan.analysis.corner.quarter_car import QuarterCar


@dataclass(frozen=True)
class RoadResponse:
    """Root mean squares on a random road."""

    travel: float  #: suspension travel at the wheel [m]
    velocity: float  #: suspension velocity at the wheel [m/s]
    acceleration: float  #: of the body [m/s²]
    tyre_load: float  #: swing of the tyre load about its mean [N]


def road_response(car: QuarterCar, spectrum: float) -> RoadResponse:
    r"""Return the root mean squares of a quarter car whose tyre follows a road of white vertical velocity.

    Parameters
    ----------
    car
        With damping above zero.
    spectrum
        One-sided, as from `road.velocity_spectrum`. [(m/s)²/Hz]

    Raises
    ------
    QuantityError
        If the car has no damping: nothing then bounds the response.

    Notes
    -----
    Closed forms of the Lyapunov equation with two-sided intensity q, half of `spectrum`: travel²
    :math:`q(m_s+m_u)/2c`; velocity² :math:`q k_t/2c`; acceleration² :math:`q[k_t c + k_s^2(m_s+m_u)/c]/2m_s^2`;
    tyre deflection² :math:`q[c k_t M^2 + (k_s^2M^3 - 2k_sk_tm_sm_uM + k_t^2m_s^2m_u)/c]/2k_t^2m_s^2`, M the sum.
    """
    c = positive_number("damping", car.damping)
    q, ks, kt, ms, mu = spectrum / 2, car.wheel_rate, car.tyre, car.sprung, car.unsprung
    total = ms + mu
    stiff = ks**2 * total**3 - 2 * ks * kt * ms * mu * total + kt**2 * ms**2 * mu
    return RoadResponse(
        travel=float(np.sqrt(q * total / (2 * c))),
        velocity=float(np.sqrt(q * kt / (2 * c))),
        acceleration=float(np.sqrt(q * (kt * c + ks**2 * total / c) / (2 * ms**2))),
        tyre_load=float(kt * np.sqrt(q * (c * kt * total**2 + stiff / c) / (2 * kt**2 * ms**2))),
    )
