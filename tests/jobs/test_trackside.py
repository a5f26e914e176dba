"""The phone page as question and answer, at no door."""

from __future__ import annotations

import json
import re
import tomllib

import numpy as np
import pytest

from dynoan.errors import LookupFault
from dynoan.jobs import choose
from dynoan.jobs.answering import Answer
from dynoan.jobs.trackside import TracksideQuestion, answer, car_parts
from dynoan.show import presenting
from dynoan.show.pages.trackside.payload import payload
from dynoan.show.pages.trackside.view import view_of
from dynoan.show.text.blocks import Look, Paragraph, Table
from dynoan.workbench import Workbench
from tests.cli.pages import small_library
from tests.show.cars import made_car

pytestmark = pytest.mark.slow


@pytest.fixture(scope="module")
def bench(tmp_path_factory):
    return Workbench.find(small_library(tmp_path_factory.getbasetemp()))


@pytest.fixture(scope="module")
def found(bench):
    return answer(bench, TracksideQuestion.asked("kestrel"))


def test_a_question_takes_packs_one_by_one_or_as_text():
    assert TracksideQuestion.asked("kestrel", packs="gravel, mixed").packs == ("gravel", "mixed")
    assert TracksideQuestion.asked("kestrel", packs=["mixed"]).packs == ("mixed",)
    assert TracksideQuestion.asked("kestrel").packs == ()


def test_every_pack_and_the_counting_of_every_corner(bench, found):
    assert list(found.maps) == ["gravel", "mixed"]
    assert set(found.counting) == {"fl", "fr", "rl", "rr"}
    assert found.counting["rl"]["gravel"] == bench.shock("RL-03")
    assert found.to_dict() == {"car": "kestrel", "packs": ["gravel", "mixed"]}


def test_tested_settings_have_the_curves_that_ratio_takes(bench, found):
    """Where a shock was tested, the page and `ratio` give the same force and band, whatever the map says there."""
    carried = payload(view_of(found, "metric", "today"))
    count = 0
    for name, corner in found.car.corners.items():
        for pack, curves in found.tested[name].items():
            shock = bench.corner_shock(corner, pack)
            for curve, told in zip(curves, carried["corners"][name]["tested"][pack], strict=True):
                own = bench.corner_curve(found.car, corner, clicks=shock.to_counted(dict(curve.clicks)), pack=pack)
                speeds = np.array([e["velocity"] for e in carried["packs"][0]["rebound"]["exact"]])
                low, high = own.rebound.band(speeds)
                assert told["clicks"] == dict(curve.clicks)
                assert told["rebound"]["force"] == pytest.approx(own.rebound.force(speeds), abs=0.01)
                assert told["rebound"]["half"] == pytest.approx((high - low) / 2, abs=0.01)
                count += 1
    assert count >= 4


def test_choices_are_those_of_choose(bench, found):
    chosen = choose.answer(bench, choose.ChooseQuestion.asked("kestrel", choose.Limits(packs=("gravel", "mixed"))))
    front = [c for _, c in chosen.by_rank() if c.choice.where == "front"][:5]
    frame = found.to_frame()
    mine = frame[frame["where"] == "front"]
    assert list(mine["clicks"]) == [c.clicks_text for c in front]
    assert list(mine["miss"]) == pytest.approx([c.choice.miss for c in front])
    assert list(mine["ratio_rebound_low"]) == pytest.approx([c.choice.ratio["rebound", "low"].value for c in front])


def test_what_is_unknown_is_refused(bench):
    with pytest.raises(LookupFault, match="gravel, mixed"):
        answer(bench, TracksideQuestion.asked("kestrel", packs="ice"))
    with pytest.raises(LookupFault, match="kestrel"):
        answer(bench, TracksideQuestion.asked("nobody"))


def test_the_car_without_what_is_turned_can_be_put_together_again():
    car_text, corner_text = car_parts(made_car())
    data = tomllib.loads(car_text) | {k: v for text in corner_text.values() for k, v in tomllib.loads(text).items()}
    for name in ("fl", "rr"):
        assert not {"mass", "spring", "pack", "clicks"} & set(data[name])
    assert data["rl"]["shock"] == "RL-02"


def test_page_and_words_hold_what_the_answer_holds(found, monkeypatch):
    monkeypatch.setattr(Answer, "presenter", presenting)
    first, table = presenting.blocks(found, Look())
    assert first == Paragraph("kestrel: packs gravel, mixed")
    assert isinstance(table, Table)
    data = json.loads(re.search(r'id="data">(.*?)</script>', found.page(), re.DOTALL)[1])
    assert [p["name"] for p in data["packs"]] == ["gravel", "mixed"]
    assert [c["clicks"] for c in data["choices"]] == [c.clicks for c in found.choices]
    assert len(table.rows) == len(data["choices"]) == 10


def test_a_page_may_be_made_without_the_launch(bench):
    found = answer(bench, TracksideQuestion.asked("kestrel", launch=False))
    assert found.launch is None
    assert "left out as asked" in found.no_launch
