"""Effects of shocks and rigs outside the usual list, and builders of their rows.

A bypass: grooves in the tube let oil past the piston about mid-stroke, so that damping there is lower by a share. A
seal energised by the chamber beside it: that chamber's pressure rises in rebound alone. Side load: a crank's rod pushes
the slide sideways by the force times the tangent of its angle, and a plain guide rubs by a share of that. Encoder: the
travel comes in counts, and now and then some are lost for good. Mains: the cell's amplifier picks up 50 or 60 Hz. A
cell with hysteresis: its reading stays behind by a fixed share of the peak (play). An averaging rig: each channel is
the mean over a window, of which few values are kept. A void: oil that came out of solution in rebound must close before
compression is damped in full. A poppet that sticks: it opens late and closes late. Ranges: common practice, no source.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

import numpy as np
from numba import njit

from tests.worlds.valves import FloatArray, Generator, log_uniform

if TYPE_CHECKING:
    from tests.worlds.world import World


@dataclass(frozen=True)
class Bypass:
    """Grooves about mid-stroke; none where `share` is 0."""

    share: float = 0.0  #: of damping missing in the middle
    half_m: float = 0.01  #: reach of the grooves, to 1/e [m]

    def factor(self, x: FloatArray) -> FloatArray:
        """Return the factor on damping at displacements [m] from mid-stroke."""
        return 1.0 - self.share * np.exp(-((x / self.half_m) ** 2))


@dataclass(frozen=True)
class Oddities:
    """What a channel suffers beyond `Chain`."""

    count_m: float = 0.0  #: one count of the encoder [m]
    losses: float = 0.0  #: losses of counts per second
    most_lost: int = 1  #: counts lost at once, at the most
    mains: float = 0.0  #: amplitude over peak force
    mains_hz: float = 50.0
    hysteresis: float = 0.0  #: half-width of the cell's play over peak force
    average: int = 1  #: samples in the mean that the rig keeps
    void_m: float = 0.0  #: travel over which a void closes, to 1/e [m]
    sticking: float = 0.0  #: share by which damping is higher while its poppet opens, lower while it closes

    def factor(self, x: FloatArray, v: FloatArray) -> FloatArray:
        """Return the factor on damping along displacements [m] and velocities [m/s] in even steps of time."""
        out = np.ones_like(v)
        if self.void_m:
            turn = (v > 0.0) & (np.concatenate([[0.0], v[:-1]]) <= 0.0)
            since = np.maximum.accumulate(np.where(turn, np.arange(v.size), 0))
            out = np.where(v > 0.0, 1.0 - np.exp(-np.maximum(x - x[since], 0.0) / self.void_m), 1.0)
        if self.sticking:
            faster = np.gradient(np.abs(v))
            out = out * (1.0 + self.sticking * np.tanh(faster / (0.1 * np.abs(faster).max())))
        return out


@njit(cache=True)
def behind(driver: FloatArray, half: float) -> FloatArray:  # pragma: no cover
    """Return what follows `driver` within +/- `half`."""
    follower = np.empty_like(driver)
    now = driver[0]
    for n in range(driver.size):
        now = min(max(now, driver[n] - half), driver[n] + half)
        follower[n] = now
    return follower


def side_share(angle_turns: FloatArray, crank_over_rod: float, rubbing: float) -> FloatArray:
    """Return the share of the axial force that a guide of this friction coefficient rubs, by the crank's angle."""
    sine = crank_over_rod * np.sin(2.0 * np.pi * angle_turns)
    share: FloatArray = rubbing * np.abs(sine) / np.sqrt(1.0 - sine**2)
    return share


def counted(x: FloatArray, time: FloatArray, odd: Oddities, rng: Generator) -> FloatArray:
    """Return the travel [m] as an encoder gives it that loses counts at moments of its own."""
    lost = rng.random(time.size) < odd.losses * np.diff(time, prepend=time[0])
    sizes = lost * rng.integers(1, odd.most_lost + 1, time.size) * rng.choice([-1, 1], time.size)
    off = np.cumsum(sizes)
    counts: FloatArray = odd.count_m * (np.round(x / odd.count_m) + off)
    return counts


def hum(time: FloatArray, odd: Oddities, rng: Generator) -> FloatArray:
    """Return the mains in the force, over peak force."""
    wave: FloatArray = odd.mains * np.sin(2.0 * np.pi * (odd.mains_hz * time + rng.random()))
    return wave


def hot_and_filtered(world: World, rng: Generator) -> World:
    """Return the world warming (recorded) behind a filter."""
    share = float(rng.uniform(0.03, 0.06))
    fade = replace(world.fade, share=share, by_work=True, kelvin=share / float(rng.uniform(1e-3, 2e-3)))
    chain = replace(world.chain, kelvin=True, low_pass_hz=log_uniform(rng, 15.0, 40.0), order=int(rng.integers(1, 3)))
    return replace(world, fade=fade, chain=chain)


def with_bypass(world: World, rng: Generator) -> World:
    """Return the world with grooves that take 5-15 % out of damping in the middle."""
    half = world.motion.half_stroke_m * float(rng.uniform(0.3, 0.8))
    return replace(world, bypass=Bypass(float(rng.uniform(0.05, 0.15)), half))


def with_energised_seal(world: World, rng: Generator) -> World:
    """Return the world with 10-40 N of friction that grows by 20-60 % per kN of rebound force."""
    level, grown = float(rng.uniform(10.0, 40.0)), float(rng.uniform(2e-4, 6e-4))
    return replace(world, friction=replace(world.friction, level_n=level, per_rebound_newton=grown))


def with_side_load(world: World, rng: Generator) -> World:
    """Return the world with a slide whose guide rubs at 3-8 % of the side load of a rod of 3 to 7 radii."""
    motion = replace(world.motion, detail=float(rng.uniform(0.14, 0.33)))
    return replace(world, motion=motion, side_rubbing=float(rng.uniform(0.03, 0.08)))


def with_encoder(world: World, rng: Generator) -> World:
    """Return the world with counts of 5-50 µm that are lost every 2 to 10 s, up to ten at once."""
    odd = Oddities(count_m=log_uniform(rng, 5e-6, 5e-5), losses=float(rng.uniform(0.1, 0.5)), most_lost=10)
    return replace(world, odd=odd)


def with_mains(world: World, rng: Generator) -> World:
    """Return the world with mains of 0.2-1 % of peak force."""
    return replace(world, odd=Oddities(mains=log_uniform(rng, 2e-3, 1e-2), mains_hz=float(rng.choice([50.0, 60.0]))))


def with_hysteresis(world: World, rng: Generator) -> World:
    """Return the world with a cell whose reading stays behind by 0.05-0.3 % of the peak."""
    return replace(world, odd=Oddities(hysteresis=log_uniform(rng, 5e-4, 3e-3)))


def averaged(values: FloatArray, many: int) -> FloatArray:
    """Return the means of so many samples each."""
    return np.asarray(values[: values.size // many * many].reshape(-1, many).mean(axis=1))


def with_averaging(world: World, rng: Generator) -> World:
    """Return the world with channels that are means of 4 to 10 ms at 1 kHz."""
    return replace(world, odd=Oddities(average=int(rng.integers(4, 11))))


def with_void(world: World, rng: Generator) -> World:
    """Return the world with a void that closes over 0.1 to 0.5 mm of compression."""
    return replace(world, odd=Oddities(void_m=log_uniform(rng, 1e-4, 5e-4)))


def with_sticking_poppet(world: World, rng: Generator) -> World:
    """Return the world with damping 1 to 3 % higher as the poppet opens and lower as it closes."""
    return replace(world, odd=Oddities(sticking=float(rng.uniform(0.01, 0.03))))
