"""The curve at any click as question and answer, held against the made-up packs it was tested on."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from dynoan.analysis.clickmap.tested.loss_per_kelvin import Thinning
from dynoan.errors import CallError, LookupFault, QuantityError
from dynoan.jobs import plan
from dynoan.jobs.curve_table import TABLE
from dynoan.jobs.predict import PredictQuestion, _oil_words, answer
from dynoan.show.plots.predict import figure
from dynoan.show.text.blocks import Look, Paragraph, Table
from dynoan.show.text.plan import blocks as plan_blocks
from dynoan.show.text.predict import blocks
from dynoan.show.text.restated import restated
from dynoan.workbench import Workbench
from fixtures.rig import PACKS
from tests.cli import pack_library
from tests.cli.pack_library import NAMES, counted

packs = pack_library.packs


@pytest.fixture(scope="module")
def bench(packs):
    return Workbench.find(packs / "library")


@pytest.mark.parametrize(
    ("asked", "clicks"),
    [
        ((), ({},)), (("lsc=6,lsr=8",), ({"lsc": 6, "lsr": 8},)), (({"lsc": 6},), ({"lsc": 6},)),
        ((["lsc=3", {"lsc": 9}],), ({"lsc": 3}, {"lsc": 9})),
    ],
)  # fmt: skip
def test_clicks_as_text_as_a_mapping_or_several(asked, clicks):
    assert PredictQuestion.asked("gravel", *asked).clicks == clicks


def test_the_pack_may_hold_its_clicks():
    found = PredictQuestion.asked("gravel@lsc=6,lsr=8")
    assert (found.pack, found.clicks) == ("gravel", ({"lsc": 6, "lsr": 8},))


@pytest.mark.parametrize(
    ("words", "kind", "part", "need"),
    [
        ({"pack": "gravel@lsc=2", "clicks": "lsc=3"}, CallError, None, "clicks"),
        ({"pack": "gravel", "clicks": "lsc"}, CallError, "clicks", None),
        ({"pack": "gravel", "at": "fast"}, QuantityError, "at", None),
    ],
)
def test_a_question_that_is_none_names_its_part(words, kind, part, need):
    with pytest.raises(kind) as refused:
        PredictQuestion.asked(**words)
    assert (refused.value.part, refused.value.need) == (part, need)


def test_forces_lie_near_the_pack_the_tests_were_made_of(bench):
    clicks = dict.fromkeys(NAMES, 8)
    found = answer(bench, PredictQuestion.asked("gravel", counted((8, 8, 8, 8)), at=[0.05, 0.1, 0.25]))
    frame = found.to_frame()
    assert list(frame.columns) == ["what", "standing", *TABLE]
    np.testing.assert_allclose(frame["force_n"], PACKS["gravel"].damping(frame["velocity_m_s"], clicks), rtol=0.06)
    assert set(frame["standing"]) == {"between"}


def test_the_record_holds_what_others_rely_on_in_plain_values(bench):
    found = answer(bench, PredictQuestion.asked("gravel")).to_dict()
    assert {"what", "shock", "pack", "clicks", "standing", "compression", "rebound", "table"} <= set(found["curves"][0])
    assert {"view", "loo_error_pct", "spread_pct", "shocks", "tested", "counted", "authority"} <= set(found)
    assert found["counted"] == {"lsc": "from closed", "hsc": "from closed", "lsr": "from closed", "hsr": "from soft"}
    assert all(type(worth["velocity_m_s"]) is list for worth in found["authority"])


def test_what_was_never_tested_is_told_apart(bench):
    found = answer(bench, PredictQuestion.asked("gravel", ["lsc=10,hsc=10,lsr=10,hsr=10", "lsc=20"]))
    assert [c.standing for c in found.curves] == ["tested", "outside"]
    words = [b.text for b in blocks(found, Look()) if isinstance(b, Paragraph)]
    assert any(w.strip().endswith("outside the tested clicks: a guess, the worse the farther") for w in words)


@pytest.mark.parametrize("units", ["metric", "us"])
def test_people_read_forces_in_their_units_and_what_a_click_is_worth(bench, units):
    found = answer(bench, PredictQuestion.asked("gravel", at=0.0508))
    tables = [b for b in blocks(found, Look(units)) if isinstance(b, Table)]
    assert tables[0].columns[0] == {"metric": "velocity mm/s", "us": "velocity in/s"}[units]
    assert float(tables[0].rows[0][0]) == pytest.approx({"metric": 51, "us": 2.0}[units])
    assert tables[1].columns[:2] == ["a click out of", "acts on"]


@pytest.mark.parametrize(
    ("words", "kind", "said"),
    [
        (("sand",), LookupFault, "no sweep of pack 'sand'; it holds gravel, mixed"),
        (("gravel", "lsc=21"), QuantityError, "lsc=21 is outside"),
        (("gravel", "cr=2"), CallError, "has no adjuster 'cr'"),
    ],
)
def test_what_cannot_be_predicted_is_refused(bench, words, kind, said):
    with pytest.raises(kind, match=said):
        answer(bench, PredictQuestion.asked(*words))


def test_clicks_that_were_not_given_are_told_with_where_they_come_from(bench):
    found = answer(bench, PredictQuestion.asked("gravel", "lsc=8"))
    rest = {name: click for name, click in counted((10, 10, 10, 10)).items() if name != "lsc"}
    assert found.to_dict()["clicks_not_given"] == [rest]
    read = " ".join(b.text for b in blocks(found, Look()) if isinstance(b, Paragraph))
    assert "hsc=10,lsr=10,hsr=10 were not given: taken where most tests of this pack sat" in read
    every = answer(bench, PredictQuestion.asked("gravel", counted((8, 8, 8, 8))))
    assert "not given" not in " ".join(b.text for b in blocks(every, Look()) if isinstance(b, Paragraph))


def test_how_oil_thins_is_told_in_the_units_people_are_shown(bench):
    # The made peak tables tell no temperature: give the map one.
    words = _oil_words([replace(answer(bench, PredictQuestion.asked("gravel")).curves[0], temperature=40.0)], 20.0)
    assert "1.7 % per 10 °C" in words[0]
    assert "per 18 °F" in restated(words[0], "us")


def test_what_a_packs_own_tests_tell_of_its_oil_is_said_to_be_theirs(bench):
    curves = [replace(answer(bench, PredictQuestion.asked("gravel")).curves[0], temperature=40.0)]
    speeds = np.array([0.1, 0.4])
    told = {"rebound": Thinning(speeds, np.full(2, 0.0006), np.full(2, 0.0007))}
    (said,) = _oil_words(curves, 20.0, told)
    assert "0.6 % per 10 °C (± 0.7" in said
    assert "as tests of this pack at unlike temperatures tell" in said
    assert "common practice" in _oil_words(curves, 20.0)[0]


def test_the_two_errors_of_a_pack_are_said_to_be_two_things(bench):
    said = " ".join(
        b.text for b in blocks(answer(bench, PredictQuestion("gravel")), Look()) if isinstance(b, Paragraph)
    )
    assert "a tested one guessed from the others alone is off by" in said
    planned = plan.answer(bench, plan.PlanQuestion.asked("gravel", runs=1))
    meant = " ".join(b.text for b in plan_blocks(planned, Look()) if isinstance(b, Paragraph))
    assert "the mean over all clicks and speeds, most of them never tested" in meant


def test_in_the_picture_no_look_of_a_curve_stands_for_an_adjuster(bench):
    found = answer(bench, PredictQuestion.asked("gravel", "lsc=6,lsr=8"))
    curves, _, clicks = figure(found).axes
    drawn = {line.get_color() for line in curves.get_lines() if line.get_label() in {c.what for c in found.curves}}
    assert len(drawn) == 1
    assert not drawn & {line.get_color() for line in clicks.get_lines() if line.get_label()[0] != "_"}
