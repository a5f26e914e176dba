"""The launch at large angles against Lagrange's equations, on cars nobody had in mind."""

from __future__ import annotations

from functools import cache

import numpy as np
import pytest

from dynoan.analysis.launch.compare import car_damping
from dynoan.analysis.launch.drive import ramp, torque_drive
from dynoan.analysis.launch.from_car import half_car
from dynoan.analysis.launch.large import layout as at
from dynoan.analysis.launch.large.model import large_car
from dynoan.analysis.launch.large.rows import run
from dynoan.analysis.launch.scene import Scene
from dynoan.analysis.launch.sides import sides
from dynoan.model.car import Surface
from tests.worlds.track.odd_cars import ODD, as_car, curve, drive, whole
from tests.worlds.track.whole_car import leave

CLOSE, ADDS_UP = 0.02, 0.001


@cache
def ours(odd_name):
    odd = next(o for o in ODD if o.name == odd_name)
    car = as_car(odd)
    half = half_car(car)
    large = large_car(car, half)
    if odd.torque is None:
        pull = ramp(odd.asked, odd.rise, "", limited=True)
    else:
        pull = torque_drive(half, odd.torque, odd.radius, rise=odd.rise)
    damping = car_damping(car, {n: curve(odd.front if n[0] == "f" else odd.rear) for n in car.corners})
    scene = Scene(pull, Surface("made", odd.grip, load_sensitivity=0.0), odd.duration)
    return run(large, sides(*damping).take([1]), [scene], [(0, 0)], keep=True)


@cache
def theirs(odd_name):
    odd = next(o for o in ODD if o.name == odd_name)
    return leave(whole(odd), drive(odd), odd.duration)


def pairs(name):
    """What must agree, until a car goes over."""
    a, b = ours(name), theirs(name)
    every = round((b.time[1] - b.time[0]) / (a.time[1] - a.time[0]))
    n = len(b.time) if b.over is None else int(np.searchsorted(b.time, a.figures[0, at.OVER]))
    states, kept = a.states[0][:, ::every][:, :n], a.kept[0][:, ::every][:, :n]
    return {
        "height": (states[at.Z], b.states[1]), "pitch": (states[at.PITCH], b.states[2]),
        "front wheels": (kept[at.WHEEL], b.wheels[0]), "front load": (kept[at.LOAD], b.loads[0]),
        "rear load": (kept[at.LOAD + 1], b.loads[1]), "place": (states[at.X], b.states[0]),
    }  # fmt: skip


def in_the_air(loads, step):
    return float(np.sum(loads <= 0) * step)


NAMES = [odd.name for odd in ODD]
OVER = {"high and over"}


#: one that lifts its wheels and one that goes over, in every run; stops are also met in `analysis/launch`
QUICK = {"front wheels up and down again", *OVER}


@pytest.mark.parametrize("name", [pytest.param(n, marks=[] if n in QUICK else pytest.mark.thorough) for n in NAMES])
class TestOddCars:
    @pytest.mark.thorough
    def test_height_pitch_and_loads(self, name):
        for what, (a, b) in pairs(name).items():
            b = b[: len(a)]
            assert np.abs((a - a[0]) - (b - b[0])).max() < CLOSE * np.ptp(b), what

    def test_time_off_the_ground(self, name):
        a, b = pairs(name)["front load"]
        step = theirs(name).time[1]
        assert in_the_air(a, step) == pytest.approx(in_the_air(b[: len(a)], step), rel=CLOSE, abs=2 * step)

    def test_the_same_verdict_of_going_over(self, name):
        over = ours(name).figures[0, at.OVER]
        assert np.isfinite(over) == (theirs(name).over is not None) == (name in OVER)
        if np.isfinite(over):
            assert over == pytest.approx(theirs(name).over, rel=0.05)

    @pytest.mark.thorough
    def test_energy_adds_up_in_both(self, name):
        b = theirs(name)
        motion = b.parts["motion"]
        some = b.states[:, :: max(len(b.time) // 4, 1)]
        off = np.ptp([motion.energy(s[:5], s[5:10]) - s[10] for s in some.T])
        assert off < ADDS_UP * np.abs(np.diff(b.states[10])).sum()
        assert ours(name).energy_off[0] < ADDS_UP

    @pytest.mark.thorough
    def test_the_energy_of_one_is_the_energy_of_the_other(self, name):
        a, motion, end = ours(name), theirs(name).parts["motion"], pairs(name)["pitch"][0].size - 1
        every = round(theirs(name).time[1] / a.time[1])
        states = [a.states[0, :10, i * every] for i in (0, end // 2, end)]
        mine = [motion.energy(s[:5], s[5:10]) for s in states]
        told = [a.kept[0, at.ENERGY, i * every] for i in (0, end // 2, end)]
        spinning = 0.5 * motion.car.spin * (np.array([s[5] for s in states]) / motion.car.radius) ** 2
        gone = np.array(mine) + spinning
        assert np.ptp(gone - told) < 0.01 * np.ptp(told)


class TestTheyAreOdd:
    """Each car does what it is there for."""

    @pytest.mark.thorough
    def test_stops_are_met(self):
        name = "soft springs on their stops"
        odd = next(o for o in ODD if o.name == name)
        travel = theirs(name).states[3:5]
        assert travel[0].min() < -odd.front.travel[1]

    def test_front_wheels_leave_and_land(self):
        loads = theirs("front wheels up and down again").loads[0]
        assert in_the_air(loads, 0.002) > 0.05
        assert loads[-1] > 0

    @pytest.mark.thorough
    def test_one_has_grip_to_spare(self):
        assert theirs("weak torque").drive[-1] < 0.5 * theirs("weak torque").loads[1, -1]
