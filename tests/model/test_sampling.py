"""How often a record was sampled: medians and means of neighbouring steps, and rates that change."""

from __future__ import annotations

import numpy as np
import pytest

from dynoan.model.record_motion import velocity
from dynoan.model.sampling import rate_range, running_mean, running_middle
from dynoan.reading import read_bytes


@pytest.mark.parametrize("many", [0, 1, 2, 3, 8, 9, 10, 40])
def test_records_of_any_length_have_a_step_for_each_step(many):
    steps = np.full(many, 0.002)
    assert running_middle(steps) == pytest.approx(steps)
    assert running_mean(steps) == pytest.approx(steps)


def test_a_rate_that_changes_is_told_from_a_clock_that_shakes():
    shaking = np.random.default_rng(1).uniform(0.0005, 0.0015, 4000)
    assert rate_range(running_middle(shaking), float(np.median(shaking))) is None
    changing = np.repeat([0.02, 0.002], [300, 700])
    assert rate_range(running_middle(changing), 0.002) == pytest.approx((0.002, 0.02))


def test_a_lone_sample_between_two_pauses_is_no_fault():
    at = np.concatenate([np.arange(60) * 0.02, [3.0], 5 + np.arange(400) * 0.002])
    x = 25 * np.sin(2 * np.pi * at)
    rows = [f"{t:.4f},{a:.3f},{3 * a + 120:.1f}" for t, a in zip(at, x, strict=True)]
    (sweep,) = read_bytes("\n".join(["Time [s],Disp [mm],Force [N]", *rows]).encode(), "rig.csv")
    found = velocity(sweep)
    assert len(found) == len(at)
    assert np.nanmax(np.abs(found)) == pytest.approx(0.157, rel=0.03)
