"""Wheel lift, tyre slip, driveshaft reaction and roll against published and derived figures."""

from __future__ import annotations

import math
import tomllib
from dataclasses import replace

import numpy as np
import pytest

from dynoan.analysis.launch.drive import constant_acceleration, torque_drive
from dynoan.analysis.launch.from_car import half_car
from dynoan.analysis.launch.large import layout as at
from dynoan.analysis.launch.large import tyre
from dynoan.analysis.launch.large.model import large_car
from dynoan.analysis.launch.large.motion import Angle, AxleState, Path, wheel_centre
from dynoan.analysis.launch.large.rows import run
from dynoan.analysis.launch.load_transfer import Frame
from dynoan.analysis.launch.scene import Scene
from dynoan.analysis.launch.sides import sides
from dynoan.analysis.launch.torque_reaction import (
    load_moved,
    roll_stiffness,
    shaft_torque,
)
from dynoan.library.car_file import car_from_data
from dynoan.model.car import AXLES, Car, Surface
from dynoan.model.links import Extras, WheelieBar
from dynoan.units import GRAVITY
from tests.analysis.launch_cars import FLAT, corner, linear
from tests.checks import FIXTURES, check
from tests.oracles import roll
from tests.oracles import tyre as published
from tests.oracles.load_transfer import grip_limited_acceleration, wheelie_acceleration
from tests.oracles.roll import traction_limit, with_tyres

BASE = 2.5  #: wheelbase of cars whose lift-off does not hang on it [m]


class TestWheelLift:
    @pytest.mark.parametrize("name", ["kB01", "kB02", "kB03"])
    def test_where_the_front_wheels_leave_the_ground(self, name):
        found = check(name)
        i = found.inputs
        frame = Frame(1.0, 1.0, i["cg_to_rear_m"], i["cg_height_m"])
        found.holds(wheelie_acceleration(frame, gravity=i["g_m_s2"]))

    def test_in_feet(self):
        found = check("kB04")
        i = found.inputs
        frame = Frame(1.0, 1.0, i["cg_to_rear_ft"], i["cg_height_ft"])
        found.holds(wheelie_acceleration(frame, gravity=i["g_ft_s2"]))

    def test_front_load_over_acceleration(self):
        found = check("kB05")
        i = found.inputs
        front = i["wheelbase_m"] - i["cg_to_rear_m"]
        frame = Frame(i["mass_kg"], front, i["cg_to_rear_m"], i["cg_height_m"])
        at_rest = i["mass_kg"] * GRAVITY * i["cg_to_rear_m"] / i["wheelbase_m"]
        loads = [
            at_rest - i["mass_kg"] * a * GRAVITY * i["cg_height_m"] / i["wheelbase_m"] for a in i["acceleration_g"]
        ]
        found.holds([*loads, wheelie_acceleration(frame) / GRAVITY])

    def test_grip_it_takes(self):
        """With just that grip the grip-limited acceleration is the one that lifts the front wheels."""
        found = check("kB06")
        i = found.inputs
        for base in (2.0, 2.7):
            frame = Frame(1360.0, base - i["cg_to_rear_m"], i["cg_to_rear_m"], i["cg_height_m"])
            lifts = grip_limited_acceleration(frame, found.expected, "rear")
            assert lifts == pytest.approx(wheelie_acceleration(frame), rel=1e-9)
        found.holds(wheelie_acceleration(frame) / GRAVITY)

    def test_on_the_wheelie_bar(self):
        """The published figures level; then the car driven off, whose nose has risen until the bar carried it."""
        found = check("kB07")
        i = found.inputs
        a = i["acceleration_g"] * GRAVITY
        level = bar_force(i["mass_kg"], a, (i["cg_to_rear_m"], i["cg_height_m"]), i["bar_behind_axle_m"])
        rear = i["mass_kg"] * GRAVITY - level
        found.holds([level, rear, i["mass_kg"] * a / rear])
        large = stiff(i, WheelieBar(i["bar_behind_axle_m"], 2e-3, 5e6))
        ran = pushed(large, constant_acceleration(a, rise=1.0), 3.0)
        states, kept = (of[0, :, -18000:].mean(axis=1) for of in (ran.states, ran.kept))  # it bounces on the bar
        pitch, travel = states[at.PITCH], states[at.REAR]
        assert (kept[at.LOAD], pitch > 1e-3) == (0.0, True)
        axle = AxleState(-large.half.arms.rear, large.height - large.radius, 1.0, travel, 0.0, Path(0.0, 0.0, 0.0, 0.0))
        back, _, _, _ = wheel_centre(axle, Angle(math.sin(pitch), math.cos(pitch), 0.0))
        sprung = large.half.sprung
        ahead = (sprung * -back + 20.0 * BASE) / i["mass_kg"]  # with the light front wheels, which hang on their stops
        heights = kept[at.WHEEL : at.WHEEL + 2] + large.radius
        up = (sprung * states[at.Z] + 20.0 * heights.sum()) / i["mass_kg"]
        told = bar_force(i["mass_kg"], a, (ahead, up), i["bar_behind_axle_m"] * math.cos(pitch))
        assert kept[at.BAR] == pytest.approx(told, rel=0.02)

    def test_the_centre_of_gravity_rises_and_moves_back_with_pitch(self):
        found = check("kB08")
        i = found.inputs
        out = []
        for degrees in i["pitch_deg"]:
            back, down = centre_from_axle(i, math.radians(degrees), i["wheel_radius_m"])
            height = i["wheel_radius_m"] + down
            out += [height, back / height]
        found.holds(out)

    def test_the_balance_point(self):
        """Wheels that turn with the body: about the contact patch."""
        found = check("kB09")
        under = math.radians(found.expected)
        assert centre_from_axle(found.inputs, under, 0.0)[0] == pytest.approx(0.0, abs=1e-6)
        assert (
            centre_from_axle(found.inputs, under - 0.01, 0.0)[0]
            > 0
            > centre_from_axle(found.inputs, under + 0.01, 0.0)[0]
        )

    def test_wheels_that_must_be_spun_up_lift_the_front_sooner(self):
        """Torque that comes in over four seconds; the acceleration where the front load ends."""
        found = check("kB10")
        i = found.inputs
        lifts = []
        for spin in (1e-6, i["wheel_inertia_sum_kg_m2"]):
            large = replace(stiff(i, None), spin=(0.0, spin), radius=i["wheel_radius_m"])
            force = 1.3 * i["mass_kg"] * found.expected[0]
            drive = torque_drive(large.half, force * large.radius, large.radius, rise=4.0)
            ran = pushed(large, drive, 3.6, Surface("made", 4.0, 0.0, 3.9, 100.0))
            speed = ran.states[0, at.RATES + at.X]
            gone = int(np.argmax(ran.kept[0, at.LOAD] <= 0.0))
            lifts.append((speed[gone] - speed[gone - 200]) / (ran.time[gone] - ran.time[gone - 200]))
        without, with_wheels, _ = found.expected
        assert lifts[0] == pytest.approx(without, rel=4e-3), found.source
        assert lifts[1] / lifts[0] == pytest.approx(with_wheels / without, rel=1.5e-3), found.source

    def test_a_spinning_rear_axle(self):
        found = check("kC10")
        i = found.inputs
        frame = Frame(i["weight_lb"] / i["g_ft_s2"], i["cg_to_front_ft"], i["cg_to_rear_ft"], i["cg_height_ft"])
        a = grip_limited_acceleration(frame, i["mu"], "rear", gravity=i["g_ft_s2"])
        base = i["cg_to_front_ft"] + i["cg_to_rear_ft"]
        front = i["weight_lb"] * (i["cg_to_rear_ft"] / base - a / i["g_ft_s2"] * i["cg_height_ft"] / base)
        found.holds([front, i["weight_lb"] - front, a])


def stiff(i, bar):
    """A rear-driven car of nearly nothing but sprung mass on springs and tyres that hardly give."""
    front = i["mass_kg"] * i["cg_to_rear_m"] / BASE / 2
    masses = {"fl": front, "fr": front, "rl": i["mass_kg"] / 2 - front, "rr": i["mass_kg"] / 2 - front}
    like = {
        "unsprung": 10.0,
        "spring": 8e6,
        "spring_ratio": 1.0,
        "tyre": 1e7,
        "bump_travel": None,
        "droop_travel": 1e-4,
    }
    made = {name: corner(name, mass, **like) for name, mass in masses.items()}
    radius = i.get("wheel_radius_m", 0.3)
    car = Car("stiff", made, wheelbase=BASE, cg_height=i["cg_height_m"], driven="rear", antisquat=0.0,
              wheel_radius=radius, extras=Extras(bar=bar))  # fmt: skip
    return large_car(car, half_car(car))


def bar_force(mass, acceleration, centre, behind):
    """Moments about the rear contact patch; `centre` of gravity ahead of it and above."""
    return mass * (acceleration * centre[1] - GRAVITY * centre[0]) / behind


def pushed(large, drive, duration, surface=FLAT):
    car = Car("of damping", {name: corner(name) for name in ("fl", "fr", "rl", "rr")})
    damped = sides(*linear(car, 2e4)).take([1])
    return run(large, damped, [Scene(drive, surface, duration)], [(0, 0)], keep=True, step=1e-4)


def centre_from_axle(i, pitch, radius):
    """How far the centre of gravity lies ahead of and above the centre of the rear wheels."""
    axle = AxleState(-i["cg_to_rear_m"], i["cg_height_m"] - radius, 1.0, 0.0, 0.0, Path(0.0, 0.0, 0.0, 0.0))
    ahead, up, _, _ = wheel_centre(axle, Angle(math.sin(pitch), math.cos(pitch), 0.0))
    return -ahead, -up


class TestTyre:
    def test_the_published_tables_are_the_ones_the_laws_are_tried_with(self):
        burckhardt = np.reshape(check("kC01").expected, (4, 3))
        peaks = [v for law in burckhardt[:3] for v in published.exponential_peak(tuple(law))]
        check("kC03").holds(peaks)
        assert published.exponential(1.0, tuple(burckhardt[3])) == pytest.approx(0.05)  # ice does not fall off
        magic = np.reshape(check("kC05").expected, (4, 4))
        tried = check("kC06").inputs
        assert [list(row) for row in magic] == [tried[name] for name in ("dry", "wet", "snow", "ice")]

    def test_exponential_law(self):
        found = check("kC02")
        i = found.inputs
        found.holds(np.concatenate([published.exponential(i["slip"], tuple(i[c])) for c in ("c_dry", "c_wet")]))

    @pytest.mark.parametrize("name", ["kC03", "kC04"])
    def test_its_peaks(self, name):
        found = check(name)
        laws = found.inputs.get("c") or list(found.inputs.values())
        found.holds([v for law in laws for v in published.exponential_peak(tuple(law))])

    def test_sine_arctangent_law(self):
        found = check("kC06")
        i = found.inputs
        dry = tuple(i["dry"])
        values = published.sine_arctangent(i["slip"], dry)
        step = 1e-6
        slope = float(published.sine_arctangent(step, dry)) / step
        peaks = []
        for name in ("dry", "wet", "snow", "ice"):
            slips = np.linspace(0.01, 0.6, 2_000_001)
            peaks.append(slips[np.argmax(published.sine_arctangent(slips, tuple(i[name])))])
        wanted = np.array(found.expected)
        np.testing.assert_allclose([*values, slope], wanted[:7], rtol=1e-5, err_msg=found.source)
        np.testing.assert_allclose(peaks, wanted[7:], rtol=1e-3, err_msg=found.source)

    def test_brush(self):
        found = check("kC07")
        i = found.inputs
        force = published.brush(i["slip"], stiffness=i["slip_stiffness_n"], grip=i["mu"], load=i["load_n"])
        found.holds([3 * i["mu"] * i["load_n"] / i["slip_stiffness_n"], *force])

    def test_rolling_radius(self):
        found = check("kC08")
        found.holds(published.rolling_radius(free=found.inputs["radius_m"], loaded=found.inputs["loaded_m"]))

    def test_slip_is_over_the_speed_of_the_car(self):
        """Two are in use: ours is the first, over the car's speed."""
        found = check("kC09")
        wheel, car = found.inputs["wheel_speed_m_s"], found.inputs["speed_m_s"]
        ours = (wheel - car) / max(abs(car), tyre.SLOWEST)
        found.holds([ours, ours / (1 + ours)])

    def test_a_surface_keeps_its_peak_its_slope_and_its_sliding_grip(self):
        law = tyre.slip_law(0.65, 0.5, 14.0)
        slips = np.linspace(0.0, 60.0, 600_001)
        grip = law.at(slips)
        assert grip.max() == pytest.approx(0.65, rel=1e-6)
        assert slips[np.argmax(grip)] == pytest.approx(np.tan(np.pi / 2 / law.shape) / law.factor, abs=2e-4)
        assert grip[1] / slips[1] == pytest.approx(14.0, rel=1e-3)
        assert grip[-1] == pytest.approx(0.5, rel=2e-3)


class TestDriveshaft:
    def inputs(self):
        i = check("kD01").inputs
        base, height, radius, track = i["wheelbase_in"], i["cg_height_in"], i["wheel_radius_in"], i["track_in"]
        share = i["roll_front_ftlb_deg"] / (i["roll_front_ftlb_deg"] + i["roll_rear_ftlb_deg"])
        moved = load_moved(shaft_torque(1.0, radius, i["final_drive"]), track, other=share, own=1 - share)
        return i, height / base, moved

    @pytest.mark.parametrize(("name", "locked"), [("kD01", False), ("kD02", True)])
    def test_traction_of_a_live_axle(self, name, locked):
        i, transfer, moved = self.inputs()
        force = traction_limit(driven=i["rear_lb"], grip=i["mu"], transfer=transfer, moved=moved, locked=locked)
        check(name).holds([force, force / (i["front_lb"] + i["rear_lb"])])

    def test_its_parts(self):
        i, transfer, moved = self.inputs()
        force = check("kD01").expected[0]
        torque = shaft_torque(force, i["wheel_radius_in"], i["final_drive"])
        each = (i["rear_lb"] + force * transfer) / 2
        check("kD03").holds([force * transfer, torque, force * moved, each - force * moved, each + force * moved])

    def test_without_roll_coupling(self):
        found = check("kD04")
        i = found.inputs
        torque = shaft_torque(i["thrust_n"], i["loaded_radius_m"], i["axle_ratio"])
        found.holds([load_moved(torque, i["track_m"], other=1.0, own=0.0), torque])

    def test_with_it(self):
        found = check("kD05")
        i = found.inputs
        torque = shaft_torque(i["thrust_n"], i["loaded_radius_m"], i["axle_ratio"])
        front, rear = i["roll_front_n_m_rad"], i["roll_rear_n_m_rad"]
        moved = load_moved(torque, i["track_m"], other=front, own=rear)
        found.holds([torque, moved, -moved, math.degrees(torque / (front + rear))])

    def test_front_stiffness_decides(self):
        found = check("kD06")
        i = found.inputs
        moved = [
            load_moved(i["driveshaft_torque_n_m"], i["track_m"], other=front, own=i["roll_rear_n_m_rad"])
            for front in (*i["roll_front_n_m_rad"], 1e15)
        ]
        found.holds([*moved, 0.0])

    def test_torque_that_empties_a_tyre(self):
        found = check("kD07")
        i = found.inputs
        per_torque = load_moved(1.0, i["track_m"], other=i["front_share"], own=1 - i["front_share"])
        found.holds(i["rear_axle_n"] / 2 / per_torque)


class TestRoll:
    def bar(self, name):
        found = check(name)
        i = found.inputs
        return found, i, roll.bar_rate(i["diameter_m"], i["length_m"], i["shear_modulus_pa"])

    def test_torsion_bar(self):
        found, _, rate = self.bar("kJ01")
        found.holds([rate, rate * math.pi / 180])

    def test_at_the_wheels(self):
        found, i, rate = self.bar("kJ02")
        end = rate / i["arm_m"] ** 2
        at_wheel = 2 * end * i["bar_travel_per_wheel"] ** 2  # each end opposite: our anti_roll
        stiffness = roll_stiffness(0.0, i["track_m"], anti_roll=at_wheel)
        found.holds([end, 2 * end, stiffness, stiffness * math.pi / 180])

    def test_hollow(self):
        found = check("kJ03")
        outer, inner = found.inputs["outer_m"], found.inputs["inner_m"]
        found.holds(roll.bar_rate(outer, 1.0, 1.0, inner) / roll.bar_rate(outer, 1.0, 1.0))

    def test_bending_arms(self):
        found, i, rate = self.bar("kJ04")
        arm, end = roll.arm_rate(i["diameter_m"], i["arm_m"], i["youngs_pa"]), 2 * rate / i["arm_m"] ** 2
        both = 1 / (1 / end + 1 / arm)
        found.holds([arm, both, both / end])

    def test_two_springs(self):
        found = check("kJ05")
        stiffness = roll_stiffness(found.inputs["wheel_rate_n_m"], found.inputs["track_m"])
        found.holds([stiffness, stiffness * math.pi / 180])

    def test_springs_bar_and_tyres(self):
        found, i, rate = self.bar("kJ06")
        at_wheel = 2 * rate / i["arm_m"] ** 2 * i["bar_travel_per_wheel"] ** 2
        stiffness = roll_stiffness(i["wheel_rate_n_m"], i["track_m"], anti_roll=at_wheel)
        soft = with_tyres(stiffness, i["tyre_n_m"], i["track_m"])
        found.holds([stiffness, soft, soft * math.pi / 180])

    def test_gradient(self):
        found = check("kJ07")
        i = found.inputs
        found.holds(-i["mass_kg"] * 9.80665 * i["arm_m"] / (i["roll_front_n_m_rad"] + i["roll_rear_n_m_rad"]))

    def test_lateral_load_transfer(self):
        found = check("kJ08")
        i = found.inputs
        a, base = i["acceleration_g"] * GRAVITY, i["wheelbase_m"]
        to_rear = base - i["cg_to_front_m"]
        front, rear = i["roll_front_n_m_rad"], i["roll_rear_n_m_rad"]
        arm = i["cg_over_roll_axis_m"]
        f = roll.lateral(i["mass_kg"], a, arm, front, rear, base, to_rear, i["roll_centre_front_m"], i["track_m"])
        r = roll.lateral(
            i["mass_kg"], a, arm, rear, front, base, i["cg_to_front_m"], i["roll_centre_rear_m"], i["track_m"]
        )
        found.holds([f, r, f / (f + r)])

    def test_share_of_the_couple(self):
        """A front twice as stiff in roll bears two thirds: what the driveshaft moves at the rear too."""
        found = check("kJ09")
        found.holds(load_moved(1.0, 1.0, other=found.inputs["ratio"], own=1.0))

    def test_gradient_of_a_whole_car(self):
        """Read, not reckoned: a car of the demo's springs and bars rolls about as far as the source calls typical."""
        found = check("kJ10")
        with (FIXTURES / "demo" / "cars" / "kestrel.toml").open("rb") as file:
            car = car_from_data(tomllib.load(file), "cars/kestrel.toml", "kestrel")
        held = sum(
            roll_stiffness(
                sum(c.wheel_rate for c in car.axle(axle)) / 2, car.track[axle], anti_roll=car.extras.anti_roll[axle]
            )
            for axle in AXLES
        )
        mass = sum(c.mass for c in car.corners.values())
        assert car.cg_height is not None
        gradient = math.degrees(mass * GRAVITY * car.cg_height / held)  # about the ground: the most it can be
        assert 0.5 * found.expected < gradient < 3.0 * found.expected
