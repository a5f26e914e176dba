"""Records made of whole cycles of one speed after the other, and so long that cycles are left out."""

from __future__ import annotations

from functools import cache

import numpy as np
import pytest

from dynoan.analysis.conditioning.condition import Conditioned, condition
from dynoan.analysis.conditioning.samples.rows import fewer
from dynoan.model.arrays import FloatArray
from dynoan.model.sweep import Sweep
from tests.analysis.conditioning.test_resting import recorded

RATE = 500.0


def stepped(seconds: float, first: float = 0.0) -> tuple[FloatArray, FloatArray]:
    """Return displacement [m] and velocity [m/s] of sines of 0.8, 1.6 and 2.4 Hz that follow at once, each so long.

    With whole cycles from `first` on, a part of a turn, speed jumps there.
    """
    hertz = np.repeat([0.8, 1.6, 2.4], round(seconds * RATE))
    phase = 2 * np.pi * (np.cumsum(hertz) / RATE + first)
    return 0.025 * np.sin(phase), 0.025 * 2 * np.pi * hertz * np.cos(phase)


def sweep(seconds: float, first: float = 0.0) -> Sweep:
    """Return a record of a shock without lag, with nothing moving on its cell. SI."""
    x, v = stepped(seconds, first)
    damping = np.sign(v) * np.where(v > 0, 2600.0, 4200.0) * np.abs(v) ** 0.9
    return recorded(x, damping + 22.0 * np.tanh(v / 0.003) + 140.0 + 2500.0 * x, rate=RATE)


@cache
def conditioned(seconds: float, first: float) -> Conditioned:
    return condition(sweep(seconds, first))


@pytest.mark.parametrize(("seconds", "first"), [(10.0, 0.0), (20.0, 0.1), (40.0, 0.0)])
def test_no_lag_and_no_mass_is_found_where_speed_jumps_and_cycles_are_left_out(seconds, first):
    model = conditioned(seconds, first).model
    assert abs(model.lag.value) < max(2.5 * model.lag.sd, 2e-5)
    assert model.mass.value < max(2.5 * model.mass.sd, 0.1)


def test_jumps_of_speed_are_said_to_be_left_out():
    used = conditioned(10.0, 0.0).findings[0]
    assert used.endswith("of constant speed; jumps of speed left out")
    at_the_ends = condition(sweep(10.0, 0.25)).findings[0]
    assert "jumps" not in at_the_ends


def test_what_follows_without_a_gap_is_a_span_where_cycles_are_left_out():
    rows = conditioned(40.0, 0.0).rows
    few = fewer(rows, 3)
    step = np.median(np.diff(rows.time))
    inside = np.diff(few.span) == 0
    assert np.all(np.diff(few.time)[inside] < 1.5 * step)
    assert 0.25 * len(rows) < len(few) < 0.5 * len(rows)
    assert set(few.block) == set(rows.block)
