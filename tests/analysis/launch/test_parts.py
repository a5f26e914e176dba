"""What the half-car is made of: hinge sums, drive and road, and the car's keys."""

from __future__ import annotations

import platform
import re
from dataclasses import replace

import numba
import numpy as np
import pytest

from dynoan.analysis.launch import drive as ld
from dynoan.analysis.launch.from_car import half_car
from dynoan.analysis.launch.hinges import axle_damping, hinge_sums, speed_grid
from dynoan.analysis.launch.scene import Scene, check
from dynoan.analysis.launch.sides import Sides
from dynoan.errors import QuantityError
from dynoan.model.car import Surface
from tests.analysis.launch_cars import FLAT, ROUGH, corner, curves, kestrel, linear_curve
from tests.made import made_curve, made_map
from tests.oracles.load_transfer import antisquat
from tests.oracles.small_angle.kernel import run_block
from tests.oracles.small_angle.layout import BLOCK, FIGURES, HINGES, LANES, PARAMETERS, STATES
from tests.oracles.small_angle.packing import pack
from tests.oracles.small_angle.road import table


class TestHinges:
    def test_a_straight_line_stays_exact(self):
        speeds = speed_grid(0.6)
        hinges = hinge_sums(speeds, 3000.0 * speeds[None])
        v = np.array([0.0, 0.003, 0.1, 0.6, 1.2])
        np.testing.assert_allclose(hinges.force(v)[0], 3000.0 * v, rtol=1e-9, atol=1e-9)

    def test_a_knee_is_followed(self):
        speeds = speed_grid(0.6)
        truth = 5000.0 * np.minimum(speeds, 0.08) + 900.0 * np.maximum(speeds - 0.08, 0.0)
        made = hinge_sums(speeds, truth[None]).force(speeds)[0]
        np.testing.assert_allclose(made, truth, atol=0.01 * truth[-1])

    @pytest.mark.parametrize("direction", ["compression", "rebound"])
    def test_every_click_of_a_pack_is_followed_within_its_band(self, direction):
        """Within 1.2 % of the top force at every click and 3 % of the force itself, less than any click map knows."""
        table = made_map(last=4).direction(direction)
        speeds = speed_grid(0.5)
        truth = table.at(speeds)[0].reshape(-1, len(speeds))
        miss = np.abs(hinge_sums(speeds, truth).force(speeds) - truth)
        assert np.max(miss / truth[:, -1:]) < 0.012
        assert np.max(miss / (truth + 0.08 * truth[:, -1:])) < 0.03

    def test_beyond_the_last_speed_the_last_slope_goes_on(self):
        speeds = speed_grid(0.5)
        hinges = hinge_sums(speeds, (1000.0 * speeds**0.7)[None])
        at = hinges.force(np.array([0.48, 0.5, 0.7, 0.9]))[0]
        assert at[3] - at[2] == pytest.approx((at[1] - at[0]) * 10, rel=1e-6)

    def test_motion_ratio_goes_in_squared(self):
        """A coefficient c at the shock is c·R² at the wheel (physics of the lever; check value q12)."""
        axle = axle_damping([linear_curve(2000.0)] * 2, [0.8, 0.8])
        np.testing.assert_allclose(axle.compression[1], 2 * 2000.0 * 0.64 * axle.speeds, rtol=1e-9)

    def test_low_and_high_enclose_nominal(self):
        axle = axle_damping([made_curve()] * 2, [0.9, 0.9])
        for forces in (axle.compression, axle.rebound):
            assert np.all(forces[0][1:] < forces[1][1:])
            assert np.all(forces[1][1:] < forces[2][1:])

    def test_blocks_hold_every_setting_once_and_fill_up(self):
        speeds = speed_grid(0.6)
        hinges = hinge_sums(speeds, np.arange(1, 19)[:, None] * speeds[None])
        blocks = pack(Sides(hinges, hinges, hinges, hinges))
        assert blocks.shape == (2, 4 * 2 * HINGES * 16)
        gains = blocks.reshape(2, 4, 2, HINGES, 16)[:, 0, 1, 0, :].ravel()
        np.testing.assert_allclose(gains[:18], np.arange(1, 19), rtol=1e-9)
        np.testing.assert_allclose(gains[18:], 18.0, rtol=1e-9)


class TestDrive:
    def test_constant_comes_in_over_its_rise(self):
        drive = ld.constant_acceleration(5.0, rise=0.2)
        assert np.interp(0.1, drive.time, drive.asked) == pytest.approx(2.5)
        assert np.interp(9.0, drive.time, drive.asked) == 5.0

    def test_rear_wheels_meet_the_road_a_wheelbase_later(self):
        half = half_car(kestrel())
        scene = Scene(ld.constant_acceleration(5.0, rise=0.0), ROUGH)
        grid = table(half, scene)
        gone = 2.5 * (np.arange(len(grid)) * scene.step / 2) ** 2
        later = gone > 2.43 + 1.2
        front_then = np.interp(gone[later] - 2.43, gone, grid[:, 0])
        offset = grid[later, 1] - front_then
        np.testing.assert_allclose(offset, offset[0], atol=2e-5)

    def test_the_car_starts_at_rest_on_the_road(self):
        half = half_car(kestrel())
        grid = table(half, Scene(ld.full_grip(half, ROUGH), ROUGH))
        assert not grid[0, :2].any()
        assert np.abs(grid[:, :2]).max() > 0.005

    @pytest.mark.parametrize(("driven", "shares"), [("rear", (0, 1)), ("front", (1, 0)), ("all", (0.4, 0.6))])
    def test_shares(self, driven, shares):
        half = half_car(kestrel(driven=driven, front_drive=0.4))
        grid = table(half, Scene(ld.constant_acceleration(2.0), FLAT))
        assert grid[-1, 2] == pytest.approx(2.0 * 1010 * shares[0])
        assert grid[-1, 3] == pytest.approx(2.0 * 1010 * shares[1])

    def test_a_trace_starts_at_its_first_row(self):
        drive = ld.traced(np.array([4.0, 5.0]), np.array([0.0, 3.0]), "log.csv")
        assert drive.time[0] == 0.0
        assert not drive.limited

    @pytest.mark.parametrize(
        "wrong",
        [
            lambda: ld.traced(np.array([0.0]), np.array([1.0]), "log.csv"),
            lambda: ld.traced(np.array([0.0, 0.0]), np.array([1.0, 1.0]), "log.csv"),
            lambda: ld.traced(np.array([0.0, 1.0]), np.array([1.0, np.nan]), "log.csv"),
            lambda: ld.constant_acceleration(5.0, rise=-1.0),
            lambda: ld.constant_acceleration(float("inf")),
            lambda: check(Scene(ld.constant_acceleration(1.0), FLAT, duration=1e4)),
            lambda: check(Scene(ld.constant_acceleration(1.0), Surface("odd", 0.0))),
        ],
    )
    def test_nonsense_is_refused(self, wrong):
        with pytest.raises(QuantityError):
            wrong()

    def test_a_torque_needs_a_wheel_radius(self):
        with pytest.raises(QuantityError, match="wheel_radius is missing"):
            ld.torque_drive(half_car(kestrel()), 2000.0, None)


class TestKeys:
    @pytest.mark.parametrize("key", ["wheelbase", "cg_height", "driven"])
    def test_a_missing_key_is_named_with_its_file(self, key):
        with pytest.raises(QuantityError, match=rf"cars/kestrel\.toml: {key} is missing"):
            half_car(kestrel(**{key: None}))

    def test_a_missing_tyre_is_named(self):
        with pytest.raises(QuantityError, match=r"tyre is missing for fl.*under \[front\]"):
            half_car(kestrel({"tyre": None}))

    def test_a_missing_corner_is_named(self):
        car = kestrel()
        three = {name: c for name, c in car.corners.items() if name != "rr"}
        with pytest.raises(QuantityError, match="both corners of the rear axle"):
            half_car(replace(car, corners=three))

    @pytest.mark.parametrize(
        ("key", "value"), [("mass", 20.0), ("spring", -1.0), ("tyre", 0.0), ("shock_ratio", float("nan"))]
    )
    def test_a_value_no_car_has_is_named(self, key, value):
        car = kestrel()
        with pytest.raises(QuantityError, match=r"cars/kestrel\.toml: .* of rl must be a finite number above zero"):
            half_car(replace(car, corners={**car.corners, "rl": corner("rl", **{key: value})}))

    def test_estimates_are_said(self):
        notes = " ".join(half_car(kestrel({"bump_travel": None}, antisquat=None)).notes)
        for text in ("no pitch_inertia: estimated as 1284", "0 % anti-squat", "no bump_travel", "gas_rate"):
            assert text in notes

    def test_stated_keys_leave_nothing_to_say(self):
        assert half_car(kestrel({"gas_rate": 1500.0}, pitch_inertia=1100.0)).notes == ()

    @pytest.mark.parametrize("driven", ["rear", "front", "all"])
    def test_antisquat_comes_back(self, driven):
        assert antisquat(half_car(kestrel(driven=driven))) == pytest.approx(0.6)

    def test_gas_takes_load_off_the_springs(self):
        car = kestrel()
        with_gas, without = half_car(car, curves(car)), half_car(car)
        assert without.front.preload - with_gas.front.preload == pytest.approx(2 * 130.0 * 0.92)

    def test_unknown_stops_cannot_be_told(self):
        from tests.analysis.launch_cars import damping, without_stops
        from tests.oracles.small_angle.launching import launch

        car = without_stops(kestrel())
        run = launch(half_car(car), Scene(ld.constant_acceleration(3.0), FLAT), damping(car))
        assert np.isnan(run.metrics["front_on_bump_stop_s"])


@pytest.mark.slow
@pytest.mark.skipif(platform.machine().lower() not in ("x86_64", "amd64"), reason="reads x86 instructions")
@pytest.mark.thorough
def test_settings_run_as_vectors():
    """A change that keeps the compiler from vectorising is silent and costs a factor of four."""
    fresh = numba.njit(fastmath={"contract", "nnan", "nsz"})(run_block.py_func)
    out = np.zeros(FIGURES * LANES), np.zeros((1, STATES * LANES))
    fresh(np.ones(PARAMETERS), np.zeros((5, 4)), np.zeros(BLOCK), 1e-4, *out)
    (text,) = fresh.inspect_asm().values()
    packed, single = (len(re.findall(rf"(?:mul|fn?madd\d*){kind}", text)) for kind in ("pd", "sd"))
    assert packed > 0.5 * single
