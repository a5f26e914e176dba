"""Clicks after a change to the car as question and answer, at no door."""

from __future__ import annotations

import math

import pytest

from dynoan.errors import CallError, LookupFault, QuantityError
from dynoan.jobs.carry import CarryQuestion, answer
from dynoan.jobs.choose import Limits
from dynoan.show import presenting
from dynoan.show.text.blocks import Look, Paragraph, Table
from dynoan.workbench import Workbench
from tests.cli import corner_library
from tests.cli.corner_library import SOFT, change, put

garage = corner_library.garage
NOW = {"lsc": 4, "hsc": 5, "lsr": 4, "hsr": 5}


@pytest.fixture
def bench(garage):
    put(garage, "cars/stiffer.toml", change('spring = "45 N/mm"', 'spring = "52 N/mm"'))
    put(garage, "cars/heavy.toml", change('spring = "45 N/mm"', 'spring = "260 N/mm"'))
    return Workbench.find(garage)


def asked(bench, other="stiffer", limits=None, **given):
    return answer(bench, CarryQuestion.asked("kestrel", other, limits, **given))


def test_a_question_takes_numbers_in_si_or_text():
    question = CarryQuestion.asked("a", "b", low="2 in/s", high=0.3)
    assert (question.low, question.high) == (pytest.approx(2 * 0.0254), 0.3)
    with pytest.raises(QuantityError) as wrong:
        CarryQuestion.asked("a", "b", low="2 kg")
    assert wrong.value.part == "low"


def test_the_force_goes_with_the_root_of_the_rate(bench):
    found = asked(bench)
    front, rear = found.places
    assert not found.no
    assert [c.carried.name for c in found.corners] == ["fl", "fr", "rl", "rr"]
    for corner in front.corners:
        assert corner.carried.force_factor == pytest.approx((52 / 45) ** 0.5)
        assert corner.carried.untouched is not None
        for key, was in corner.carried.before.items():
            assert corner.carried.untouched[key] == pytest.approx(was * (45 / 52) ** 0.5)
            assert abs(corner.carried.lost(key)) < found.question.limits.tolerance
    assert rear.chosen.clicks == {"rl": NOW, "rr": NOW}


def test_what_either_cars_file_likely_has_wrong_is_said(bench, garage):
    put(garage, "cars/odd.toml", change("shock_ratio = 0.92", "shock_ratio = 1.47"))
    assert any("shock_ratio: 1.47 would be more travel" in text for text in asked(bench, "odd").warnings)
    assert not asked(bench).warnings


def test_what_cannot_be_kept_is_no(bench):
    found = asked(bench, "heavy")
    assert found.no
    assert not found.kept
    assert "the stiff end" in found.places[0].chosen.choice.ends.values()


def test_sides_set_apart_or_asked_apart_are_carried_apart(bench, garage):
    assert [p.chosen.choice.where for p in asked(bench, per_corner=True).places] == ["fl", "fr", "rl", "rr"]
    put(garage, "cars/kestrel.toml",
        change('[fl]\nmass = "268 kg"', '[fl]\nclicks = "lsc=5,hsc=5,lsr=4,hsr=5"\nmass = "268 kg"'))  # fmt: skip
    assert [p.chosen.choice.where for p in asked(bench).places] == ["fl", "fr", "rear"]


def test_clicks_go_out_as_the_new_shock_counts(bench, garage):
    put(garage, "shocks/NEW-5.toml", SOFT)
    put(garage, "cars/new.toml", change('shock = "FL-01"', 'shock = "NEW-5"'))
    fl, fr = asked(bench, "new").places[0].corners
    assert fl.clicks == {name: 10 - click for name, click in NOW.items()}
    assert fr.clicks == NOW


def test_packs_are_the_one_on_the_car_unless_named(bench):
    assert {p.chosen.choice.pack for p in asked(bench).places} == {"gravel"}
    assert {p.chosen.choice.pack for p in asked(bench, limits=Limits(("mixed",))).places} == {"mixed"}
    with pytest.raises(LookupFault) as wrong:
        asked(bench, limits=Limits(("wet",)))
    assert wrong.value.part == "packs"


def test_the_low_velocity_lies_below_the_high_one(bench):
    with pytest.raises(CallError) as wrong:
        asked(bench, low=1.0)
    assert wrong.value.need == "velocities"


def test_plain_values_and_the_frame_tell_the_same(bench):
    found = asked(bench)
    plain = found.to_dict()
    assert set(plain) == {"carried", "kept", "tolerance", "cautions"}
    frame = found.to_frame()
    assert len(frame) == 4 * 4
    for row in frame.to_dict("records"):
        corner = next(p["corners"][row["corner"]] for p in plain["carried"] if row["corner"] in p["corners"])
        for column, key in (("ratio", "ratio"), ("ratio_lower", "low"), ("lost_pct", "lost_pct")):
            assert row[column] == corner[key][row["direction"]][row["at"]]


def test_the_table_names_a_corner_once_and_says_what_it_takes(bench):
    blocks = presenting.blocks(asked(bench), Look())
    table = next(b for b in blocks if isinstance(b, Table))
    assert [row[0] for row in table.rows if row[0]] == ["front left", "front right", "rear left", "rear right"]
    words = [b.text for b in blocks if isinstance(b, Paragraph)]
    assert "front: keeping the ratios takes 7 % more force of the shock, at the same speed of the wheel." in words
    assert "rear: keeping the ratios takes the same force of the shock, at the same speed of the wheel." in words


def test_an_axle_that_nothing_changed_on_loses_nothing(bench):
    """Its clicks stay, so the test of these clicks counts on both sides, and not the click map on one of them."""
    rear = asked(bench).places[1]
    assert rear.chosen.clicks == {"rl": NOW, "rr": NOW}
    assert rear.chosen.choice.sure
    for corner in rear.corners:
        assert corner.carried.untouched == corner.carried.before
        for key, banded in corner.carried.carried.items():
            assert banded.value == pytest.approx(corner.carried.before[key], rel=1e-12)
            assert banded.low < banded.value < banded.high


def test_limits_of_a_ratio_hold_the_cars_own_plus_minus_though_nothing_is_lost_by_it(bench, garage):
    """A motion ratio that is off is off before and after: what is kept is as sure as ever, the ratio itself is not."""
    sure = asked(bench)
    for name, spring in (("doubtful", "45"), ("stiffer-doubtful", "52")):
        text = change("shock_ratio = 0.92", 'shock_ratio = "0.92 ± 0.03"')
        put(garage, f"cars/{name}.toml", text.replace('spring = "45 N/mm"', f'spring = "{spring} N/mm"'))
    found = answer(bench, CarryQuestion.asked("doubtful", "stiffer-doubtful"))
    for one, other in zip(sure.places[0].corners, found.places[0].corners, strict=True):
        assert other.clicks == one.clicks
        for key, banded in other.carried.carried.items():
            assert other.carried.lost(key) == pytest.approx(one.carried.lost(key))
            bare = one.carried.carried[key]
            shift = (0.95**2 / 0.92**2 - 1) * banded.value
            assert banded.high - banded.value == pytest.approx(math.hypot(bare.high - bare.value, shift), rel=1e-3)
            assert banded.value - banded.low == pytest.approx(math.hypot(bare.value - bare.low, shift), rel=1e-3)
    assert found.places[0].chosen.choice.sure == sure.places[0].chosen.choice.sure
