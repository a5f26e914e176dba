"""Aims for a launch: words to limits, the clicks found against every setting, and a turn that is not worth it."""

from __future__ import annotations

from dataclasses import replace
from itertools import product
from types import SimpleNamespace

import pytest

from dynoan.analysis.launch.large.search import RECKONED
from dynoan.errors import CallError, QuantityError
from dynoan.jobs import assumptions
from dynoan.jobs.aim import answering as aim
from dynoan.jobs.aim import search as aim_search
from dynoan.jobs.aim.asked import NAMES, AimQuestion, LaunchAim
from dynoan.jobs.launch import answering as launch
from dynoan.jobs.launch.asked import LaunchQuestion
from dynoan.jobs.launch.figures import BY_KEY
from dynoan.show import presenting
from dynoan.show.text.blocks import Look, Paragraph
from dynoan.units import parse
from dynoan.workbench import Workbench
from tests.cli.launch_library import make

RATE = "level_nose_rise_rate_m_s"


@pytest.fixture
def bench(tmp_path, monkeypatch):
    return Workbench.find(make(tmp_path / "library", monkeypatch))


def ask(bench, *aims, **more):
    return aim.answer(bench, AimQuestion.asked("kestrel", aims, surface="sticky", time=0.5, **more))


class TestWords:
    @pytest.mark.parametrize(
        ("text", "key", "limit"),
        [
            ("nose slower than 120 mm/s", RATE, 0.12), ("front wheels under 50 mm", "front_wheel_height_m", 0.05),
            ("front wheels no higher than 2 in", "front_wheel_height_m", 0.0508),
            ("least wheelspin", "wheelspin_s", None),
            ("rear squat under 20 mm", "level_rear_squat_m", 0.02), ("steadiest", "driven_load_rms_n", None),
            ("slowest nose", RATE, None), ("nose lower than 1 in", "level_nose_rise_m", 0.0254),
            ("wheelspin less than 0.5 s", "wheelspin_s", 0.5),
        ],
    )  # fmt: skip
    def test_what_people_write(self, text, key, limit):
        found = LaunchAim.parsed(text)
        assert (found.key, found.limit) == (key, None if limit is None else pytest.approx(limit))

    @pytest.mark.parametrize("text", ["", "faster", "nose", "best clicks", "nose slower"])
    def test_what_is_no_aim_is_told_how(self, text):
        with pytest.raises(CallError, match="least wheelspin") as told:
            LaunchAim.parsed(text)
        assert told.value.part == "aim"

    def test_a_limit_of_another_kind(self):
        with pytest.raises(QuantityError, match="velocity"):
            LaunchAim.parsed("nose slower than 120 mm")

    @pytest.mark.parametrize(("key", "kind"), [name[1:] for name in NAMES])
    def test_what_is_wanted_is_a_figure_that_a_search_reckons_in_its_own_unit(self, key, kind):
        assert key in RECKONED
        display = BY_KEY[key].display("metric")
        assert parse(f"1 {display.unit}", kind) == pytest.approx(display.factor)


def said(found):
    return " ".join(b.text for b in presenting.blocks(found, Look()) if isinstance(b, Paragraph))


class TestFound:
    def test_a_limit_is_kept_by_the_smallest_turn_of_an_axle(self, bench):
        """Every setting of the front is run one by one: none with fewer clicks of turn keeps the limit."""
        now = launch.answer(bench, LaunchQuestion.asked("kestrel", surface="sticky", time=0.5)).runs[0].metrics[RATE]
        limit = 0.97 * now
        found = ask(bench, f"nose slower than {1e3 * limit:.3f} mm/s", axle="front")
        assert found.reached[0].kept
        assert found.reached[0].after <= limit
        turn = sum(abs(c - 2) for c in found.turned["fl"].values())
        case = launch.launch_case(bench, found.car, "")
        fewer = [s for s in product(range(5), repeat=4) if 0 < sum(abs(c - 2) for c in s) < turn]
        for setting in fewer:
            text = ",".join(f"{n}={c}" for n, c in zip(("lsc", "hsc", "lsr", "hsr"), setting, strict=True))
            asked = LaunchQuestion.asked("kestrel", surface="sticky", time=0.5, setting=f"front=@{text}")
            one = launch.launch_case(bench, asked.settings[1].on(found.car), text)
            scene = replace(asked.run.scene(case, found.car.surfaces["sticky"]), duration=0.5)
            assert launch.launch_large(one.large, scene, one.damping).metrics[RATE] > limit * 0.999, text

    @pytest.mark.thorough
    def test_what_keeps_a_limit_already_stays_and_is_not_worth_a_turn(self, bench):
        found = ask(bench, "nose slower than 900 mm/s")
        assert found.turned == {}
        assert not found.worth
        words = " ".join(b.text for b in presenting.blocks(found, Look()) if isinstance(b, Paragraph))
        assert "Nothing to turn" in words

    def test_a_limit_no_click_keeps_is_a_no(self, bench):
        found = ask(bench, "nose slower than 1 mm/s")
        assert found.no
        assert not found.reached[0].kept
        assert found.reached[0].after < found.reached[0].before
        assert "not kept by any clicks searched; beside damping, the front spring" in said(found)
        assert (found.outside, "--inside" in said(found)) == ((), False)
        far = replace(found, standing=dict.fromkeys(found.standing, "outside"))
        assert far.outside == tuple(far.turned)
        assert "front left and front right" in said(far) or "rear left and rear right" in said(far)
        assert "lie outside what was tested; --inside stays on tested ground" in said(far)
        assert {one["standing"] for one in far.to_dict()["choices"]} == {"outside"}

    def test_a_car_that_goes_over_is_told_so_and_never_that_its_clicks_are_the_nearest(self, bench):
        found = ask(bench, "nose slower than 900 mm/s")
        over = replace(found.runs[0], metrics={**found.runs[0].metrics, "goes_over_s": 0.39})
        both = said(replace(found, runs=(over, over)))
        assert "goes over, with those chosen after 0.39 s" in both
        assert "Nothing to turn" not in both
        assert "As it is the car goes over after 0.39 s" in said(replace(found, runs=(over, found.runs[0])))

    def test_a_pack_of_one_tested_setting_is_told_to_be_one(self, bench):
        car = bench.library.car("kestrel")
        assert not aim._tested_once(bench, car, ("front",))
        records = [SimpleNamespace(pack=car.corners["fl"].pack, clicks={"lsc": 2})] * 3
        one = SimpleNamespace(library=SimpleNamespace(records=lambda: records))
        assert "alone, so what its clicks do is not known" in aim._tested_once(one, car, ("front",))[0]

    @pytest.mark.thorough
    def test_both_axles_are_turned_for_the_least(self, bench):
        one, both = (ask(bench, "slowest nose", axle=axle).reached[0].after for axle in ("front", None))
        assert both <= one
        assert both < ask(bench, "slowest nose", axle="front").reached[0].before

    @pytest.mark.thorough
    def test_the_dict_says_what_to_turn_and_what_it_costs(self, bench):
        found = ask(bench, "slowest nose").to_dict()
        assert {row["where"] for row in found["choices"]} == {"fl", "fr", "rl", "rr"}
        assert {f["key"] for f in found["compared"]["figures"]} >= {RATE, "level_rear_squat_m", "distance_m"}


class TestRefusals:
    def test_a_car_with_several_surfaces(self, bench):
        with pytest.raises(CallError) as told:
            aim.answer(bench, AimQuestion.asked("kestrel", "steadiest"))
        assert told.value.need == "one surface"


class _Turning:
    """A search in the place of the real one: each axle answers to what the other has, as told."""

    def __init__(self, monkeypatch, answers):
        self.asked = []

        def axle(_job, car, name):
            self.asked.append(name)
            return answers(car, name), 10

        monkeypatch.setattr(aim_search.Aiming, "_axle", axle)

    @staticmethod
    def both(car, axles=("front", "rear")):
        question = AimQuestion(LaunchQuestion("made"), (), axles)
        return aim_search.Aiming(None, question, None, lambda *_: None).both(car)


class TestFixedPoint:
    """Front and rear in turn until neither moves: a car is a pair of clicks here, front and rear."""

    def test_each_is_searched_again_until_the_other_stays(self, monkeypatch):
        best = {0: 3, 3: 5, 5: 5}  # rear wants what front has mapped; front wants half of the rear, at most 5
        made = _Turning(
            monkeypatch, lambda car, n: (min(5, car[1]), car[1]) if n == "front" else (car[0], best[car[0]])
        )
        assert made.both((9, 3)) == ((5, 5), 40, True)
        assert made.asked == ["front", "rear", "front", "rear"]

    def test_one_axle_is_searched_once(self, monkeypatch):
        made = _Turning(monkeypatch, lambda car, _n: (car[0] + 1, car[1]))
        assert made.both((0, 0), ("front",)) == ((1, 0), 10, True)

    def test_what_never_settles_ends_and_says_so(self, monkeypatch):
        made = _Turning(monkeypatch, lambda car, n: (1 - car[0], car[1]) if n == "front" else (car[0], 1 - car[1]))
        _, searched, settled = made.both((0, 0))
        assert not settled
        assert searched == 10 * 2 * assumptions.MOST_TURNS


def test_where_a_limit_is_not_kept_a_command_is_told_that_runs_as_it_stands(bench):
    told = said(ask(bench, "rear squat under 1 mm"))
    (spring,) = {c.spring for c in bench.library.car("kestrel").axle("rear")}
    assert f"dynoan launch kestrel --surface sticky --what 'rear.spring={spring * 1.1e-3:.1f} N/mm'" in told
