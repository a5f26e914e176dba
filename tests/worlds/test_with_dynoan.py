"""Every kind of made record is fitted or refused in words; none ends in a fault of the program."""

from __future__ import annotations

import numpy as np
import pytest

from tests.worlds.quick import rows
from tests.worlds.rows import draw
from tests.worlds.with_dynoan import fit

#: those of the rows drawn in every run that nothing else fits in every run; a plain one is fitted all over the tests
FITTED = frozenset({
    "spikes strong", "gas half out", "one speed", "peaks extreme", "any",
})  # fmt: skip


@pytest.mark.parametrize("row", rows(FITTED))
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
