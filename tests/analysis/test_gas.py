"""The gas behind the rod, against energy and the limits of the law."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from dynoan.analysis import gas
from dynoan.analysis.clickmap.at_clicks import curve_at
from dynoan.analysis.launch.from_car import half_car
from dynoan.errors import QuantityError
from dynoan.units import ATMOSPHERE
from tests.analysis.launch_cars import kestrel
from tests.made import made_map

FEW = settings(max_examples=40, deadline=None)
CHARGE, ROD, VOLUME = st.floats(1e5, 3e6), st.floats(0.008, 0.03), st.floats(5e-5, 5e-4)
NO_SIZE = [0.0, -1e-3, math.nan, -math.inf]


@FEW
@given(CHARGE, ROD, VOLUME, st.floats(0.0, 0.05), st.floats(1.0, 1.4))
def test_the_rate_is_what_the_force_gains(charge, rod, volume, travel, exponent):
    case = {"charge": charge, "rod": rod, "volume": volume, "exponent": exponent}
    step = 1e-6
    gained = gas.gas_force(travel=travel + step, **case) - gas.gas_force(travel=travel - step, **case)
    assert float(gas.gas_rate(travel=travel, **case)) == pytest.approx(float(gained) / (2 * step), rel=1e-4)


@FEW
@given(CHARGE, ROD, VOLUME)
def test_the_work_of_pressing_it_slowly_is_that_of_a_gas_of_one_temperature(charge, rod, volume):
    """Isothermal work p·V·ln(V/V'), less that of the air outside: textbook thermodynamics."""
    travel = np.linspace(0.0, 0.05, 2001)
    force = gas.gas_force(charge=charge, rod=rod, volume=volume, travel=travel, exponent=1.0)
    swept = math.pi / 4 * rod**2 * 0.05
    expected = (charge + ATMOSPHERE) * volume * math.log(volume / (volume - swept)) - ATMOSPHERE * swept
    assert np.trapezoid(force, travel) == pytest.approx(expected, rel=1e-5)


@FEW
@given(CHARGE, ROD, st.floats(0.0, 0.1))
def test_a_very_large_volume_is_a_pressure_that_stays(charge, rod, travel):
    stays = gas.gas_force(charge=charge, rod=rod, travel=travel)
    assert float(gas.gas_force(charge=charge, rod=rod, volume=1e3, travel=travel)) == pytest.approx(
        float(stays), rel=1e-6
    )
    assert float(gas.charge_from_force(stays, rod)) == pytest.approx(charge)
    assert float(gas.gas_rate(charge=charge, rod=rod, volume=math.inf, travel=travel)) == 0.0


@pytest.mark.parametrize("size", NO_SIZE)
def test_a_size_that_is_none_is_refused_and_no_volume_that_is_not_known_is_endless(size):
    for ask in (gas.gas_force, gas.gas_rate):
        with pytest.raises(QuantityError, match="gas volume must be a finite number above zero"):
            ask(charge=1e6, rod=0.014, volume=size, travel=0.01)
        with pytest.raises(QuantityError, match="rod diameter must be a finite number above zero"):
            ask(charge=1e6, rod=size, volume=1e-4)
    with pytest.raises(QuantityError, match="rod diameter"):
        gas.charge_from_force(100.0, size)


def test_a_rod_that_fills_the_gas_is_refused_whichever_of_several_travels_does():
    with pytest.raises(QuantityError, match="the rod fills the gas volume of 10 cm³"):
        gas.gas_force(charge=1e6, rod=0.02, volume=1e-5, travel=[0.0, 0.01, 0.04])


@FEW
@given(CHARGE, st.floats(-40, 120), st.floats(-40, 120), st.floats(-40, 120))
def test_warming_by_way_of_another_temperature_is_warming_at_once(charge, one, other, third):
    by_way = gas.charge_at(gas.charge_at(charge, measured=one, wanted=other), measured=other, wanted=third)
    assert float(by_way) == pytest.approx(float(gas.charge_at(charge, measured=one, wanted=third)), rel=1e-9, abs=1e-3)
    assert float(gas.charge_at(charge, measured=one, wanted=one)) == pytest.approx(charge)


def test_twice_the_absolute_temperature_is_twice_the_absolute_pressure():
    hot = gas.charge_at(ATMOSPHERE, measured=-273.15 + 200, wanted=-273.15 + 400)
    assert float(hot) == pytest.approx(3 * ATMOSPHERE)  # (1 + 1)·2 − 1


def test_the_gas_of_a_shock_is_a_spring_as_stated_or_as_the_sweeps_tell_it():
    """What the car's file states comes first; a map hands on what its curves tell; none of it is none."""
    car = kestrel()
    stated = replace(car, corners=car.corners | {"fl": replace(car.corners["fl"], gas_rate=900.0)})
    told = curve_at(replace(made_map(), gas_rate=350.0), {"lsc": 2, "hsc": 2, "lsr": 2, "hsr": 2})
    curves = dict.fromkeys(car.corners, told)
    rates = {name: corner.gas_rate for name, corner in gas.with_gas(stated, curves).corners.items()}
    assert rates == {"fl": 900.0, "fr": 350.0, "rl": 350.0, "rr": 350.0}
    assert gas.spring_of_gas(car.corners["fl"], replace(told, gas_rate=math.nan)) == 0.0
    half, bare = half_car(stated, curves), half_car(stated)
    assert half.front.gas - bare.front.gas == pytest.approx(350.0 * car.corners["fr"].shock_ratio ** 2)
    assert any("0.35 N/mm a shock at the front" in note for note in half.notes)
    assert any("adds no spring" in note for note in bare.notes)
