"""What the driveshaft moves between the driven tyres, against a car that stands where its potential energy is least."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from scipy.optimize import minimize

from dynoan.analysis.launch.drive import constant_acceleration
from dynoan.analysis.launch.from_car import half_car
from dynoan.analysis.launch.large.compare import launch_large
from dynoan.analysis.launch.large.model import large_car
from dynoan.analysis.launch.scene import Scene
from dynoan.analysis.launch.torque_reaction import reaction_of
from dynoan.model.links import Extras
from tests.analysis.launch_cars import FLAT, curves, damping, kestrel

RADIUS, RATIO, FORCE = 0.3, 4.1, 5000.0
TRACK = {"front": 1.41, "rear": 1.39}


def stands(car, driven):
    """Load that the driven axle's left tyre gains [N]: body and both axles turn until the energy is least.

    Springs and tyres at the wheels, half a track out; a bar feels how far its wheels go opposite ways; the shaft turns
    the body one way and the driven axle the other.
    """
    torque = FORCE * RADIUS / RATIO

    def energy(turned):
        body, *axles = turned
        total = 0.0
        for axle, turn in zip(("front", "rear"), axles, strict=True):
            half, bar = TRACK[axle] / 2, car.extras.anti_roll.get(axle, 0.0)
            opposite = (body - turn) * half  # of each wheel against the body
            for c, side in zip(car.axle(axle), (1, -1), strict=True):
                total += c.spring * c.spring_ratio**2 * (side * opposite) ** 2 / 2 + bar * opposite**2 / 2
                total += c.tyre * (side * turn * half) ** 2 / 2
        return (total - torque * (body - axles[0 if driven == "front" else 1])) * 1e-3

    found = minimize(energy, np.zeros(3), tol=1e-14, options={"gtol": 1e-10}).x
    return abs(found[1 if driven == "front" else 2]) * TRACK[driven] / 2 * car.axle(driven)[0].tyre


@pytest.mark.parametrize("driven", ["rear", "front"])
@pytest.mark.parametrize("anti_roll", [{}, {"front": 9e3, "rear": 3e3}, {"front": 60e3}, {"rear": 60e3}])
def test_with_bars_and_yielding_tyres(driven, anti_roll):
    car = replace(kestrel(driven=driven), track=TRACK, extras=Extras(axle_ratio=RATIO, anti_roll=anti_roll))
    found = reaction_of(car, RADIUS)
    assert found.axle == driven
    assert FORCE * found.per_force == pytest.approx(stands(car, driven), rel=1e-3)


def test_stiff_tyres_leave_the_springs_alone():
    """Twice as stiff in roll at the front: two thirds of the torque, as the textbooks have it."""
    made = {n: replace(c, tyre=1e12, spring=60e3 if n[0] == "f" else 30e3) for n, c in kestrel().corners.items()}
    car = replace(kestrel(), corners=made, track={"front": 1.4, "rear": 1.4}, extras=Extras(axle_ratio=RATIO))
    assert reaction_of(car, RADIUS).per_force == pytest.approx(RADIUS / RATIO / 1.4 * 2 / 3, rel=1e-6)


def test_each_driven_tyres_load_in_a_launch():
    """The axle's load, the corner weights as they stand, and what the shaft moves: the left tyre gains."""
    made = {n: replace(c, mass=c.mass + (20.0 if n == "rl" else 0.0)) for n, c in kestrel().corners.items()}
    car = replace(kestrel(), corners=made, track=TRACK, extras=Extras(axle_ratio=RATIO, anti_roll={"front": 9e3}))
    half = half_car(car, curves(car))
    scene = Scene(constant_acceleration(4.0), FLAT, 3.0)
    found = launch_large(large_car(car, half), scene, damping(car, lsc=3, hsc=3, lsr=3, hsr=3)).metrics
    left, right = found["driven_left_load_end_n"], found["driven_right_load_end_n"]
    assert left + right == pytest.approx(found["rear_load_end_n"])
    force = 4.0 * sum(c.mass for c in made.values())
    assert left - right == pytest.approx(20.0 * 9.80665 + 2 * stands(car, "rear") * force / FORCE, rel=2e-3)


def test_a_car_that_does_not_say_what_its_axle_is_has_no_such_loads():
    car = kestrel()
    scene = Scene(constant_acceleration(4.0), FLAT, 0.2)
    found = launch_large(large_car(car, half_car(car, curves(car))), scene, damping(car)).metrics
    assert np.isnan(found["driven_left_load_end_n"])
