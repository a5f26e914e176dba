"""By how much launches differ: what both have in common drops out, and the limits hold the truth 19 times of 20."""

from __future__ import annotations

import numpy as np
import pytest

from dynoan.analysis.launch.compare import LaunchRun
from dynoan.analysis.launch.differences import difference

KEY = "distance_m"


def made(mean, roads=(), levels=(), low=None, high=None, of_car=()):
    return LaunchRun(
        "", {KEY: mean}, {KEY: mean if low is None else low}, {KEY: mean if high is None else high}, {},
        roads={KEY: np.array(roads)} if len(roads) else {}, levels={KEY: np.array(levels)} if len(levels) else {},
        of_car={KEY: np.array(of_car)} if len(of_car) else {},
    )  # fmt: skip


class TestRoads:
    def test_what_a_road_does_to_both_drops_out(self):
        roads = np.random.default_rng(1).normal(13.0, 0.5, 12)
        found = difference(made(13.0, roads), made(13.02, roads + 0.02), KEY, paired=False)
        assert (found.value, found.low, found.high) == pytest.approx((0.02, 0.02, 0.02))

    def test_the_limits_hold_the_mean_over_all_roads_19_times_of_20(self):
        """Roads that scatter by half a metre and move two settings apart by 3 cm, give or take 2 cm."""
        random, held = np.random.default_rng(8608), 0
        for _ in range(1000):
            roads = random.normal(13.0, 0.5, 12)
            other = roads + random.normal(0.03, 0.02, 12)
            found = difference(made(roads.mean(), roads), made(other.mean(), other), KEY, paired=False)
            held += found.low <= 0.03 <= found.high
        assert 0.93 <= held / 1000 <= 0.97

    def test_without_a_road_it_is_the_difference(self):
        found = difference(made(4.0), made(4.5), KEY, paired=False)
        assert (found.value, found.low, found.high) == pytest.approx((0.5, 0.5, 0.5))


class TestCurves:
    def test_bands_of_two_curves_add_their_squares(self):
        one, two = made(10.0, low=9.7, high=10.3), made(11.0, low=10.6, high=11.4)
        found = difference(one, two, KEY, paired=False)
        assert (found.value, found.low, found.high) == pytest.approx((1.0, 0.5, 1.5))

    def test_the_same_curves_move_both(self):
        one, two = made(10.0, levels=(10.0, 9.7, 10.3)), made(11.0, levels=(11.0, 10.6, 11.2))
        found = difference(one, two, KEY, paired=True)
        assert (found.low, found.high) == pytest.approx((0.9, 1.0))


class TestCar:
    def test_a_value_that_moves_both_alike_leaves_nothing_open(self):
        one, two = (made(m, of_car=[[-0.4, 0.4]], low=m, high=m) for m in (10.0, 11.0))
        found = difference(one, two, KEY, paired=False)
        assert (found.low, found.high) == pytest.approx((1.0, 1.0))

    def test_one_that_moves_them_apart_does(self):
        one, two = made(10.0, of_car=[[-0.4, 0.4]]), made(11.0, of_car=[[-0.5, 0.7]])
        found = difference(one, two, KEY, paired=False)
        assert (found.low, found.high) == pytest.approx((0.7, 1.3))


def test_a_figure_that_a_run_lacks_has_no_difference():
    assert difference(made(np.nan), made(1.0), KEY, paired=False) is None
