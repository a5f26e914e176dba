"""A scale under both wheels of an axle: what its reading makes of the corners, and what becomes of its ±."""

from __future__ import annotations

import re

import pytest

from dynoan.errors import QuantityError
from dynoan.jobs.car_spread import ratio_spread
from dynoan.library.car_changes import changed, moved
from dynoan.library.car_file import car_from_data, car_from_text
from dynoan.library.car_keys import STAND_INS
from dynoan.library.car_written import car_to_text
from dynoan.library.faults import all_faults
from dynoan.model.car_doubts import doubts
from tests.cli.launch_library import CAR

MASSES = {"fl": 268, "fr": 262, "rl": 241, "rr": 247}
FRONT = MASSES["fl"] + MASSES["fr"]


def on_axles(front: str = '"530 ± 8 kg"', keep: tuple[str, ...] = ("rl", "rr")) -> str:
    text = CAR
    for corner in MASSES.keys() - set(keep):
        text = re.sub(rf"(?m)^(\[{corner}\]\n(?:.*\n)*?)mass = .*\n", r"\1", text, count=1)
    return text.replace("[front]\n", f"[front]\naxle_mass = {front}\n", 1)


def read(text: str):
    return car_from_text(text, "cars/kestrel.toml")


def masses(car):
    return {name: corner.mass for name, corner in car.corners.items()}


def test_both_wheels_share_it_and_that_is_said():
    car = read(on_axles())
    assert masses(car) | {"rl": 0, "rr": 0} == {"fl": 265, "fr": 265, "rl": 0, "rr": 0}
    (said,) = (str(d) for d in doubts(car) if "axle_mass" in str(d))
    assert said.startswith("front.axle_mass: 530 kg are taken as 265 kg on each wheel")


def test_what_one_wheel_leaves_is_the_others():
    car = read(on_axles(keep=("fl", "rl", "rr")))
    assert (car.corners["fl"].mass, car.corners["fr"].mass) == (268, FRONT - 268)
    assert read(car_to_text(car)).corners == car.corners


def test_its_limits_reach_both_wheels_by_half():
    car, alone = read(on_axles()), read(on_axles('"530 kg"'))
    assert moved(car, "front.axle_mass", 1.0).corners["fr"].mass == pytest.approx(269)
    # The ratio goes by one over the root of what the springs carry: ± 4 kg of 231.
    sprung = car.corners["fl"].sprung
    assert ratio_spread(car, "fl") == pytest.approx((sprung / (sprung - 4)) ** 0.5 - 1, rel=1e-6)
    assert ratio_spread(alone, "fl") == ratio_spread(car, "rl") == 0


def test_it_reads_back_as_it_was_written():
    car = read(on_axles())
    again = read(car_to_text(car))
    assert (again.corners, again.plus_minus, again.axle_mass) == (car.corners, car.plus_minus, car.axle_mass)


def test_a_wheel_changes_alone_and_an_axle_as_one():
    car = read(on_axles())
    one = changed(car, {"fl.mass": "280 kg"})
    assert (one.corners["fl"].mass, one.corners["fr"].mass, one.axle_mass) == (280, 265, {})
    assert one.plus_minus["fr.mass"] == pytest.approx(4)
    both = changed(read(CAR), {"front.axle_mass": "560 kg"})
    assert masses(both) == MASSES | {"fl": 280, "fr": 280}


@pytest.mark.parametrize(
    ("text", "told"),
    [(on_axles(keep=tuple(MASSES)), "front.axle_mass: stands beside fl.mass and fr.mass"),
     (on_axles('"200 kg"', keep=("fl", "rl", "rr")), "leave nothing beside the 268 kg of fl"),
     (on_axles('"530"'), "front.axle_mass: '530' has no unit")],
)  # fmt: skip
def test_what_cannot_be_is_named(text, told):
    with pytest.raises(QuantityError, match=told):
        read(text)


def test_an_impossible_one_is_told_under_its_own_key():
    (one,) = all_faults(on_axles('"5000 kg"'), "c.toml", lambda data: car_from_data(data, "c.toml"), STAND_INS)
    assert (one.key, one.line) == ("front.axle_mass", CAR.splitlines().index("[front]") + 2)


@pytest.mark.parametrize(("each", "said"), [("530 kg", True), ("265 kg", False)])
def test_an_axles_mass_on_each_wheel_is_asked_about(each, said):
    text = on_axles().replace('axle_mass = "530 ± 8 kg"', f'mass = "{each}"')
    told = [str(d) for d in doubts(read(text)) if d.key == "front.mass"]
    assert [one.startswith("front.mass: 530 kg on each wheel are 1060 kg") for one in told] == [True] * said
