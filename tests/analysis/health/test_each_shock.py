"""A pack's shocks each by itself: one that wears does not hide in the mean of all."""

from __future__ import annotations

from dataclasses import replace

from dynoan.analysis.health.change import health
from dynoan.analysis.health.each_shock import of_each_shock, with_each
from dynoan.analysis.health.records import Measured, Test
from tests.analysis.made_packs import made_pack, measured

CLICKS = dict.fromkeys(("lsc", "hsc", "lsr", "hsr"), 8)
PACK = made_pack(5)


def _test(date: str, shock: str, seed: int, scale: tuple[float, float] = (1.0, 1.0)) -> Test:
    known = {"gas": Measured(150.0, 1.0), "friction": Measured(15.0, 2.0), "give": Measured(4e-7, 2e-8)}
    curve = measured(PACK, CLICKS, seed, scale=scale, noise=0.004, floor=0.5)
    return Test(date, (shock, "gravel", "lsc=8"), curve, **known)


def _tests(lost: float, others: int = 3) -> list[Test]:
    names = ["RR-04", *(f"R{k}-0{k}" for k in range(others))]
    first = [_test("2025-05-01", name, k) for k, name in enumerate(names)]
    last = [_test("2026-05-01", name, 50 + k) for k, name in enumerate(names)]
    return [*first, _test("2026-05-01", "RR-04", 50, (1.0, 1.0 - lost)), *last[1:]]


def test_one_worn_shock_of_four_is_named_and_the_others_are_not():
    tests = _tests(0.08)
    assert health(tests).verdict == "as before"
    apart = of_each_shock(tests, {})
    assert {shock for shock, one in apart.items() if one.verdict == "changed"} == {"RR-04"}
    found = with_each(health(tests), apart)
    assert found.verdict == "changed"
    assert [f.evidence.split(":")[0] for f in found.findings] == ["RR-04"]
    assert found.findings[0].direction == "rebound"


def test_what_all_lost_is_told_of_each_and_not_again_of_their_mean():
    tests = [replace(t, curve=_test(t.date, "", k, (1.0, 0.85) if t.date > "2026" else (1.0, 1.0)).curve)
             for k, t in enumerate(_tests(0.0, 1))]  # fmt: skip
    found = with_each(health(tests), of_each_shock(tests, {}))
    assert sorted(f.evidence.split(":")[0] for f in found.findings) == ["R0-00", "RR-04"]


def test_unchanged_shocks_leave_the_pack_as_before():
    tests = _tests(0.0)
    assert with_each(health(tests), of_each_shock(tests, {})) == health(tests)


def test_a_shock_that_cannot_be_told_keeps_the_pack_from_being_as_before():
    tests = _tests(0.0, 1)
    apart = of_each_shock(tests, {})
    apart["R0-00"] = replace(apart["R0-00"], verdict="cannot tell")
    found = with_each(health(tests), apart)
    assert found.verdict == "cannot tell"
    assert "R0-00" in found.notes[-1]


def test_one_shock_alone_is_not_taken_apart():
    assert of_each_shock(_tests(0.1, 0), {}) == {}
