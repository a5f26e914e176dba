"""Statistics written once, against the standard library's normal distribution."""

from __future__ import annotations

import statistics

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from dynoan.analysis.statistics import MEDIAN_OF_NORMAL, Z95, robust_scale

FEW = settings(max_examples=40, deadline=None)
NORMAL = statistics.NormalDist()


def test_the_quantiles_are_those_of_the_normal_distribution_to_the_digits_written():
    assert pytest.approx(NORMAL.inv_cdf(0.975), abs=5e-7) == Z95
    assert pytest.approx(NORMAL.inv_cdf(0.75), abs=5e-5) == MEDIAN_OF_NORMAL


def test_it_finds_the_scale_of_normal_noise_though_a_fifth_is_wild():
    values = np.array([NORMAL.inv_cdf((i + 0.5) / 1000) for i in range(1000)]) * 3.0
    assert robust_scale(values) == pytest.approx(3.0, rel=2e-3)
    values[::5] = 1e6
    assert 3.0 < robust_scale(values) < 4.5


@FEW
@given(st.lists(st.floats(-1e6, 1e6), min_size=1, max_size=20), st.floats(0.01, 100))
def test_it_goes_with_the_unit_and_not_with_order_or_sign(values, unit):
    scale = robust_scale(values)
    assert robust_scale([unit * v for v in values]) == pytest.approx(unit * scale)
    assert robust_scale([-v for v in reversed(values)]) == scale
