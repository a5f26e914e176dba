"""Causes that once moved curves unseen: a valve steep at rest one way alone, a guide under side load, a velocity that
nothing holds. The records are made from the physics, apart from the fit (`tests/worlds`)."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from dynoan.analysis.conditioning.condition import condition
from dynoan.analysis.fitting.fit import fit as fit_sweeps
from dynoan.model.curve import Curve
from tests.worlds.rows import draw
from tests.worlds.score import outcome
from tests.worlds.with_dynoan import fit, sweep_of
from tests.worlds.world import Record

#: speeds judged [m/s]
AT = np.array([0.05, 0.1, 0.25])


def misses(curve: Curve, record: Record) -> np.ndarray:
    """Return how far the band is off the truth at `AT` in both directions, zero where it holds. [N]"""
    v = np.concatenate([-AT, AT])
    low, high = curve.band(v)
    truth = record.truth(v)
    return np.maximum(np.maximum(low - truth, truth - high), 0.0)


def test_a_valve_steep_at_rest_one_way_alone_does_not_shift_the_zero():
    """Force as the power 0.57 of speed in rebound, 1.4 in compression: near rest they are nothing alike."""
    record = draw("clean", 8001)
    found = outcome(record, fit(record))
    assert np.nanmean(found.held) > 0.9
    assert np.nanmedian(found.half) < 0.02


def test_a_guide_that_rubs_under_side_load_is_told_and_taken_out():
    record = draw("side load", 8007)
    found = outcome(record, fit(record))
    assert np.nanmean(found.held) > 0.9
    lines = condition(sweep_of(record)).findings
    assert any(line.startswith("a guide rubs") for line in lines)


@pytest.mark.thorough
def test_no_guide_rubs_where_force_is_noisy_or_fades():
    for row in ("noise strong", "fade mild"):
        lines = condition(sweep_of(draw(row, 8005))).findings
        assert not any(line.startswith("a guide rubs") for line in lines)


@pytest.mark.parametrize("scale", [1.03, pytest.param(0.97, marks=pytest.mark.thorough)])
def test_a_velocity_that_no_displacement_holds_is_doubted_in_its_scale(scale):
    record = draw("clean", 8011)
    sweep = sweep_of(record)
    speed = np.gradient(record.displacement, record.time)
    whole = replace(sweep, channels={**sweep.channels, "velocity": speed})
    alone = {"time": record.time, "force": record.force, "velocity": scale * speed}
    curve = fit_sweeps(replace(sweep, channels=alone))
    assert np.all(misses(curve, record) == 0.0)
    assert any("too fast or too slow" in line for line in curve.findings)
    held = fit_sweeps(whole)
    assert not any("too fast or too slow" in line for line in held.findings)
    v = np.array([-0.25, 0.25])
    wide, narrow = (np.ptp(one.band(v), axis=0) for one in (curve, held))
    assert np.all(wide > narrow)
