"""Even steps of time from clocks and encoders."""

from __future__ import annotations

import numpy as np
import pytest

from dynoan.analysis.conditioning.channels.timing import evened
from tests.worlds.rows import draw
from tests.worlds.with_dynoan import fit

GOOD = np.ones(400, dtype=bool)


def encoder() -> tuple[np.ndarray, np.ndarray]:
    """Return times of 20 samples a turn, ten turns at 1 Hz and ten at 5 Hz, and the angle in turns."""
    turns = np.arange(400) / 20
    return np.where(turns < 10, turns, 10 + (turns - 10) / 5), turns


class TestEvened:
    def test_a_clock_is_left_as_it_is(self):
        force = np.arange(400.0)
        even = evened(np.arange(400) * 0.001, None, [force, None], GOOD)
        assert even.dt == pytest.approx(0.001)
        assert even.channels[0] is force
        assert even.own.all()

    def test_what_an_encoder_recorded_stands_where_it_was_and_counts_alone(self):
        time, turns = encoder()
        even = evened(time, None, [np.sin(2 * np.pi * turns)], GOOD)
        assert even.dt == pytest.approx(0.005)
        assert int(even.own.sum()) == 400
        grid = time[0] + even.dt * np.arange(len(even.own))
        angle = np.interp(grid, time, turns)
        # Straight lines between 20 samples a turn would be off by 0.012.
        slow = angle < 9.5
        assert np.max(np.abs(even.channels[0] - np.sin(2 * np.pi * angle))[slow]) < 5e-4
        assert even.good.all()

    def test_a_pause_of_the_encoder_is_a_gap(self):
        time, turns = encoder()
        late = time + np.where(turns > 5, 3.0, 0.0)
        even = evened(late, None, [turns], GOOD)
        grid = late[0] + even.dt * np.arange(len(even.good))
        gap = (grid > 5.05) & (grid < 7.9)
        assert not even.good[gap].any()
        assert even.good[~((grid > 4.9) & (grid < 8.1))].all()

    def test_a_clock_that_shakes_is_no_encoder(self):
        time = np.cumsum(np.random.default_rng(3).uniform(0.0005, 0.0015, 400))
        even = evened(time, None, [time], GOOD)
        assert even.own.all()
        assert even.dt == pytest.approx(0.001, rel=0.1)

    def test_time_that_runs_backward_is_said(self):
        time = np.arange(400) * 0.001
        time[7] = 0.0
        even = evened(time, 500.0, [time], GOOD)
        assert even.dt == pytest.approx(0.002)
        assert "backward" in even.notes[0]


@pytest.mark.thorough
def test_a_curve_of_few_samples_a_turn_lies_on_the_valve():
    """12 to 40 samples in every turn, speeds far apart; straight lines between them left errors of 3 % here."""
    record = draw("coarse encoder", 9002)
    v = np.array([-0.3, -0.1, -0.05, 0.05, 0.1, 0.3])
    v = v[np.abs(v) < 0.95 * record.covered[1]]
    error = fit(record).damping(v).value - record.truth(v)
    assert np.max(np.abs(error)) < 0.015 * np.ptp(record.truth(v))
