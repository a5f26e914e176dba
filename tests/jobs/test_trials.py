"""Trials as questions and answers: planned, noted, struck out, judged, and shown."""

from __future__ import annotations

import json
import re

import pytest
from matplotlib.text import Text

from dynoan.errors import CallError, LookupFault, QuantityError, ReadError
from dynoan.jobs.trial.changed import stated_values
from dynoan.jobs.trial.listing import TrialListQuestion
from dynoan.jobs.trial.listing import answer as listed
from dynoan.jobs.trial.new import TrialNewQuestion
from dynoan.jobs.trial.new import answer as new
from dynoan.jobs.trial.run import TrialRunQuestion
from dynoan.jobs.trial.run import answer as note
from dynoan.jobs.trial.show import TrialShowQuestion
from dynoan.jobs.trial.show import answer as show
from dynoan.show import presenting
from dynoan.show.text.blocks import Look, Paragraph
from dynoan.workbench import Workbench
from tests.library.made import CAR


@pytest.fixture
def bench(library):
    (library.path / "cars" / "kestrel.toml").write_text(CAR)
    return Workbench.find(library.path)


def plan(bench, name="start", a="rear=@lsr=6", b="rear=@lsr=10", **asked):
    return new(bench, TrialNewQuestion.asked(name, a, b, **asked))


def run(bench, results, name="start", **asked):
    for text in results:
        found = note(bench, TrialRunQuestion.asked(name, *(text.split(" ", 1)[0], (text.split(" ", 1)[1],)), **asked))
    return found


def said(answer):
    return "\n".join(b.text for b in presenting.blocks(answer, Look()) if isinstance(b, Paragraph))


def test_a_plain_difference_under_drift_is_found(bench):
    """Runs on a straight line of drift, b quicker by 0.3 s, each off by a hundredth."""
    plan(bench, plan="abbabaab")
    off = (0.01, -0.01, 0.0, 0.01, -0.01, 0.0, 0.01, -0.01)
    times = [4.8 + 0.05 * n + o - 0.3 * (s == "b") for n, (s, o) in enumerate(zip("abbabaab", off, strict=True))]
    found = run(bench, [f"{s} {t:.3f}" for s, t in zip("abbabaab", times, strict=True)]).to_dict()
    assert (found["verdict"], found["more_runs"]) == ("b better", 0)
    assert found["low"] < found["difference"] < found["high"] < 0
    assert found["difference"] == pytest.approx(-0.3, abs=0.02)
    assert found["runs"][1] == {"number": 2, "setting": "b", "result": pytest.approx(4.54), "text": "4.540",
                                "date": found["runs"][1]["date"], "struck": None, "remarks": ""}  # fmt: skip
    assert json.loads(json.dumps(found)) == found


def test_more_is_better_turns_the_verdict(bench):
    plan(bench, unit="km/h", less=False)
    speeds = [f"{s} {60 + 0.1 * n + 5 * (s == 'b')}" for n, s in enumerate("abbabaab")]
    speeds[3] = "a 60.4"
    found = run(bench, speeds).to_dict()
    assert (found["verdict"], found["unit_si"]) == ("b better", "m/s")
    assert found["difference"] * 3.6 == pytest.approx(5.0, abs=0.1)


def test_which_way_is_better_must_be_said_but_for_times(bench):
    with pytest.raises(CallError) as caught:
        plan(bench, unit="points")
    assert caught.value.need == "better"
    assert plan(bench).found.trial.less


def test_a_trial_compares_two_settings():
    with pytest.raises(CallError, match="compares two settings"):
        TrialNewQuestion.asked("x", "same", " same")


def test_a_run_of_another_kind_is_refused(bench):
    plan(bench)
    with pytest.raises(QuantityError, match="results are in s"):
        run(bench, ["a 4 km/h"])
    with pytest.raises(QuantityError, match="no result"):
        run(bench, ["a quick"])
    assert bench.library.trial("start").runs == ()


def test_times_of_day_and_other_units_of_time(bench):
    plan(bench)
    run(bench, ["a 1:23.4", "b 83400 ms", "b 83.4"])
    assert [r.result for r in bench.library.trial("start").runs] == pytest.approx([83.4] * 3)


def test_a_run_struck_out_stays_and_does_not_count(bench):
    plan(bench)
    run(bench, ["a 4.8", "b 6.9", "b 4.7"])
    found = note(bench, TrialRunQuestion.asked("start", strike=2, reason="missed a gear"))
    assert [r["struck"] for r in found.to_dict()["runs"]] == [None, "missed a gear", None]
    assert found.found.trial.counted == (0, 2)
    assert "struck out: missed a gear" in str(presenting.blocks(found, Look()))
    assert found.found.next == "b"
    with pytest.raises(CallError, match="no run 4"):
        note(bench, TrialRunQuestion.asked("start", strike=4, reason="x"))
    with pytest.raises(CallError, match="run 3 counts already"):
        note(bench, TrialRunQuestion.asked("start", strike=3))
    assert note(bench, TrialRunQuestion.asked("start", strike=2)).found.trial.counted == (0, 1, 2)


def test_one_way_of_noting_at_a_time():
    with pytest.raises(CallError) as caught:
        TrialRunQuestion.asked("start")
    assert caught.value.need == "run"
    with pytest.raises(CallError, match="a or b"):
        TrialRunQuestion.asked("start", "c", ["4.8"])


TABLES = {
    "settings": ("run,setting,time to 30 m [s],exit speed [km/h]\n1,A,4.80,61\n2,B,4.60,62\n3,b,4.62,63\n4,a,4.9,60\n",
                 "abba", (4.8, 4.6, 4.62, 4.9)),
    "plan": ("run;time [ms]\n1;4800\n2;4600\n3;4620\n", "abb", (4.8, 4.6, 4.62)),
    "a clock and words beside it": ("Driver,Setup,Lap time,Speed [km/h]\nJo,A,1:04.83,90.1\nJo,B,1:04.71,90.2\n",
                                    "ab", (64.83, 64.71)),
    "decimal commas": ("Rang;Zeit;Reifen\n1;4,83;x\n2;4,71;y\n3;4,74;x\n", "abb", (4.83, 4.71, 4.74)),
    "minutes with decimal commas": ("Run;Zeit\n1;0:04,83\n2;0:04,71\n", "ab", (4.83, 4.71)),
    "one column of decimal commas": ("Zeit\n4,83\n4,71\n", "ab", (4.83, 4.71)),
    "titles above": ('Club day, 21 March\nstage 3\n\nRun,Setting,Stage time\n1,a,"1:04,83"\n2,b,1:04.7\n', "ab",
                     (64.83, 64.7)),
    "one run": ("run,setting,time [s],clock [s]\n1,b,4.71,0\n", "b", (4.71,)),
}  # fmt: skip


@pytest.mark.parametrize("which", TABLES)
def test_results_come_from_a_table(bench, tmp_path, which):
    text, settings, times = TABLES[which]
    (tmp_path / "times.csv").write_text(text)
    plan(bench)
    found = note(bench, TrialRunQuestion.asked("start", table=tmp_path / "times.csv"))
    assert found.found.trial.settings == settings
    assert [r.result for r in found.found.trial.runs] == pytest.approx(times)
    assert re.search(r"column '(time|lap time|zeit|stage time)", found.how.lower())


@pytest.mark.parametrize(("text", "settings"), [
    ("4.83\n4.71\n4.74\n", "abb"), ("1;4,83\n2;4,71\n3;4,74\n", "abb"), ("b,4.83\na,4.71\nb,4.74\n", "bab"),
    ("1,4.83\n2,4.71\n3,4.74\n", "abb"),
])  # fmt: skip
def test_results_without_names_of_columns(bench, tmp_path, text, settings):
    (tmp_path / "times.csv").write_text(text)
    plan(bench)
    found = note(bench, TrialRunQuestion.asked("start", table=tmp_path / "times.csv")).found.trial
    assert (found.settings, [r.result for r in found.runs]) == (settings, [4.83, 4.71, 4.74])


@pytest.mark.parametrize(("text", "says"), [
    ("time\n4.83\n?\n4.90\n", r"missing in row 2 of column 'time' \('\?'\); take the row out"),
    ("time\n4.83\nDNF\n4.90\n", r"missing in row 2 of column 'time' \('DNF'\); add a column with a or b"),
    ("run,speed [km/h]\n1,50\n2,60\n", "No column of run, speed holds such numbers"),
    ("", "no row of it holds a number"), ("\0\1", "no text"), ('a,"' + 140000 * "x", "no row of it|no table"),
])  # fmt: skip
def test_a_table_without_results_is_refused(bench, tmp_path, text, says):
    (tmp_path / "times.csv").write_text(text)
    plan(bench)
    with pytest.raises((CallError, ReadError), match=says):
        note(bench, TrialRunQuestion.asked("start", table=tmp_path / "times.csv"))


def test_a_table_that_leaves_it_open_asks(bench, tmp_path):
    (tmp_path / "times.csv").write_text("run,split 1 [s],split 2 [s]\n1,2.1,4.8\n2,2.0,4.6\n3,2.0,4.7\n")
    plan(bench)
    with pytest.raises(CallError, match="which column holds the results"):
        note(bench, TrialRunQuestion.asked("start", table=tmp_path / "times.csv"))
    found = note(bench, TrialRunQuestion.asked("start", table=tmp_path / "times.csv", column="split 2"))
    assert [r.result for r in found.found.trial.runs] == [4.8, 4.6, 4.7]


def test_off_the_plan_is_said(bench):
    plan(bench)
    assert "the plan wanted a here" in run(bench, ["b 4.8"]).warnings[0]


def test_several_changes_at_once_claim_no_cause(bench):
    found = plan(bench, a="rear=gravel@lsr=6,lsc=4", b="rear=mixed@lsr=10,lsc=4")
    assert found.found.changed.what == ("rear pack", "rear lsr")
    assert "which of them did it is not known" in found.warnings[0]
    assert plan(bench, name="words", a="soft", b="hard").found.changed.known is False


def test_what_settings_state():
    assert stated_values("rear=@lsr=6") == {"rear lsr": "6"}
    assert stated_values("front=gravel@lsc=6 rear=tarmac") == {
        "front pack": "gravel", "front lsc": "6", "rear pack": "tarmac"
    }  # fmt: skip
    assert stated_values("front spring=45 N/mm") == {"front spring": "45 N/mm"}
    assert stated_values("softer at the back") is None


def test_earlier_trials_lend_their_scatter(bench):
    plan(bench, name="first", measure="time to 30 m", plan="abbabaab")
    times = (4.80, 4.83, 4.78, 4.85, 4.82, 4.79, 4.84, 4.80)
    run(bench, [f"{s} {t}" for s, t in zip("abbabaab", times, strict=True)], name="first")
    second = plan(bench, name="second", measure="Time to 30 m", plan="aba", worth="0.1 s").found
    assert second.lent.dof == 5
    assert 0.0 < second.power < 1.0
    assert second.more_runs > 3
    found = run(bench, ["a 4.8", "b 4.3", "a 4.8"], name="second").found
    assert found.verdict == "b better"  # three runs alone could never tell
    assert show(bench, TrialShowQuestion("second")).found.judged.scatter.dof == 5


def test_what_is_noted_later_changes_no_verdict(bench):
    times = (4.80, 4.83, 4.78, 4.85, 4.82, 4.79, 4.84, 4.80)
    for name, day in (("first", "2026-05-02"), ("second", "2026-05-09"), ("same day", "2026-05-02")):
        plan(bench, name=name, measure="time to 30 m", plan="abbabaab")
        run(bench, [f"{s} {t}" for s, t in zip("abbabaab", times, strict=True)], name=name, date=day)
    lent = {name: show(bench, TrialShowQuestion(name)).found.lent for name in ("first", "second", "same day")}
    assert lent["first"] is None
    assert lent["same day"] is None
    assert lent["second"].dof == 10


def test_a_difference_below_what_is_worth_knowing_ends_it(bench):
    plan(bench, worth="1 s", plan="abbabaab")
    times = (4.80, 4.83, 4.78, 4.85, 4.82, 4.79, 4.84, 4.80)
    found = run(bench, [f"{s} {t}" for s, t in zip("abbabaab", times, strict=True)])
    assert found.found.below_worth
    assert "below the 1.00 s worth knowing" in said(found)
    assert "More runs are not worth it" in said(found)


def test_a_bent_drift_is_said_and_claims_nothing(bench):
    """A parabola without any difference: in a-b-b-a it is one, to the eye of a straight line."""
    plan(bench, plan="abba")
    bend = [0.03 * (n - 3.5) ** 2 for n in range(8)]
    off = (0.002, -0.001, 0.001, -0.002, 0.001, -0.002, 0.002, -0.001)
    times = [4.8 + b + o for b, o in zip(bend, off, strict=True)]
    found = run(bench, [f"{s} {t:.4f}" for s, t in zip("abbaabba", times, strict=True)])
    assert found.found.verdict == "cannot tell"
    assert any("it bends" in w for w in found.warnings)


def test_they_are_listed_with_their_verdicts(bench):
    plan(bench, surface="loose", date="2026-05-02")
    plan(bench, name="other", surface="sticky", date="2026-04-02")
    (bench.library.path / "trials" / "bad.toml").write_text("a = 1")
    found = listed(bench, TrialListQuestion())
    assert [t["name"] for t in found.to_dict()["trials"]] == ["other", "start"]
    assert "trials/bad.toml" in found.warnings[0]
    assert list(listed(bench, TrialListQuestion(surface="Loose")).to_frame()["name"]) == ["start"]
    with pytest.raises(LookupFault):
        show(bench, TrialShowQuestion("strat"))


def test_a_picture_holds_every_run(bench):
    plan(bench)
    run(bench, ["a 4.8", "b 4.7", "b 4.72", "a 4.9"])
    presenting_of = presenting.figure(show(bench, TrialShowQuestion("start")))
    drawn = [line.get_ydata() for line in presenting_of.axes[0].get_lines()]
    assert [list(d) for d in drawn[:3:2]] == [[4.8, 4.9], [4.7, 4.72]]
    assert not any("struck" in text.get_text() for text in presenting_of.findobj(Text))
    note(bench, TrialRunQuestion.asked("start", strike=2, reason="missed a gear"))
    struck = presenting.figure(show(bench, TrialShowQuestion("start")))
    assert any("struck out" in text.get_text() for text in struck.findobj(Text))


@pytest.mark.parametrize("text", ["-4.7", "0", "0:00.0"])
def test_a_time_is_above_zero(bench, text):
    plan(bench)
    with pytest.raises(QuantityError, match="is no time: it is not above zero"):
        run(bench, [f"a {text}"])
    assert bench.library.trial("start").runs == ()


@pytest.mark.parametrize(("text", "times", "said"), [
    ("run,setting,time\n1,a,1:04.8\n2,b,DNF\n3,b,1:04.2\n4,a,1:04.9", 3, "row 2 of it is no result ('DNF')"),
    ("run,setting,time,note\n1,a,64.8\n2,b,64.3\n3,b,64.2,slid wide\n4,a,64.9", 4, "4 results"),
    ("run,setting,time,note\n1,a,64.8,\n2,b,64.3,\n3,b,64.2\n4,a,64.9,\nMean,,64.5", 4, "4 results"),
], ids=["not finished", "one remark", "no remark in one, and a mean"])  # fmt: skip
def test_runs_that_were_not_finished_and_rows_without_remarks(bench, tmp_path, text, times, said):
    (tmp_path / "times.csv").write_text(text)
    plan(bench)
    found = note(bench, TrialRunQuestion.asked("start", table=tmp_path / "times.csv"))
    assert len(found.noted) == times
    assert "".join(run.setting for run in found.noted) == ("abba" if times == 4 else "aba")
    assert said in found.how


def test_a_result_far_from_the_others_is_asked_about(bench):
    plan(bench)
    run(bench, ["a 4.83", "b 4.71"])
    for text in ("48.3", "0.47", "2.9"):  # the last was cut short
        with pytest.raises(CallError, match=f"'{text}' is .* this trial's other runs: did a point slip"):
            run(bench, [f"b {text}"])
    found = run(bench, ["b 48.3"], sure=True)
    assert found.found.trial.runs[-1].result == 48.3
    assert any("Then strike it out" in text for text in found.warnings)
    plan(bench, "points", unit="points", less=False)
    run(bench, ["a 2", "b 11"], name="points")


def test_settings_in_words_are_those_of_the_trial_or_asked_about(bench, tmp_path):
    """Two words that the trial does not know are no reason to take the order of the plan."""
    plan(bench, a="soft", b="firm")
    (tmp_path / "times.csv").write_text("setup,time\nFirm,4.83\nsoft,4.9\nsoft,4.85\nfirm,4.8\n")
    found = note(bench, TrialRunQuestion.asked("start", table=tmp_path / "times.csv"))
    assert found.found.trial.settings == "baab"
    (tmp_path / "others.csv").write_text("setup,time\n12,4.83\n8,4.9\n8,4.85\n12,4.8\n")
    with pytest.raises(CallError, match="column 'setup' says '12' and '8'; write a and b there"):
        note(bench, TrialRunQuestion.asked("start", table=tmp_path / "others.csv"))


def test_a_speed_in_another_unit_is_asked_about(bench):
    """27 m/s are 60 mph; on another day, on another course, it may be one."""
    plan(bench, "trap", unit="mph", less=False)
    run(bench, ["a 60", "b 61"], name="trap", date="2026-05-02")
    with pytest.raises(CallError, match=r"'27' is 0.45 times the 60.5 mph .* is its unit another"):
        run(bench, ["b 27"], name="trap", date="2026-05-02")
    assert len(run(bench, ["b 27"], name="trap", date="2026-05-03").noted) == 1


@pytest.mark.parametrize(("order", "said"), [("aabb", True), ("bbbaaa", True), ("abbaabba", False)])
def test_settings_changed_only_once_are_said_to_look_like_any_step(bench, order, said):
    plan(bench, plan=order)
    found = run(bench, [f"{s} {(4.81, 4.8)[n % 2] - 0.3 * (s == 'b'):.2f}" for n, s in enumerate(order)])
    lines = str(presenting.blocks(listed(bench, TrialListQuestion()), Look()))
    assert found.found.verdict == "b better"
    assert any("changed only once a day" in text for text in found.warnings) == said
    assert ("b better: changed once" in lines) == said


def test_the_list_says_where_two_things_were_changed_or_none(bench):
    for name, b in (("two", "rear=@lsr=10,lsc=4"), ("none", "rear=@lsc=8,lsr=6")):
        plan(bench, name, a="rear=@lsr=6,lsc=8", b=b, car="kestrel")
        run(bench, [f"{s} {(4.81, 4.8)[n % 2] - 0.3 * (s == 'b'):.2f}" for n, s in enumerate("abbaabba")], name=name)
    lines = str(presenting.blocks(listed(bench, TrialListQuestion()), Look()))
    assert "b better: nothing differs" in lines
    assert re.search(r"b better: \d things differ", lines)


def test_a_trial_names_those_that_lend_it_their_scatter(bench):
    plan(bench, "first", measure="time to 30 m")
    run(bench, ["a 4.8", "b 4.7", "b 4.71", "a 4.82", "a 4.83"], name="first", date="2026-05-02")
    plan(bench, "second", measure="time to 30 m")
    run(bench, ["a 4.8", "b 4.7"], name="second", date="2026-05-03")
    found = show(bench, TrialShowQuestion("second"))
    assert found.to_dict()["lent_by"] == ["first"]
    assert "earlier trials too" in str(presenting.blocks(found, Look()))
    assert show(bench, TrialShowQuestion("first")).to_dict()["lent_by"] == []


@pytest.mark.parametrize(("head", "rows"), [
    ("run,setting,60 ft (s)", ["1,a,4.83", "2,b,4.71"]), ("setting;60 ft", ["a;4,83", "b;4,71"]),
    ("run,setting,1/8 mile [s]", ["1,a,4.83", "2,b,4.71"]), ("", ["a,4.83 s", "b,4.71"]),
])  # fmt: skip
def test_a_heading_with_a_number_in_it_is_no_run(bench, tmp_path, head, rows):
    plan(bench)
    (tmp_path / "slip.csv").write_text("\n".join(filter(None, [head, *rows])) + "\n")
    found = note(bench, TrialRunQuestion.asked("start", table=tmp_path / "slip.csv"))
    assert [(r.setting, r.result) for r in found.found.trial.runs] == [("a", 4.83), ("b", 4.71)]


def test_a_column_is_named_with_its_unit_as_the_file_has_it(bench, tmp_path):
    plan(bench)
    (tmp_path / "slip.csv").write_text("setting,60 ft (s),time (s)\na,2.1,4.83\nb,2.0,4.71\n")
    found = note(bench, TrialRunQuestion.asked("start", table=tmp_path / "slip.csv", column="60 ft (s)"))
    assert [r.result for r in found.found.trial.runs] == [2.1, 2.0]


@pytest.mark.parametrize(
    ("order", "said"),
    [("aabb", "changes only once"), ("aaab", "changes only once"), ("ab", "cannot tell b from a day"), ("abba", ""),
     ("aba", ""), ("abab", "")],
)  # fmt: skip
def test_a_plan_that_drift_can_hide_in_is_told_before_a_run(bench, order, said):
    found = plan(bench, plan=order).warnings
    assert ["abba" in text and said in text for text in found] == ([True] if said else [])
    assert not any("--plan" in text for text in run(bench, ["a 4.81"]).warnings)  # it is on its way: nothing to choose


def test_a_table_that_was_noted_is_not_noted_twice(bench, tmp_path):
    """The same file again is asked about; one that has grown since adds what is new; said to be right, all of it."""
    path = tmp_path / "times.csv"
    rows = ["4.80", "4.60", "4.62", "4.90", "4.91", "4.63"]
    plan(bench)

    def from_file(many, **more):
        path.write_text("Run;Time [s]\n" + "".join(f"{n};{t}\n" for n, t in enumerate(rows[:many], 1)))
        return note(bench, TrialRunQuestion.asked("start", table=path, **more))

    from_file(4)
    with pytest.raises(CallError, match="all 4 results stand in start already"):
        from_file(4)
    grown = from_file(6)
    assert [r.text for r in grown.found.trial.runs] == [f"{text} s" for text in rows]
    assert "the first 4 were noted before" in grown.how
    assert len(from_file(6, sure=True).found.trial.runs) == 12


def test_no_difference_at_all_asks_for_no_runs_and_chance_is_told_plainly(bench):
    plan(bench)
    found = run(bench, ["a 58.31", "b 57.90", "b 57.80", "a 58.40", "b 58.31", "a 57.90", "a 57.80", "b 58.40"])
    text = said(found)
    assert "on 100 % of days" in text
    assert "e+" not in text
    assert "e-" not in text.replace("one-", "")
    assert found.found.sought is None
