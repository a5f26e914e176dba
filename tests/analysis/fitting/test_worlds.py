"""Bands hold the truth of worlds made apart from the fit: a few rows, a few records each; the whole is a benchmark."""

from __future__ import annotations

import numpy as np
import pytest

from tests.worlds.rows import draw
from tests.worlds.score import outcome
from tests.worlds.with_dynoan import fit

#: records of a row here: bands that hold 95 % of all records miss two of four by bad luck in one row of seventy
RECORDS = 4
QUICK = ("friction strong", "peaks", "peaks gas stated")
ROWS = ("clean", "noise strong", "delay strong", "gas steepest", "compliance strong", "presliding mild", "fade strong")


@pytest.mark.parametrize(
    ("row", "records"),
    [*((row, 2) for row in QUICK), *(pytest.param(row, RECORDS, marks=pytest.mark.thorough) for row in QUICK + ROWS)],
)
def test_bands_hold_the_truth(row, records):
    found = [outcome(record, fit(record)) for record in (draw(row, seed) for seed in range(records))]
    assert all(one.refused is None for one in found)
    held = [float(np.nanmean(one.held)) for one in found]
    assert sum(share > 0.5 for share in held) >= records - 1
    # Wide bands are no answer. Strong friction may be a valve that holds from rest; of the sum that is no matter.
    wide = 0.1 if row in ("friction strong", "peaks", "peaks gas stated") else 0.04
    assert np.median(np.concatenate([one.half for one in found])) < wide


def test_the_sum_is_known_at_least_as_well_as_damping_alone():
    record = draw("friction strong", 3)
    estimate = fit(record)
    v = np.array([-0.05, -0.02, 0.02, 0.05])
    assert estimate.damping is not None
    assert estimate.total is not None
    alone, both = estimate.damping(v), estimate.total(v)
    assert np.all(both.high - both.low < 1.05 * (alone.high - alone.low))
    truth = record.truth(v) + record.friction(v)
    assert np.all(np.abs(both.value - truth) < 0.03 * np.ptp(record.truth(np.array([-0.3, 0.3]))))


def test_the_sum_of_a_table_is_what_it_holds():
    """Friction is in the peaks already: it is not added again."""
    high = []
    for seed in range(8):
        record = draw("peaks", seed)
        estimate = fit(record)
        assert estimate.total is not None
        v = np.linspace(0.1, 0.9, 8) * record.covered[1]
        v = np.concatenate([-v, v])
        high.append(np.mean(np.sign(v) * (estimate.total(v).value - record.truth(v) - record.friction(v))))
    assert abs(np.median(high)) < 3.0
