"""How far draws are widened: by how many laws of friction are left, and where damping may be friction of any."""

from __future__ import annotations

import numpy as np
import pytest

from dynoan.analysis.conditioning.doubt import FEWER, HOLDS, LEAST, ONE_LAW, ONE_SPEED_DOUBT, alone, doubt

NONE = np.zeros(4, dtype=bool)


def test_one_law_alone_is_doubted_most_and_more_laws_less():
    law = np.array([3, 3, 5, 8])
    sure, two = np.array([0.5, 0.5, 0.0, 0.0]), np.array([0.25, 0.25, 0.5, 0.0])
    assert doubt(sure, law, NONE, one_speed=False) == pytest.approx(ONE_LAW)
    assert doubt(two, law, NONE, one_speed=False) == pytest.approx(ONE_LAW - FEWER * np.log(2))


def test_many_laws_are_doubted_least():
    many = np.full(17, 1 / 17)
    assert doubt(many, np.arange(17), np.zeros(17, dtype=bool), one_speed=False) == LEAST


def test_what_may_be_friction_of_any_law_is_doubted_as_likely_as_it_is():
    many, holds = np.full(20, 1 / 20), np.arange(20) < 10
    half = doubt(many, np.arange(20), holds, one_speed=False)
    assert half == pytest.approx(0.5 * (LEAST + HOLDS))
    assert doubt(many, np.arange(20), np.ones(20, dtype=bool), one_speed=False) == pytest.approx(HOLDS)
    assert doubt(np.ones(1), np.zeros(1, dtype=int), np.ones(1, dtype=bool), one_speed=False) == ONE_LAW


def test_one_speed_tells_nothing_of_laws():
    assert doubt(np.ones(1), np.zeros(1, dtype=int), NONE[:1], one_speed=True) == ONE_SPEED_DOUBT


def test_friction_by_itself_is_never_told_closer_for_the_number_of_laws():
    assert LEAST * alone(LEAST) == pytest.approx(ONE_SPEED_DOUBT)
    assert alone(ONE_LAW) == 1.0
