"""Curves over one another and stand-ins as question and answer, held against the packs the tests were made of."""

from __future__ import annotations

from itertools import pairwise

import numpy as np
import pytest

from dynoan.errors import CallError, LookupFault
from dynoan.jobs.assumptions import CLOSE_PCT
from dynoan.jobs.compare import CompareQuestion, answer, compared
from dynoan.jobs.equal_to import EqualToQuestion
from dynoan.jobs.equal_to import answer as equal_to
from dynoan.jobs.named import click_remarks, distinct, gas_remarks, temperature_remarks
from dynoan.model.curve import Curve
from dynoan.model.side import Side
from dynoan.show import presenting
from dynoan.workbench import Resolved, Workbench
from fixtures.rig import PACKS
from tests.cli import pack_library
from tests.cli.pack_library import NAMES

packs = pack_library.packs
MIDDLE = ("shock=FL-01,pack=gravel,lsc=10,hsc=10", "shock=FL-01,pack=mixed,lsc=10,hsc=10")


@pytest.fixture(scope="module")
def bench(packs):
    return Workbench.find(packs / "library")


@pytest.fixture(scope="module")
def both(bench):
    return answer(bench, CompareQuestion.asked(*MIDDLE, at="0.1,0.25"))


def straight(slope: float, top: float = 0.5, low: float = 0.0, **more: float) -> Curve:
    speeds = np.linspace(0, top, 51)
    side = Side((), (), speeds, slope * speeds, slope * speeds, top, forces=slope * speeds, low_speed=low)
    return Curve(side, side, **more)


def named(label: str, **more: float) -> Resolved:
    return Resolved(label, straight(1000, **more))


def test_differences_are_those_of_the_packs(both):
    clicks = dict.fromkeys(NAMES, 10)
    for row in both.table:
        v = row.speed if row.direction == "compression" else -row.speed
        gravel, mixed = (float(PACKS[p].damping(np.array([v]), clicks)[0]) for p in ("gravel", "mixed"))
        assert row.differences[1] == pytest.approx(100 * (mixed / gravel - 1), abs=5)


def test_the_frame_the_csv_and_the_record_say_the_same(both):
    frame, record = both.to_frame(), both.to_dict()["table"]
    assert list(frame.columns)[:2] == ["direction", "velocity_m_s"]
    forces = [c for c in frame.columns if c.startswith("force_n ")]
    assert [c.removeprefix("force_n ") for c in forces] == list(both.labels)
    assert frame[forces].to_numpy().tolist() == [row["force_n"] for row in record]
    lines = presenting.csv(both).splitlines()
    assert lines[0].split(",")[:2] == ["direction", "velocity_m_s"]
    assert len(lines) == 1 + len(record)


def test_who_has_a_say_is_told_of_each_pack(both):
    assert set(both.coverage) == {"gravel", "mixed"}


def test_a_curve_is_silent_beyond_its_data():
    rows = compared([straight(1000, 0.5), straight(2000, 0.5), straight(3000, 0.2)], [0.1, 0.4])
    at = {(r.direction, r.speed): r for r in rows}
    assert at["compression", 0.1].differences == pytest.approx((0, 100, 200))
    assert at["rebound", 0.4].forces == (pytest.approx(400), pytest.approx(800), None)
    assert at["rebound", 0.4].differences[2] is None


def test_a_speed_only_one_holds_is_no_comparison():
    assert compared([straight(1000, 0.5), straight(2000, 0.2)], [0.4]) == []


def test_usual_speeds_do_not_crowd():
    rows = compared([straight(1000, 0.41), straight(1000, 0.42), straight(1000, 0.43)], None)
    speeds = [r.speed for r in rows if r.direction == "compression"]
    assert all(b >= 1.08 * a for a, b in pairwise(speeds))


@pytest.mark.parametrize("what", [(), MIDDLE[:1]])
def test_one_is_no_comparison(bench, what):
    with pytest.raises(CallError, match="two or more"):
        answer(bench, CompareQuestion.asked(*what))


def test_too_many_are_refused_by_number(bench):
    with pytest.raises(CallError, match="14 curves are too many for one table; name up to 8"):
        answer(bench, CompareQuestion.asked("shock=FL-01"))


def test_labels_tell_apart():
    assert distinct([named("a"), named("b"), named("a")]) == ["a (1)", "b", "a (2)"]


def test_tests_over_ten_degrees_apart_are_remarked_on():
    assert temperature_remarks([named("a", temperature=20.0), named("b", temperature=30.0)]) == []
    (said,) = temperature_remarks([named("a", temperature=31.0), named("b", temperature=20.0), named("c")])
    assert said.startswith("b was tested at 20 °C and a at 31 °C")


def test_gas_that_differs_is_remarked_on_whichever_comes_first():
    a, b = named("a", gas_force=100.0), named("b", gas_force=130.0)
    assert gas_remarks(a, b) == gas_remarks(b, a)
    assert gas_remarks(a, b)[0].startswith("b has 30 N more gas force than a")
    assert "a pair needs the same" in gas_remarks(a, b)[0]
    assert gas_remarks(a, named("c", gas_force=119.0)) == []
    assert gas_remarks(a, named("c", gas_force=float("nan"))) == []


def test_a_setting_stands_in_for_itself_in_the_counting_of_the_shocks(bench):
    found = equal_to(bench, EqualToQuestion("gravel@lsc=6,hsc=6,lsr=6,hsr=14", ("gravel", "mixed")))
    best = found.stand_ins[0]
    assert (best.found.pack, best.clicks) == ("gravel", {"lsc": 6, "hsc": 6, "lsr": 6, "hsr": 14})
    assert best.found.from_closed == {"lsc": 6, "hsc": 6, "lsr": 6, "hsr": 6}
    assert not found.no
    frame = found.to_frame()
    assert {"pack", "clicks", "worst_difference_pct", "band_pct", "standing"} <= set(frame.columns)
    scores = frame["worst_difference_pct"] + 0.1 * frame["mean_difference_pct"]
    assert scores.is_monotonic_increasing


def test_none_near_enough_is_a_no(bench):
    found = equal_to(bench, EqualToQuestion("mixed@lsc=0,hsc=0,lsr=0,hsr=20", ("gravel",)))
    assert found.no
    assert found.to_dict()["equivalents"][0]["worst_difference_pct"] > CLOSE_PCT


def test_a_shock_is_searched_with_its_own_packs(bench):
    found = equal_to(bench, EqualToQuestion("mixed@lsc=10", ("shock=RR-04",)))
    assert {(one.found.pack, one.counting.name) for one in found.stand_ins} == {("gravel", "RR-04")}


def test_what_stands_in_is_looked_for_where_there_is_something(bench):
    with pytest.raises(CallError, match="no sweep of shock 'XX-9' with a pack"):
        equal_to(bench, EqualToQuestion("mixed@lsc=10", ("shock=XX-9",)))
    with pytest.raises(LookupFault, match="no sweep of pack 'sand'"):
        equal_to(bench, EqualToQuestion("mixed@lsc=10", ("sand",)))
    with pytest.raises(CallError, match="names 7 settings") as refused:
        equal_to(bench, EqualToQuestion("shock=FL-01,pack=mixed"))
    assert refused.value.part == "equal_to"


class TestClicksNobodyGave:
    TEN, SIX = {"lsc": 8, "lsr": 10}, {"lsc": 8, "lsr": 6}
    GRAVEL = Resolved("gravel@lsc=8,lsr=10", straight(1000), clicks=TEN, from_closed=TEN)
    MIXED = Resolved("mixed@lsc=8,lsr=6", straight(1000), clicks=SIX, from_closed=SIX)

    def test_taken_elsewhere_they_are_told(self):
        (said,) = click_remarks(("gravel@lsc=8", "mixed@lsc=8"), (self.GRAVEL, self.MIXED))
        assert said.startswith("lsr was not given and not taken alike: lsr=10 in gravel@")
        assert "lsr=6 in mixed@" in said

    @pytest.mark.parametrize(
        "what",
        [("gravel@lsc=8,lsr=10", "mixed@lsc=8"), ("gravel@lsc=8", "mixed"), ("pack=gravel", "pack=mixed")],
        ids=["given by one", "a whole pack", "no clicks at all"],
    )
    def test_what_was_meant_is_not(self, what):
        assert click_remarks(what, (self.GRAVEL, self.MIXED)) == []

    def test_alike_they_are_not(self):
        assert click_remarks(("gravel@lsc=8", "gravel@lsc=8"), (self.GRAVEL, self.GRAVEL)) == []
