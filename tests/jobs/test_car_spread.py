"""What the ± of a car's values makes of damping ratios, against draws of the values and the formula alone."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from dynoan.analysis.corner.ratio_measures import SwingMotion
from dynoan.analysis.corner.ratios import corner_ratios, direction_ratios
from dynoan.errors import QuantityError
from dynoan.jobs.car_spread import car_ends, ratio_spread, widened_ratios
from dynoan.jobs.cars import doubted
from dynoan.library.car_file import car_from_text
from dynoan.model.car import HIGH_VELOCITY, LOW_VELOCITY
from tests.analysis.launch_cars import linear_curve
from tests.cli.launch_library import CAR

COEFFICIENT = 2500.0
SAID = {"front.spring": 0.05, "front.shock_ratio": 0.02, "fl.mass": 0.03}  #: ± as a share of the value


def unsure():
    text = CAR.replace('spring = "45 N/mm"', 'spring = "45 ± 2.25 N/mm"', 1)
    text = text.replace("shock_ratio = 0.92", 'shock_ratio = "0.92 ± 0.0184"', 1)
    return car_from_text(text.replace('"268 kg"', '"268 ± 8.04 kg"', 1), "cars/kestrel.toml")


def drawn(count=20_000, seed=1):
    """Damping ratios of a front left corner whose true values are drawn from what its file says of them."""
    corner, rng = unsure().corners["fl"], np.random.default_rng(seed)
    spring, ratio, mass = (1 + SAID[key] / 1.96 * rng.standard_normal(count) for key in SAID)
    sprung = corner.mass * mass - corner.unsprung
    critical = 2 * np.sqrt(corner.spring * spring * corner.spring_ratio**2 * sprung)
    return COEFFICIENT * (corner.shock_ratio * ratio) ** 2 / critical


def sides(corner, curve):
    found = corner_ratios(corner, curve)
    assert direction_ratios(corner, curve, LOW_VELOCITY, HIGH_VELOCITY, SwingMotion()) == {
        "compression": found.compression, "rebound": found.rebound,
    }  # fmt: skip
    return {"compression": found.compression, "rebound": found.rebound}


def test_without_bands_the_values_are_the_same():
    corner, curve = unsure().corners["fl"], linear_curve(COEFFICIENT)
    at = (LOW_VELOCITY, HIGH_VELOCITY, SwingMotion())
    bare, whole = (direction_ratios(corner, curve, *at, bands=bands) for bands in (False, True))
    for direction, side in whole.items():
        for name in ("low", "high", "body", "random"):
            one = getattr(bare[direction], name)
            assert one.low == one.high == one.value == getattr(side, name).value


class TestRatios:
    def test_what_is_said_is_read(self):
        assert set(unsure().plus_minus) == set(SAID)

    def test_as_wide_as_draws_of_the_values(self):
        truth = drawn()
        half = (np.quantile(truth, 0.975) - np.quantile(truth, 0.025)) / 2
        assert ratio_spread(unsure(), "fl") == pytest.approx(half / np.mean(truth), rel=0.05)

    def test_of_draws_the_band_holds_so_many(self):
        """The curve is sure, the car is not: 95 of 100 true cars lie in the band."""
        car, curve = unsure(), linear_curve(COEFFICIENT)
        found = corner_ratios(car.corners["fl"], curve)
        wide = widened_ratios(found, car_ends(car), lambda corner: sides(corner, curve)).compression.low
        truth = drawn(seed=2)
        assert np.mean((truth > wide.low) & (truth < wide.high)) == pytest.approx(0.95, abs=0.01)

    def test_a_corner_that_nobody_doubts_stays(self):
        car, curve = unsure(), linear_curve(COEFFICIENT)
        found = corner_ratios(car.corners["rl"], curve)
        assert widened_ratios(found, car_ends(car), lambda corner: sides(corner, curve)) is found
        assert ratio_spread(car, "rl") == 0.0

    def test_what_both_sides_share_does_not_count(self):
        without = replace(unsure(), plus_minus={"front.spring": 2250.0})
        assert ratio_spread(without, "fl", without=("spring",)) == 0.0
        assert ratio_spread(without, "fl") == pytest.approx(SAID["front.spring"] / 2, rel=0.06)


class TestTooWide:
    """A ± that reaches what no car can be: refused, or said while the band stays as wide as a car allows."""

    @staticmethod
    def with_mass(text):
        return car_from_text(CAR.replace('"268 kg"', f'"{text}"', 1), "cars/kestrel.toml")

    def test_as_much_as_the_value_itself_is_refused(self):
        with pytest.raises(QuantityError, match="as much as the value itself"):
            self.with_mass("268 ± 300 kg")
        with pytest.raises(QuantityError, match="as much as the value itself"):
            car_from_text(CAR.replace("shock_ratio = 0.92", 'shock_ratio = "0.92 ± 1"', 1), "cars/kestrel.toml")

    def test_what_may_be_below_zero_may_be_less_sure_than_it_is_large(self):
        text = CAR.replace('antisquat = "45 %"', 'antisquat = "10 ± 40 %"')
        assert car_from_text(text, "cars/kestrel.toml").plus_minus["antisquat"] == pytest.approx(0.4)

    def test_an_end_below_the_unsprung_mass_is_said_and_still_widens(self):
        car, narrow = self.with_mass("268 ± 255 kg"), self.with_mass("268 ± 100 kg")
        assert "fl.mass: its ± reaches what no car can be" in " ".join(doubted(car))
        assert not [said for said in doubted(narrow) if "±" in said]
        assert ratio_spread(car, "fl") > ratio_spread(narrow, "fl") > 0
