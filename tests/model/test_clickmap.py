"""Reading a click map: between its tables, beyond them, and refusing what it does not hold."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from dynoan.errors import CallError, QuantityError
from dynoan.model.clickmap import ClickMap, DirectionMap
from dynoan.model.shock import Adjuster, Shock

FEW = settings(max_examples=40, deadline=None)
SPEEDS = np.array([0.0, 0.05, 0.2, 0.5])
FORCES = np.array([[0.0, 900.0, 1500.0, 2100.0], [0.0, 700.0, 1200.0, 1800.0], [0.0, 500.0, 800.0, 1400.0]])
HALF = 0.1 * FORCES
C = DirectionMap(("lsc",), SPEEDS, FORCES, HALF, 0.5)
R = DirectionMap(("lsr",), SPEEDS, 2 * FORCES, HALF, 0.5)
MAP = ClickMap("gravel", (Adjuster("lsc", 2), Adjuster("lsr", 2)), C, R,
               ({"lsc": 0, "lsr": 1}, {"lsc": 1, "lsr": 1}, {"lsc": 1, "lsr": 0}))  # fmt: skip


@FEW
@given(st.lists(st.floats(-0.5, 0.5), min_size=1, max_size=9))
def test_between_the_tables_it_is_linear_in_speed_whatever_the_sign(speeds):
    force, half = C.at(speeds)
    for click in range(3):
        np.testing.assert_allclose(force[click], np.interp(np.abs(speeds), SPEEDS, FORCES[click]), atol=1e-9)
        np.testing.assert_allclose(half[click], np.interp(np.abs(speeds), SPEEDS, HALF[click]), atol=1e-9)


@FEW
@given(st.floats(0.5, 50.0), st.floats(0.5, 50.0))
def test_beyond_the_tables_the_slope_goes_on_and_the_doubt_grows(one, other):
    near, far = sorted((one, other))
    force, half = C.at([near, far])
    np.testing.assert_allclose(force[:, 0], FORCES[:, -1] + 2000.0 * (near - 0.5), rtol=1e-9)  # 600 N over 0.3 m/s
    assert (half[:, 1] >= half[:, 0]).all()
    np.testing.assert_allclose(half[:, 1], HALF[:, -1] + 1000.0 * (far - 0.5), rtol=1e-9, atol=1e-6)


@FEW
@given(st.integers(0, 2), st.integers(0, 2), st.floats(-1.0, 1.0))
def test_force_has_the_sign_of_its_direction_and_each_direction_its_own_adjuster(lsc, lsr, speed):
    force, half = (a[0] for a in MAP.force({"lsc": lsc, "lsr": lsr}, speed))
    side, click, sign = (C, lsc, 1) if speed >= 0 else (R, lsr, -1)
    expected, band = (a[click, 0] for a in side.at(speed))
    assert (force, half) == (sign * expected, band)
    assert force * speed >= 0


@FEW
@given(st.integers(0, 2), st.integers(0, 2), st.floats(0, 1))
def test_how_a_shock_counts_changes_the_number_and_not_the_force(lsc, lsr, speed):
    soft = Shock("A", (Adjuster("lsc", 2, "from soft"), Adjuster("lsr", 2)))
    counted = {"lsc": 2 - lsc, "lsr": lsr}
    assert MAP.from_counted(soft, counted) == {"lsc": lsc, "lsr": lsr}
    np.testing.assert_array_equal(MAP.force(MAP.from_counted(soft, counted), speed),
                                  MAP.force({"lsc": lsc, "lsr": lsr}, speed))  # fmt: skip


def test_an_adjuster_left_out_sits_where_most_tests_sat():
    assert MAP.complete({}) == {"lsc": 1, "lsr": 1}
    assert MAP.complete({"lsc": 2}) == {"lsc": 2, "lsr": 1}
    assert replace(MAP, tested=()).complete({}) == {"lsc": 0, "lsr": 0}


@pytest.mark.parametrize(
    ("clicks", "words"),
    [({"hsc": 1}, "pack gravel has no adjuster 'hsc'; it has lsc, lsr"),
     ({"lsc": 3}, "lsc=3 is outside 0 to 2 from closed"),
     ({"lsr": -1}, "lsr=-1 is outside 0 to 2")],
)  # fmt: skip
def test_a_click_it_does_not_hold_is_refused_with_what_it_holds(clicks, words):
    for ask in (MAP.complete, MAP.standing, lambda c: MAP.force(c, 0.1)):
        with pytest.raises(CallError, match=words):
            ask(clicks)


def test_a_click_as_a_shock_counts_is_refused_in_its_counting():
    shock = Shock("A", (Adjuster("lsc", 2, "from soft"),))
    with pytest.raises(QuantityError, match="lsc=3 is outside the clicks of shock A: 0 to 2"):
        MAP.from_counted(shock, {"lsc": 3})
    with pytest.raises(CallError, match="has no adjuster 'hsc' in its tests; it has lsc, lsr"):
        MAP.from_counted(shock, {"hsc": 1})


def test_a_setting_is_tested_between_or_outside():
    assert MAP.standing({"lsc": 0, "lsr": 1}) == "tested"
    assert MAP.standing({"lsc": 0, "lsr": 0}) == "between"
    assert MAP.standing({"lsc": 2}) == "outside"
    assert MAP.standing({"lsc": 1, "lsr": 2}) == "outside"
