"""The quarter car: sprung mass on spring and damper, unsprung mass on the tyre."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np

from dynoan.analysis.corner.modes import Mode, modes
from dynoan.analysis.corner.vibration import critical_damping, positive
from dynoan.errors import QuantityError


@dataclass(frozen=True)
class QuarterCar:
    """One corner, linear."""

    sprung: float  #: [kg]
    unsprung: float  #: [kg]
    wheel_rate: float  #: [N/m]
    tyre: float  #: [N/m]
    damping: float = 0.0  #: at the wheel [N·s/m]

    def modes(self) -> tuple[Mode, Mode]:
        """Return the body and the wheel-hop mode; shapes over (sprung, unsprung)."""
        k, c = self.wheel_rate, self.damping
        body, hop = modes(
            np.diag([self.sprung, self.unsprung]),
            np.array([[c, -c], [-c, c]]),
            np.array([[k, -k], [-k, k + self.tyre]]),
        )
        return body, hop


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
    c = float(positive("damping", car.damping))
    q, ks, kt, ms = spectrum / 2, car.wheel_rate, car.tyre, car.sprung
    total = ms + car.unsprung
    travel = q * total / (2 * c)
    velocity = q * kt / (2 * c)
    acceleration = q * (kt * c + ks**2 * total / c) / (2 * ms**2)
    deflection = q * (c * kt * total**2 + _tyre_term(car) / c) / (2 * kt**2 * ms**2)
    return RoadResponse(
        travel=float(np.sqrt(travel)),
        velocity=float(np.sqrt(velocity)),
        acceleration=float(np.sqrt(acceleration)),
        tyre_load=float(kt * np.sqrt(deflection)),
    )


def _tyre_term(car: QuarterCar) -> float:
    ks, kt, ms, mu = car.wheel_rate, car.tyre, car.sprung, car.unsprung
    total = ms + mu
    return ks**2 * total**3 - 2 * ks * kt * ms * mu * total + kt**2 * ms**2 * mu


def comfort_ratio(car: QuarterCar) -> float:
    """Return the damping ratio of least body acceleration on a random road: least of `road_response` over damping."""
    c = car.wheel_rate * np.sqrt((car.sprung + car.unsprung) / car.tyre)
    return float(c / critical_damping(mass=car.sprung, rate=car.wheel_rate))


def grip_ratio(car: QuarterCar) -> float:
    """Return the damping ratio of least swing of the tyre load on a random road: least of `road_response`."""
    c = np.sqrt(_tyre_term(car) / car.tyre) / (car.sprung + car.unsprung)
    return float(c / critical_damping(mass=car.sprung, rate=car.wheel_rate))


def road_sigma(spectrum: float, *, tyre: float, damping_at: Callable[[float], float]) -> float:
    r"""Return the root mean square suspension velocity of a nonlinear damper on a random road. [m/s]

    Statistical linearisation: the velocity :math:`\sigma = \sqrt{q k_t / 2c}` of `road_response`, where c is the
    equivalent damping at that very sigma.

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
        If no velocity between 0.1 mm/s and 100 m/s balances, as with a damper of no force.
    """
    from scipy.optimize import brentq

    def excess(log_sigma: float) -> float:
        sigma = float(np.exp(log_sigma))
        return float(2 * sigma**2 * max(damping_at(sigma), 1e-9) - spectrum / 2 * tyre)

    low, high = float(np.log(1e-4)), float(np.log(100.0))
    if not excess(low) < 0 < excess(high):
        raise QuantityError("no suspension velocity on this road balances the damping; check roughness and speed")
    return float(np.exp(brentq(excess, low, high, xtol=1e-10)))
