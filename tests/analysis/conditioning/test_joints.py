"""Records put together from cycles of several runs, and travel in coarse steps."""

from dataclasses import replace

import numpy as np
import pytest

from dynoan.analysis.conditioning.channels.blocks import cut
from dynoan.analysis.conditioning.channels.joints import cut_at, joints
from dynoan.analysis.conditioning.channels.record import prepare
from dynoan.analysis.fitting.fit import fit
from dynoan.model.sweep import Source, Sweep

RATE, STROKE = 500.0, 0.0125
SPEEDS = (0.05, 0.1, 0.2, 0.4)


def force_at(v):
    return np.where(v > 0, 900.0, 1600.0) * v / (1.0 + np.abs(v) / 0.4)


def cycles(phases, count=1, rate=RATE):
    """Return time, displacement and velocity of whole cycles of each speed, begun anywhere in the turn."""
    x, v = [], []
    for speed, phase in zip(SPEEDS, phases, strict=True):
        omega = speed / STROKE
        t = np.arange(round(count * 2 * np.pi / omega * rate)) / rate
        x.append(STROKE * np.sin(omega * t + phase))
        v.append(speed * np.cos(omega * t + phase))
    x, v = np.concatenate(x), np.concatenate(v)
    return np.arange(len(x)) / rate, x, v


def sweep(time, x, v, gas=120.0, friction=15.0):
    force = force_at(v) + friction * np.tanh(v / 0.001) + gas + 900.0 * x
    force = force + np.random.default_rng(4).normal(0.0, 0.5, len(force))
    source = Source("run.csv", "0" * 64, "", "")
    return Sweep("trace", {"time": time, "displacement": x, "force": force}, source, rate=1.0 / (time[1] - time[0]))


@pytest.fixture(scope="module")
def pasted():
    return cycles((0.0, 2.0, 4.5, 1.0))


def test_a_jump_of_displacement_begins_another_stretch(pasted):
    _, x, _ = pasted
    found = joints(x)
    lengths = [round(2 * np.pi * STROKE / speed * RATE) for speed in SPEEDS]
    assert list(found) == list(np.cumsum(lengths)[:-1])
    assert cut_at((), found, len(x)) == tuple(
        (int(a), int(b)) for a, b in zip([0, *found], [*found, len(x)], strict=True)
    )
    assert cut_at(((0, 10), (20, 40)), np.array([30]), 40) == ((0, 10), (20, 30), (30, 40))


@pytest.mark.parametrize("samples", [12, 40, 400])
def test_motion_however_coarse_has_no_joint_nor_a_row_off_its_place(samples):
    x = STROKE * np.sin(2 * np.pi * np.arange(8 * samples) / samples)
    assert not len(joints(x))
    x[3 * samples] += 0.01
    assert not len(joints(x))


def test_one_cycle_a_speed_pasted_anyhow_is_read_as_its_cycles(pasted):
    curve = fit(sweep(*pasted))
    assert any("displacement jumps at 3 rows" in line for line in curve.findings)
    assert any("4 cycles in 4 blocks" in line for line in curve.findings)
    v = np.array([0.05, 0.1, 0.25, -0.05, -0.1, -0.25])
    low, high = curve.band(v)
    assert np.all((low <= force_at(v)) & (force_at(v) <= high))
    assert np.all(high - low < 0.12 * np.abs(force_at(v)) + 25.0)


def test_travel_in_coarse_steps_at_a_high_rate_shows_a_crank_all_the_same():
    time, x, v = cycles((0.0, 0.0, 0.0, 0.0), count=4, rate=4000.0)
    one = sweep(time, x, v)
    coarse = replace(one, channels={**one.channels, "displacement": np.round(x / 2.54e-4) * 2.54e-4})
    assert prepare(coarse).displacement_noise >= 2.5e-4 / np.sqrt(12.0)
    curve = fit(coarse)
    assert any("from a crank motion fitted to each block" in line for line in curve.findings)
    at = np.array([0.05, 0.1, 0.25, -0.05, -0.1, -0.25])
    low, high = curve.band(at)
    assert np.all((low <= force_at(at)) & (force_at(at) <= high))


@pytest.mark.parametrize("phase", [0.0, 0.5 * np.pi, np.pi, 1.5 * np.pi])
def test_one_cycle_a_speed_from_the_machines_mark_is_cut_at_it(phase):
    """Kept cycles begin at the middle or at a turn, wherever the mark is; displacement shows no joint there."""
    time, x, v = cycles((phase,) * len(SPEEDS))
    assert not len(joints(x))
    curve = fit(sweep(time, x, v))
    assert any("4 cycles in 4 blocks" in line for line in curve.findings)
    at = np.array([0.05, 0.1, 0.25, -0.05, -0.1, -0.25])
    low, high = curve.band(at)
    assert np.all((low <= force_at(at)) & (force_at(at) <= high))


def test_samples_whose_time_trembles_show_a_crank_all_the_same():
    time, x, v = cycles((0.0,) * len(SPEEDS))
    trembling = x + v * np.random.default_rng(2).normal(0.0, 1e-4, len(x))
    curve = fit(sweep(time, trembling, v))
    assert any("from a crank motion fitted to each block" in line for line in curve.findings)


def test_a_chirp_has_no_cycles_of_one_speed():
    t = np.arange(6000) / RATE
    omega = 2.0 + 0.8 * t
    turn = 2.0 * t + 0.4 * t**2
    curve = fit(sweep(t, STROKE * np.sin(turn), STROKE * omega * np.cos(turn)))
    assert any("no run of cycles at constant speed" in line for line in curve.findings)


def test_a_stretch_of_one_sample_holds_no_cycle():
    x = np.concatenate([[STROKE], STROKE * np.sin(np.arange(400) / 20.0)])
    assert all(block.start for block in cut(x, ((0, 1), (1, len(x)))))
