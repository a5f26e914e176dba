"""The friction of the shocks' seals in a launch: what the dyno found, where the car's file states none."""

from __future__ import annotations

from dataclasses import replace
from types import SimpleNamespace

import numpy as np
import pytest

from dynoan.analysis.launch.from_car import half_car
from dynoan.analysis.launch.large.layout import FRONT
from dynoan.analysis.launch.large.model import large_car
from dynoan.analysis.launch.large.rows import run
from dynoan.analysis.launch.scene import Scene
from dynoan.analysis.launch.sides import sides
from dynoan.jobs.launch.asked import LaunchQuestion
from dynoan.jobs.launch.drive import DriveAsked
from dynoan.jobs.launch.granted import assumed, told_once
from dynoan.jobs.launch.measure_first import unsure_of
from dynoan.jobs.launch.settings import LaunchCase
from dynoan.model.links import Extras
from tests.analysis.launch_cars import FLAT, kestrel, linear, linear_curve

DYNO = {"fl": 14.0, "fr": 18.0, "rl": 12.0, "rr": 20.0}


def made(friction=DYNO, **stated):
    car = kestrel()
    car = replace(car, extras=replace(car.extras, friction=stated))
    curves = {name: replace(linear_curve(3e3), friction=friction[name]) for name in car.corners}
    return car, large_car(car, half_car(car), curves)


def test_it_is_the_dynos_at_the_wheel_and_said_with_its_size():
    _, large = made()
    assert large.friction == pytest.approx((0.92 * 32.0, 0.92 * 32.0))
    assert "the seals rub, as the dyno found: 16 N a shock at the front, 16 N a shock at the rear" in (large.notes)


def test_what_the_cars_file_states_comes_first():
    _, large = made(front=30.0)
    assert large.friction == pytest.approx((0.92 * 60.0, 0.92 * 32.0))
    assert any(note.endswith("found: 16 N a shock at the rear") for note in large.notes)


def test_what_no_test_tells_is_taken_for_none_and_said():
    _, large = made(dict(DYNO, rl=float("nan")))
    assert large.friction == pytest.approx((0.92 * 32.0, 0.92 * 20.0))
    assert any("at the rear is taken for none where no test tells it" in note for note in large.notes)


def test_a_rear_that_sinks_is_held_back_by_it():
    """It sinks less deep by about friction over rate: what that takes of the work is missing to the spring."""
    squats = []
    for friction in (dict.fromkeys(DYNO, 0.0), DYNO):
        car, large = made(friction)
        drive = DriveAsked.asked("4 m/s2", None, None, None).on(large.half, car, FLAT)
        found = run(
            large, sides(*linear(car, 3e3)).take([1]), [Scene(drive, FLAT, 1.0)], [(0, 0)], keep=True, step=1e-3
        )
        squats.append(float(np.max(np.abs(found.states[0, 4]))))
    share = (squats[0] - squats[1]) / (large.friction[1] / large.half.rear.spring)
    assert 0.5 < share < 2.0


def test_how_all_the_grip_there_is_comes_in_is_said():
    car = kestrel()
    (said,) = DriveAsked.asked(None, None, None, "0.3 s").taken(car)
    assert "within 0.3 s to 2 times what the driven tyres hold at rest" in said
    assert "from about 0.15 s on" in said
    assert DriveAsked.asked("4 m/s2", None, None, "0.15 s").taken(car) == ()
    engine = replace(car, extras=Extras(engine=SimpleNamespace()))
    assert DriveAsked.asked(None, None, None, "0.15 s").taken(engine) == ()


def test_the_dynos_error_of_it_is_at_the_wheel_left_and_right_alike():
    car = kestrel()
    curves = {name: replace(linear_curve(3e3), friction=16.0, friction_sd=4.0) for name in car.corners}
    assert large_car(car, half_car(car), curves).friction_sd == pytest.approx((2 * 0.92 * 4.0, 2 * 0.92 * 4.0))
    stated = replace(car, extras=replace(car.extras, friction={"front": 30.0}))
    assert large_car(stated, half_car(stated), curves).friction_sd == pytest.approx((0.0, 2 * 0.92 * 4.0))


def travels(large, scene, step=1e-3):
    """Travels of both axles over time, and how far the energy is off."""
    found = run(large, sides(*linear(kestrel(), 3e3)).take([1]), [scene], [(0, 0)], keep=True, step=step)
    return found.states[0, FRONT : FRONT + 2], float(found.energy_off[0])


def test_a_car_that_friction_holds_stays_until_it_is_driven_off():
    """And comes to rest beside where it would else, by what held it over the spring's rate."""
    car, large = made()
    still = Scene(DriveAsked.asked(0.0, None, None, None).on(large.half, car, FLAT), FLAT, 1.0)
    driven = Scene(DriveAsked.asked("4 m/s2", None, None, None).on(large.half, car, FLAT), FLAT, 4.0)
    free, _ = travels(large, driven)
    for share in (-0.9, 0.9):
        held = replace(large, stuck=(share, 0.0))
        assert np.abs(travels(held, still)[0]).max() < 1e-6
        found, off = travels(held, driven)
        rate = large.half.front.spring + large.half.front.gas
        assert found[0, -1] - free[0, -1] == pytest.approx(share * large.friction[0] / rate, rel=0.05)
        assert abs(found[1, -1] - free[1, -1]) < 0.1 * abs(found[0, -1] - free[0, -1])
        assert off < 1e-3


def test_bands_hold_where_friction_let_the_car_stand():
    """Not where the seals have none, nor where brakes and drive held the car before."""
    car, large = made()
    case = LaunchCase("it", car, large.half, linear(car, 3e3), large)
    for asked, friction, keys in (
        ({}, large.friction, {"front.stuck", "rear.stuck"}), ({}, (0.0, 0.0), set()),
        ({"held": 600}, large.friction, set()),
    ):  # fmt: skip
        one = replace(case, large=replace(large, friction=friction))
        run_asked = LaunchQuestion.asked("kestrel", rise=0.15, time=0.5, **asked).run
        found = unsure_of(one, run_asked, replace(FLAT, load_sensitivity=0.0), [])
        assert {shift.key for shift in found.beside} == keys
        for shift in found.beside:
            figure = "level_nose_rise_m" if shift.key == "front.stuck" else "level_rear_squat_m"
            assert shift.size(figure) > 3e-4


def test_what_the_dyno_found_is_said_of_the_first_setting_alone():
    car, large = made()
    case = LaunchCase("it", car, large.half, linear(car, 3e3), large)
    _, other = made(dict.fromkeys(DYNO, 21.0))
    more = replace(case, large=replace(other, notes=(*other.notes, "and a note of its own")))
    notes = assumed([case, more])
    assert sum("rub" in note for note in notes) == 1
    assert sum("stuck beside its middle" in note for note in notes) == 1
    assert notes[-1] == "and a note of its own"


def test_cases_side_by_side_say_it_once_too():
    """What friction leaves open by a spring's change differs in the last digit, and no racer asks for both."""
    (_, one), (_, two) = made(), made(dict.fromkeys(DYNO, 21.0))
    assert one.notes != two.notes
    assert told_once([one.notes, two.notes, (*two.notes, "its own")]) == (*one.notes, "its own")
    assert told_once([]) == ()


def test_how_far_beside_its_middle_a_car_may_stop_is_said():
    """Friction over the rate that brings it back, at the wheel; nothing where nothing rubs."""
    _, large = made()
    (said,) = [note for note in large.notes if "stuck beside its middle" in note]
    off = [
        1e3 * rub / axle.spring for rub, axle in zip(large.friction, (large.half.front, large.half.rear), strict=True)
    ]
    assert f"{off[0]:.1f} mm at the front and {off[1]:.1f} mm at the rear" in said
    _, smooth = made(dict.fromkeys(DYNO, 0.0))
    assert not any("stuck beside" in note for note in smooth.notes)
