"""Energy-equivalent and random-motion damping against closed forms and simulated decays."""

from __future__ import annotations

import numpy as np
import pytest
from scipy.integrate import solve_ivp

from dynoan.analysis.corner.equivalent_damping import in_swing, mean_damping
from dynoan.errors import QuantityError
from tests.analysis.laws import both, knee, linear, power
from tests.checks import Check, checks
from tests.oracles.random_motion import in_random_motion

KNEE = both(knee(6000, 1200, 0.05))
TWO = both(linear(1500), linear(3500))


def _peak(law, velocity: float):
    return in_swing(law, amplitude=velocity / 10, omega=10)


def _coulomb(force: float):
    return lambda v: force * np.sign(v)


@checks(["e01"])
def test_energy_of_a_linear_damper(published: Check):
    published.holds(np.pi * in_swing(both(linear(2000)), amplitude=0.025, omega=10).damping * 10 * 0.025**2)


@checks(["e02"])
def test_friction_in_a_swing(published: Check):
    published.holds(in_swing(_coulomb(50), amplitude=0.02, omega=10).damping)


@checks(["e03"])
def test_square_law_in_a_swing(published: Check):
    published.holds(in_swing(both(power(5000, 2)), amplitude=0.05, omega=10).damping)


@checks(["e04"])
def test_power_laws_in_a_swing(published: Check):
    laws = [both(power(1000, m)) if m else _coulomb(1000) for m in published.inputs["exponent_m"]]
    scale = [1000 * 0.4 ** (m - 1) for m in published.inputs["exponent_m"]]
    published.holds([_peak(law, 0.4).damping / s for law, s in zip(laws, scale, strict=True)])


@checks(["e05"])
def test_power_law_worked(published: Check):
    published.holds(in_swing(both(power(800, 0.5)), amplitude=0.02, omega=10).damping)


@checks(["e06"])
def test_asymmetric_damper(published: Check):
    found = _peak(TWO, 0.5)
    published.holds(found.damping)
    assert (found.compression, found.rebound) == (pytest.approx(1500), pytest.approx(3500))


@checks(["e07"])
def test_it_pulls_the_body_down(published: Check):
    published.holds(_peak(TWO, 0.5).mean_force)


@checks(["e08"])
def test_knee_in_a_swing(published: Check):
    published.holds([_peak(KNEE, v).damping for v in published.inputs["peak_velocity_m_s"]])


@checks(["e09"])
def test_secant_of_the_same_curve(published: Check):
    published.holds(KNEE.secant(published.inputs["peak_velocity_m_s"]))


@checks(["e10"])
def test_knee_in_random_motion(published: Check):
    published.holds([in_random_motion(KNEE, s).damping for s in published.inputs["sigma_m_s"]])


@checks(["e11"])
def test_friction_in_random_motion(published: Check):
    published.holds(in_random_motion(_coulomb(50), 0.2).damping)


@checks(["e12"])
def test_square_law_in_random_motion(published: Check):
    published.holds(in_random_motion(both(power(5000, 2)), 0.2).damping)


@checks(["e13"])
def test_power_laws_in_random_motion(published: Check):
    laws = [both(power(1000, m)) if m else _coulomb(1000) for m in published.inputs["exponent_m"]]
    scale = [1000 * 0.2 ** (m - 1) for m in published.inputs["exponent_m"]]
    published.holds([in_random_motion(law, 0.2).damping / s for law, s in zip(laws, scale, strict=True)])


@checks(["e14"])
def test_asymmetric_damper_in_random_motion(published: Check):
    found = in_random_motion(TWO, 0.2)
    published.holds([found.damping, found.mean_force])


@checks(["e15"])
def test_damper_in_series_with_a_stiffness(published: Check):
    """The force of the two in series, integrated in time, then taken as samples of a record."""
    c, k, omega = 3000.0, 2e6, 2 * np.pi * 12
    period = 2 * np.pi / omega
    found = solve_ivp(lambda t, f: [k * (np.cos(omega * t) - f[0] / c)], (0, 3 * period), [0.0], method="Radau",
                      rtol=1e-10, atol=1e-9, dense_output=True)  # fmt: skip
    t = 2 * period + (np.arange(20000) + 0.5) * period / 20000
    force, velocity = found.sol(t)[0], np.cos(omega * t)
    in_phase, behind = mean_damping(force, velocity), mean_damping(force * np.tan(omega * t), velocity)
    published.holds([in_phase, np.rad2deg(np.arctan2(behind, in_phase))])


def _decayed(law, *, mass: float, rate: float, start: float, cycles: float) -> float:
    """Amplitude after slow decay: each cycle takes the energy of the equivalent linear damper."""
    omega = np.sqrt(rate / mass)
    slope = lambda _n, x: [-np.pi * in_swing(law, amplitude=x[0], omega=omega).damping * x[0] / (mass * omega)]  # noqa: E731
    return solve_ivp(slope, (0, cycles), [start], rtol=1e-9, atol=1e-12).y[0, -1]


@checks(["e16"])
def test_decay_with_friction(published: Check):
    published.holds(_decayed(_coulomb(10), mass=1, rate=1000, start=0.2, cycles=1))


@checks(["e17"])
def test_decay_with_a_square_law(published: Check):
    published.holds(_decayed(both(power(20, 2)), mass=100, rate=40e3, start=0.1, cycles=5))


@checks(["e18"])
def test_peak_velocity_of_a_drive(published: Check):
    seen = []
    in_swing(lambda v: seen.append(np.max(v)) or v, amplitude=0.05, omega=2 * np.pi * 100 / 60)
    published.holds(seen[0])


def test_a_swing_within_the_first_slope_sees_only_that():
    assert _peak(KNEE, 0.049).damping == pytest.approx(6000, rel=1e-9)


def test_twice_the_force_is_twice_the_damping():
    law = both(power(800, 0.5))
    assert in_random_motion(lambda v: 2 * law(v), 0.1).damping == pytest.approx(2 * in_random_motion(law, 0.1).damping)


@pytest.mark.parametrize("bad", [{"amplitude": 0.0, "omega": 1.0}, {"amplitude": 0.1, "omega": -1.0}])
def test_no_motion_is_refused(bad):
    with pytest.raises(QuantityError, match="must be a finite number above zero"):
        in_swing(KNEE, **bad)
