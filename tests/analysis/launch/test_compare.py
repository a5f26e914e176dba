"""The half-car must end where statics says, hold its energy, and follow other solvers of the same equations."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from scipy.integrate import solve_ivp

from dynoan.analysis.launch import load_transfer as lt
from dynoan.analysis.launch.compare import LaunchRun, apart, car_damping
from dynoan.analysis.launch.differences import difference
from dynoan.analysis.launch.drive import constant_acceleration, full_grip, torque_drive
from dynoan.analysis.launch.from_car import half_car
from dynoan.analysis.launch.scene import Scene
from dynoan.analysis.launch.sides import Sides, sides
from dynoan.analysis.launch.trace import energy_miss
from dynoan.model.car import Surface
from tests.analysis.launch_cars import FLAT, ROUGH, corner, curves, damping, kestrel, linear, without_stops
from tests.often import often
from tests.oracles import load_transfer as closed
from tests.oracles.small_angle.launching import launch
from tests.oracles.small_angle.road import table
from tests.oracles.small_angle.running import run_figures, run_states
from tests.oracles.small_angle.tracing import traced_out

LONG = 6.0


def steady(car, acceleration=4.0, **scene):
    half = half_car(car, curves(car))
    drive = constant_acceleration(acceleration, rise=0.3)
    return half, launch(half, Scene(drive, FLAT, duration=LONG, **scene), damping(car))


class TestStatics:
    """Steady state: m·a·h/L whatever the springs and links do (moments about a contact patch; check values w05)."""

    @pytest.mark.parametrize("antisquat", [0.0, 0.6, 1.0, 1.4])
    @pytest.mark.parametrize("driven", often(1, ["rear", "front", "all"]))
    def test_loads_end_at_load_transfer(self, antisquat, driven):
        half, run = steady(kestrel(antisquat=antisquat, driven=driven))
        front, rear = closed.axle_loads(half.frame, 4.0)
        assert run.metrics["front_load_end_n"] == pytest.approx(front, rel=1e-3)
        assert run.metrics["rear_load_end_n"] == pytest.approx(rear, rel=1e-3)
        moved = closed.load_transfer(half.frame, 4.0)
        assert run.metrics["load_transfer_end_n"] == pytest.approx(moved, rel=1e-3)

    @pytest.mark.parametrize(("driven", "axle"), [("rear", "rear"), ("front", "front"), ("all", "rear")])
    def test_full_antisquat_leaves_the_driven_suspension(self, driven, axle):
        half, run = steady(kestrel(antisquat=1.0, driven=driven))
        spring = getattr(half, axle).preload / getattr(half, axle).spring
        travel = run.trace[f"{axle}_travel_m"]
        assert np.all(np.abs(travel[-300:]) < 0.01 * spring)
        other = "front" if axle == "rear" else "rear"
        assert np.abs(run.trace[f"{other}_travel_m"][-1]) > 0.02 * spring

    def test_squat_and_pitch_end_at_the_closed_form(self):
        """Barton and Fieldhouse 2018, eqs 3.63-3.66 (check value w09), with the tyres' share added."""
        car = kestrel(antisquat=0.5)
        half, run = steady(car)
        slope = lt.antisquat_slope(half.frame, 0.5)
        expected = closed.steady_squat(
            half.frame, 4.0, front_rate=half.front.spring, rear_rate=half.rear.spring, slope=slope
        )
        assert run.trace["rear_travel_m"][-1] == pytest.approx(expected.rear, rel=2e-3)
        assert run.trace["front_travel_m"][-1] == pytest.approx(expected.front, rel=2e-3)
        moved = closed.load_transfer(half.frame, 4.0)
        tyres = moved * (1 / half.front.tyre + 1 / half.rear.tyre) / half.frame.wheelbase
        assert run.metrics["pitch_end_rad"] == pytest.approx(expected.pitch + tyres, rel=2e-3)

    def test_an_instant_centre_is_the_antisquat_of_its_line(self):
        slope = 0.6 * 0.51 / 2.43
        by_line = kestrel(antisquat=None, instant_centre=(1.9, 1.9 * slope))
        _, one = steady(by_line)
        _, other = steady(kestrel(antisquat=0.6))
        assert one.metrics["rear_squat_m"] == pytest.approx(other.metrics["rear_squat_m"], rel=1e-9)

    @pytest.mark.parametrize("driven", ["rear", "front"])
    def test_all_the_grip_gives_the_grip_limited_acceleration(self, driven):
        """R. N. Jazar, Vehicle Dynamics, eq. 2.117 (check value w04)."""
        car = kestrel(driven=driven)
        half = half_car(car, curves(car))
        run = launch(half, Scene(full_grip(half, FLAT), FLAT, duration=LONG), damping(car))
        expected = closed.grip_limited_acceleration(half.frame, FLAT.grip, driven)
        assert run.metrics["acceleration_end_m_s2"] == pytest.approx(expected, rel=1e-3)
        assert run.metrics["grip_limited_s"] > 5.5

    def test_a_small_torque_is_not_limited(self):
        car = kestrel()
        half = half_car(car)
        run = launch(half, Scene(torque_drive(half, 600.0, 0.3), FLAT, duration=LONG), damping(car))
        assert run.metrics["grip_limited_s"] == 0.0
        assert run.metrics["drive_force_mean_n"] == pytest.approx(2000.0, rel=0.02)
        assert run.metrics["acceleration_end_m_s2"] == pytest.approx(2000.0 / half.frame.mass, rel=1e-6)

    def test_at_rest_nothing_moves(self):
        car = kestrel()
        run = launch(half_car(car), Scene(constant_acceleration(0.0), FLAT), damping(car))
        assert run.metrics["nose_rise_m"] == 0.0
        assert run.metrics["driven_load_dip_n"] == pytest.approx(0.0, abs=1e-9)


ROUGHER = Surface("rougher", 0.9, 8192e-6)
SOFT = {"spring": 22e3, "bump_travel": 0.03, "droop_travel": 0.03}


class TestEnergy:
    """What goes in is held or spent: a force on one body only, or a wrong sign, shows here."""

    @pytest.mark.parametrize("antisquat", [0.0, 1.3])
    @pytest.mark.parametrize("driven", ["rear", "front", "all"])
    def test_balance_closes(self, antisquat, driven):
        car = kestrel(SOFT, antisquat=antisquat, driven=driven)
        half = half_car(car, curves(car))
        run = launch(half, Scene(full_grip(half, ROUGHER), ROUGHER), damping(car))
        assert run.metrics["energy_miss_pct"] < 0.1
        # The case is a hard one: tyres that lift, both kinds of stops.
        assert run.metrics["front_wheel_lift_s"] > 0
        assert run.metrics["front_on_droop_stop_s"] > 0
        assert run.metrics["rear_on_bump_stop_s"] > 0

    def test_a_wrong_force_is_found(self):
        car = kestrel(antisquat=1.0)
        half = half_car(car)
        scene = Scene(constant_acceleration(5.0), FLAT)
        levels = sides(*damping(car))
        states = run_states(half, scene, levels)
        wrong = replace(half, rear=replace(half.rear, slope=0.0))
        assert energy_miss(half, traced_out(half, scene, states, levels)).max() < 1e-3
        assert energy_miss(wrong, traced_out(wrong, scene, states, levels)).min() > 0.02


def matrices(half, coefficient):
    """M, C, K and the vector of the drive force, written down from the free bodies, not from the code under test."""
    a, b = half.arms
    ms, iy = half.sprung, half.pitch_inertia
    to_front, to_rear = np.array([-1.0, -a, 1.0, 0.0]), np.array([-1.0, b, 0.0, 1.0])
    mass = np.diag([ms, iy, half.front.unsprung, half.rear.unsprung])
    rates = ((half.front, to_front), (half.rear, to_rear))
    stiff = sum(axle.spring * np.outer(u, u) for axle, u in rates)
    stiff = stiff + np.diag([0.0, 0.0, half.front.tyre, half.rear.tyre])
    damp = coefficient * sum(np.outer(u, u) for _, u in rates)
    drive = np.array([0.0, half.frame.height, 0.0, 0.0]) - half.rear.slope * to_rear
    return mass, damp, stiff, drive


class TestLinear:
    """Small motion, linear dampers: the equations have a closed solution."""

    COEFFICIENT = 4000.0
    FORCE = 1500.0

    @pytest.fixture(scope="class")
    @classmethod
    def case(cls):
        car = without_stops(kestrel())
        half = half_car(car)
        dampers = linear(car, cls.COEFFICIENT / (2 * 0.92**2))
        drive = constant_acceleration(cls.FORCE / half.frame.mass, rise=0.0)
        scene = Scene(drive, FLAT, duration=2.0)
        levels = sides(*dampers)
        one = Sides(*(side.take([1]) for side in levels))
        return half, scene, one, run_states(half, scene, one)

    def test_against_the_analytical_step_response(self, case):
        """Modal solution x(t) = Σ of decaying exponentials of the first-order system, from its eigenvalues."""
        half, _, _, states = case
        m, c, k, drive = matrices(half, self.COEFFICIENT)
        inverse = np.linalg.inv(m)
        system = np.block([[np.zeros((4, 4)), np.eye(4)], [-inverse @ k, -inverse @ c]])
        values, vectors = np.linalg.eig(system)
        end = np.concatenate([np.linalg.solve(k, drive * self.FORCE), np.zeros(4)])
        weights = np.linalg.solve(vectors, -end)
        exact = end[:, None] + (vectors @ (weights[:, None] * np.exp(np.outer(values, states.time)))).real
        for i in range(8):
            span = np.ptp(exact[i])
            np.testing.assert_allclose(states.values[0, i], exact[i], rtol=0, atol=1e-3 * span)

    def test_against_solve_ivp(self, case):
        half, _, _, states = case
        m, c, k, drive = matrices(half, self.COEFFICIENT)
        inverse = np.linalg.inv(m)

        def slope(_t, y):
            return np.concatenate([y[4:], inverse @ (drive * self.FORCE - c @ y[4:] - k @ y[:4])])

        peer = solve_ivp(slope, (0, 2.0), np.zeros(8), method="DOP853", rtol=1e-11, atol=1e-13, t_eval=states.time)
        for i in range(8):
            np.testing.assert_allclose(states.values[0, i], peer.y[i], rtol=0, atol=1e-6 * np.ptp(peer.y[i]))


def nonlinear_slope(half, scene, damping_sides):
    """The equations of motion in plain Python over one setting, for scipy to solve."""
    grid = table(half, scene)
    times = np.arange(len(grid)) * scene.step / 2
    a, b = half.arms

    def side(hinge, v):
        return float(np.sum(hinge.gains[0] * np.maximum(v - hinge.knots[0], 0.0)))

    def axle(x, u, v, compression, rebound):
        spring = max(x.spring * u + x.preload, 0.0) - x.preload
        stop = x.stop_rate * (max(u - x.bump, 0.0) - max(-u - x.droop, 0.0))
        return spring + stop + side(compression, v) - side(rebound, -v)

    def slope(t, y):
        z, p, zf, zr, dz, dp, df, dr = y
        roads = [np.interp(t, times, grid[:, i]) for i in range(4)]
        nf = max(half.front.static_load + half.front.tyre * (roads[0] - zf), 0.0)
        nr = max(half.rear.static_load + half.rear.tyre * (roads[1] - zr), 0.0)
        xr = min(roads[3], scene.grip * nr)
        front = axle(half.front, zf - z - a * p, df - dz - a * dp, *damping_sides[:2])
        rear = axle(half.rear, zr - z + b * p, dr - dz + b * dp, *damping_sides[2:]) + half.rear.slope * xr
        return [
            dz, dp, df, dr, (front + rear) / half.sprung,
            (a * front - b * rear + half.frame.height * xr) / half.pitch_inertia,
            (nf - half.front.static_load - front) / half.front.unsprung,
            (nr - half.rear.static_load - rear) / half.rear.unsprung,
        ]  # fmt: skip

    return slope


@pytest.mark.slow
@pytest.mark.thorough
def test_hard_nonlinear_case_against_solve_ivp():
    """Stops, lifting tyres, slack springs, grip limit and real curves: the same equations by another solver."""
    car = kestrel(SOFT)
    half = half_car(car, curves(car))
    scene = Scene(full_grip(half, ROUGHER), ROUGHER, duration=1.2)
    levels = Sides(*(side.take([1]) for side in sides(*damping(car))))
    states = run_states(half, scene, levels)
    peer = solve_ivp(
        nonlinear_slope(half, scene, levels), (0, 1.2), np.zeros(8), method="DOP853", rtol=1e-7, atol=1e-10,
        t_eval=states.time[::8], max_step=2e-3,
    )  # fmt: skip
    for i in (1, 3):
        np.testing.assert_allclose(
            states.values[0, i, ::8], peer.y[i], rtol=0, atol=5e-5 * np.ptp(peer.y[i]), err_msg=str(i)
        )


class TestSense:
    """Changes of the car do what anyone would expect."""

    def test_more_damping_slows_the_nose(self):
        car = kestrel()
        half = half_car(car)
        scene = Scene(constant_acceleration(5.0), FLAT)
        stiff, soft = (launch(half, scene, damping(car, lsc=n, hsc=n, lsr=n, hsr=n)) for n in (0, 18))
        assert stiff.metrics["nose_rise_rate_m_s"] < 0.9 * soft.metrics["nose_rise_rate_m_s"]

    def test_twice_a_linear_drive_is_twice_the_motion(self):
        car = without_stops(kestrel())
        half = half_car(car)
        one, two = (
            launch(half, Scene(constant_acceleration(a), FLAT), linear(car, 3000.0)).metrics for a in (1.0, 2.0)
        )
        for name in ("nose_rise_m", "rear_squat_m", "driven_load_dip_n", "front_shock_rebound_peak_m_s"):
            assert two[name] == pytest.approx(2 * one[name], rel=1e-6)

    def test_sides_add_up(self):
        """Two equal shocks of half the damping each give what one pair gives: left and right are summed."""
        car = kestrel()
        even = damping(car)
        mixed = curves(car)
        mixed["fl"] = curves(car, lsc=2)["fl"]
        mixed["fr"] = curves(car, lsc=10)["fr"]
        other = curves(car)
        other["fl"], other["fr"] = mixed["fr"], mixed["fl"]
        a, b = car_damping(car, mixed)[0], car_damping(car, other)[0]
        np.testing.assert_allclose(a.compression, b.compression)
        assert not np.allclose(a.compression, even[0].compression)

    def test_a_stiff_enough_trace_lifts_the_nose_off_the_ground(self):
        """Beyond g·b/h (check value w16) the front wheels leave the ground."""
        car = without_stops(kestrel(cg_height=1.2))
        half = half_car(car)
        limit = closed.wheelie_acceleration(half.frame)
        under, over = (
            launch(half, Scene(constant_acceleration(limit * s, rise=0.4), FLAT, duration=1.5), damping(car)).metrics
            for s in (0.75, 1.15)
        )
        assert under["front_wheel_lift_s"] == 0.0
        assert over["front_wheel_lift_s"] > 0.3

    def test_bands_hold_the_nominal_and_grow_with_the_curves(self):
        car = kestrel()
        half = half_car(car)
        run = launch(half, Scene(constant_acceleration(5.0), ROUGH), damping(car))
        for name, value in run.metrics.items():
            if np.isfinite(value):
                assert run.low[name] <= value <= run.high[name], name
        assert run.high["nose_rise_rate_m_s"] > run.low["nose_rise_rate_m_s"]

    def test_the_same_call_gives_the_same_numbers(self):
        car = kestrel()
        half = half_car(car)
        scene = Scene(full_grip(half, ROUGH), ROUGH)
        one, two = (launch(half, scene, damping(car)) for _ in range(2))
        np.testing.assert_equal(one.metrics, two.metrics)
        np.testing.assert_array_equal(one.trace["rear_load_n"], two.trace["rear_load_n"])

    def test_a_setting_alone_moves_as_it_does_beside_others(self):
        car = kestrel(SOFT)
        half = half_car(car)
        scene = Scene(full_grip(half, ROUGHER), ROUGHER)
        alone, beside = (
            run_states(half, scene, Sides(*(s.take([1] * n) for s in sides(*damping(car))))).values for n in (1, 3)
        )
        np.testing.assert_allclose(beside[2], alone[0], rtol=0, atol=1e-9)

    def test_figures_on_the_way_are_the_metrics_of_the_trace(self):
        car = kestrel(SOFT)
        half = half_car(car)
        scene = Scene(full_grip(half, ROUGHER), ROUGHER)
        run = launch(half, scene, damping(car))
        figures = run_figures(half, scene, Sides(*(s.take([1] * 37) for s in sides(*damping(car)))))
        for name, values in figures.items():
            if name in run.metrics:
                np.testing.assert_allclose(values, run.metrics[name], rtol=1e-9, atol=1e-12, err_msg=name)
                assert len(values) == 37
        stops = sum(run.metrics[f"{a}_on_{s}_stop_s"] for a in ("front", "rear") for s in ("bump", "droop"))
        assert 0 < figures["on_stops_s"][0] <= stops


class TestApart:
    """A difference is never called sure whose own limits reach to nothing."""

    @pytest.mark.parametrize("paired", [True, False])
    @pytest.mark.parametrize(
        ("of_car", "scatter", "sure"), [(0.0, 0.001, True), (0.1, 0.001, False), (0.0, 0.2, False)]
    )
    def test_it_holds_what_the_difference_holds(self, paired, of_car, scatter, sure):
        one, two = (
            LaunchRun(
                "", {"wheelspin_s": spun}, {"wheelspin_s": spun - 0.005}, {"wheelspin_s": spun + 0.005}, {},
                levels={"wheelspin_s": np.array([spun, spun - 0.005, spun + 0.005])},
                roads={"wheelspin_s": spun + side * scatter * np.linspace(-1.0, 1.0, 12)},
                of_car={"wheelspin_s": np.array([[-side * of_car, side * of_car]])},
            )
            for spun, side in ((0.80, 0.0), (0.75, 1.0))
        )  # fmt: skip
        found = difference(one, two, "wheelspin_s", paired=paired)
        assert apart(one, two, "wheelspin_s", paired=paired) == sure == (found.high < 0)


class TestWarnings:
    def test_beyond_the_tests(self):
        car = kestrel(SOFT)
        half = half_car(car)
        run = launch(half, Scene(full_grip(half, ROUGHER), ROUGHER), damping(car))
        assert any("faster than any test" in text for text in run.warnings)

    def test_an_acceleration_the_ground_cannot_give(self):
        car = kestrel()
        run = launch(half_car(car), Scene(constant_acceleration(9.0), Surface("ice", 0.2)), damping(car))
        assert any("more than ice grips" in text for text in run.warnings)

    def test_a_quiet_launch_warns_of_nothing(self):
        car = kestrel()
        assert not launch(half_car(car), Scene(constant_acceleration(3.0), FLAT), damping(car)).warnings

    def test_unlike_masses_left_and_right_are_summed(self):
        car = kestrel()
        heavy = replace(car, corners={**car.corners, "fl": corner("fl", 300.0), "fr": corner("fr", 236.0)})
        assert half_car(heavy).front.sprung == pytest.approx(half_car(car).front.sprung)
