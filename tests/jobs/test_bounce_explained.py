"""What a prediction allows for, and what is offered where a push swings otherwise."""

from __future__ import annotations

from dataclasses import replace
from types import SimpleNamespace

import numpy as np
import pytest

from dynoan.analysis.bounce.limits import SwingFit
from dynoan.jobs.bounce.car import PushedCorners, allowed, car_spread
from dynoan.jobs.bounce.explained import explanations
from dynoan.library.car_file import car_from_text
from dynoan.model.banded import Banded
from tests.cli.launch_library import CAR

LAST = 20
SURE = Banded(1.0, 1.0, 1.0)
CLICKS = {"lsc": 5, "lsr": 8}


def curve(clicks):
    """Each click in takes a share of what its direction has."""
    up, down = (2400.0 * 0.94 ** clicks[name] for name in CLICKS)

    def of(v):
        return np.where(v > 0, up, 1.5 * down) * v

    return SimpleNamespace(force=of, friction=14.0)


class Known:
    """A library that has a curve for all clicks."""

    def corner_shock(self, _corner, _pack):
        return SimpleNamespace(adjusters=tuple(SimpleNamespace(name=n, clicks=LAST) for n in CLICKS))

    def corner_curve(self, _car, _corner, clicks, pieces):
        return curve(clicks).force


def pushed(**said):
    text = CAR
    for key, (bare, unsure) in said.items():
        assert bare in text, key
        text = text.replace(bare, unsure, 1)
    car = car_from_text(text, "cars/kestrel.toml")
    corner = replace(car.corners["fl"], clicks=CLICKS)
    law = curve(CLICKS)

    class Law:
        friction = law.friction

        def __call__(self, v):
            return law.force(np.asarray(v))

        def band(self, v):
            return 0.99 * law.force(v), 1.01 * law.force(v)

    return PushedCorners(car, (corner,), (Law(),), "front")


def factor(value):
    return Banded(value, value * 0.95, value * 1.05)


def offered(damped, frequency=SURE, **said):
    return {e.what: e for e in explanations(Known(), pushed(**said), frequency, factor(damped))}


def test_clicks_stand_first_and_a_turn_of_both_screws_is_one_of_them():
    found = offered(0.94**6)
    assert [e.kind for e in found.values()] == ["clicks", "clicks", "turn", ""]
    assert found["lsc and lsr clicks, all turned alike"].value == 6
    assert "sprung mass" not in found


def test_what_no_car_can_be_is_not_offered():
    found = offered(0.5, factor(0.45))
    assert not set(found) & {"sprung mass", "spring rate", "spring ratio", "shock ratio"}


def test_a_frequency_that_no_car_explains_says_nothing_of_the_clicks():
    assert offered(0.94**6, factor(0.5))["lsc and lsr clicks, all turned alike"].value == 6


def test_what_a_file_gives_with_its_plus_minus_is_not_far_outside_of_it():
    slower = factor(0.95)
    assert {"sprung mass", "spring rate"} <= set(offered(1.0, slower))
    stated = offered(1.0, slower, spring=('spring = "45 N/mm"', 'spring = "45 ± 0.9 N/mm"'))
    assert "spring rate" not in stated
    assert "sprung mass" in stated


def test_the_cars_own_plus_minus_is_allowed_for():
    sure, unsure = pushed(), pushed(ratio=("shock_ratio = 0.92", 'shock_ratio = "0.92 ± 0.03"'))
    assert car_spread(sure) == (0.0, 0.0)
    free, ratio = car_spread(unsure)
    assert free == pytest.approx(0.0, abs=1e-9)
    assert ratio == pytest.approx(2 * np.log(0.95 / 0.92), rel=0.15)
    masses = car_spread(pushed(mass=('"268 kg"', '"268 ± 8 kg"')))
    assert masses[0] == pytest.approx(0.5 * 8 / 234, rel=0.2)


def test_a_reading_that_is_off_the_law_widens_the_prediction():
    """What the fit of two slopes makes of this very curve is known: by how much it is off is open."""
    one = pushed()
    true = one.made().free_and_ratio[1]

    def width(value):
        band = Banded(value, value, value)
        fit = SwingFit(band, band, band, band, band, True, np.zeros(1), (), (), 0.0, 0.01, (), 0.01)
        found = allowed(fit, one).ratio
        return np.log(found.high / found.low)

    assert width(true) < 0.2
    assert width(0.8 * true) > 2 * np.log(1 / 0.8)
    assert (
        allowed(
            SwingFit(*[Banded(true, true, true)] * 5, True, np.zeros(1), (), (), 0.0, 0.01, (), 0.01), one
        ).ratio.low
        < true
    )
