"""A library of three packs in one kind of shock, in pascals and square metres: seats, needles, shims, holes.

Written from flow through restrictions alone, apart from any map and from the laws of `packs`. Pressure over the piston
drives oil through three ways side by side: a bleed, whose needle (a cone in a round seat; slant opening, H. E. Merritt,
*Hydraulic Control Systems*, 1967, from memory) the low-speed screw lifts; a gap about the piston, laminar; and holes
that end under a stack of shims, which lifts off its edge against its own stiffness and a spring that the high-speed
screw loads. Oil passes the holes first and the shims after, so that a choked hole limits what the shims can let by.
Everything turbulent follows the orifice equation, discharge coefficient 0.7. Sizes: common practice, no source.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import ArrayLike
from scipy.optimize import brentq

from tests.worlds.packs.made import Library, StatedAdjuster
from tests.worlds.packs.tests_of import Run, Setting
from tests.worlds.valves import FloatArray, Generator

DENSITY, VISCOSITY, DISCHARGE = 850.0, 0.012, 0.7
"""Of a thin shock oil when warm [kg/m³], [Pa·s]; of a sharp edge [1]."""
PISTON, ROD = np.pi / 4 * 0.040**2, np.pi / 4 * 0.014**2
"""Areas [m²]; rebound works on the ring."""
LAST = 20
"""Clicks from closed to open of each screw."""
NAMES = ("lsc", "hsc", "lsr", "hsr")
SPLIT, REPEAT, WAVE, WHITE = 1.2, 0.006, 0.004, 0.002
"""Friction taken for damping by a fit [N]; a run against the next, a fit's smooth error, its rest: shares of force."""


def orifice(area: float, pressure: float) -> float:
    """Return the flow [m³/s] through a sharp-edged area [m²] under a pressure [Pa]."""
    return float(DISCHARGE * area * np.sqrt(2.0 * max(pressure, 0.0) / DENSITY))


@dataclass(frozen=True)
class Direction:
    """What oil meets on its way one way through the piston."""

    area: float  #: that pressure works on [m²]
    seat: float  #: diameter of the needle's seat [m]
    angle: float  #: half angle of its cone [rad]
    gap: float  #: the needle's lift at closed [m]
    pitch: float  #: and per click [m]
    holes: float  #: area of the holes [m²]
    edge: float  #: length of the edge that the shims lift off [m]
    face: float  #: area under the shims [m²]
    stack: float  #: their stiffness [N/m]
    stiffening: float  #: lift over which it doubles [m]
    spring: float  #: force of the screw's spring at closed [N]
    slack: float  #: share of it that the whole turn takes off [1]
    clearance: float  #: of the piston in its bore [m]

    def bleed(self, clicks: float) -> float:
        """Return the needle's opening [m²]: the slant ring between cone and seat, no more than the seat."""
        lift = self.gap + self.pitch * clicks
        ring = np.pi * lift * np.sin(self.angle) * (self.seat - lift * np.sin(self.angle) * np.cos(self.angle))
        return float(min(ring, np.pi / 4 * self.seat**2))

    def leak(self, pressure: float) -> float:
        """Return the laminar flow about a piston 12 mm long and 40 mm wide [m³/s]."""
        return float(pressure * np.pi * 0.040 * self.clearance**3 / (12.0 * VISCOSITY * 0.012))

    def shims(self, pressure: float, clicks: float) -> float:
        """Return the flow through holes and shims [m³/s]: as much passes the one as the other."""
        spring = self.spring * (1.0 - self.slack * clicks / LAST)

        def more_through_holes(under: float) -> float:
            load = under * self.face - spring
            lift = 0.5 * self.stiffening * (np.sqrt(1.0 + 4.0 * max(load, 0.0) / (self.stack * self.stiffening)) - 1.0)
            return orifice(self.holes, pressure - under) - orifice(self.edge * lift, under)

        if pressure * self.face <= spring:
            return 0.0
        under = float(brentq(more_through_holes, 0.0, pressure, xtol=1e-9 * pressure, rtol=1e-9))
        return orifice(self.holes, pressure - under)

    def force(self, speeds: FloatArray, low: float, high: float) -> FloatArray:
        """Return the force [N] at speeds [m/s], both as magnitudes, at clicks from closed."""
        pressures = np.geomspace(1e2, 4e7, 240)
        bleed = self.bleed(low)
        flows = np.array([orifice(bleed, p) + self.leak(p) + self.shims(p, high) for p in pressures])
        logs = np.interp(np.log(self.area * speeds), np.log(flows), np.log(pressures))
        return np.asarray(self.area * np.exp(logs))


@dataclass(frozen=True)
class PistonPack:
    """A pack: pistons, needles and shims of both directions."""

    name: str
    compression: Direction
    rebound: Direction

    def force(self, clicks: Mapping[str, float], velocity: ArrayLike) -> FloatArray:
        """Return the signed damping [N] at clicks from closed and signed velocities [m/s]."""
        v = np.asarray(velocity, float)
        bump = self.compression.force(np.abs(v), clicks["lsc"], clicks["hsc"])
        drop = self.rebound.force(np.abs(v), clicks["lsr"], clicks["hsr"])
        return np.where(v >= 0.0, bump, -drop)


def draw_direction(rng: Generator, area: float, stiff: float) -> Direction:
    """Return one way through the piston, `stiff` times as stiff as a soft one."""
    return Direction(
        area=area, seat=rng.uniform(3.2e-3, 4.2e-3) / np.sqrt(stiff), angle=np.radians(rng.uniform(12.0, 30.0)),
        gap=rng.uniform(0.25e-3, 0.5e-3), pitch=rng.uniform(0.06e-3, 0.12e-3), holes=rng.uniform(35e-6, 70e-6),
        edge=np.pi * rng.uniform(26e-3, 32e-3), face=rng.uniform(2.5e-4, 4e-4), stack=stiff * rng.uniform(4e5, 1e6),
        stiffening=rng.uniform(0.3e-3, 0.8e-3), spring=stiff * rng.uniform(60.0, 110.0), slack=rng.uniform(0.4, 0.75),
        clearance=rng.uniform(20e-6, 40e-6),
    )  # fmt: skip


def draw_packs(rng: Generator) -> tuple[PistonPack, ...]:
    """Return packs gravel, mixed and tarmac, each stiffer than the one before."""
    stiffness = np.cumprod([1.0, rng.uniform(1.2, 1.6), rng.uniform(1.2, 1.6)])
    names = ("gravel", "mixed", "tarmac")
    return tuple(
        PistonPack(name, draw_direction(rng, PISTON, float(stiff)),
                   draw_direction(rng, PISTON - ROD, float(stiff) * rng.uniform(1.2, 1.8)))
        for name, stiff in zip(names, stiffness, strict=True)
    )  # fmt: skip


def nine(rng: Generator) -> list[Setting]:
    """Return nine settings as a shop runs them: the middle, each screw both ways with its fellow, four at random."""
    turned = [(10, 10, 10, 10), (2, 10, 2, 10), (18, 10, 18, 10), (10, 2, 10, 2), (10, 18, 10, 18)]
    turned += [tuple(int(n) for n in rng.integers(1, LAST, 4)) for _ in range(4)]
    return [dict(zip(NAMES, places, strict=True)) for places in turned]


def tested(rng: Generator, pack: PistonPack, setting: Setting) -> Run:
    """Return what a fit of one record would say, with its errors and the covariance that an honest fit states."""
    one = np.geomspace(0.013, 0.5, 24)
    v = np.concatenate([-one[::-1], one])
    sign = np.sign(v)
    waves = WAVE**2 * np.exp(-0.5 * (np.log(np.abs(v[:, None] / v)) / 0.8) ** 2) * (sign[:, None] == sign)
    true = pack.force(setting, v)
    rest = waves * np.outer(np.abs(true), np.abs(true)) + np.diag((WHITE * true) ** 2 + 0.25)
    split = SPLIT * rng.standard_normal()
    run = 1.0 + REPEAT * rng.standard_normal()
    force = run * true + split * sign + np.linalg.cholesky(rest) @ rng.standard_normal(v.size)
    return Run("RL-02", pack.name, setting, 0.0, None, "trace", v, force, rest + SPLIT**2 * np.outer(sign, sign),
               friction_n=20.0 - split, friction_sd_n=SPLIT, gas_n=120.0, gas_sd_n=3.0)  # fmt: skip


def library(seed: int) -> tuple[tuple[PistonPack, ...], Library, Generator]:
    """Return three packs, the library of their nine tests each, and the dice to go on with."""
    rng = np.random.default_rng([2718, seed])
    packs = draw_packs(rng)
    runs = tuple(tested(rng, pack, setting) for pack in packs for setting in nine(rng))
    return packs, Library(tuple(StatedAdjuster(name, LAST, "from closed") for name in NAMES), runs), rng


def closed(pack: PistonPack) -> PistonPack:
    """Return the pack without its shims' flow: bleed and gap alone."""
    shut = (replace(side, spring=1e9) for side in (pack.compression, pack.rebound))
    return PistonPack(pack.name, *shut)
