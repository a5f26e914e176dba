"""Builders of worlds with the effects of `further`, and their rows. Ranges: common practice, no source."""

from __future__ import annotations

from dataclasses import replace

from tests.worlds import builders as make
from tests.worlds.further import Further
from tests.worlds.rigs import Spring
from tests.worlds.valves import Generator, log_uniform
from tests.worlds.world import Fade, World


def with_cavitation(rng: Generator) -> World:
    """Return a digressive shock in which oil does not follow above 0.5 to 0.8 of its top speed in rebound."""
    world = make.clean(rng, "shims")
    limit = max(world.motion.peaks_m_s) * float(rng.uniform(0.5, 0.8))
    further = Further(void_m_s=limit, void_share=float(rng.uniform(0.02, 0.1)), pressure_s=log_uniform(rng, 5e-4, 3e-3))
    return replace(world, further=further)


def with_soft_rod_side(rng: Generator) -> World:
    """Return a shock of 4-10 MN/m in compression, 10 to 40 % of that in rebound."""
    return replace(make.clean(rng), spring=Spring(log_uniform(rng, 4e6, 1e7), rebound=float(rng.uniform(0.1, 0.4))))


def with_warmth(rng: Generator) -> World:
    """Return a shock that loses 3 to 8 % while it works and gets half of it back when it rests or runs slowly."""
    share = float(rng.uniform(0.03, 0.08))
    fade = Fade(
        share, by_work=True, kelvin=share / float(rng.uniform(1e-3, 2e-3)), cooling_s=float(rng.uniform(15.0, 60.0))
    )
    return make.with_chain(replace(make.clean(rng), fade=fade), kelvin=bool(rng.integers(2)))


def with_taper(rng: Generator) -> World:
    """Return a shock whose bleed is 10 to 30 % stiffer at one end, up to a third of its top force."""
    world = make.clean(rng)
    top = float(world.valve(max(world.motion.peaks_m_s)))
    taper = float(rng.uniform(0.1, 0.3) * rng.choice([-1.0, 1.0]))
    return replace(world, further=Further(taper=taper, taper_n=top * float(rng.uniform(0.1, 0.35))))


def with_slop(rng: Generator) -> World:
    """Return a crank of which the big end is loose by 0.05 to 0.2 mm and that turns unevenly by 3 to 7 %."""
    world = make.with_motion(
        make.clean(rng), uneven=make.uniform(rng, (0.03, 0.07)), uneven_phase=make.uniform(rng, (0.0, 6.3))
    )
    return replace(world, further=Further(slop_m=log_uniform(rng, 5e-5, 2e-4)))


def with_wandering_cell(rng: Generator) -> World:
    """Return a rig whose zero moves by 0.5 to 2 % of the peak as the cell warms up, and walks."""
    further = Further(wander=log_uniform(rng, 5e-3, 2e-2), warm_up_s=float(rng.uniform(4.0, 20.0)))
    return replace(make.clean(rng), further=further)


def with_ten_bits(rng: Generator) -> World:
    """Return a rig whose force comes in 10 bits."""
    return replace(make.with_chain(make.clean(rng), white=log_uniform(rng, 5e-4, 3e-3)), further=Further(force_bits=10))


def with_anti_alias(rng: Generator) -> World:
    """Return a rig of 200 or 250 Hz behind a third-order filter at 0.15 to 0.4 of that."""
    world = make.clean(rng)
    rate = int(rng.choice([200, 250, 500]))
    return make.with_chain(world, rate_hz=rate, low_pass_hz=rate * float(rng.uniform(0.15, 0.4)), order=3)


def with_short_dwell(rng: Generator) -> World:
    """Return a rig that holds each speed for 1 to 2 turns and changes it within 0.1 to 0.4 s."""
    return make.with_motion(
        make.clean(rng), dwell=make.uniform(rng, (1.05, 2.0)), change_s=make.uniform(rng, (0.1, 0.4))
    )


def with_missing_cycles(rng: Generator) -> World:
    """Return a record of which one to four turns are lost."""
    return replace(make.clean(rng), further=Further(lost=int(rng.integers(1, 5)), clock_goes_on=bool(rng.integers(2))))


def with_warming_gas(rng: Generator) -> World:
    """Return a shock whose gas, 100 to 300 N, gives its warmth away in 0.5 to 15 s."""
    world = make.charged((100.0, 300.0), (500.0, 2500.0))(rng)
    return replace(world, gas=replace(world.gas, exponent=1.0, settles_s=log_uniform(rng, 0.5, 15.0)))


FURTHER = (
    ("cavitation", "a void grows in fast rebound, pressure builds up 0.5-3 ms late", with_cavitation),
    ("rod side gives", "4-10 MN/m in compression, 10-40 % of it in rebound", with_soft_rod_side),
    ("warm and cool", "3-8 % lost while it works, cooling in 15-60 s", with_warmth),
    ("bleed by travel", "bleed 10-30 % stiffer at one end of the stroke", with_taper),
    ("crank slop", "big end loose by 0.05-0.2 mm, crank uneven by 3-7 %", with_slop),
    ("cell wanders", "zero warms up by 0.5-2 % of the peak and walks", with_wandering_cell),
    ("10 bit force", "10-bit converter on the force", with_ten_bits),
    ("anti-alias", "third order at 0.15-0.4 of 200-500 Hz", with_anti_alias),
    ("short dwell", "1 to 2 turns a speed, no pause", with_short_dwell),
    ("cycles missing", "one to four turns lost, clock going on or not", with_missing_cycles),
    ("gas warms", "gas gives its warmth away in 0.5-15 s", with_warming_gas),
)
