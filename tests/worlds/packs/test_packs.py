"""The made packs, shocks, runs and rows are what they are said to be."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from numpy.testing import assert_allclose, assert_array_equal
from scipy.optimize import brentq

from tests.worlds.packs import packs as valving
from tests.worlds.packs.adjusters import LAYOUTS, ODD, Adjuster, draw_adjusters, of_side, returned
from tests.worlds.packs.builders import KNOWN, TESTED
from tests.worlds.packs.made import PackWorld
from tests.worlds.packs.rows import BY_NAME, draw
from tests.worlds.packs.tests_of import DESIGNS, Job, Run, Shop, curve, deliver, scatter, settings
from tests.worlds.packs.units import Change, Spread, Unit, draw_unit

V = np.concatenate([-valving.SPEEDS[::-1], valving.SPEEDS])


def dice(seed: int) -> np.random.Generator:
    return np.random.default_rng(seed)


def one_of(odd: str, seed: int) -> Adjuster:
    return ODD[odd](dice(seed), Adjuster("lsc", 20))


def opened(knob: Adjuster) -> np.ndarray:
    return knob.opening(np.arange(knob.clicks + 1))


class TestAdjusters:
    def test_regular_opens_evenly(self):
        assert_allclose(opened(Adjuster("r", 10)), np.linspace(0.0, 1.0, 11))
        assert_allclose(opened(Adjuster("r", 10, counted="from soft")), np.linspace(1.0, 0.0, 11))

    @pytest.mark.parametrize("seed", range(6))
    def test_oddities_act_as_named(self, seed: int):
        steps = {odd: np.diff(opened(one_of(odd, seed))) for odd in ODD}
        ends = steps["dead clicks"]
        assert min(abs(ends[0]), abs(ends[-1])) == 0.0
        assert np.sum(ends == 0.0) >= 2
        assert 0.5 <= np.mean(np.isclose(steps["stepped"], 0.0)) <= 0.8
        assert np.sum(steps["not monotone"] < -1e-9) == 1
        assert np.all(steps["wrong way"] < 0.0)
        assert np.all(steps["counted the other way"] < 0.0)
        assert np.sum(steps["saturating"][:5]) > 0.5
        assert_allclose(steps["hysteresis"], 0.05)

    @pytest.mark.parametrize("odd", ODD)
    def test_oddities_are_named(self, odd: str):
        made = draw_adjusters(dice(3), 4, [odd])
        assert frozenset().union(*(one.oddities() for one in made)) == {odd}
        assert all(0.0 <= share <= 1.0 for one in made for share in opened(one))

    def test_loose_screws_stand_half_a_click_off(self):
        knob, places = one_of("hysteresis", 0), set()
        for seed in range(20):
            places.add(returned(dice(seed), [knob], {"lsc": 7})["lsc"])
        assert places == {6.5, 7.5}

    def test_who_moves_what(self):
        assert of_side({"cr": 0.3}, "c") == of_side({"cr": 0.3}, "r") == (0.3, 0.3)
        assert of_side({"c": 0.3, "r": 0.6}, "r") == (0.6, 0.6)
        assert of_side({"lsc": 0.1, "hsc": 0.2, "lsr": 0.3, "hsr": 0.4}, "c") == (0.1, 0.2)


class TestPacks:
    @pytest.mark.thorough
    @pytest.mark.parametrize("law", valving.LAWS)
    @pytest.mark.parametrize("number", LAYOUTS)
    def test_force_falls_with_every_click_toward_soft(self, law: str, number: int):
        for seed in range(2):
            pack = valving.draw_pack(dice(seed), "gravel", draw_adjusters(dice(seed), number), law)
            for knob in pack.adjusters:
                at = {one.name: one.clicks // 2 for one in pack.adjusters}
                forces = np.array([np.abs(pack.force({**at, knob.name: n}, V)) for n in range(knob.clicks + 1)])
                toward_soft = np.diff(forces, axis=0) * (1.0 if knob.counted == "from closed" else -1.0)
                assert np.all(toward_soft <= 1e-6 * forces[1:])
                assert np.any(toward_soft < -1e-3 * forces[1:])
            assert np.all(np.sign(pack.force(at, V)) == np.sign(V))
            assert_allclose(pack.force(at, 0.0), 0.0, atol=1e-9)

    def test_a_balance_against_a_root_finder(self):
        side = replace(valving.draw_side(dice(1), "sharp blow-off", 500.0), leak=0.1, stack=1.1)
        area, crack = side.bleed.at(0.3), 1.1 * side.crack.at(0.7)

        def flow(p: float) -> float:
            return area * (0.1 * p + 0.9 * np.sqrt(p)) + side.gain / 1.1 * max(p - crack, 0.0) * np.sqrt(p)

        for u in (0.03, 0.2, 0.5):
            root = brentq(lambda p, u=u: side.knee * flow(p) - u, 0.0, 1e3)
            assert_allclose(side.shape(0.3, 0.7)(np.array([u])), side.force_n * root, rtol=1e-4)

    def test_force_at_the_reference_is_the_one_drawn(self):
        assert_allclose(valving.draw_side(dice(2), "shims", 640.0).shape(0.5, 0.5)(np.array([0.25])), 640.0, rtol=1e-9)

    @pytest.mark.parametrize("law", valving.LAWS)
    def test_alike_packs_differ_by_what_is_stated(self, law: str):
        for seed, share in enumerate((0.03, 0.08, 0.15)):
            pack = valving.draw_pack(dice(seed), "gravel", draw_adjusters(dice(seed), 2), law)
            a, b = (p.opened({"c": 0.5, "r": 0.5})(V) for p in (pack, valving.alike(dice(seed), pack, "mixed", share)))
            assert_allclose(np.sqrt(np.mean(((a - b) / (0.5 * (a + b))) ** 2)), share, rtol=1e-2)

    @pytest.mark.thorough
    @pytest.mark.parametrize("number", [2, 4])
    def test_cross_talk_moves_compression_by_the_share_drawn(self, number: int):
        knob, taken = LAYOUTS[number][number // 2], []
        for seed in range(40):
            rng = dice(seed)
            plain = valving.draw_pack(rng, "gravel", draw_adjusters(rng, number))
            for pack in (plain, valving.crossed(plain, float(rng.uniform(*valving.CROSS_TALK)))):
                at = dict.fromkeys(LAYOUTS[number], 0.5)
                ends = [pack.opened({**at, knob: place})(valving.SPEEDS) for place in (0.0, 1.0)]
                taken.append(float(np.max(1.0 - ends[1] / ends[0])))
        assert_allclose(taken[::2], 0.0)
        assert 0.03 <= min(taken[1::2]) <= 0.07
        assert 0.16 <= max(taken[1::2]) <= 0.2001


class TestUnits:
    def test_spread_is_as_stated_and_common_to_both_directions(self):
        rng, spread = dice(0), Spread(0.025, 0.006)
        factors = np.array([draw_unit(rng, "x", spread).factor([1.0, -1.0]) for _ in range(4000)])
        assert_allclose(factors.std(axis=0), np.hypot(0.025, 0.006), rtol=0.05)
        assert_allclose(np.corrcoef(factors.T)[0, 1], 0.025**2 / (0.025**2 + 0.006**2), atol=0.01)
        assert_allclose(factors.mean(), 1.0, atol=2e-3)

    def test_time_warmth_and_changes(self):
        shock = Unit(
            "x", 0.02, 0.0, 0.0, 10.0, 100.0, 0.01, 0.002, (Change(1.5, rebound=-0.1, gas=-0.5, friction_n=5.0),)
        )
        assert_allclose(shock.factor([0.1, -0.1]), 1.02)
        assert_allclose(shock.factor([0.1, -0.1], 2.0), [1.02 * 0.98, 1.02 * 0.98 * 0.9])
        assert_allclose(shock.factor(0.1, 0.0, 35.0), 1.02 * 0.98)
        assert (shock.friction(1.0), shock.friction(2.0)) == (10.0, 15.0)
        assert (shock.gas(1.0), shock.gas(2.0)) == (100.0, 50.0)
        assert shock.changes[0].named() == {"rebound", "gas", "friction"}


def a_job(seed: int, **change: object) -> Job:
    pack = valving.draw_pack(dice(seed), "gravel", draw_adjusters(dice(seed), 2), "poppet")
    return replace(Job(pack, Unit("RL-02", friction_n=20.0, gas_n=120.0), {"c": 4, "r": 5}), **change)


class TestShop:
    @pytest.mark.parametrize("design", DESIGNS)
    @pytest.mark.parametrize("number", LAYOUTS)
    def test_designs_give_different_settings_within_range(self, design: str, number: int):
        for count in (4, 8, 16):
            knobs = draw_adjusters(dice(count), number)
            places = settings(dice(count), knobs, count, design)
            assert len({tuple(place.values()) for place in places}) == count
            assert all(0 <= place[one.name] <= one.clicks for place in places for one in knobs)

    def test_one_at_a_time_moves_one(self):
        places = settings(dice(0), draw_adjusters(dice(0), 4), 9, "one at a time")
        assert all(sum(place[k] != places[0][k] for k in place) == 1 for place in places[1:])

    def test_runs_scatter_by_the_share_stated(self):
        rng, u = dice(0), np.array([0.02, 0.1, 0.5])
        draws = np.array([[side(u) for side in scatter(rng, 0.02)] for _ in range(6000)])
        assert_allclose(draws.std(axis=0), 0.02, rtol=0.05)
        assert_allclose(np.corrcoef(draws[:, 0, 1], draws[:, 1, 1])[0, 1], 0.5, atol=0.05)

    @pytest.mark.parametrize("form", ["trace", pytest.param("one speed", marks=pytest.mark.thorough), "peaks"])
    def test_stated_covariance_is_that_of_the_error(self, form: str):
        """Errors whitened by their covariance: a sum of squares of mean n, variance 2 n (chi-squared)."""
        job, rng, sums = a_job(1, form=form), dice(0), []
        for _ in range(300):
            run = curve(job, Shop(repeat=0.0), rng)
            friction = 20.0 * np.sign(run.velocity) if form == "peaks" else 0.0
            error = run.force - job.pack.force(job.clicks, run.velocity) - friction
            sums.append(error @ np.linalg.solve(run.covariance, error))
        count = run.velocity.size
        assert_allclose(np.mean(sums), count, atol=4.0 * np.sqrt(2.0 * count / 300))
        assert_allclose(np.var(sums), 2.0 * count, rtol=0.4)

    def test_friction_taken_for_damping_is_missing_from_friction(self):
        job, shop = a_job(1, form="one speed"), Shop(0.0, 0.0, 0.0)
        run = curve(job, shop, dice(5))
        error = np.sign(run.velocity) * (run.force - job.pack.force(job.clicks, run.velocity))
        assert abs(run.friction_n - 20.0) > 1.0
        assert_allclose(error.mean(), 20.0 - run.friction_n, atol=0.4)  # 0.5 N from speed to speed, 40 speeds

    @pytest.mark.parametrize("form", ["trace", "one speed", "peaks"])
    def test_records_hold_what_the_pack_does(self, form: str):
        job = a_job(1, form=form)
        run = deliver(job, Shop(level="record", repeat=0.002), dice(0))
        v = np.array([-0.2, -0.05, 0.05, 0.2])
        assert_allclose(run.record.truth(v), job.pack.force(job.clicks, v), rtol=0.01)
        assert run.record.friction_n == 20.0
        assert (run.record.peaks is not None) == (form == "peaks")
        assert run.force is None


def runs_of(world: PackWorld) -> list[Run]:
    return [
        *world.library.runs,
        *world.later,
        *(one.run for one in world.unknowns),
        *(run for pair in world.pairs for run in (*pair.one, *pair.other)),
        *(run for one in world.histories for run in one.now),
    ]


#: a row for each way in which worlds are made; the others, in the thorough run, differ from these by what they draw
OF_EACH_BUILDER = {
    "map regular 8", "map any 8", "map shocks 8", "map forms 8", "retest worn", "unit carried", "identify alike",
    "identify turned", "identify unlisted", "identify warm unsaid", "match peaks", "health two", "plan any",
}  # fmt: skip


class TestRows:
    @pytest.mark.parametrize(
        "row", [pytest.param(row, marks=[] if row in OF_EACH_BUILDER else [pytest.mark.thorough]) for row in BY_NAME]
    )
    def test_row_draws_worlds_that_repeat_and_ask_something(self, row: str):
        world, again = draw(row, 0), draw(row, 0)
        for one, other in zip(runs_of(world), runs_of(again), strict=True):
            assert_array_equal(one.force, other.force)
        for each in (world, draw(row, 1)):
            assert all(np.all(np.isfinite(run.force)) for run in runs_of(each))
            asked = {"identify": each.unknowns, "match": each.pairs, "health": each.histories}
            assert asked.get(each.task, each.asked)
            assert each.task in row
            tested = [run.clicks for run in each.library.of("gravel")]
            assert not [clicks for clicks in each.asked if clicks in tested]
            assert np.all(np.isfinite(each.force(tested[0], each.speeds(), TESTED)))

    @pytest.mark.thorough
    @pytest.mark.parametrize("kind", KNOWN)
    def test_rows_hold_the_oddity_they_name(self, kind: str):
        for row in (f"map {kind} 4", f"identify {kind}", f"plan {kind}"):
            assert draw(row, 1).oddities == {kind}
        assert not draw("map regular 8", 1).oddities

    def test_runs_are_of_the_truth(self):
        """Within the scatter: 1 % a run, the fit's 0.4 %, 1 N of friction's split, six standard deviations."""
        for seed in range(5):
            world = draw("map four adjusters 8", seed)
            for run in world.library.runs:
                true = world.force(run.clicks, run.velocity, run.shock, run.year)
                assert np.all(np.abs(run.force - true) < 6.0 * (0.011 * np.abs(true) + 1.2))

    def test_unknown_runs_are_of_the_pack_named(self):
        for seed in range(4):
            world = draw("identify far", seed)
            for one in world.unknowns:
                pack = next(pack for pack in world.packs if pack.name == one.pack)
                ratio = one.run.force / pack.force(one.clicks, one.run.velocity)
                assert_allclose(np.median(ratio), 1.0, atol=0.12)
                assert one.run.pack is None

    def test_strangers_are_none_of_the_packs(self):
        assert all(one.pack is None for seed in range(3) for one in draw("identify unlisted", seed).unknowns)

    @pytest.mark.thorough
    def test_pairs_lie_on_both_sides_of_the_tolerance_and_the_same_shock_differs_by_nothing(self):
        pairs = [pair for seed in range(10) for pair in draw("match 2 %", seed).pairs]
        sides = [pair.within() for pair in pairs]
        assert min(sides.count(True), sides.count(False)) >= 15
        assert all(draw("match 2 %", seed).pairs[0].worst == 0.0 for seed in range(3))

    def test_histories_change_as_named(self):
        for row, name, what in (("health friction", "friction", "friction_n"), ("health gas", "gas", "gas_n")):
            for one in draw(row, 0).histories:
                then, now = (np.mean([getattr(run, what) for run in runs]) for runs in (one.earlier, one.now))
                assert one.changed == {name}
                assert abs(now - then) > 10.0
        assert not any(one.changed for one in draw("health same warm", 0).histories)

    def test_a_later_test_is_of_the_first_setting(self):
        world = draw("retest worn", 0)
        assert all(run.clicks == world.library.runs[0].clicks and run.year == 1.0 for run in world.later)
        then, now = (world.force(world.asked[0], V, TESTED, date) for date in (0.0, 1.0))
        assert 0.85 < np.min(now / then) < 0.96

    @pytest.mark.parametrize("row", [
        "map forms 8", *(pytest.param(row, marks=pytest.mark.thorough) for row in ("match peaks", "health gas")),
    ])  # fmt: skip
    def test_record_level_gives_files(self, row: str):
        assert all(run.record is not None and run.force is None for run in runs_of(draw(row, 0, "record"))[:4])
