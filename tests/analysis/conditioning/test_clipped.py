"""A load cell at its end: what it held there is no force, and the curve ends before it."""

from dataclasses import replace

import numpy as np
import pytest

from dynoan.analysis.fitting.fit import fit
from dynoan.model.clipped import held_at_end
from tests.worlds.rows import draw
from tests.worlds.with_dynoan import sweep_of


@pytest.fixture(scope="module")
def record():
    return draw("clean", 20400)


def clipped_at(record, share):
    sweep = sweep_of(record)
    force = sweep.channels["force"]
    end = share * float(force.max())
    return replace(sweep, channels={**sweep.channels, "force": np.minimum(force, end)}), end


def test_the_curve_ends_where_the_cell_did_and_holds_the_truth_below(record):
    sweep, _ = clipped_at(record, 0.75)
    curve, whole = fit(sweep), fit(sweep_of(record))
    assert any("clipped at its top" in line for line in curve.warnings)
    assert curve.compression.top_speed < 0.95 * whole.compression.top_speed
    assert curve.rebound.top_speed == pytest.approx(whole.rebound.top_speed, rel=0.02)
    beyond = np.array([whole.compression.top_speed])
    assert curve.extrapolated(beyond)[0] > 0
    v = np.linspace(0.02, 0.97 * curve.compression.top_speed, 12)
    low, high = curve.band(v)
    truth = record.truth(v)
    assert np.mean((low <= truth) & (truth <= high)) > 0.9


def test_a_few_samples_held_are_enough_and_a_peak_is_none(record):
    force = sweep_of(record).channels["force"]
    assert held_at_end(force, float(force.max()), float(force.min())) is None
    end = float(np.sort(force)[-30])
    held = held_at_end(np.minimum(force, end), end, float(force.min()))
    assert held is None or np.count_nonzero(held) == 30


def test_what_the_file_and_the_fit_say_of_it_is_said_once(record):
    sweep, _ = clipped_at(record, 0.75)
    curve = fit(replace(sweep, warnings=("force is clipped: it is held at its highest value", "a remark of the file")))
    (said,) = (line for line in curve.warnings if "clipped" in line)
    assert "the curve ends before" in said
    assert "a remark of the file" in curve.warnings
