"""A day's setup: what is written reads back, what differs is told, whatever people write down."""

from __future__ import annotations

from dataclasses import fields, replace
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from dynoan.errors import QuantityError
from dynoan.library.car_file import car_from_text
from dynoan.library.car_keys import OF_AXLE
from dynoan.library.differences import differences
from dynoan.library.setup_file import car_text_of, setup_from_text, setup_to_text
from dynoan.model.car import Corner, Surface, Target, Targets
from dynoan.model.links import Engine, Extras, Link, Links, WheelieBar
from dynoan.model.setup import Setup
from tests.library.made import CAR

FEW = settings(max_examples=40, deadline=None)
KESTREL = car_from_text(CAR, "cars/kestrel.toml")
ANY = st.lists(
    st.text(max_size=8) | st.sampled_from(['"', "'", "\\", "\n", "\r\n", "[fl]\n", "# ", "=", '"""', "." * 60, "\x00"]),
    max_size=6,
).map("".join).filter(lambda t: not any(0xD800 <= ord(c) < 0xE000 for c in t))  # fmt: skip
FACTS = st.fixed_dictionaries(
    {"date": st.just("2026-05-02")},
    optional={
        "surface": ANY, "result": ANY, "remarks": ANY, "recorded": ANY, "good": st.booleans(),
        "temperature": st.integers(-600, 900).map(lambda t: t / 10),
        "extra": st.dictionaries(ANY, ANY, max_size=3),
    },
)  # fmt: skip


def made(**facts: Any) -> Setup:
    return Setup(**({"name": "x", "car": KESTREL, "date": "2026-05-02"} | facts))


@FEW
@given(FACTS)
def test_whatever_people_write_down_reads_back_and_the_cars_text_with_it(facts):
    setup = made(**facts)
    text = setup_to_text(setup, CAR)
    again = setup_from_text(text, "setups/x.toml", "x")
    assert replace(again, file="", car=KESTREL) == setup
    assert replace(again.car, file=KESTREL.file) == KESTREL
    assert car_text_of(text, "setups/x.toml") == CAR


@FEW
@given(FACTS)
def test_a_setup_differs_in_nothing_from_itself_and_in_every_fact_from_a_bare_one(facts):
    setup = made(**facts)
    assert differences(setup, setup) == ()
    told = differences(made(), setup)
    assert len({d.what for d in told}) == len(told)
    expected = [facts[k] for k in ("surface", "result", "good", "temperature") if k in facts]
    expected += [facts["remarks"]] if facts.get("remarks") else []
    expected += list(facts.get("extra", {}).values())
    assert sorted(map(repr, expected)) == sorted(repr(d.other_value) for d in told)


@pytest.mark.parametrize("key", ["date", "surface", "car", "verdict", "wheelbase", "front left lsc"])
def test_a_fact_of_the_teams_own_hides_none_of_ours(key):
    kept = replace(
        KESTREL, wheelbase=2.5, corners=KESTREL.corners | {"fl": replace(KESTREL.corners["fl"], clicks={"lsc": 9})}
    )
    one = made(surface="loose", good=True, extra={key: "the same"})
    other = made(
        surface="wet", good=False, date="2026-05-03", extra={key: "the same"}, car=replace(kept, name="merlin")
    )
    assert {"date", "surface", "car", "verdict", "wheelbase", "front left lsc"} <= {
        d.what for d in differences(one, other)
    }
    told = differences(one, replace(other, extra={key: "another"}))
    assert ("the same", "another") in [(d.one, d.other) for d in told]


CORNER = {"mass": 270.0, "unsprung": 30.0, "spring": 5e4, "spring_ratio": 0.9, "shock_ratio": 0.9, "tyre": 2e5,
          "bump_travel": 0.08, "droop_travel": 0.07, "gas_rate": 900.0, "shock": "FL-02", "pack": "mixed",
          "clicks": {"lsc": 9, "lsr": 10}}  # fmt: skip
LINKS = Links({"lower": Link({"1": (0.5, 0.1), "2": (0.5, 0.15)}, (0.0, 0.1), "1"),
               "upper": Link({"1": (0.4, 0.5)}, (0.0, 0.45), "1")})  # fmt: skip
#: what only a launch at large angles takes, each by itself
EXTRAS = {"wheel_inertia": 1.2, "bar": WheelieBar(1.5, 0.1, 5e4),
          "engine": Engine((100.0, 300.0, 306.0), (90.0, 90.0, 0.0)),
          "axle_ratio": 4.1, "bump_stop": {"front": ((0.0, 0.0), (0.01, 600.0))},
          "droop_stop": {"rear": ((0.0, 0.0), (0.01, 600.0))}}  # fmt: skip
WHOLE = {"wheelbase": 2.5, "cg_height": 0.5, "driven": "front", "pitch_inertia": 900.0, "antisquat": 0.3,
         "instant_centre": (1.0, 0.2), "surfaces": {"ice": Surface("ice", 0.2)}, "track": {"front": 1.4},
         "roll_inertia": 400.0, "axle_mass": {"front": 530.0}, "wheel_radius": 0.3, "front_drive": 0.4,
         "name": "merlin",
         "links": LINKS, "extras": Extras(axle_ratio=4.1), "plus_minus": {"cg_height": 0.02}}  # fmt: skip
TARGET = {"low": 0.5, "high": 0.3, "curve": ((0.1, 0.4),), "weight": 2.0}


def test_every_field_of_a_corner_that_differs_is_told():
    assert set(CORNER) == {f.name for f in fields(Corner)} - {"name"}
    for key, value in CORNER.items():
        corners = KESTREL.corners | {"fl": replace(KESTREL.corners["fl"], **{key: value})}
        (told,) = differences(made(), made(car=replace(KESTREL, corners=corners)))
        assert told.what.startswith("front left")


def test_every_field_of_the_car_that_differs_is_told():
    assert set(WHOLE) == {f.name for f in fields(KESTREL)} - {"corners", "targets", "file", "units"}
    for key, value in WHOLE.items():
        assert differences(made(), made(car=replace(KESTREL, **{key: value}))), key


def test_a_link_in_another_hole_and_one_moved_are_told_alone():
    one = made(car=replace(KESTREL, links=LINKS))
    (told,) = differences(one, made(car=replace(KESTREL, links=LINKS.with_hole("lower", "2"))))
    assert (told.what, told.one, told.other) == ("links holes lower", "1", "2")
    moved = replace(LINKS, members=LINKS.members | {"upper": replace(LINKS.members["upper"], axle=(0.0, 0.5))})
    (told,) = differences(one, made(car=replace(KESTREL, links=moved)))
    assert told.what == "links upper axle"


def test_every_extra_that_differs_is_told():
    written = set(OF_AXLE)
    assert set(EXTRAS) | written == {f.name for f in fields(Extras)}
    for key, value in (EXTRAS | dict.fromkeys(written)).items():
        extras = Extras(**{key: {"front": 0.05} if key in written else value})
        assert differences(made(), made(car=replace(KESTREL, extras=extras))), key


def test_every_field_of_a_target_that_differs_is_told():
    assert set(TARGET) == {f.name for f in fields(Target)}
    one = made(car=replace(KESTREL, targets={"front": Targets()}))
    for key, value in TARGET.items():
        for direction in ("compression", "rebound"):
            targets = {"front": Targets(**{direction: replace(Target(), **{key: value})})}
            (told,) = differences(one, made(car=replace(KESTREL, targets=targets)))
            assert told.what == f"front target, {direction} {key}"
    for key, value in {"low_velocity": 0.06, "high_velocity": 0.3}.items():
        (told,) = differences(one, made(car=replace(KESTREL, targets={"front": Targets(**{key: value})})))
        assert (told.one_value, told.other_value) == (getattr(Targets(), key), value)


@pytest.mark.parametrize(
    ("line", "words"),
    [
        ('setup.date = "2026-02-30"', r"setup\.date: '2026-02-30' is no date; write it like 2026-05-02"),
        ("setup.date = 20260502", r"setup\.date: found 20260502, wanted text in quotes"),
        ('setup.date = ""', r"setup\.date: missing; write it like"),
        ('setup.dat = "2026-05-02"', r"setup\.dat: unknown key \(did you mean 'date'\?\)"),
        ('setup.date = "2026-05-02"\nsetup.temperature = "25"', r"setup\.temperature: '25' has no unit; .*'45 °C'"),
        ('setup.date = "2026-05-02"\nsetup.temperature = "100 °C"', r"setup\.temperature: 100 °C is no weather"),
        ('setup.date = "2026-05-02"\nsetup.temperature = "nan °C"', r"setup\.temperature: .* is not a number"),
        ('setup.date = "2026-05-02"\nsetup.good = "yes"', r"setup\.good: found 'yes', wanted true or false"),
        ('setup.date = "2026-05-02"\nsetup.extra = 3', r"setup\.extra: found 3, wanted tables"),
        ('setup.date = "2026-05-02"\nsetup.extra.tyre = 3', r"setup\.extra\.tyre: found 3, wanted text in quotes"),
        ("setup = 3", "setup: found 3, wanted a table"), ("", r"setup\.date: missing; a setup begins with lines"),
    ],
)  # fmt: skip
def test_what_is_wrong_in_a_setup_is_named_with_file_and_key(line, words):
    with pytest.raises(QuantityError, match=rf"^setups/x\.toml: {words}"):
        setup_from_text(f"{line}\n{CAR}", "setups/x.toml", "x")


def test_a_setup_that_could_not_be_read_again_is_not_written():
    for facts in ({"remarks": "x" * 20_001}, {"result": "x" * 501}, {"date": ""}, {"temperature": 1e3}):
        with pytest.raises(QuantityError):
            setup_to_text(made(**facts), CAR)


def test_points_of_links_are_told_as_people_read_them():
    def with_hole(hole, up):
        members = {
            "lower": Link({"1": (0.52, 0.25), "2": (0.52, 0.275)}, (0.0, 0.24), hole),
            "upper": Link({"1": (0.43, 0.41)}, (0.03, up), "1"),
        }
        return made(car=replace(KESTREL, links=Links(members)))

    told = {d.what: (d.one, d.other) for d in differences(with_hole("1", 0.43), with_hole("2", 0.44))}
    assert told["links holes lower"] == ("1", "2")
    assert told["links upper axle"] == ("30 mm, 430 mm", "30 mm, 440 mm")
    told = {d.what: d.other for d in differences(with_hole("1", 0.43), with_hole("2", 0.44), "us")}
    assert told["links upper axle"] == "1.18 in, 17.32 in"
