"""Everything that a launch knows in one car, against bodies and rods whose forces are summed wheel by wheel.

Left and right unlike, seal friction, tyre damping, stop curves, a wheelie bar, a torque on a surface that grips less
when the wheels spin, with the foot down and with a driver who lifts. Anti-roll bars and the driveshaft act across the
car: seen from the side they must change nothing.
"""

from __future__ import annotations

import math
from dataclasses import replace
from functools import cache

import numpy as np
import pytest

from dynoan.analysis.launch.drive import slip_held, torque_drive
from dynoan.analysis.launch.from_car import half_car
from dynoan.analysis.launch.large import layout as at
from dynoan.analysis.launch.large.model import large_car
from dynoan.analysis.launch.large.rows import run
from dynoan.analysis.launch.scene import Scene
from dynoan.analysis.launch.sides import sides
from dynoan.model.car import Surface
from dynoan.model.links import Extras, WheelieBar
from tests.analysis.launch.test_large import CLOSE, FALLS, LINKS, RADIUS, RISE, RODS
from tests.analysis.launch.test_stops_and_brakes import BUMP, DROOP, one_stop
from tests.analysis.launch_cars import kestrel, linear
from tests.oracles import large_launch as oracle

COEFFICIENT, SLIP, TORQUE, GRIP, SLIDING, DURATION = 3500.0, 0.2, 6500.0, 1.6, 1.25, 1.0
FRICTION, TYRE_DAMPING, TRAVELS = 40.0, 150.0, (0.045, 0.03)
BAR = WheelieBar(1.2, 0.02, 150e3)
MASSES = {"fl": 290.0, "fr": 250.0, "rl": 225.0, "rr": 249.0}
SPRINGS = {"fl": 48e3, "fr": 42e3, "rl": 45e3, "rr": 39e3}
HEIGHT = 0.70


def made(**extras):
    corners = {
        n: replace(c, mass=MASSES[n], spring=SPRINGS[n], bump_travel=TRAVELS[0], droop_travel=TRAVELS[1])
        for n, c in kestrel().corners.items()
    }
    both = dict.fromkeys(("front", "rear"))
    of = Extras(
        bar=BAR, friction=dict.fromkeys(both, FRICTION), tyre_damping=dict.fromkeys(both, TYRE_DAMPING),
        bump_stop=dict.fromkeys(both, BUMP), droop_stop=dict.fromkeys(both, DROOP), wheel_inertia=0.8, **extras,
    )  # fmt: skip
    return replace(kestrel(), corners=corners, antisquat=None, links=LINKS, wheel_radius=RADIUS, cg_height=HEIGHT,
                   track={"front": 1.41, "rear": 1.39}, extras=of)  # fmt: skip


def axle_force(corners):
    """What both wheels of an axle are pushed with beyond the load at rest, over travel and speed; no spring pulls."""
    rate = sum(c.spring * c.spring_ratio**2 for c in corners)
    held = sum((c.mass - c.unsprung) * oracle.G for c in corners)

    def of(u, v):
        total = max(rate * u + held, 0.0) - held
        for c in corners:
            total += one_stop(BUMP, u - TRAVELS[0]) - one_stop(DROOP, -u - TRAVELS[1])
            total += COEFFICIENT * c.shock_ratio**2 * v + FRICTION * c.shock_ratio * math.tanh(v / 0.004)
        return total

    return of


@cache
def here(lifts):
    car = made()
    half = half_car(car)
    large = large_car(car, half)
    drive = torque_drive(half, TORQUE, RADIUS, rise=RISE)
    surface = Surface("made", GRIP, 0.0, SLIDING, load_sensitivity=FALLS)
    drive = slip_held(drive, half, surface, SLIP) if lifts else drive
    damping = sides(*linear(car, COEFFICIENT)).take([1])
    return large, run(large, damping, [Scene(drive, surface, DURATION)], [(0, 0)], keep=True, step=5e-4)


@cache
def both(lifts):
    car = made()
    half = half_car(car)
    large, ours = here(lifts)
    weight = oracle.G * (MASSES["rl"] + MASSES["rr"])
    grip = oracle.falling_grip(GRIP, SLIDING, 15.0, FALLS, weight)
    world = oracle.World(
        half.sprung, half.pitch_inertia, half.front.unsprung, half.rear.unsprung, half.arms.front, half.arms.rear,
        large.height, RADIUS, tuple(sum(c.tyre for c in car.axle(a)) for a in ("front", "rear")), RODS,
        tuple(axle_force(car.axle(a)) for a in ("front", "rear")), bar=(BAR.behind, BAR.above, BAR.rate),
        tyre_damping=(2 * TYRE_DAMPING,) * 2, torque=lambda t, _w: TORQUE * min(t / RISE, 1.0), slip=grip, spin=1.6,
        driver=(SLIP, 0.3, min(grip(SLIP, weight) * RADIUS / TORQUE, 1.0)) if lifts else None,
    )  # fmt: skip
    return large, ours, oracle.run(world, DURATION, 5e-4)


#: who lifts has the foot down first
@pytest.mark.parametrize(
    "lifts", [pytest.param(False, marks=pytest.mark.thorough), True], ids=["foot down", "a driver who lifts"]
)
class TestAllAtOnce:
    def test_height_pitch_and_loads(self, lifts):
        large, ours, theirs = both(lifts)
        for mine, true in (
            (ours.states[0, at.Z] - large.height, theirs.heave), (ours.states[0, at.PITCH], theirs.pitch),
            (ours.states[0, at.X], theirs.x), (ours.kept[0, at.WHEEL], theirs.front_wheel),
            (ours.kept[0, at.LOAD], theirs.front_load), (ours.kept[0, at.LOAD + 1], theirs.rear_load),
            (ours.states[0, at.REAR_SPIN] * RADIUS, theirs.wheel_speed), (ours.states[0, at.FOOT], theirs.foot),
        ):  # fmt: skip
            assert np.abs(mine - true).max() <= CLOSE * np.ptp(true)

    def test_time_off_the_ground(self, lifts):
        _, ours, theirs = both(lifts)
        lifted = [float(np.count_nonzero(of[:-1] <= 0) * 5e-4) for of in (ours.kept[0, at.LOAD], theirs.front_load)]
        assert lifted[0] == pytest.approx(lifted[1], rel=CLOSE, abs=1e-3)
        assert np.isnan(ours.figures[0, at.OVER]) == (theirs.over is None)

    def test_energy(self, lifts):
        assert both(lifts)[1].energy_off[0] < 1e-3

    def test_bar_stops_and_spinning_wheels_are_met(self, lifts):
        _, ours, _ = both(lifts)
        assert ours.kept[0, at.BAR].max() > 100.0
        assert ours.states[0, at.FRONT].min() < -TRAVELS[1] - 0.004
        assert ours.figures[0, at.SPUN] > 0.02


def test_what_acts_across_the_car_changes_nothing_from_the_side():
    large, ours = here(False)
    car = made(anti_roll={"front": 9e3, "rear": 3e3}, axle_ratio=4.1)
    other = large_car(car, half_car(car))
    scene = Scene(
        torque_drive(large.half, TORQUE, RADIUS, rise=RISE),
        Surface("made", GRIP, 0.0, SLIDING, load_sensitivity=FALLS),
        DURATION,
    )
    found = run(other, sides(*linear(car, COEFFICIENT)).take([1]), [scene], [(0, 0)], keep=True, step=5e-4)
    assert np.array_equal(found.states, ours.states)
    assert other.reaction is not None
    assert large.reaction is None
