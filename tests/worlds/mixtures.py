"""Builders of peak tables and of mixtures: a good rig, a home rig, anything. See `builders` for the single effects."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from tests.worlds import friction, gas, valves
from tests.worlds.builders import Build, clean, clock, paced, speeds, uniform, with_chain, with_motion
from tests.worlds.motions import Motion
from tests.worlds.rigs import Chain, Spring
from tests.worlds.valves import Generator, log_uniform
from tests.worlds.world import Fade, Table, World


def table(scatter: tuple[float, float], **change: Any) -> Build:
    """Return a builder of peak tables of 8-20 speeds; `change` goes to the table or, where it has no such field, to
    the world.
    """

    def build(rng: Generator) -> World:
        made = {k: change[k] for k in change.keys() & Table.__dataclass_fields__.keys()}
        rest = {k: change[k] for k in change.keys() - made.keys()}
        world = with_motion(clean(rng), peaks_m_s=speeds(rng, (8, 20)))
        world = replace(world, valve=valves.draw_valve(rng, max(world.motion.peaks_m_s)))
        return replace(world, table=Table(log_uniform(rng, *scatter), **made), **rest)

    return build


def table_without_gas(rng: Generator) -> World:
    """Return a peak table with the static gas force taken out, as its user says."""
    world = table((2e-3, 1e-2), states_removed=True)(rng)
    return replace(world, gas=replace(world.gas, removed="all"))


def home_table(rng: Generator) -> World:
    """Return a peak table from a home rig: 2 % scatter, more friction, fade, a zero that is off, extremes of the
    cycle.
    """
    world = table((5e-3, 2e-2), signed=bool(rng.integers(2)), extreme=bool(rng.integers(2)))(rng)
    world = replace(world, friction=friction.any_friction(rng, 60.0), fade=Fade(uniform(rng, (0.0, 0.04))))
    return with_chain(world, offset=uniform(rng, (-0.01, 0.01)))


def good_rig(rng: Generator, law: str | None = None) -> World:
    """Return a little of everything: a decent shop's rig."""
    world = clean(rng, law)
    world = replace(
        world,
        friction=friction.stribeck(rng, world.friction, 0.0, 0.2),
        spring=Spring(log_uniform(rng, 4e6, 1e7)),
        fade=Fade(uniform(rng, (0.0, 0.015)), bool(rng.integers(2)), uniform(rng, (0.0, 6.0))),
        repeat=0.003,
        motion=replace(world.motion, uneven=uniform(rng, (0.0, 0.02))),
        states_gas=bool(rng.integers(2)),
    )
    return with_chain(
        world,
        rate_hz=clock(rng, world.motion, 500, 1000, 2000),
        low_pass_hz=log_uniform(rng, 80.0, 300.0),
        order=2,
        mass_kg=uniform(rng, (0.1, 0.5)),
        white=log_uniform(rng, 1e-3, 5e-3),
        coloured=log_uniform(rng, 5e-4, 2e-3),
        offset=uniform(rng, (-3e-3, 3e-3)),
        bits=16,
        kelvin=bool(rng.integers(2)),
    )


def home_rig(rng: Generator, law: str | None = None) -> World:
    """Return much of everything: a machine built in a shed."""
    world = clean(rng, law)
    lengthy = friction.dahl if rng.random() < 0.5 else friction.stribeck
    world = replace(
        world,
        friction=lengthy(rng, friction.draw_friction(rng, 10.0, 60.0)),
        spring=Spring(log_uniform(rng, 1e6, 4e6), uniform(rng, (0.0, 4.0))),
        fade=Fade(uniform(rng, (0.01, 0.05)), bool(rng.integers(2)), uniform(rng, (5.0, 30.0))),
        repeat=uniform(rng, (0.003, 0.01)),
        backlash_m=uniform(rng, (0.0, 2e-4)),
        motion=replace(world.motion, uneven=uniform(rng, (0.02, 0.06)), uneven_phase=uniform(rng, (0.0, 6.3))),
    )
    return with_chain(
        world,
        rate_hz=clock(rng, world.motion, 100, 200, 500),
        low_pass_hz=log_uniform(rng, 20.0, 80.0),
        delay_s=uniform(rng, (0.0, 4e-3)),
        mass_kg=uniform(rng, (0.5, 2.0)),
        white=log_uniform(rng, 3e-3, 1e-2),
        coloured=log_uniform(rng, 2e-3, 1e-2),
        offset=uniform(rng, (-0.02, 0.02)),
        drift=uniform(rng, (-0.005, 0.005)),
        bits=12,
        spikes=float(rng.choice([0.0, 1e-3])),
    )


def any_motion(rng: Generator, half: float) -> Motion:
    """Return any of the motions, one speed included."""
    shape = str(rng.choice(["sine", "crank", "crank", "triangle"]))
    schedule = str(rng.choice(["staircase", "staircase", "amplitude", "chirp"]))
    peaks = speeds(rng, (3, 9), (0.13, 1.5))
    if schedule != "chirp":
        peaks = (peaks, peaks, peaks[::-1], peaks[-1:])[int(rng.integers(4))]
    detail = uniform(rng, (0.95, 0.99) if shape == "triangle" else (0.05, 0.3))
    pause = float(rng.choice([0.0, 0.0, 1.0]))
    cycles, uneven = int(rng.integers(2, 6)), uniform(rng, (0.0, 0.04))
    return paced(Motion(peaks, half, shape, schedule, detail, cycles, uneven, pause_s=pause))


def any_chain(rng: Generator, motion: Motion) -> Chain:
    """Return any chain: each fault there or not, mild to strong."""
    there = rng.random(12) < 0.4
    per_turn = int(rng.integers(12, 41)) if rng.random() < 0.1 else None
    return Chain(
        rate_hz=clock(rng, motion, 100, 200, 500, 1000, 2000, 5000),
        per_turn=per_turn,
        low_pass_hz=log_uniform(rng, 10.0, 200.0) if there[0] else None,
        order=int(rng.integers(1, 3)),
        bessel=bool(rng.integers(2)),
        delay_s=uniform(rng, (-3e-3, 1e-2)) * there[1],
        mass_kg=uniform(rng, (0.2, 3.0)) * there[2],
        white=log_uniform(rng, 1e-3, 2e-2),
        coloured=log_uniform(rng, 1e-3, 2e-2) * there[3],
        offset=uniform(rng, (-0.03, 0.03)) * there[4],
        drift=uniform(rng, (-0.02, 0.02)) * there[5],
        bits=12 if there[6] else None,
        spikes=log_uniform(rng, 1e-4, 5e-3) * there[7],
        x_noise=log_uniform(rng, 1e-5, 1e-3),
        v_lag_hz=log_uniform(rng, 10.0, 200.0) if there[8] else None,
        v_scale=uniform(rng, (0.94, 1.06)) if there[9] else 1.0,
        kelvin=bool(there[10]),
    )


def anything(rng: Generator) -> World:
    """Return everything mixed at random, each at any level."""
    if rng.random() < 0.1:
        return home_table(rng)
    half = float(rng.choice([0.01, 0.02, 0.025, 0.035]))
    movement = any_motion(rng, half)
    there = rng.random(5) < 0.4
    states: tuple[gas.Removed, ...] = ("nothing", "nothing", "static", "all")
    removed = states[int(rng.integers(4))]
    stiffness, air, fade = log_uniform(rng, 5e5, 1e7), uniform(rng, (0.0, 15.0)), uniform(rng, (0.02, 0.08))
    return World(
        valve=valves.draw_valve(rng, max(movement.peaks_m_s)),
        friction=friction.any_friction(rng, float(rng.choice([60.0, 150.0]))),
        gas=replace(gas.draw_gas(rng, half, (0.0, 400.0), (0.0, 2e4 if there[4] else 4e3)), removed=removed),
        motion=movement,
        chain=any_chain(rng, movement),
        spring=Spring(stiffness, air * (rng.random() < 0.3)) if there[0] else None,
        backlash_m=uniform(rng, (5e-5, 3e-4)) * there[1],
        repeat=uniform(rng, (0.002, 0.02)) * there[2],
        fade=Fade(fade, bool(rng.integers(2)), 500.0 * fade) if there[3] else Fade(),
        states_gas=bool(rng.integers(2)),
        states_removed=bool(rng.integers(2)),
    )
