"""Anti-roll bars from their size, and load transfer in a corner: published formulas that only tests need."""

from __future__ import annotations

import math


def bar_rate(diameter: float, length: float, modulus: float, inner: float = 0.0) -> float:
    """Torsion rate of a round bar. [N·m/rad]"""
    return math.pi * (diameter**4 - inner**4) * modulus / (32 * length)


def arm_rate(diameter: float, arm: float, young: float) -> float:
    """Rate of a round arm as a cantilever at its end. [N/m]"""
    return 3 * young * math.pi * diameter**4 / 64 / arm**3


def lateral(mass: float, acceleration: float, arm: float, own: float, other: float, base: float, far: float,
            centre: float, track: float) -> float:  # fmt: skip
    """Load moved across an axle in a corner: `far` to the other axle, `centre` its roll centre's height. [N]"""
    return mass * acceleration / track * (arm * own / (own + other) + far / base * centre)
