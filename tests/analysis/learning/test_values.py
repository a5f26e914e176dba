"""Every value that a launch may tell is one that can be moved, written into the car's file and told of."""

from __future__ import annotations

from dataclasses import replace

import pytest

from dynoan.analysis.learning.values import LINKS, LOADED, UncertainValue, uncertain_values, with_values
from dynoan.library.car_file import car_from_text
from dynoan.library.car_learned import NewValue, with_learned
from dynoan.model.car import Car
from dynoan.model.links import Link, Links
from dynoan.show.text.learn import ELSEWHERE
from tests.analysis.learning.made import car_text

TEXT = car_text()
CAR = car_from_text(TEXT, "kestrel.toml")
MEMBERS = {name: Link({"1": (0.5, up + 0.05)}, (0.0, up), "1") for name, up in (("lower", 0.24), ("upper", 0.43))}
LINKED = replace(CAR, antisquat=None, links=Links(MEMBERS))


def values(car: Car) -> dict[str, UncertainValue]:
    return {v.key: v for v in uncertain_values(car, car.surfaces["loose"])}


BEFORE = values(CAR)
SHOWN = {key: value for key, value in (BEFORE | values(LINKED)).items() if value.shown}


@pytest.mark.parametrize("key", BEFORE)
def test_a_moved_value_is_found_again_and_all_others_as_they_were(key):
    moved = BEFORE[key].value * 1.05
    after = {k: v.value for k, v in values(with_values(CAR, {key: moved})).items()}
    if key.endswith(LOADED):
        after.setdefault(key, moved)  # what a car states without a ± is no longer open
    there = not key.endswith(".damping")  # which no car has
    assert after == pytest.approx({k: v.value for k, v in BEFORE.items()} | ({key: moved} if there else {}))


def test_raised_links_are_raised():
    assert LINKS in values(LINKED)
    made = with_values(LINKED, {LINKS: 0.01}).links
    assert made is not None
    for name, link in MEMBERS.items():
        assert made.members[name].at_body == pytest.approx((link.at_body[0], link.at_body[1] + 0.01))


@pytest.mark.parametrize("key", [key for key in SHOWN if SHOWN[key].writable])
def test_what_may_be_written_is_read_again(key):
    value = SHOWN[key]
    new = NewValue(value.value, value.value * 1.05, value.half_width / 2)
    made, _ = with_learned(TEXT, "kestrel.toml", {key: new})
    found = values(car_from_text(made, "kestrel.toml"))[key]
    assert found.value == pytest.approx(new.after, rel=0.02)
    assert found.half_width == pytest.approx(new.half_width, rel=0.1)


@pytest.mark.parametrize("end", sorted({key.rpartition(".")[2] for key in SHOWN}))
def test_what_would_tell_it_is_said_where_no_launch_does(end):
    assert ELSEWHERE[end]
