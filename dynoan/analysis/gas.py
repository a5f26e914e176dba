"""The gas behind the rod: what it pushes with, and the charge that a force tells of.

``p·V^n = const`` in absolute pressure, the exponent between 1 (slow) and 1.4 (fast). SI; charges are gauge pressures.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

import numpy as np
from numpy.typing import ArrayLike

from dynoan.analysis.checks import positive
from dynoan.errors import QuantityError
from dynoan.model.arrays import FloatArray
from dynoan.model.car import Car, Corner
from dynoan.model.curve import Curve
from dynoan.units import ATMOSPHERE, ZERO_CELSIUS


def gas_force(
    *, charge: ArrayLike, rod: float, volume: float = np.inf, travel: ArrayLike = 0.0, exponent: ArrayLike = 1.2
) -> FloatArray:
    """Return the force of the gas on the rod, ``(p − p_atm)·A_rod`` after `travel`. [N]

    Parameters
    ----------
    charge
        Gauge pressure fully extended. [Pa]
    rod
        Rod diameter. [m]
    volume
        Gas volume fully extended; infinite where the pressure stays. [m³]
    travel
        From fully extended, compression positive. [m]
    exponent
        Polytropic, 1 slow to 1.4 fast. [1]

    Raises
    ------
    QuantityError
        If the rod fills the gas volume, or a size is not above zero.
    """
    area = rod_area(rod)
    absolute = np.asarray(charge, dtype=float) + ATMOSPHERE
    return np.asarray((absolute * _squeeze(volume, area, travel) ** np.asarray(exponent) - ATMOSPHERE) * area)


def gas_rate(
    *, charge: ArrayLike, rod: float, volume: float, travel: ArrayLike = 0.0, exponent: ArrayLike = 1.4
) -> FloatArray:
    """Return the spring rate of the gas, ``n·p·A²/V`` in absolute pressure after `travel`; see `gas_force`. [N/m]"""
    area = rod_area(rod)
    n = np.asarray(exponent, dtype=float)
    absolute = (np.asarray(charge, dtype=float) + ATMOSPHERE) * _squeeze(volume, area, travel) ** n
    return np.asarray(n * absolute * area**2 / (volume - area * np.asarray(travel)))


def spring_of_gas(corner: Corner, curve: Curve | None) -> float:
    """Return the rate of a shock's gas: as the car's file states it, else as the sweeps tell it, else 0. [N/m]

    Parameters
    ----------
    corner
        Of the car.
    curve
        Of what is on it, None where nothing is.
    """
    if corner.gas_rate is not None:
        return corner.gas_rate
    return curve.gas_rate if curve is not None and curve.gas_rate > 0 else 0.0


def with_gas(car: Car, curves: Mapping[str, Curve]) -> Car:
    """Return a car with the rate of its shocks' gas as its curves tell it, where its file does not state one.

    Parameters
    ----------
    curves
        By corner.
    """
    corners = {
        name: replace(c, gas_rate=spring_of_gas(c, curves[name])) if name in curves else c
        for name, c in car.corners.items()
    }
    return replace(car, corners=corners)


def _squeeze(volume: float, area: float, travel: ArrayLike) -> FloatArray:
    if volume == np.inf:
        return np.ones_like(np.asarray(travel, dtype=float))
    left = positive("gas volume", volume) - area * np.asarray(travel, dtype=float)
    if np.any(left <= 0):
        raise QuantityError(f"the rod fills the gas volume of {volume * 1e6:.0f} cm³ at this travel")
    return np.asarray(volume / left)


def rod_area(rod: float) -> float:
    """Return the area of a rod of a diameter [m]. [m²]"""
    return float(np.pi / 4 * positive("rod diameter", rod) ** 2)


def charge_from_force(force: ArrayLike, rod: float) -> FloatArray:
    """Return the gauge pressure that pushes a rod of a diameter [m] out with a force [N]. [Pa]"""
    return np.asarray(np.asarray(force, dtype=float) / rod_area(rod))


def charge_at(charge: ArrayLike, *, measured: ArrayLike, wanted: ArrayLike) -> FloatArray:
    """Return the gauge pressure of a sealed gas at another temperature, the volume unchanged, ``p/T = const``. [Pa]

    Parameters
    ----------
    charge
        Gauge pressure at the temperature `measured`. [Pa]
    measured, wanted
        Temperatures. [°C]
    """
    ratio = (np.asarray(wanted, dtype=float) + ZERO_CELSIUS) / (np.asarray(measured, dtype=float) + ZERO_CELSIUS)
    return np.asarray((np.asarray(charge, dtype=float) + ATMOSPHERE) * ratio - ATMOSPHERE)
