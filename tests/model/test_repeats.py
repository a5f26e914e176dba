"""Rows in which a logger wrote the last displacement again: found while the machine moves, and put on the motion."""

from __future__ import annotations

import numpy as np
import pytest

from dynoan.model.motion import derived_velocity
from dynoan.model.repeats import on_the_motion, repeated, white

TIME = np.arange(0.0, 4.0, 0.004)
SINE = 0.02 * np.sin(2 * np.pi * 2.0 * TIME)


def again(share: float) -> np.ndarray:
    """Return the sine as a logger writes it that has no new value in a share of its rows."""
    new = np.random.default_rng(3).random(len(TIME)) >= share
    new[0] = True
    return SINE[np.maximum.accumulate(np.where(new, np.arange(len(TIME)), 0))]


@pytest.mark.parametrize("share", [0.1, 0.3, 0.5])
def test_they_are_found_and_put_between_the_others(share):
    x = again(share)
    same = repeated(x)
    assert np.mean(same) == pytest.approx(share, abs=0.04)
    assert np.max(np.abs(x - SINE)) > 5e-4
    assert np.max(np.abs(on_the_motion(x, TIME, same) - SINE)[20:-20]) < 2e-5


def test_speed_is_that_of_the_motion():
    top = 0.02 * 2 * np.pi * 2.0
    assert np.max(np.abs(derived_velocity(again(0.3), 0.004))) < 1.03 * top


@pytest.mark.parametrize("step", [1e-7, 1e-5, 2e-4, 1e-3])
def test_a_coarse_channel_repeats_none(step):
    assert not repeated(np.round(SINE / step) * step).any()


def test_what_stands_still_repeats_none():
    assert not repeated(np.concatenate([np.zeros(500), SINE, np.zeros(500)])).any()


def test_noise_is_white_and_a_wave_is_not():
    noise = np.random.default_rng(1).normal(0.0, 1.0, 400)
    assert white(noise)
    assert not white(noise + np.sin(np.arange(400) / 20.0))


def test_a_record_of_a_few_rows_is_looked_at_without_harm():
    for rows in range(2, 14):
        assert not repeated(np.repeat(np.arange(rows), 2)[:rows].astype(float)).any() or rows > 9
