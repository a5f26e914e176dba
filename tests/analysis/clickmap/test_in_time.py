"""A pack's map through time and over shocks: what is learned later adds, and what is not known is said."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from dynoan.analysis.clickmap.at_clicks import curve_at
from dynoan.analysis.clickmap.every_click.one_shock import carried, named_shock, spread_pct
from dynoan.analysis.clickmap.mapping import fit_map
from dynoan.model.clickmap import ClickMap
from tests.analysis.clickmap.test_changed_soon import weaker
from tests.worlds.packs.made import PackWorld
from tests.worlds.packs.rows import draw
from tests.worlds.packs.with_dynoan import as_tested, shock_of


def a_map(world: PackWorld, *, later: bool = False, pack: str = "gravel") -> ClickMap:
    library = world.library
    runs = (*library.of(pack), *(world.later if later else ()))
    kind = shock_of(library)
    return fit_map(pack, kind.adjusters, as_tested(kind, runs))


@pytest.fixture(scope="module")
def worn() -> tuple[PackWorld, ClickMap, ClickMap]:
    """A shock that lost 5 to 12 % within a year, and its maps before and after one setting was run again."""
    world = draw("retest worn", 1)
    return world, a_map(world), a_map(world, later=True)


@pytest.mark.thorough
def test_a_later_run_of_one_setting_takes_no_test_away(worn):
    _, before, after = worn
    assert len(after.tested) == len(before.tested)
    assert not any("no test moves" in note for note in set(after.notes) - set(before.notes))
    assert len(after.states) == 2
    assert after.loo_error_pct < 3 * before.loo_error_pct


def test_the_map_knows_the_shock_as_it_was_and_as_it_is(worn):
    world, _, after = worn
    kind, v = shock_of(world.library), world.speeds()
    for date, year in (("2024-01-01", 0.0), ("2025-01-01", 1.0)):
        held = []
        for setting in world.asked:
            curve = curve_at(after, kind.to_closed(setting), shock=world.shock, date=date)
            low, high = curve.band(v)
            true = world.force(setting, v, world.shock, year)
            held += list((low <= true) & (true <= high))
        assert np.mean(held) > 0.85
    latest = curve_at(after, after.tested[0], shock=world.shock)
    assert latest(0.2) == pytest.approx(curve_at(after, after.tested[0], shock=world.shock, date="2025-01-01")(0.2))


def test_a_shock_never_tested_has_the_spread_between_shocks_in_its_band():
    world = draw("unit one tested", 5)
    made = a_map(world)
    at = made.tested[0]
    known, unknown = (curve_at(made, at, shock=name) for name in (world.shock, world.fresh[0]))
    halves = [float(np.subtract(*curve.band(0.2)[::-1])) / 2 / float(curve(0.2)) for curve in (known, unknown)]
    assert halves[1] > 0.06 > halves[0]
    assert spread_pct(made, world.fresh[0]) == pytest.approx(7.1, abs=0.3)


@pytest.fixture(scope="module")
def two_packs() -> tuple[PackWorld, ClickMap, ClickMap]:
    """Shocks that ran with another pack, one of them with both, and the maps of both packs."""
    world = draw("unit carried", 2)
    return world, a_map(world), a_map(world, pack="tarmac")


def test_what_another_pack_tells_of_a_shock_is_carried_over(two_packs):
    world, made, other = two_packs
    units = carried(made, [other])
    assert {unit.shock for unit in units} >= set(world.fresh)
    knowing = replace(made, carried=units)
    at, v = made.tested[0], 0.2
    off = []
    for name in world.fresh:
        true = world.units[name].factor(v) / world.units[world.shock].factor(v)
        mine = named_shock(knowing, name).compression.at(v)[0] / made.compression.at(v)[0]
        off.append(abs(float(np.ravel(mine)[0]) - float(true)))
    assert np.mean(off) < 0.025
    low, high = curve_at(knowing, at, shock=world.fresh[0]).band(v)
    wide = curve_at(made, at, shock=world.fresh[0]).band(v)
    assert high - low < wide[1] - wide[0]


@pytest.mark.thorough
def test_a_common_shock_that_changed_since_is_no_measure_of_another(two_packs):
    world, made, other = two_packs
    kind = shock_of(world.library)
    there = as_tested(kind, world.library.of("tarmac"))
    last = next(t for t in there if t.shock == world.shock)
    later = replace(last, curve=weaker(last.curve, 0.8), date="2026-06-01")
    changed = fit_map("tarmac", kind.adjusters, [*there, later])
    (before, *_), (after, *_) = (carried(made, [of_other]) for of_other in (other, changed))
    assert before.shock == after.shock
    assert after.rebound == pytest.approx(before.rebound, abs=0.02)


@pytest.mark.thorough
def test_peak_tables_beside_traces_lie_on_the_same_curve():
    world = draw("map forms 8", 1)
    made = a_map(world)
    kind, v, off = shock_of(world.library), world.speeds(), []
    for setting in world.asked:
        curve = curve_at(made, kind.to_closed(setting), shock=world.shock)
        low, high = curve.band(v)
        true = world.force(setting, v, world.shock, 0.0)
        off += list((low <= true) & (true <= high))
    assert np.mean(off) > 0.85


@pytest.mark.parametrize(
    ("kind", "seeds"),
    [
        ("dead clicks", (1,)),
        *(pytest.param(kind, (0, 2, 4), marks=pytest.mark.thorough)
          for kind in ("dead clicks", "cross-talk", "counted the other way")),
    ],
)  # fmt: skip
def test_oddities_are_named(kind, seeds):
    found = [{odd.kind for odd in a_map(draw(f"map {kind} 16", seed)).oddities} for seed in seeds]
    assert sum(kind in kinds for kinds in found) >= min(2, len(seeds))


@pytest.mark.thorough
def test_a_screw_that_does_not_return_is_named():
    loose = draw("map hysteresis 16", 6001)
    assert [one.name for one in loose.packs[0].adjusters if one.loose] == ["c"]
    assert [(odd.kind, odd.adjuster) for odd in a_map(loose).oddities] == [("hysteresis", "c")]


@pytest.mark.thorough
def test_a_regular_screw_is_not_named():
    assert not a_map(draw("map regular 16", 6001)).oddities


@pytest.mark.thorough
def test_where_tests_stand_at_the_ends_only_the_run_between_is_named():
    world = draw("map any 16", 3003)
    assert all(set(run.clicks.values()) <= {0, 11, 21, 22, 24} for run in world.library.runs)
    (said,) = [note for note in a_map(world).notes if "no test stands well between" in note]
    for name, middle in {"lsc": 10, "hsc": 5, "lsr": 11, "hsr": 12}.items():
        assert f"{name} (a run at {middle} from closed would tell)" in said


@pytest.mark.thorough  # in every run: `test_used_as_meant`, of two adjusters
def test_counting_the_other_way_is_said_with_what_would_settle_it():
    notes = " ".join(a_map(draw("map counted the other way 16", 0)).notes)
    assert "counted the other way" in notes
    assert "give the shock a file" in notes
