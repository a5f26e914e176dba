"""The quarter car and the corner: published cars, closed forms against numbers."""

from __future__ import annotations

import numpy as np
import pytest
from scipy.linalg import solve_continuous_lyapunov

from dynoan.analysis.corner.quarter_car import QuarterCar, comfort_ratio, grip_ratio
from dynoan.analysis.corner.rates import corner_rates
from dynoan.analysis.launch.load_transfer import Frame
from dynoan.analysis.road import velocity_spectrum
from dynoan.errors import QuantityError
from dynoan.model.car import Corner
from dynoan.units import POUND, factor, parse
from tests.checks import Check, checks
from tests.oracles.load_transfer import static_loads
from tests.oracles.quarter_car import road_response
from tests.oracles.random_motion import road_sigma

SALOON = QuarterCar(317.5, 45.4, 22000, 192000)
C = 1585.749034


def corner(*, sprung: float = 250.0, unsprung: float = 40.0, rate: float = 30e3, tyre: float | None = None) -> Corner:
    return Corner("rl", sprung + unsprung, unsprung, rate, 1.0, 1.0, tyre=tyre)


@checks(["q01"])
def test_frequencies_of_a_saloon(published: Check):
    published.holds([2 * np.pi * mode.frequency for mode in SALOON.modes()])


@checks(["q02"])
def test_the_same_in_hertz(published: Check):
    published.holds(corner_rates(corner(sprung=317.5, unsprung=45.4, rate=22000, tyre=192000)).modes)


@checks(["q03"])
def test_shape_of_the_body_mode(published: Check):
    shape = SALOON.modes()[0].shape
    published.holds(shape[1] / shape[0])


@checks(["q04"])
def test_uncoupled_approximations(published: Check):
    rates = corner_rates(corner(sprung=317.5, unsprung=45.4, rate=22000, tyre=192000))
    published.holds([rates.ride_rate, rates.tyre_frequency, rates.hop_frequency])


@checks(["q05"])
def test_hop_frequency(published: Check):
    published.holds(corner_rates(corner(unsprung=40, rate=20630, tyre=300e3)).hop_frequency)


@checks(["q06"])
def test_speed_that_excites_hop_on_cobbles(published: Check):
    speed = 0.2 * corner_rates(corner(unsprung=40, rate=20630, tyre=300e3)).hop_frequency
    published.holds([speed, speed / factor("km/h", "velocity")])


@checks(["q07"])
def test_static_load_of_a_front_tyre(published: Check):
    published.holds(static_loads(Frame(1140, 0.58, 0.42, 0.5), gravity=9.81)[0] / 2)


@checks(["q09"])
def test_wheel_rate_from_lever(published: Check):
    spring = parse("50 N/mm", "stiffness")
    published.holds(Corner("fl", 300, 40, spring, 0.75, 1.0).wheel_rate / factor("N/mm", "stiffness"))


@checks(["q10"])
def test_wheel_rate_of_a_leaning_spring(published: Check):
    published.holds(Corner("fl", 300, 40, 50000, 0.75 * np.cos(np.deg2rad(20)), 1.0).wheel_rate)


@checks(["q11"])
def test_rate_where_the_ratio_changes_with_travel(published: Check):
    given = published.inputs
    level = Corner("fl", 300, 40, 50000, given["travel_ratio"], 1.0).wheel_rate
    published.holds(level + given["force_n"] * given["dMR_dz_per_m"])


@checks(["q15"])
def test_ride_rate(published: Check):
    one = factor("lbf/in", "stiffness")
    rides = [corner_rates(corner(rate=k * one, tyre=1198 * one)).ride_rate for k in (143, 100)]
    published.holds(np.array(rides) / one)


@checks(["q16"])
def test_ride_frequency_on_those_rates(published: Check):
    one = factor("lbf/in", "stiffness")
    pairs = zip(published.inputs["ride_rate_lbf_in"], published.inputs["corner_weight_lb"], strict=True)
    published.holds([corner_rates(corner(sprung=w * POUND, rate=k * one)).frequency for k, w in pairs])


@checks(["q17"])
def test_ride_frequency_in_us_units(published: Check):
    published.holds(corner_rates(corner(sprung=POUND, rate=factor("lbf/in", "stiffness"))).frequency)


@checks(["q18"])
def test_static_deflection(published: Check):
    rates = [250 * (2 * np.pi * f) ** 2 for f in published.inputs["frequency_hz"]]
    published.holds([corner_rates(corner(rate=k)).deflection * 1e3 for k in rates])


@checks(["q19"])
def test_a_soft_tyre(published: Check):
    published.holds([mode.frequency for mode in QuarterCar(263, 33.1, 24400, 92900).modes()])


@checks(["q20"])
def test_damped_modes(published: Check):
    body, hop = QuarterCar(317.5, 45.4, 22000, 192000, C).modes()
    published.holds([body.frequency, body.ratio, hop.frequency, hop.ratio])


@checks(["q22"])
def test_random_road(published: Check):
    found = road_response(QuarterCar(317.5, 45.4, 22000, 192000, C), velocity_spectrum(256e-6, 20))
    published.holds([found.travel, found.velocity, found.acceleration, found.tyre_load])


@checks(["q23"])
def test_ratios_of_comfort_and_of_grip(published: Check):
    published.holds([comfort_ratio(SALOON), grip_ratio(SALOON)])


@checks(["r05"])
def test_the_road_acts_as_a_white_velocity(published: Check):
    published.holds(velocity_spectrum(256e-6, 20))


@pytest.mark.parametrize("car", [QuarterCar(234, 34, 40612, 210e3, 2500), QuarterCar(180, 45, 90e3, 180e3, 9000)])
def test_random_road_equals_lyapunov(car: QuarterCar):
    """States: suspension travel, body velocity, tyre deflection, wheel velocity; road velocity as white noise."""
    ms, mu, ks, kt, c = car.sprung, car.unsprung, car.wheel_rate, car.tyre, car.damping
    a = np.array([[0, 1, 0, -1], [-ks / ms, -c / ms, 0, c / ms], [0, 0, 0, 1], [ks / mu, c / mu, -kt / mu, -c / mu]])
    b = np.array([[0.0], [0.0], [-1.0], [0.0]])
    spectrum = velocity_spectrum(64e-6, 15)
    p = solve_continuous_lyapunov(a, -b @ b.T * spectrum / 2)
    found = road_response(car, spectrum)
    rows = [[1, 0, 0, 0], [0, 1, 0, -1], a[1], [0, 0, kt, 0]]
    expected = [np.sqrt(np.array(r) @ p @ np.array(r)) for r in rows]
    np.testing.assert_allclose([found.travel, found.velocity, found.acceleration, found.tyre_load], expected, rtol=1e-8)


def test_comfort_and_grip_are_the_least_of_the_response():
    from dataclasses import replace

    critical = 2 * np.sqrt(SALOON.wheel_rate * SALOON.sprung)
    for best, what in ((comfort_ratio(SALOON), "acceleration"), (grip_ratio(SALOON), "tyre_load")):
        values = [
            getattr(road_response(replace(SALOON, damping=critical * best * s), 1e-3), what) for s in (0.98, 1, 1.02)
        ]
        assert values[1] < min(values[0], values[2])


def test_sigma_of_a_linear_damper_is_the_closed_form():
    spectrum = velocity_spectrum(256e-6, 20)
    closed = road_response(QuarterCar(317.5, 45.4, 22000, 192000, C), spectrum).velocity
    assert road_sigma(spectrum, tyre=192000, damping_at=lambda _s: C) == pytest.approx(closed, rel=1e-8)


def test_an_undamped_car_on_a_road_is_refused():
    with pytest.raises(QuantityError, match="damping must be"):
        road_response(SALOON, 1e-3)
    with pytest.raises(QuantityError, match="no suspension velocity"):
        road_sigma(1e-3, tyre=192000, damping_at=lambda _s: 0.0)
