"""What a team does to a pack over the years takes nothing away; what obeys no law is not believed too well.

Packs, shocks and shops are made apart from the map; with two adjusters, so that it is quick.
"""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from dynoan.analysis.clickmap.asked.identify import identify
from dynoan.analysis.clickmap.mapping import fit_map
from dynoan.analysis.health.change import health
from dynoan.analysis.health.records import Measured, Test
from dynoan.model.clickmap import ClickMap
from tests.often import often
from tests.worlds.packs.builders import Recipe, Riddle, mapped, riddle
from tests.worlds.packs.made import PackWorld
from tests.worlds.packs.rows import draw
from tests.worlds.packs.score import try_map
from tests.worlds.packs.tests_of import Job, Run, deliver
from tests.worlds.packs.with_dynoan import as_tested, curve_of, program, shock_of

ODD = ("dead clicks", "stepped", "not monotone", "cross-talk")
ALIKE = Recipe(alike=(0.03, 0.15), number=2)


def riddles(recipe: Recipe, asked: Riddle, seed: int) -> PackWorld:
    return riddle(recipe, asked)(np.random.default_rng([seed, 1]), "curve")


def map_of(world: PackWorld, pack: str, *later: Run) -> ClickMap:
    kind = shock_of(world.library)
    return fit_map(pack, kind.adjusters, as_tested(kind, (*world.library.of(pack), *later)))


def maps_of(world: PackWorld) -> list[ClickMap]:
    return [map_of(world, pack.name) for pack in world.packs]


def again(world: PackWorld, year: float, lost: float) -> Run:
    """A setting of the first pack run again years later, the shock weaker by a share."""
    first = world.library.of(world.packs[0].name)[0]
    unit = world.units[world.shock]
    worn = replace(unit, common=(1.0 + unit.common) * (1.0 - lost) - 1.0)
    return deliver(Job(world.packs[0], worn, first.clicks or {}, year), world.shop, np.random.default_rng(4))


@pytest.mark.thorough
def test_after_a_later_run_of_one_setting_runs_are_named_as_before():
    world = riddles(ALIKE, Riddle(), 11)
    run = again(world, 1.2, 0.08)
    before = maps_of(world)
    after = [map_of(world, world.packs[0].name, run), *before[1:]]
    for unknown in world.unknowns:
        first, second = (identify(curve_of(unknown.run), maps) for maps in (before, after))
        assert second.candidates[0].pack == first.candidates[0].pack == unknown.pack
    found = identify(curve_of(replace(run, pack=None, clicks=None)), after)
    assert found.verdict != "none of these"
    assert not (found.verdict == "pack" and found.candidates[0].pack != world.packs[0].name)


@pytest.mark.thorough
def test_after_a_later_run_of_one_setting_bands_of_untested_clicks_are_as_wide():
    world = draw("retest worn", 7)
    kind, v = shock_of(world.library), np.array([0.05, 0.1, 0.25])
    halves = []
    for later in ((), world.later):
        made = map_of(world, "gravel", *later)
        halves.append([made.force(kind.to_closed(c), v)[1] / made.force(kind.to_closed(c), v)[0] for c in world.asked])
    assert np.median(np.array(halves[1]) / np.array(halves[0])) < 1.25


@pytest.mark.parametrize("row", ["match peaks", "match one speed"])
def test_one_shock_in_two_kinds_of_file_is_never_said_not_to_match(row: str):
    said = []
    for seed in range(520, 524):
        world = draw(row, seed)
        same = [pair for pair in world.pairs if pair.worst == 0.0]
        assert same
        said += [program.match(world.library, p.one, p.other, p.tolerance) for p in same]  # type: ignore[misc]
    assert "not matched" not in said


@pytest.mark.parametrize("form", ["peaks", "one speed"])
def test_one_shock_in_two_kinds_of_file_is_not_said_to_have_changed(form: str):
    verdicts = []
    for seed in range(8):
        world = draw("map regular 4", 540 + seed)
        unit, clicks, rng = world.units[world.shock], world.asked[0], np.random.default_rng(seed)
        jobs = Job(world.packs[0], unit, clicks), Job(world.packs[0], unit, clicks, 1.0, form=form)  # type: ignore[arg-type]
        tests = []
        for job in jobs:
            run = deliver(job, world.shop, rng)
            known = {name: Measured() if value is None else Measured(value, sd or 0.0) for name, value, sd in
                     (("gas", run.gas_n, run.gas_sd_n), ("friction", run.friction_n, run.friction_sd_n))}  # fmt: skip
            tests.append(Test(f"202{4 + job.year:.0f}-05-01", (run.shock,), curve_of(run), 1, **known))
        verdicts.append(health(tests).verdict)
    assert "changed" not in verdicts


@pytest.mark.parametrize("seeds", often(0, [(560,), range(561, 570)]), ids=["quick", "many"])
def test_bands_hold_where_adjusters_are_odd(seeds):
    held = []
    for odd in ODD if len(seeds) > 1 else ODD[::3]:
        build = mapped(8, Recipe(odd=(odd,), number=2))
        held.append(try_map(program, [build(np.random.default_rng(seed), "curve") for seed in seeds])["held"])
    assert np.mean(held) >= 0.85
    assert min(held) >= 0.7


@pytest.mark.parametrize("seeds", often(0, [(580,), range(581, 594)]), ids=["quick", "many"])
def test_what_is_named_among_alike_packs_with_dead_clicks_is_right_and_strangers_are_seldom_named(seeds):
    whats = (Riddle(), Riddle(unlisted=(0.08, 0.15))) if len(seeds) > 1 else (Riddle(unlisted=(0.08, 0.15)),)
    asked = []
    for seed in seeds:
        for what in whats:
            world = riddles(replace(ALIKE, odd=("dead clicks",)), what, seed)
            maps = maps_of(world)
            asked += [(one.pack, identify(curve_of(one.run), maps)) for one in world.unknowns]
    named = [true == found.candidates[0].pack for true, found in asked if found.verdict == "pack"]
    assert named.count(False) <= max(1, 0.1 * len(named))
    lost = [found.verdict == "none of these" for true, found in asked if true is not None]
    assert sum(lost) <= max(1, 0.05 * len(lost))


@pytest.mark.thorough
def test_a_pack_written_from_the_other_end_is_told_so_and_no_other_is_named_for_it():
    world = riddles(ALIKE, Riddle(turned=True), 31)
    maps = maps_of(world)
    assert "counted the other way" in {one.kind for one in maps[0].oddities}
    assert "counted the other way" not in {one.kind for m in maps[1:] for one in m.oddities}
    for unknown in world.unknowns:
        found = identify(curve_of(unknown.run), maps)
        assert found.verdict != "pack" or found.candidates[0].pack == unknown.pack
