"""What a shock's wear does at low speed is told of the shock and not of its screws; screws are dead where tests say."""

from __future__ import annotations

from dataclasses import replace
from types import SimpleNamespace

import numpy as np
import pytest

from dynoan.analysis.clickmap.at_clicks import curve_at
from dynoan.analysis.clickmap.doubts.oddities import dead_between, either_words
from dynoan.analysis.clickmap.mapping import fit_map
from dynoan.analysis.clickmap.shocks import words as shock_words
from dynoan.analysis.clickmap.tested import states as stated
from dynoan.analysis.clickmap.trends.openings import averaged, tables
from dynoan.model.clickmap import ClickMap
from tests.worlds.packs.builders import Recipe, programme, start
from tests.worlds.packs.packs import Pack, Side
from tests.worlds.packs.tests_of import Job, deliver
from tests.worlds.packs.with_dynoan import as_tested, shock_of

GROWN = 0.03
"""Relative area by which either bleed has grown."""


def worn(side: Side) -> Side:
    bleed = side.bleed
    return replace(side, bleed=replace(bleed, closed=bleed.closed + GROWN, open=bleed.open + GROWN))


def retested(seed: int, grown: bool) -> tuple[ClickMap, Pack]:
    """Eight settings of a pack on one shock, and a year later one of them again, its bleeds worn or not."""
    rng = np.random.default_rng([seed, 14])
    world = start(rng, "curve", "map", Recipe(number=4, law="sharp blow-off"))
    pack = world.packs[0]
    later = replace(pack, compression=worn(pack.compression), rebound=worn(pack.rebound)) if grown else pack
    runs = programme(rng, world, pack, 8)
    runs.append(deliver(Job(later, world.units[world.shock], runs[0].clicks or {}, year=1.0), world.shop, rng))
    kind = shock_of(world.library)
    return fit_map("gravel", kind.adjusters, as_tested(kind, runs)), later


@pytest.mark.parametrize("seed", [0, pytest.param(1, marks=pytest.mark.thorough)])
def test_worn_bleeds_are_a_change_of_the_shock_and_no_screw_is_called_odd(seed):
    made, _ = retested(seed, grown=True)
    assert not [odd for odd in made.oddities if odd.kind == "hysteresis"]
    assert [note for note in made.notes if "than on" in note and "it counts as it is now" in note]
    states = made.states
    first, last = (curve_at(made, made.tested[0], shock=states[0].shock, date=s.last) for s in (states[0], states[-1]))
    assert float(last(0.03)) < 0.93 * float(first(0.03))
    assert float(last(0.25)) > 0.93 * float(first(0.25))


@pytest.mark.thorough
def test_a_sound_shock_run_again_is_told_of_by_no_word():
    made, _ = retested(0, grown=False)
    assert not made.oddities
    assert not [note for note in made.notes if "than on" in note or "beside its click" in note]


def test_where_a_screw_explains_a_change_as_well_both_are_told():
    assert either_words({"lsc": 0.1}) == ()
    (said,) = either_words({"lsc": 0.1, "lsr": 0.4})
    assert "lsr stood beside its click" in said
    assert "changed shock" in said
    assert "40 %" in said


@pytest.mark.parametrize(
    ("tested", "dead"),
    [
        ((7, 8, 10, 17, 18), [(17, 18)]),  # none stands at the closed end
        ((0, 3, 10, 16, 20), [(0, 3), (16, 20)]),
        ((4, 10, 15), []),
    ],
)
def test_clicks_are_dead_only_between_tests_that_show_it(tested, dead):
    ways = tables(20)
    clicks = np.arange(21.0)
    both = np.clip((clicks - 4.0) / 11.0, 0.0, 1.0)  # the first 4 and the last 5 do nothing
    evidence = np.array([0.0 if np.allclose(way.table, both) else -200.0 for way in ways])
    opening = averaged(ways, evidence)
    assert opening.kinds["dead clicks"] > 0.99
    assert dead_between(opening, np.array(tested, dtype=float)) == dead


@pytest.mark.parametrize(("size", "said"), [(0.023, False), (0.035, True)])
def test_a_change_that_the_tests_hardly_show_is_not_called_one(monkeypatch, size, said):
    """Two rows of a table at low speed move a state by 6 % where its size stays near none."""
    speeds = np.array([0.05, 0.1, 0.25])
    states = (
        stated.TestedState("S2", "2026-02-14", "2026-02-14"),
        stated.TestedState("S2", "2026-06-20", "2026-06-20"),
    )
    fitted = SimpleNamespace(data=SimpleNamespace(speeds=speeds, states=states),
                             spread=SimpleNamespace(odd=(), states=(0.0, size)))  # fmt: skip
    effects = np.array([[0.0, 0.0, 0.0], [0.065, 0.05, 0.01]])
    monkeypatch.setattr(shock_words, "state_effects", lambda *_: effects)
    test = SimpleNamespace(shock="S2")
    assert bool(shock_words.shock_words([test], {"rebound": fitted})) is said
