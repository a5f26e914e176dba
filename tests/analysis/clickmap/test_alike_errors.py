"""What all tests of a pack err by alike, friction taken for damping or still in, is in the bands of its map."""

from __future__ import annotations

from dataclasses import replace
from functools import lru_cache

import numpy as np
import pytest

from dynoan.analysis.clickmap.asked.plan import plan
from dynoan.analysis.clickmap.assumptions.data import MOST_LEFT_IN
from dynoan.analysis.clickmap.at_clicks import curve_at
from dynoan.analysis.clickmap.mapping import fit_map
from dynoan.analysis.clickmap.tested.data import axes_of, gather
from dynoan.analysis.clickmap.tested.friction import friction_of
from dynoan.analysis.clickmap.tested.setting import Tested
from dynoan.analysis.clickmap.trends.discrepancy import shared_covariance
from dynoan.analysis.statistics import Z95
from dynoan.model.arrays import FloatArray
from dynoan.model.clickmap import ClickMap, DirectionMap
from dynoan.model.side import Side
from tests.analysis.made_packs import FOUR, GRID, made_pack, sweeps_of

#: the middle of the high-speed screws, and ten places of the others, so that the map is sure of its valve
PLACES = ((10, 10), (0, 20), (20, 0), (5, 15), (15, 5), (3, 3), (17, 17), (8, 1), (12, 19), (10, 6))
TWO = tuple(one for one in FOUR if one.name in ("lsc", "lsr"))
OFF, SD, RUBS = 6.0, 4.0, 33.0
SLOW = np.array([0.02, 0.03, 0.05])


def _moved(test: Tested, newtons: float, sd: float, friction: float) -> Tested:
    """Return a test whose damping is so much more than it was, its band wider by the error of friction's split."""

    def side(old: Side) -> Side:
        force = old.force(GRID)
        low, high = old.band(GRID)
        seen = np.maximum(force + newtons * np.tanh(GRID / 0.002), 0.0)
        down, up = np.hypot(force - low, Z95 * sd), np.hypot(high - force, Z95 * sd)
        return replace(old, forces=seen, low=np.maximum(seen - down, 0.0), high=seen + up)

    curve = test.curve
    return replace(test, curve=replace(curve, compression=side(curve.compression), rebound=side(curve.rebound),
                                       friction=friction, friction_sd=sd))  # fmt: skip


def _four(lsc: int, lsr: int) -> dict[str, int]:
    return {"lsc": lsc, "hsc": 10, "lsr": lsr, "hsr": 10}


@lru_cache
def _tests(newtons: float, sd: float, friction: float) -> tuple[Tested, ...]:
    whole = sweeps_of(made_pack(3), 3, tuple(_four(*place) for place in PLACES))
    own = [replace(t, from_closed={name: t.from_closed[name] for name in ("lsc", "lsr")}) for t in whole]
    return tuple(_moved(test, newtons, sd, friction) for test in own)


@lru_cache
def _map(newtons: float, sd: float, friction: float) -> ClickMap:
    return fit_map("p", TWO, _tests(newtons, sd, friction), view="hydraulic")


def _held(made: ClickMap) -> FloatArray:
    rng, pack, out = np.random.default_rng(9), made_pack(3), []
    for _ in range(30):
        lsc, lsr = (int(n) for n in rng.integers(0, 21, 2))
        curve = curve_at(made, {"lsc": lsc, "lsr": lsr}, pieces=False)
        for side, true in zip((curve.compression, curve.rebound), pack.forces(SLOW, _four(lsc, lsr)), strict=True):
            low, high = side.band(SLOW)
            out.append((low <= true) & (true <= high))
    return np.array(out)


@pytest.mark.slow
def test_no_band_is_narrower_than_what_every_test_errs_by_alike():
    """Each test's friction is known to 4 N, and what is wrong in one is wrong in all: ten of them know it no better."""
    made = _map(-OFF, SD, 21.0)
    for clicks in ({"lsc": 2, "lsr": 4}, {"lsc": 12, "lsr": 9}):
        curve = curve_at(made, clicks, pieces=False)
        for side in (curve.compression, curve.rebound):
            assert np.all(side.band(0.1)[1] - side.force(0.1) > 0.95 * Z95 * SD)
    assert _held(made).mean() > 0.9


@pytest.mark.thorough
@pytest.mark.slow
def test_where_no_test_tells_friction_the_band_reaches_over_all_that_it_may_be_and_says_so():
    made = _map(RUBS, 10.0, float("nan"))
    below, above = made.rebound.alike
    assert below + above == pytest.approx(MOST_LEFT_IN)
    assert _held(made).mean() > 0.9
    assert any("no test of this pack tells it" in note for note in made.notes)
    assert not any("no test of this pack tells it" in note for note in _map(-OFF, SD, 21.0).notes)


def test_more_tests_do_not_average_the_friction_of_a_shock_out():
    one, many = (friction_of(tests)["S1"] for tests in (_tests(-OFF, SD, 21.0)[:1], _tests(-OFF, SD, 21.0)))
    assert 0.8 * SD < many.sd <= one.sd


def test_limits_hold_what_a_half_width_leaves_out():
    table = DirectionMap((), np.array([0.0, 0.5]), np.array([0.0, 100.0]), np.array([0.0, 3.0]), 0.5, alike=(4.0, 0.0))
    force, low, high = table.limits(0.5)
    assert (force[0], low[0], high[0]) == pytest.approx((100.0, 95.0, 103.0))


def test_a_plan_promises_no_less_than_what_no_run_takes_away():
    vague, sharp = (plan("p", TWO, _tests(-OFF, sd, 21.0)[:4], count=2) for sd in (SD, 0.0))
    assert vague.error_after > sharp.error_after + 0.3
    assert vague.runs[0].gain < vague.error_now


def test_how_oil_thins_at_low_speed_is_partly_alike_for_warm_tests_of_a_pack():
    """Warm and cool tests then differ by what the oil does, and no adjuster is held for it."""
    data = gather("compression", axes_of("compression", TWO), list(_tests(0.0, 0.5, RUBS))[:3])
    bare = replace(data, common=0.0 * data.common, split=0.0 * data.split, rubbed=0.0 * data.rubbed)
    s = len(data.speeds)
    alike = shared_covariance(replace(bare, warm=np.array([40.0, 40.0, -3.0])))
    slow, fast = alike[0, s], alike[s - 1, 2 * s - 1]
    assert slow > 3 * fast > 0
    assert alike[0, 2 * s] < 0 < alike[0, 0]
