"""Limits of road classes and integrals of their spectrum, in closed form.

No command shows them. Published values are held against them, and a made-up road's spectrum and height against the
integrals.
"""

from __future__ import annotations

import math

from dynoan.analysis.road import REFERENCE, velocity_spectrum
from dynoan.model.car import ROAD_CLASSES

#: spatial frequencies to report on road [cycle/m]; ISO 8608:2016
REPORTED = (0.01, 10.0)


def class_limit(letter: str) -> float:
    """Return the upper limit of Gd(n0) of a class, the geometric mean with the next class. [m³]"""
    return 2.0 * ROAD_CLASSES[letter]


def class_of(roughness: float) -> str:
    """Return the ISO 8608 class of a Gd(n0) [m³]."""
    return next((letter for letter in ROAD_CLASSES if roughness <= class_limit(letter)), "H")


def rms_velocity(roughness: float, speed: float, band: tuple[float, float]) -> float:
    """Return the rms vertical road velocity within a band of frequencies [Hz] at a driving speed [m/s]. [m/s]"""
    return math.sqrt(velocity_spectrum(roughness, speed) * (band[1] - band[0]))


def rms_height(roughness: float, band: tuple[float, float]) -> float:
    """Return the rms profile height within a band of spatial frequencies [cycle/m]. [m]"""
    return math.sqrt(roughness * REFERENCE**2 * (1 / band[0] - 1 / band[1]))


def walk_step(roughness: float, distance: float) -> float:
    """Return the standard deviation of the height change over a distance [m] of the unlimited random road. [m]

    ``sqrt(2π²·n0²·Gd·Δ)``: the walk whose slope is white with the standard's spectrum.
    """
    return math.sqrt(2 * math.pi**2 * REFERENCE**2 * roughness * distance)
