"""Valve packs: the laws of `tests.worlds.valves` with parameters that clicks move.

Hydraulic laws are a balance of flows (see there): a bleed of area b beside a valve that opens at pressure c, some in
series with a port. The low-speed screw moves b, the high-speed screw c. *Factors* is any other shape times a factor
for either screw, the one acting at low, the other at high speed: no flow model is behind it. Alike packs differ by
their shim stack: opening pressure up and area per pressure down, or the reverse, and a little of the bleed. Cross-talk
is a rebound bleed without a check valve: part of it passes compression as well.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Literal

import numpy as np
from numpy.typing import ArrayLike
from scipy.optimize import brentq

from tests.worlds.packs.adjusters import Adjuster, Clicks, of_side, openings
from tests.worlds.valves import REFERENCE, SHAPES, FloatArray, Generator, Shape, Valve, balance, bleed, log_uniform

Taper = Literal["geometric", "needle", "linear"]
TAPERS: tuple[Taper, ...] = ("geometric", "needle", "linear")
CROSS_TALK = (0.05, 0.20)
"""Share of compression force that opening the rebound bleed takes where it takes most; common practice, no source."""
SPEEDS = np.geomspace(0.02, 0.5, 14)
"""Speeds at which packs are held against one another [m/s]."""
TURN = 0.12
"""Speed about which the low-speed screw of a *factors* law gives way to the high-speed one [m/s]."""


@dataclass(frozen=True)
class Span:
    """A parameter's way from the screw closed to the screw open."""

    closed: float
    open: float
    taper: Taper

    def at(self, opening: float) -> float:
        """Return the value: even in ratio, as a tapered needle (slow at first), or even in steps."""
        if self.taper == "geometric":
            return float(self.closed * (self.open / self.closed) ** opening)
        return float(self.closed + (self.open - self.closed) * opening ** (1.8 if self.taper == "needle" else 1.0))


@dataclass(frozen=True, eq=False)
class Side:
    """One direction's valving. Pressures in units of the opening pressure with the screw open, as in `valves`."""

    law: str
    bleed: Span  #: relative area; for *factors* the low-speed factor
    crack: Span  #: relative opening pressure; for *factors* the high-speed factor
    knee: float  #: speed scale [m/s]
    gain: float  #: opened area over pressure
    leak: float  #: laminar share of the bleed
    soft: float  #: softness of opening, or the pressure over which a poppet opens
    choke: float  #: port's speed scale [m/s]
    base: Shape | None = None  #: shape of a *factors* law
    stack: float = 1.0  #: stiffness of the shim stack over that drawn
    force_n: float = 1.0  #: per unit of pressure

    def shape(self, low: float, high: float, more: float = 0.0) -> Shape:
        """Return speed [m/s] to force [N], as magnitudes, at the screws' openings; `more` bleed area from elsewhere."""
        area, crack = self.bleed.at(low) + more, self.crack.at(high) * self.stack
        if self.base is not None:
            return self._factors(self.base, (self.bleed.at(low), crack), more)
        slot = balance(lambda p: self.knee * FLOWS[self.law](self, p, area, crack))
        port = crack if self.law == "leak and port" else float(self.law == "port-limited")
        return lambda u: np.asarray(self.force_n * (slot(u) + port * (u / self.choke) ** 1.9))

    def _factors(self, base: Shape, sizes: tuple[float, float], more: float) -> Shape:
        def force(u: FloatArray) -> FloatArray:
            early = 1.0 / (1.0 + u / TURN)
            both: FloatArray = sizes[0] ** -early * sizes[1] ** (1.0 - early) / (1.0 + more * early)
            return self.force_n * base(u) * both

        return force


def _leak_port(side: Side, p: FloatArray, area: float, crack: float) -> FloatArray:
    return np.asarray(area / np.sqrt(side.stack) * bleed(p, side.leak))


def _sharp(side: Side, p: FloatArray, area: float, crack: float) -> FloatArray:
    opened: FloatArray = side.gain / side.stack * np.maximum(p - crack, 0.0) * np.sqrt(p)
    return area * bleed(p, side.leak) + opened


def _poppet(side: Side, p: FloatArray, area: float, crack: float) -> FloatArray:
    reach = side.soft * 3.0 * side.stack
    opened: FloatArray = side.gain * np.sqrt(p) * np.expm1(-np.maximum(p - crack, 0.0) / reach)
    return area * bleed(p, side.leak) - opened


def _shims(side: Side, p: FloatArray, area: float, crack: float) -> FloatArray:
    lifted: FloatArray = np.sqrt(p) * side.gain * side.soft / side.stack * np.logaddexp(0.0, (p - crack) / side.soft)
    return area * bleed(p, side.leak) + lifted


def _two_stage(side: Side, p: FloatArray, area: float, crack: float) -> FloatArray:
    later: FloatArray = np.sqrt(p) * side.gain / side.stack * np.maximum(p - 2.5 * crack, 0.0)
    return _shims(replace(side, gain=0.25 * side.gain), p, area, crack) + later


FLOWS: Mapping[str, Callable[[Side, FloatArray, float, float], FloatArray]] = {
    "sharp blow-off": _sharp,
    "poppet": _poppet,
    "shims": _shims,
    "two-stage": _two_stage,
    "leak and port": _leak_port,
    "port-limited": _shims,
}
BASES = ("shear-thinning", "hump", "s-shape", "power", "power pair", "yield")
"""Shapes of `valves` that a *factors* law takes."""
LAWS = (*FLOWS, "factors")


def draw_side(rng: Generator, law: str, force: float) -> Side:
    """Return one direction with `force` [N] at `REFERENCE`, screws half open.

    Bleed: 25 to 60 % of its area left when closed; opening pressure: 1.4 to 2.5 times when closed. *Factors*: force
    times 2 to 4 at low and 1.4 to 2.2 at high speed. Common practice, no source.
    """
    slotted = law == "leak and port"
    taper = [TAPERS[int(rng.integers(3))] for _ in range(2)]
    low = Span(rng.uniform(0.4, 0.7) if slotted else rng.uniform(0.25, 0.6), 1.0, taper[0])
    high = Span(rng.uniform(1.4, 2.5), 1.0, "linear" if taper[1] == "needle" else taper[1])
    base: Shape | None = None
    if law == "factors":
        base = SHAPES[str(rng.choice(BASES))](rng)
        low, high = Span(1.0, rng.uniform(2.0, 4.0), taper[0]), Span(rng.uniform(1.4, 2.2), 1.0, high.taper)
    knee, choke = (rng.uniform(0.2, 0.4), rng.uniform(0.15, 0.35)) if slotted else (rng.uniform(0.04, 0.2), 0.0)
    leak = rng.uniform(0.3, 0.8) if slotted else rng.uniform(0.02, 0.2)
    made = Side(
        law, low, high, knee, rng.uniform(1.5, 7.0), leak, rng.uniform(0.12, 0.5),
        choke or rng.uniform(0.3, 0.8), base,
    )  # fmt: skip
    return replace(made, force_n=force / float(made.shape(0.5, 0.5)(np.array([REFERENCE]))[0]))


@dataclass(frozen=True, eq=False)
class Pack:
    """A valve pack in a kind of shock: its nominal force at every click, shocks' spread aside."""

    name: str
    adjusters: tuple[Adjuster, ...]
    compression: Side
    rebound: Side
    cross: float = 0.0  #: share of the rebound bleed that passes compression

    def opened(self, opened: Mapping[str, float]) -> Valve:
        """Return the law at the adjusters' openings."""
        back = of_side(opened, "r")
        more = self.cross * self.rebound.bleed.at(back[0])
        sides = self.compression.shape(*of_side(opened, "c"), more=more), self.rebound.shape(*back)
        return Valve(self.compression.law, *sides)

    def valve(self, written: Clicks) -> Valve:
        """Return the law at clicks as written."""
        return self.opened(openings(self.adjusters, written))

    def force(self, written: Clicks, velocity: ArrayLike) -> FloatArray:
        """Return the signed damping [N] at clicks as written and signed velocities [m/s]."""
        return self.valve(written)(velocity)

    def oddities(self) -> frozenset[str]:
        """Return the names of what is odd about it and its adjusters."""
        own = frozenset({"cross-talk"} if self.cross else ())
        return own.union(*(one.oddities() for one in self.adjusters))


def middle(adjusters: Sequence[Adjuster]) -> dict[str, float]:
    """Return openings with every screw half open."""
    return {one.name: 0.5 for one in adjusters}


def cross_effect(pack: Pack) -> float:
    """Return the largest share of compression force that opening the rebound screws takes, the others half open."""
    ends = [{**middle(pack.adjusters), **dict.fromkeys(("r", "lsr"), at)} for at in (0.0, 1.0)]
    closed, opened = (pack.opened({k: end[k] for k in middle(pack.adjusters)})(SPEEDS) for end in ends)
    return float(np.max(1.0 - opened / closed))


def crossed(pack: Pack, share: float) -> Pack:
    """Return the pack with so much cross-talk that `cross_effect` is `share`, or as near as a full passage comes."""
    most = replace(pack, cross=1.0)
    if cross_effect(most) <= share:
        return most
    return replace(pack, cross=brentq(lambda k: cross_effect(replace(pack, cross=k)) - share, 0.0, 1.0, xtol=1e-4))


def draw_pack(rng: Generator, name: str, adjusters: tuple[Adjuster, ...], law: str | None = None) -> Pack:
    """Return a pack of any law or the one named: 200 to 1200 N compression, 1 to 3 times that rebound."""
    kind = law or str(rng.choice(LAWS))
    force = log_uniform(rng, 200.0, 1200.0)
    sides = draw_side(rng, kind, force), draw_side(rng, kind, force * rng.uniform(1.0, 3.0))
    return Pack(name, adjusters, *sides)


def difference(one: Pack, other: Pack) -> float:
    """Return the rms share by which two packs' forces differ at half-open screws, both directions, `SPEEDS`."""
    v = np.concatenate([-SPEEDS, SPEEDS])
    a, b = (pack.opened(middle(pack.adjusters))(v) for pack in (one, other))
    return float(np.sqrt(np.mean((2.0 * (a - b) / (a + b)) ** 2)))


def _restacked(side: Side, by: float, bled: float) -> Side:
    area = replace(side.bleed, closed=side.bleed.closed * (1.0 + bled), open=side.bleed.open * (1.0 + bled))
    return replace(side, bleed=area, stack=side.stack * (1.0 + by))


def alike(rng: Generator, pack: Pack, name: str, share: float) -> Pack:
    """Return a pack with another shim stack, `difference` from the first being `share` (0.03 to 0.15)."""
    ways = rng.choice([-1.0, 1.0], 2) * rng.permutation([1.0, rng.uniform(0.2, 1.0)])
    bled = rng.choice([-1.0, 1.0], 2) * rng.uniform(0.15, 0.4, 2)

    def at(size: float) -> Pack:
        sides = [
            _restacked(side, size * way, size * more)
            for side, way, more in zip((pack.compression, pack.rebound), ways, bled, strict=True)
        ]
        return replace(pack, name=name, compression=sides[0], rebound=sides[1])

    return at(brentq(lambda size: difference(pack, at(size)) - share, 0.0, 0.9, xtol=1e-5))


def family(rng: Generator, adjusters: tuple[Adjuster, ...], spread: tuple[float, float] | None = None) -> list[Pack]:
    """Return packs gravel, mixed and tarmac: alike by a share drawn from `spread` each, or of three laws without it."""
    first = draw_pack(rng, "gravel", adjusters)
    if spread is None:
        return [first, draw_pack(rng, "mixed", adjusters), draw_pack(rng, "tarmac", adjusters)]
    return [first, *(alike(rng, first, name, rng.uniform(*spread)) for name in ("mixed", "tarmac"))]
