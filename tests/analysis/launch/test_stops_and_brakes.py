"""Stop curves and the start held on the brakes, against bodies, rods and constraint forces with stops of their own."""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise

import numpy as np
import pytest

from dynoan.analysis.launch.drive import constant_acceleration, held_back, ramp, torque_drive
from dynoan.analysis.launch.from_car import half_car
from dynoan.analysis.launch.large import layout as at
from dynoan.analysis.launch.large.model import large_car
from dynoan.analysis.launch.large.rows import run
from dynoan.analysis.launch.large.springs import suspension
from dynoan.analysis.launch.scene import Scene
from dynoan.analysis.launch.sides import sides
from dynoan.analysis.launch.stops import at_wheel
from dynoan.errors import QuantityError
from dynoan.model.car import Surface
from dynoan.model.links import Extras
from tests.analysis.launch.test_large import CLOSE, COEFFICIENT, LINKS, RADIUS, RISE, RODS, car
from tests.analysis.launch_cars import kestrel, linear
from tests.oracles import large_launch as oracle

#: of one wheel: progressive, and soft enough to be squeezed far
BUMP = ((0.0, 0.0), (0.006, 300.0), (0.015, 1500.0), (0.022, 4000.0))
DROOP = ((0.0, 0.0), (0.004, 400.0), (0.010, 2500.0))
BUMP_TRAVEL, DROOP_TRAVEL = 0.010, 0.006
HOLD = 3.0  #: long enough for all swings to die [s]


def stopped(curves=True):
    """A car that meets its stops soon."""
    short = kestrel({"bump_travel": BUMP_TRAVEL, "droop_travel": DROOP_TRAVEL})
    both = {"front": BUMP, "rear": BUMP}, {"front": DROOP, "rear": DROOP}
    extras = Extras(bump_stop=both[0], droop_stop=both[1]) if curves else Extras()
    return replace(short, antisquat=None, links=LINKS, wheel_radius=RADIUS, extras=extras)


def one_stop(curve, squeezed):
    """Force of one wheel's stop, by the curve itself, whose last slope goes on."""
    if squeezed <= 0:
        return 0.0
    (x0, f0), (x1, f1) = next((pair for pair in pairwise(curve) if squeezed <= pair[1][0]), curve[-2:])
    return f0 + (squeezed - x0) * (f1 - f0) / (x1 - x0)


def stop(curve, squeezed):
    """Force of both wheels' stops."""
    return 2 * one_stop(curve, squeezed)


def world(large, stops, **other):
    half, at_wheel_ = large.half, 2 * COEFFICIENT * 0.92**2

    def force(axle):
        def of(u, v):
            slack = max(axle.spring * u + axle.preload, 0.0) - axle.preload
            pushed = stop(BUMP, u - BUMP_TRAVEL) - stop(DROOP, -u - DROOP_TRAVEL) if stops else 0.0
            return slack + pushed + at_wheel_ * v

        return of

    return oracle.World(
        half.sprung, half.pitch_inertia, half.front.unsprung, half.rear.unsprung, half.arms.front, half.arms.rear,
        large.height, RADIUS, (half.front.tyre, half.rear.tyre), RODS, (force(half.front), force(half.rear)), **other,
    )  # fmt: skip


def off(ours, theirs, large):
    pairs = {
        "heave": (ours.states[0, at.Z] - large.height, theirs.heave), "pitch": (ours.states[0, at.PITCH], theirs.pitch),
        "front wheels": (ours.kept[0, at.WHEEL], theirs.front_wheel),
        "front load": (ours.kept[0, at.LOAD], theirs.front_load),
        "rear load": (ours.kept[0, at.LOAD + 1], theirs.rear_load),
    }  # fmt: skip
    n = len(ours.time)
    return {name: float(np.abs(a - b[-n:]).max() / np.ptp(b[-n:])) for name, (a, b) in pairs.items()}


def ran(of, scene):
    large = large_car(of, half_car(of))
    return large, run(large, sides(*linear(of, COEFFICIENT)).take([1]), [scene], [(0, 0)], keep=True)


class TestStopCurves:
    GRIP, PEAK, DURATION = 1.05, 20e3, 1.0

    def test_against_bodies_and_rods(self):
        of = stopped()
        mass = half_car(of).frame.mass
        scene = Scene(
            ramp(self.PEAK / mass, RISE, "", limited=True),
            Surface("made", self.GRIP, load_sensitivity=0.0),
            self.DURATION,
        )
        large, ours = ran(of, scene)
        drive = lambda t, n: min(self.PEAK * min(t / RISE, 1.0), self.GRIP * n)  # noqa: E731
        theirs = oracle.run(world(large, True, drive=drive), self.DURATION, 1e-3)
        assert ours.states[0, at.FRONT].min() < -DROOP_TRAVEL - 0.004  # past a knee of the stop
        assert max(off(ours, theirs, large).values()) < CLOSE
        assert ours.energy_off[0] < 1e-3

    def test_what_the_curve_says_beside_what_the_springs_do(self):
        half = half_car(stopped())
        for u in (-0.030, -0.012, -0.003, 0.004, 0.013, 0.029, 0.050):
            springs = max(half.rear.spring * u + half.rear.preload, 0.0) - half.rear.preload
            told = float(suspension(half.rear, np.array(u))) - springs
            assert told == pytest.approx(stop(BUMP, u - BUMP_TRAVEL) - stop(DROOP, -u - DROOP_TRAVEL), abs=1e-6)

    def test_a_shocks_stop_at_the_wheel_keeps_its_energy(self):
        found = at_wheel(BUMP, 0.8)
        work = [float(np.trapezoid(*np.array(curve).T[::-1])) for curve in (BUMP, found)]
        assert work[0] == pytest.approx(work[1])
        assert found[1] == pytest.approx((0.006 / 0.8, 300.0 * 0.8))

    def test_a_corner_of_its_own(self):
        """Left with a curve, right with the usual rate: half of each."""
        of = replace(stopped(False), extras=Extras(bump_stop={"rl": BUMP}))
        half = half_car(of)
        squeezed = 0.012
        told = sum(rate * max(BUMP_TRAVEL + squeezed - begin, 0.0) for begin, rate in half.rear.hinges[0])
        assert told == pytest.approx(stop(BUMP, squeezed) / 2 + 300e3 * squeezed)


GRIP, PEAK, HELD, DURATION = 1.2, 7000.0, 3500.0, 1.0  #: of the start held on the brakes


@pytest.fixture(scope="module")
def both():
    of = car()
    mass = half_car(of).frame.mass
    drive = held_back(ramp(PEAK / mass, RISE, "", limited=True), HELD / mass)
    large, ours = ran(of, Scene(drive, Surface("made", GRIP, load_sensitivity=0.0), DURATION))

    def pushed(t, n):
        rise = min(max(t - HOLD, 0.0) / RISE, 1.0)
        return min(HELD * min(t, 1.0) + (PEAK - HELD) * rise, GRIP * n)

    x0 = large.half.arms.front
    brake = lambda t, x, v: -5e6 * (x - x0) - 2e4 * v if t < HOLD else 0.0  # noqa: E731
    return large, ours, oracle.run(world(large, False, drive=pushed, brake=brake), HOLD + DURATION, 1e-3)


class TestHeldOnTheBrakes:
    def test_it_stands_as_bodies_and_rods_do(self, both):
        large, ours, theirs = both
        stood = round(HOLD / 1e-3) - 1
        assert ours.states[0, at.Z, 0] - large.height == pytest.approx(theirs.heave[stood], rel=CLOSE, abs=1e-4)
        assert ours.states[0, at.PITCH, 0] == pytest.approx(theirs.pitch[stood], rel=CLOSE)
        assert abs(theirs.pitch[stood]) > 1e-3  # the links and the knuckles have moved it

    def test_the_launch_from_there(self, both):
        large, ours, theirs = both
        found = off(ours, theirs, large)
        assert max(found.values()) < CLOSE, found
        assert ours.energy_off[0] < 1e-3

    def test_with_slip_it_begins_still(self):
        of = car(wheel_inertia=0.8)
        half = half_car(of)
        drive = held_back(torque_drive(half, 2400.0, RADIUS, rise=1.0), 2.0)
        _, ours = ran(of, Scene(drive, Surface("made", 0.9), 0.5))
        first = ours.kept[0, at.FORCE + 1, 0]
        assert first == pytest.approx(2.0 * half.frame.mass, rel=1e-6)
        assert np.diff(ours.states[0, at.REAR_SPIN])[0] < 0.05  # rad/s in a ms: torque and tyre are in balance
        assert ours.energy_off[0] < 1e-3

    def test_what_tyres_do_not_hold_is_said(self):
        of = car()
        mass = half_car(of).frame.mass
        drive = held_back(ramp(9e3 / mass, RISE, "", limited=True), 6e3 / mass)
        with pytest.raises(QuantityError, match="driven tyres hold at most"):
            ran(of, Scene(drive, Surface("loose", 0.65), 0.5))

    def test_more_than_the_drive_is_said(self):
        with pytest.raises(QuantityError, match="not between 0 and"):
            held_back(constant_acceleration(3.0), 4.0)
