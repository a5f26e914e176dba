"""Velocity out of displacement: exact on lines, known on sines, the same in any unit, and nothing where nothing is."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from dynoan.model.motion import derived_velocity, eighth_of_cycle
from dynoan.model.record_motion import velocity
from dynoan.model.sweep import Source, Sweep

FEW = settings(max_examples=30, deadline=None)
TIME = np.arange(0.0, 2.0, 0.001)
SINE = 0.02 * np.sin(2 * np.pi * 3.0 * TIME)


@FEW
@given(st.floats(-5, 5), st.floats(-1, 1), st.integers(2, 300), st.floats(1e-4, 0.1))
def test_a_straight_line_has_its_slope(slope, start, count, step):
    x = start + slope * step * np.arange(count)
    np.testing.assert_allclose(derived_velocity(x, step), slope, rtol=1e-6, atol=1e-8 / step * 1e-6 + 1e-9)


def test_a_sine_keeps_its_peaks_and_its_turns():
    v = derived_velocity(SINE, 0.001)
    true = 0.02 * 2 * np.pi * 3.0 * np.cos(2 * np.pi * 3.0 * TIME)
    assert np.abs(v - true)[50:-50].max() < 0.01 * true.max()


@FEW
@given(st.integers(-20, 20), st.integers(-10, 10))
def test_units_of_length_and_time_go_through(length, time):
    one, other = 2.0**length, 2.0**time  # powers of two, so that nothing is rounded
    expected = derived_velocity(SINE, 0.001) * one / other
    np.testing.assert_array_equal(derived_velocity(SINE * one, 0.001 * other), expected)
    assert eighth_of_cycle(SINE * one) == eighth_of_cycle(SINE)


def test_an_eighth_of_a_cycle_is_that_of_the_frequency_whatever_the_noise_at_rest():
    assert eighth_of_cycle(SINE) == pytest.approx(1000 / 3 / 8, abs=1.5)
    noise = np.random.default_rng(0).normal(0, 2e-5, len(SINE))
    assert eighth_of_cycle(SINE + noise) == pytest.approx(1000 / 3 / 8, abs=1.5)
    assert eighth_of_cycle(np.concatenate([np.zeros(2000), SINE + noise])) == pytest.approx(1000 / 3 / 8, abs=1.5)


@pytest.mark.parametrize("x", [[], [1.0], [0.0] * 8, [np.nan] * 50, [0.0] * 500, [np.inf] * 20])
def test_what_does_not_move_has_an_eighth_too(x):
    assert 1 <= eighth_of_cycle(np.array(x)) <= max(1, len(x))


def test_a_missing_sample_has_no_velocity_and_its_neighbours_keep_theirs():
    x = 0.5 * 0.001 * np.arange(200.0)
    x[[50, 51, 120]] = np.nan
    v = derived_velocity(x, np.full(200, 0.001))
    assert np.flatnonzero(np.isnan(v)).tolist() == [50, 51, 120]
    np.testing.assert_allclose(v[np.isfinite(v)], 0.5, rtol=1e-9)


@pytest.mark.parametrize("count", [1, 5, 100])
def test_a_record_with_nothing_in_it_has_no_velocity(count):
    assert np.isnan(derived_velocity(np.full(count, np.nan), 0.001)).all()


def test_missing_ends_bend_nothing():
    x = 0.5 * 0.001 * np.arange(200.0)
    x[:20], x[-7:] = np.nan, np.nan
    v = derived_velocity(x, 0.001)
    assert np.flatnonzero(np.isfinite(v)).tolist() == list(range(20, 193))
    np.testing.assert_allclose(v[20:193], 0.5, rtol=1e-9)


def test_a_record_with_lost_samples_is_as_smooth_as_whole():
    random = np.random.default_rng(5)
    time = np.arange(3000) * 0.01
    x = 0.02 * np.arcsin(np.sin(2 * np.pi * 0.15 * time)) + 1e-4 * random.standard_normal(len(time))
    source = Source("made.csv", "", "text")
    kept = np.sort(random.choice(len(time), len(time) - 40, replace=False))
    channels = {"time": time, "displacement": x, "force": x}
    whole, holed = (
        np.nanmax(np.abs(velocity(Sweep("trace", {c: v[k] for c, v in channels.items()}, source, rate=100.0))))
        for k in (slice(None), kept)
    )
    assert holed < 1.3 * whole
