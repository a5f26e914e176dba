"""The rows of the table: one effect alone, mild and strong, on an otherwise clean record; then mixtures.

`draw(row, seed)` gives the same record every time. The builders and their ranges are in `builders` and `mixtures`.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from functools import partial
from zlib import crc32

import numpy as np

from tests.worlds import builders as make
from tests.worlds import friction, mixtures
from tests.worlds import oddities as odd
from tests.worlds.further_rows import FURTHER
from tests.worlds.valves import VALVES, Generator
from tests.worlds.world import Record, World, simulate


@dataclass(frozen=True)
class Row:
    """A kind of record."""

    name: str
    what: str
    build: make.Build


def made_odd(change: Callable[[World, Generator], World]) -> make.Build:
    """Return a builder of clean worlds changed so."""
    return lambda rng: change(make.clean(rng), rng)


CHANNELS = (
    Row("clean", "any valve, 5-40 N Coulomb friction, gas, crank staircase, 1 kHz, 0.2 % noise", make.clean),
    Row("noise mild", "white noise 0.1-0.5 % of peak force", make.chain("white", 1e-3, 5e-3)),
    Row("noise strong", "white noise 1-2 %", make.chain("white", 1e-2, 2e-2)),
    Row("hum mild", "noise correlated over 10 ms, 0.1-0.5 %", make.chain("coloured", 1e-3, 5e-3)),
    Row("hum strong", "the same, 1-2 %", make.chain("coloured", 1e-2, 2e-2)),
    Row(
        "repeat mild",
        "damping scatters from turn to turn by 0.3-0.6 %",
        lambda r: replace(make.clean(r), repeat=r.uniform(3e-3, 6e-3)),
    ),
    Row("repeat strong", "the same, 1-2 %", lambda r: replace(make.clean(r), repeat=r.uniform(1e-2, 2e-2))),
    Row("12 bit", "12-bit converters on force and travel", lambda r: make.with_chain(make.clean(r), bits=12)),
    Row(
        "spikes mild",
        "0.01-0.05 % of samples hit by spikes of 0.5-2 times peak force",
        make.chain("spikes", 1e-4, 5e-4),
    ),
    Row("spikes strong", "0.5-1 % of samples", make.chain("spikes", 5e-3, 1e-2)),
    Row("low-pass 1 mild", "force channel first order 50-100 Hz", make.chain("low_pass_hz", 50.0, 100.0)),
    Row("low-pass 1 strong", "first order 10-25 Hz", make.chain("low_pass_hz", 10.0, 25.0)),
    Row("low-pass 2 mild", "second order Butterworth 50-100 Hz", make.chain("low_pass_hz", 50.0, 100.0, order=2)),
    Row("low-pass 2 strong", "second order Butterworth 15-30 Hz", make.chain("low_pass_hz", 15.0, 30.0, order=2)),
    Row("low-pass Bessel", "second order Bessel 20-60 Hz", make.chain("low_pass_hz", 20.0, 60.0, order=2, bessel=True)),
    Row("delay mild", "force late by 0.5-2 ms", make.chain("delay_s", 5e-4, 2e-3)),
    Row("delay strong", "force late by 5-10 ms", make.chain("delay_s", 5e-3, 1e-2)),
    Row("mass mild", "0.2-0.6 kg moving on the cell", make.chain("mass_kg", 0.2, 0.6)),
    Row("mass strong", "1.5-3 kg moving on the cell", make.chain("mass_kg", 1.5, 3.0)),
    Row("drift", "cell zero off by 1-3 % and drifting by 1 %", make.chain("offset", 1e-2, 3e-2, drift=0.01)),
    Row("velocity lag mild", "recorded velocity behind 60-150 Hz first order", make.chain("v_lag_hz", 60.0, 150.0)),
    Row("velocity lag strong", "recorded velocity behind 10-30 Hz", make.chain("v_lag_hz", 10.0, 30.0)),
    Row(
        "velocity scale",
        "recorded velocity 0.94-1.06 times the true one",
        make.chain("v_scale", 0.94, 1.06, v_lag_hz=300.0),
    ),
)
MECHANICS = (
    Row("compliance mild", "oil and mounts 5-10 MN/m in series", make.sprung(5e6, 1e7)),
    Row("compliance strong", "0.5-1.5 MN/m", make.sprung(5e5, 1.5e6)),
    Row("air mild", "2-5 MN/m, 1-3 times softer near zero force", make.sprung(2e6, 5e6, (1.0, 3.0))),
    Row("air strong", "1-3 MN/m, 5-20 times softer near zero force", make.sprung(1e6, 3e6, (5.0, 20.0))),
    Row("backlash mild", "0.05-0.1 mm lost motion", lambda r: replace(make.clean(r), backlash_m=r.uniform(5e-5, 1e-4))),
    Row(
        "backlash strong", "0.2-0.3 mm lost motion", lambda r: replace(make.clean(r), backlash_m=r.uniform(2e-4, 3e-4))
    ),
    Row("uneven mild", "crank speed varies by 2 % in a turn", make.motion(uneven=0.02)),
    Row("uneven strong", "crank speed varies by 8 %", make.motion(uneven=0.08, uneven_phase=1.0)),
    Row(
        "fade mild",
        "damping falls by 2-3 % with time, temperature not recorded",
        make.fading(0.02, 0.03, by_work=False),
    ),
    Row("fade strong", "by 5-8 % with time", make.fading(0.05, 0.08, by_work=False)),
    Row("fade by work mild", "by 2-3 % with the work done", make.fading(0.02, 0.03, by_work=True)),
    Row("fade by work strong", "by 5-8 % with the work done", make.fading(0.05, 0.08, by_work=True)),
    Row(
        "fade recorded",
        "by 2-8 % with the work done, temperature recorded",
        make.fading(0.02, 0.08, by_work=True, kelvin=True),
    ),
    Row("gas mild", "50-150 N, up to 2 N/mm", make.charged((50.0, 150.0), (0.0, 2e3))),
    Row("gas strong", "200-400 N, 4-12 N/mm", make.charged((200.0, 400.0), (4e3, 1.2e4))),
    Row(
        "gas steepest",
        "300-400 N, 12-40 N/mm on a short stroke",
        make.charged((300.0, 400.0), (1.2e4, 4e4), half=0.0075),
    ),
    Row(
        "gas out",
        "gas taken out, as the user says",
        make.saying_removed(make.charged((50.0, 250.0), (0.0, 2e3), removed="all")),
    ),
    Row("gas out unsaid", "gas taken out, nobody says so", make.charged((50.0, 250.0), (0.0, 2e3), removed="all")),
    Row(
        "gas half out",
        "force at mid-stroke taken out, rate left in",
        make.charged((50.0, 250.0), (0.0, 3e3), removed="static"),
    ),
)
FRICTIONS = (
    Row("friction none", "no friction", lambda r: replace(make.clean(r), friction=friction.Friction())),
    Row(
        "friction strong",
        "Coulomb 60-150 N",
        lambda r: replace(make.clean(r), friction=friction.draw_friction(r, 60.0, 150.0)),
    ),
    Row("breakaway mild", "Stribeck +20 %", make.rubbing(partial(friction.stribeck, low=0.15, high=0.25))),
    Row("breakaway strong", "Stribeck +50-60 %", make.rubbing(partial(friction.stribeck, low=0.5, high=0.6), 60.0)),
    Row("presliding mild", "Dahl, 0.02-0.06 mm", make.rubbing(partial(friction.dahl, low=2e-5, high=6e-5))),
    Row("presliding strong", "Dahl, 0.2-0.3 mm", make.rubbing(partial(friction.dahl, low=2e-4, high=3e-4), 60.0)),
    Row("LuGre", "published parameters scaled to seals", make.rubbing(friction.lugre)),
    Row("LuGre strong", "the same, up to 100 N", make.rubbing(friction.lugre, 100.0)),
    Row("friction tilted", "10-40 % more one way than the mean", make.shared("tilt", 0.1, 0.4)),
    Row(
        "friction by load",
        "grows by 10-30 % per kN of valve force",
        make.rubbing(lambda r, f: replace(f, per_newton=r.uniform(1e-4, 3e-4))),
    ),
    Row("friction by travel", "20-50 % more at one end", make.shared("travel", 0.2, 0.5)),
)
MACHINES = (
    Row("servo frequency", "pure sine, staircase by frequency", make.motion(shape="sine")),
    Row(
        "servo amplitude",
        "pure sine, staircase by amplitude at one frequency",
        make.motion(shape="sine", schedule="amplitude"),
    ),
    Row("chirp", "speed rises without steps", make.motion(schedule="chirp")),
    Row("ramps", "constant speed both ways, rounded corners", make.motion(shape="triangle", detail=0.97)),
    Row("course", "no cycles: a servo follows a road of many tones, displacement noisy", make.course),
    Row("triangles", "sharp ramps to and fro, fastest first, pauses between, displacement noisy", make.triangles),
    Row("descending", "fastest speed first, pauses between", make.descending),
    Row("short rod", "crank with a rod of 2.5 radii", make.motion(detail=0.4)),
    Row("5 kHz", "5 kHz sampling", lambda r: make.with_chain(make.clean(r), rate_hz=5000)),
    Row("100 Hz", "100 Hz sampling", lambda r: make.with_chain(make.clean(r), rate_hz=100)),
    Row("one speed slow", "0.1-0.16 m/s alone", make.one_speed(0.10, 0.16)),
    Row("one speed", "0.2-0.3 m/s alone", make.one_speed(0.20, 0.30)),
    Row("one speed fast", "0.45-0.6 m/s alone", make.one_speed(0.45, 0.60)),
    Row("coarse", "slow clock: 12-40 samples in the fastest turn", make.coarse(make.clean, by_encoder=False)),
    Row("coarse encoder", "12-40 samples in every turn", make.coarse(make.clean, by_encoder=True)),
    Row(
        "coarse one speed",
        "one speed, 12-40 samples a turn",
        make.coarse(make.one_speed(0.13, 0.5, cycles=5), by_encoder=False),
    ),
)
TABLES = (
    Row("peaks", "peak table, 8-20 speeds, gas and friction in, 0.2-0.5 % scatter", mixtures.table((2e-3, 5e-3))),
    Row("peaks scattered", "1-2 % scatter", mixtures.table((1e-2, 2e-2))),
    Row("peaks gas stated", "charge pressure and rod stated", mixtures.table((2e-3, 1e-2), states_gas=True)),
    Row("peaks magnitudes", "rebound without a sign", mixtures.table((2e-3, 1e-2), signed=False)),
    Row(
        "peaks extreme",
        "highest force of the cycle, not that at peak speed",
        mixtures.table((2e-3, 1e-2), extreme=True),
    ),
    Row("peaks gas out", "gas taken out, as the user says", mixtures.table_without_gas),
    Row("peaks home", "home rig: up to 2 % scatter, any friction to 60 N, fade, zero off", mixtures.home_table),
)
MIXED = (
    *(Row(f"valve {law}", f"good rig, valve: {law}", partial(mixtures.good_rig, law=law)) for law in VALVES),
    Row("good rig", "a little of everything", mixtures.good_rig),
    Row("good rig one speed", "a good rig run at one speed", make.at_one_speed(mixtures.good_rig)),
    Row("home rig", "much of everything", mixtures.home_rig),
    Row("home rig one speed", "a home rig run at one speed", make.at_one_speed(mixtures.home_rig)),
    Row("any", "everything at random, strong effects and peak tables included", mixtures.anything),
)
ODD = (
    Row("warm and filtered", "3-6 % lost with work, temperature recorded, 15-40 Hz", made_odd(odd.hot_and_filtered)),
    Row("bypass", "5-15 % less damping in the middle of the stroke", made_odd(odd.with_bypass)),
    Row("energised seal", "friction grows by 20-60 % per kN of rebound force", made_odd(odd.with_energised_seal)),
    Row("side load", "a crank's slide rubs at 3-8 % of its side load", made_odd(odd.with_side_load)),
    Row("encoder loses", "travel in counts of 5-50 µm, some lost every 2-10 s", made_odd(odd.with_encoder)),
    Row("mains", "50 or 60 Hz of 0.2-1 % of peak force", made_odd(odd.with_mains)),
    Row("averaged", "means of 4-10 ms, of which alone the file holds", made_odd(odd.with_averaging)),
    Row("void", "a void closes over 0.1-0.5 mm of compression", made_odd(odd.with_void)),
    Row("sticking poppet", "damping 1-3 % higher opening, lower closing", made_odd(odd.with_sticking_poppet)),
    Row("cell hysteresis", "the cell stays behind by 0.05-0.3 % of its peak", made_odd(odd.with_hysteresis)),
)
ROWS: tuple[Row, ...] = (
    *CHANNELS,
    *MECHANICS,
    *FRICTIONS,
    *MACHINES,
    *TABLES,
    *MIXED,
    *ODD,
    *(Row(*one) for one in FURTHER),
)
BY_NAME = {row.name: row for row in ROWS}


def draw(row: str, seed: int) -> Record:
    """Return a record of the named row; the same for the same seed.

    Raises
    ------
    KeyError
        If there is no such row.
    """
    rng = np.random.default_rng([crc32(row.encode()), seed])
    return simulate(BY_NAME[row].build(rng), row, seed, rng)
