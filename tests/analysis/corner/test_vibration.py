"""One mass, one spring, one damper: textbook problems, laws of scaling, and a free decay simulated by scipy."""

from __future__ import annotations

import numpy as np
import pytest
from scipy.integrate import solve_ivp
from scipy.optimize import brentq

from dynoan.analysis.corner.vibration import critical_damping, log_decrement, natural_frequency, overshoot, series_rate
from dynoan.errors import QuantityError
from tests.checks import Check, checks


def _ratio_of(decrement: float) -> float:
    return brentq(lambda z: float(log_decrement(z)) - decrement, 1e-9, 1 - 1e-9, xtol=1e-14)


def _over_road(mass: float, rate: float, damping: float, omega: float) -> float:
    return abs((rate + 1j * omega * damping) / (rate - mass * omega**2 + 1j * omega * damping))


def _decay(mass: float, rate: float, damping: float, time: float):
    def law(_t, y):
        return [y[1], -(rate * y[0] + damping * y[1]) / mass]

    return solve_ivp(law, (0, time), [1.0, 0.0], method="DOP853", rtol=1e-12, atol=1e-14, dense_output=True)


@checks(["s01"])
def test_critical_damping(published: Check):
    published.holds(critical_damping(mass=8, rate=5400))


@checks(["s02"])
def test_damping_ratio(published: Check):
    published.holds(40 / critical_damping(mass=8, rate=5400))


@checks(["s03"])
def test_decrement_and_ratio_of_peaks(published: Check):
    delta = log_decrement(published.inputs["damping_ratio"])
    published.holds([delta, np.exp(delta)])


@checks(["s04"])
def test_decrement_from_coefficients(published: Check):
    published.holds(log_decrement(40 / 420))


@checks(["s05"])
def test_motorcycle_from_period_and_half_cycle(published: Check):
    delta = 2 * np.log(1 / published.inputs["amplitude_ratio_half_cycle"])
    zeta = _ratio_of(delta)
    omega = 2 * np.pi / 2.0 / np.sqrt(1 - zeta**2)
    critical = critical_damping(mass=200, rate=200 * omega**2)
    published.holds([delta, zeta, omega, 200 * omega**2, critical, zeta * critical])


@checks(["s06", "s07"])
def test_amplitude_over_sinusoidal_road(published: Check):
    given = published.inputs
    omega = 2 * np.pi * given["speed_km_h"] / 3.6 / given["wavelength_m"]
    damping = 0.5 * float(critical_damping(mass=1200, rate=400e3))
    published.holds(0.05 * _over_road(1200, 400e3, damping, omega))


@checks(["s08"])
def test_ratio_from_overshoot_and_peak_time(published: Check):
    zeta = brentq(lambda z: float(overshoot(z)) - 0.7, 1e-6, 0.99, xtol=1e-14)
    published.holds([zeta, np.pi / 1.25 / np.sqrt(1 - zeta**2)])


@checks(["s09"])
def test_step_response(published: Check):
    damped = 5 * np.sqrt(1 - 0.36)
    published.holds([overshoot(0.6), np.pi / damped, (np.pi - np.arccos(0.6)) / damped])


@checks(["s10"])
def test_settling_rule_and_true_time(published: Check):
    mass, rate = 1.0, 25.0
    omega = float(natural_frequency(mass=mass, rate=rate))
    found = _decay(mass, rate, 0.6 * float(critical_damping(mass=mass, rate=rate)), 3.0)
    t = np.linspace(0, 3, 300_001)
    swing = np.abs(found.sol(t)[0])
    true = [t[np.flatnonzero(swing > share)[-1]] for share in (0.02, 0.05)]
    published.holds([4 / (0.6 * omega), true[0], 3 / (0.6 * omega), true[1]])


@checks(["s11"])
def test_decrements(published: Check):
    published.holds(log_decrement(published.inputs["damping_ratio"]))


@checks(["s12"])
def test_overshoots(published: Check):
    published.holds(overshoot(published.inputs["damping_ratio"]))


@checks(["s13"])
def test_peaks_two_cycles_apart(published: Check):
    delta = np.log(17.2 / 3.2) / 2
    zeta = _ratio_of(delta)
    under = np.sqrt(1 - zeta**2)
    period = 2 * np.pi / (natural_frequency(mass=76, rate=30e3) * under)
    published.holds([delta, zeta, zeta * critical_damping(mass=76, rate=30e3), under, period])


@checks(["s14"])
def test_peak_ratio_of_three_halves(published: Check):
    delta = np.log(1.5)
    zeta, rough = _ratio_of(delta), delta / (2 * np.pi)
    published.holds([delta, zeta, zeta * critical_damping(mass=6, rate=5400), rough, 100 * (rough / zeta - 1)])


@checks(["s15"])
def test_critically_damped_mass_creeps_back(published: Check):
    mass, rate = 234.0, 40612.5
    omega = float(natural_frequency(mass=mass, rate=rate))
    found = _decay(mass, rate, float(critical_damping(mass=mass, rate=rate)), 8 / omega)
    published.holds(omega * brentq(lambda t: found.sol(t)[0] - 0.02, 0.0, 8 / omega, xtol=1e-14))


@checks(["s16"])
def test_level_acceleration_at_the_fixed_point(published: Check):
    mass, rate = 234.0, 40612.5
    omega = float(natural_frequency(mass=mass, rate=rate)) * np.sqrt(2)

    def slope(zeta: float) -> float:
        damping = zeta * float(critical_damping(mass=mass, rate=rate))
        up, down = (w**2 * _over_road(mass, rate, damping, w) for w in (omega * (1 + 1e-5), omega * (1 - 1e-5)))
        return up - down

    published.holds(brentq(slope, 0.1, 0.9))


@checks(["s17"])
def test_same_ratio_after_spring_and_weight(published: Check):
    published.holds(critical_damping(mass=0.9 * 234, rate=1.2 * 40e3) / critical_damping(mass=234, rate=40e3))


def test_four_times_the_rate_doubles_critical_damping():
    assert critical_damping(mass=234, rate=160e3) == pytest.approx(2 * critical_damping(mass=234, rate=40e3), rel=1e-14)


def test_a_mass_at_ratio_one_or_above_has_no_second_peak():
    assert log_decrement(1.0) == np.inf
    assert log_decrement(1.7) == np.inf
    assert overshoot(1.0) == 0.0


def test_a_rigid_tyre_leaves_the_rate():
    assert series_rate(40e3, 1e15) == pytest.approx(40e3, rel=1e-10)


@pytest.mark.parametrize("bad", [0.0, -1.0, np.inf])
def test_impossible_numbers_are_named(bad):
    with pytest.raises(QuantityError, match="mass must be"):
        critical_damping(mass=bad, rate=1.0)
    with pytest.raises(QuantityError, match="rate must be"):
        natural_frequency(mass=1.0, rate=[1.0, bad])
