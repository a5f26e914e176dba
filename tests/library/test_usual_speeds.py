"""Where a car's file names no speeds, ratios are told at round ones in the units of its library."""

from __future__ import annotations

import pytest

from dynoan.library.car_file import car_from_text
from tests.library.made import CAR

INCH = 0.0254  # m, exactly: international yard and pound agreement, 1959
TARGETS = "\n[targets.front]\nrebound = { low = 0.6, high = 0.4 }\n"


@pytest.mark.parametrize(("units", "speeds"), [("metric", (0.05, 0.25)), ("us", (2 * INCH, 10 * INCH))])
@pytest.mark.parametrize("text", [CAR.partition("[targets")[0], CAR.partition("[targets")[0] + TARGETS])
def test_usual_speeds_are_round_in_the_librarys_units(units, speeds, text):
    targets = car_from_text(text, "c.toml", units=units).targets_of("front")
    assert (targets.low_velocity, targets.high_velocity) == pytest.approx(speeds)


def test_speeds_that_the_file_names_stay():
    text = CAR.partition("[targets")[0] + TARGETS + 'low_velocity = "40 mm/s"\n'
    targets = car_from_text(text, "c.toml", units="us").targets_of("front")
    assert (targets.low_velocity, targets.high_velocity) == pytest.approx((0.04, 10 * INCH))
