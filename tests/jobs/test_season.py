"""A season by surface: what changed, what its trials say, and the baseline; no cause where two things changed."""

from __future__ import annotations

import pytest

from dynoan.jobs.setup.listing import SetupListQuestion
from dynoan.jobs.setup.listing import answer as listed
from dynoan.jobs.setup.recall import SetupRecallQuestion
from dynoan.jobs.setup.recall import answer as recall
from dynoan.jobs.setup.record import SetupRecordQuestion
from dynoan.jobs.setup.record import answer as record
from dynoan.jobs.trial.new import TrialNewQuestion
from dynoan.jobs.trial.new import answer as new
from dynoan.jobs.trial.run import TrialRunQuestion
from dynoan.jobs.trial.run import answer as note
from dynoan.show import presenting
from dynoan.show.text.blocks import Look
from dynoan.workbench import Workbench
from tests.library.made import CAR


@pytest.fixture
def bench(library):
    return Workbench.find(library.path)


def outing(bench, date, clicks="lsc=8,lsr=10", mass="268 kg", **how):
    text = CAR.replace("lsc=8,lsr=10", clicks).replace("268 kg", mass)
    (bench.library.path / "cars" / "kestrel.toml").write_text(text)
    asked = SetupRecordQuestion.asked("kestrel", date=date, **({"surface": "loose"} | how))
    return record(bench, asked).setup.name


def trial(bench, a="fl=@lsr=10", b="fl=@lsr=6", surface="loose"):
    new(bench, TrialNewQuestion.asked("damp", a, b, plan="abbabaab", surface=surface))
    for n, side in enumerate("abbabaab"):
        seconds = f"{4.8 + 0.01 * (n % 2) - 0.3 * (side == 'b'):.2f}"
        note(bench, TrialRunQuestion.asked("damp", side, (seconds,)))


def season(bench):
    return {s.surface: s for s in listed(bench, SetupListQuestion(by_surface=True)).season}


def test_one_change_says_what_its_trial_says(bench):
    outing(bench, "2026-05-02")
    outing(bench, "2026-05-09", clicks="lsc=8,lsr=6")
    trial(bench)
    assert season(bench)["loose"].outings[0].claim == ""
    first, second = season(bench)["loose"].outings
    assert (first.first, first.changed, first.claim) == (True, (), "")
    assert second.changed == ("front left lsr",)
    assert second.claim == "damp: b better (fl=@lsr=10 against fl=@lsr=6)"


def test_no_cause_is_claimed_where_two_things_changed(bench):
    outing(bench, "2026-05-02")
    outing(bench, "2026-05-09", clicks="lsc=8,lsr=6", mass="280 kg", good=True)
    changed = season(bench)["loose"].outings[1]
    assert len(changed.changed) == 2
    assert changed.claim == "2 things changed at once: no cause is claimed"


def test_the_baseline_is_the_one_that_won_a_trial(bench):
    outing(bench, "2026-05-02", good=True)
    won = outing(bench, "2026-05-09", clicks="lsc=8,lsr=6")
    outing(bench, "2026-05-16", good=True)
    assert season(bench)["loose"].baseline.support == "good more than once"
    trial(bench)
    found = season(bench)["loose"].baseline
    assert (found.setup.name, found.support, found.won) == (won, "won a trial", ("damp",))


def test_a_trial_on_another_surface_has_no_say(bench):
    outing(bench, "2026-05-02", clicks="lsc=8,lsr=6")
    trial(bench, surface="sticky")
    assert season(bench)["loose"].baseline.support == "nothing says so"
    assert season(bench)["sticky"].baseline is None


def test_it_is_shown_and_is_data(bench):
    outing(bench, "2026-05-02", good=True)
    found = listed(bench, SetupListQuestion(by_surface=True))
    text = str(presenting.blocks(found, Look()))
    assert "Baseline on loose: 2026-05-02-kestrel; good once" in text
    assert found.to_dict()["season"][0]["baseline"]["support"] == "good once"
    assert "season" not in listed(bench, SetupListQuestion()).to_dict()


def test_a_trial_says_nothing_of_a_setup_that_has_what_both_sides_had(bench):
    bad = outing(bench, "2026-05-02", clicks="lsc=8,lsr=12", good=False)
    good = outing(bench, "2026-05-09", clicks="lsc=4,lsr=10", good=True)
    trial(bench, a="fl=@lsr=10", b="fl=@lsr=6,lsc=4")
    found = season(bench)["loose"].baseline
    assert found.setup.name == good != bad
    assert (found.support, found.won) == ("good once", ())


def test_one_that_went_badly_is_no_baseline_and_one_that_lost_a_trial_may_be_the_best_there_is(bench):
    outing(bench, "2026-05-02", clicks="lsc=8,lsr=12", good=False)
    assert season(bench)["loose"].baseline is None
    assert "Baseline on loose: none" in str(
        presenting.blocks(listed(bench, SetupListQuestion(by_surface=True)), Look())
    )
    good = outing(bench, "2026-05-09", good=True)
    trial(bench)
    assert season(bench)["loose"].baseline.setup.name == good


def test_what_is_recalled_and_the_baseline_do_not_contradict_each_other_silently(bench):
    won = outing(bench, "2026-05-09", clicks="lsc=8,lsr=6", good=True)
    outing(bench, "2026-05-16", good=True)
    assert not recall(bench, SetupRecallQuestion(surface="sticky")).warnings
    trial(bench)
    assert recall(bench, SetupRecallQuestion(surface="loose")).warnings == (
        f"the last good one on loose; better supported there is {won}: won a trial (damp)",
    )
