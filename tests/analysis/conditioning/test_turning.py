"""Rows where force turns sharply behind a spring: damping there is not known from the rate of force."""

from __future__ import annotations

import numpy as np
import pytest

from dynoan.analysis.conditioning.condition import condition
from dynoan.analysis.conditioning.samples.turning import missed, sharpness
from dynoan.model.sweep import Source, Sweep
from fixtures.make_demo import RIG
from fixtures.rig import PACKS, record

PLACE = np.repeat(np.arange(4), 500)


def test_noise_is_no_turn() -> None:
    turn = np.diff(np.random.default_rng(2).normal(0.0, 3.0, len(PLACE) + 2), 2)
    assert not sharpness(turn, np.full(len(PLACE), 9.0), PLACE).any()


def test_a_turn_comes_out_of_noise_as_large_as_it_is() -> None:
    turn = np.diff(np.random.default_rng(2).normal(0.0, 3.0, len(PLACE) + 2), 2) + 20.0 * (PLACE == 1)
    sharp = sharpness(turn, np.full(len(PLACE), 9.0), PLACE)
    assert sharp[PLACE == 1] == pytest.approx(20.0, rel=0.1)
    assert not sharp[PLACE != 1].any()


def test_no_more_is_missed_than_what_turns() -> None:
    assert missed(np.full(3, 50.0), np.array([0.05, 0.4, 30.0])) == pytest.approx([0.0, 15.0, 50.0])


def test_friction_is_told_behind_oil_that_gives_at_few_samples_a_turn() -> None:
    """The demo's rig: fast blocks turn around within two samples, and the slow ones tell what friction is."""
    made = record(PACKS["tarmac"], {"lsc": 10, "hsc": 10, "lsr": 10, "hsr": 10}, RIG, 2)
    channels = {name: getattr(made, name) for name in ("time", "displacement", "velocity", "force")}
    found = condition(Sweep("trace", channels, Source("made.csv", "0" * 64), rate=RIG.rate))
    assert found.friction == pytest.approx(18.0, abs=3.0)
