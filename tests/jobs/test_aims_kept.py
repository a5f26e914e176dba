"""Aims that some clicks keep are kept: the search held against every setting, and against pairs of both axles."""

from __future__ import annotations

from itertools import product

import numpy as np
import pytest

from dynoan.analysis.launch.large.compare import launch_large
from dynoan.analysis.launch.large.search import ClickLab
from dynoan.jobs import aim
from dynoan.jobs.aim.asked import AimQuestion
from dynoan.jobs.launch.best import clicked_of
from dynoan.jobs.launch.settings import LaunchSetting, launch_case
from dynoan.workbench import Workbench
from tests.cli.launch_library import CAR, LAST, make

RATE, RISE, SQUAT = "level_nose_rise_rate_m_s", "level_nose_rise_m", "level_rear_squat_m"
NAMES = ("lsc", "hsc", "lsr", "hsr")
CARS = {
    "as it is": CAR,
    "nose-heavy": CAR.replace('"268 kg"', '"390 kg"').replace('"262 kg"', '"385 kg"').replace('"510 mm"', '"600 mm"'),
    "front-driven": CAR.replace('driven = "rear"\nantisquat = "45 %"', 'driven = "front"'),
}


@pytest.fixture(params=CARS)
def bench(request, tmp_path, monkeypatch):
    return Workbench.find(make(tmp_path / "library", monkeypatch, CARS[request.param]))


def asked(*aims, time=1.5, **more):
    return AimQuestion.asked("kestrel", aims, surface="sticky", time=time, **more)


def below(words, limit, unit="mm"):
    return f"{words} {1e3 * limit:.9g} {unit}"


def lab_of(bench, question, axle="front"):
    case = launch_case(bench, bench.library.car("kestrel"), "")
    scene = question.launch.run.scene(case, case.car.surfaces["sticky"])
    return ClickLab.of(case.large, scene, case.damping[1], clicked_of(bench, case.car.axle(axle)), axle)


def test_the_search_runs_as_long_as_the_launch_that_is_shown(bench):
    """With the front nearly closed the nose goes on rising: a shorter run would count it as low."""
    question = asked("slowest nose", time=3)
    lab = lab_of(bench, question)
    figures = lab.run(np.array([[2, 2, 0, 0]]), fine=True, rough=False)
    car = LaunchSetting.parsed("front=@lsc=2,hsc=2,lsr=0,hsr=0").on(bench.library.car("kestrel"))
    case = launch_case(bench, car, "")
    shown = launch_large(case.large, lab.scene, case.damping).metrics
    assert figures[RISE][0] == pytest.approx(shown[RISE], rel=2e-3)
    assert figures[RATE][0] == pytest.approx(shown[RATE], rel=2e-3)


@pytest.mark.parametrize(
    ("bench", "share"),
    [pytest.param(name, share, marks=() if (name, share) == ("nose-heavy", 0.3) else pytest.mark.thorough)
     for name, share in product(CARS, (0.3, 0.02))],
    indirect=["bench"],
)  # fmt: skip
def test_two_limits_that_clicks_of_one_axle_keep_are_kept_by_the_smallest_turn(bench, share):
    """Every setting is run; the limits are what one in the given share of the slowest has, and a hair more."""
    lab = lab_of(bench, asked("slowest nose"))
    clicks = np.array(list(product(range(LAST + 1), repeat=4)))
    figures = lab.run(clicks, fine=True, rough=False)
    wanted = np.argsort(figures[RATE], kind="stable")[int(share * len(clicks))]
    rate, rise = (1.0005 * figures[key][wanted] for key in (RATE, RISE))
    found = aim.answer(
        bench, asked(below("nose slower than", rate, "mm/s"), below("nose lower than", rise), axle="front")
    )
    assert [one.kept for one in found.reached] == [True, True]
    kept = (figures[RATE] <= rate * 1.0001) & (figures[RISE] <= rise * 1.0001)
    turn = sum(abs(c - 2) for c in found.turned.get("fl", {}).values())
    assert turn <= 1 + np.abs(clicks[kept] - 2).sum(axis=1).min()


def pair(bench, dice):
    """A setting of both axles, and the figures of its launch."""
    texts = [",".join(f"{n}={c}" for n, c in zip(NAMES, dice.integers(0, LAST + 1, 4), strict=True)) for _ in "fr"]
    car = LaunchSetting.parsed(f"front=@{texts[0]} rear=@{texts[1]}").on(bench.library.car("kestrel"))
    case = launch_case(bench, car, "")
    return launch_large(case.large, asked("slowest nose").launch.run.scene(case, car.surfaces["sticky"]), case.damping)


def both_kept(bench, seed):
    wanted = pair(bench, np.random.default_rng(seed)).metrics
    aims = below("nose slower than", 1.0005 * wanted[RATE], "mm/s"), below("rear squat under", 1.0005 * wanted[SQUAT])
    return all(one.kept for one in aim.answer(bench, asked(*aims)).reached)


@pytest.mark.thorough
@pytest.mark.parametrize("seed", range(9))
def test_many_pairs_of_limits_that_clicks_of_both_axles_keep_are_kept(bench, seed):
    assert both_kept(bench, seed)
