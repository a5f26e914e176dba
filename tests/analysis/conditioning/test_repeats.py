"""A logger that writes the last displacement again: said, and the speed is that of the motion."""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from dynoan.analysis.conditioning.channels.blocks import cut
from dynoan.analysis.conditioning.channels.record import prepare
from dynoan.analysis.conditioning.channels.velocity import find_motion
from dynoan.model.sweep import Sweep
from tests.analysis.conditioning_records import RUN, SOFT, recorded


def repeating(share: float) -> Sweep:
    sweep = recorded(SOFT, 5, replace(RUN, rate=400.0))
    x = sweep.channels["displacement"]
    new = np.random.default_rng(2).random(len(x)) >= share
    new[0] = True
    last = np.maximum.accumulate(np.where(new, np.arange(len(x)), 0))
    return replace(sweep, channels={**sweep.channels, "displacement": x[last]})


def test_it_is_said_with_its_share_and_speed_is_that_of_the_motion():
    record = prepare(repeating(0.3))
    said = [line for line in record.findings if "wrote the last displacement again" in line]
    assert len(said) == 1
    assert "30 %" in said[0] or "29 %" in said[0] or "31 %" in said[0]
    plain, speed = (
        find_motion(one, cut(one.displacement, one.stretches)).velocity for one in (prepare(repeating(0.0)), record)
    )
    off = np.abs(speed - plain)[50:-50]
    assert np.percentile(off, 95) < 0.01 * np.max(np.abs(plain))
    assert np.max(np.abs(speed)) < 1.03 * np.max(np.abs(plain))
