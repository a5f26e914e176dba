"""What a record says of friction where a shock waits before it moves, and where no one level holds."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from dynoan.analysis.conditioning.channels.standing import waits
from dynoan.analysis.conditioning.condition import condition
from dynoan.analysis.conditioning.found.trace_model import Told
from dynoan.analysis.conditioning.found.words import findings_of
from dynoan.model.arrays import FloatArray
from dynoan.model.sweep import Sweep
from tests.analysis.conditioning.test_resting import recorded

RATE = 1000.0


def after_a_wait(seconds: float) -> tuple[FloatArray, FloatArray]:
    """Return displacement [m] and velocity [m/s] of a servo's sines that begin at their extended end after a wait."""
    t = np.arange(round(3.0 * RATE)) / RATE
    parts = [(0.03 * (1 - np.cos(2 * np.pi * f * t)), 0.06 * np.pi * f * np.sin(2 * np.pi * f * t)) for f in (1.0, 2.0)]
    still = np.zeros(round(seconds * RATE))
    x, v = (np.concatenate([still, *(part[i] for part in parts)]) for i in (0, 1))
    return x - 0.03, v


def stuck(seconds: float, share: float) -> Sweep:
    """Return a record of friction of 30 N that holds by such a share before the first motion. SI."""
    x, v = after_a_wait(seconds)
    rubs = 30.0 * np.tanh(v / 0.0005)
    rubs[: round(seconds * RATE)] = 30.0 * share
    return recorded(x, 2000.0 * v + rubs + 150.0 + 800.0 * x, noise=0.5, rate=RATE)


@pytest.mark.parametrize("share", [-1.0, 1.0])
def test_how_the_seals_were_held_before_the_first_motion_is_not_gas_force(share):
    model = condition(stuck(0.15, share)).model
    assert abs(model.offset.value - 150.0) < 2.5 * model.offset.sd + 0.5
    assert model.offset.sd < 6.0
    assert model.friction.value == pytest.approx(30.0, abs=2.5 * model.friction.sd)


def test_a_wait_lasts_until_the_seals_slide():
    x, _ = after_a_wait(0.15)
    still = waits(x, 0.0, 1.0 / RATE)
    gone = np.abs(x - x[0]) > 1e-4
    assert still[:150].all()
    assert np.flatnonzero(~still)[0] == np.flatnonzero(gone)[0]
    assert not still[400:-200].any()


def test_a_record_that_begins_in_motion_waits_nowhere():
    x = 0.03 * np.sin(2 * np.pi * 0.5 * np.arange(4000) / RATE)
    assert not waits(x, 1e-6, 1.0 / RATE).any()


def test_friction_is_never_known_better_than_a_seal_keeps_its_level():
    model = condition(stuck(0.0, 0.0)).model
    assert 0.045 * 30.0 < model.friction.sd < 0.12 * 30.0
    v = np.array([0.05, 0.2])
    draws = model.open.damping(v)
    assert np.corrcoef(draws[:, 0], model.open.friction(v)[:, 0])[0, 1] < -0.8


def test_a_lag_without_displacement_may_be_the_gas():
    sweep = stuck(0.0, 0.0)
    model = replace(condition(sweep).model, lag=Told(0.003, 0.0005))
    alone = replace(sweep, channels={name: c for name, c in sweep.channels.items() if name != "displacement"})
    for record, alike in ((sweep, False), (alone, True)):
        said = [line for line in findings_of(model, record, one_speed=False) if line.startswith("force channel")]
        assert len(said) == 1
        assert ("or the gas is a spring" in said[0]) is alike
