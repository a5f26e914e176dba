"""Velocity, histograms, knees, energy and stroke ends of logged travel, against motions that are known exactly."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from dynoan.analysis.travel import assumptions as taken
from dynoan.analysis.travel import start
from dynoan.analysis.travel import summary as tr
from dynoan.analysis.travel.assumptions import WIDEST
from dynoan.analysis.travel.velocity import shock_motion
from dynoan.errors import QuantityError
from dynoan.model.side import Knee
from tests.analysis.launch_cars import linear_curve

RATE = 500.0
TIME = np.arange(0.0, 8.0, 1 / RATE)
AMPLITUDE = 0.02
OMEGA = 2 * np.pi * 1.9371
CYCLES = 16  #: crests in the record


def sine(noise=0.0, seed=0):
    x = AMPLITUDE * np.sin(OMEGA * TIME)
    return x + np.random.default_rng(seed).normal(0, noise, len(x))


def kneed(coefficient=2000.0, knee=0.1):
    curve = linear_curve(coefficient)
    one = (Knee(knee, knee * 0.9, knee * 1.1, coefficient * knee),)
    return replace(curve, compression=replace(curve.compression, knees=one), rebound=replace(curve.rebound, knees=one))


class TestVelocity:
    def test_a_clean_sine_keeps_its_peaks(self):
        found = shock_motion(TIME, sine())
        assert found.velocity.max() == pytest.approx(AMPLITUDE * OMEGA, rel=1e-3)

    @pytest.mark.parametrize("noise", [2e-5, 1e-4, 4e-4])
    def test_noise_widens_the_window_and_leaves_little(self, noise):
        found = shock_motion(TIME, sine(noise))
        true = AMPLITUDE * OMEGA * np.cos(OMEGA * found.time)
        error = np.sqrt(np.mean((found.velocity - true) ** 2))
        narrow = shock_motion(TIME, sine(noise), window=5 / RATE)
        assert found.smoothing.samples > 5
        loose = narrow.velocity - AMPLITUDE * OMEGA * np.cos(OMEGA * narrow.time)
        assert error < 0.5 * np.sqrt(np.mean(loose**2))
        assert error < 2.0 * found.smoothing.noise
        assert found.smoothing.travel_noise == pytest.approx(noise, rel=0.1)

    def test_fast_motion_keeps_the_window_narrow(self):
        fast = 0.01 * np.sin(2 * np.pi * 14.0 * TIME)
        noisy = fast + np.random.default_rng(1).normal(0, 1e-4, len(fast))
        found = shock_motion(TIME, noisy)
        assert found.velocity.max() > 0.95 * 0.01 * 2 * np.pi * 14.0
        assert found.smoothing.window <= WIDEST

    def test_the_stated_cutoff_is_where_velocity_is_3_db_low(self):
        found = shock_motion(TIME, sine(2e-4))
        w = 2 * np.pi * found.smoothing.cutoff
        tone = 1e-4 * np.sin(w * TIME)
        same = shock_motion(TIME, tone, window=found.smoothing.window)
        middle = same.velocity[100:-100]
        assert np.sqrt(2 * np.mean(middle**2)) / (1e-4 * w) == pytest.approx(np.sqrt(0.5), rel=0.02)

    def test_a_logger_that_writes_whole_steps_is_noisy_by_them(self):
        found = shock_motion(TIME, np.round(sine() / 5e-4) * 5e-4)
        assert found.smoothing.travel_noise == pytest.approx(5e-4 / np.sqrt(12), rel=0.3)

    def test_gaps_are_left_out_and_not_bridged(self):
        keep = (TIME < 3.0) | (TIME > 4.1)
        found = shock_motion(TIME[keep], sine()[keep])
        assert found.gaps == 1
        assert np.abs(found.velocity).max() < 1.02 * AMPLITUDE * OMEGA
        assert not np.any((found.time > 3.01) & (found.time < 4.09))

    def test_missing_values_are_a_gap(self):
        holed = sine()
        holed[1000:1500] = np.nan
        assert shock_motion(TIME, holed).gaps == 1

    def test_time_that_jitters_is_made_even(self):
        jitter = TIME + np.random.default_rng(3).uniform(-0.3, 0.3, len(TIME)) / RATE
        found = shock_motion(jitter, AMPLITUDE * np.sin(OMEGA * jitter))
        np.testing.assert_allclose(np.diff(found.time), found.step, rtol=1e-9)
        assert found.velocity.max() == pytest.approx(AMPLITUDE * OMEGA, rel=0.02)

    @pytest.mark.parametrize(
        ("time", "window"), [(TIME[:10], None), (TIME[::-1], None), (TIME, 0.002), (np.full(len(TIME), 1.0), None)]
    )
    def test_what_gives_no_velocity_is_refused(self, time, window):
        with pytest.raises(QuantityError):
            shock_motion(time, sine()[: len(time)], window=window)


class TestCorner:
    def whole(self, **kw):
        return tr.corner_travel("fl", shock_motion(TIME, sine()), (), **kw).parts["all"]

    def test_histogram_is_the_arcsine_law_of_a_sine(self):
        """The time a sine spends below a speed v is 2/π·asin(v/V), derived from its definition."""
        part = self.whole()
        edges, share = part.histogram.edges, part.histogram.share
        assert share.sum() == pytest.approx(1.0)
        inside = np.abs((edges[1:] + edges[:-1]) / 2) < 0.1
        expected = 2 / np.pi * np.arcsin(0.1 / (AMPLITUDE * OMEGA))
        assert share[inside].sum() == pytest.approx(expected, rel=0.01)

    def test_time_about_a_knee(self):
        part = self.whole(curve=kneed())
        peak = AMPLITUDE * OMEGA
        for knee in part.knees:
            still = taken.LEAST_STILL / peak
            moving = np.pi / 2 - np.arcsin(still)
            above = (np.pi / 2 - np.arcsin(0.1 / peak)) / moving
            assert knee.above == pytest.approx(above, rel=0.02)
            assert knee.below + knee.above == pytest.approx(1.0)
        assert {k.direction for k in part.knees} == {"compression", "rebound"}

    def test_energy_of_a_linear_damper_is_pi_c_omega_x_squared(self):
        """Energy a cycle of a linear damper in a sine, π·c·ω·X² (S. S. Rao, Mechanical Vibrations, viscous damping)."""
        part = self.whole(curve=kneed(2000.0))
        cycles = TIME[-1] * OMEGA / (2 * np.pi)
        expected = np.pi * 2000.0 * OMEGA * AMPLITUDE**2 * cycles
        assert sum(r.energy for r in part.ranges) == pytest.approx(expected, rel=0.005)
        assert sum(r.share for r in part.ranges) == pytest.approx(1.0)
        assert len(part.ranges) == 4

    def test_a_flipped_log_swaps_the_directions(self):
        lopsided = AMPLITUDE * np.sin(OMEGA * TIME) + 0.003 * np.sin(2 * OMEGA * TIME)
        up, down = (tr.corner_travel("fl", shock_motion(TIME, s * lopsided), ()).parts["all"] for s in (1, -1))
        assert up.peak["compression"] == pytest.approx(down.peak["rebound"])
        assert up.deepest == pytest.approx(down.longest)
        assert up.peak["compression"] != pytest.approx(up.peak["rebound"], rel=0.01)

    def test_ends_of_the_stroke_are_counted(self):
        part = self.whole(ends=tr.StrokeEnds(bump=AMPLITUDE, droop=AMPLITUDE * 2))
        assert part.bottomed.times == CYCLES
        inside = 2 * np.arccos(1 - taken.NEAR / AMPLITUDE) / OMEGA
        assert part.bottomed.seconds == pytest.approx(CYCLES * inside, rel=0.05)
        assert part.topped == (0, 0.0)

    def test_ends_that_nobody_stated_cannot_be_told(self):
        assert self.whole().bottomed is None

    def test_parts_and_the_rest_cover_the_run_once(self):
        found = tr.corner_travel("fl", shock_motion(TIME, sine()), (tr.LogPart("launch", 1.0, 3.0),))
        assert set(found.parts) == {"all", "launch", "the rest"}
        launch, rest, whole = (found.parts[n] for n in ("launch", "the rest", "all"))
        assert launch.seconds == pytest.approx(2.0, abs=0.01)
        assert launch.seconds + rest.seconds == pytest.approx(whole.seconds)

    def test_a_part_outside_the_log_is_refused(self):
        with pytest.raises(QuantityError, match="holds nothing"):
            tr.corner_travel("fl", shock_motion(TIME, sine()), (tr.LogPart("late", 100.0, 101.0),))

    def test_speeds_beyond_the_tests_are_told(self):
        curve = linear_curve(2000.0, top=0.1)
        assert self.whole(curve=curve).beyond_tested == pytest.approx(1 - 2 / np.pi * np.arcsin(0.1 / 0.2513), rel=0.02)

    def test_a_shock_at_rest_stands_still(self):
        rest = np.random.default_rng(0).normal(0, 5e-5, len(TIME))
        part = tr.corner_travel("rl", shock_motion(TIME, rest), ()).parts["all"]
        assert part.still > 0.98


class TestStart:
    def test_by_speed(self):
        speed = np.maximum(TIME - 2.0, 0.0) * 4.0
        assert start.start_from_speed(TIME, speed) == pytest.approx(2.0 + taken.ROLLING / 4.0, abs=0.01)

    def test_a_car_that_never_stands_does_not_start(self):
        assert start.start_from_speed(TIME, np.full(len(TIME), 20.0)) is None

    def test_by_the_shocks(self):
        x = np.where(TIME < 3.0, 0.0, sine())
        noisy = x + np.random.default_rng(0).normal(0, 3e-5, len(x))
        assert start.start_from_shocks([shock_motion(TIME, noisy)]) == pytest.approx(3.0, abs=0.1)

    def test_shocks_that_move_from_the_beginning_tell_no_start(self):
        assert start.start_from_shocks([shock_motion(TIME, sine())]) is None

    def test_zero_is_what_stood_before_the_start(self):
        x = np.where(TIME < 2.0, 0.06, 0.08)
        assert start.at_rest(TIME, x, 2.0) == (pytest.approx(0.06), "the median before the start")
        assert start.at_rest(TIME, x, None) == (pytest.approx(0.08), "the median of the whole log")

    def test_the_launch_begins_a_little_before_the_car_rolls(self):
        part = start.launch_part(2.0)
        assert (part.name, part.start, part.end) == ("launch", 2.0 - taken.BEFORE, 2.0 + taken.LAUNCH)
