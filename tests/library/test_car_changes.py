"""Keys of a car's file changed: what a key reaches, what stays, and what each wrong change is told."""

from __future__ import annotations

import pytest

from dynoan.errors import CallError, QuantityError
from dynoan.library.car_changes import changed
from dynoan.library.car_file import car_from_text
from tests.cli.launch_library import CAR

INCH_POUND = 175.12683524647636  #: N/m in a lb/in, from 4.4482216152605 N and 0.0254 m


@pytest.fixture
def car():
    return car_from_text(CAR, "cars/kestrel.toml")


class TestReach:
    def test_an_axle_reaches_both_its_corners_and_no_other(self, car):
        new = changed(car, {"front.spring": "275 lb/in"})
        assert new.corners["fl"].spring == pytest.approx(275 * INCH_POUND)
        assert new.corners["fr"].spring == new.corners["fl"].spring
        assert new.corners["rl"] == car.corners["rl"]

    def test_an_axle_replaces_what_its_corners_state_apart(self, car):
        apart = changed(car, {"fl.spring": "60 N/mm"})
        assert (apart.corners["fl"].spring, apart.corners["fr"].spring) == (60e3, 45e3)
        both = changed(apart, {"front.spring": "50 N/mm"})
        assert (both.corners["fl"].spring, both.corners["fr"].spring) == (50e3, 50e3)

    def test_clicks_that_are_not_named_stay(self, car):
        assert changed(car, {"rl.clicks": "lsc=4"}).corners["rl"].clicks == {"lsc": 4, "hsc": 2, "lsr": 2, "hsr": 2}
        assert changed(car, {"rear.clicks": "lsr=1"}).corners["rr"].clicks["lsr"] == 1

    def test_anti_squat_stands_once_however_it_is_written(self, car):
        at_axle, centre = changed(car, {"rear.antisquat": "80 %"}), '["1900 mm ahead", "420 mm up"]'
        assert at_axle.antisquat == pytest.approx(0.8)
        moved = changed(car, {"instant_centre": centre})
        assert moved.antisquat is None
        assert moved.instant_centre == pytest.approx((1.9, 0.42))

    def test_numbers_tables_and_new_keys(self, car):
        new = changed(car, {"front.shock_ratio": "0.8", "surfaces.wet.grip": "0.5", "targets.front.rebound.low": "0.6"})
        assert new.corners["fr"].shock_ratio == 0.8
        assert new.surfaces["wet"].grip == 0.5
        assert new.targets["front"].rebound.low == 0.6

    def test_nothing_changed_is_the_same_car(self, car):
        assert changed(car, {}) == car


class TestRefusals:
    @pytest.mark.parametrize(
        ("key", "value", "told"),
        [("front.sprng", "1 N/mm", "did you mean 'spring'"), ("front.spring", "52", "no unit"),
         ("fl.mass", "9 kg", "fl.mass"), ("wheelbase.x", "1", "holds no keys"), ("front..spring", "1", "no key")],
    )  # fmt: skip
    def test_what_is_wrong_is_named(self, car, key, value, told):
        with pytest.raises((CallError, QuantityError), match=told):
            changed(car, {key: value})
