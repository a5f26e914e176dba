"""The run that would tell two packs apart does so, on packs whose forces are written down."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from dynoan.analysis.clickmap.asked.telling import separation, telling_run
from dynoan.model.clickmap import ClickMap, DirectionMap
from dynoan.model.shock import Adjuster

SPEEDS = np.array([0.0, 0.02, 0.05, 0.1, 0.2, 0.4, 0.6])


def made(name: str, factor: float = 1.0, bent: float = 0.0, band: float = 0.02) -> ClickMap:
    """A map whose compression falls by half over the screw; `bent` makes it steeper over speed where it is open."""
    open_ = np.linspace(0.0, 1.0, 11)[:, None]
    force = factor * 1000 * SPEEDS * 2.0**-open_ * (1 + bent * open_ * np.log1p(SPEEDS / 0.02))
    side = DirectionMap(("c",), SPEEDS, force, band * force + 1e-3, 0.6)
    other = replace(side, adjusters=("r",), force=1000 * SPEEDS * 2.0**-open_)
    knobs = (Adjuster("c", 10, "from closed"), Adjuster("r", 10, "from closed"))
    return ClickMap(name, knobs, side, other, ({"c": 5, "r": 5},))


def test_packs_that_differ_where_the_screw_is_open_want_it_open():
    run = telling_run([made("gravel"), made("mixed", bent=0.2)], [{"c": 0, "r": 3}] * 2)
    assert run is not None
    assert run.from_closed["c"] == 10
    assert run.tells


def test_what_shocks_differ_by_is_no_evidence_and_twins_are_not_told():
    twins = separation((made("gravel"), made("mixed")), ({"c": 10, "r": 0},) * 2)
    assert twins == pytest.approx(0.0, abs=1e-9)
    run = telling_run([made("gravel"), made("mixed", bent=0.002)], [{"c": 0, "r": 3}] * 2)
    assert run is not None
    assert not run.tells


def test_wide_bands_tell_less():
    narrow, wide = (
        separation((made("gravel", band=b), made("mixed", bent=0.2, band=b)), ({"c": 10, "r": 0},) * 2)
        for b in (0.01, 0.3)
    )
    assert wide < 0.3 * narrow


def test_against_a_pack_that_nobody_tested_it_is_the_run_furthest_from_the_one_measured():
    run = telling_run([made("gravel")], [{"c": 1, "r": 9}])
    assert run is not None
    assert run.from_closed == {"c": 10, "r": 0}


def test_with_nothing_to_turn_there_is_none():
    still = replace(made("gravel"), adjusters=())
    assert telling_run([still, still], [{}, {}]) is None
