"""A load cell at its end: what it held there is no force, and the curve ends before it."""

from dataclasses import replace

import numpy as np
import pytest

from dynoan.analysis.fitting.fit import fit
from dynoan.model import clipped
from dynoan.model.clipped import held_at_end
from tests.worlds.rows import draw
from tests.worlds.with_dynoan import sweep_of


@pytest.fixture(scope="module")
def record():
    return draw("clean", 20400)


@pytest.fixture(scope="module")
def whole(record):
    """The curve of a cell that never came to its end."""
    return fit(sweep_of(record))


def clipped_at(record, share):
    sweep = sweep_of(record)
    force = sweep.channels["force"]
    end = share * float(force.max())
    return replace(sweep, channels={**sweep.channels, "force": np.minimum(force, end)}), end


def test_the_curve_ends_where_the_cell_did_and_holds_the_truth_below(record, whole):
    sweep, _ = clipped_at(record, 0.75)
    curve = fit(sweep)
    assert any("clipped at its top" in line for line in curve.warnings)
    assert curve.compression.top_speed < 0.95 * whole.compression.top_speed
    assert curve.rebound.top_speed == pytest.approx(whole.rebound.top_speed, rel=0.02)
    beyond = np.array([whole.compression.top_speed])
    assert curve.extrapolated(beyond)[0] > 0
    v = np.linspace(0.02, 0.97 * curve.compression.top_speed, 12)
    low, high = curve.band(v)
    truth = record.truth(v)
    assert np.mean((low <= truth) & (truth <= high)) > 0.9


def test_a_few_samples_held_are_enough_and_a_peak_is_none(record):
    force = sweep_of(record).channels["force"]
    assert held_at_end(force, float(force.max()), float(force.min())) is None
    end = float(np.sort(force)[-30])
    held = held_at_end(np.minimum(force, end), end, float(force.min()))
    assert held is None or np.count_nonzero(held) == 30


def test_what_the_file_and_the_fit_say_of_it_is_said_once(record):
    sweep, _ = clipped_at(record, 0.75)
    curve = fit(replace(sweep, warnings=("force is clipped: it is held at its highest value", "a remark of the file")))
    (said,) = (line for line in curve.warnings if "clipped" in line)
    assert "the curve ends before" in said
    assert "a remark of the file" in curve.warnings


@pytest.mark.parametrize("noise", [0.3, 1.5])
def test_an_amplifier_at_its_limit_is_seen_through_the_noise_behind_it(record, whole, noise):
    sweep, end = clipped_at(record, 0.75)
    force = sweep.channels["force"]
    force = force + np.random.default_rng(5).normal(0.0, noise, len(force))
    curve = fit(replace(sweep, channels={**sweep.channels, "force": force}))
    assert any("clipped at its top" in line for line in curve.warnings)
    assert curve.compression.top_speed < 0.95 * whole.compression.top_speed
    assert curve.total(np.array([curve.compression.top_speed]))[0] < 1.02 * end


@pytest.mark.parametrize("seed", range(6))
def test_chance_cuts_no_single_cycle_off(seed):
    """In one cycle of some hundred samples chance leaves a gap below the round top of one record in some hundred."""
    rng = np.random.default_rng(seed)
    for _ in range(150):
        samples = int(rng.integers(60, 600))
        velocity = np.sin(np.arange(samples) / samples * 2 * np.pi + rng.uniform(0, 6))
        force = 300 * np.tanh(velocity / rng.uniform(0.4, 2)) + 150 + rng.normal(0, rng.uniform(0.3, 3), samples)
        force = np.round(force, 1)
        for end, other in ((force.max(), force.min()), (force.min(), force.max())):
            assert clipped.clipped_at(force, float(end), float(other), None) is None


def test_a_cut_off_top_of_one_cycle_is_seen_all_the_same():
    velocity = np.sin(np.arange(200) / 200 * 2 * np.pi)
    force = np.minimum(400 * velocity, 330) + np.random.default_rng(1).normal(0, 0.3, 200)
    assert clipped.clipped_at(force, float(force.max()), float(force.min()), None) is not None


@pytest.mark.parametrize("over", [0.02, 0.05, 0.1, 0.2])
@pytest.mark.parametrize("noise", [0.0, 1.0])
def test_a_valve_that_levels_off_is_not_cut_off(over, noise):
    """A force that nears its top as tanh does lies as often a little as further below it."""
    velocity = 0.5 * np.sin(2 * np.pi * np.arange(4000) / 500)
    force = 800.0 * np.tanh(velocity / over) + np.random.default_rng(3).normal(0.0, noise, 4000)
    for end, other in ((force.max(), force.min()), (force.min(), force.max())):
        assert clipped.clipped_at(np.round(force, 1), float(np.round(end, 1)), float(np.round(other, 1)), None) is None


def test_the_last_count_of_a_coarse_converter_is_no_limit():
    """Ten bits hold the round top of a motion at one count for a while."""
    velocity = 0.5 * np.sin(2 * np.pi * np.arange(4000) / 500)
    force = np.round(600.0 * velocity / 4.9) * 4.9
    assert clipped.clipped_at(force, float(force.max()), float(force.min()), None) is None
