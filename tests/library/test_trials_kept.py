"""Trials on the disk: word for word, struck out with the reason, two at once, broken files named."""

from __future__ import annotations

from concurrent.futures import ThreadPoolExecutor
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from dynoan.errors import CallError, LookupFault, QuantityError
from dynoan.library import Library
from dynoan.library.trial_file import plan_of, trial_from_text, trial_to_text
from dynoan.model.trial import Trial, TrialRun

RUN = TrialRun("a", 4.83, "4.83 s", "2026-05-02T10:12")
PLAIN = Trial("start", "rear=@lsr=6", "rear=@lsr=10", less=True, unit="s", question="is less rear rebound quicker?")
OWN = """\
# our own words
a = "old springs"   # as bought
b = "new springs"
better = "more"
unit = "mph"

[[run]]
setting = "a"
result = "62 mph"
# a gust of wind here
[[run]]
setting = "b"
result = "60 mph"
"""


@pytest.fixture
def library(tmp_path):
    return Library.create(tmp_path / "lib")


def test_a_trial_comes_back_as_it_was_kept(library):
    kept = library.trials.keep_new(PLAIN)
    assert replace(kept, file="") == PLAIN
    assert library.trials.add_runs("start", (RUN, replace(RUN, setting="b", result=4.9, text="4.9"))).runs[0] == RUN
    assert library.trials.names() == ("start",)


def test_there_is_one_trial_of_a_name(library):
    library.trials.keep_new(PLAIN)
    with pytest.raises(CallError, match="another name"):
        library.trials.keep_new(PLAIN)


def test_one_that_is_not_there_is_named(library):
    library.trials.keep_new(PLAIN)
    with pytest.raises(LookupFault, match="did you mean 'start'"):
        library.trials.trial("strat")


def test_the_teams_own_words_stay(library):
    (library.path / "trials" / "own.toml").write_text(OWN)
    struck = library.trials.strike("own", 1, "missed a gear")
    text = library.trials.text("own")
    assert [run.struck for run in struck.runs] == ["", "missed a gear"]
    assert struck.counted == (0,)
    assert all(words in text for words in ("# our own words", "# a gust of wind here", "# as bought"))
    assert library.trials.strike("own", 1, "") == trial_from_text(OWN, "trials/own.toml", "own")
    assert struck.runs[0].result == pytest.approx(62 * 0.44704)  # NIST SP 811, B.8


def test_a_run_that_is_not_there_cannot_be_struck(library):
    library.trials.keep_new(PLAIN)
    with pytest.raises(CallError, match="no run 1; start has 0"):
        library.trials.strike("start", 0, "fell off")


def test_runs_noted_at_once_are_all_kept(library):
    library.trials.keep_new(PLAIN)
    with ThreadPoolExecutor(4) as pool:
        list(pool.map(lambda n: library.trials.add_runs("start", (replace(RUN, remarks=str(n)),)), range(12)))
    assert {run.remarks for run in library.trials.trial("start").runs} == {str(n) for n in range(12)}


@pytest.mark.parametrize(("line", "said"), [
    ('better = "fewer"', 'wanted "less" or "more"'),
    ('plan = "aa"', "no order of runs"),
    ('worth = "2 mm"', "this trial's results are in s"),
    ('worth = "-1 s"', "above zero"),
    ('colour = "red"', "unknown key"),
    ('[[run]]\nsetting = "c"\nresult = "1"', 'wanted "a" or "b"'),
    ('[[run]]\nsetting = "a"', "run 1.result: missing"),
    ('[[run]]\nsetting = "a"\nresult = "quick"', "run 1.result: 'quick' is no result"),
])  # fmt: skip
def test_a_fault_names_file_and_key(line, said):
    rest = 'a = "x"\nb = "y"\nunit = "s"\n' + ('better = "less"\n' if "better" not in line else "")
    with pytest.raises(QuantityError, match=said) as caught:
        trial_from_text(rest + line, "trials/x.toml", "x")
    assert str(caught.value).startswith("trials/x.toml")


def test_a_broken_one_does_not_hide_the_others(library):
    library.trials.keep_new(PLAIN)
    (library.path / "trials" / "bad.toml").write_text("a = 3")
    found, faults = library.trials.readable()
    assert [t.name for t in found] == ["start"]
    assert faults[0].file == "trials/bad.toml"
    assert [f.file for f in library.check().faults] == ["trials/bad.toml"]


def test_orders_of_runs_as_people_write_them():
    assert [plan_of(text) for text in ("A-B-B-A", "a b a", "aba")] == ["abba", "aba", "aba"]


TEXT = st.text(st.characters(exclude_categories=["C", "Z"], include_characters=" \n"), min_size=1, max_size=40)


@given(a=TEXT, b=TEXT, struck=TEXT, remarks=TEXT)
def test_any_words_are_kept_word_for_word(a, b, struck, remarks):
    run = replace(RUN, struck=struck, remarks=remarks)
    trial = replace(PLAIN, a=f"x{a}", b=f"x{b}", remarks=remarks, runs=(run, RUN))
    assert trial_from_text(trial_to_text(trial), "", "start") == trial
