"""Velocities on a random road against scipy on the same corner, and against the closed form of a linear one."""

from __future__ import annotations

import numpy as np
import pytest
from scipy.integrate import solve_ivp

from dynoan.analysis.corner.ratio_measures import SwingMotion
from dynoan.analysis.corner.ratios import corner_ratios
from dynoan.analysis.corner.rough_road import road_motion
from dynoan.analysis.road import profile, velocity_spectrum
from dynoan.errors import QuantityError
from dynoan.model.car import Corner
from tests.analysis.launch_cars import linear_curve
from tests.made import made_curve

CORNER = Corner("rl", 240.0, 32.0, 38e3, 0.9, 0.88, tyre=210e3)
SPEED, ROUGH = 60 / 3.6, 256e-6
#: corners of cars as they come, and the pack that is on them
CARS = {
    "Kestrel, rear": (CORNER, "gravel"),
    "nose-heavy, front": (Corner("fl", 308.0, 34.0, 52.5e3, 0.95, 0.92, tyre=219e3), "tarmac"),
    "buggy, rear": (Corner("rl", 150.0, 38.0, 24e3, 0.62, 0.66, tyre=140e3), "gravel"),
    "heavy and soft": (Corner("fr", 480.0, 52.0, 30e3, 1.0, 0.95, tyre=260e3), "mixed"),
}


def integrated(c, curve, seeds, duration=10.0):
    """Velocity of the shock over roads of other seeds, by scipy."""
    out = []
    for seed in seeds:
        s = np.arange(0.0, SPEED * duration + 1.0, 0.02)
        h = profile(ROUGH, s, seed=seed)

        def rates(t, y, s=s, h=h):
            road = np.interp(SPEED * t, s, h) - h[0]
            v = y[3] - y[2]
            force = c.rate * (y[1] - y[0]) + c.shock_ratio * float(curve(np.array([c.shock_ratio * v]))[0])
            return [y[2], y[3], force / c.sprung, (c.tyre * (road - y[1]) - force) / c.unsprung]

        at = np.arange(2.0, duration, 4e-3)
        y = solve_ivp(
            rates, (0.0, duration), np.zeros(4), method="RK45", t_eval=at, rtol=1e-5, atol=1e-7, max_step=4e-3
        ).y
        out.append(c.shock_ratio * (y[3] - y[2]))
    return np.concatenate(out)


def test_a_linear_corner_has_the_velocity_of_the_closed_form():
    """sigma² = q·kt/2c at the wheel, for a road without end of its spectrum; the profile's band takes a little off."""
    curve = linear_curve(2500.0, 3.0)
    found = road_motion({"rl": CORNER}, {"rl": curve}, roughness=ROUGH, speed=SPEED)["rl"].sigma
    at_wheel = 2500.0 * CORNER.shock_ratio**2
    closed = CORNER.shock_ratio * np.sqrt(velocity_spectrum(ROUGH, SPEED) / 2 * CORNER.tyre / 2 / at_wheel)
    assert found == pytest.approx(closed, rel=0.08)
    assert found < closed * 1.03


@pytest.mark.thorough
@pytest.mark.parametrize("name", CARS)
def test_velocities_and_equivalent_ratios_are_those_of_time_simulation(name):
    corner, pack = CARS[name]
    curve = made_curve(pack)
    theirs = integrated(corner, curve, range(1, 9))
    ours = road_motion({"it": corner}, {"it": curve}, roughness=ROUGH, speed=SPEED)["it"]
    print(f"{name}: rms {ours.sigma / np.sqrt(np.mean(theirs**2)):.3f} of that of time simulation")
    assert ours.sigma == pytest.approx(np.sqrt(np.mean(theirs**2)), rel=0.05)
    found = corner_ratios(corner, curve, motion=SwingMotion(sigma=ours.sigma, speeds=ours.speeds))
    for direction, sign in (("compression", 1.0), ("rebound", -1.0)):
        v = theirs[sign * theirs > 0]
        wanted = np.sum(curve(v) * v) / np.sum(v * v) / found.rates.critical_shock
        print(f"{direction}: ratio {found.side(direction).random.value / wanted:.3f}")
        assert found.side(direction).random.value == pytest.approx(wanted, rel=0.05)


def test_a_corner_without_a_tyre_is_named():
    with pytest.raises(QuantityError, match=r"rl\.tyre"):
        road_motion(
            {"rl": Corner("rl", 240.0, 32.0, 38e3, 0.9, 0.88)}, {"rl": made_curve()}, roughness=1e-6, speed=10.0
        )
