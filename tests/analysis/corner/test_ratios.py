"""Damping ratios of a corner: definitions, bands, balance, and a free decay simulated by scipy."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from scipy.integrate import solve_ivp
from scipy.signal import argrelmax

from dynoan.analysis.corner.balance import balance
from dynoan.analysis.corner.equivalent_damping import in_swing
from dynoan.analysis.corner.quarter_car import QuarterCar
from dynoan.analysis.corner.rates import corner_rates
from dynoan.analysis.corner.ratio_measures import SwingMotion
from dynoan.analysis.corner.ratios import corner_ratios
from dynoan.analysis.corner.secants import ratio_curve
from dynoan.analysis.corner.vibration import log_decrement
from dynoan.analysis.road import velocity_spectrum
from dynoan.errors import QuantityError
from dynoan.model.car import Corner
from tests.analysis.laws import both, linear, power
from tests.checks import Check, checks
from tests.made import made_curve
from tests.oracles.quarter_car import road_response
from tests.oracles.random_motion import surface_sigma

FL = Corner("fl", 268.0, 34.0, 45e3, 0.95, 0.92, tyre=210e3)


@checks(["q12"])
def test_coefficient_at_the_wheel(published: Check):
    corner = Corner("rl", 290, 40, 30e3, 1.0, 0.7)
    found = corner_ratios(corner, both(linear(3000)))
    published.holds(found.compression.low.value * found.rates.critical_wheel)


@checks(["q13"])
def test_coefficient_at_the_shock(published: Check):
    published.holds(0.65 * corner_rates(Corner("rl", 290, 40, 30e3, 1.0, 0.7)).critical_shock)


@checks(["q14"])
def test_power_law_seen_at_the_wheel(published: Check):
    corner = Corner("rl", 290, 40, 30e3, 1.0, 0.7)
    wheel_velocity = np.array([0.1, 0.3])
    ratio = ratio_curve(corner, both(power(1000, 0.5)), 0.7 * wheel_velocity)
    force = ratio * corner_rates(corner).critical_wheel * wheel_velocity
    for value in force / wheel_velocity**0.5:
        published.holds(value)


@checks(["q20"])
def test_nominal_ratio_is_not_the_ratio_of_the_mode(published: Check):
    corner = Corner("rl", 317.5 + 45.4, 45.4, 22000, 1.0, 1.0, tyre=192e3)
    found = corner_ratios(corner, both(linear(1585.749034)))
    assert found.mean == pytest.approx(0.3, rel=1e-8)
    np.testing.assert_allclose(found.coupled, np.array(published.expected)[[1, 3]], rtol=published.rel)


def _peaks(corner: Corner, curve, start: float, cycles: float):
    """Peaks of the body let go on its spring, road and wheel at rest."""
    r, k, m = corner.shock_ratio, corner.wheel_rate, corner.sprung

    def law(_t, y):
        # y is up; the shock closes as the body goes down.
        return [y[1], (-k * y[0] + r * float(curve(-r * y[1]))) / m]

    period = 2 * np.pi * np.sqrt(m / k)
    t = np.linspace(0, cycles * period, 20_001)
    y = solve_ivp(law, (0, t[-1]), [start, 0.0], t_eval=t, rtol=1e-9, atol=1e-12).y[0]
    top = argrelmax(y)[0]
    # A parabola through three samples puts the top between them.
    a, b, c = y[top - 1], y[top], y[top + 1]
    return np.concatenate([[start], b - (a - c) ** 2 / (8 * (a - 2 * b + c))])


def test_free_decay_of_a_linear_damper_has_the_ratio():
    curve = both(linear(1500))
    ratio = corner_ratios(FL, curve).mean
    peaks = _peaks(FL, curve, 0.03, 3.5)
    assert len(peaks) >= 4
    np.testing.assert_allclose(np.log(peaks[:-1] / peaks[1:]), log_decrement(ratio), rtol=2e-4)


@pytest.mark.parametrize("start", [0.01, 0.02, 0.04])
def test_free_decay_of_a_nonlinear_damper_has_the_energy_equivalent_ratio(start):
    """A light corner that swings: the equivalent at the mean amplitude of a cycle tells its decay within 3 %."""
    soft = made_curve("gravel", lsc=20, hsc=20, lsr=20, hsr=20)
    corner = replace(FL, mass=500.0, spring=120e3)
    peaks = _peaks(corner, soft, start, 2.5)
    amplitude = np.sqrt(peaks[0] * peaks[1])
    omega = np.sqrt(corner.wheel_rate / corner.sprung)
    ratio = (
        in_swing(soft, amplitude=corner.shock_ratio * amplitude, omega=omega).damping
        / corner_rates(corner).critical_shock
    )
    assert np.log(peaks[0] / peaks[1]) == pytest.approx(float(log_decrement(ratio)), rel=0.03)


def test_swings_are_at_the_shock_while_amplitudes_are_at_the_wheel():
    """A square law: the equivalent goes with the peak velocity of the shock, motion ratio included."""
    law = both(power(8000, 2))
    found = corner_ratios(FL, law, motion=SwingMotion(body_amplitude=0.01, hop_amplitude=0.002))
    rates = found.rates
    for banded, amplitude, hertz, unit in (
        (found.compression.body, 0.01, rates.tyre_frequency, 1 / rates.critical_shock),
        (found.rebound.hop, 0.002, rates.hop_frequency, 0.92**2 / rates.critical_hop),
    ):
        closed = 8 * 8000 * 2 * np.pi * hertz * 0.92 * amplitude / (3 * np.pi)
        assert banded.value == pytest.approx(closed * unit, rel=1e-6)


def test_bands_are_those_of_the_curve():
    found = corner_ratios(FL, made_curve())
    for banded in (found.compression.low, found.rebound.high, found.compression.body, found.rebound.random):
        assert banded.low == pytest.approx(0.97 * banded.value, rel=1e-6)
        assert banded.high == pytest.approx(1.03 * banded.value, rel=1e-6)


def test_speeds_beyond_the_data_are_flagged():
    found = corner_ratios(FL, made_curve(), 0.05, 0.55)
    assert found.compression.high.extrapolated
    assert not found.compression.low.extrapolated
    fast = corner_ratios(FL, made_curve(), motion=SwingMotion(body_amplitude=0.06, sigma=0.3))
    assert fast.compression.body.extrapolated
    assert fast.compression.random.extrapolated


def test_same_ratio_after_weight_and_spring():
    """Same ratio after a change of k and m means c scales with the root of k·m."""
    changed = replace(FL, mass=34.0 + 234.0 * 0.9, spring=45e3 * 1.2)
    curve = both(linear(3000))
    scaled = both(linear(3000 * np.sqrt(0.9 * 1.2)))
    assert corner_ratios(changed, scaled).mean == pytest.approx(corner_ratios(FL, curve).mean, rel=1e-12)


def test_friction_and_gas_rate_count_where_stated():
    found = corner_ratios(FL, made_curve())
    without = corner_ratios(FL, replace(made_curve(), friction=float("nan")))
    assert found.friction > 0
    assert without.friction is None
    stiff = corner_rates(replace(FL, gas_rate=2000.0))
    assert stiff.wheel_rate == corner_rates(FL).wheel_rate
    assert stiff.rate == pytest.approx(stiff.wheel_rate + 2000 * 0.92**2)
    assert stiff.frequency > corner_rates(FL).frequency


def test_without_a_tyre_rate_what_needs_it_is_none():
    found = corner_ratios(replace(FL, tyre=None), made_curve())
    assert found.compression.hop is None
    assert found.coupled is None
    assert found.rates.ride_rate is found.rates.grip is found.rates.critical_hop is None


def test_balance():
    a = corner_ratios(FL, both(linear(3000), linear(4500)))
    b = corner_ratios(replace(FL, name="rl"), both(linear(1500), linear(4500)))
    found = balance({"fl": a, "fr": a, "rl": b, "rr": a})
    assert found.front_rear["compression", "low"] == pytest.approx(2 / 1.5)
    assert found.left_right["rear", "compression", "high"] == pytest.approx(0.5)
    assert found.left_right["front", "rebound", "high"] == pytest.approx(1.0)
    assert found.rebound_compression["rl", "low"] == pytest.approx(3.0)


def test_sigma_on_a_surface_of_a_linear_damper():
    spectrum = velocity_spectrum(256e-6, 20)
    at_wheel = 3000 * FL.shock_ratio**2
    quarter = QuarterCar(FL.sprung, FL.unsprung, FL.wheel_rate, 210e3, at_wheel)
    expected = FL.shock_ratio * road_response(quarter, spectrum).velocity
    assert surface_sigma(FL, both(linear(3000)), spectrum) == pytest.approx(expected, rel=1e-6)
    with pytest.raises(QuantityError, match=r"fl\.tyre is missing"):
        surface_sigma(replace(FL, tyre=None), both(linear(3000)), spectrum)


def test_impossible_velocity_is_refused():
    with pytest.raises(QuantityError, match="low velocity"):
        corner_ratios(FL, made_curve(), 0.0, 0.25)
