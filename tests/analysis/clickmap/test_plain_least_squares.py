"""Plain least squares over clicks, on lines whose slopes are set here."""

from __future__ import annotations

import numpy as np
import pytest

from dynoan.analysis.clickmap.tested.data import DirectionData
from dynoan.analysis.clickmap.tested.plain_least_squares import clearly_rises, plain_slopes
from dynoan.model.shock import Adjuster

AXES = (Adjuster("lsc", 20), Adjuster("hsc", 20))
CLICKS = np.array([(a, b) for a in (0, 7, 13, 20) for b in (0, 10, 20)], dtype=float)


def _data(slope: float, other: float, noise: float = 0.0) -> DirectionData:
    """One direction whose logarithm moves so much over a turn of either axis; at the second speed by a tenth of it."""
    off = noise * np.random.default_rng(3).standard_normal((len(CLICKS), 1))
    line = (CLICKS / 20) @ np.array([slope, other])
    logs = 5.0 + line[:, None] * np.array([1.0, 0.1]) + off
    none = np.zeros(len(CLICKS), dtype=int)
    return DirectionData("compression", AXES, CLICKS, np.array([0.05, 0.5]), logs, np.full_like(logs, 1e-6), none, 0.5,
                         moved=(True, True))  # fmt: skip


def test_slopes_are_those_of_the_line():
    data = _data(-0.8, 0.3)
    found = plain_slopes(data, data.logs[:, 0])
    assert found[0][0] == pytest.approx(-0.8, rel=0.01)
    assert found[1][0] == pytest.approx(0.3, rel=0.01)


def test_a_clear_rise_is_told_from_a_fall_and_from_scatter():
    assert clearly_rises(_data(-0.8, 0.5), 1, 2.5)
    assert not clearly_rises(_data(-0.8, 0.5), 0, 2.5)
    assert not clearly_rises(_data(-0.8, 0.03, noise=0.1), 1, 2.5)
