"""The advice of a choice in words: each kind of it says what it holds, in the units people are shown."""

from __future__ import annotations

import pytest

from dynoan.analysis.choosing.advice import Reach
from dynoan.analysis.choosing.aims import WantedRatio
from dynoan.analysis.choosing.choice import PlaceChoice, Reached
from dynoan.jobs.choose.advice import (
    EachSideItsOwn,
    ForceNeeded,
    LimitInTheWay,
    NeverTested,
    NoSpringFits,
    NothingFits,
    NotSure,
    NotTogether,
    OutOfReach,
    OutsideTested,
    PackThatFits,
    SpringThatFits,
)
from dynoan.jobs.choose.ranking import Chosen, ChosenPlan
from dynoan.model.banded import Banded
from dynoan.model.shock import Adjuster, Shock
from dynoan.show.text.choose_advice import sentence

SHOCK = Shock("FL-01", (Adjuster("c", 12), Adjuster("r", 12)))
CHOICE = PlaceChoice("front", "gravel", {"c": 3, "r": 5}, 0.02, 0.0, 0.05, True, True, {}, (), {}, "between", {})
PLAN = ChosenPlan((Chosen(CHOICE, {"fl": SHOCK}),))
OFF = Reached("fl", WantedRatio("rebound", 0.05, 0.5), Banded(0.6, 0.55, 0.65, False))
REACH = Reach("compression", 0.0508, 0.7, 0.2, 0.5, "tarmac", "gravel")


@pytest.mark.parametrize(
    ("advice", "words"),
    [
        (NeverTested("front", ("FL-01",), "gravel"), "front: FL-01 was never tested with pack gravel"),
        (NeverTested("front", ("FL-01", "FR-02"), "gravel"), "front: FL-01 and FR-02 were never tested"),
        (OutsideTested("fl"), "fl: these clicks lie outside what was tested"),
        (NotSure("rear"), "rear: fits, but within the 95 % limits"),
        (NothingFits("front", 0.1, 0.153, OFF),
         "within 10 %; the best misses by 15 %, most in rebound at 50 mm/s (+20 %)."),
        (OutOfReach("front", REACH, "most"),
         "front: compression at 51 mm/s: 0.70 wanted, 0.50 is the most there is (gravel)."),
        (OutOfReach("front", REACH, "least"), "0.20 is the least there is (tarmac)."),
        (NotTogether("front"), "front: each ratio can be had alone, but not all together."),
        (PackThatFits("front", "gravel", (ForceNeeded("rebound", 0.05, -0.25), ForceNeeded("compression", 0.25, 0.1))),
         "a pack like gravel with 25 % less rebound force at 50 mm/s, 10 % more compression force at 250 mm/s."),
        (LimitInTheWay(("inside", "within"), PLAN),
         "Without --inside and --within there is a fit: front gravel c=3,r=5 (between)."),
        (EachSideItsOwn("rear", PLAN), "each side its own clicks: front gravel c=3,r=5 (--per-corner); where one"),
        (SpringThatFits(0.81, (40e3, 50e3), PLAN),
         "front: what would fit: springs of about 32.4 N/mm instead of 40.0 N/mm and 40.5 N/mm instead of 50.0 N/mm "
         "(10 % lower ride frequency), with front gravel c=3,r=5."),
        (NoSpringFits(("front",)), "front: no springs of any rate bring a fit by themselves"),
    ],
)  # fmt: skip
def test_each_advice_in_words(advice, words):
    assert words in sentence(advice, "metric")


def test_springs_far_from_those_there_are_are_told_for_what_they_are():
    far = "hardly a change of springs"
    assert far in sentence(SpringThatFits(8.6, (45e3,), PLAN), "metric")
    assert far in sentence(SpringThatFits(0.4, (45e3,), PLAN), "metric")
    assert far not in sentence(SpringThatFits(1.9, (45e3,), PLAN), "metric")


def test_words_use_the_units_people_are_shown():
    assert "compression at 2.0 in/s" in sentence(OutOfReach("front", REACH, "most"), "us")
    assert "lb/in" in sentence(SpringThatFits(0.81, (40e3,), PLAN), "us")
