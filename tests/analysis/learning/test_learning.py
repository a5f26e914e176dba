"""What launches tell of a car that is not what its file says; cars and logs are made apart (`tests/worlds/track`)."""

from __future__ import annotations

from dataclasses import replace
from functools import cache

import numpy as np
import pytest

from dynoan.analysis.learning.fitting import fit_launches
from dynoan.analysis.learning.following import followed
from dynoan.analysis.learning.judging import LearnedValue, LeftOut, learned_values, left_out, verdict_of
from dynoan.analysis.learning.logged import logged_launch
from dynoan.analysis.learning.problem import LearnProblem
from dynoan.analysis.learning.roughness import covariance, road_hits
from dynoan.analysis.learning.values import uncertain_values, with_values
from dynoan.analysis.statistics import Z95
from dynoan.errors import FitError
from dynoan.jobs.learn.answering import _gentle, _new_values
from dynoan.library.car_file import car_from_text
from dynoan.model.banded import Banded
from tests.analysis.learning.made import GRIP, car_text, ready, scene, truth
from tests.worlds.track import launches as world


@cache
def squatting():
    """Two launches of a car that squats far more than its file says."""
    channels = ("fl", "rl", "acceleration", "speed")
    return world.weekends([7], 2, channels, keys=("antisquat", "cg_height", "grip"))[0]


def logging(weekend, *channels):
    """The same launches of a team that logs less."""
    kept = ("time", *channels)
    fewer = [replace(log, columns={name: log.columns[name] for name in kept}) for log in weekend.launches]
    return replace(weekend, launches=tuple(fewer))


def told_of(weekend):
    made = scene()
    return {v.before.key: v for v in learned_values(made, fit_launches(made, ready(weekend)))}


def test_two_shocks_and_speed_tell_the_height_and_the_antisquat():
    """Only the left shocks and the speed are logged."""
    weekend = logging(squatting(), "fl", "rl", "speed")
    found = told_of(weekend)
    assert found["antisquat"].told
    assert found[GRIP].told
    for value in found.values():
        if value.told:
            assert value.after.low <= truth(weekend, value.before) <= value.after.high, value.before.key
    assert not found["front.tyre"].told


@pytest.mark.thorough
def test_logs_without_a_shock_tell_the_grip_alone_and_what_would_tell_more():
    found = told_of(logging(squatting(), "acceleration", "speed"))
    assert [key for key, v in found.items() if v.told] == [GRIP]
    assert found["antisquat"].helped_by == "channels"
    assert found["antisquat"].narrower == pytest.approx(1.0, abs=0.1)
    assert verdict_of(list(found.values()), None) == "untried"


@pytest.mark.thorough
def test_a_car_as_its_file_says_stays_so():
    found = told_of(world.weekends([11], 2, world.ALL, keys=(), rough=(1e-6, 2e-6))[0])
    for value in found.values():
        assert value.after.low <= value.before.value <= value.after.high, value.before.key


def test_nothing_told_is_no_answer():
    def found(narrower):
        return LearnedValue(v := scene().values[0], Banded(v.value, v.value, v.value), narrower, "")

    assert verdict_of([found(0.9), found(1.0)], None) == "cannot tell"
    assert verdict_of([found(0.9), found(0.1)], None) == "untried"


def test_gentle_launches_do_not_tell_the_grip():
    """What tyres that are not at their limit used comes out far below what is known of the ground, and narrow."""
    grip = next(v for v in scene().values if v.key == GRIP)

    def found(share):
        value = share * grip.value
        return LearnedValue(grip, Banded(value, 0.98 * value, 1.02 * value), 0.2, "")

    assert found(0.97).told
    gentle = found(1.0 - 1.5 * grip.half_width / grip.value)
    assert gentle.short_of_limit
    assert not gentle.told
    said = "".join(_gentle([found(0.97), gentle]))
    assert said.count("grip is not told") == 1
    assert GRIP not in _new_values([gentle])
    assert GRIP in _new_values([found(0.97)])


# The values


def test_values_come_with_the_files_spread_or_the_usual_one():
    car = car_from_text(car_text(), "kestrel.toml")
    found = {v.key: v for v in uncertain_values(car, car.surfaces["loose"])}
    assert (found["cg_height"].half_width, found["cg_height"].stated) == (pytest.approx(0.05), True)
    bare = car_from_text(car_text().replace(" ± 50", "").replace("pitch_inertia", "# pitch_inertia"), "kestrel.toml")
    found = {v.key: v for v in uncertain_values(bare, bare.surfaces["loose"])}
    assert (found["cg_height"].half_width, found["cg_height"].stated) == (pytest.approx(0.051), False)
    assert not found["pitch_inertia"].in_file
    assert found["antisquat"].at(1.96) == pytest.approx(0.45 + 0.25, rel=1e-4)


def test_how_grip_falls_with_load_is_open_where_no_file_says_it():
    """People are not told of it: no launch tells it, but the grip hangs on it."""
    key = GRIP.replace("grip", "load_sensitivity")
    for line, half in (("", 0.1), ('load_sensitivity = "0.1 ± 0.03"\n', 0.03), ("load_sensitivity = 0.1\n", None)):
        car = car_from_text(car_text() + line, "kestrel.toml")
        found = {v.key: v for v in uncertain_values(car, car.surfaces["loose"])}
        assert (found[key].half_width if key in found else None) == half
        assert not any(v.shown or v.writable for v in found.values() if v.key == key)
    made = with_values(car, {key: 0.17, GRIP: 0.5}).surfaces["loose"]
    assert (made.load_sensitivity, made.grip) == (0.17, 0.5)


def test_corners_of_an_axle_keep_what_they_differ_by():
    text = car_text().replace("[fl]\n", '[fl]\nspring = "50 N/mm"\n')
    car = car_from_text(text, "kestrel.toml")
    made = with_values(car, {"front.spring": 47.5e3 * 1.1, "antisquat": 0.2, GRIP: 0.5})
    assert made.corners["fl"].spring == pytest.approx(55e3)
    assert made.corners["fr"].spring == pytest.approx(49.5e3)
    assert (made.antisquat, made.surfaces["loose"].grip, made.corners["rl"].spring) == (0.2, 0.5, 38e3)


# Logs that hold no launch


def test_a_log_must_hold_the_car_standing_and_a_launch():
    t = np.arange(0.0, 4.0, 0.01)
    with pytest.raises(FitError, match="does not stand long enough"):
        logged_launch("a.csv", t, {"speed": t}, 0.3)
    with pytest.raises(FitError, match=r"ends 0\.5 s after"):
        logged_launch("a.csv", t, {"speed": t}, 3.49)


# Many cars


@pytest.mark.thorough
def test_of_many_cars_the_limits_hold_and_the_launch_left_out_is_predicted_better():
    """35 teams: every value off by its ±, rough roads, sensors that drift, 50 to 500 Hz, channels missing."""
    made, held, told, before, after = scene(), [], [], [], []
    for weekend in world.weekends(range(1000, 1035)):
        launches = ready(weekend)
        for value in learned_values(made, fit_launches(made, launches)):
            inside = value.after.low <= truth(weekend, value.before) <= value.after.high
            held.append(inside)
            told += [inside] if value.told else []
        tried = left_out(made, launches)
        if tried is not None:
            before.append(tried.before)
            after.append(tried.after)
    rms = [1e3 * float(np.sqrt(np.mean(np.square(x)))) for x in (before, after)]
    print(f"held {np.mean(held):.3f} of {len(held)}, told {np.mean(told):.3f} of {len(told)}")
    print(f"left out: {rms[0]:.2f} to {rms[1]:.2f} mm, median share {np.median(np.array(after) / before):.2f}")
    assert 0.90 <= np.mean(held) <= 0.98
    assert 0.90 <= np.mean(told) <= 0.98
    assert rms[1] <= 0.5 * rms[0]


# What a launch left out can be missed by


def test_a_launch_left_out_is_missed_by_as_much_as_road_and_sensors_leave():
    """With the car's true values the miss is of the size that is foretold, however rough the others' road was."""
    weekend, made = squatting(), scene()
    launches = ready(weekend)
    problem = LearnProblem(made, launches)
    state = replace(problem.start(), roughness=1e-3)
    spreads = [v.half_width / Z95 for v in made.values]
    true = [truth(weekend, v) if v.shown else v.value for v in made.values]
    off = [
        (t - v.value) / sd if v.added else np.log(t / v.value) * v.value / sd
        for v, t, sd in zip(made.values, true, spreads, strict=True)
    ]
    found = followed(made, launches[-1], np.array(off), state.sensors, state)
    assert 0.25 < found.off / found.floor < 1.5


def test_a_car_predicted_as_well_as_can_be_is_not_no_better():
    assert LeftOut("run", 0.32e-3, 0.37e-3, 0.36e-3).verdict == "cannot tell"
    assert LeftOut("run", 0.32e-3, 0.80e-3, 0.36e-3).verdict == "no better"
    assert LeftOut("run", 1.0e-3, 0.4e-3, 0.36e-3).verdict == "better"


def test_friction_lets_a_car_stand_beside_its_middle():
    """An even law over friction by the spring's rate, at the shock, from when the car moves; speed knows none of it."""
    made, launch = scene(), ready(squatting())[0]
    car = made.runnable(np.zeros(len(made.values)))
    problem = LearnProblem(made, [launch])
    start = problem.start()
    hits = road_hits(car, problem.drives(car, start, start.drives)[0], made.surface, launch, 1e-5)
    rub, rate = car.large.friction[0], car.large.half.front.spring
    assert hits.stuck[0] == pytest.approx(0.92 * rub / rate / np.sqrt(3), rel=1e-3)
    at = np.zeros((4, launch.blocks))
    for name, some in (("front", True), ("speed", False)):
        free, stuck = (covariance(launch, at, h, 1e-5, names=(name,)) for h in (replace(hits, stuck=(0.0, 0.0)), hits))
        assert (stuck[-1, -1] - free[-1, -1] == pytest.approx(hits.stuck[0] ** 2, rel=1e-6)) == some
        assert stuck[0, 0] == free[0, 0]
