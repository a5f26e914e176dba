"""Further effects of shocks and rigs; `further_rows` has the builders of their rows.

Cavitation: above some rebound speed oil does not follow the piston, a void grows by a share of what is too fast, and
compression pushes into it with hardly a force until it is closed; pressure builds up late in both directions. Rod side:
the small chamber above the piston gives far more than the big one. Warmth: damping falls with a warmth that
work raises and that cools away in some tens of seconds. Bleed by travel: a tapered needle passes less oil at one end,
which counts where the bleed rules. Slop: the crank's big end is loose, so that the shock itself dwells at the ends; its
own travel is recorded. Wandering cell: its zero warms up and walks. Ten bits: the force alone is coarse. Short dwell:
one to two turns a speed. Missing cycles: a logger loses a turn here and there, and its clock goes on or does not.
Ranges: common practice, no source.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np
from numba import njit

from tests.worlds.motions import FINE_HZ
from tests.worlds.rigs import Samples, cell, stepped
from tests.worlds.valves import FloatArray, Generator

CLOSING = 0.1
"""Share of damping that is left while a void closes."""


@dataclass(frozen=True)
class Further:
    """What a shock or a rig has beyond the other effects."""

    void_m_s: float = 0.0  #: rebound speed from which oil does not follow; 0: it always does [m/s]
    void_share: float = 0.0  #: of what is faster that becomes a void
    pressure_s: float = 0.0  #: by which pressure builds up late [s]
    taper: float = 0.0  #: share by which a bleed is stiffer at the compressed end, softer at the extended one
    taper_n: float = 1.0  #: force above which the bleed does not rule [N]
    slop_m: float = 0.0  #: of the big end [m]
    wander: float = 0.0  #: of the cell's zero, share of the peak
    warm_up_s: float = 10.0  #: time in which the cell warms up [s]
    force_bits: int | None = None
    lost: int = 0  #: turns lost
    clock_goes_on: bool = True

    def shaped(self, damping: FloatArray, x: FloatArray, v: FloatArray) -> FloatArray:
        """Return the damping force [N] along a motion with taper, void and late pressure."""
        if self.taper:
            place = x / np.abs(x).max()
            damping = damping * (1.0 + self.taper * place * np.exp(-((damping / self.taper_n) ** 2)))
        if self.void_m_s:
            damping = damping * void_factor(v, self.void_m_s, self.void_share, 1.0 / FINE_HZ)
        if self.pressure_s:
            damping = lagged(damping, 1.0 / (self.pressure_s * FINE_HZ))
        return damping


@njit(cache=True)
def void_factor(velocity: FloatArray, limit: float, share: float, dt: float) -> FloatArray:  # pragma: no cover
    """Return the factor on damping of a void that grows in rebound above a speed and is closed by compression."""
    out = np.ones_like(velocity)
    void = 0.0
    for n in range(velocity.size):
        if velocity[n] < -limit:
            void += share * (-velocity[n] - limit) * dt
        elif velocity[n] > 0.0 and void > 0.0:
            void = max(void - velocity[n] * dt, 0.0)
            out[n] = CLOSING
    return out


@njit(cache=True)
def lagged(values: FloatArray, share: float) -> FloatArray:  # pragma: no cover
    """Return what follows values by a share of the difference each step."""
    out = np.empty_like(values)
    now = values[0]
    for n in range(values.size):
        now += share * (values[n] - now)
        out[n] = now
    return out


def spoiled(samples: Samples, turns: FloatArray, further: Further, rng: Generator) -> Samples:
    """Return the channels with what the cell and the logger do to them; `turns` are those of the samples."""
    peak = float(np.abs(samples.force).max())
    if further.wander:
        walk = np.cumsum(rng.standard_normal(samples.time.size))
        walk = walk / np.ptp(walk) * float(rng.uniform(0.2, 0.5))
        zero = 1.0 - np.exp(-samples.time / further.warm_up_s) + walk
        zero = further.wander * peak * (zero - zero.mean())
        samples = replace(samples, force=samples.force + zero)
    if further.force_bits:
        samples = replace(samples, force=stepped(samples.force, cell(peak), further.force_bits))
    for _ in range(further.lost):
        first = float(rng.uniform(0.1, 0.9)) * turns[-1]
        kept = (turns < first) | (turns > first + float(rng.uniform(0.6, 1.4)))
        samples, turns = without(samples, kept, goes_on=further.clock_goes_on), turns[kept]
    return samples


def without(samples: Samples, kept: FloatArray, *, goes_on: bool) -> Samples:
    """Return the samples kept; the clock goes on meanwhile, or counts samples alone."""
    channels = [
        None if c is None else c[kept] for c in (samples.time, samples.displacement, samples.force, samples.velocity)
    ]
    if not goes_on:
        channels[0] = samples.time[: int(kept.sum())]
    return Samples(*channels, samples.offset_n)  # type: ignore[arg-type]
