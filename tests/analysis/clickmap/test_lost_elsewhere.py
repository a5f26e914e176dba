"""What a worn shock has lost at the setting that was run is known there; at other clicks the band opens."""

from __future__ import annotations

import numpy as np
import pytest

from dynoan.analysis.clickmap.shocks.losses import apart
from dynoan.model.clickmap import LossDoubt

SPEEDS = np.geomspace(0.005, 0.6, 48)
AT = np.array([0.02, 0.05, 0.1, 0.2, 0.4])


def valve(bleed: float, leak: float = 0.0, stack: float = 1.0) -> np.ndarray:
    """Force of a bleed and a blow-off side by side, a laminar leak beside them, over `SPEEDS`. [N]"""
    force = np.geomspace(0.01, 20000.0, 4000)
    through = bleed * np.sqrt(force / 1000) + leak * force / 1000 + 0.4 * np.maximum(force / 1000 - 0.5, 0.0)
    return np.asarray(stack * np.interp(SPEEDS, through, force))


def lost(sound: np.ndarray, worn: np.ndarray) -> np.ndarray:
    return np.asarray(np.interp(AT, SPEEDS, np.log(sound / worn)))


def test_the_band_opens_where_a_leak_takes_another_share_than_where_it_was_seen():
    here, closed, open_ = valve(0.1), valve(0.05), valve(0.3)
    seen = lost(here, valve(0.1, leak=0.08))
    doubt = np.sqrt(apart(SPEEDS, here, np.array([here, closed, open_]), AT, seen))
    off = [np.abs(lost(one, valve(bleed, leak=0.08)) - seen) for one, bleed in ((closed, 0.05), (open_, 0.3))]
    assert doubt[0] == pytest.approx(0.0, abs=0.01)
    assert np.max(off) > 0.15
    assert np.all(off < 1.96 * doubt[1:] + 0.02)


def test_a_loss_of_one_share_at_all_speeds_is_carried_as_such():
    here, closed = valve(0.1), valve(0.05)
    doubts = {
        kind: float(np.sqrt(np.mean(apart(SPEEDS, here, closed[None, :], AT, lost(here, worn)))))
        for kind, worn in (("stack", valve(0.1, stack=0.8)), ("leak", valve(0.1, leak=0.08)))
    }
    mean = {kind: float(np.mean(lost(here, worn))) for kind, worn in
            (("stack", valve(0.1, stack=0.8)), ("leak", valve(0.1, leak=0.08)))}  # fmt: skip
    assert doubts["stack"] / mean["stack"] < 0.7 * doubts["leak"] / mean["leak"]


def test_one_setting_of_a_doubt_lies_between_its_neighbours():
    doubt = LossDoubt(
        (np.array([0.0, 4.0, 10.0]),), np.array([0.1, 0.2]), np.array([[[0.0, 0.1], [0.2, 0.3], [0.8, 0.9]]])
    )
    np.testing.assert_allclose(doubt.one((1,)).variances, [[0.05, 0.15]])
    np.testing.assert_allclose(doubt.one((10,)).variances, [[0.8, 0.9]])
