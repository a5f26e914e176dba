"""A shock against its earlier tests: each fault named from its own evidence, nothing where nothing changed."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from dynoan.analysis.gas import charge_at, gas_force
from dynoan.analysis.health.change import health
from dynoan.analysis.health.forces import force_changes
from dynoan.analysis.health.records import Change, Measured, Test
from dynoan.analysis.health.words import name_findings
from dynoan.analysis.matching.points import sides_of
from dynoan.errors import CallError
from dynoan.model.curve import Curve
from dynoan.model.side import Side
from tests.analysis.made_packs import OtherPack, OtherValve, made_pack, measured

CLICKS = dict.fromkeys(("lsc", "hsc", "lsr", "hsr"), 8)
PACK = made_pack(5)
NOISE = {"noise": 0.004, "floor": 0.5}


def _test(date: str, seed: int, pack: OtherPack = PACK, scale: tuple[float, float] = (1.0, 1.0), **more) -> Test:
    known = {"gas": Measured(150.0, 1.0), "friction": Measured(15.0, 2.0), "give": Measured(4e-7, 2e-8)}
    return Test(
        date, ("RR-04", "gravel", "lsc=8"), measured(pack, CLICKS, seed, scale=scale, **NOISE), **(known | more)
    )


def _names(*last: Test, rod: float | None = None) -> set[str]:
    return {f.name for f in health([_test("2025-05-01", 1), *last], rod=rod).findings}


def test_an_unchanged_shock_is_as_before_in_nineteen_of_twenty():
    verdicts = [health([_test("2025-05-01", k), _test("2026-05-01", 50 + k)]).verdict for k in range(20)]
    assert verdicts.count("as before") >= 19
    assert "changed" not in verdicts


def _tabled(date: str, seed: int, scale: float = 1.0) -> Test:
    """A test known from a peak table alone: its curve is wide, its points are not."""
    v = np.array([s * e for s in (1.0, -1.0) for e in (0.025, 0.05, 0.1, 0.15, 0.2, 0.3, 0.4)])
    test = _test(date, seed, friction=Measured(), gas=Measured(), give=Measured())
    force = scale * _test(date, 0).curve(v) * (1 + np.random.default_rng(seed).normal(0, 0.002, len(v)))
    sides = {d: replace(s, low=0.8 * s.force(s.speeds), high=1.2 * s.force(s.speeds))
             for d in ("compression", "rebound") for s in (test.curve.side(d),)}  # fmt: skip
    return replace(test, curve=replace(test.curve, **sides), points=sides_of(v, force))


def test_two_peak_tables_of_one_setting_are_held_point_by_point():
    first = _tabled("2025-05-01", 1)
    same, less = (health([first, _tabled("2026-05-01", 2, scale)]) for scale in (1.0, 0.88))
    assert same.verdict == "as before"
    assert {f.name for f in less.findings} == {"less compression force", "less rebound force"}
    blind = health([replace(first, points=None), _tabled("2026-05-01", 2)])
    assert blind.verdict == "cannot tell"


@pytest.mark.parametrize(
    ("change", "name"),
    [
        ({"scale": (0.9, 1.0)}, "less compression force"),
        ({"scale": (1.0, 0.9)}, "less rebound force"),
        ({"scale": (1.0, 1.1)}, "more rebound force"),
        ({"gas": Measured(70.0, 1.0)}, "gas lost"),
        ({"friction": Measured(40.0, 2.0)}, "more friction"),
        ({"give": Measured(9e-7, 4e-8)}, "delayed rise after reversal"),
        ({"fade": Measured(-0.006, 0.0005)}, "fade with temperature"),
    ],
)
def test_each_fault_alone_is_named_alone(change, name):
    assert _names(_test("2026-05-01", 2, **change)) == {name}


def test_a_leaking_bleed_is_told_from_wear_all_round():
    rebound = OtherValve(**(vars(PACK.rebound) | {"needle": PACK.rebound.needle * 1.5}))
    leaking = health([_test("2025-05-01", 1), _test("2026-05-01", 2, OtherPack(PACK.compression, rebound))]).findings
    worn = health([_test("2025-05-01", 1), _test("2026-05-01", 2, scale=(1.0, 0.88))]).findings
    assert "most at low speed" in leaking[0].meaning
    assert "at all speeds" in worn[0].meaning
    assert "%" in worn[0].evidence


@pytest.mark.parametrize(
    ("lost", "where"),
    [
        ((22.0, 18.0, 12.0, 7.0), "most at low speed"),
        ((6.0, 9.0, 15.0, 20.0), "most at high speed"),
        ((10.0, 12.0, 11.0, 9.0), "at all speeds"),
        ((10.0,), "one speed does not tell"),
    ],
)
def test_where_a_loss_is_most_is_told_by_the_slowest_and_the_fastest_speed(lost, where):
    speeds = (0.05, 0.1, 0.25, 0.55)
    changes = [
        Change("force", -x, -x - 1.0, -x + 1.0, direction="rebound", speed=v)
        for x, v in zip(lost, speeds, strict=False)
    ]
    (found,) = name_findings(changes, None)
    assert where in found.meaning


def test_a_change_that_its_errors_could_explain_is_no_finding():
    assert _names(_test("2026-05-01", 2, gas=Measured(130.0, 10.0), friction=Measured(25.0, 6.0))) == set()


def test_a_cold_test_is_no_gas_loss_where_the_rod_is_known():
    """A sealed gas at 20 °C instead of 60 °C loses force by p/T = const alone."""
    cold = float(gas_force(charge=charge_at(9.7e5, measured=60, wanted=20), rod=0.014))
    warm = float(gas_force(charge=9.7e5, rod=0.014))
    first = _test("2025-05-01", 1, gas=Measured(warm, 0.5), temperature=60.0)
    last = _test("2026-05-01", 2, gas=Measured(cold, 0.5), temperature=20.0)
    assert {f.name for f in health([first, last], rod=0.014).findings} == set()
    assert {f.name for f in health([first, last]).findings} == {"gas lost"}
    assert any("20 °C" in note for note in health([first, last]).notes)


def test_sessions_without_a_setting_in_common_go_through_the_click_map():
    other = dict.fromkeys(CLICKS, 14)
    truths = [measured(PACK, c, 900, noise=1e-6, floor=0.01) for c in (CLICKS, other)]
    first = replace(_test("2025-05-01", 1), expected=truths[0])
    weak = measured(PACK, other, 7, scale=(0.8, 1.0), **NOISE)
    last = replace(_test("2026-05-01", 2), setting=("RR-04", "gravel", "lsc=14"), curve=weak, expected=truths[1])
    found = health([first, last])
    assert {f.name for f in found.findings} == {"less compression force"}
    assert any("click map" in note for note in found.notes)
    blind = health([first, replace(last, expected=None)])
    assert blind.verdict == "cannot tell"


def test_the_interval_holds_the_true_change():
    held = []
    for k in range(40):
        changes = force_changes([_test("a", k)], [_test("b", 100 + k, scale=(0.95, 0.97))])
        true = {"compression": -5.0, "rebound": -3.0}
        held += [c.low <= true[c.direction] <= c.high for c in changes if c.speed > 0.09]
    assert np.mean(held) > 0.9


def test_the_trend_has_every_session():
    tests = [_test(f"202{y}-05-01", y, scale=(1 - 0.03 * y, 1.0)) for y in range(4)]
    trend = [p for p in health(tests).trend if p.quantity == "force" and p.direction == "compression"]
    assert [p.date for p in trend] == [t.date for t in tests]
    assert [p.value for p in trend] == sorted((p.value for p in trend), reverse=True)


def test_one_date_is_no_history():
    with pytest.raises(CallError, match="one date"):
        health([_test("2025-05-01", 1), _test("2025-05-01", 2)])


def test_a_direction_nobody_recorded_is_left_out():
    unknown = Side((), (), np.array([0.0, 1e-6]), *(np.full(2, np.nan),) * 2, top_speed=0.0, forces=np.full(2, np.nan))
    half = [replace(t, curve=Curve(t.curve.compression, unknown)) for t in (_test("a", 1), _test("b", 2))]
    assert {c.direction for c in health(half).changes if c.quantity == "force"} == {"compression"}


def test_a_season_of_sessions_tells_since_when():
    dates = [f"2025-{month:02d}-01" for month in range(3, 11)]
    tests = [_test(d, k, scale=(1.0, 0.9 if k >= 5 else 1.0)) for k, d in enumerate(dates)]
    found = {(s.quantity, s.direction): s for s in health(tests).since}
    step = found["force", "rebound"]
    assert (step.before, step.after) == ("2025-07-01", "2025-08-01")
    assert step.earliest <= step.before < step.after <= step.latest
    assert step.change == pytest.approx(-10.0, abs=2.0)
    assert ("force", "compression") not in found


@pytest.mark.parametrize("seed", range(12))
def test_no_loss_is_told_with_a_gain_and_no_gain_with_a_loss(seed: int):
    """Where a bleed leaks and a blow-off stiffens, each speed counts for the word it stands under alone."""
    rng = np.random.default_rng(seed)
    old = PACK.rebound
    new = {"needle": old.needle * rng.uniform(0.7, 1.5), "preload": old.preload * rng.uniform(0.7, 1.4)}
    rebound = OtherValve(**(vars(old) | new))
    changed = _test("2026-05-01", 2, OtherPack(PACK.compression, rebound))
    for finding in health([_test("2025-05-01", 1), changed]).findings:
        shown = finding.evidence.split("(")[0]
        assert ("+" not in shown) if finding.name.startswith("less") else ("-" not in shown), shown


def test_a_shock_that_is_weak_by_one_factor_is_called_that():
    (found,) = health([_test("2025-05-01", 1), _test("2026-05-01", 2, scale=(1.0, 0.9))]).findings
    assert "at all speeds from" in found.evidence
    assert "alike" in found.evidence


def _with_pack(pack: str, date: str, seed: int, gas: float) -> Test:
    one = _test(date, seed, gas=Measured(gas, 1.0))
    return replace(one, setting=("RR-04", pack, "lsc=8"), expected=one.curve)


def test_another_packs_own_charge_is_no_lost_gas():
    found = health([_with_pack("gravel", "2025-05-01", 1, 180.0), _with_pack("tarmac", "2025-05-02", 2, 150.0)])
    assert "gas lost" not in {f.name for f in found.findings}
    assert [note for note in found.notes if "RR-04 with gravel" in note and "charges the gas anew" in note]


def test_gas_is_held_against_the_first_tests_with_the_same_pack():
    tests = [
        _with_pack("gravel", "2025-05-01", 1, 180.0), _with_pack("tarmac", "2025-05-02", 2, 150.0),
        _with_pack("gravel", "2025-09-01", 3, 180.0), _with_pack("tarmac", "2025-09-02", 4, 90.0),
    ]  # fmt: skip
    found = health(tests)
    assert found.first == "2025-05-02"
    (lost,) = (f for f in found.findings if f.name == "gas lost")
    assert "-60 N" in lost.evidence
    assert any("2025-05-02" in note for note in found.notes)


def test_wear_seen_with_an_earlier_pack_is_told_with_that_pack():
    worn = replace(_test("2025-09-01", 3, scale=(0.85, 1.0)), setting=("RR-04", "gravel", "lsc=8"))
    tests = [
        _with_pack("gravel", "2025-05-01", 1, 150.0), _with_pack("tarmac", "2025-05-02", 2, 150.0),
        worn, _with_pack("tarmac", "2025-09-02", 4, 150.0),
    ]  # fmt: skip
    (found,) = health(tests).findings
    assert found.name == "less compression force"
    assert found.evidence.startswith("with gravel, 2025-05-01 to 2025-09-01: ")


@pytest.mark.parametrize(
    ("change", "named"),
    [
        (Change("gas", -23.5, -39.0, -8.0), {"gas lost"}),
        (Change("gas", -12.0, -16.0, -8.0), set()),
        (Change("gas", -23.5, -45.0, -2.0), set()),
        (Change("friction", 25.0, 6.0, 44.0), {"more friction"}),
        (Change("friction", 6.0, 4.0, 8.0), set()),
        (Change("friction", 25.0, -1.0, 51.0), set()),
    ],
)
def test_what_surely_changed_by_more_than_its_limit_is_named_with_its_doubt(change: Change, named: set[str]):
    assert {one.name for one in name_findings([change], None)} == named


def test_of_shocks_that_kept_gas_and_friction_few_are_named():
    rng, named = np.random.default_rng(3), 0
    for sd in np.repeat([3.0, 7.0, 15.0], 200):
        half, (gas, friction) = 2.2414 * sd, rng.normal(0.0, sd, 2)
        seen = (("gas", gas), ("friction", friction))
        changes = [Change(name, value, value - half, value + half) for name, value in seen]
        named += bool(name_findings(changes, None))
    assert named <= 0.05 * 600


def _stronger(*bands: tuple[float, float, float]) -> list[Change]:
    speeds = (0.05, 0.1, 0.15, 0.25, 0.4)
    return [Change("force", *band, "rebound", v) for band, v in zip(bands, speeds, strict=True)]


def test_a_change_that_most_speeds_surely_show_is_named_though_none_lies_wholly_beyond_the_limit():
    rebuilt = _stronger((5.1, 2.1, 8.1), (4.5, 2.0, 7.0), (4.4, 2.2, 6.6), (4.0, 1.9, 6.1), (2.8, 0.5, 5.1))
    assert {one.name for one in name_findings(rebuilt, None)} == {"more rebound force"}
    at_one_speed = _stronger((5.1, 2.1, 8.1), (1.5, -1.0, 4.0), (1.4, -0.8, 3.6), (1.0, -1.1, 3.1), (0.8, -1.5, 3.1))
    assert not name_findings(at_one_speed, None)
    small = _stronger((2.5, 1.1, 3.9), (2.5, 1.2, 3.8), (2.4, 1.2, 3.6), (2.0, 1.1, 2.9), (2.8, 1.5, 4.1))
    assert not name_findings(small, None)
