"""The next runs of a pack as question and answer, at no door."""

from __future__ import annotations

import csv
import io
from dataclasses import replace

import pytest

from dynoan.errors import CallError, LookupFault, QuantityError
from dynoan.jobs.answering import Answer
from dynoan.jobs.plan import PlanQuestion, answer
from dynoan.model.clickmap import Oddity
from dynoan.show import presenting
from dynoan.show.text.blocks import Look, Paragraph, Table
from dynoan.workbench import Workbench
from tests.cli import pack_library

packs = pack_library.packs


@pytest.fixture(scope="module")
def bench(packs):
    return Workbench.find(packs / "library")


@pytest.fixture(scope="module")
def known(bench):
    return answer(bench, PlanQuestion.asked("gravel", runs=3))


@pytest.fixture(scope="module")
def new(bench):
    return answer(bench, PlanQuestion.asked("sand", runs=2, shock="FL-01", top="20 in/s"))


def test_a_question_takes_text_and_numbers():
    assert PlanQuestion.asked("sand", top="20 in/s").top == pytest.approx(0.508)  # 1 in = 25.4 mm: NIST SP 811, B.8
    assert PlanQuestion.asked("sand", top=0.4).top == 0.4
    with pytest.raises(QuantityError) as wrong:
        PlanQuestion.asked("sand", top="20 N")
    assert wrong.value.part == "top"


def test_gains_add_up_and_clicks_are_counted_as_the_shocks_count(known):
    found = known.to_dict()
    assert found["error_now_pct"] - sum(r["expected_gain_pct"] for r in found["runs"]) == pytest.approx(
        found["error_after_pct"]
    )
    for run, shown in zip(known.plan.runs, found["runs"], strict=True):
        assert shown["clicks"] == {**run.from_closed, "hsr": 20 - run.from_closed["hsr"]}  # hsr counts from soft here
    assert (known.no, known.warnings, found["tests"]) == (False, (), 9)


def test_a_new_pack_rests_on_its_shock(new):
    assert new.plan.tests == 0
    assert "no sweep of pack sand yet" in new.warnings[0]
    assert max(s for run in new.plan.runs for s in run.speeds) <= 0.508 * 1.001


def test_errors_speak_of_the_thing(bench):
    with pytest.raises(CallError) as nameless:
        answer(bench, PlanQuestion.asked("sand"))
    assert nameless.value.need == "shock"
    assert "--" not in str(nameless.value)
    with pytest.raises(CallError) as none:
        answer(bench, PlanQuestion.asked("gravel", runs=0))
    assert none.value.part == "runs"
    with pytest.raises(LookupFault):
        answer(bench, PlanQuestion.asked("sand", shock="XX-99"))


def test_a_row_a_run(known):
    frame = known.to_frame()
    assert list(frame["run"]) == [1, 2, 3]
    assert list(frame["expected_gain_pct"]) == [run.gain for run in known.plan.runs]
    assert {"lsc", "hsc", "lsr", "hsr", "error_after_pct", "speeds_m_s", "worth_it"} <= set(frame.columns)


def test_words_say_where_to_stop(known):
    first, _, table, last = presenting.blocks(known, Look("us"))
    assert isinstance(first, Paragraph)
    assert f"expected error now {known.plan.error_now:.1f} %" in first.text
    assert isinstance(table, Table)
    assert table.columns[-1] == "peak velocities in/s"
    dear = replace(known.plan, runs=tuple(replace(run, worth_it=False) for run in known.plan.runs))
    assert isinstance(last, Paragraph)
    assert presenting.blocks(replace(known, plan=dear), Look())[-1] == Paragraph(
        "stop: no further run is worth its money"
    )


def test_the_sheet_holds_the_runs_worth_their_money(known, tmp_path, monkeypatch):
    monkeypatch.setattr(Answer, "presenter", presenting)
    runs = known.plan.runs
    one = replace(known, plan=replace(known.plan, runs=(runs[0], replace(runs[1], worth_it=False))))
    assert one.to_run == (runs[0],)
    rows = list(csv.DictReader(io.StringIO(one.save(tmp_path / "runs.csv").read_text(encoding="utf-8"))))
    assert [int(row["hsr"]) for row in rows] == [20 - runs[0].from_closed["hsr"]]
    assert one.page(".html").startswith("<!doctype html>")
    with pytest.raises(CallError) as wrong:
        one.save(tmp_path / "runs.pdf")
    assert wrong.value.part == "sheet"
    assert [p.name for p in tmp_path.iterdir()] == ["runs.csv"]


def test_there_is_no_picture(known, monkeypatch):
    monkeypatch.setattr(Answer, "presenter", presenting)
    with pytest.raises(NotImplementedError, match="plan has no picture"):
        known.plot()


def test_without_a_door_there_is_no_sheet(known, monkeypatch):
    monkeypatch.setattr(Answer, "presenter", None)
    with pytest.raises(NotImplementedError, match=r"dynoan\.open"):
        known.page()


def test_what_may_be_odd_is_said_with_the_run_that_would_tell(bench, known, monkeypatch):
    odd = replace(bench.click_map("gravel"), doubts=("lsc may be odd; a run at lsc 4 from closed would tell most",),
                  oddities=(Oddity("stepped", "lsr", "lsr acts at every 2. click only"),))  # fmt: skip
    monkeypatch.setattr(bench, "click_map", lambda pack: odd)
    monkeypatch.setattr("dynoan.jobs.plan.plan", lambda *_, **__: known.plan)
    said = answer(bench, PlanQuestion.asked("gravel", runs=1)).warnings
    assert said == (odd.oddities[0].words, odd.doubts[0])
