"""A motion that is not the cycles of a rig is recognised as what it is; those of a rig draw no word."""

from __future__ import annotations

import numpy as np
import pytest

from importers.channels.motion_kind import motion_warnings

RATE = 500.0
T = np.arange(int(30 * RATE)) / RATE


def sine(hertz, seconds=30.0, stroke=0.05):
    t = np.arange(int(seconds * RATE)) / RATE
    return np.pi * hertz * stroke * np.cos(2 * np.pi * hertz * t)


def random_motion(seed):
    rng = np.random.default_rng(seed)
    lines = rng.uniform(0.4, 6.0, 60)
    return sum(0.02 * np.cos(2 * np.pi * f * T + p) for f, p in zip(lines, rng.uniform(0, 6.28, 60), strict=True))


def staircase(levels=(0.5, 1.0, 1.5, 2.5, 4.0)):
    rest = np.zeros(int(RATE))
    return np.concatenate([piece for f in levels for piece in (rest, sine(f, 5 / f))])


@pytest.mark.parametrize("velocity", [sine(0.7), sine(3.0), staircase(), staircase((4.0, 2.5, 1.0)), sine(1.0, 4.0)])
def test_cycles_of_a_rig_draw_no_word(velocity):
    assert motion_warnings(velocity, RATE) == ()


@pytest.mark.parametrize("seed", range(5))
def test_a_random_motion_is_called_so_with_its_strokes(seed):
    (said,) = motion_warnings(random_motion(seed), RATE)
    assert said.startswith("the motion is random, not cyclic: ")


@pytest.mark.parametrize(("first", "last"), [(0.3, 4.0), (4.0, 0.5), (1.0, 3.0)])
def test_a_sweep_is_called_so(first, last):
    phase = 2 * np.pi * (first * T + (last - first) / 60 * T**2)
    (said,) = motion_warnings(np.gradient(0.02 * np.sin(phase), 1 / RATE), RATE)
    assert said.startswith("the motion is swept")


@pytest.mark.parametrize("way", [1, -1])
def test_a_motion_one_way_is_called_so(way):
    drop = way * 0.4 * np.exp(-T / 0.2)
    assert motion_warnings(drop, RATE) == ("the motion goes one way only: nothing is known of the other direction",)


@pytest.mark.parametrize("velocity", [sine(0.01, stroke=0.04), np.where(T < 15, 0.001, -0.001)])
def test_a_slow_test_is_called_quasi_static_with_its_speed(velocity):
    (said,) = motion_warnings(velocity, RATE)
    assert said.startswith("this is a quasi-static test: the fastest motion is 1")


def test_a_shock_that_stands_still_or_is_missing_draws_no_word():
    assert motion_warnings(np.zeros(100), RATE) == ()
    assert motion_warnings(np.full(100, np.nan), RATE) == ()


@pytest.mark.parametrize("cycles", [2, 4])
@pytest.mark.parametrize("speeds", [5, 8])
def test_a_staircase_of_few_cycles_a_speed_is_no_sweep(cycles, speeds):
    hertz = np.repeat(np.geomspace(0.3, 4.0, speeds), cycles)
    motion = [f * np.cos(np.linspace(0, 2 * np.pi, int(RATE / f), endpoint=False)) for f in hertz]
    assert motion_warnings(0.1 * np.concatenate(motion), RATE) == ()
