"""Frequency, ratio and friction of decays, against published figures and made corners."""

from __future__ import annotations

from dataclasses import replace
from types import SimpleNamespace
from unittest.mock import patch

import numpy as np
import pytest

from dynoan.analysis.bounce.assumptions import LET_GO_ACCELERATION, REST_ACCELERATION
from dynoan.analysis.bounce.axis import upward
from dynoan.analysis.bounce.decrement import decrement
from dynoan.analysis.bounce.figures import free_frequency, frequency_and_ratio
from dynoan.analysis.bounce.finding import free_swings
from dynoan.analysis.bounce.fitting import _without_hands, fit_swings
from dynoan.analysis.bounce.judging import bounce_verdict, held
from dynoan.analysis.bounce.predicting import MadeCorner, MadePushes, made_log, predicted_fit, pushes_like
from dynoan.analysis.bounce.problem import KnownCorner, Logged
from dynoan.analysis.bounce.pushes import Swing, swings
from dynoan.analysis.sensors.clipping import clipped
from dynoan.errors import FitError, QuantityError
from dynoan.model.banded import Banded
from tests.checks import check
from tests.often import often
from tests.oracles.dry_decay import dry_decay
from tests.worlds.track.decays import decay
from tests.worlds.track.published import damped_and_dry, linear_quarter_car


def pushed(time, travel, hold=0.5):
    """A log that stands, is held at the first travel, then let go."""
    step = time[1] - time[0]
    still, held_at = np.zeros(round(1.0 / step)), np.full(round(hold / step), travel[0])
    values = np.concatenate([still, held_at, travel])
    return np.arange(len(values)) * step, values


# Peaks alone


def test_pull_and_release():
    published = check("kE01")
    given = published.inputs
    found = decrement(np.array([given["pull_m"], given["next_peak_m"]]))
    assert found.delta == pytest.approx(published.expected[1], rel=1e-6), published.source
    assert found.ratio == pytest.approx(published.expected[2], rel=1e-6), published.source


def test_peaks_ten_cycles_apart():
    published = check("kE02")
    found = decrement(np.array([published.inputs["first"], published.inputs["eleventh"]]), published.inputs["cycles"])
    assert found.ratio == pytest.approx(published.expected[1], rel=1e-6), published.source
    assert found.delta / 2 / np.pi == pytest.approx(published.expected[0], rel=1e-6), published.source


def test_deflections_five_cycles_apart():
    published = check("kE03")
    found = decrement(np.array([published.inputs["y0_m"], published.inputs["y5_m"]]), published.inputs["cycles"])
    assert found.delta / 2 / np.pi == pytest.approx(published.expected[1], rel=1e-6), published.source


def test_four_read_peaks_by_least_squares():
    published = check("kE04")
    found = decrement(np.array(published.inputs["peaks"], float))
    assert [found.delta, found.ratio] == pytest.approx(published.expected[:2], rel=1e-6), published.source


def test_three_extremes_tell_damping_from_friction():
    published = check("kE08")
    given, peaks = published.inputs, published.expected
    found = dry_decay(*peaks[:3])
    assert found.ratio == pytest.approx(given["damping_ratio"], rel=1e-6), published.source
    assert found.offset == pytest.approx(given["friction_n"] / given["stiffness_n_m"], rel=1e-6)


def test_peaks_must_fall():
    with pytest.raises(QuantityError, match="falls from peak to peak"):
        dry_decay(1.0, 1.1, 0.5)
    with pytest.raises(QuantityError, match="two peaks"):
        decrement(np.array([1.0]))


# The whole decay


def test_a_quarter_car_shows_its_eigenvalue():
    """The body's ratio is 0.257, not the nominal 0.30 of the mass on its spring alone."""
    published = check("kE10")
    given = published.inputs
    time, travel = pushed(*linear_quarter_car(given))
    known = KnownCorner(given["tyre_n_m"] / given["wheel_rate_n_m"], given["unsprung_kg"] / given["sprung_kg"], True)
    fit = fit_swings(Logged(time, travel, acceleration=False), known)
    assert fit.ratio.low <= published.expected[5] <= fit.ratio.high, published.source
    assert fit.ratio.value == pytest.approx(published.expected[5], rel=0.05), published.source
    assert 2 * fit.damped == pytest.approx(1 / (published.expected[2] - published.expected[0]), rel=0.01)


def test_a_whole_decay_with_dry_friction_gives_its_inputs_back():
    """Its plain decrement would read 0.079 on the first half cycle and more on each that follows."""
    published = check("kE08")
    given, start, frequency = published.inputs, 0.04, 1.6
    at, swung = damped_and_dry(given, frequency, start)
    peaks = np.array(published.expected) / given["start_m"] * start
    turns = np.flatnonzero(np.diff(np.sign(np.diff(swung)))) + 1
    assert np.abs(swung[turns][:5]) == pytest.approx(peaks[1:6], rel=1e-3), published.source
    time, travel = pushed(at, swung)
    fit = fit_swings(Logged(time, travel, acceleration=False), KnownCorner(30.0, 0.05, True))
    assert fit.ratio.low <= given["damping_ratio"] <= fit.ratio.high
    assert fit.ratio.value == pytest.approx(given["damping_ratio"], rel=0.15)
    omega2 = (2 * np.pi * frequency) ** 2
    assert fit.friction.value == pytest.approx(0.004 / 0.1 * start * omega2, rel=0.15)
    assert fit.told


def test_where_friction_carries_the_decay_the_limits_hold_the_ratio_all_the_same():
    """The published decay as it stands: 5 Hz, friction that holds 4 mm beside the middle; nothing is known of a car."""
    published = check("kE08")
    time, travel = pushed(*damped_and_dry(published.inputs, np.sqrt(1000.0) / 2 / np.pi, published.inputs["start_m"]))
    fit = fit_swings(Logged(time, travel, acceleration=False))
    assert fit.ratio.low <= published.inputs["damping_ratio"] <= fit.ratio.high, published.source
    assert fit.ratio.value < 0.15  # friction passed for 0.29 of it
    assert not fit.ratio_stated


def test_a_hand_that_comes_back_while_the_car_still_swings_is_cut_off():
    time = np.arange(0.0, 3.0, 0.02)
    fitted = 3.0 * np.exp(-0.7 * time) * np.cos(12.0 * time)
    hand = np.where(time > 2.6, 4.0 * (time - 2.6), 0.0)
    whole = Swing(100, 100 + len(time), 3.5)
    twice = SimpleNamespace(
        made=lambda _: [fitted, fitted], values=[fitted, fitted + hand], times=[time, time], found=(whole, whole)
    )
    free, cut = _without_hands(twice, np.zeros(1))
    assert free == whole
    assert cut.start == whole.start
    assert 2.0 < time[cut.stop - cut.start] < 2.6


def test_a_push_begun_before_the_last_swing_is_over_is_no_fault():
    """A corner with hardly any damping still swings as far as the next push when that begins."""
    omega2 = (2 * np.pi * 1.6) ** 2
    corner = MadeCorner(300.0, 40.0, 300.0 * omega2, 250e3, lambda v: 60.0 * v, 8.0)
    logged = made_log(corner, MadePushes(100.0, True, (0.035, 0.025)))
    assert swings(logged.time, logged.values, LET_GO_ACCELERATION, REST_ACCELERATION)


def bleeding(v):
    """A needle's square law up to a blow-off, then little more: no two slopes are this."""
    speed = np.abs(v)
    return np.sign(v) * np.where(speed < 0.055, 8.5e4 * speed**2, 257.0 + 1500.0 * (speed - 0.055))


#: a front corner, light on a stiff spring, with such a needle
NEEDLE = MadeCorner(204.0, 27.0, 45e3, 195e3, bleeding, 14.0)


def test_a_corner_is_predicted_for_pushes_as_deep_as_those_logged():
    """A shock that is bent otherwise than two slopes is read by the depth of the push: like is held against like."""
    log = made_log(NEEDLE, MadePushes(100.0, False, (0.03, 0.03), 5e-5))
    like = pushes_like(log, NEEDLE, 100.0)
    assert like.depths == pytest.approx((0.03, 0.03), rel=0.03)
    assert like.noise == pytest.approx(5e-5, rel=0.5)


@pytest.mark.thorough
def test_an_exact_corner_is_read_and_predicted_alike():
    log = made_log(NEEDLE, MadePushes(100.0, False, (0.03, 0.03), 5e-5))
    like = pushes_like(log, NEEDLE, 100.0)
    assert predicted_fit(NEEDLE, like).ratio.value == pytest.approx(fit_swings(log, NEEDLE.known).ratio.value, rel=0.04)


@pytest.mark.parametrize("acceleration", [False, True])
def test_depth_of_pushes_is_found_from_a_phone_too(acceleration):
    log = made_log(NEEDLE, MadePushes(100.0, acceleration, (0.02, 0.035)))
    assert sorted(pushes_like(log, NEEDLE, 100.0).depths) == pytest.approx([0.02, 0.035], rel=0.08)


def test_a_corners_own_ratio_is_that_of_its_law():
    free, ratio = replace(NEEDLE, damping=lambda v: 1500.0 * v).free_and_ratio
    k, t, m = NEEDLE.rate / NEEDLE.sprung, NEEDLE.tyre / NEEDLE.sprung, NEEDLE.unsprung / NEEDLE.sprung
    c = 1500.0 / NEEDLE.sprung
    p = np.array([k, t, c, c, 1.0, 9.0, 0.1, m, 1e-4, 0.0])
    assert ratio == pytest.approx(frequency_and_ratio(p)[1], rel=1e-6)
    assert free == pytest.approx(free_frequency(p))


@pytest.mark.parametrize("friction", often(1, [80.0, 0.0]))
def test_friction_does_not_pass_for_damping(friction):
    """The same corner with friction and without: its ratio stays, and friction is told where there is some."""
    corner = replace(decay(12).corner, friction=friction)
    made = decay(12, corner=corner)
    known = KnownCorner(corner.tyre / corner.spring, corner.unsprung / corner.sprung, True)
    travel = (made.travel - np.median(made.travel)) / corner.shock_ratio
    fit = fit_swings(Logged(made.time, travel, acceleration=False), known)
    assert fit.ratio.value == pytest.approx(made.ratio, rel=0.15)
    assert fit.friction.value == pytest.approx(friction / corner.sprung, abs=0.12)
    assert fit.told or not friction


def test_a_log_without_a_push_is_refused():
    time = np.arange(0.0, 5.0, 0.01)
    with pytest.raises(FitError, match="no push is found"):
        fit_swings(Logged(time, np.zeros(len(time)), acceleration=False))


def test_figures_of_a_linear_corner_are_its_eigenvalues():
    given = check("kE10").inputs
    m = given["sprung_kg"]
    c = given["damping_n_s_m"] / m
    over = [given[key] / m for key in ("wheel_rate_n_m", "tyre_n_m", "unsprung_kg")]
    p = np.array([*over[:2], c, c, 1.0, 9.0, 0.1, over[2], 1e-4, 0.0])
    assert frequency_and_ratio(p)[1] == pytest.approx(check("kE10").expected[5], rel=1e-6)
    loose = p.copy()
    loose[2:4] = 1e-9
    assert free_frequency(p) == pytest.approx(frequency_and_ratio(loose)[0], rel=1e-6)


# A phone's axes


@pytest.mark.parametrize("gravity", [9.80665, 1.0])
def test_up_is_found_by_gravity(gravity):
    up = np.array([0.2, -0.95, 0.1]) / np.linalg.norm([0.2, -0.95, 0.1])
    swing = np.concatenate([np.zeros(2000), 0.3 * np.sin(np.linspace(0.0, 30.0, 900))])
    moved = swing * gravity / 9.80665
    found = upward(np.outer(gravity + moved, up), None)
    assert found.by_gravity
    np.testing.assert_allclose(found.axis, up, atol=2e-3)
    np.testing.assert_allclose(found.values, swing, atol=2e-3)
    assert np.degrees(found.tilt) == pytest.approx(
        np.degrees(np.arccos(0.95 / np.linalg.norm([0.2, -0.95, 0.1]))), abs=0.2
    )


def test_up_is_found_by_motion_where_gravity_is_taken_out():
    up = np.array([0.0, 0.1, -1.0])
    moved = np.concatenate([np.zeros(100), 4.0 * np.exp(-np.linspace(0, 5, 200)) * np.cos(np.linspace(0, 20, 200))])
    found = upward(np.outer(moved, up), 1.0)
    assert not found.by_gravity
    assert found.nearest == 2
    assert found.values.max() > -found.values.min()


def test_no_unit_and_no_gravity_is_asked_for():
    with pytest.raises(QuantityError, match=r"\[g\] or \[m/s2\]"):
        upward(np.random.default_rng(1).normal(0.0, 0.3, (200, 3)), None)


# Verdicts


def band(value, share):
    return Banded(value, value / (1 + share), value * (1 + share))


def test_verdicts():
    near, far, wide = held(band(0.3, 0.1), band(0.31, 0.05)), held(band(0.3, 0.05), band(0.4, 0.05)), held(
        band(0.3, 1.5), band(0.4, 0.05))  # fmt: skip
    assert bounce_verdict(near, near) == "agrees"
    assert bounce_verdict(near, far) == "differs"
    assert bounce_verdict(near, wide) == "cannot tell"
    assert bounce_verdict(far, near, stated=False) == "cannot tell"


# Made corners


@pytest.mark.parametrize("seed", [1, pytest.param(12, marks=pytest.mark.thorough)])
@pytest.mark.parametrize("acceleration", often(1, [False, True]))
def test_a_made_corner_is_read_right(seed, acceleration):
    truth, fit = read_made(seed, acceleration)
    assert fit.frequency.value == pytest.approx(truth.frequency, rel=0.02)
    assert fit.ratio.value == pytest.approx(truth.ratio, rel=0.15)


def read_made(seed, acceleration):
    made = decay(seed)
    corner = made.corner
    off = np.exp(np.random.default_rng(seed).normal(0.0, 0.1))
    known = KnownCorner(corner.tyre / corner.spring * off, corner.unsprung / corner.sprung * off, True)
    travel = (made.travel - np.median(made.travel)) / corner.shock_ratio
    values = upward(made.axes, 1.0).values if acceleration else travel
    return made, fit_swings(Logged(made.time, values, acceleration), known)


@pytest.mark.thorough
@pytest.mark.parametrize("acceleration", [False, True])
def test_of_many_made_corners_the_limits_hold(acceleration):
    """100 corners: nonlinear, with friction and a tyre, noise, 25 to 400 Hz, a phone tilted to 20°."""
    held_ratio, near = [], []
    for seed in range(100):
        truth, fit = read_made(seed, acceleration)
        held_ratio.append(fit.ratio.low <= truth.ratio <= fit.ratio.high)
        near.append(abs(fit.frequency.value / truth.frequency - 1) < 0.02)
    assert np.mean(held_ratio) >= 0.90
    assert np.mean(near) >= 0.90


# What a log must hold

RATE, RING = 100.0, np.arange(0.0, 3.0, 0.01)


def three_pushes(size, ratio=0.2, frequency=1.6):
    """Acceleration upward of three pushes let go at once, the car at rest between them. [m/s²]"""
    omega = 2 * np.pi * frequency
    ring = size * np.exp(-ratio * omega * RING) * np.cos(omega * np.sqrt(1 - ratio**2) * RING)
    up = np.interp(np.arange(0.0, 0.3, 0.01), [0.0, 0.3], [0.0, size])
    return np.concatenate([*([np.zeros(100), up, ring] * 3), np.zeros(100)])


def logged_of(values, *, acceleration=True, ends=None):
    return Logged(np.arange(len(values)) / RATE, values, acceleration, ends)


@pytest.mark.parametrize(("noise", "size"), [(0.04, 0.0), (0.2, 0.0), (0.04, 0.1)])
def test_what_does_not_stand_out_of_noise_is_no_push(noise, size):
    values = three_pushes(size) + np.random.default_rng(4).normal(0, noise, len(three_pushes(size)))
    with pytest.raises(FitError, match="nothing stands out of the noise"):
        fit_swings(logged_of(values))


def test_a_car_that_drives_has_no_decay_and_costs_no_search():
    random = np.random.default_rng(5)
    rough = np.convolve(random.normal(0, 1, 3000), np.hanning(15) / 7, mode="same")
    with (
        patch("dynoan.analysis.bounce.fitting._closest") as search,
        pytest.raises(FitError, match="no swing that dies"),
    ):
        fit_swings(logged_of(3 * rough))
    search.assert_not_called()


def test_what_a_sensor_cut_flat_is_left_out_and_the_rest_of_the_swing_tells():
    values = three_pushes(3.0) + np.random.default_rng(6).normal(0, 0.02, len(three_pushes(3.0)))
    flat = np.clip(values, -1.3, 1.3)
    ends = clipped(flat).either
    assert ends.mean() > 0.03
    cut, whole = (
        free_swings(logged_of(v, ends=e)) for v, e in ((flat, ends), (values, np.zeros(len(values), dtype=bool)))
    )
    assert len(cut) == len(whole) == 3
    assert not any(ends[s.start : s.stop].any() for s in cut)
    with pytest.raises(FitError, match="runs out of its range"):
        free_swings(logged_of(np.clip(values, -1.3, 1.3), ends=np.ones(len(values), dtype=bool)))


def test_a_push_that_is_never_let_go_is_not_called_no_push():
    held = np.interp(np.arange(0.0, 8.0, 0.01), [0, 1, 1.5, 8], [0, 0, 0.03, 0.03])
    with pytest.raises(FitError, match=r"a push of 30\.0 mm is found, but no free swing after it"):
        fit_swings(logged_of(held, acceleration=False))
