"""No figure of a car goes unjudged: whatever is not a number, endless or absurd is named by its key."""

from __future__ import annotations

import math
from dataclasses import fields, replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from dynoan.model.car import CORNERS, Car, Corner, Surface, Target, Targets
from dynoan.model.car_check import check_car

FEW = settings(max_examples=60, deadline=None)
CORNER = Corner("fl", 268.0, 34.0, 45e3, 0.95, 0.92, 210e3, 0.08, 0.07, 900.0, "FL-01", "gravel", {"lsc": 8})
CAR = Car(
    "kestrel", {n: replace(CORNER, name=n) for n in CORNERS}, 2.43, 0.51, "all", 1150.0, 0.6, (1.9, 0.42),
    {"front": Targets(Target(0.45, 0.25, ((0.05, 0.5), (0.2, 0.3))), Target(0.7, 0.35))},
    {"loose": Surface("loose", 0.65, 256e-6)}, {"front": 1.46, "rear": 1.48}, 420.0, 0.3, 0.4,
)  # fmt: skip
ABSURD = [math.nan, math.inf, -math.inf, 1e300, -1e300]
TEXTS = {"name", "shock", "pack", "clicks", "driven", "corners", "targets", "surfaces", "file", "compression",
         "rebound", "curve", "instant_centre", "track", "axle_mass", "links", "extras", "plus_minus",
         "units"}  # fmt: skip


def figures(kind: type) -> list[str]:
    return [f.name for f in fields(kind) if f.name not in TEXTS]


def keys(car: Car) -> set[str]:
    return {fault.key.split(".")[-1] for fault in check_car(car)}


def with_target(**change: object) -> Car:
    front = CAR.targets["front"]
    return replace(CAR, targets={"front": replace(front, rebound=replace(front.rebound, **change))})


def test_the_car_the_others_are_made_of_has_no_fault():
    assert check_car(CAR) == ()


@pytest.mark.parametrize("value", ABSURD)
def test_every_figure_of_a_corner_is_judged(value):
    for key in figures(Corner):
        assert key in keys(replace(CAR, corners=CAR.corners | {"rr": replace(CAR.corners["rr"], **{key: value})})), key


@pytest.mark.parametrize("value", ABSURD)
def test_every_figure_of_the_car_is_judged(value):
    for key in figures(Car):
        assert key in keys(replace(CAR, **{key: value})), key
    assert "track" in keys(replace(CAR, track={"front": 1.46, "rear": value}))
    for place in ((value, 0.4), (1.9, value)):
        assert "instant_centre" in keys(replace(CAR, instant_centre=place))
    for key in figures(Surface):
        assert key in keys(replace(CAR, surfaces={"loose": replace(CAR.surfaces["loose"], **{key: value})})), key


@pytest.mark.parametrize("value", ABSURD)
def test_every_figure_of_a_target_is_judged(value):
    for key in figures(Target):
        assert key in keys(with_target(**{key: value})), key
    for key in figures(Targets):
        assert key in keys(replace(CAR, targets={"front": replace(CAR.targets["front"], **{key: value})})), key
    for point in ((value, 0.4), (0.1, value)):
        assert "curve" in keys(with_target(curve=(point,)))


@FEW
@given(st.lists(st.floats(), min_size=9, max_size=9))
def test_whatever_a_corner_holds_it_is_judged_without_a_fault_of_the_program(numbers):
    corner = replace(CORNER, **dict(zip(figures(Corner), numbers, strict=False)))
    faults = check_car(replace(CAR, corners=CAR.corners | {"fl": corner}))
    assert all(fault.text.isprintable() for fault in faults)
    if not faults:
        assert 0 < corner.unsprung < corner.mass
        assert 0 < corner.rate < math.inf


@FEW
@given(st.floats(0.2, 2.5), st.floats(0.2, 2.5), st.floats(0, 1e4))
def test_a_ratio_twice_as_long_is_four_times_the_rate_at_the_wheel(spring_ratio, shock_ratio, gas):
    one = replace(CORNER, spring_ratio=spring_ratio, shock_ratio=shock_ratio, gas_rate=gas)
    double = replace(one, spring_ratio=2 * spring_ratio, shock_ratio=2 * shock_ratio)
    assert double.wheel_rate == pytest.approx(4 * one.wheel_rate)
    assert double.rate == pytest.approx(4 * one.rate)
    assert replace(one, gas_rate=None).rate == one.wheel_rate
    assert one.sprung + one.unsprung == one.mass
