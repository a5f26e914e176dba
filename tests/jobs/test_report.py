"""A report as question and answer, at no door: its parts are the other jobs' answers."""

from __future__ import annotations

import re

import pytest

from dynoan.analysis.clickmap.tested.setting import Tested
from dynoan.errors import CallError, LookupFault
from dynoan.jobs import choose, ratio
from dynoan.jobs.answering import Answer
from dynoan.jobs.report import ReportQuestion, answer
from dynoan.jobs.report.gathering import _couples
from dynoan.jobs.report.scope import Scope, scope_of
from dynoan.library import Library
from dynoan.show import presenting
from dynoan.show.text.blocks import Look, Paragraph
from dynoan.workbench import Workbench
from tests.cli.pages import small_library
from tests.made import made_curve
from tests.show.pages.test_report import read

pytestmark = pytest.mark.slow


@pytest.fixture(scope="module")
def path(tmp_path_factory):
    return small_library(tmp_path_factory.getbasetemp())


@pytest.fixture(scope="module")
def bench(path):
    return Workbench.find(path)


@pytest.fixture(scope="module")
def kestrel(bench):
    return answer(bench, ReportQuestion.asked("kestrel", launch=False))


def test_a_name_is_a_car_a_pack_or_a_shock(bench):
    assert scope_of(bench, ("kestrel", "pack=gravel", "RR-04")) == Scope(("kestrel",), ("gravel",), ("RR-04",))
    assert scope_of(bench, ("kestrel", "RR-04")).words == "car kestrel; shock RR-04"
    assert scope_of(bench, ()).everything
    for unknown in ("nobody", "pack=kestrel"):
        with pytest.raises(LookupFault, match="car kestrel"):
            scope_of(bench, (unknown,))


def test_a_name_of_two_kinds_must_be_told_apart(path):
    car = path / "cars" / "mixed.toml"
    car.write_text((path / "cars" / "kestrel.toml").read_text("utf-8"), "utf-8")
    try:
        with pytest.raises(CallError, match="write car=mixed"):
            scope_of(Workbench.find(path), ("mixed",))
        assert scope_of(Workbench.find(path), ("car=mixed",)).cars == ("mixed",)
    finally:
        car.unlink()


def test_the_car_is_what_ratio_answers(bench, kestrel):
    (car,) = kestrel.parts.cars
    assert car.ratio.to_dict() == ratio.answer(bench, ratio.RatioQuestion.asked("kestrel")).to_dict()


def test_the_choices_are_those_of_choose(bench, kestrel):
    chosen = choose.answer(bench, choose.ChooseQuestion.asked("kestrel"))
    for where in ("front", "rear"):
        mine = [c for c in kestrel.parts.cars[0].choices if c.choice.where == where]
        theirs = [c for _, c in chosen.by_rank() if c.choice.where == where][: len(mine)]
        assert len(mine) == 5
        assert [(c.choice.pack, c.clicks) for c in mine] == [(c.choice.pack, c.clicks) for c in theirs]


def test_a_corner_that_cannot_be_told_is_left_out_with_a_warning(path):
    file = path / "cars" / "odd.toml"
    text = (path / "cars" / "kestrel.toml").read_text("utf-8")
    file.write_text(re.sub(r'pack = "\w+"', 'pack = "sand"', text, count=1), "utf-8")
    try:
        found = answer(Workbench.find(path), ReportQuestion.asked("odd"))
    finally:
        file.unlink()
    (car,) = found.parts.cars
    assert len(car.ratio.corners) == 4
    assert set(car.ratio.ratios) == {"rl", "rr"}
    assert any(w.startswith("car odd, fl: no damping ratios: ") for w in found.warnings)


def test_to_dict_and_rows(kestrel):
    found = kestrel.to_dict()
    assert set(found) == {"runs", "packs", "shocks", "cars", "travel", "pairs"}
    frame = kestrel.to_frame()
    assert len(frame) == found["runs"]
    assert list(frame.columns) == ["id", "date", "shock", "pack", "clicks", "layout", "temperature_c", "source"]


def test_progress_goes_by_the_workbench(path):
    told = []
    answer(Workbench.find(path, progress=lambda *step: told.append(step)), ReportQuestion.asked("gravel"))
    assert ("packs", 1, 1) in told
    pairs = [step for step in told if step[0] == "gravel pairs"]
    assert [done for _, done, _ in pairs] == list(range(1, len(pairs) + 1))
    assert pairs[-1][1] == pairs[-1][2]


def test_of_a_shock_tested_twice_at_a_setting_the_last_test_is_held_against_the_others():
    def tested(shock, date, lsc=8):
        return Tested(shock, {"lsc": lsc}, made_curve(), date)

    worn, others = tested("RR-04", "2026-03-14"), [tested("RL-03", "2025-09-02"), tested("RL-03", "2025-09-01", 4)]
    tests = [tested("RR-04", "2025-09-01"), *others, worn, tested("FL-01", None, 4)]
    couples = [{(t.shock, t.date) for t in couple} for couple in _couples(tests, ())]
    assert {("RL-03", "2025-09-02"), ("RR-04", "2026-03-14")} in couples
    assert {("FL-01", None), ("RL-03", "2025-09-01")} in couples
    assert len(couples) == 2
    assert len(_couples(tests, ("RR-04",))) == 1


def test_an_empty_library_has_nothing_to_report(tmp_path):
    Library.create(tmp_path / "empty")
    with pytest.raises(LookupFault, match="no sweeps yet"):
        answer(Workbench.find(tmp_path / "empty"), ReportQuestion.asked())


@pytest.mark.thorough
def test_words_and_page_tell_the_same(bench, kestrel, monkeypatch, tmp_path):
    monkeypatch.setattr(Answer, "presenter", presenting)
    first = presenting.blocks(kestrel, Look())[0]
    assert first == Paragraph(f"Dyno report, car kestrel: {kestrel.to_dict()['runs']} runs, 1 pack, 1 car")
    found = answer(bench, ReportQuestion.asked("RR-04"))
    saved = found.save(tmp_path / "r.html").read_text(encoding="utf-8")
    assert "Dyno report, shock RR-04" in read(saved).text
    assert re.sub(r"Made [^.]*\.", "", saved) == re.sub(r"Made [^.]*\.", "", found.page())
    with pytest.raises(CallError, match="there is no folder"):
        found.save("/nowhere/at/all.html")
