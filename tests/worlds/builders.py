"""Builders of worlds: from a random generator to a `World`. `rows` names them.

Everything starts from `clean`: any valve, 5-40 N of Coulomb friction, a gas-charged shock, a crank machine with 5-8
speeds at 1 kHz and 0.2 % noise; a builder adds one effect to it, or many. Ranges: common practice, no source, unless
named.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from typing import Any

import numpy as np

from tests.worlds import friction, gas, valves
from tests.worlds.motions import Motion
from tests.worlds.rigs import Spring
from tests.worlds.valves import Generator, log_uniform
from tests.worlds.world import Fade, World

Build = Callable[[Generator], World]


FASTEST_TURN = 8.0
"""Turns or strokes per second that no machine here exceeds [Hz]."""
FASTEST_RAMP = 3.0
"""The same for ramps, whose corners take the acceleration: about 10 g there [Hz]."""
FEWEST = 12
"""Samples per turn that no rig with a clock goes below at its fastest."""


def uniform(rng: Generator, span: tuple[float, float]) -> float:
    """Return a draw from a span."""
    return float(rng.uniform(*span))


def speeds(rng: Generator, count: tuple[int, int] = (5, 8), top: tuple[float, float] = (0.3, 1.2)) -> tuple[float, ...]:
    """Return rising peak speeds [m/s], even in ratio, rounded as an operator sets them."""
    number, high = int(rng.integers(count[0], count[1] + 1)), log_uniform(rng, *top)
    return tuple(float(f"{v:.2g}") for v in np.geomspace(log_uniform(rng, 0.03, 0.1), high, number))


def paced(motion: Motion) -> Motion:
    """Return the motion with all speeds lowered so far that the machine keeps to its fastest turn."""
    fastest = FASTEST_RAMP if motion.shape == "triangle" else FASTEST_TURN
    share = min(1.0, fastest * 2.0 * np.pi * motion.half_stroke_m / max(motion.peaks_m_s))
    return replace(motion, peaks_m_s=tuple(share * peak for peak in motion.peaks_m_s))


def clock(rng: Generator, motion: Motion, *rates: int) -> int:
    """Return a rate [Hz] drawn from those that give `FEWEST` samples to the fastest turn (none: the highest)."""
    least = FEWEST * max(motion.peaks_m_s) / (2.0 * np.pi * motion.half_stroke_m)
    enough = [rate for rate in rates if rate >= least]
    return int(rng.choice(enough or [max(rates)]))


def clean(rng: Generator, law: str | None = None) -> World:
    """Return a good shock on a faultless rig."""
    half = float(rng.choice([0.0125, 0.02, 0.025]))
    motion = paced(Motion(speeds(rng), half, detail=uniform(rng, (0.05, 0.2))))
    shock = valves.draw_valve(rng, max(motion.peaks_m_s), law)
    column = gas.draw_gas(rng, half, (50.0, 250.0), (300.0, 2500.0))
    return World(shock, friction.draw_friction(rng), column, motion)


def with_chain(world: World, **change: Any) -> World:
    """Return the world with another load cell, electronics or converter."""
    return replace(world, chain=replace(world.chain, **change))


def with_motion(world: World, **change: Any) -> World:
    """Return the world with another motion."""
    return replace(world, motion=paced(replace(world.motion, **change)))


def chain(name: str, low: float, high: float, **fixed: Any) -> Build:
    """Return a builder of clean worlds with one chain value drawn between two, log-uniform, and others fixed."""
    return lambda rng: with_chain(clean(rng), **{name: log_uniform(rng, low, high)}, **fixed)


def motion(**change: Any) -> Build:
    """Return a builder of clean worlds with a changed motion."""
    return lambda rng: with_motion(clean(rng), **change)


def rubbing(law: Callable[[Generator, friction.Friction], friction.Friction], high: float = 40.0) -> Build:
    """Return a builder of clean worlds with a friction law over 10 to `high` N of Coulomb friction."""
    return lambda rng: replace(clean(rng), friction=law(rng, friction.draw_friction(rng, 10.0, high)))


def shared(name: str, low: float, high: float) -> Build:
    """Return a builder of clean worlds whose friction has one share drawn between two, either way."""

    def law(rng: Generator, plain: friction.Friction) -> friction.Friction:
        changes: dict[str, Any] = {name: uniform(rng, (low, high)) * float(rng.choice([-1.0, 1.0]))}
        return replace(plain, **changes)

    return rubbing(law)


def fading(low: float, high: float, by_work: bool, kelvin: bool = False) -> Build:
    """Return a builder of clean worlds that lose a share of damping between two; 1-2 % per 10 K as oil thins."""

    def build(rng: Generator) -> World:
        share = uniform(rng, (low, high))
        fade = Fade(share, by_work, share / uniform(rng, (0.001, 0.002)))
        return with_chain(replace(clean(rng), fade=fade), kelvin=kelvin)

    return build


def sprung(low: float, high: float, air: tuple[float, float] | None = None) -> Build:
    """Return a builder of clean worlds with a series spring [N/m], with air in the oil where `air` gives its share."""

    def build(rng: Generator) -> World:
        bubbles = uniform(rng, air) if air else 0.0
        return replace(clean(rng), spring=Spring(log_uniform(rng, low, high), bubbles, uniform(rng, (50.0, 300.0))))

    return build


def charged(force: tuple[float, float], rate: tuple[float, float], half: float = 0.02, **change: Any) -> Build:
    """Return a builder of clean worlds with another gas column."""

    def build(rng: Generator) -> World:
        column = replace(gas.draw_gas(rng, half, force, rate), **change)
        return replace(with_motion(clean(rng), half_stroke_m=half), gas=column)

    return build


def saying_removed(build: Build) -> Build:
    """Return the builder with a user who says that gas is out."""
    return lambda rng: replace(build(rng), states_removed=True)


def one_speed(low: float, high: float, cycles: int = 8) -> Build:
    """Return a builder of clean worlds run at one peak speed between two [m/s]."""
    return lambda rng: with_motion(clean(rng), peaks_m_s=(uniform(rng, (low, high)),), cycles=cycles)


def at_one_speed(build: Build) -> Build:
    """Return the builder with a middling speed of its own alone, eight turns or more."""

    def rebuilt(rng: Generator) -> World:
        world = build(rng)
        return with_motion(world, peaks_m_s=(uniform(rng, (0.13, 0.5)),), cycles=8)

    return rebuilt


def descending(rng: Generator) -> World:
    """Return a clean world run from its fastest speed down, with pauses."""
    world = clean(rng)
    return with_motion(world, peaks_m_s=world.motion.peaks_m_s[::-1], pause_s=0.5)


def triangles(rng: Generator) -> World:
    """Return a clean world run in sharp triangles from the fastest down, two of each, its displacement noisy.

    A servo holds each speed and stops for a moment between them: slopes of displacement are noise where it stands.
    """
    world = with_motion(descending(rng), shape="triangle", detail=0.99, cycles=2, pause_s=uniform(rng, (0.2, 0.5)))
    return with_chain(world, x_noise=uniform(rng, (2e-4, 6e-4)))


def course(rng: Generator) -> World:
    """Return a clean world driven along a course up to 4 to 12 Hz, its displacement noisy and no velocity recorded."""
    highest, made = log_uniform(rng, 4.0, 12.0), clean(rng)
    tones = tuple(float(f) for f in np.exp(rng.uniform(np.log(0.3), np.log(highest), 40)))
    motion = replace(made.motion, tones=tones, uneven_phase=uniform(rng, (0.0, 6.0)))
    return with_chain(replace(made, motion=motion), x_noise=uniform(rng, (1e-4, 6e-4)))


def coarse(build: Build, by_encoder: bool) -> Build:
    """Return the builder with 12 to 40 samples a turn: of each by an encoder, of the fastest by a slow clock."""

    def rebuilt(rng: Generator) -> World:
        world, wanted = build(rng), int(rng.integers(12, 41))
        if by_encoder:
            return with_chain(world, per_turn=wanted)
        turn = 2.0 * np.pi * world.motion.half_stroke_m / max(world.motion.peaks_m_s)
        rates = np.array([20, 25, 40, 50, 80, 100, 125, 200, 250])
        return with_chain(world, rate_hz=int(rates[np.argmin(np.abs(rates - wanted / turn))]))

    return rebuilt
