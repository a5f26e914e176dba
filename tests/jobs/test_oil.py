"""What tests of a pack at unlike temperatures tell is used for match, health and identify; else what shocks do."""

from __future__ import annotations

from dataclasses import replace
from functools import lru_cache
from types import SimpleNamespace
from typing import Any

import numpy as np
import pytest

from dynoan.analysis.clickmap.asked.likelihood import likelihood
from dynoan.analysis.clickmap.every_click.oil_temperature import in_oil, is_told, rate_of
from dynoan.analysis.health.forces import force_changes
from dynoan.analysis.health.records import Test
from dynoan.errors import FitError
from dynoan.jobs.match.held import matched
from dynoan.jobs.oil import oil_remarks, oil_told, told_by
from dynoan.workbench.resolving import Resolved
from tests.analysis.clickmap.test_oil_temperature import made_warm
from tests.made import made_curve

COOL, WARM = 22.0, 62.0
map_at_two = lru_cache(lambda: made_warm(0.0002, (COOL, WARM)))


def _bench(*days: tuple[str, str, float], fails: bool = False) -> Any:
    """A bench that holds tests of a shock on a day at a temperature, and the map of sharp valves that hardly thin."""
    tests = [SimpleNamespace(shock=s, date=d, curve=SimpleNamespace(temperature=t)) for s, d, t in days]

    def click_map(pack: str) -> Any:
        if fails:
            raise FitError("no map")
        return map_at_two()

    return SimpleNamespace(tested=lambda pack: tests, click_map=click_map)


def _at(celsius: float, pack: str | None = "gravel") -> Resolved:
    """The one shock: it loses 0.02 % a kelvin, where 0.17 % is taken for granted."""
    told = {d: one._replace(rate=np.full_like(one.rate, 0.0002), sd=np.zeros_like(one.sd))
            for d, one in _told().items()}  # fmt: skip
    curve = in_oil(replace(made_curve(lsc=5, lsr=5), temperature=COOL), celsius, told)
    return Resolved(f"at {celsius:.0f}", curve, pack=pack)


def _told() -> Any:
    return told_by(_bench(("A", "2026-03-01", COOL), ("A", "2026-03-01", WARM)), "gravel")


def test_it_is_told_where_one_shock_was_run_warm_and_cool_on_one_day():
    assert is_told(_told())
    assert rate_of(_told())[0] < 0.001 < rate_of(None)[0]
    assert told_by(_bench(("A", "2026-03-01", COOL), ("B", "2026-03-01", WARM)), "gravel") is None
    assert told_by(_bench(("A", "2026-03-01", COOL), ("A", "2026-06-01", WARM)), "gravel") is None
    assert told_by(_bench(("A", "x", COOL), ("A", "x", WARM), fails=True), "gravel") is None


@pytest.mark.parametrize(("pack", "celsius"), [("mixed", WARM), (None, WARM), ("gravel", COOL + 5.0)])
def test_nothing_is_asked_of_unlike_packs_or_of_oil_as_warm(pack: str | None, celsius: float):
    bench = _bench(("A", "x", COOL), ("A", "x", WARM))
    assert oil_told(bench, [_at(COOL, pack), _at(celsius, pack and "gravel")]) is None


def test_a_match_over_temperatures_is_narrower_and_nearer_with_what_tests_tell():
    pair = _at(COOL), _at(WARM)
    oil = oil_told(_bench(("A", "x", COOL), ("A", "x", WARM)), pair)
    usual, told = matched(*pair, 5.0), matched(*pair, 5.0, oil=oil)
    fast = [[b for b in m.bands if b.speed > 0.09] for m in (usual, told)]
    for before, after in zip(*fast, strict=True):
        assert abs(after.difference) < 0.5 * abs(before.difference)
        assert after.high - after.low < before.high - before.low
    assert "as tests of this pack at unlike temperatures tell" in oil_remarks(pair, oil)[0]


def test_health_takes_what_tests_tell():
    tests = [Test(day, ("A",), one.curve, temperature=one.curve.temperature) for day, one in
             (("2026-03-01", _at(COOL)), ("2026-06-01", _at(WARM)))]  # fmt: skip
    usual, told = (force_changes(tests[:1], [replace(tests[1], oil=oil)], (0.25,)) for oil in (None, _told()))
    assert all(abs(b.value) < 0.5 * abs(a.value) for a, b in zip(usual, told, strict=True))


def test_through_the_map_a_warm_test_is_held_against_the_map_as_warm():
    expected = replace(_at(COOL).curve, temperature=COOL)
    first, last = (Test(day, (day,), _at(t).curve, temperature=t, expected=expected, oil=_told())
                   for day, t in (("2026-03-01", COOL), ("2026-06-01", WARM)))  # fmt: skip
    assert all(abs(c.value) < 1.5 for c in force_changes([first], [last], (0.25,)))
    deaf = replace(last, temperature=None)
    assert force_changes([first], [last], (0.25,))[0].value > force_changes([first], [deaf], (0.25,))[0].value


def test_identify_holds_an_unknown_in_warm_oil_against_the_map_as_it_thins():
    told = map_at_two()
    usual = replace(told, compression=replace(told.compression, thinning=None),
                    rebound=replace(told.rebound, thinning=None))  # fmt: skip
    warm = replace(_at(WARM + 15.0).curve, friction=15.0, friction_sd=1.0)
    best = [float(likelihood(warm, one, 0.0, own=True)[0].max()) for one in (usual, told)]
    assert best[1] > best[0]


def test_what_is_told_of_one_direction_alone_leaves_the_other_as_usual():
    first, last = (Test(d, ("S", "P", "c=8"), replace(made_curve(), temperature=t), temperature=t)
                   for d, t in (("2025-05-01", COOL), ("2026-05-01", WARM)))  # fmt: skip
    half = {"compression": _told()["compression"]}
    usual, told = (
        {c.direction: c.value for c in force_changes([first], [replace(last, oil=oil)], (0.25,))}
        for oil in (None, half)
    )
    assert told["rebound"] == usual["rebound"]
    assert told["compression"] != usual["compression"]
