"""Every row draws, is finite and repeats; the scorer counts as it says."""

from __future__ import annotations

from zlib import crc32

import numpy as np
import pytest
from numpy.testing import assert_allclose

from tests.worlds.quick import rows
from tests.worlds.rows import BY_NAME, ROWS, draw
from tests.worlds.score import Band, Estimate, grid, outcome, score, table
from tests.worlds.valves import FloatArray
from tests.worlds.world import Record, World, extremes


def channels(one: Record) -> list[FloatArray]:
    peaks = one.peaks
    return [one.time, one.displacement, one.force] if peaks is None else [peaks.speed, peaks.compression, peaks.rebound]


def world_of(row: str, seed: int) -> World:
    return BY_NAME[row].build(np.random.default_rng([crc32(row.encode()), seed]))


class TestRows:
    @pytest.mark.thorough
    @pytest.mark.parametrize("row", rows())
    def test_row_draws_finite_records_that_repeat(self, row: str):
        one, again, other = draw(row, 0), draw(row, 0), draw(row, 1)
        for first, second in zip(channels(one), channels(again), strict=True):
            np.testing.assert_array_equal(first, second)
        for drawn in (one, other):
            assert all(np.all(np.isfinite(channel)) for channel in channels(drawn))
            assert np.all(np.diff(channels(drawn)[0]) > 0.0)
            assert np.all(np.isfinite(drawn.truth(grid(drawn))))
            assert grid(drawn).size > 20
        assert not np.array_equal(one.truth([0.1, -0.1]), other.truth([0.1, -0.1]))

    def test_names_are_unique(self):
        assert len(BY_NAME) == len(ROWS)

    def test_peaks_hold_gas_and_friction(self):
        one = draw("peaks gas stated", 0)
        v = one.peaks.speed
        assert_allclose(one.peaks.compression, one.truth(v) + one.friction(v) + one.gas(0.0), rtol=0.05)
        assert np.all(draw("peaks magnitudes", 0).peaks.rebound >= 0.0)

    def test_highest_force_of_a_cycle_is_no_less_than_that_at_its_peak_speed(self):
        world = world_of("peaks extreme", 0)
        for speed in world.motion.peaks_m_s:
            mid = world.valve(speed) + world.friction.steady(speed, world.valve(speed)) + world.gas.kept(0.0)
            assert extremes(world, speed)[0] >= mid * (1.0 - 1e-9)

    def test_stated_charge_pressure_gives_the_gas_force_at_the_extended_end(self):
        one, world = draw("peaks gas stated", 3), world_of("peaks gas stated", 3)
        force = one.stated.gas_gauge_pa * 0.25 * np.pi * one.stated.rod_m**2
        assert_allclose(force, one.gas(-world.motion.half_stroke_m), rtol=0.06)  # two digits on the gauge


class TestScore:
    @staticmethod
    def fit(off: float, half: float):
        def offset(record):
            def band(v: FloatArray) -> Band:
                value = record.truth(v) + off * np.where(v > 0, 1.0, -1.0)
                return Band(value, value - half, np.where(v > 0.2, np.nan, value + half))

            return Estimate(damping=band)

        return offset

    def test_counts(self):
        one = draw("clean", 0)
        wide, narrow = (outcome(one, self.fit(10.0, half)(one)) for half in (15.0, 5.0))
        none = outcome(one, Estimate(refused="cannot tell"))
        good, bad = score("a", [wide, wide, none]), score("b", [narrow])
        assert (good.held, bad.held) == (1.0, 0.0)
        assert_allclose((good.refused, good.width, bad.width), (1 / 3, 1.5, 0.5))
        assert_allclose(good.rms, 10.0 / np.ptp(one.truth(grid(one))))
        assert_allclose(good.silent, np.mean(grid(one) > 0.2))
        assert not bad.honest()
        assert table([good, bad]).count("\n") == 3

    def test_width_is_held_against_the_rare_error_not_the_usual_one(self):
        one, v = draw("clean", 0), grid(draw("clean", 0))
        errors = np.where(np.arange(v.size) % 10 == 0, 30.0, 1.0)
        truth = one.truth(v)
        estimate = Estimate(damping=lambda _: Band(truth + errors, truth - 30.0, truth + 30.0))
        assert_allclose(score("a", [outcome(one, estimate)]).width, 1.0)

    def test_a_row_that_is_refused_throughout_has_no_figures(self):
        none = score("a", [outcome(draw("clean", 0), Estimate(refused="cannot tell"))])
        assert none.refused == 1.0
        assert np.isnan(none.held)
        assert np.isnan(none.width)
