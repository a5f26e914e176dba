"""What a sensor wrote that is none of the car's motion."""

from __future__ import annotations

import numpy as np
import pytest

from dynoan.analysis.sensors.clipping import clipped
from dynoan.analysis.sensors.dropouts import dropouts

AT = np.arange(0.0, 8.0, 0.005)
#: a wheel on rough ground, after a second of standing [mm]
ROUGH = 50 + np.where(AT < 1, 0, 18 * np.sin(9 * AT) + 9 * np.sin(23 * AT + 1) + 4 * np.sin(70 * AT))


def held(noise, step):
    """A push that a hand holds for a second, then lets go, as logged."""
    at = np.arange(0.0, 6.0, 0.01)
    down = np.interp(at, [1.0, 1.6, 2.6], [0.0, 1.0, 1.0])
    push = 25 * np.sin(np.pi / 2 * down)
    swing = 25 * np.exp(-3 * (at - 2.6)) * np.cos(10 * (at - 2.6))
    logged = 40 + np.where(at < 2.6, push, swing) + np.random.default_rng(1).normal(0, noise, len(at))
    return np.round(logged / step) * step


@pytest.mark.parametrize("noise", [0.0, 0.05])
def test_a_sensor_that_runs_out_is_told_at_either_end(noise):
    logged = np.clip(ROUGH, 35, 62) + np.random.default_rng(2).normal(0, noise, len(ROUGH))
    found = clipped(logged)
    assert np.mean(found.high == (ROUGH >= 62)) > 0.98
    assert np.mean(found.low == (ROUGH <= 35)) > 0.98
    assert found.high.sum() > 50 < found.low.sum()


@pytest.mark.parametrize("logged", [ROUGH, np.round(ROUGH), held(0.0, 0.1), held(0.06, 0.01), held(0.02, 0.5),
                                    np.full(600, 40.0)])  # fmt: skip
def test_motion_within_the_range_and_what_a_hand_holds_is_not_clipped(logged):
    assert not clipped(logged).either.any()


@pytest.mark.parametrize("level", [0.0, 100.0])
def test_dropouts_to_one_level_are_found_and_nothing_else(level):
    logged = ROUGH.copy()
    lost = [20, 400, 401, 402, 777, 1200]
    logged[lost] = level
    assert np.flatnonzero(dropouts(logged)).tolist() == lost


@pytest.mark.parametrize("logged", [ROUGH, np.round(ROUGH), np.clip(ROUGH, 35, 62), ROUGH - 50, held(0.0, 0.1)])
def test_motion_has_no_dropouts(logged):
    assert not dropouts(logged).any()
