"""Limits of a ratio: what friction leaves open of it weighs less the further a swing goes."""

from __future__ import annotations

import numpy as np
import pytest

from dynoan.analysis.bounce.assumptions import AMPLITUDE, MODEL_FRICTION, PASSED
from dynoan.analysis.bounce.limits import fit_of
from dynoan.analysis.bounce.problem import LOGS, KnownCorner, Logged, Problem
from dynoan.analysis.bounce.pushes import Swing
from dynoan.analysis.bounce.swing import swing
from dynoan.analysis.statistics import Z95

RATIO, FRICTION = 0.05, 0.36  #: of a swing at 1.5 Hz; over the mass [m/s²]


def fitted(push: float):
    """Return what the true values of a swing that begins so far down [m] tell, of samples without noise."""
    time = np.arange(0.0, 2.5, 0.01)
    made = Problem(Logged(time, np.zeros(250), False), (Swing(0, 250, push),), KnownCorner())
    theta = np.concatenate([made.middle, [push, 0.0, 0.0]])
    theta[0], theta[2], theta[6] = np.log([(3 * np.pi) ** 2, 2 * RATIO * 3 * np.pi, FRICTION])
    values = swing(time, np.array([push, 0.0]), made.parameters(theta))[0]
    problem = Problem(Logged(time, values, False), (Swing(0, 250, push),), KnownCorner())
    return fit_of(problem, [theta[: LOGS + 3]], 1e-6, AMPLITUDE).ratio


@pytest.mark.parametrize(("push", "passed"), [(0.015, AMPLITUDE), (0.100, 0.100 * PASSED)])
def test_friction_counts_beside_the_damping_of_the_travel_that_was_passed(push, passed):
    found = fitted(push)
    share = MODEL_FRICTION * 2 / np.pi * FRICTION / (3 * np.pi) ** 2 / passed / found.value
    spread = np.log(found.high / found.low) / (2 * Z95)
    assert spread == pytest.approx(share, rel=0.05)
