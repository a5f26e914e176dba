"""The step of a search's first pass: long where nothing runs away from it, and near enough to the fine one to rank."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from dynoan.analysis.launch.assumptions import COARSE_STEP, LONG_STEP
from dynoan.analysis.launch.clicked import Clicked
from dynoan.analysis.launch.drive import constant_acceleration, torque_drive
from dynoan.analysis.launch.from_car import half_car
from dynoan.analysis.launch.large import layout as at
from dynoan.analysis.launch.large.coarse import coarse_steps
from dynoan.analysis.launch.large.model import large_car
from dynoan.analysis.launch.large.rows import STEP, run
from dynoan.analysis.launch.large.search import APART, COARSE_ROADS, ClickLab
from dynoan.analysis.launch.scene import Scene
from dynoan.analysis.launch.sides import sides
from tests.analysis.launch_cars import FLAT, ROUGH, curves, damping, kestrel, linear
from tests.made import made_map

CLICKS = np.array([(0, 0, 0, 0), (3, 0, 1, 2), (3, 3, 3, 3)])


@pytest.fixture(scope="module")
def car():
    return large_car(kestrel(), half_car(kestrel(), curves(kestrel())))


@pytest.fixture(scope="module")
def lab(car):
    one = made_map(last=3)
    clicked = Clicked((one, one), (0.92, 0.92), dict.fromkeys(("lsc", "hsc", "lsr", "hsr"), 2))
    return ClickLab.of(car, Scene(constant_acceleration(5.0), ROUGH, 1.0), damping(kestrel())[0], clicked, "rear")


def test_settings_are_ranked_in_long_steps_as_fine_ones_would_and_closed_clicks_in_shorter_ones(car, lab):
    steps = coarse_steps(car, lab.scene, lab._sides(CLICKS))
    assert steps.tolist() == [COARSE_STEP, COARSE_STEP, LONG_STEP]
    long = lab.run(CLICKS, fine=False)
    scenes = [replace(lab.scene, seed=lab.scene.seed + APART + n) for n in range(COARSE_ROADS)]
    fine = lab._run(lab._sides(CLICKS), scenes, np.full(len(CLICKS), STEP)).mean(axis=1)
    for key, where in (("driven_load_rms_n", at.LOAD_SQUARES), ("distance_m", at.DISTANCE)):
        np.testing.assert_allclose(long[key], fine[:, where], rtol=0.005)
    assert np.argsort(long["driven_load_rms_n"]).tolist() == np.argsort(fine[:, at.LOAD_SQUARES]).tolist()


@pytest.mark.parametrize(("coefficient", "step"), [(9e3, LONG_STEP), (25e3, COARSE_STEP), (60e3, STEP)])
def test_what_would_run_away_from_a_step_gets_a_shorter_one(car, coefficient, step):
    """A damper that is fast over the mass of the wheels would throw them to and fro in long steps."""
    levels = sides(*linear(kestrel(), coefficient)).take([1])
    scene = Scene(constant_acceleration(5.0), FLAT, 1.0)
    assert coarse_steps(car, scene, levels) == pytest.approx(step)
    found = run(car, levels, [scene], [(0, 0)], keep=False, step=step).figures[0]
    assert np.isfinite(found[0])
    assert found[0] == pytest.approx(
        run(car, levels, [scene], [(0, 0)], keep=False, step=2.5e-4).figures[0, 0], rel=0.01
    )


def test_slip_and_friction_shorten_it_too(car):
    levels, scene = sides(*damping(kestrel())).take([1]), Scene(constant_acceleration(5.0), FLAT, 1.0)
    turned = replace(scene, drive=torque_drive(car.half, 1500.0, car.radius))
    assert coarse_steps(car, turned, levels) == COARSE_STEP
    assert coarse_steps(replace(car, friction=(0.0, 300.0)), scene, levels) < LONG_STEP


def test_what_is_not_run_is_not_a_number_and_nothing_at_all_is_refused(lab):
    road = lab.run(CLICKS[:2], fine=False, alone=False)
    assert np.all(np.isnan(road["level_nose_rise_m"]))
    still = lab.run(CLICKS[:2], fine=False, rough=False)
    assert np.all(np.isnan(still["driven_load_rms_n"]))
    both = lab.run(CLICKS[:2], fine=False)
    assert both["driven_load_rms_n"].tolist() == road["driven_load_rms_n"].tolist()
    assert both["level_nose_rise_m"].tolist() == still["level_nose_rise_m"].tolist()
    with pytest.raises(ValueError, match="on the road, or alone, or both"):
        lab.run(CLICKS, fine=False, rough=False, alone=False)
