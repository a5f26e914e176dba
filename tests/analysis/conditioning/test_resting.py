"""A shock that stands still shows gas and zero; rigs as shops run them, written from the physics alone."""

import numpy as np
import pytest

from dynoan.analysis.conditioning.channels.blocks import cut
from dynoan.analysis.conditioning.channels.record import prepare
from dynoan.analysis.conditioning.channels.velocity import find_motion
from dynoan.analysis.conditioning.condition import condition
from dynoan.analysis.conditioning.forces.effects import Effect
from dynoan.analysis.conditioning.forces.resting import held, rests_of
from dynoan.analysis.conditioning.samples.rows import rows_of
from dynoan.model.sweep import Source, Sweep

RATE, STROKE = 1000.0, 0.05
GAS, GAS_RATE = 110.0, 1500.0  #: at mid-stroke [N], over travel [N/m]


def moved(*runs: tuple[float, float], rest: float) -> tuple[np.ndarray, np.ndarray]:
    """Travel [m] and velocity [m/s] of a crank from its extended end: (top speed, turns) a run, at rest between."""
    x, v = [], []
    for top, turns in runs:
        omega = 2.0 * top / STROKE
        t = np.arange(int(turns * 2.0 * np.pi / omega * RATE)) / RATE
        still = np.zeros(int(rest * RATE))
        x += [still - STROKE / 2, -STROKE / 2 * np.cos(omega * t)]
        v += [still, top * np.sin(omega * t)]
    return np.concatenate([*x, still - STROKE / 2]), np.concatenate([*v, still])


def recorded(x: np.ndarray, force: np.ndarray, noise: float = 2.0, rate: float = RATE) -> Sweep:
    error = np.random.default_rng(5).normal(0.0, noise, len(x))
    channels = {"time": np.arange(len(x)) / rate, "displacement": x, "force": force + error}
    return Sweep("trace", channels, Source("made.csv", "0" * 64), rate=rate)


def preloaded(v: np.ndarray, compression: float, rebound: float) -> np.ndarray:
    """A stack that opens at so much force either way [N], past a leak that passes 4 mm/s until then, and no bleed."""
    out = np.zeros(len(v))
    for sign, opens in ((1.0, compression), (-1.0, rebound)):
        f = np.geomspace(1e-3, 20.0 * opens, 2000)
        speed = 0.004 * f / opens + 0.1 / opens * 0.1 * opens * np.logaddexp(0.0, (f - opens) / (0.1 * opens))
        out += sign * np.where(sign * v > 0, np.interp(np.abs(v), speed, f, left=0.0), 0.0)
    return out


def held_one_way(v: np.ndarray) -> np.ndarray:
    """A valve with preload in rebound alone: 350 N within some millimetres a second."""
    return np.where(v > 0, 2500.0 * v, 350.0 * np.tanh(v / 4e-3) + 600.0 * v)


class TestForceAtRest:
    def test_it_is_found_where_the_shock_stands(self):
        x, v = moved((0.1, 2), (0.3, 4), rest=0.5)
        record = prepare(recorded(x, held_one_way(v) + GAS + GAS_RATE * x))
        rests = rests_of(record)
        assert len(rests.force) == 3
        assert rests.displacement == pytest.approx(-STROKE / 2)
        assert rests.force == pytest.approx(GAS - GAS_RATE * STROKE / 2, abs=1.0)

    def test_a_noisy_transducer_and_a_slow_start_do_not_hide_it(self):
        """Noise reaches further than a shock that stands may move, and the first speed is run up to slowly."""
        t = np.arange(int(8.0 * RATE)) / RATE
        up = 0.05 * np.maximum(t - 0.4, 0.0) ** 2
        x = -STROKE / 2 * np.cos(up) + np.random.default_rng(2).normal(0.0, 3e-5, len(t))
        v = STROKE / 2 * np.sin(up) * 0.1 * np.maximum(t - 0.4, 0.0)
        rests = rests_of(prepare(recorded(x, held_one_way(v) + GAS + GAS_RATE * x)))
        assert list(rests.first).count(True) == 1
        assert rests.force[rests.first] == pytest.approx(GAS - GAS_RATE * STROKE / 2, abs=1.5)

    def test_that_before_the_first_motion_counts_by_itself_and_others_count_as_one(self):
        x, v = moved((0.1, 2), (0.3, 4), (0.2, 4), rest=0.5)
        record = prepare(recorded(x, 1000.0 * v + GAS))
        rests = rests_of(record)
        motion = find_motion(record, cut(x))
        rows = rows_of(record, motion.blocks, motion)[0]
        at_rest = held(rests, rows, 300.0, {})
        assert list(rests.first) == [True, False, False, False]
        assert list(at_rest.many) == [1.0, 3.0, 3.0, 3.0]
        assert list(rests.way) == [0.0, -1.0, -1.0, -1.0]
        size = [1.0 / row[0] for row in at_rest.rows([Effect("offset", np.ones(1), 1.0)], 1000.0)[0]]
        assert size[0] < 0.1 * min(size[1:])  # a valve that stands must not free it

    def test_it_tells_gas_that_pulls_from_a_valve_that_holds_one_way(self):
        """From the motion alone both explain one speed equally well, and differ by half of what the valve holds."""
        offsets = []
        for rest in (0.5, 0.0):
            x, v = moved((0.15, 8), rest=rest)
            offsets.append(condition(recorded(x, held_one_way(v) + 10.0 * np.tanh(v / 1e-3) + GAS + GAS_RATE * x)))
        told, alone = offsets
        assert told.offset == pytest.approx(GAS, abs=2.2 * told.offset_sd)
        assert abs(told.offset - GAS) < 0.85 * abs(alone.offset - GAS)

    def test_a_valve_without_bleed_passes_neither_for_gas_nor_surely_for_friction(self):
        """A leak and a preloaded stack: force stands from 5 mm/s on, three times as much in rebound."""
        x, v = moved(*((top, 3) for top in (0.012, 0.03, 0.08, 0.2)), rest=0.5)
        force = preloaded(v, 300.0, 900.0) + 7.0 * np.tanh(v / 1e-3) + GAS + GAS_RATE * x
        found = condition(recorded(x[::5], force[::5], rate=RATE / 5))
        assert found.offset == pytest.approx(GAS, abs=2.0 * found.offset_sd)
        assert found.offset_sd < 30.0
        assert found.friction == pytest.approx(7.0, abs=2.0 * found.friction_sd)

    def test_none_without_displacement(self):
        x, v = moved((0.3, 4), rest=0.5)
        channels = {"time": np.arange(len(x)) / RATE, "velocity": v, "force": 1000.0 * v}
        record = prepare(Sweep("trace", channels, Source("made.csv", "0" * 64), rate=RATE))
        assert not len(rests_of(record).force)


class TestSpeedsOfOneTurn:
    """A shop runs slow speeds for one turn: they tell most of gas and friction, and are used."""

    def test_all_that_moves_is_used_where_runs_are_short(self):
        x, v = moved((0.02, 1), (0.05, 1), (0.12, 2), (0.3, 5), rest=0.0)
        force = 2000.0 * v + 15.0 * np.tanh(v / 1e-3) + GAS + GAS_RATE * x
        found = condition(recorded(x, force))
        assert any("starting and stopping too" in line for line in found.findings)
        assert found.offset == pytest.approx(GAS, abs=5.0)
        assert found.friction == pytest.approx(15.0, abs=3.0)

    def test_a_lone_cycle_that_turns_evenly_is_steady_and_a_mixed_one_is_not(self):
        t = [np.arange(int(2.0 * np.pi * STROKE / 2 / top * many * RATE)) / RATE * top * 2.0 / STROKE
             for top, many in ((0.3, 4), (0.1, 1), (0.05, 1), (0.2, 4))]  # fmt: skip
        whole = np.concatenate([STROKE / 2 * np.sin(angle) for angle in t])
        x = np.concatenate([whole, STROKE / 2 * np.sin(np.linspace(0.0, 0.5 * np.pi, 120))])
        x = x + np.random.default_rng(6).normal(0.0, 1e-5, len(x))
        record = prepare(recorded(x, 500.0 * np.gradient(x) * RATE))
        blocks = find_motion(record, cut(x)).blocks
        lone = [block for block in blocks if block.cycles == 1]
        assert len(lone) == 2
        assert all(block.kind == "steady" for block in lone)
        mixed = np.concatenate([STROKE / 2 * np.sin(t[0]), -STROKE / 2 * np.cos(t[2]), -STROKE / 2 * np.cos(t[3])])
        blocks = find_motion(prepare(recorded(mixed, 500.0 * np.gradient(mixed) * RATE)), cut(mixed)).blocks
        assert any(block.cycles == 1 and block.kind == "irregular" for block in blocks)
