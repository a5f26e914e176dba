"""Every kind of made record is fitted or refused in words; none ends in a fault of the program."""

from __future__ import annotations

import numpy as np
import pytest

from tests.worlds.rows import ROWS, draw
from tests.worlds.with_dynoan import fit

#: one row of each kind of rig, force, motion, form and valve in every run; all the others in the thorough one
QUICK = frozenset({
    "clean", "noise strong", "spikes strong", "low-pass 2 strong", "delay strong", "drift", "compliance strong",
    "backlash strong", "fade recorded", "gas half out", "friction strong", "LuGre strong", "chirp", "ramps",
    "one speed", "coarse", "peaks", "peaks extreme", "valve hump", "valve late seat", "any",
})  # fmt: skip


def rows() -> list[object]:
    """Return the names of the rows, those that are not quick marked."""
    names = [row.name for row in ROWS]
    assert set(names) >= QUICK
    return [pytest.param(name, marks=[] if name in QUICK else pytest.mark.thorough) for name in names]


@pytest.mark.parametrize("row", rows())
def test_a_record_is_fitted_or_refused_in_words(row):
    record = draw(row, 0)
    found = fit(record)
    if found.refused is not None:
        assert len(found.refused) > 20
        return
    top = 0.9 * record.covered[1]
    band = found.damping(np.array([-top, top]))
    assert np.all(band.low <= band.value)
    assert np.all(band.value <= band.high)


@pytest.mark.parametrize("seed", [*(pytest.param(s, marks=pytest.mark.thorough) for s in range(1, 5)), 5])
def test_points_that_cannot_tell_a_power_law_do_not_end_the_fit(seed):
    """One of these records once ended in a singular matrix; the first of them is among the rows above."""
    assert fit(draw("clean", seed)).refused is None
