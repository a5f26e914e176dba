"""Peak tables that hold the extremes of each cycle: slow rows show an end of the stroke."""

from __future__ import annotations

import numpy as np
import pytest

from dynoan.analysis.conditioning.condition import condition
from dynoan.analysis.conditioning.tables.flat_rows import flat
from tests.worlds.rows import draw
from tests.worlds.with_dynoan import fit, sweep_of

SPEEDS = np.array([0.05, 0.08, 0.12, 0.2, 0.3, 0.45])


class TestFlat:
    def test_of_an_orifice_and_gas_at_the_end_of_the_stroke(self):
        """20 N of friction, 100 N of gas at mid-stroke and 40 N more at its end, 3000 N/(m/s)² of damping."""
        damping = 3000.0 * SPEEDS**2
        v = np.concatenate([SPEEDS, -SPEEDS])
        f = np.concatenate([np.maximum(160.0, 120.0 + damping), 80.0 - damping])
        found = flat(v, f)
        assert list(found[:6]) == [1, 1, 1, 0, 0, 0]
        assert not found[8:].any()

    def test_not_where_force_rises_from_the_first_row_on(self):
        v = np.concatenate([SPEEDS, -SPEEDS])
        assert not flat(v, 2000.0 * v + 100.0).any()

    def test_not_where_each_row_is_stronger_were_it_by_little(self):
        f = np.array([190.0, 193.0, 198.0, 240.0, 420.0, 1032.0])
        assert not flat(SPEEDS, f).any()
        assert list(flat(SPEEDS, f[[1, 0, 2, 3, 4, 5]])[:3]) == [1, 1, 1]


@pytest.mark.parametrize("seed", [1006, 1026, 1038])
def test_the_band_holds_the_valve_of_a_home_rigs_extremes(seed):
    """Half of the points or more lay outside where slow rows were taken for forces at the peak speed."""
    record = draw("peaks home", seed)
    speeds = np.geomspace(*record.covered, 12)[:-1]
    v = np.concatenate([-speeds, speeds])
    band, truth = fit(record).damping(v), record.truth(v)
    assert np.mean((band.low <= truth) & (truth <= band.high)) > 0.9
    assert any("do not rise with speed" in line for line in condition(sweep_of(record)).findings)
