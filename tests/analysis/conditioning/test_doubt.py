"""How far draws are widened: by how many laws of friction are left."""

from __future__ import annotations

import numpy as np
import pytest

from dynoan.analysis.conditioning.separating.doubt import FEWER, LEAST, ONE_LAW, ONE_SPEED, doubt


def test_one_law_alone_is_doubted_most_and_more_laws_less():
    law = np.array([3, 3, 5, 8])
    sure, two = np.array([0.5, 0.5, 0.0, 0.0]), np.array([0.25, 0.25, 0.5, 0.0])
    assert doubt(sure, law, one_speed=False) == pytest.approx(ONE_LAW)
    assert doubt(two, law, one_speed=False) == pytest.approx(ONE_LAW - FEWER * np.log(2))


def test_many_laws_are_doubted_least():
    assert doubt(np.full(17, 1 / 17), np.arange(17), one_speed=False) == LEAST


def test_one_speed_tells_nothing_of_laws():
    assert doubt(np.ones(1), np.zeros(1, dtype=int), one_speed=True) == ONE_SPEED
