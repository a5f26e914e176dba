"""The search over all clicks of an axle, against single runs and brute force."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from dynoan.analysis.launch import search as ls
from dynoan.analysis.launch.assumptions import TIE
from dynoan.analysis.launch.clicked import Clicked
from dynoan.analysis.launch.drive import constant_acceleration, full_grip
from dynoan.analysis.launch.from_car import half_car
from dynoan.analysis.launch.hinges import axle_damping
from dynoan.analysis.launch.objectives import OBJECTIVES
from dynoan.analysis.launch.scene import Scene
from dynoan.errors import CallError
from dynoan.model.shock import Adjuster
from tests.analysis.launch_cars import FLAT, ROUGH, curves, damping, kestrel
from tests.made import made_curve, made_map
from tests.oracles import small_angle_clicks
from tests.oracles.small_angle.launching import launch
from tests.oracles.small_angle_clicks import best_clicks

NOW = {"lsc": 2, "hsc": 2, "lsr": 2, "hsr": 2}


@pytest.fixture(scope="module")
def clicked():
    one = made_map(last=3)
    return Clicked((one, one), (0.92, 0.92), NOW)


@pytest.fixture(scope="module")
def half():
    car = kestrel()
    return half_car(car, curves(car))


def found(half, clicked, objective="steadiest", scene=None, axle="rear"):
    scene = scene or Scene(full_grip(half, ROUGH), ROUGH, duration=1.0)
    return best_clicks(half, scene, damping(kestrel())[0], clicked, axle=axle, objective=objective)


@pytest.mark.parametrize("objective", list(OBJECTIVES))
def test_every_setting_is_run_and_the_best_is_the_least(half, clicked, objective):
    search = found(half, clicked, objective)
    assert len(search.clicks) == 4**4
    assert len(np.unique(search.clicks, axis=0)) == 4**4
    aim = search.figures[search.axes[0]]
    assert aim[search.best] <= aim.min() + TIE * np.ptp(aim)
    assert search.setting(search.now) == NOW


def test_figures_of_a_setting_are_those_of_its_own_run(half, clicked):
    """A setting's row must be that setting: compression crossed with lsr, rebound without lsc."""
    search = found(half, clicked)
    scene = Scene(full_grip(half, ROUGH), ROUGH, duration=1.0)
    for row in (0, 27, 114, 255):
        at = search.setting(row)
        curve = made_curve("gravel", **at)
        rear = axle_damping([curve, curve], [0.92, 0.92])
        run = launch(half, scene, (damping(kestrel())[0], rear))
        for name in ("driven_load_rms_n", "level_nose_rise_rate_m_s", "rear_squat_m", "driven_load_least_n"):
            assert search.figures[name][row] == pytest.approx(run.metrics[name], rel=2e-3), (row, name)


def test_the_front_can_be_searched_too(half, clicked):
    search = found(half, clicked, "slowest-rise", Scene(constant_acceleration(5.0), FLAT, duration=1.0), "front")
    aim = search.figures["level_nose_rise_rate_m_s"]
    # Closed rebound holds the front down.
    assert search.setting(int(np.argmin(aim)))["lsr"] == 0
    assert np.ptp(aim) > 0.05 * aim.max()


def test_equally_good_settings_go_to_the_nearest_to_now(half, clicked):
    still = found(half, clicked, "least-lift", Scene(constant_acceleration(0.0), FLAT, duration=0.3))
    assert still.best == still.now


def test_the_trade_off_line_is_what_nothing_beats(half, clicked):
    search = found(half, clicked)
    x, y = (search.figures[name] for name in search.axes)
    beaten = [np.any((x <= x[i]) & (y <= y[i]) & ((x < x[i]) | (y < y[i]))) for i in range(len(x))]
    unbeaten = {(x[i], y[i]) for i in np.flatnonzero(~np.array(beaten))}
    assert {(x[i], y[i]) for i in search.front} == unbeaten
    assert np.all(np.diff(x[search.front]) > 0)
    assert np.all(np.diff(y[search.front]) < 0)


def test_a_coarse_first_pass_finds_the_same(half, clicked, monkeypatch):
    all_fine = found(half, clicked)
    monkeypatch.setattr(small_angle_clicks, "FINE", 10)
    monkeypatch.setattr(small_angle_clicks, "AGAIN", 40)
    two_passes = found(half, clicked)
    assert two_passes.best == all_fine.best
    assert 40 <= two_passes.fine.sum() < 4**4
    again = np.flatnonzero(two_passes.fine)
    np.testing.assert_array_equal(
        two_passes.figures["driven_load_rms_n"][again], all_fine.figures["driven_load_rms_n"][again]
    )


def test_inside_stays_between_the_tested_clicks(half, clicked):
    tested = ({"lsc": 1, "hsc": 0, "lsr": 2, "hsr": 0}, {"lsc": 2, "hsc": 3, "lsr": 3})
    narrow = replace(clicked.maps[0], tested=tested)
    search = found(half, replace(clicked, maps=(clicked.maps[0], narrow), inside=True))
    assert len(search.clicks) == 2 * 4 * 2 * 1
    assert all(replace(clicked, maps=(narrow,)).standing(search.setting(i)) != "outside" for i in range(16))


def test_progress_ends_at_one(half, clicked):
    told = []
    scene = Scene(constant_acceleration(3.0), FLAT, duration=0.2)
    best_clicks(half, scene, damping(kestrel())[0], clicked, axle="rear", objective="steadiest", watch=told.append)
    assert told[-1] == 1.0


def test_standing_is_the_weaker_of_both_shocks(clicked):
    assert clicked.standing({"lsc": 0, "hsc": 0, "lsr": 0, "hsr": 0}) == "tested"
    narrow = replace(clicked.maps[0], tested=({"lsc": 1, "hsc": 1, "lsr": 1, "hsr": 1},))
    assert replace(clicked, maps=(clicked.maps[0], narrow)).standing(NOW) == "outside"


def test_spread_keeps_both_ends():
    line = np.arange(100)
    picked = list(ls.spread(line, 7))
    assert (picked[0], picked[-1], len(picked)) == (0, 99, 7)
    assert list(ls.spread(line[:3], 7)) == [0, 1, 2]


def test_an_unknown_objective_is_named(half, clicked):
    with pytest.raises(CallError, match=", ".join(OBJECTIVES)):
        found(half, clicked, "fastest")


def test_unlike_adjusters_are_refused(half, clicked):
    other = replace(clicked.maps[0], adjusters=tuple(Adjuster(a.name, 5) for a in clicked.maps[0].adjusters))
    with pytest.raises(CallError, match="different adjusters"):
        found(half, replace(clicked, maps=(clicked.maps[0], other)))
