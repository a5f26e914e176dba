"""What is found out by counting or block by block is what looking at all at once finds."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from importers.channels import doubts
from importers.channels.agreement import Stretch, agreement
from tests.importers.making import quick


def records(seed: int, samples: int, spikes: int) -> np.ndarray:
    rng = np.random.default_rng(seed)
    x = 500 * np.sin(np.arange(samples) * rng.uniform(0.001, 0.5)) + rng.normal(0, rng.uniform(0, 200), samples)
    x[rng.integers(0, samples, spikes)] += rng.normal(0, 2000, spikes)
    if seed % 3 == 0:
        x[rng.integers(0, samples, 3)] = np.nan
    return x


@quick
@given(st.integers(0, 1000), st.integers(8, 300), st.integers(0, 4), st.floats(1.0, 3000.0))
def test_samples_far_from_both_neighbours_are_found_in_blocks(seed, samples, spikes, edge):
    x = records(seed, samples, spikes)
    step = np.diff(x)
    wanted = np.flatnonzero((np.abs(step[:-1]) > edge) & (np.abs(step[1:]) > edge) & (step[:-1] * step[1:] < 0)) + 1
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(doubts, "_LOOK", 16)
        assert np.array_equal(doubts._there_and_back(x, edge), wanted)


@quick
@given(st.integers(0, 1000), st.integers(8, 300), st.floats(0.0, 4000.0), st.sampled_from([(1.0, 99.0), (0.5, 99.5)]))
def test_percentiles_that_are_counted_to_be_apart_are_apart(seed, samples, least, percentiles):
    x = records(seed, samples, 2)
    low, high = np.nanpercentile(x, percentiles)
    if doubts._spans(x, least, percentiles):
        assert high - low >= least * (1 - 1e-12)


@quick
@given(st.integers(0, 300), st.integers(0, 3))
def test_a_record_far_apart_is_told_so_by_counting(seed, spikes):
    x = records(3 * seed + 1, 3000, spikes)
    low, high = np.percentile(x, (1, 99))
    assert doubts._spans(x, 0.5 * (high - low), (1.0, 99.0))


def test_tiny_motions_agree_without_a_fault():
    t = np.arange(200) * 0.01
    found = agreement([Stretch(1e-100 * np.sin(t), 1e-100 * np.cos(t), 0.01)])
    assert found.scale == pytest.approx(1, rel=1e-3)
    assert found.fit == pytest.approx(1, rel=1e-3)
