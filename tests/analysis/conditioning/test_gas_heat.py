"""Gas that warms and cools is told from oil that fades."""

from __future__ import annotations

import numpy as np
import pytest

from dynoan.analysis.conditioning.assumptions import GAS_SETTLES
from dynoan.analysis.conditioning.condition import condition
from dynoan.analysis.conditioning.samples.gas_heat import unsettled
from tests.worlds.rows import draw
from tests.worlds.with_dynoan import sweep_of


@pytest.mark.parametrize("dt", [0.001, 0.02])
def test_what_gas_has_not_got_used_to_follows_its_differential_equation(dt):
    t = np.arange(0.0, 40.0, dt)
    x = 0.01 * np.sin(t)
    for settles, found in zip(GAS_SETTLES, unsettled(x, dt).T, strict=True):
        # settles dy/dt + y = settles dx/dt, y = 0 at rest before
        lag = 1.0 / (1.0 + settles**2)
        exact = 0.01 * settles * lag * (settles * np.sin(t) + np.cos(t) - np.exp(-t / settles))
        np.testing.assert_allclose(found, exact, atol=0.01 * dt / min(settles, 1.0))


def test_without_time_gas_is_taken_as_settled():
    assert not unsettled(np.array([0.0, 0.01, 0.0]), None).any()


def test_gas_that_gives_its_warmth_away_in_slow_runs_is_no_fade():
    model = condition(sweep_of(draw("gas warms", 2))).model
    assert model is not None
    assert model.heat.clear
    assert abs(model.fade.value) < 0.005
    assert model.heat.value == pytest.approx(0.286 * model.slope.value, rel=0.5)
