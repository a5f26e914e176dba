"""Curves asked from Python: the question from text, the table as frame and record, what is refused."""

from __future__ import annotations

import re
from pathlib import Path

import numpy as np
import pytest

import dynoan
from dynoan.errors import CallError, DynoanError, QuantityError
from dynoan.jobs.add import AddQuestion
from dynoan.jobs.add import answer as keep
from dynoan.jobs.curve import CurveQuestion, _apart, _of_all, answer
from dynoan.jobs.curve_table import TABLE, low_speed
from dynoan.library import Library
from dynoan.model.curve import Curve
from dynoan.model.side import Segment, Side
from dynoan.show import presenting
from dynoan.show.plots.one_sweep import sweep_picture
from dynoan.show.text.blocks import Look
from dynoan.workbench import Workbench
from tests.analysis.conditioning_records import FEW, broken_line, exact_trace

DEMO = Path(__file__).parents[2] / "fixtures/demo/dyno/FL-01_gravel_lsc10_hsc10_lsr10_hsr10.csv"


@pytest.fixture
def bench():
    """A workbench far from any library."""

    def find() -> Library:
        return Library.find()

    return Workbench(find)


@pytest.fixture
def file(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    monkeypatch.delenv("DYNOAN_LIBRARY", raising=False)
    rows = [f"{1000 * v:.2f},{abs(broken_line(v)):.3f},{abs(broken_line(-v)):.3f}" for v in FEW]
    path = tmp_path / "table.csv"
    path.write_text("\n".join(["Shock: FL-01", "Velocity (mm/s),Compression (N),Rebound (N)", *rows]) + "\n")
    return path


@pytest.mark.parametrize(
    ("given", "speeds"),
    [
        ("0.025,0.05", (0.025, 0.05)), ("2 in/s", (0.0508,)), ("50 mm/s, 0.05", (0.05,)), ("-0.1", (0.1,)),
        (0.2, (0.2,)), ([0.1, "10 in/s"], (0.1, 0.254)), (None, None),
    ],
)  # fmt: skip
def test_speeds_with_and_without_a_unit(given, speeds):
    found = CurveQuestion.asked("x", at=given).at
    assert found == (speeds if speeds is None else pytest.approx(speeds))


@pytest.mark.parametrize("given", ["", "fast", "0", "0.1 N", "nan", "1e999", 0.0, [0.1, float("inf")], []])
def test_what_is_no_speed_is_refused_and_named(given):
    with pytest.raises(QuantityError) as refused:
        CurveQuestion.asked("x", at=given)
    assert refused.value.part == "at"


def test_a_file_needs_no_library_and_its_forces_are_the_law_they_were_made_by(bench, file):
    found = answer(bench, CurveQuestion.asked(str(file), at="0.05,0.254"))
    frame = found.to_frame()
    assert list(frame.columns) == ["what", *TABLE]
    np.testing.assert_allclose(frame["velocity_m_s"], [-0.254, -0.05, 0.05, 0.254])
    np.testing.assert_allclose(frame["force_n"], [float(broken_line(v)) for v in frame["velocity_m_s"]], rtol=0.03)
    assert not found.no


def test_friction_and_the_sum_with_it_stand_beside_damping_each_with_its_band(bench):
    (curve,) = answer(bench, CurveQuestion.asked(str(DEMO), at="0.05,0.254")).to_dict()["curves"]
    assert curve["friction_low_n"] <= curve["friction_n"] <= curve["friction_high_n"]
    for row in curve["table"]:
        assert row["sum_low_n"] <= row["sum_n"] <= row["sum_high_n"]
        assert row["sum_n"] - row["force_n"] == pytest.approx(np.sign(row["velocity_m_s"]) * curve["friction_n"], abs=3)


def test_a_script_can_tell_what_low_speed_is_known_by(bench):
    (curve,) = answer(bench, CurveQuestion.asked(str(DEMO))).to_dict()["curves"]
    verdicts = {curve[side]["low_speed_verdict"] for side in ("compression", "rebound")}
    said = " ".join(curve["findings"])
    assert ("hard to tell" in said) == ("hard to tell" in verdicts)
    assert ("cannot be told from this record" in said) == ("cannot tell" in verdicts)


@pytest.mark.parametrize(("half", "word"), [(0.4, "told"), (0.6, "hard to tell"), (1.1, "cannot tell")])
def test_the_word_for_low_speed_is_that_of_the_findings(half, word):
    speeds, force = np.array([0.0, 0.5]), np.array([0.0, 500.0])
    straight = (Segment(0.0, 0.5, 0.0, 1000.0),)
    side = Side(straight, (), speeds, force * (1 - half), force * (1 + half), top_speed=0.5)
    curve = Curve(side, side)
    assert low_speed(curve, "rebound") == {"low_speed_doubt": pytest.approx(half), "low_speed_verdict": word}


def test_the_frame_and_the_record_say_the_same(bench, file):
    found = answer(bench, CurveQuestion.asked(str(file)))
    (curve,) = found.to_dict()["curves"]
    assert [{"what": curve["what"]} | row for row in curve["table"]] == list(found.rows())
    assert {"shock", "pack", "clicks", "gas_force_n", "friction_n", "rms_n", "standing"} <= set(curve)


def test_what_is_stated_wins_over_the_file(bench, file):
    (one,) = answer(bench, CurveQuestion.asked(str(file), shock="RR-04")).found
    assert one.shock == "RR-04"


def test_a_speed_beyond_the_data_is_a_warning_in_each_direction(bench, file):
    said = answer(bench, CurveQuestion.asked(str(file), at=3.0)).warnings
    assert [d for d in ("compression", "rebound") if any(f"beyond the data in {d}" in w for w in said)] == [
        "compression", "rebound",
    ]  # fmt: skip


def test_a_missing_file_is_called_one_where_no_library_might_know_it(bench, file):
    with pytest.raises(CallError, match=r"rig_9\.csv: no such file"):
        answer(bench, CurveQuestion.asked("rig_9.csv"))


def test_a_setting_without_a_library_asks_for_one(bench, file):
    with pytest.raises(DynoanError) as refused:
        answer(bench, CurveQuestion.asked("pack=gravel"))
    assert refused.value.need == "library"


@pytest.mark.parametrize(("warm", "said"), [(24.0, False), (45.0, True)])
def test_runs_of_unlike_warmth_in_one_curve_are_told_of(library, file, warm, said):
    bench = Workbench(lambda: library)
    again = file.with_name("again.csv")
    again.write_text(file.read_text() + "\n# the second run\n")
    keep(bench, AddQuestion.asked(file, again, pack="gravel"))
    for record, degrees in zip(bench.library.records(), (18.0, warm), strict=True):
        bench.library.edit(record.id, temperature=degrees)
    bench = Workbench(lambda: library)
    warnings = answer(bench, CurveQuestion.asked("pack=gravel")).warnings
    assert any(f"between 18 °C and {warm:.0f} °C" in text for text in warnings) == said


def test_a_speed_that_reads_as_the_top_one_is_not_called_beyond(bench, file):
    top = max(FEW)
    for factor, told in ((1.004, False), (1.02, True)):
        found = answer(bench, CurveQuestion.asked(str(file), at=[top * factor]))
        assert any("beyond" in text for text in found.warnings) is told
        assert set(found.to_frame()["extrapolated"]) == {told}
        words = "\n".join(str(block) for block in presenting.blocks(found, Look("us")))
        assert ("beyond the measured speeds" in words) is told


def test_what_was_taken_out_is_written_in_the_units_of_the_picture():
    sweep = exact_trace(1)
    sweep_curve = dynoan.fit(sweep)
    figure = sweep_picture(sweep, sweep_curve, "us")
    words = " ".join(text.get_text() for ax in figure.axes for text in ax.texts)
    assert "lbf" in words
    assert not re.search(r"\d (N|N/mm|mm/s)\b", words)


@pytest.mark.parametrize(
    ("labels", "told"),
    [(("a: ",), "a: mind"), (("",), "mind"), (("a: ", "b: "), "2 of the 3 curves: mind"),
     (("a: ", "b: ", "c: "), "all curves: mind")],
)  # fmt: skip
def test_what_is_said_of_several_curves_alike_is_told_once(bench, file, labels, told):
    (one,) = answer(bench, CurveQuestion.asked(str(file))).found
    assert _of_all("mind", labels, [one] * 3) == told


@pytest.mark.parametrize(
    ("what", "joined"),
    [
        (("shock=FL-01", "pack=gravel", "lsc=4"), "shock=FL-01,pack=gravel,lsc=4"), (("shock=A", "shock=B"), ""),
        (("shock=A,pack=x", "pack=y"), ""), (("gravel", "pack=y"), ""), (("pack=y",), ""),
    ],
)  # fmt: skip
def test_parts_of_one_setting_that_stand_apart_are_told_how_to_be_joined(what, joined):
    assert [text.rpartition(": ")[2] for text in _apart(what)] == ([joined] if joined else [])
