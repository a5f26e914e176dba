"""A library of three packs in a twin-tube shock: a foot valve, a check plate, plugs, plates that bend, poppets.

Written from flow and balance of forces alone, apart from any map, from the laws of `packs` and from `piston`. In
compression the rod's volume leaves through the foot valve, and the oil above the piston is filled through a check
plate: force is the pressure below the piston on the rod's area and what the check plate takes on the ring. In rebound
the ring's oil passes the piston. Foot valve and piston each have a bleed that the low-speed screw throttles (a
parabolic plug in a bore), a gap, and a plate that bends off its seat and meets a second one, beside a poppet whose
spring the high-speed screw loads. Every sharp-edged way takes a share of pressure by inertia and one by viscosity,
``p = ρ/2·(q/(C·A))² + k·μ·q/(A·√A)`` (sum of both: common practice, no source). A plate's lift goes with pressure; a
jet pulls a poppet shut (H. E. Merritt, *Hydraulic Control Systems*, 1967, from memory). Sizes: common practice, no
source.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike

from tests.worlds.packs.made import Library, StatedAdjuster
from tests.worlds.packs.piston import tested
from tests.worlds.packs.tests_of import Run, Setting
from tests.worlds.valves import FloatArray, Generator

DENSITY, VISCOSITY = 860.0, 0.014
"""Of a thin shock oil [kg/m³], [Pa·s]."""
EDGE, VISCOUS = 0.68, 60.0
"""Discharge coefficient of a sharp edge, and how viscous a passage is, of its area to the power 3/2 [1]."""
BORE, ROD = np.pi / 4 * 0.036**2, np.pi / 4 * 0.0125**2
"""Areas of piston and rod [m²]."""
LAST: Mapping[str, int] = {"lsc": 22, "hsc": 14, "lsr": 22, "hsr": 14}
"""Clicks from closed to open of each screw."""
PRESSURES = np.geomspace(50.0, 6e7, 400)
"""Between which the balance is looked up [Pa]."""


def edge(area: ArrayLike, pressure: FloatArray) -> FloatArray:
    """Return the flow [m³/s] through a sharp-edged passage of an area [m²] under pressures [Pa]."""
    room = np.maximum(np.asarray(area, float), 1e-12)
    inertia = 0.5 * DENSITY / (EDGE * room) ** 2
    drag = VISCOUS * VISCOSITY / (room * np.sqrt(room))
    flow: FloatArray = (np.sqrt(drag**2 + 4.0 * inertia * pressure) - drag) / (2.0 * inertia)
    return flow


@dataclass(frozen=True)
class Valve:
    """A bleed, a gap, a bending plate and a poppet, side by side between two rooms."""

    bore: float  #: of the bleed [m²]
    plug: float  #: share of it that the plug leaves at closed [1]
    gap: float  #: viscous flow over pressure [m³/s/Pa]
    rim: float  #: length of the plate's edge [m]
    bend: float  #: its lift over pressure [m/Pa]
    held: float  #: pressure that it is bent against at rest [Pa]
    meets: float  #: lift at which a second plate begins to bend with it [m]
    stiffer: float  #: both together over the first [1]
    seat: float  #: diameter of the poppet's seat [m]
    cone: float  #: half angle of the poppet [rad]
    rate: float  #: of its spring [N/m]
    loaded: float  #: force of that at closed [N]
    freed: float  #: share of that taken off by the whole turn [1]

    def bleed(self, opened: float) -> float:
        """Return the area past the plug [m²]: what a parabola leaves of the bore as it is drawn out."""
        return self.bore * (self.plug + (1.0 - self.plug) * opened * (2.0 - opened) * 0.8)

    def plate(self, pressure: FloatArray) -> FloatArray:
        """Return the plate's lift [m]."""
        alone = self.bend * np.maximum(pressure - self.held, 0.0)
        return np.where(alone < self.meets, alone, self.meets + (alone - self.meets) / self.stiffer)

    def poppet(self, pressure: FloatArray, opened: float) -> FloatArray:
        """Return the area past the poppet [m²], a jet pulling it shut."""
        load = self.loaded * (1.0 - self.freed * opened)
        over = np.maximum(pressure * np.pi / 4 * self.seat**2 - load, 0.0)
        ring = np.pi * self.seat * np.sin(self.cone)
        lift = over / (self.rate + 2.0 * EDGE * ring * np.cos(self.cone) * pressure)
        return np.asarray(np.minimum(ring * lift, np.pi / 4 * self.seat**2))

    def flow(self, low: float, high: float) -> FloatArray:
        """Return the flow [m³/s] under `PRESSURES`, screws opened by shares of their turn."""
        p = PRESSURES
        ways = edge(self.bleed(low), p) + edge(self.rim * self.plate(p), p) + edge(self.poppet(p, high), p)
        return np.asarray(ways + self.gap * p)

    def pressure(self, flow: FloatArray, low: float, high: float) -> FloatArray:
        """Return the pressure [Pa] that drives a flow [m³/s]."""
        return np.asarray(np.exp(np.interp(np.log(flow), np.log(self.flow(low, high)), np.log(PRESSURES))))


@dataclass(frozen=True)
class TwinTubePack:
    """A pack: the foot valve, the check plate, the piston's valve for rebound."""

    name: str
    foot: Valve
    piston: Valve
    check: float  #: area of the check plate's holes [m²]
    weak: float  #: pressure that its spring takes [Pa]

    def force(self, clicks: Mapping[str, float], velocity: ArrayLike) -> FloatArray:
        """Return the signed damping [N] at clicks from closed and signed velocities [m/s]."""
        v = np.asarray(velocity, float)
        speed = np.abs(v)
        turn = {name: clicks[name] / last for name, last in LAST.items()}
        below = self.foot.pressure(ROD * speed, turn["lsc"], turn["hsc"])
        across = self.weak + 0.5 * DENSITY * ((BORE - ROD) * speed / (EDGE * self.check)) ** 2
        bump = ROD * below + (BORE - ROD) * across
        drop = (BORE - ROD) * self.piston.pressure((BORE - ROD) * speed, turn["lsr"], turn["hsr"])
        return np.where(v >= 0.0, bump, -drop)


def draw_valve(rng: Generator, flow: float, pressure: float) -> Valve:
    """Return a valve that passes about `flow` [m³/s] at 0.15 m/s under about `pressure` [Pa], screws half open."""
    whole = flow / (EDGE * np.sqrt(2.0 * pressure / DENSITY))
    seat = np.sqrt(4.0 / np.pi * whole) * rng.uniform(1.2, 2.0)
    opens = pressure * rng.uniform(0.35, 0.8) * np.pi / 4 * seat**2
    rim = rng.uniform(0.03, 0.07)
    lift = whole * rng.uniform(0.1, 0.5) / rim
    held = pressure * rng.uniform(0.1, 0.5)
    return Valve(
        bore=whole * rng.uniform(0.5, 1.1), plug=rng.uniform(0.12, 0.4), gap=flow * rng.uniform(0.01, 0.06) / pressure,
        rim=rim, bend=lift / (pressure - held), held=held, meets=lift * rng.uniform(1.0, 3.0),
        stiffer=rng.uniform(1.3, 3.0), seat=seat, cone=np.radians(rng.uniform(25.0, 50.0)),
        rate=opens / (seat * rng.uniform(0.05, 0.2)), loaded=opens, freed=rng.uniform(0.4, 0.8),
    )  # fmt: skip


def draw_packs(rng: Generator) -> tuple[TwinTubePack, ...]:
    """Return packs gravel, mixed and tarmac, each stiffer than the one before."""
    speed, made = 0.15, []
    newtons = rng.uniform(180.0, 350.0) * np.cumprod([1.0, rng.uniform(1.2, 1.6), rng.uniform(1.2, 1.6)])
    for name, force in zip(("gravel", "mixed", "tarmac"), newtons, strict=True):
        back = force * rng.uniform(1.2, 2.0)
        foot = draw_valve(rng, ROD * speed, 0.85 * force / ROD)
        piston = draw_valve(rng, (BORE - ROD) * speed, back / (BORE - ROD))
        across = 0.15 * force / (BORE - ROD)
        check = (BORE - ROD) * speed / (EDGE * np.sqrt(2.0 * 0.7 * across / DENSITY))
        made.append(TwinTubePack(name, foot, piston, check, 0.3 * across))
    return tuple(made)


def nine(rng: Generator) -> list[Setting]:
    """Return nine settings as a shop runs them: a middle, every screw of it alone to one side or the other, the rest
    anywhere."""
    middle = {name: last // 2 for name, last in LAST.items()}
    out = [middle]
    for name, last in LAST.items():
        out.append({**middle, name: int(rng.choice([1, last - 1]))})
    while len(out) < 9:
        out.append({name: int(rng.integers(0, last + 1)) for name, last in LAST.items()})
    return out


def stated() -> Sequence[StatedAdjuster]:
    """Return the adjusters as the shock's file states them."""
    return tuple(StatedAdjuster(name, last, "from closed") for name, last in LAST.items())


def library(seed: int) -> tuple[tuple[TwinTubePack, ...], Library, Generator]:
    """Return three packs, the library of their nine tests each, and the dice to go on with."""
    rng = np.random.default_rng([1618, seed])
    packs = draw_packs(rng)
    runs: list[Run] = [tested(rng, pack, setting) for pack in packs for setting in nine(rng)]
    return packs, Library(tuple(stated()), tuple(runs)), rng
