"""What no car can be is told with its key."""

from __future__ import annotations

from dataclasses import replace

import pytest

from dynoan.model.car import CORNERS, Car, Corner, Surface, Target, Targets
from dynoan.model.car_check import check_car
from dynoan.model.car_doubts import doubts
from dynoan.model.links import Engine, Extras, WheelieBar

FRONT = Corner("fl", 268.0, 34.0, 45e3, 0.95, 0.92, tyre=210e3)
CAR = Car(
    "kestrel",
    {"fl": FRONT},
    wheelbase=2.43,
    cg_height=0.51,
    driven="rear",
    targets={"front": Targets(Target(0.45, 0.25), Target(0.7, 0.35))},
    surfaces={"loose": Surface("loose", 0.65)},
)


def _keys(car: Car) -> list[str]:
    return [fault.key for fault in check_car(car)]


def test_a_real_car_has_no_fault():
    assert check_car(CAR) == ()


@pytest.mark.parametrize(
    ("change", "key", "words"),
    [
        ({"mass": -268.0}, "fl.mass", "scale"),
        ({"mass": float("nan")}, "fl.mass", "scale"),
        ({"unsprung": 268.0}, "fl.unsprung", "not less than the 268 kg"),
        ({"unsprung": 290.0}, "fl.unsprung", "not less than"),
        ({"unsprung": 0.0}, "fl.unsprung", "1 kg"),
        ({"spring_ratio": 9.0}, "fl.spring_ratio", "inverse"),
        ({"shock_ratio": 9.0}, "fl.shock_ratio", "9 is outside 0.2 to 2.5"),
        ({"spring": 45.0}, "fl.spring", "0.045 N/mm"),
        ({"tyre": 210.0}, "fl.tyre", "unit"),
        ({"mass": 1900.0, "spring": 2.1e3}, "fl.spring", "would ride at 0.16"),
        ({"clicks": {"lsc": -1}}, "fl.clicks", "negative"),
        ({"bump_travel": 60.0}, "fl.bump_travel", "stop"),
    ],
)
def test_nonsense_of_a_corner_is_named(change, key, words):
    faults = check_car(replace(CAR, corners={"fl": replace(FRONT, **change)}))
    assert [fault.key for fault in faults] == [key]
    assert words in faults[0].text


@pytest.mark.parametrize(
    ("change", "key"),
    [
        ({"wheelbase": 2430.0}, "wheelbase"),
        ({"cg_height": -0.5}, "cg_height"),
        ({"pitch_inertia": 0.0}, "pitch_inertia"),
        ({"roll_inertia": -1.0}, "roll_inertia"),
        ({"track": {"front": 1460.0}}, "front.track"),
        ({"antisquat": 60.0}, "rear.antisquat"),
        ({"instant_centre": (1900.0, 0.4)}, "rear.instant_centre"),
        ({"surfaces": {"ice": Surface("ice", 0.0)}}, "surfaces.ice.grip"),
        ({"surfaces": {"ice": Surface("ice", 0.2, 256.0)}}, "surfaces.ice.roughness"),
        ({"targets": {"rear": Targets(Target(45.0))}}, "targets.rear.compression.low"),
        ({"targets": {"rear": Targets(low_velocity=0.25)}}, "targets.rear.high_velocity"),
        ({"targets": {"rear": Targets(rebound=Target(curve=((0.1, 0.4), (0.1, 0.3))))}}, "targets.rear.rebound.curve"),
        ({"corners": {"front": FRONT}}, "front"),
    ],
)
def test_nonsense_of_the_whole_car_is_named(change, key):
    assert _keys(replace(CAR, **change)) == [key]


@pytest.mark.parametrize(("change", "key"), [
    ({"antisquat": -0.4}, "rear.antisquat"),
    ({"antisquat": 2.6}, "rear.antisquat"),
    ({"instant_centre": (-0.9, 0.2)}, "rear.instant_centre"),
    ({"instant_centre": (1.9, -0.1)}, "rear.instant_centre"),
    ({"cg_height": 1.6}, "cg_height"),
    ({"cg_height": 0.21}, "cg_height"),
    ({"wheel_radius": 0.63}, "wheel_radius"),
    ({"extras": Extras(bar=WheelieBar(0.012, 0.08, 2e5))}, "wheelie_bar.behind"),
    ({"extras": Extras(bar=WheelieBar(1.2, 2.0, 2e5))}, "wheelie_bar.above"),
    ({"corners": {"fl": replace(FRONT, mass=FRONT.mass / 0.45359237, spring=FRONT.spring / 4)}}, "fl.spring"),
    ({"corners": {n: replace(FRONT, name=n, mass=750.0, spring=3 * FRONT.spring) for n in CORNERS}}, "mass"),
])  # fmt: skip
def test_a_car_that_few_would_have_is_doubted_not_refused(change, key):
    car = replace(CAR, driven="rear", wheelbase=2.43, **change)
    assert _keys(car) == []
    assert key in [fault.key for fault in doubts(car)]


@pytest.mark.parametrize(
    "change",
    [{"antisquat": 1.4}, {"instant_centre": (1.9, 0.4)}, {"instant_centre": (-2.0, -0.2)}, {"cg_height": 0.7},
     {"driven": "front", "instant_centre": (-0.9, 0.2)}],
)  # fmt: skip
def test_a_usual_car_is_not_doubted(change):
    found = doubts(replace(CAR, **({"driven": "rear", "wheelbase": 2.43, "cg_height": 0.5} | change)))
    assert [fault.key for fault in found] == ["mass"]  # it has one corner


def test_a_shock_at_two_corners_is_doubted_at_the_second():
    corners = {name: replace(FRONT, name=name, shock=shock) for name, shock in (("fl", "A"), ("rl", "B"), ("rr", "B"))}
    found = [doubt for doubt in doubts(replace(CAR, corners=corners)) if doubt.key.endswith("shock")]
    assert [str(doubt) for doubt in found] == [
        "rr.shock: B is at the rear left too; where another of its kind sits here, name none"
    ]


@pytest.mark.parametrize(("engine", "key"), [
    (Engine((100.0, 600.0), (200.0, 180.0), ratio=0.1), "engine.ratio"),
    (Engine((100.0, 600.0), (200.0, 180.0), ratio=10.0, inertia=14.0), "engine.inertia"),
])  # fmt: skip
def test_an_engine_that_few_would_have_is_doubted_not_refused(engine, key):
    car = replace(CAR, extras=Extras(engine=engine))
    assert _keys(car) == []
    assert key in [fault.key for fault in doubts(car)]
