"""The car at large angles against bodies, rods and constraint forces, and against the small-angle car."""

from __future__ import annotations

from dataclasses import replace
from functools import cache

import numpy as np
import pytest

from dynoan.analysis.launch.drive import engine_drive, ramp, slip_held
from dynoan.analysis.launch.from_car import half_car
from dynoan.analysis.launch.large import layout as at
from dynoan.analysis.launch.large.compare import launch_large
from dynoan.analysis.launch.large.model import large_car
from dynoan.analysis.launch.large.rows import run
from dynoan.analysis.launch.large.springs import suspension
from dynoan.analysis.launch.large.tyre import slip_law
from dynoan.analysis.launch.scene import Scene
from dynoan.analysis.launch.sides import sides
from dynoan.model.car import Surface
from dynoan.model.links import Engine, Extras, Link, Links, WheelieBar
from tests.analysis.launch_cars import FLAT, damping, kestrel, linear, without_stops
from tests.often import often
from tests.oracles import large_launch as oracle
from tests.oracles.large_arrays import Ground, Pull, Stepper
from tests.oracles.large_running import run_large
from tests.oracles.small_angle.launching import launch

LINKS = Links(
    {"lower": Link({"1": (0.55, 0.26)}, (-0.02, 0.22), "1"), "upper": Link({"1": (0.5, 0.40)}, (0.03, 0.43), "1")}
)
RODS = oracle.Rods(((-0.02, 0.22), (0.03, 0.43)), ((0.55, 0.26), (0.5, 0.40)))
COEFFICIENT, RADIUS, RISE = 3500.0, 0.30, 0.15
FALLS = 0.12  #: by which power of its load the tyres' grip falls
BAR = WheelieBar(1.2, 0.10, 200e3)
#: how far height, pitch and loads may be off, as a share of their range
CLOSE = 0.02


def car(height=0.51, **extras):
    return replace(
        without_stops(kestrel()), antisquat=None, links=LINKS, wheel_radius=RADIUS, cg_height=height,
        extras=Extras(**extras),
    )  # fmt: skip


def weight(of):
    """What the rear tyres bear at rest."""
    return sum(c.mass for c in of.axle("rear")) * oracle.G


def world(of, large, grip, peak, coefficient=COEFFICIENT, **other):
    half = large.half

    def spring(axle):
        at_wheel = 2 * coefficient * 0.92**2
        return lambda u, v: float(suspension(axle, np.array(u))) + at_wheel * v

    bar = None if large.bar is None else (large.bar.behind, large.bar.above, large.bar.rate)
    return oracle.World(
        half.sprung, half.pitch_inertia, half.front.unsprung, half.rear.unsprung, half.arms.front, half.arms.rear,
        large.height, RADIUS, (half.front.tyre, half.rear.tyre), RODS, (spring(half.front), spring(half.rear)),
        drive=lambda t, n: min(peak * min(t / RISE, 1.0), n * oracle.under_load(grip, n, FALLS, weight(of))), bar=bar,
        **other,
    )  # fmt: skip


def scene(half, grip, peak, duration, **other):
    drive = ramp(peak / half.frame.mass, RISE, "", limited=True)
    return Scene(drive, Surface("made", grip, load_sensitivity=FALLS, **other), duration)


@cache
def both(grip, peak, height, bar, duration=2.0):
    of = car(height, bar=BAR if bar else None)
    half = half_car(of)
    large = large_car(of, half)
    ours = run(
        large, sides(*linear(of, COEFFICIENT)).take([1]), [scene(half, grip, peak, duration)], [(0, 0)], keep=True
    )
    return large, ours, oracle.run(world(of, large, grip, peak), duration, 1e-3)


CASES = [(1.05, 20e3, 0.51, False), (1.75, 40e3, 0.663, False), (2.1, 40e3, 0.663, True)]


@pytest.mark.parametrize("case", often(1, CASES), ids=["all wheels down", "front wheels lift", "on the wheelie bar"])
class TestAgainstBodiesAndRods:
    def test_height_pitch_and_loads(self, case):
        large, ours, theirs = both(*case)
        pairs = {
            "heave": (ours.states[0, at.Z] - large.height, theirs.heave),
            "pitch": (ours.states[0, at.PITCH], theirs.pitch),
            "place": (ours.states[0, at.X], theirs.x),
            "front wheels": (ours.kept[0, at.WHEEL], theirs.front_wheel),
            "front load": (ours.kept[0, at.LOAD], theirs.front_load),
            "rear load": (ours.kept[0, at.LOAD + 1], theirs.rear_load),
        }
        off = {name: np.abs(a - b).max() / np.ptp(b) for name, (a, b) in pairs.items()}
        assert max(off.values()) < CLOSE, off
        assert max(off.values()) < 2e-3  # what it is, and more than enough

    def test_time_off_the_ground(self, case):
        _, ours, theirs = both(*case)
        lifted = (np.count_nonzero(of[:-1] <= 0) * 1e-3 for of in (ours.kept[0, at.LOAD], theirs.front_load))
        assert next(lifted) == pytest.approx(next(lifted), rel=CLOSE, abs=0.005)

    def test_energy(self, case):
        _, ours, _ = both(*case)
        assert ours.energy_off[0] < 1e-3
        assert np.abs(ours.states[0, at.WORK]).max() > 1e3  # there was work to account for


class TestFrontWheelHeight:
    def test_the_trace_shows_how_high_the_front_wheels_are(self):
        """Off the ground exactly while their tyres bear nothing, and as high as the figure says."""
        of = car(0.663)
        half = half_car(of)
        found = launch_large(large_car(of, half), scene(half, 1.75, 40e3, 2.0), linear(of, COEFFICIENT))
        height, load = found.trace["front_wheel_height_m"], found.trace["front_load_n"]
        assert height.max() == pytest.approx(found.metrics["front_wheel_height_m"], rel=0.01)
        assert height.max() > 0.005
        assert np.array_equal(height > 0, load == 0)


class TestGoingOver:
    def test_both_say_so_and_when(self):
        _, ours, theirs = both(2.5, 40e3, 0.663, False)
        assert theirs.over == pytest.approx(float(ours.figures[0, at.OVER]), abs=0.015)

    def test_both_say_no_with_a_bar(self):
        """The grip with which it goes over without."""
        without = both(2.1, 40e3, 0.663, False)
        assert without[2].over == pytest.approx(float(without[1].figures[0, at.OVER]), abs=0.015)
        _, ours, theirs = both(2.1, 40e3, 0.663, True)
        assert theirs.over is None
        assert np.isnan(ours.figures[0, at.OVER])

    def test_no_figure_beyond_it_is_a_number(self):
        of = car(0.663)
        half = half_car(of)
        found = launch_large(large_car(of, half), scene(half, 2.5, 40e3, 2.0), linear(of, COEFFICIENT))
        assert found.metrics["goes_over_s"] == pytest.approx(0.65, abs=0.05)
        others = {k: v for k, v in found.metrics.items() if k != "goes_over_s"}
        assert not any(np.isfinite(list(others.values())))
        assert found.trace["time_s"][-1] <= found.metrics["goes_over_s"]


class TestSlip:
    def test_wheelspin_against_bodies_and_rods(self):
        """Torque past the grip of a surface that grips less when the wheels spin."""
        of = car(wheel_inertia=0.8)
        half = half_car(of)
        large = large_car(of, half)
        torque = 2600.0
        rows = run(
            large, sides(*linear(of, COEFFICIENT)).take([1]), [turned(half, torque, 0.65, 0.5)], [(0, 0)], keep=True
        )
        theirs = oracle.run(
            world(of, large, 1.0, 0.0, torque=lambda t, _w: torque * min(t / RISE, 1.0),
                  slip=oracle.falling_grip(0.65, 0.5, 15.0, FALLS, weight(of)), spin=large.spin[1]), 1.5, 1e-3,
        )  # fmt: skip
        speed = rows.states[0, at.REAR_SPIN] * RADIUS
        assert np.abs(speed - theirs.wheel_speed).max() < 0.01 * np.ptp(theirs.wheel_speed)
        assert np.abs(rows.states[0, at.X] - theirs.x).max() < 0.01 * np.ptp(theirs.x)
        for ours, true in (
            (rows.states[0, at.PITCH], theirs.pitch), (rows.states[0, at.Z] - large.height, theirs.heave),
            (rows.kept[0, at.LOAD], theirs.front_load), (rows.kept[0, at.LOAD + 1], theirs.rear_load),
        ):  # fmt: skip
            assert np.abs(ours - true).max() < CLOSE * np.ptp(true)
        slip = (theirs.wheel_speed - np.gradient(theirs.rear_x, theirs.time)) / np.maximum(
            np.gradient(theirs.rear_x, theirs.time), 3.0
        )
        assert rows.figures[0, at.SPUN] == pytest.approx(np.count_nonzero(slip[:-1] > 0.3) * 1e-3, rel=CLOSE)
        assert rows.energy_off[0] < 1e-3
        assert rows.figures[0, at.SPUN] > 0.5

    @pytest.mark.parametrize("coefficient", often(1, [COEFFICIENT, 2400.0]))
    def test_a_driver_who_lifts_against_bodies_and_rods(self, coefficient):
        """He holds a slip beyond that of most grip, where it runs away from him again and again."""
        large, ours, theirs = lifting(coefficient)
        for mine, true in (
            (ours.states[0, at.FOOT], theirs.foot), (ours.states[0, at.REAR_SPIN] * RADIUS, theirs.wheel_speed),
            (ours.states[0, at.X], theirs.x), (ours.states[0, at.PITCH], theirs.pitch),
            (ours.kept[0, at.LOAD + 1], theirs.rear_load),
        ):  # fmt: skip
            assert np.abs(mine - true).max() < CLOSE * np.ptp(true)
        assert ours.energy_off[0] < 1e-3
        assert ours.states[0, at.FOOT].min() < 0.05  # he lifts wholly, and comes back
        assert ours.states[0, at.FOOT, -1] > 0.1
        of = car(wheel_inertia=0.8)
        free = run(large, sides(*linear(of, coefficient)).take([1]), [turned(large.half, 2600.0, 0.65, 0.5)], [(0, 0)],
                   keep=False)  # fmt: skip
        assert 0 < ours.figures[0, at.SPUN] < free.figures[0, at.SPUN]

    def test_what_a_damper_changes_of_the_way_covered_is_what_bodies_and_rods_say(self):
        (_, firm, firmly), (_, soft, softly) = (lifting(c) for c in (COEFFICIENT, 2400.0))
        ours = float(soft.states[0, at.X, -1] - firm.states[0, at.X, -1])
        theirs = float(softly.x[-1] - firmly.x[-1])
        assert ours == pytest.approx(theirs, abs=0.05 * abs(theirs))
        assert abs(theirs) > 5e-4  # half a millimetre and more, of four metres

    def test_a_load_that_swings_costs_grip(self):
        """Firm shocks on a rough road: the share of the mean load's grip that is lost is what the swing says."""
        of, falls = car(wheel_inertia=0.8), 0.2
        half = half_car(of)
        found = {}
        for coefficient in (1000.0, 6000.0):
            rough = turned(half, 2600.0, 0.65, 0.65)
            rough = replace(rough, surface=replace(rough.surface, roughness=1024e-6, load_sensitivity=falls))
            ran = run(large_car(of, half), sides(*linear(of, coefficient)).take([1]), [rough], [(0, 0)], keep=True)
            share = ran.kept[0, at.LOAD + 1, 300:] / weight(of)
            used = ran.kept[0, at.FORCE + 1, 300:].mean() / weight(of) / 0.65
            lost = 1.0 - used / share.mean() ** (1.0 - falls)
            swing = np.var(share) / share.mean() ** 2
            assert lost == pytest.approx(falls * (1.0 - falls) / 2.0 * swing, rel=0.3)  # the first term of the series
            found[coefficient] = lost
        assert found[6000.0] > 2.0 * found[1000.0] > 0.001

    def test_what_spins_the_engine_up_does_not_lift_the_nose(self):
        """An engine takes most of the torque for itself: as bodies and rods have it, and less than heavy wheels do."""
        ratio, inertia, torque = 10.0, 0.14, 260.0
        engine = Engine((0.0, 1e4), (torque, torque), ratio, inertia)
        of = car(wheel_inertia=0.8, engine=engine)
        half = half_car(of)
        large = large_car(of, half)
        made = Scene(
            engine_drive(half, engine, RADIUS, rise=RISE), Surface("ice", 0.2, 0.0, 0.15, load_sensitivity=FALLS), 1.0
        )
        ours = run(large, sides(*linear(of, COEFFICIENT)).take([1]), [made], [(0, 0)], keep=True)
        theirs = oracle.run(
            world(of, large, 1.0, 0.0, torque=lambda t, _w: ratio * torque * min(t / RISE, 1.0),
                  slip=oracle.falling_grip(0.2, 0.15, 15.0, FALLS, weight(of)), spin=1.6,
                  engine=inertia * ratio**2), 1.0, 1e-3,
        )  # fmt: skip
        assert np.abs(ours.states[0, at.PITCH] - theirs.pitch).max() < 2e-3 * np.ptp(theirs.pitch)
        assert ours.energy_off[0] < 1e-3
        heavy = car(wheel_inertia=0.8 + inertia * ratio**2 / 2)
        alone = run(large_car(heavy, half_car(heavy)), sides(*linear(heavy, COEFFICIENT)).take([1]),
                    [turned(half, ratio * torque, 0.2, 0.15)], [(0, 0)], keep=True)  # fmt: skip
        assert ours.states[0, at.PITCH].max() < 0.5 * alone.states[0, at.PITCH].max()

    def test_the_law_is_the_one_of_its_sentence(self):
        """Grip and stiffness of the surface, and what is left when the wheel spins, found apart by bisection."""
        law, other = slip_law(0.65, 0.5, 12.0), oracle.falling_grip(0.65, 0.5, 12.0)
        slips = np.linspace(-1.0, 3.0, 81)
        np.testing.assert_allclose(law.at(slips), [other(k, 1.0) for k in slips], rtol=1e-6, atol=1e-12)

    def test_more_torque_past_the_grip_spins_longer_and_goes_less_far(self):
        of = car(wheel_inertia=0.8)
        half = half_car(of)
        found = [
            launch_large(large_car(of, half), turned(half, torque, 0.65, 0.35), linear(of, COEFFICIENT)).metrics
            for torque in (500.0, 880.0, 3000.0)
        ]
        spun, gone = ([m[key] for m in found] for key in ("wheelspin_s", "distance_m"))
        assert spun[0] == 0.0 <= spun[1] < spun[2]
        assert gone[0] < gone[1] > gone[2]  # short of the grip, near it, and lost in spinning


@cache
def lifting(coefficient, slip=0.4, torque=2600.0):
    """A driver who holds a slip on a loose surface, by both: large car, ours, theirs."""
    of = car(wheel_inertia=0.8)
    half = half_car(of)
    large = large_car(of, half)
    free = turned(half, torque, 0.65, 0.5)
    made = replace(free, drive=slip_held(free.drive, half, free.surface, slip))
    ours = run(large, sides(*linear(of, coefficient)).take([1]), [made], [(0, 0)], keep=True, step=5e-4)
    grip = oracle.falling_grip(0.65, 0.5, 15.0, FALLS, weight(of))
    theirs = oracle.run(
        world(of, large, 1.0, 0.0, coefficient, torque=lambda t, _w: torque * min(t / RISE, 1.0), slip=grip,
              spin=large.spin[1], driver=(slip, 0.3, grip(slip, weight(of)) * RADIUS / torque)), 1.5, 5e-4,
    )  # fmt: skip
    return large, ours, theirs


def turned(half, torque, grip, sliding):
    from dynoan.analysis.launch.drive import torque_drive

    return Scene(
        torque_drive(half, torque, RADIUS, rise=RISE), Surface("loose", grip, 0.0, sliding, load_sensitivity=FALLS), 1.5
    )


class TestOneRowAtATime:
    @pytest.mark.parametrize("slips", often(1, [True, False]))
    def test_compiled_and_arrays_are_the_same(self, slips):
        of = replace(car(bar=BAR, tyre_damping={"rear": 200.0}, friction={"front": 30.0, "rear": 40.0}), antisquat=None)
        half = half_car(of)
        large = replace(large_car(of, half), stuck=(0.6, -0.3))
        made = turned(half, 2600.0, 0.65, 0.5) if slips else scene(half, 1.2, 20e3, 1.5)
        made = replace(made, duration=0.4)
        levels = sides(*damping(of, lsc=3, hsc=3, lsr=3, hsr=3))
        ours = run(large, levels, [made], [(0, 0), (1, 0), (2, 0)], keep=True)
        half_steps = np.arange(801) * 5e-4
        force = np.interp(half_steps, made.drive.time, made.drive.asked)[:, None] * half.frame.mass * np.ones(3)
        turning = made.drive.turning
        torque = (
            None
            if turning is None
            else 2600.0 * np.interp(half_steps, made.drive.time, turning.throttle)[:, None] * np.ones(3)
        )
        pull = Pull(force, np.full(3, made.surface.grip), torque, (slip_law(0.65, 0.5),), falls=FALLS)
        stepper = Stepper(large, levels, Ground(np.zeros((1, 1)), 1.0, np.zeros(3, int)), pull)
        theirs = run_large(stepper, 3, 1e-3, 400)
        assert ours.states == pytest.approx(theirs.states.transpose(1, 0, 2), abs=1e-9)
        assert ours.kept[:, at.ENERGY] == pytest.approx(theirs.energy, abs=1e-6)


class TestSmallAngles:
    def test_the_small_angle_car_is_the_limit(self):
        """A gentle start on the flat: nose, rear and loads as at small angles."""
        of = without_stops(kestrel())
        half = half_car(of)
        made = Scene(ramp(1.0, RISE, "", limited=True), FLAT, 1.5)
        small = launch(half, made, damping(of, lsc=3, hsc=3, lsr=3, hsr=3)).metrics
        large = launch_large(large_car(of, half), made, damping(of, lsc=3, hsc=3, lsr=3, hsr=3)).metrics
        for key in (
            "nose_rise_m",
            "nose_rise_rate_m_s",
            "rear_squat_m",
            "pitch_peak_rad",
            "front_load_end_n",
            "rear_load_end_n",
        ):
            assert large[key] == pytest.approx(small[key], rel=0.02), key

    def test_a_rough_road_too(self):
        of = without_stops(kestrel())
        half = half_car(of)
        made = Scene(ramp(2.0, RISE, "", limited=True), Surface("rough", 0.65, 256e-6), 1.0)
        rows = run(
            large_car(of, half), sides(*damping(of, lsc=3, hsc=3, lsr=3, hsr=3)).take([1]), [made], [(0, 0)], keep=True
        )
        small = launch(half, made, damping(of, lsc=3, hsc=3, lsr=3, hsr=3)).trace
        load = np.interp(small["time_s"], rows.time, rows.kept[0, at.LOAD + 1])
        assert np.corrcoef(load, small["rear_load_n"])[0, 1] > 0.98
        assert rows.energy_off[0] < 1e-3
