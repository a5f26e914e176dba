"""Where the car stood and when it left the line, in made logs of what cars do before and after."""

from __future__ import annotations

import numpy as np
import pytest

from dynoan.analysis.travel.start import WHOLE_LOG, at_rest, standing, start_from_shocks, start_from_speed
from dynoan.analysis.travel.velocity import shock_motion

RATE = 250.0
TIME = np.arange(0.0, 18.0, 1 / RATE)
NOISE = np.random.default_rng(4).normal(0.0, 5e-5, (2, len(TIME)))


def shifted(at: float, rear: float, front: float) -> np.ndarray:
    """Rear and front shocks that a launch moves to a new place and leaves there, swinging in."""
    late = np.maximum(TIME - at, 0.0)
    settle = 1 - np.exp(-4 * late) * np.cos(11 * late)
    return np.array([rear * settle, front * settle])


def rough(at: float) -> np.ndarray:
    """What the course does to the shocks behind the line."""
    random = np.random.default_rng(5)
    lumps = np.convolve(random.normal(size=len(TIME)), np.hanning(40), mode="same")
    return np.where(at + 1.5 < TIME, 0.004 * lumps / lumps.std(), 0.0)


def moved(*parts: np.ndarray) -> list:
    total = NOISE + sum(np.broadcast_to(p, NOISE.shape) for p in parts)
    return [shock_motion(TIME, channel) for channel in total]


ROLL_UP = shifted(1.0, 0.006, -0.004) - shifted(3.5, 0.006, -0.004)
IDLE = np.where((TIME > 2.0) & (TIME < 10.0), 8e-4 * np.sin(2 * np.pi * 23 * TIME), 0.0)
LAUNCH = shifted(10.0, 0.035, -0.03)


@pytest.mark.parametrize("before", [(), (ROLL_UP,), (IDLE,), (ROLL_UP, IDLE)], ids=["still", "roll-up", "idle", "both"])
def test_the_launch_is_what_moves_the_car_most(before):
    assert start_from_shocks(moved(LAUNCH, rough(10.0), *before)) == pytest.approx(10.0, abs=0.12)


def test_a_log_that_begins_in_motion_tells_none():
    assert start_from_shocks(moved(rough(-5.0))) is None


def test_zero_is_where_the_car_stood_though_a_front_only_extends():
    """A front shock that stands for a second, then hangs extended for the rest, has no compression."""
    front = np.where(TIME < 1.0, 0.05, 0.05 - 0.03 * (1 - np.exp(-5 * np.maximum(TIME - 1.0, 0))))
    found = [shock_motion(TIME, front + NOISE[0])]
    start = start_from_shocks(found)
    assert at_rest(TIME, front, start, standing(found)).travel == pytest.approx(0.05, abs=5e-4)
    assert np.nanmedian(front) < 0.03


def test_zero_is_where_it_stood_afterwards_where_nothing_stands_before():
    lumps = np.where(TIME < 12.0, rough(-5.0) + 0.01, 0.0)
    found = [shock_motion(TIME, 0.04 + lumps + NOISE[0])]
    zero = at_rest(TIME, 0.04 + lumps, None, standing(found))
    assert zero.travel == pytest.approx(0.04, abs=3e-4)
    assert zero.whence.startswith("where it stood, 12")


def test_a_car_that_never_stands_has_the_median_and_says_so():
    lumps = rough(-5.0)
    assert at_rest(TIME, lumps, None, standing([shock_motion(TIME, lumps)])).whence == WHOLE_LOG


def test_by_speed_rolling_up_is_no_launch():
    speed = np.where((TIME > 1.0) & (TIME < 3.0), 1.2, 0.0) + np.maximum(TIME - 10.0, 0.0) * 5.0
    assert start_from_speed(TIME, speed) == pytest.approx(10.1, abs=0.02)


@pytest.mark.parametrize(("rate", "step"), [(50.0, 1e-5), (1000.0, 2e-4)])
def test_motion_is_not_taken_for_noise(rate, step):
    """At 50 Hz, and in steps of 10 bits: what stands lies far below what moves."""
    time = np.arange(0.0, 20.0, 1 / rate)
    moving = np.where(time > 5.0, 0.02 * np.sin(2 * np.pi * 1.8 * time) + 0.004 * np.sin(2 * np.pi * 9 * time), 0.0)
    found = shock_motion(time, np.round((moving + np.random.default_rng(2).normal(0, 2e-5, len(time))) / step) * step)
    assert 3 * found.smoothing.noise < 0.06


def test_a_log_that_ends_in_motion_keeps_its_peaks():
    time = np.arange(0.0, 4.03, 1 / 200.0)
    speed = 2 * np.pi * 6.0 * 0.01
    seeds = range(20)
    found = [
        shock_motion(time, 0.01 * np.sin(2 * np.pi * 6.0 * time) + np.random.default_rng(s).normal(0, 3e-4, len(time)))
        for s in seeds
    ]
    ends = [np.abs(m.velocity[m.time > time[-1] - 0.1]).max() for m in found]
    inside = [np.abs(m.velocity[(m.time > 1.0) & (m.time < 3.0)]).max() for m in found]
    assert np.mean(ends) < 1.1 * np.mean(inside)
    assert np.mean(inside) == pytest.approx(speed, rel=0.1)


def test_a_row_without_a_time_does_not_count():
    """A logger that lost the time of the very row in which the car begins to roll."""
    speed = np.where(TIME < 10.0, 0.0, 4.0 * (TIME - 10.0))
    rolls = int(np.flatnonzero(speed > 0.5)[0])
    for lost in (rolls - 1, rolls):
        time = TIME.copy()
        time[lost] = np.nan
        assert start_from_speed(time, speed) == pytest.approx(10.0, abs=0.5)


def test_a_time_that_jumps_beyond_the_launch_is_no_fault():
    """The car rolls backward, and the row in which it first rolls on comes a minute later."""
    speed = np.array([-2.0, -2.0, 3.0, 3.0])
    assert start_from_speed(np.array([0.0, 0.1, 60.0, 60.1]), speed) == pytest.approx(0.1)
