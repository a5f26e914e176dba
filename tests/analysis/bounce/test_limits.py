"""Limits of a ratio: what friction leaves open of it weighs less the further a swing goes."""

from __future__ import annotations

import numpy as np
import pytest

from dynoan.analysis.bounce.assumptions import AMPLITUDE, MODEL_FRICTION, OPEN_FREQUENCY, PASSED
from dynoan.analysis.bounce.limits import fit_of
from dynoan.analysis.bounce.problem import LOGS, KnownCorner, Logged, Problem
from dynoan.analysis.bounce.pushes import Swing
from dynoan.analysis.bounce.swing import swing
from dynoan.analysis.statistics import Z95

RATIO, FRICTION = 0.05, 0.36  #: of a swing at 1.5 Hz; over the mass [m/s²]


def fitted(push: float, ratio: float = RATIO, scatter: float = 1e-6):
    """Return what the true values of a swing that begins so far down [m] tell, of samples that scatter so."""
    time = np.arange(0.0, 2.5, 0.01)
    made = Problem(Logged(time, np.zeros(250), False), (Swing(0, 250, push),), KnownCorner())
    theta = np.concatenate([made.middle, [push, 0.0, 0.0]])
    theta[0], theta[2], theta[6] = np.log([(3 * np.pi) ** 2, 2 * ratio * 3 * np.pi, FRICTION])
    values = swing(time, np.array([push, 0.0]), made.parameters(theta))[0]
    problem = Problem(Logged(time, values, False), (Swing(0, 250, push),), KnownCorner())
    return fit_of(problem, [theta[: LOGS + 3]], scatter, AMPLITUDE)


def spread(value):
    """Return the standard deviation of a figure's logarithm as its limits have it. [1]"""
    return np.log(value.high / value.low) / (2 * Z95)


@pytest.mark.parametrize(("push", "passed"), [(0.015, AMPLITUDE), (0.100, 0.100 * PASSED)])
def test_friction_counts_beside_the_damping_of_the_travel_that_was_passed(push, passed):
    found = fitted(push).ratio
    share = MODEL_FRICTION * 2 / np.pi * FRICTION / (3 * np.pi) ** 2 / passed / found.value
    assert spread(found) == pytest.approx(share, rel=0.05)


def test_a_frequency_that_cannot_be_stated_is_open_with_its_ratio(monkeypatch):
    found = fitted(0.03, ratio=0.5, scatter=1e-3)
    monkeypatch.setattr("dynoan.analysis.bounce.assumptions.OPEN_FREQUENCY", 0.0)
    alone = fitted(0.03, ratio=0.5, scatter=1e-3)
    assert not alone.frequency_stated
    more = OPEN_FREQUENCY * found.ratio.value**2 * spread(found.ratio)
    for name in ("frequency", "free"):
        wider, narrow = (spread(getattr(fit, name)) for fit in (found, alone))
        assert wider == pytest.approx(np.hypot(narrow, more))
