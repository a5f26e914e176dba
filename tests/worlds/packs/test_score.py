"""The scorer counts as it says, held against oracles that know the truth."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
import pytest
from numpy.testing import assert_allclose

from tests.worlds.packs import score as scoring
from tests.worlds.packs.answers import Mapped, Named, Ordered, Program
from tests.worlds.packs.made import PackWorld
from tests.worlds.packs.rows import draw
from tests.worlds.packs.tables import table, within
from tests.worlds.score import Band


def oracle(worlds: Sequence[PackWorld], sigma: float, stated: float) -> Program:
    """A program that knows the truth: errs by `sigma` of force, says `stated`; one answer in twenty is made wrong."""
    rng, by_runs = np.random.default_rng(0), {id(world.library.runs[0]): world for world in worlds}
    right = {id(one.run): one.pack for world in worlds for one in world.unknowns}
    pairs = {id(pair.one): pair for world in worlds for pair in world.pairs}
    changed = {id(one.now): one.changed for world in worlds for one in world.histories}

    def mapper(library, pack):
        world = by_runs[id(library.runs[0])]

        def band(clicks, v, shock, date):
            true = world.force(clicks, v, shock, date)
            value = true * (1.0 + sigma * rng.standard_normal(v.size))
            return Band(value, value - 1.96 * stated * np.abs(true), value + 1.96 * stated * np.abs(true))

        return Mapped(band, world.oddities)

    def identify(library, run):
        wrong = None if right[id(run)] is not None else "gravel"
        return Named(right[id(run)] if rng.random() < 0.95 else wrong, 0.95)

    def match(library, one, other, tolerance):
        fits = pairs[id(one)].worst <= tolerance
        return "matched" if fits != (rng.random() < 0.05) else "not matched"

    def health(library, earlier, now):
        return changed[id(now)] if rng.random() < 0.95 else frozenset({"compression", "gas"})

    def plan(library, pack, count):
        return Ordered(tuple(by_runs[id(library.runs[0])].asked[:count]), stated, stated)

    return Program(mapper, identify, match, health, plan)


def figures(row: str, seeds: int, sigma: float = 0.01, stated: float = 0.01) -> scoring.Cells:
    worlds = [draw(row, seed) for seed in range(seeds)]
    return scoring.TRIES[worlds[0].task](oracle(worlds, sigma, stated), worlds)


class TestScore:
    @pytest.mark.thorough
    @pytest.mark.parametrize("row", ["map four adjusters 8", "unit one tested"])
    def test_an_oracle_that_states_its_sigma_holds_95_percent(self, row: str):
        cells = figures(row, 10)
        assert 0.93 <= cells["held"] <= 0.97
        assert_allclose((cells["silent"], cells["worlds"], cells["rms error"]), (0.0, 1.0, 0.01), atol=5e-4)
        assert_allclose(cells["width / error"], 1.0, atol=0.06)

    def test_an_oracle_that_states_too_little_or_too_much_is_marked(self):
        for stated in (0.005, 0.02):
            assert not within("map", "map regular 8", figures("map regular 8", 4, stated=stated))
        assert within("map", "map regular 4", {"held": 0.86})
        assert not within("map", "map regular 8", {"held": 0.86})

    def test_oddities_named(self):
        cells = figures("map stepped 4", 3)
        assert (cells["oddities named"], cells["named wrongly"]) == (1.0, 0.0)

    def test_retest(self):
        cells = figures("retest worn", 10)
        assert all(0.93 <= cells[name] <= 0.97 for name in ("held before", "held after, then", "held after, now"))
        assert (cells["width after / before"], cells["widened by a tenth"]) == (1.0, 0.0)

    @pytest.mark.parametrize("row", [pytest.param("identify alike", marks=pytest.mark.thorough), "identify unlisted"])
    def test_identify(self, row: str):
        cells = figures(row, 25)
        assert 0.88 <= cells["sure: right"] <= 0.985
        assert_allclose((cells["sure: claimed"], cells["told"], cells["sure"]), (0.95, 1.0, 1.0))
        missed = cells["known called none" if row == "identify alike" else "strange called known"]
        assert_allclose(missed, 1.0 - cells["sure: right"])

    @pytest.mark.thorough
    def test_match_and_health(self):
        cells = figures("match 1 %", 25)
        assert max(cells["false matched"], cells["false not matched"]) <= 0.12
        assert min(cells["false matched"], cells["false not matched"]) >= 0.01
        assert figures("health rebound", 20)["found"] >= 0.85
        assert figures("health same", 30)["false alarms"] <= 0.12

    def test_plan(self):
        cells = figures("plan regular", 5)
        assert_allclose((cells["true after"], cells["true / stated, rms"]), (0.01, 1.0), rtol=0.1)

    def test_a_refusal_is_silence(self):
        worlds = [draw("map regular 4", 0)]
        cells = scoring.try_map(Program(lambda library, pack: Mapped(lambda *_: None, refused="too few")), worlds)
        assert cells["silent"] == 1.0
        assert np.isnan(cells["held"])

    def test_tables_mark_what_is_not_kept(self):
        rows = [(row, draw(row, 0).task, figures(row, 3)) for row in ("map regular 4", "identify far")]
        printed = table(rows)
        assert printed.count("\n\n") == 1
        assert printed.count("\n") == 6
        broken = table([(rows[0][0], "map", {**rows[0][2], "held": 0.5})])
        assert broken.endswith("| < |")
