"""Scatter between repeats where one, or all, show no force."""

from __future__ import annotations

import numpy as np
import pytest

from dynoan.analysis.fitting.cells import Points
from dynoan.analysis.fitting.repeats import between_sweeps
from dynoan.analysis.knees.broken_line import BrokenStick


def stick(*values: float) -> BrokenStick:
    knots = np.linspace(0.0, 0.2, len(values))
    straight = np.zeros(len(values) - 1)
    return BrokenStick(knots, np.array(values), straight, straight > 0, 1.0, 8, pinned=True)


def points(*sweep: int) -> Points:
    speed = np.linspace(0.02, 0.2, len(sweep))
    return Points(speed, 10.0 * speed, np.ones(len(sweep)), np.arange(len(sweep)), np.array(sweep))


def test_no_force_has_no_share_that_scatters():
    assert between_sweeps(points(0, 1, 0, 1), stick(0.0, 0.0)) == 0.0


@pytest.mark.filterwarnings("error")
def test_a_repeat_that_saw_none_of_the_force_adds_no_scatter():
    blind = points(0, 0, 1, 1)  # the first run stays where the curve has not risen
    assert 0.0 < between_sweeps(blind, stick(0.0, 0.0, 2.0)) < 1.0
    assert between_sweeps(points(0, 0, 0, 0), stick(0.0, 2.0)) == 0.0
