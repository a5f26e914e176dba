"""Runs of one setting at one speed each: gas, friction and lag are told by all of them, where they agree."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from dynoan.analysis.conditioning.condition import condition_runs
from dynoan.analysis.fitting.fit import fit
from dynoan.model.sweep import Sweep
from tests.worlds.builders import with_motion
from tests.worlds.rows import BY_NAME
from tests.worlds.score import grid
from tests.worlds.with_dynoan import sweep_of
from tests.worlds.world import Record, simulate


@pytest.fixture(scope="module")
def runs() -> tuple[Record, Record]:
    """One clean shock, run at 0.05 m/s alone and at 0.35 m/s alone."""
    rng = np.random.default_rng(11)
    world = BY_NAME["clean"].build(rng)
    slow, fast = (
        simulate(with_motion(world, peaks_m_s=(top,), cycles=8), f"at {top} m/s", 11, rng) for top in (0.05, 0.35)
    )
    return slow, fast


def zeroed(sweep: Sweep, shift: float) -> Sweep:
    """The same run with the cell's zero moved by so much. [N]"""
    return replace(sweep, channels={**sweep.channels, "force": sweep.channels["force"] + shift})


def test_a_slow_run_tells_what_a_fast_one_leaves_open(runs):
    fast, both = fit(sweep_of(runs[1])), fit([sweep_of(run) for run in runs])
    v = grid(runs[1])
    truth = runs[1].truth(v)
    low, high = both.band(v)
    assert np.mean((low <= truth) & (truth <= high)) > 0.9
    # Both standing still between runs, the fast one by itself knows its gas force, too.
    assert np.median(high - low) < 0.85 * np.median(np.subtract(*fast.band(v)[::-1]))
    assert both.friction_sd < 0.85 * fast.friction_sd
    assert any("agree in gas force, friction and lag" in line for line in both.findings)
    assert not any("one speed alone: " in line for line in both.findings)


@pytest.mark.thorough
def test_a_cell_zeroed_in_between_keeps_runs_apart_and_is_said(runs):
    slow, fast = (sweep_of(run) for run in runs)
    shift = 0.2 * float(np.ptp(slow.channels["force"]))
    parts = condition_runs([slow, zeroed(fast, shift)])
    assert len(parts) == 2
    assert all("does not fit all runs" in part.findings[-1] for part in parts)


@pytest.mark.thorough
def test_runs_of_the_same_speed_stay_repeats(runs):
    fast = sweep_of(runs[1])
    assert len(condition_runs([fast, fast])) == 2
