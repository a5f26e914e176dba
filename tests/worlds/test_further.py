"""Further effects by themselves, against what they are said to be."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from tests.benchmarks.bench_worlds import GROUPS, group_of
from tests.worlds.further import Further, lagged, void_factor, without
from tests.worlds.motions import FINE_HZ, Motion, run
from tests.worlds.rigs import Samples, Spring, through_spring
from tests.worlds.rows import ROWS

TIME = np.arange(0.0, 2.0, 1.0 / FINE_HZ)
X, V = -0.02 * np.cos(2 * np.pi * TIME), 0.04 * np.pi * np.sin(2 * np.pi * TIME)


def test_every_kind_of_record_stands_in_a_group():
    assert {group_of(row.name) for row in ROWS} == set(GROUPS)


def test_a_void_of_fast_rebound_is_closed_by_as_much_compression():
    factor = void_factor(V, 0.1, 0.05, 1.0 / FINE_HZ)
    assert np.all(factor[V < 0] == 1.0)
    assert np.all(factor[TIME < 0.5] == 1.0)
    grown = 0.05 * np.sum(np.maximum(-V[TIME < 1.0] - 0.1, 0.0)) / FINE_HZ
    assert np.sum(V[factor < 1.0]) / FINE_HZ == pytest.approx(grown, abs=2e-5)


def test_a_lag_by_a_share_is_of_first_order():
    step = lagged(np.concatenate([[0.0], np.ones(2000)]), 1.0 / 500.0)
    assert step[500] == pytest.approx(1.0 - np.exp(-1.0), abs=2e-3)


def test_a_tapered_bleed_has_its_mean_at_mid_stroke_and_is_none_at_high_force():
    low, high = (Further(taper=0.2, taper_n=100.0).shaped(np.full_like(X, f), X, V) for f in (10.0, 1000.0))
    assert low.max() / 10.0 == pytest.approx(1.2, abs=0.01)
    assert low.mean() / 10.0 == pytest.approx(1.0, abs=1e-3)
    assert np.all(high == pytest.approx(1000.0))


def test_a_soft_rod_side_gives_in_rebound_alone():
    table = np.array([[-1.0, 0.0, 1.0], [-1000.0, 0.0, 1000.0]])
    spring = Spring(1e7, rebound=0.1)
    values = (spring.stiffness_n_m, spring.air, spring.charge_n, spring.rebound)
    up, down = (
        int(np.argmax(np.abs(through_spring(v, np.ones(500), table, values, 1.0 / FINE_HZ)) > 63.2))
        for v in (np.full(500, 0.1), np.full(500, -0.1))
    )
    assert down > 3 * max(up, 1)


def test_a_dwell_is_held_however_long_it_takes():
    slow = run(Motion((0.05, 0.1), dwell=1.5, change_s=0.1))
    turns = 1.5 * 2 + 0.1 * (0.05 + 0.075 + 0.1) / (2 * np.pi * 0.025) * 1.0
    assert slow.turns[-1] == pytest.approx(turns, abs=0.1)


def test_lost_samples_leave_a_gap_in_a_clock_that_goes_on_and_none_in_one_that_counts():
    samples = Samples(TIME, X, V, None, 0.0)
    kept = (TIME < 0.5) | (TIME > 1.0)
    on, counted = (without(samples, kept, goes_on=goes) for goes in (True, False))
    assert np.diff(on.time).max() == pytest.approx(0.5, abs=1e-3)
    assert np.diff(counted.time).max() == pytest.approx(1.0 / FINE_HZ)
    np.testing.assert_array_equal(on.displacement, counted.displacement)
    assert replace(on, time=counted.time).time.size == int(kept.sum())
