"""Cases side by side: the same answer as the job gives for a car file that says so, and what differs marked."""

from __future__ import annotations

import pytest

from dynoan.errors import CallError, LookupFault, QuantityError
from dynoan.jobs import carry, choose, launch, ratio, what_if
from dynoan.jobs.carry import CarryQuestion
from dynoan.jobs.choose import ChooseQuestion
from dynoan.jobs.launch.asked import LaunchQuestion
from dynoan.jobs.launch.figures import deciding
from dynoan.jobs.ratio.asked import RatioQuestion
from dynoan.jobs.what_if import WhatCase, WhatIfQuestion
from dynoan.model.shock import clicks_text
from dynoan.show import presenting
from dynoan.show.text import lettered
from dynoan.show.text import what_if as text
from dynoan.show.text.blocks import Look, Paragraph, Table
from dynoan.workbench import Workbench
from tests.cli.corner_library import change, garage, put
from tests.cli.launch_library import CAR, make
from tests.often import often

__all__ = ["garage"]

STIFF = "front.spring=60 N/mm"


@pytest.fixture
def stocked(garage):
    put(garage, "cars/stiff.toml", change('spring = "45 N/mm"', 'spring = "60 N/mm"'))
    return Workbench.find(garage)


@pytest.fixture
def bench(tmp_path, monkeypatch):
    path = make(tmp_path / "library", monkeypatch)
    stiff = CAR.replace('spring = "45 N/mm"', 'spring = "60 N/mm"')
    (path / "cars" / "stiff.toml").write_text(stiff)
    return Workbench.find(path)


def ask(bench, asked, *what):
    return what_if.answer(bench, WhatIfQuestion.of(asked, what))


def figure(block, key):
    return next(f for f in block.figures if f.key == key)


class TestCases:
    def test_a_change_gives_what_a_car_file_that_says_so_gives(self, bench):
        found = ask(bench, RatioQuestion.asked("kestrel"), STIFF, "stiff")
        alone = ratio.answer(bench, RatioQuestion.asked("stiff"))
        for one in found.found[1:]:
            assert one.answer.to_dict()["corners"] == alone.to_dict()["corners"]
        assert found.labels == ("as it is", STIFF, "stiff")

    def test_the_car_as_it_is_comes_first_and_keeps_its_own_result(self, bench):
        found = ask(bench, RatioQuestion.asked("kestrel"), STIFF).to_dict()
        alone = ratio.answer(bench, RatioQuestion.asked("kestrel")).to_dict()
        assert {key: found[key] for key in alone} == alone
        assert found["what"][1]["changes"] == {"front.spring": "60 N/mm"}

    def test_the_file_is_not_touched(self, bench):
        before = bench.library.car_text("kestrel")
        ask(bench, RatioQuestion.asked("kestrel"), STIFF)
        assert bench.library.car_text("kestrel") == before

    def test_several_changes_of_one_case_stand_together(self):
        case = WhatCase.parsed("front.spring=275 lb/in; fl.clicks=lsc=4")
        assert case.changes == (("front.spring", "275 lb/in"), ("fl.clicks", "lsc=4"))

    def test_carrying_over_takes_each_case_for_the_change(self, stocked):
        found = ask(stocked, CarryQuestion.asked("kestrel", ""), STIFF)
        alone = carry.answer(stocked, CarryQuestion.asked("kestrel", "stiff"))
        assert found.labels == (STIFF,)
        assert found.found[0].answer.rows() == alone.rows()

    @pytest.mark.parametrize("more", often(1, [(), ("rear.spring=39 N/mm",)]))
    def test_what_is_carried_is_held_against_the_car_as_it_is(self, stocked, more):
        """One case alone is told too, and with several none of them is what the others are held against."""
        found = ask(stocked, CarryQuestion.asked("kestrel", ""), STIFF, *more)
        alone = carry.answer(stocked, CarryQuestion.asked("kestrel", "stiff"))
        front, now = found.blocks[0], stocked.library.car("kestrel").corners["fl"]
        assert found.heads == ("as it is", STIFF, *more)
        assert figure(front, "clicks").values[:2] == (clicks_text(now.clicks), alone.places[0].chosen.clicks_text)
        force = figure(front, "force_factor")
        assert force.values[:2] == (1.0, pytest.approx(alone.corners[0].carried.force_factor))
        rows = [row for row in text.block(front, found.heads, Look())[0].rows if row[0].startswith("force")]
        assert f"{100 * (force.values[1] - 1):+.0f} %" in rows[0][2]

    def test_clicks_that_stay_are_told_to_stay(self, stocked):
        found = ask(stocked, CarryQuestion.asked("kestrel", ""), "front.tyre=211 N/mm")
        shown = text.block(found.blocks[0], found.heads, Look())[0]
        assert [row[0] for row in shown.rows][:2] == ["pack", "clicks"]
        assert not figure(found.blocks[0], "untouched_lost").differs[1]

    def test_choosing_with_other_springs(self, stocked):
        asked = ChooseQuestion.asked("kestrel", axle="front", compression_low=0.4)
        found = ask(stocked, asked, STIFF)
        want = choose.answer(stocked, ChooseQuestion.asked("stiff", axle="front", compression_low=0.4)).best[0].clicks
        assert found.found[1].answer.best[0].clicks == want


class TestPictures:
    def test_choosing_draws_a_line_a_case_at_every_place(self, stocked):
        found = ask(stocked, ChooseQuestion.asked("kestrel", axle="front", compression_low=0.4), STIFF)
        first = presenting.figure(found).axes[0]
        assert [line.get_label().partition(":")[0] for line in first.get_lines() if ":" in line.get_label()] == [
            "as it is", STIFF,
        ]  # fmt: skip

    @pytest.mark.thorough
    def test_carrying_draws_what_is_on_the_car_and_each_case(self, stocked):
        found = ask(stocked, CarryQuestion.asked("kestrel", ""), STIFF)
        drawn = presenting.figure(found)
        labels = [line.get_label() for line in drawn.axes[0].get_lines() if ":" in line.get_label()]
        assert [text.partition(":")[0] for text in labels] == ["as it is", STIFF]
        alone = carry.answer(stocked, CarryQuestion.asked("kestrel", "stiff"))
        assert presenting.figure(alone).axes[0].get_title(loc="left").startswith("front")


class TestCompared:
    def test_only_the_axle_whose_spring_changed_differs(self, bench):
        blocks = {b.title: b for b in ask(bench, RatioQuestion.asked("kestrel"), STIFF).blocks}
        assert figure(blocks["front left"], "wheel_rate_n_m").differs == ("", "sure")
        assert all(f.same for f in blocks["rear left"].figures)

    def test_a_launch_has_a_block_a_surface_and_the_runs_of_the_job(self, bench):
        asked = LaunchQuestion.asked("kestrel", surface=("sticky", "loose"), time=0.5)
        found = ask(bench, asked, STIFF)
        assert [b.title for b in found.blocks] == ["sticky", "loose"]
        alone = launch.answer(bench, LaunchQuestion.asked("stiff", surface="sticky", time=0.5)).runs[0]
        rise = figure(found.blocks[0], "level_nose_rise_m")
        assert rise.values[1] == alone.metrics["level_nose_rise_m"]
        assert rise.values[1] < rise.values[0]
        assert rise.differs[1] == "sure"  # a stiffer spring holds the nose down whatever the curves are

    def test_what_moves_nothing_decides_nothing(self, bench):
        found = ask(bench, LaunchQuestion.asked("kestrel", surface="sticky", time=0.3), "surfaces.loose.grip=0.7")
        assert {v.verdict for v in found.blocks[0].verdicts} == {"no difference"}

    def test_a_table_names_what_differs_and_what_does_not(self, bench):
        found = ask(bench, RatioQuestion.asked("kestrel"), STIFF)
        shown = presenting.blocks(found, Look())
        table = next(b for b in shown if isinstance(b, Table))
        assert table.columns == ["", "as it is", STIFF]
        rate = next(row for row in table.rows if row[0].startswith("wheel rate"))
        assert rate[1:] == ["40.6", "54.1 (+33 %)*"]  # 45 and 60 N/mm times 0.95 squared
        words = " ".join(b.text for b in shown if isinstance(b, Paragraph))
        assert "rear left: no figure differs" in words


class TestRefusals:
    @pytest.mark.parametrize("text", ["=", "front.spring=", "; ;", "=52 N/mm"])
    def test_what_is_no_case_is_about_the_cases(self, text):
        with pytest.raises(CallError, match=r"front\.spring=275 lb/in") as told:
            WhatCase.parsed(text)
        assert told.value.part == "what"

    def test_none_and_too_many(self):
        for cases in ([], ["a"] * 13):
            with pytest.raises(CallError, match="cases"):
                WhatIfQuestion.of(RatioQuestion.asked("kestrel"), cases)

    def test_an_unknown_car_key_or_value(self, bench):
        asked = RatioQuestion.asked("kestrel")
        for case, kind in (
            ("nobody", LookupFault),
            ("front.sprong=1 N/mm", QuantityError),
            ("fl.mass=3 kg", QuantityError),
        ):
            with pytest.raises(kind) as told:
                ask(bench, asked, case)
            assert told.value.part == "what"


class TestManyCases:
    """Names too wide for a terminal of 80 columns make way for letters, and the letters are explained."""

    NAMES = ("as it is", "front.spring=275 lb/in", "rear.clicks=lsc=0,lsr=0", "links.lower=2")

    def test_letters_stand_for_wide_names(self):
        found = [b.text for b in lettered.legend(self.NAMES, text._heads(self.NAMES)) if isinstance(b, Paragraph)]
        assert found[:2] == ["A  as it is", "B  front.spring=275 lb/in"]
        few = ("as it is", "lower 2")
        assert lettered.legend(few, text._heads(few)) == []

    def test_a_wheelspin_that_nobody_has_decides_nothing(self):
        assert "wheelspin_s" not in dict(deciding([{"wheelspin_s": 0.0}, {"wheelspin_s": float("nan")}]))
        assert dict(deciding([{"wheelspin_s": 0.0}, {"wheelspin_s": 0.4}]))["wheelspin_s"] == "Least wheelspin"
