"""Damping laws: the true quasi-static force of a valve against signed shaft velocity, compression positive.

A law is made of a shape per direction (any unit of force), scaled to a drawn force at 0.25 m/s. Shapes marked
*balance* are hydraulic: in a steady state the flows through all paths add up to the displaced flow, so that ``u = Σ
path(p)``, where speed u stands for flow and force p for pressure (their areas cancel). An orifice passes ``sqrt(p)``,
a laminar leak ``p``; a valve is an orifice whose area grows with p. The paths are monotone in p, so the balance is
inverted on a dense table. Pressures are in units of the opening pressure, speeds in m/s.

No shape consists of straight or parabolic pieces alone: what is fitted with such pieces must show that it knows its
misfit. Ranges of parameters: common practice, no source, unless a shape says otherwise.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray

FloatArray = NDArray[np.float64]
Shape = Callable[[FloatArray], FloatArray]
Generator = np.random.Generator

REFERENCE = 0.25
"""Speed at which a valve is called soft or stiff [m/s]; 10 in/s, the trade's usual high-speed point."""
SOFT, STIFF = 100.0, 4000.0
"""Softest and stiffest force at `REFERENCE` [N]."""
CEILING = 12e3
"""Largest force a shock may reach at its top speed [N]: what eyes and cells of this size carry."""


def log_uniform(rng: Generator, low: float, high: float) -> float:
    """Return a draw whose logarithm is uniform between those of `low` and `high`."""
    return float(np.exp(rng.uniform(np.log(low), np.log(high))))


@dataclass(frozen=True)
class Valve:
    """A damping law with both directions."""

    name: str
    compression: Shape  #: speed >= 0 [m/s] to force >= 0 [N]
    rebound: Shape  #: the same, rebound, as magnitudes
    play_m_s: float = 0.0  #: half-width of the lost motion in speed, see `_seat` [m/s]

    def through(self, velocity: ArrayLike) -> FloatArray:
        """Return the signed force [N] at the signed velocity [m/s] that reaches the valve, play already taken off."""
        v = np.asarray(velocity, float)
        speed = np.abs(v)
        return np.where(v >= 0.0, self.compression(speed), -self.rebound(speed))

    def __call__(self, velocity: ArrayLike) -> FloatArray:
        """Return the true quasi-static damping [N] at a signed velocity [m/s]: with play, the mean of both branches."""
        v = np.asarray(velocity, float)
        if self.play_m_s == 0.0:
            return self.through(v)
        return 0.5 * (self.through(v - self.play_m_s) + self.through(v + self.play_m_s))


def balance(flow: Shape) -> Shape:
    """Return speed-to-pressure for paths in parallel that together pass `flow(p)`, increasing from `flow(0) = 0`."""
    pressure = np.concatenate(([0.0], np.geomspace(1e-9, 1e4, 8001)))
    speed = flow(pressure)
    return lambda u: np.interp(u, speed, pressure)


def bleed(p: FloatArray, leak: float) -> FloatArray:
    """Return the flow through a bleed that is laminar by a share `leak` of its flow at p = 1, else an orifice."""
    flow: FloatArray = leak * p + (1.0 - leak) * np.sqrt(p)
    return flow


def _sharp_blow_off(rng: Generator) -> Shape:
    """Nearly square-law bleed beside a valve that springs open at its crack pressure. *balance*."""
    knee, gain, leak = rng.uniform(0.03, 0.25), rng.uniform(1.5, 8.0), rng.uniform(0.02, 0.2)
    return balance(lambda p: knee * (bleed(p, leak) + gain * np.maximum(p - 1.0, 0.0) * np.sqrt(p)))


def _poppet(rng: Generator) -> Shape:
    """Bleed beside a spring-loaded poppet whose area grows with pressure until it is fully open. *balance*."""
    knee, gain, leak = rng.uniform(0.03, 0.2), rng.uniform(2.0, 10.0), rng.uniform(0.02, 0.2)
    reach = rng.uniform(0.3, 1.5)
    return balance(lambda p: knee * (bleed(p, leak) - gain * np.sqrt(p) * np.expm1(-np.maximum(p - 1.0, 0.0) / reach)))


def _shims(rng: Generator) -> Shape:
    """Preloaded shim stack: it lifts shim by shim, so the knee is soft (soft-plus opening). *balance*."""
    knee, gain, soft = rng.uniform(0.03, 0.2), rng.uniform(1.0, 6.0), rng.uniform(0.12, 0.5)
    return balance(lambda p: knee * np.sqrt(p) * (1.0 + gain * soft * np.logaddexp(0.0, (p - 1.0) / soft)))


def _leak_port(rng: Generator) -> Shape:
    """Laminar leak beside a square-law orifice (*balance*), in series with the piston's port."""
    leak, orifice, port = rng.uniform(0.05, 0.3), rng.uniform(0.03, 0.2), rng.uniform(0.5, 2.0)
    slot = balance(lambda p: leak * p + orifice * np.sqrt(p))
    return lambda u: slot(u) + (u / port) ** 2


def _two_stage(rng: Generator) -> Shape:
    """A soft low-speed stack and, at some times its pressure, a second valve that opens sharply. *balance*."""
    knee, soft, later = rng.uniform(0.02, 0.08), rng.uniform(0.08, 0.3), rng.uniform(1.8, 4.0)
    first, second = rng.uniform(0.5, 2.0), rng.uniform(2.0, 8.0)

    def area(p: FloatArray) -> FloatArray:
        stack = first * soft * np.logaddexp(0.0, (p - 1.0) / soft)
        opened: FloatArray = 1.0 + stack + second * np.maximum(p - later, 0.0)
        return opened

    return balance(lambda p: knee * np.sqrt(p) * area(p))


def _port_limited(rng: Generator) -> Shape:
    """A shim stack in series with ports so small that the curve steepens again at speed."""
    stack, choke = _shims(rng), rng.uniform(0.25, 0.7)
    return lambda u: stack(u) + (u / choke) ** 1.9


def _shear_thinning(rng: Generator) -> Shape:
    """A slot with a shear-thinning fluid (form of Carreau): linear at first, then a power below one."""
    turn, power = rng.uniform(0.02, 0.2), rng.uniform(0.3, 0.8)
    return lambda u: u * (1.0 + (u / turn) ** 2) ** ((power - 1.0) / 2.0)


def _hump(rng: Generator) -> Shape:
    """A hump on the way up, as of a valve that sticks before it opens: with speed the force may fall for a while."""
    smooth, height = _shear_thinning(rng), rng.uniform(0.1, 0.4)
    centre, width = log_uniform(rng, 0.05, 0.3), rng.uniform(0.3, 0.7)
    return lambda u: smooth(u) * (1.0 + height * np.exp(-((np.log(np.maximum(u, 1e-12) / centre) / width) ** 2)))


def _s_shape(rng: Generator) -> Shape:
    """A check valve that closes late: hardly a force at first, then a steep rise that levels off."""
    turn, power, more, late = (
        rng.uniform(0.04, 0.2),
        rng.uniform(1.4, 2.5),
        rng.uniform(0.1, 1.0),
        rng.uniform(0.6, 0.95),
    )
    return lambda u: more * (u / REFERENCE) ** late * u / (u + turn) - np.expm1(-((u / turn) ** power))


def _power(rng: Generator) -> Shape:
    """One power of speed throughout: digressive below one, progressive above."""
    power = rng.uniform(0.45, 1.6)
    return lambda u: u**power


def _power_pair(rng: Generator) -> Shape:
    """Two powers with a smooth turn between them, from steep to flat."""
    turn, sharp = rng.uniform(0.04, 0.3), rng.uniform(1.5, 6.0)
    low, high = rng.uniform(1.0, 1.9), rng.uniform(0.3, 0.9)
    return lambda u: u**low * (1.0 + (u / turn) ** sharp) ** ((high - low) / sharp)


def _yield(rng: Generator) -> Shape:
    """A magnetorheological fluid: a yield force within some mm/s, then a power of speed. Looks like friction, is
    damping.

    Yield and power add as in the Herschel-Bulkley law, from memory.
    """
    turn, more, power = log_uniform(rng, 0.008, 0.04), rng.uniform(0.1, 1.5), rng.uniform(0.5, 0.95)
    return lambda u: np.tanh(u / turn) + more * (u / REFERENCE) ** power


def _seat(rng: Generator) -> Shape:
    """The shim stack behind a plate that seats late, see `SEAT_PLAY`."""
    return _shims(rng)


SEAT_PLAY = (1e-3, 4e-3)
"""Lost motion of a late plate [m/s]: the force lags by this much speed, up and down (play operator), dead zone about
zero.
"""

SHAPES: Mapping[str, Callable[[Generator], Shape]] = {
    "sharp blow-off": _sharp_blow_off,
    "poppet": _poppet,
    "shims": _shims,
    "leak and port": _leak_port,
    "two-stage": _two_stage,
    "port-limited": _port_limited,
    "shear-thinning": _shear_thinning,
    "hump": _hump,
    "s-shape": _s_shape,
    "power": _power,
    "power pair": _power_pair,
    "yield": _yield,
    "late seat": _seat,
}
VALVES = (*SHAPES, "asymmetric")
"""Names for `draw_valve`; `asymmetric` has two different shapes and up to five times the force one way."""


def scaled(shape: Shape, force: float, top: float) -> Shape:
    """Return the shape with `force` [N] at `REFERENCE`, or less where it would pass `CEILING` at `top` [m/s]."""
    at, most = (float(shape(np.array([u]))[0]) for u in (REFERENCE, top))
    factor = min(force / at, CEILING / most)
    return lambda u: factor * shape(u)


def draw_valve(rng: Generator, top: float, name: str | None = None) -> Valve:
    """Return a random valve of the named law (any law without a name) for speeds up to `top` [m/s].

    Rebound is 1 to 3.5 times compression at `REFERENCE`, as on most car shocks; asymmetric: 1/5 to 5 times.
    """
    law = name or str(rng.choice(VALVES))
    odd = law == "asymmetric"
    kinds = rng.choice(list(SHAPES), 2, replace=False) if odd else (law, law)
    compression = log_uniform(rng, SOFT, 0.5 * STIFF)
    ratio = log_uniform(rng, 0.2, 5.0) if odd else rng.uniform(1.0, 3.5)
    rebound = float(np.clip(compression * ratio, SOFT, STIFF))
    sides = [
        scaled(SHAPES[str(kind)](rng), force, top) for kind, force in zip(kinds, (compression, rebound), strict=True)
    ]
    play = rng.uniform(*SEAT_PLAY) if "late seat" in kinds else 0.0
    return Valve(law, sides[0], sides[1], float(play))
