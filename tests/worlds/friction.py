"""Friction laws of seals and guides, as forces along a motion (positive in compression, as velocity is).

Sliding level: ``F(v) = Fc (1 + b exp(-(v/vs)²))``, b the breakaway share and vs the Stribeck speed (b = 0: plain
Coulomb). Turning: at a reversal friction does not jump. Three ways: `coulomb` smooths by ``tanh(v/vt)``; `dahl` and
`lugre` are bristles of stiffness Fc/s, s the presliding travel, and so depend on the travel since the reversal. Over
all of them may lie: a difference between directions, growth with valve force (seals energised by pressure, side load),
growth with travel (guides under bending).

Sources: Dahl, *Solid friction damping of mechanical vibrations* (AIAA J. 14, 1976), ``dF/dx = σ (1 - F/Fc sgn v)``,
quoted from memory; Canudas de Wit et al., IEEE Trans. Automatic Control 40 (1995) 419-425 (LuGre), ``dz/dt = v - σ0
|v| z/F(v)``, ``F = σ0 z + σ1 dz/dt``. Its viscous term σ2 v is left out here: it is damping and stands in the valve.
Its table: Fc/σ0 = 10 µm, Fs/Fc = 1.5, vs = 1 mm/s, σ1/σ0 = 3.2 ms; here scaled to seals of rubber (10-100 µm, 1-10
mm/s, σ1/σ0 up to 1 ms). Ranges: common practice, no source.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Literal

import numpy as np
from numba import njit
from numpy.typing import ArrayLike

from tests.worlds.valves import FloatArray, Generator, log_uniform

Turning = Literal["coulomb", "dahl", "lugre"]


@dataclass(frozen=True)
class Friction:
    """A friction law; see the module's text for the symbols."""

    level_n: float = 0.0  #: Fc, mean of both directions at mid-stroke without load [N]
    turning: Turning = "coulomb"
    turn_m_s: float = 0.002  #: vt, for `coulomb` [m/s]
    breakaway: float = 0.0  #: b
    stribeck_m_s: float = 0.005  #: vs [m/s]
    presliding_m: float = 1e-4  #: s, for `dahl` and `lugre` [m]
    bristle_s: float = 0.0  #: σ1/σ0, for `lugre` [s]
    tilt: float = 0.0  #: share by which compression lies above and rebound below the mean
    per_newton: float = 0.0  #: growth with valve force [1/N]
    per_rebound_newton: float = 0.0  #: the same, with valve force in rebound alone [1/N]
    travel: float = 0.0  #: share added at the compressed end, taken off at the extended one

    def sliding(self, velocity: ArrayLike) -> FloatArray:
        """Return the level [N] of steady sliding at a velocity [m/s] without load, as a magnitude."""
        v = np.asarray(velocity, float)
        breakaway = self.breakaway * np.exp(-((v / self.stribeck_m_s) ** 2))
        level: FloatArray = self.level_n * (1.0 + self.tilt * np.sign(v)) * (1.0 + breakaway)
        return level

    def grown(self, valve_n: FloatArray) -> FloatArray:
        """Return the factor on the level by valve force [N]."""
        rebound = self.per_rebound_newton * np.maximum(-valve_n, 0.0)
        return 1.0 + self.per_newton * np.abs(valve_n) + rebound

    def steady(self, velocity: ArrayLike, valve_n: ArrayLike) -> FloatArray:
        """Return the signed friction [N] of long sliding at each velocity [m/s], at mid-stroke."""
        v = np.asarray(velocity, float)
        turned = np.tanh(v / self.turn_m_s) if self.turning == "coulomb" else np.sign(v)
        return self.sliding(v) * turned * self.grown(np.asarray(valve_n, float))

    def along(self, velocity: FloatArray, dt: float, valve_n: FloatArray, place: FloatArray) -> FloatArray:
        """Return the signed friction [N] along a motion from rest.

        `velocity` [m/s] in steps of `dt` [s], `valve_n` the valve's force [N], `place` the travel from -1 (extended)
        to 1.
        """
        if self.level_n == 0.0:
            return np.zeros_like(velocity)
        if self.turning == "coulomb":
            base = self.sliding(velocity) * np.tanh(velocity / self.turn_m_s)
        else:
            bristle = self.bristle_s if self.turning == "lugre" else 0.0
            base = bristles(velocity, self.sliding(velocity), dt, self.level_n / self.presliding_m, bristle)
        return base * self.grown(valve_n) * (1.0 + self.travel * place)


@njit(cache=True)
def bristles(
    velocity: FloatArray, sliding: FloatArray, dt: float, stiffness: float, bristle_s: float
) -> FloatArray:  # pragma: no cover
    """Return the force [N] of bristles of a stiffness [N/m] dragged along; exact for speed constant over each step."""
    force = np.empty_like(velocity)
    bent = 0.0
    for n in range(velocity.size):
        limit = np.sign(velocity[n]) * sliding[n] / stiffness
        travel = abs(velocity[n]) * dt
        new = limit + (bent - limit) * np.exp(-travel * stiffness / sliding[n])
        force[n] = stiffness * (new + bristle_s * (new - bent) / dt)
        bent = new
    return force


def draw_friction(rng: Generator, low: float = 5.0, high: float = 40.0) -> Friction:
    """Return Coulomb friction of `low` to `high` [N] that turns over 0.5-6 mm/s."""
    return Friction(level_n=float(rng.uniform(low, high)), turn_m_s=log_uniform(rng, 5e-4, 6e-3))


def stribeck(rng: Generator, plain: Friction, low: float = 0.2, high: float = 0.6) -> Friction:
    """Return `plain` with breakaway by a share of `low` to `high`, gone after 2-15 mm/s."""
    return replace(plain, breakaway=float(rng.uniform(low, high)), stribeck_m_s=log_uniform(rng, 2e-3, 15e-3))


def dahl(rng: Generator, plain: Friction, low: float = 2e-5, high: float = 3e-4) -> Friction:
    """Return `plain` turning over a presliding travel of `low` to `high` [m]."""
    return replace(plain, turning="dahl", presliding_m=log_uniform(rng, low, high))


def lugre(rng: Generator, plain: Friction) -> Friction:
    """Return `plain` as a LuGre law with the published table scaled to seals, see the module's text."""
    kind = stribeck(rng, plain)
    return replace(
        kind,
        turning="lugre",
        presliding_m=log_uniform(rng, 1e-5, 1e-4),
        bristle_s=float(rng.uniform(0.0, 1e-3)),
        stribeck_m_s=log_uniform(rng, 1e-3, 1e-2),
    )


def any_friction(rng: Generator, high: float) -> Friction:
    """Return any of the laws, none included, of up to `high` [N]."""
    plain = draw_friction(rng, 0.0, high)
    kind = int(rng.integers(5))
    made = (Friction(), plain, stribeck(rng, plain), dahl(rng, plain), lugre(rng, plain))[kind]
    grown = rng.random(3) < 0.3
    return replace(
        made,
        tilt=float(rng.uniform(-0.3, 0.3) * grown[0]),
        per_newton=float(rng.uniform(0.0, 3e-4) * grown[1]),
        travel=float(rng.uniform(-0.4, 0.4) * grown[2]),
    )
