"""Hydraulics behind a valve's forces in closed form: orifice, leak, oil. What published values vouch for.

The click map does without areas and viscosities, so no command reaches these; they are held against the published
values and then hold the click map's valve, whose groups they turn into a bleed hole or a leak a person can measure.

References
----------
.. [1] Orifice: definition of the discharge coefficient; ISO 5167-2 for how near 0.6 a sharp edge comes.
.. [2] Annulus: laminar flow between parallel plates bent to a ring; eccentric by integrating ``(1 + e·cos t)³``.
.. [3] ASTM D341, viscosity-temperature charts.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike

from dynoan.analysis.checks import positive
from dynoan.errors import QuantityError
from dynoan.model.arrays import FloatArray
from dynoan.units import ZERO_CELSIUS

#: mineral damper oil [kg/m³]
OIL_DENSITY = 850.0
#: of a sharp edge at high Reynolds number [1]
DISCHARGE = 0.61


def orifice_flow(
    *, area: ArrayLike, pressure: ArrayLike, discharge: float = DISCHARGE, density: float = OIL_DENSITY
) -> FloatArray:
    """Return the flow through a sharp-edged orifice, ``C_d·A·√(2Δp/ρ)``. [m³/s]

    Parameters
    ----------
    area
        Of the hole. [m²]
    pressure
        Pressure drop. [Pa]
    discharge
        Discharge coefficient. [1]
    density
        Of the oil. [kg/m³]

    Raises
    ------
    QuantityError
        If the area or density is not above zero, or the pressure drop is negative.
    """
    drop = np.asarray(pressure, dtype=float)
    if np.any(drop < 0):
        raise QuantityError(f"the pressure drop must not be negative, found {np.min(drop):g} Pa")
    return np.asarray(discharge * positive("area", area) * np.sqrt(2 * drop / positive("density", density)))


def bleed_force(
    *, velocity: ArrayLike, piston: float, bleed: ArrayLike, discharge: float = DISCHARGE,
    density: float = OIL_DENSITY,
) -> FloatArray:  # fmt: skip
    """Return the force of a bleed alone, ``ρ·A³·v²/(2·C_d²·a²)``. [N]

    Parameters
    ----------
    velocity
        Of the shaft. [m/s]
    piston, bleed
        Areas of the piston and of the hole. [m²]
    discharge
        Discharge coefficient. [1]
    density
        Of the oil. [kg/m³]

    Raises
    ------
    QuantityError
        If an area is not above zero.
    """
    hole = discharge * positive("bleed", bleed)
    return np.asarray(density * positive("piston", piston) ** 3 * np.asarray(velocity) ** 2 / (2 * hole**2))


def bleed_area(
    *, unit_speed: ArrayLike, piston: float, discharge: float = DISCHARGE, density: float = OIL_DENSITY
) -> FloatArray:
    """Return the hole that makes 1000 N at `unit_speed`, the click map's measure of a bleed. [m²]

    The inverse of `bleed_force` at 1000 N.
    """
    speed = positive("unit_speed", unit_speed)
    return np.asarray(np.sqrt(density * positive("piston", piston) ** 3 * speed**2 / 2000.0) / discharge)


def annular_leak(
    *, diameter: float, clearance: float, length: float, viscosity: float, pressure: ArrayLike,
    eccentricity: ArrayLike = 0.0,
) -> FloatArray:  # fmt: skip
    """Return the laminar flow through a ring gap, ``π·D·c³·Δp/(12·μ·L)·(1 + 1.5·e²)``. [m³/s]

    Parameters
    ----------
    diameter, clearance, length
        Of the gap; the clearance is radial. [m]
    viscosity
        Dynamic. [Pa·s]
    pressure
        Pressure drop. [Pa]
    eccentricity
        0 centred, 1 touching. [1]

    Raises
    ------
    QuantityError
        If a size or the viscosity is not above zero, or the eccentricity lies outside 0 to 1.
    """
    size = positive("diameter", diameter) * positive("clearance", clearance) ** 3
    flow = np.pi * size * np.asarray(pressure) / (12 * positive("viscosity", viscosity) * positive("length", length))
    return np.asarray(flow * eccentric_factor(eccentricity))


def eccentric_factor(eccentricity: ArrayLike) -> FloatArray:
    """Return by how much an off-centre piston leaks more than a centred one, ``1 + 1.5·e²``. [1]

    Raises
    ------
    QuantityError
        If the eccentricity lies outside 0 to 1.
    """
    e = np.asarray(eccentricity, dtype=float)
    if np.any((e < 0) | (e > 1)):
        raise QuantityError("eccentricity runs from 0 (centred) to 1 (touching)")
    return np.asarray(1 + 1.5 * e**2)


def oil_constants(
    low: tuple[float, float], high: tuple[float, float], *, zero: float = ZERO_CELSIUS
) -> tuple[float, float]:
    """Return A and B of ``lg lg(ν + 0.7) = A − B·lg T`` through two points.

    Parameters
    ----------
    low, high
        Temperature [°C] and kinematic viscosity [mm²/s] of each.
    zero
        Absolute temperature of 0 °C. [K]

    Raises
    ------
    QuantityError
        If a viscosity is not above 0.3 mm²/s or the temperatures are equal.
    """
    (ta, va), (tb, vb) = low, high
    if min(va, vb) <= 0.3 or ta == tb:
        raise QuantityError("two different temperatures and viscosities above 0.3 mm²/s are needed")
    ya, yb = (float(np.log10(np.log10(v + 0.7))) for v in (va, vb))
    xa, xb = (float(np.log10(t + zero)) for t in (ta, tb))
    b = (ya - yb) / (xb - xa)
    return ya + b * xa, b


def oil_viscosity(temperature: ArrayLike, constants: tuple[float, float], *, zero: float = ZERO_CELSIUS) -> FloatArray:
    """Return the kinematic viscosity at temperatures [°C] from `oil_constants`. [mm²/s]"""
    a, b = constants
    return np.asarray(10.0 ** (10.0 ** (a - b * np.log10(np.asarray(temperature, dtype=float) + zero))) - 0.7)


def oil_column_rate(*, area: float, bulk_modulus: float, volume: float) -> float:
    """Return the stiffness of a trapped oil column, ``A²·K/V``. [N/m]

    Parameters
    ----------
    area
        Of the piston. [m²]
    bulk_modulus
        Of the oil; air in it lowers this many times over. [Pa]
    volume
        Of the oil. [m³]
    """
    return float(positive("area", area) ** 2 * positive("bulk_modulus", bulk_modulus) / positive("volume", volume))
