"""A run of a shock that is known to be worn: its pack and clicks are held against it as it is."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from dynoan.analysis.clickmap.asked.identify import identify
from dynoan.model.clickmap import ClickMap, DirectionMap, ShockState
from tests.made import made_curve, made_map

LEFT = 0.75  #: share of rebound that the worn shock has left


def _states(table: DirectionMap, factors: tuple[float, ...]) -> DirectionMap:
    states = np.repeat(np.array(factors)[:, None], len(table.speeds), axis=1)
    return replace(table, states=states, state_variances=np.full(len(factors), 0.0001), spread=0.02)


@pytest.fixture(scope="module")
def known() -> ClickMap:
    made = made_map("mixed", last=12)
    dated = [("RL-03", "2026-03-01"), ("RR-04", "2026-03-01"), ("RR-04", "2026-09-01")]
    return replace(
        made, shocks=("RL-03", "RR-04"), states=tuple(ShockState(name, day, day) for name, day in dated),
        compression=_states(made.compression, (1.0, 1.0, 1.0)), rebound=_states(made.rebound, (1.0, 1.0, LEFT)),
    )  # fmt: skip


@pytest.fixture(scope="module")
def worn():
    new = made_curve("mixed", 6, 6, 5, 6)
    side = new.rebound
    return replace(new, rebound=replace(side, low=side.low * LEFT, high=side.high * LEFT, forces=side.forces * LEFT))


def test_clicks_are_those_it_stood_at_where_the_shock_is_named(known, worn):
    (found,) = identify(worn, [known], "RR-04").candidates
    assert all(found.low[name] <= at <= found.high[name] for name, at in {"lsr": 5, "hsr": 6}.items())
    assert abs(found.from_closed["lsr"] - 5) <= 1
    assert found.surprise > 0.05


@pytest.mark.parametrize(("shock", "date"), [(None, None), ("RL-03", None), ("RR-04", "2026-03-02")])
def test_clicks_of_another_or_of_the_same_before_it_wore_are_softer(known, worn, shock, date):
    (found,) = identify(worn, [known], shock, date).candidates
    assert found.from_closed["lsr"] + found.from_closed["hsr"] > 13
