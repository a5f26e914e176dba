"""Gas force: the rod pushes out with the pressure on its area, ``F(x) = A (p (L/(L - x))^n - p_atm)``.

L is the length of the gas column in rod travel (gas volume at mid-stroke over rod area), n between 1 (slow,
isothermal) and 1.4 (fast, adiabatic), or its warmth followed in time (`settles_s`). Source: p V^n = const with absolute
pressure. Rods of 10-16 mm and 0-400 N at
mid-stroke: common practice, no source. What a shop's software may do to it before it writes the file: nothing, take
all of it out, or take out only what it reads at mid-stroke.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

import numpy as np
from numba import njit
from numpy.typing import ArrayLike

from tests.worlds.valves import FloatArray, Generator

ATMOSPHERE = 101325.0
"""Standard atmosphere [Pa]."""
KAPPA = 1.4
"""Adiabatic exponent of nitrogen and air."""
TIGHTEST = 1.5
"""Shortest gas column over half the stroke: at the compressed end the gas is at most three times as dense as at
mid-stroke.
"""

Removed = Literal["nothing", "static", "all"]


@dataclass(frozen=True)
class GasColumn:
    """A gas-charged shock's rod force. No gas: `pressure_pa` equal to `ATMOSPHERE` and any column."""

    rod_m: float  #: rod diameter [m]
    pressure_pa: float  #: absolute, at x = 0 [Pa]
    column_m: float  #: L [m]
    exponent: float  #: n
    removed: Removed = "nothing"  #: what the file no longer holds
    settles_s: float = 0.0  #: in which it gives its warmth away, where `exponent` is that of one warmth, 1; 0: at once

    @property
    def area_m2(self) -> float:
        """Rod area [m²]."""
        return 0.25 * np.pi * self.rod_m**2

    def force(self, x: ArrayLike) -> FloatArray:
        """Return the rod force [N] at a displacement [m] from mid-stroke, compression positive."""
        tight = self.column_m / (self.column_m - np.asarray(x, float))
        return self.area_m2 * (self.pressure_pa * tight**self.exponent - ATMOSPHERE)

    def kept(self, x: ArrayLike) -> FloatArray:
        """Return the part [N] of `force` that the file still holds."""
        whole = self.force(x)
        if self.removed == "nothing":
            return whole
        return whole - (whole if self.removed == "all" else self.force(0.0))

    def warmed(self, x: FloatArray, dt: float) -> FloatArray:
        """Return what its own warmth adds to `force` [N] along a motion in steps of `dt` [s], at one warmth before.

        Pressed together it warms by ``(κ − 1) T dV/V``, and what it is warmer by fades away in `settles_s`.
        """
        if not self.settles_s:
            return np.zeros_like(x)
        tight = self.column_m / (self.column_m - x)
        return self.area_m2 * self.pressure_pa * tight * warmth(np.log(tight), dt / self.settles_s)

    def charge_pa(self, x: float) -> float:
        """Return the gauge pressure [Pa] at a displacement [m], as read when the shock is charged there."""
        return float(self.force(x)) / self.area_m2


@njit(cache=True)
def warmth(tight: FloatArray, step: float) -> FloatArray:  # pragma: no cover
    """Return by which share gas is warmer than what is around it, by the logarithm of its density and steps of time."""
    out = np.zeros_like(tight)
    now = 0.0
    for n in range(1, tight.size):
        now += (KAPPA - 1.0) * (1.0 + now) * (tight[n] - tight[n - 1])
        now -= step * now
        out[n] = now
    return out


def column_for(rod_m: float, force_n: float, rate_n_m: float, exponent: float, half_stroke_m: float) -> GasColumn:
    """Return the column with `force_n` and `rate_n_m` at mid-stroke, or the steepest the stroke allows (`TIGHTEST`)."""
    area = 0.25 * np.pi * rod_m**2
    pressure = force_n / area + ATMOSPHERE
    length = exponent * area * pressure / rate_n_m
    return GasColumn(rod_m, pressure, max(length, TIGHTEST * half_stroke_m), exponent)


def draw_gas(
    rng: Generator, half_stroke_m: float, force_n: tuple[float, float], rate_n_m: tuple[float, float]
) -> GasColumn:
    """Return a random column: mid-stroke force and rate uniform in the ranges given, rod 10-16 mm, n 1.0-1.4."""
    rod = float(rng.choice([0.010, 0.012, 0.014, 0.016]))
    force, rate = float(rng.uniform(*force_n)), float(rng.uniform(*rate_n_m))
    return column_for(rod, force, rate, float(rng.uniform(1.0, 1.4)), half_stroke_m)
