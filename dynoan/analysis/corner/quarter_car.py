r"""The quarter car: sprung mass on spring and damper, unsprung mass on the tyre.

Notes
-----
Equations, x_s and x_u up from rest, r the road: :math:`m_s\ddot x_s = -k(x_s - x_u) - c(\dot x_s - \dot x_u)`,
:math:`m_u\ddot x_u = -m_s\ddot x_s - k_t(x_u - r)`. The tyre has no damping and stays on the road. On a road whose
vertical velocity is white with two-sided intensity q the mean squares have closed forms (the Lyapunov equation; the
full set stands in ``tests/oracles/quarter_car.py``). The ones used here: suspension velocity² :math:`q k_t/2c`, body
acceleration² :math:`q[k_t c + k^2(m_s+m_u)/c]/2m_s^2`, and the tyre's deflection² of `grip_ratio`.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from dynoan.analysis.corner.modes import Mode, modes
from dynoan.analysis.corner.vibration import critical_damping


@dataclass(frozen=True)
class QuarterCar:
    """One corner, linear."""

    sprung: float  #: [kg]
    unsprung: float  #: [kg]
    wheel_rate: float  #: [N/m]
    tyre: float  #: [N/m]
    damping: float = 0.0  #: at the wheel [N·s/m]

    def modes(self) -> tuple[Mode, Mode]:
        """Return the body and the wheel-hop mode, in this order; their shapes are over (sprung, unsprung)."""
        k, c = self.wheel_rate, self.damping
        body, hop = modes(
            np.diag([self.sprung, self.unsprung]),
            np.array([[c, -c], [-c, c]]),
            np.array([[k, -k], [-k, k + self.tyre]]),
        )
        return body, hop


def comfort_ratio(car: QuarterCar) -> float:
    r"""Return the damping ratio of least body acceleration on a random road. [1]

    Parameters
    ----------
    car
        Its damping has no say.

    Notes
    -----
    The least over c of :math:`k_t c + k^2(m_s + m_u)/c`, at :math:`c = k\sqrt{(m_s + m_u)/k_t}`.

    Examples
    --------
    >>> round(comfort_ratio(QuarterCar(300.0, 40.0, 30e3, 200e3)), 4)
    0.2062
    """
    c = car.wheel_rate * np.sqrt((car.sprung + car.unsprung) / car.tyre)
    return float(c / critical_damping(mass=car.sprung, rate=car.wheel_rate))


def grip_ratio(car: QuarterCar) -> float:
    r"""Return the damping ratio of least swing of the tyre load on a random road. [1]

    Parameters
    ----------
    car
        Its damping has no say.

    Notes
    -----
    The least over c of :math:`c k_t M^2 + (k^2M^3 - 2kk_tm_sm_uM + k_t^2m_s^2m_u)/c`, M the sum of the masses: the
    tyre's mean square deflection but for a factor.
    """
    rising, falling = _swing_parts(car)
    return float(np.sqrt(falling / rising) / critical_damping(mass=car.sprung, rate=car.wheel_rate))


def _swing_parts(car: QuarterCar) -> tuple[float, float]:
    """Return what the tyre's mean square deflection rises by with damping, and what it falls by with its inverse."""
    ks, kt, ms, mu = car.wheel_rate, car.tyre, car.sprung, car.unsprung
    total = ms + mu
    return kt * total**2, ks**2 * total**3 - 2 * ks * kt * ms * mu * total + kt**2 * ms**2 * mu


def tyre_load_swing(car: QuarterCar, spectrum: float, ratio: float) -> float:
    r"""Return the root mean square swing of the tyre's load on a random road. [N]

    Parameters
    ----------
    car
        Its damping has no say.
    spectrum
        One-sided, of the road's vertical velocity. [(m/s)²/Hz]
    ratio
        Damping ratio, above zero. [1]

    Notes
    -----
    Closed form of the Lyapunov equation: :math:`\sqrt{s\,(a c + b/c)}/2m_s`, s the spectrum, a and b of `grip_ratio`.
    """
    rising, falling = _swing_parts(car)
    c = ratio * critical_damping(mass=car.sprung, rate=car.wheel_rate)
    return float(np.sqrt(spectrum * (rising * c + falling / c)) / (2 * car.sprung))


def ratio_of_swing(car: QuarterCar, spectrum: float, swing: float) -> float:
    """Return the largest damping ratio whose swing of the tyre's load is so much; the steadiest where none is. [1]

    Parameters
    ----------
    car, spectrum
        As of `tyre_load_swing`.
    swing
        [N]
    """
    rising, falling = _swing_parts(car)
    middle = (2 * car.sprung * swing) ** 2 / spectrum / 2  # of a c + b/c = twice this
    c = (middle + np.sqrt(max(middle**2 - rising * falling, 0.0))) / rising
    return max(float(c / critical_damping(mass=car.sprung, rate=car.wheel_rate)), grip_ratio(car))
