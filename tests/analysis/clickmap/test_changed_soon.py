"""A shock that changes within weeks is not pooled with itself as it was; one that only scatters is."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from dynoan.analysis.clickmap.at_clicks import curve_at
from dynoan.analysis.clickmap.mapping import fit_map
from dynoan.analysis.clickmap.tested.setting import Tested
from dynoan.analysis.clickmap.tested.states import states_of
from dynoan.model.curve import Curve
from dynoan.model.side import Side
from tests.worlds.packs.rows import draw
from tests.worlds.packs.with_dynoan import as_tested, shock_of

WORLD = draw("retest worn", 1)
KIND = shock_of(WORLD.library)
TESTED = tuple(replace(one, date="2026-03-01") for one in as_tested(KIND, WORLD.library.of("gravel")))


def again(share: float, date: str) -> Tested:
    """The first setting run again, its rebound weaker by a share."""
    first = TESTED[0]
    return replace(first, curve=weaker(first.curve, 1.0 - share), date=date)


def weaker(curve: Curve, factor: float) -> Curve:
    side = curve.rebound
    assert side.total is not None
    assert side.forces is not None
    rubbing = side.total[0] - side.forces
    total = (side.forces * factor + rubbing, *(limit - side.forces * (1.0 - factor) for limit in side.total[1:]))
    less: Side = replace(side, forces=side.forces * factor, low=side.low * factor, high=side.high * factor, total=total)
    return replace(curve, rebound=less)


@pytest.mark.parametrize(("share", "states"), [(0.0, 1), (0.03, 1), (0.15, 2)])
def test_a_run_of_the_same_setting_a_month_later_tells_whether_it_is_another_state(share, states):
    assert len(states_of([*TESTED, again(share, "2026-03-31")])[0]) == states


def test_runs_of_one_day_are_one_state_however_they_scatter():
    assert len(states_of([*TESTED, again(0.15, "2026-03-01")])[0]) == 1


@pytest.mark.thorough
def test_the_map_has_the_shock_as_it_is_and_as_it_was():
    made = fit_map("gravel", KIND.adjusters, [*TESTED, again(0.15, "2026-03-31")])
    at, v = made.tested[-1], -0.25
    before, now = (curve_at(made, at, shock=WORLD.shock, date=day) for day in ("2026-03-01", "2026-03-31"))
    low, high = now.band(v)
    assert float(np.abs(now(v)) / np.abs(before(v))) == pytest.approx(0.85, abs=0.05)
    assert float(high - low) < 0.3 * abs(float(now(v)))
    assert curve_at(made, at, shock=WORLD.shock)(v) == pytest.approx(now(v))
