"""Click maps judged on made-up packs whose valve is another than the one fitted."""

from __future__ import annotations

import numpy as np
import pytest

from dynoan.analysis.clickmap.at_clicks import curve_at
from dynoan.analysis.clickmap.every_click.one_shock import named_shock
from dynoan.analysis.clickmap.mapping import fit_map
from dynoan.analysis.clickmap.tested.setting import Tested
from dynoan.errors import CallError, FitError
from dynoan.model.clickmap import ClickMap
from dynoan.model.shock import Adjuster
from tests.analysis.made_packs import (
    FOUR,
    NINE,
    TWO,
    OtherPack,
    low_only,
    low_places,
    made_pack,
    measured,
    sweeps_of,
    units,
)
from tests.often import often

SPEEDS = np.geomspace(0.025, 0.5, 12)
PLACES = low_places((10, 10), (0, 20), (20, 0), (20, 20), (0, 0), (5, 14), (14, 5), (3, 10), (10, 3))


def judged(
    made: ClickMap, pack: OtherPack, scale: tuple[float, float] = (1.0, 1.0), count: int = 200
) -> tuple[float, float, float]:
    """Return the median and 95th percentile error [%] at untested settings, and how often the band holds [%]."""
    rng = np.random.default_rng(77)
    errors, held = [], []
    while len(errors) < count:
        clicks = {name: int(rng.integers(0, 21)) for name in ("lsc", "hsc", "lsr", "hsr")}
        if clicks in NINE:
            continue
        c, r = pack.forces(SPEEDS, clicks)
        truth = np.concatenate([c * scale[0], -r * scale[1]])
        force, half = made.force(clicks, np.concatenate([SPEEDS, -SPEEDS]))
        errors.append(np.abs(force - truth) / np.abs(truth))
        held.append(np.abs(force - truth) <= half)
    return 100 * float(np.median(errors)), 100 * float(np.percentile(errors, 95)), 100 * float(np.mean(held))


@pytest.fixture(scope="module")
def nine():
    """Nine tests of one shock, and their map."""
    tests = sweeps_of(made_pack(2), 2)
    return tests, fit_map("mixed", FOUR, tests)


@pytest.mark.parametrize("seed", [11, 12, 13])
@pytest.mark.thorough
def test_nine_tests_of_one_shock_foretell_its_untested_settings(seed):
    pack = made_pack(seed)
    scale = units(np.random.default_rng(seed), 1)[0]
    made = fit_map("mixed", FOUR, sweeps_of(pack, seed))
    median, p95, held = judged(made, pack, scale)
    assert median < 3.0
    assert p95 < 8.0
    assert held >= 90.0


@pytest.mark.parametrize("seed", [21, *(pytest.param(seed, marks=pytest.mark.thorough) for seed in (22, 23))])
def test_nine_tests_spread_over_three_shocks_foretell_the_mean_shock(seed):
    pack = made_pack(seed)
    made = fit_map("mixed", FOUR, sweeps_of(pack, seed, shocks=3))
    median, p95, held = judged(made, pack)
    assert median < 3.0
    assert p95 < 8.0
    assert held >= 90.0
    assert 0.2 < made.spread_pct < 6.0


def test_the_band_widens_away_from_tested_ground():
    pack = made_pack(3)
    places = low_places((2, 2), (8, 2), (2, 8), (8, 8), (5, 5))
    made = fit_map("mixed", TWO, low_only(sweeps_of(pack, 3, places)))
    share = made.compression.half_width / np.maximum(made.compression.force, 1.0)
    at = int(np.searchsorted(made.compression.speeds, 0.1))
    near, far = (dict.fromkeys(("lsc", "lsr"), n) for n in (5, 20))
    assert share[made.compression.index(far)][at] > 2 * share[made.compression.index(near)][at]


def test_a_tested_setting_is_given_back(nine):
    tests, made = nine
    for test in tests:
        curve = curve_at(made, test.from_closed)
        assert curve.standing == "tested"
        np.testing.assert_allclose(curve(SPEEDS), test.curve(SPEEDS), rtol=0.03, atol=2.0)


def test_force_never_rises_as_an_adjuster_opens(nine):
    _, made = nine
    for table in (made.compression, made.rebound):
        seen = table.speeds <= table.top_speed
        for axis in range(len(table.adjusters)):
            rise = np.diff(table.force[..., seen], axis=axis)
            # The discrepancy may ripple by its own size, not more.
            assert np.all(rise <= 0.02 * np.max(table.force[..., seen]))


def test_crossing_is_found_where_it_is_and_not_where_it_is_not(nine):
    _, made = nine
    assert made.compression.adjusters == ("lsc", "hsc", "lsr")
    assert made.rebound.adjusters == ("lsr", "hsr")


def test_one_tested_setting_gives_wide_bands_elsewhere():
    pack = made_pack(6)
    made = fit_map("mixed", FOUR, sweeps_of(pack, 6, NINE[:1]))
    assert made.view == "single"
    here, away = curve_at(made, NINE[0]), curve_at(made, NINE[0] | {"lsc": 20})
    speed = np.array([0.1])
    np.testing.assert_allclose(here(speed), pack.forces(speed, NINE[0])[0], rtol=0.05)
    low, high = away.band(speed)
    assert (high - low)[0] > 0.5 * here(speed)[0]
    assert away.standing == "outside"
    assert any("no test moves lsc" in note for note in made.notes)


def test_an_adjuster_that_no_test_moved_is_named_and_its_band_is_wide():
    pack = made_pack(7)
    settings = tuple(dict(s) | {"hsc": 10} for s in NINE)
    made = fit_map("mixed", FOUR, sweeps_of(pack, 7, settings))
    assert any("no test moves hsc (all sit at 10 from closed)" in note for note in made.notes)
    speed = np.array([0.3])
    _, here = made.force({"lsc": 10, "hsc": 10, "lsr": 10, "hsr": 10}, speed)
    force, away = made.force({"lsc": 10, "hsc": 0, "lsr": 10, "hsr": 10}, speed)
    truth = pack.forces(speed, {"lsc": 10, "hsc": 0, "lsr": 10, "hsr": 10})[0]
    assert away[0] > 3 * here[0]
    assert abs(force[0] - truth[0]) <= away[0]


@pytest.mark.thorough
def test_tests_that_do_not_state_an_adjuster_are_used_and_said_so():
    tests = low_only(sweeps_of(made_pack(8), 8, PLACES[:6]))
    tests[3] = Tested(tests[3].shock, {"lsc": tests[3].from_closed["lsc"]}, tests[3].curve)
    made = fit_map("mixed", TWO, tests)
    assert any("1 of 6 tests do not state lsr" in note for note in made.notes)


@pytest.mark.parametrize(
    "adjusters",
    often(
        2, [(Adjuster("c", 14), Adjuster("r", 14)), (), (Adjuster("cr", 24),), (Adjuster("lsc", 8), Adjuster("r", 30))]
    ),
)
def test_adjusters_of_any_kind(adjusters):
    pack = made_pack(9)
    shares = (0.0, 0.25, 0.75, 1.0)
    tests = []
    for i, share in enumerate(shares if adjusters else shares[:1]):
        clicks = {a.name: round(share * a.clicks) for a in adjusters}
        turned = dict.fromkeys(("lsc", "hsc", "lsr", "hsr"), round(share * 20))
        tests.append(Tested("FL-01", clicks, measured(pack, turned, i)))
    made = fit_map("mixed", adjusters, tests)
    assert made.compression.force.shape[:-1] == tuple(a.clicks + 1 for a in adjusters if a.name in ("c", "cr", "lsc"))
    middle = curve_at(made, {a.name: a.clicks // 2 for a in adjusters})
    truth = pack.forces(SPEEDS, dict.fromkeys(("lsc", "hsc", "lsr", "hsr"), 10 if adjusters else 0))[0]
    np.testing.assert_allclose(middle(SPEEDS), truth, rtol=0.12)


def test_two_settings_are_enough_for_a_map():
    pack = made_pack(10)
    places = low_places((10, 10), (0, 20))
    made = fit_map("mixed", TWO, low_only(sweeps_of(pack, 10, places)))
    force, half = made.force({"lsc": 10, "lsr": 10}, SPEEDS)
    truth = pack.forces(SPEEDS, places[0])[0] * units(np.random.default_rng(10), 1)[0][0]
    assert np.mean(np.abs(force - truth) <= half) > 0.9


@pytest.fixture(scope="module")
def two_shocks():
    """Nine tests of the low-speed screws on two shocks, the second 8 % stronger, and their map."""
    pack = made_pack(14)
    factor = {"S1": (0.97, 0.97), "S2": (1.05, 1.05)}
    tests = low_only([
        Tested(t.shock, t.from_closed, measured(pack, t.from_closed, i, scale=factor[t.shock]))
        for i, t in enumerate(sweeps_of(pack, 14, PLACES, shocks=2))
    ])  # fmt: skip
    return tests, fit_map("mixed", TWO, tests)


def test_a_named_shock_has_its_own_force(two_shocks):
    tests, made = two_shocks
    at = tests[0].from_closed
    ratio = curve_at(made, at, shock="S2")(SPEEDS) / curve_at(made, at, shock="S1")(SPEEDS)
    assert 1.04 < float(np.mean(ratio)) < 1.12
    table = named_shock(made, "S2")
    np.testing.assert_allclose(table.force(at, SPEEDS)[0], curve_at(made, at, shock="S2")(SPEEDS), rtol=1e-9)


def test_a_mislabelled_test_is_named():
    pack = made_pack(15)
    tests = low_only(sweeps_of(pack, 15, PLACES))
    tests[0] = Tested("S1", {"lsc": 1, "lsr": 1}, tests[0].curve)
    notes = fit_map("mixed", TWO, tests).notes
    assert any("lsc=1,lsr=1" in n and "does not fit the other tests" in n for n in notes)


def test_the_result_does_not_depend_on_the_order_of_the_tests(two_shocks):
    tests, a = two_shocks
    b = fit_map("mixed", TWO, tests[::-1])
    np.testing.assert_allclose(a.compression.force, b.compression.force, rtol=2e-3)


def test_no_test_is_an_error_that_says_what_to_do():
    with pytest.raises(FitError, match="pack mixed has no tested setting; add a sweep"):
        fit_map("mixed", FOUR, [])


def test_clicks_outside_are_refused():
    made = fit_map("mixed", FOUR, sweeps_of(made_pack(6), 6, NINE[:1]))
    with pytest.raises(CallError, match="lsc=21 is outside 0 to 20"):
        curve_at(made, {"lsc": 21})
