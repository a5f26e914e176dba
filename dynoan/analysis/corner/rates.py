"""What a corner is without its damper: rates, ride frequencies, critical damping.

The sprung mass swings on the wheel rate, the tyre taken as rigid; with the tyre in series; or coupled with the wheel,
as a quarter car. Each has its name, and no formula uses one for another. Source of each: the module it comes from.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import NamedTuple

import numpy as np

from dynoan.analysis.corner.quarter_car import QuarterCar, comfort_ratio, grip_ratio
from dynoan.analysis.corner.vibration import critical_damping, natural_frequency, series_rate, static_deflection
from dynoan.model.car import Corner


class BodyAndHop(NamedTuple):
    """One figure of each mode of a quarter car."""

    body: float
    hop: float


@dataclass(frozen=True)
class CornerRates:
    """What a corner is without its damper."""

    wheel_rate: float  #: of the spring [N/m]
    rate: float  #: of spring and stated gas together, what the rest is reckoned with [N/m]
    ride_rate: float | None  #: with the tyre in series [N/m]
    sprung: float  #: [kg]
    frequency: float  #: ride frequency without the tyre [Hz]
    tyre_frequency: float | None  #: ride frequency on the ride rate [Hz]
    hop_frequency: float | None  #: unsprung mass on spring and tyre [Hz]
    critical_wheel: float  #: critical damping at the wheel [N·s/m]
    critical_shock: float  #: the same at the shock [N·s/m]
    critical_hop: float | None  #: of the unsprung mass on spring and tyre, at the wheel [N·s/m]
    deflection: float  #: of the spring under the sprung mass, at the wheel [m]
    modes: BodyAndHop | None  #: frequencies of the coupled quarter car, undamped [Hz]
    comfort: float | None  #: ratio of least body acceleration on a random road
    grip: float | None  #: ratio of least tyre-load swing on a random road


def corner_rates(corner: Corner) -> CornerRates:
    """Return rates, frequencies and critical damping of a corner; what needs the tyre is None without it.

    Parameters
    ----------
    corner
        Mass, spring and motion ratios; a tyre rate for what the tyre has a say in.

    Raises
    ------
    QuantityError
        If sprung mass, spring or tyre rate is not a finite number above zero.
    """
    found = uncoupled_rates(corner)
    quarter = quarter_car(corner)
    if quarter is None:
        return found
    modes = BodyAndHop(*(mode.frequency for mode in quarter.modes()))
    return replace(found, modes=modes, comfort=comfort_ratio(quarter), grip=grip_ratio(quarter))


def uncoupled_rates(corner: Corner) -> CornerRates:
    """Return the same without what the coupled quarter car gives, which takes most of the time.

    Raises
    ------
    QuantityError
        As `corner_rates`.
    """
    rate, sprung = corner.rate, corner.sprung
    critical = float(critical_damping(mass=sprung, rate=rate))
    ride = None if corner.tyre is None else float(series_rate(rate, corner.tyre))
    hop = None if corner.tyre is None else rate + corner.tyre
    return CornerRates(
        wheel_rate=corner.wheel_rate,
        rate=rate,
        ride_rate=ride,
        sprung=sprung,
        frequency=_hertz(sprung, rate),
        tyre_frequency=None if ride is None else _hertz(sprung, ride),
        hop_frequency=None if hop is None else _hertz(corner.unsprung, hop),
        critical_wheel=critical,
        critical_shock=critical / corner.shock_ratio**2,
        critical_hop=None if hop is None else float(critical_damping(mass=corner.unsprung, rate=hop)),
        deflection=float(static_deflection(mass=sprung, rate=rate)),
        modes=None,
        comfort=None,
        grip=None,
    )


def _hertz(mass: float, rate: float) -> float:
    return float(natural_frequency(mass=mass, rate=rate)) / (2 * np.pi)


def quarter_car(corner: Corner, damping: float = 0.0) -> QuarterCar | None:
    """Return the linear quarter car of a corner; None without a tyre rate.

    Parameters
    ----------
    corner
        Its damper has no say.
    damping
        Linear, at the wheel. [N·s/m]
    """
    if corner.tyre is None:
        return None
    return QuarterCar(corner.sprung, corner.unsprung, corner.rate, corner.tyre, damping)
