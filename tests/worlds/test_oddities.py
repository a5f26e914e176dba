"""Oddities of rigs and shocks by themselves, against what they are said to be."""

from __future__ import annotations

import numpy as np
import pytest

from tests.worlds.oddities import Oddities, averaged

TIME = np.arange(0.0, 2.0, 1e-4)
X, V = -0.02 * np.cos(2 * np.pi * TIME), 0.04 * np.pi * np.sin(2 * np.pi * TIME)


def test_means_keep_the_mean():
    values = np.arange(23.0)
    assert averaged(values, 5) == pytest.approx([2.0, 7.0, 12.0, 17.0])


def test_a_void_takes_damping_off_at_the_start_of_compression_alone():
    factor = Oddities(void_m=3e-4).factor(X, V)
    assert np.all(factor[V < 0] == 1.0)
    second = (TIME > 1.0) & (V > 0)
    gone = X[second] - X[second][0]
    one = int(np.argmax(gone > 3e-4))
    assert factor[second][one] == pytest.approx(1.0 - np.exp(-1.0), abs=0.01)


def test_a_sticking_poppet_is_even_over_a_stroke():
    factor = Oddities(sticking=0.02).factor(X, V)
    assert factor.max() == pytest.approx(1.02, abs=1e-3)
    assert factor.min() == pytest.approx(0.98, abs=1e-3)
    assert np.mean(factor) == pytest.approx(1.0, abs=1e-3)
