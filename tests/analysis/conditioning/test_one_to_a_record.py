"""What yields may be friction, and friction what yields: as far as either is unusual, and both together stay."""

from __future__ import annotations

from types import SimpleNamespace

import numpy as np
import pytest
from numpy.testing import assert_allclose

from dynoan.analysis.conditioning.assumptions import (
    FRICTION_SPREAD,
    TURNING_SPEEDS,
    USUAL_FRICTION,
    VALVE_INSTEAD,
    YIELD_SPEEDS,
)
from dynoan.analysis.conditioning.separating.one_to_a_record import (
    either_way,
    middle_of_either,
    starting_unlike,
    valve_instead,
)

MANY = len(YIELD_SPEEDS)
PROBLEM = SimpleNamespace(
    steps=np.zeros(0),
    effects=[SimpleNamespace(name=f"turn {TURNING_SPEEDS[-1]:g}", kind="friction")]
    + [SimpleNamespace(name=f"yield {i}", kind="yield") for i in range(2 * MANY)],
)


def holding(friction: float) -> np.ndarray:
    """Return coefficients of a friction beside a fluid that yields at 200 N."""
    return np.concatenate([[friction], np.full(2 * MANY, 200.0 / MANY)])


@pytest.mark.parametrize(
    ("friction", "slow", "found"),
    [
        (0.0, 1.0, 0.5 * USUAL_FRICTION),
        (0.0, 0.0, 0.0),
        (USUAL_FRICTION, 1.0, USUAL_FRICTION),
        (100.0, 1.0, 100.0 - 0.5 * (100.0 - USUAL_FRICTION - FRICTION_SPREAD)),
    ],
)
def test_middle_goes_half_the_way_to_what_is_usual(friction, slow, found):
    x = middle_of_either(PROBLEM, holding(friction), slow)
    assert x[0] == pytest.approx(found)
    for way in (x[1 : 1 + MANY], x[1 + MANY :]):
        assert x[0] + way.sum() == pytest.approx(friction + 200.0)


def test_draws_of_hardly_any_friction_reach_what_is_usual():
    draws = either_way(PROBLEM, np.tile(holding(0.0), (400, 1)), 1.0, np.random.default_rng(3))
    assert np.mean(draws[:, 0] > USUAL_FRICTION) > 0.2
    assert draws[:, 0].min() >= 0.0
    assert_allclose(draws[:, : 1 + MANY].sum(axis=1), 200.0)


def test_strong_friction_may_be_a_valve_that_holds_from_rest_and_usual_friction_is_not():
    usual, strong = USUAL_FRICTION + FRICTION_SPREAD, 130.0
    draws = valve_instead(PROBLEM, np.tile(holding(usual), (400, 1)), VALVE_INSTEAD, np.random.default_rng(3))
    assert_allclose(draws[:, 0], usual)
    draws = valve_instead(PROBLEM, np.tile(holding(strong), (400, 1)), VALVE_INSTEAD, np.random.default_rng(3))
    assert draws[:, 0].min() == pytest.approx(USUAL_FRICTION, abs=2.0)
    assert np.mean(draws[:, 0] == strong) == pytest.approx(1 - VALVE_INSTEAD, abs=0.08)
    assert_allclose(draws[:, : 1 + MANY].sum(axis=1), strong + 200.0)


def test_in_a_larger_shock_as_much_more_friction_is_usual():
    usual = 3.0 * (USUAL_FRICTION + FRICTION_SPREAD)
    luck = np.random.default_rng(3)
    assert_allclose(valve_instead(PROBLEM, np.tile(holding(usual), (400, 1)), 1.0, luck, 3.0)[:, 0], usual)
    assert valve_instead(PROBLEM, np.tile(holding(usual), (400, 1)), 1.0, luck)[:, 0].mean() < 0.8 * usual


def started(at_once: float):
    """Return columns and draws of a damping of 400 N each way at 50 mm/s, a share of it there at once."""
    edges = np.array([0.001, 0.004, 0.02, 0.06])
    columns = SimpleNamespace(size=8, sizes=(4, 4), edges=(edges, edges))
    share = np.array([at_once, 0.5 * (1 - at_once), 0.5 * (1 - at_once), 0.0])
    names = ["offset", *(f"yield {i}" for i in range(2 * MANY))]
    return columns, np.tile(np.concatenate([400 * share, 400 * share, np.zeros(1 + 2 * MANY)]), (600, 1)), names


def test_a_valve_that_is_there_at_once_may_be_so_unlike_both_ways_in_place_of_gas_force():
    columns, found, names = started(0.9)
    draws = starting_unlike(columns, found, names, np.random.default_rng(1))
    gas = draws[:, 8]
    assert 30.0 < gas.std() < 60.0
    assert gas.mean() == pytest.approx(0.0, abs=1e-9)
    # What the record tells stays: both together, each way.
    assert_allclose(gas + draws[:, :4].sum(axis=1), 400.0)
    assert_allclose(gas - draws[:, 4:8].sum(axis=1), -400.0)


def test_a_valve_that_comes_in_by_and_by_is_alike_both_ways():
    columns, found, names = started(0.4)
    assert starting_unlike(columns, found, names, np.random.default_rng(1)) is found
