"""Motion with corners that no sample shows: triangles of a servo without mass, as a simulator makes them."""

from __future__ import annotations

import numpy as np
import pytest

import dynoan
from dynoan.analysis.conditioning.channels.kinks import kinks
from dynoan.analysis.conditioning.condition import condition
from dynoan.model.arrays import FloatArray
from dynoan.model.clipped import at_one_speed
from dynoan.model.curve import Curve
from tests.analysis.conditioning.test_resting import recorded

RATE, HALF = 1000.0, 0.025
SPEEDS = (0.05, 0.1, 0.2, 0.4, 0.8)


def triangles(cycles: int = 5) -> tuple[FloatArray, FloatArray]:
    """Return displacement [m] and velocity [m/s] of triangles of `SPEEDS`, cycles of each."""
    x, v = [], []
    for speed in SPEEDS:
        turn = (np.arange(round(cycles * 4 * HALF / speed * RATE)) / RATE * speed / (4 * HALF)) % 1.0
        rising = (turn < 0.25) | (turn >= 0.75)
        x.append(HALF * (1 - np.abs(4 * ((turn + 0.25) % 1.0) - 2)))
        v.append(np.where(rising, speed, -speed))
    return np.concatenate(x), np.concatenate(v)


def damping(v: FloatArray) -> FloatArray:
    """A leak beside an orifice that opens at 0.1 m/s, softer in compression. [N]"""
    size = np.abs(v)
    return np.where(v > 0, 1900.0, -2600.0) * (np.minimum(size, 0.1) + 0.35 * np.maximum(size - 0.1, 0.0))


@pytest.fixture(scope="module")
def curve() -> Curve:
    """Of triangles with friction, gas and no lag."""
    x, v = triangles()
    return dynoan.fit(recorded(x, damping(v) + 15.0 * np.sign(v) + 100.0 + 2000.0 * x, rate=RATE))


def test_damping_at_the_speeds_of_triangles_is_held(curve):
    v = np.array([sign * speed for speed in SPEEDS for sign in (1.0, -1.0)])
    low, high = curve.band(v)
    assert np.all((low <= damping(v)) & (damping(v) <= high))
    # Which part of it is gas no plateau tells; what both directions resist together they do.
    both = curve(v[::2]) - curve(v[1::2])
    assert both == pytest.approx(damping(v[::2]) - damping(v[1::2]) + 2 * (15.0 - curve.friction), rel=0.02)


def test_corners_pass_for_no_mount_no_mass_and_no_clipping(curve):
    said = " ".join([*curve.findings, *curve.warnings])
    assert "mounts" not in said
    assert "kg" not in said
    assert "clipped" not in said


def test_samples_beside_sharp_corners_are_left_out_and_round_ones_are_kept():
    x, v = triangles()
    assert kinks(x, 0.0)[np.flatnonzero(np.diff(np.sign(v)))].all()
    between = np.convolve(np.abs(np.diff(v, append=v[-1:])) > 0, np.ones(5), mode="same") > 0
    assert not kinks(x, 0.0)[~between].any()
    smooth = np.convolve(x, np.ones(31) / 31, mode="same")[40:-40]
    assert not kinks(smooth, 0.0).any()
    assert not kinks(HALF * np.sin(2 * np.pi * np.arange(400) / 12), 0.0).any()
    noisy = x + np.random.default_rng(1).normal(0.0, 2e-6, len(x))
    fast = np.flatnonzero(np.diff(np.sign(v)) != 0)[-8:]
    assert kinks(noisy, 2e-6)[fast].all()


def test_a_force_that_stands_still_on_ramps_of_one_speed_is_the_valve_s():
    x, v = triangles()
    fastest = np.isclose(v, SPEEDS[-1])
    assert at_one_speed(x, fastest)
    assert not at_one_speed(x, fastest | np.isclose(v, SPEEDS[-2]))
    sine = HALF * np.sin(0.02 * np.arange(4000))
    assert not at_one_speed(sine, np.cos(0.02 * np.arange(4000)) > 0.97)
    assert not at_one_speed(None, fastest)


def test_a_triangle_without_gas_and_noise_is_not_clipped():
    x, v = triangles()
    sweep = recorded(x, damping(v), noise=0.0, rate=RATE)
    assert not any("clipped" in line for line in condition(sweep).warnings)
