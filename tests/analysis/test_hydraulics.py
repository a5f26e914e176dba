"""Hydraulics and gas against published and derived values; each names its source where it fails."""

from __future__ import annotations

import numpy as np
import pytest

from dynoan.analysis import gas as gas_law
from dynoan.errors import QuantityError
from tests.checks import check
from tests.oracles import hydraulics as h


def test_orifice_flow():
    c = check("h01")
    i = c.inputs
    c.holds(h.orifice_flow(area=i["area_m2"], pressure=i["dp_pa"], discharge=i["Cd"], density=i["density_kg_m3"]))


def test_the_usual_discharge_coefficient_lies_with_theory_and_the_standard():
    """A slit's contraction (h02) and a plate orifice by ISO 5167-2 (h03)."""
    for name in ("h02", "h03"):
        assert abs(h.DISCHARGE - check(name).expected) < 0.015


def test_bleed_force():
    c = check("h04")
    i = c.inputs
    c.holds(h.bleed_force(velocity=i["velocity_m_s"], piston=i["piston_m2"], bleed=i["bleed_m2"], discharge=i["Cd"],
                          density=i["density_kg_m3"]))  # fmt: skip


def test_bleed_area_undoes_bleed_force():
    area = float(h.bleed_area(unit_speed=0.08, piston=1e-3))
    np.testing.assert_allclose(h.bleed_force(velocity=0.08, piston=1e-3, bleed=area), 1000.0)


@pytest.mark.parametrize("name", ["h05", "h06"])
def test_annular_leak(name):
    c = check(name)
    i = c.inputs
    c.holds(h.annular_leak(diameter=i["diameter_m"], clearance=i["clearance_m"], length=i["length_m"],
                           viscosity=i["viscosity_pa_s"], pressure=i["dp_pa"]))  # fmt: skip


def test_an_off_centre_piston_leaks_more():
    c = check("h07")
    c.holds(h.eccentric_factor(c.inputs["eccentricity"]))


def test_oil_through_two_points():
    c = check("h08")
    i = c.inputs
    ab = h.oil_constants((40, i["v40_cst"]), (100, i["v100_cst"]), zero=i["kelvin_offset"])
    c.holds([*ab, float(h.oil_viscosity(80, ab, zero=i["kelvin_offset"]))])


def test_oil_at_other_temperatures():
    c = check("h09")
    ab = h.oil_constants((40, c.inputs["v40_cst"]), (100, c.inputs["v100_cst"]))
    c.holds(h.oil_viscosity(c.inputs["temperature_c"], ab))


def test_gas_force():
    c = check("h10")
    c.holds(gas_law.gas_force(charge=c.inputs["charge_gauge_pa"], rod=c.inputs["rod_m"]))
    c = check("h11")
    i = c.inputs
    c.holds(gas_law.gas_force(charge=i["charge_gauge_pa"], rod=i["rod_m"], volume=i["gas_volume_m3"],
                              travel=i["travel_m"], exponent=i["exponent"]))  # fmt: skip


def test_gas_rate():
    c = check("h12")
    i = c.inputs
    c.holds(gas_law.gas_rate(charge=i["charge_gauge_pa"], rod=i["rod_m"], volume=i["gas_volume_m3"],
                             travel=i["travel_m"], exponent=i["exponent"]))  # fmt: skip


def test_gas_rate_is_the_slope_of_gas_force():
    gas = {"charge": 1e6, "rod": 0.014, "volume": 6e-5, "exponent": 1.3}
    slope = (gas_law.gas_force(travel=0.031, **gas) - gas_law.gas_force(travel=0.029, **gas)) / 0.002
    np.testing.assert_allclose(gas_law.gas_rate(travel=0.03, **gas), slope, rtol=1e-4)


def test_gas_spring_of_a_piston():
    """h13 gives the piston of a gas spring of a stated rate; the rate of that piston must come out again."""
    i = check("h13").inputs
    area = check("h13").expected
    rod = float(np.sqrt(4 * area / np.pi))
    charge = i["pressure_abs_pa"] - gas_law.ATMOSPHERE
    rate = gas_law.gas_rate(charge=charge, rod=rod, volume=area * i["column_m"], exponent=i["exponent"])
    np.testing.assert_allclose(rate, i["stiffness_n_m"], rtol=1e-6, err_msg=check("h13").source)


def test_gas_pressure_over_temperature():
    c = check("h14")
    c.holds(gas_law.charge_at(c.inputs["gauge_pa"], measured=c.inputs["t1_c"], wanted=c.inputs["t2_c"]))


def test_charge_from_force_undoes_gas_force():
    np.testing.assert_allclose(gas_law.charge_from_force(gas_law.gas_force(charge=8e5, rod=0.014), 0.014), 8e5)


def test_oil_column():
    c = check("h15")
    i = c.inputs
    c.holds(h.oil_column_rate(area=i["area_m2"], bulk_modulus=i["bulk_modulus_pa"], volume=i["volume_m3"]))


@pytest.mark.parametrize(
    "call",
    [
        lambda: h.orifice_flow(area=0, pressure=1e5),
        lambda: h.orifice_flow(area=1e-6, pressure=-1.0),
        lambda: h.eccentric_factor(1.2),
        lambda: h.oil_constants((40, 0.2), (100, 5)),
        lambda: gas_law.gas_force(charge=1e6, rod=0.014, volume=6e-6, travel=0.05),
        lambda: gas_law.rod_area(-0.01),
    ],
)
def test_impossible_sizes_are_refused(call):
    with pytest.raises(QuantityError):
        call()
