"""A shock whose piston leaks lies off by another share at every speed: it is named, and no adjuster is for it."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from dynoan.analysis.clickmap.every_click.one_shock import carried
from dynoan.analysis.clickmap.mapping import fit_map
from dynoan.model.clickmap import ClickMap
from tests.worlds.packs.builders import FRESH, SECOND, TESTED, Recipe, programme, start
from tests.worlds.packs.made import PackWorld
from tests.worlds.packs.packs import Pack
from tests.worlds.packs.tests_of import Job, Run, deliver
from tests.worlds.packs.with_dynoan import as_tested, shock_of
from tests.worlds.valves import Generator

LEAK = 0.06  #: relative area of the rebound bleed, always open
LEAKY = FRESH[0]
TRIED = [(2, (0,)), *(pytest.param(number, (0, 1), marks=pytest.mark.thorough) for number in (2, 4))]


def leaking(pack: Pack) -> Pack:
    bleed = pack.rebound.bleed
    return replace(pack, rebound=replace(pack.rebound, bleed=replace(
        bleed, closed=bleed.closed + LEAK, open=bleed.open + LEAK)))  # fmt: skip


def garage(seed: int, leaks: bool, number: int) -> tuple[PackWorld, list[Run], Generator]:
    """Seven settings of a pack in one shock, and three more shocks in one of these, one of which may leak."""
    rng = np.random.default_rng([seed, 3])
    world = start(rng, "curve", "map", Recipe(number=number, law="sharp blow-off"))
    pack = world.packs[0]
    runs = programme(rng, world, pack, 7)
    for name in (SECOND, FRESH[1], LEAKY):
        real = leaking(pack) if leaks and name == LEAKY else pack
        runs.append(deliver(Job(real, world.units[name], runs[0].clicks or {}), world.shop, rng))
    return world, runs, rng


def map_of(world: PackWorld, runs: list[Run], name: str = "gravel") -> ClickMap:
    kind = shock_of(world.library)
    return fit_map(name, kind.adjusters, as_tested(kind, runs))


def called(made: ClickMap) -> list[str]:
    return [note.split(" is ")[0] for note in made.notes if "than the other shocks" in note]


@pytest.mark.parametrize(("number", "seeds"), TRIED)
def test_it_is_named_and_no_adjuster_is(number, seeds):
    for seed in seeds:
        world, runs, _ = garage(seed, leaks=True, number=number)
        made = map_of(world, runs)
        assert called(made) == [LEAKY]
        assert not made.oddities


@pytest.mark.thorough
@pytest.mark.parametrize(("number", "seeds"), TRIED)
def test_sound_shocks_are_not(number, seeds):
    for seed in seeds:
        world, runs, _ = garage(seed, leaks=False, number=number)
        assert not called(map_of(world, runs))


@pytest.mark.thorough
def test_what_it_loses_with_one_pack_is_no_factor_with_another():
    """Of a sound shock the other pack takes the factor over; of the leak the doubt."""
    world, runs, rng = garage(3, leaks=True, number=2)
    tarmac = map_of(world, programme(rng, world, world.packs[0], 5, unit=world.units[TESTED]), "tarmac")
    told = {one.shock: one.variance for one in carried(tarmac, [map_of(world, runs)])}
    assert told[LEAKY] > told[SECOND] + 0.02**2
