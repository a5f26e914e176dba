"""Velocity from displacement where no crank motion fits: noise out, turns kept."""

import numpy as np
import pytest

from dynoan.analysis.conditioning.channels import slopes
from dynoan.analysis.conditioning.channels.slopes import EVEN, TURNING, local_slope, slope_noise, steady_slope
from dynoan.analysis.conditioning.channels.standing import stops
from dynoan.analysis.statistics import robust_scale
from dynoan.model.ramps import ramps

DT, NOISE = 1e-3, 8e-6  # a displacement sensor of 14 bit over 100 mm


def triangle(speed=0.1, stroke=0.04, strokes=6, pause=0.4):
    """A servo's triangle with sharp corners and a pause at its end: velocity and displacement."""
    one = round(stroke / speed / DT)
    velocity = np.concatenate([np.full(one, speed * (-1) ** i) for i in range(strokes)] + [np.zeros(round(pause / DT))])
    return velocity, np.cumsum(velocity) * DT


def noisy(x):
    return x + NOISE * np.random.default_rng(4).standard_normal(len(x))


def away_from_corners(velocity, samples):
    turns = np.flatnonzero(np.diff(velocity))
    return np.min(np.abs(np.arange(len(velocity))[:, None] - turns), axis=1) > samples


def test_ramps_and_pauses_lose_their_noise_and_corners_stay():
    velocity, x = triangle()
    found = steady_slope(noisy(x), NOISE, EVEN)[0] / DT
    short = local_slope(noisy(x), 9) / DT
    flat, off = away_from_corners(velocity, 30), np.abs(found - velocity)
    assert np.std((found - velocity)[flat]) < 0.15 * np.std((short - velocity)[flat])
    assert np.max(off[away_from_corners(velocity, 8)]) < 0.005


def test_a_sine_is_not_flattened():
    time = np.arange(8000) * DT
    x, velocity = 0.02 * np.sin(12 * time), 0.24 * np.cos(12 * time)
    found = steady_slope(noisy(x), NOISE, TURNING)[0] / DT
    whole = slice(400, -400)
    scale = np.sum((found * velocity)[whole]) / np.sum((velocity**2)[whole])
    assert scale == pytest.approx(1, abs=2e-3)
    assert np.std((found - velocity)[whole]) < slope_noise(9) * NOISE / DT


def test_strokes_of_constant_speed_are_told_from_a_sine():
    velocity, _ = triangle()
    assert np.mean(ramps(velocity)[velocity != 0]) == 1
    assert not ramps(velocity)[velocity == 0].any()
    assert not ramps(0.24 * np.cos(12 * np.arange(8000) * DT)).any()


def test_a_pause_is_found_by_a_velocity_without_noise():
    velocity, x = triangle(pause=0.3)
    found = stops(steady_slope(noisy(x), NOISE, EVEN)[0] / DT, noisy(x), DT)
    assert not found[velocity != 0].any()
    assert np.count_nonzero(found) > 230


def test_the_error_that_is_stated_is_about_the_one_made():
    """On a road of tones up to 8 Hz, out of step."""
    time, rng = np.arange(20_000) * DT, np.random.default_rng(3)
    tones, phases = np.exp(rng.uniform(np.log(0.3), np.log(8.0), 30)), rng.uniform(0, 6.3, 30)
    angle = 2 * np.pi * tones[:, None] * time + phases[:, None]
    x, velocity = np.sum(0.002 * np.sin(angle) / tones[:, None], 0), np.sum(0.004 * np.pi * np.cos(angle), 0)
    found, error = steady_slope(noisy(x), NOISE, TURNING)
    made, stated = robust_scale(found / DT - velocity), float(np.median(error)) / DT
    assert stated == pytest.approx(made, rel=0.7)
    assert made < 0.1 * slope_noise(5, 4) * NOISE / DT


def test_hardly_a_sample_follows_noise_and_those_that_do_say_so():
    time = np.arange(40_000) * DT
    x, velocity = 0.02 * np.sin(3 * time), 0.06 * np.cos(3 * time)
    found, error = steady_slope(noisy(x), NOISE, TURNING)
    off = np.abs(found / DT - velocity)[100:-100]
    far = off > 0.002
    assert np.mean(far) < 0.004
    assert np.min(error[100:-100][far]) / DT > 0.0005


def test_a_pause_is_found_by_a_sensor_far_noisier_than_the_way_a_pause_may_go():
    velocity, x = triangle(pause=0.5)
    rough = x + np.random.default_rng(1).normal(0.0, 40e-6, len(x))
    found = stops(steady_slope(rough, 40e-6, EVEN)[0] / DT, rough, DT)
    assert not found[velocity != 0].any()
    assert np.count_nonzero(found) > 350


def test_a_long_record_in_pieces_has_the_slopes_of_the_whole(monkeypatch):
    time = np.arange(20_000) * DT
    x = noisy(0.02 * np.sin(12 * time))
    whole = steady_slope(x, NOISE, TURNING)[0]
    monkeypatch.setattr(slopes, "TOGETHER", 8_000)
    pieces = steady_slope(x, NOISE, TURNING)[0]
    assert np.mean(whole != pieces) < 0.002  # medians of windows about a seam alone
    assert np.max(np.abs(whole - pieces)) / DT < 0.05
