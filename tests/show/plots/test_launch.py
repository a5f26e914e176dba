"""Pictures of launches and of logged travel show the numbers they are given."""

from __future__ import annotations

from types import SimpleNamespace

import numpy as np
import pytest

from dynoan.analysis.launch.clicked import Clicked
from dynoan.analysis.launch.drive import constant_acceleration
from dynoan.analysis.launch.from_car import half_car
from dynoan.analysis.launch.scene import Scene
from dynoan.analysis.sensors.clipping import clipped
from dynoan.analysis.travel.summary import LogPart, corner_travel
from dynoan.analysis.travel.velocity import shock_motion
from dynoan.jobs.launch import LaunchAnswer
from dynoan.jobs.launch.asked import LaunchQuestion
from dynoan.jobs.travel import TravelAnswer, TravelQuestion
from dynoan.jobs.travel.found import LoggedShock
from dynoan.jobs.travel.sensed import SensedTravel
from dynoan.model.log import Log, LogColumn
from dynoan.show.plots import launch as launch_plot
from dynoan.show.plots import launch_best as search_plot
from dynoan.show.plots import travel as travel_plot
from dynoan.show.plots.saving import save
from dynoan.show.plots.style import new_figure
from tests.analysis.launch_cars import FLAT, damping, kestrel
from tests.analysis.travel.test_summary import TIME, kneed, sine
from tests.made import made_map
from tests.oracles.small_angle.launching import launch
from tests.oracles.small_angle_clicks import best_clicks


@pytest.fixture(scope="module")
def half():
    return half_car(kestrel())


@pytest.fixture(scope="module")
def run(half):
    return launch(half, Scene(constant_acceleration(5.0), FLAT, duration=1.0), damping(kestrel()), "stiff")


def test_rise_is_drawn_in_the_units_of_its_axis(run):
    _, ax = new_figure()
    launch_plot.draw_rise(ax, [run], "front", "us")
    x, y = ax.lines[0].get_data()
    np.testing.assert_array_equal(x, run.trace["time_s"])
    np.testing.assert_allclose(y, run.trace["front_rise_m"] / 0.0254)
    assert "[in]" in ax.get_ylabel()


def test_driven_load_is_that_of_the_driven_axle(half, run):
    _, ax = new_figure()
    launch_plot.draw_driven_load(ax, [run], half)
    np.testing.assert_allclose(ax.lines[0].get_ydata(), run.trace["rear_load_n"])
    assert ax.lines[1].get_ydata()[0] == pytest.approx(half.rear.static_load)
    assert ax.get_ylim()[0] == 0.0


def test_the_trade_off_shows_every_setting_the_best_and_now(half):
    clicked = Clicked((made_map(last=2),) * 2, (0.92, 0.92), dict.fromkeys(("lsc", "hsc", "lsr", "hsr"), 1))
    scene = Scene(constant_acceleration(5.0), FLAT, duration=0.5)
    found = best_clicks(half, scene, damping(kestrel())[0], clicked, axle="rear", objective="slowest-rise")
    _, ax = new_figure()
    search_plot.draw_trade_off(ax, found)
    assert len(ax.collections[0].get_offsets()) == 3**4
    line, best, now = ax.lines
    assert best.get_xdata()[0] == pytest.approx(1e3 * found.figures["level_nose_rise_rate_m_s"][found.best])
    assert now.get_ydata()[0] == pytest.approx(found.figures["driven_load_rms_n"][found.now])
    assert len(line.get_xdata()) == len(found.front)


@pytest.mark.thorough
def test_histogram_and_curve_share_the_velocity_axis(tmp_path):
    result = corner_travel("fl", shock_motion(TIME, sine()), (LogPart("launch", 1.0, 3.0),), curve=kneed())
    _, axes = new_figure(rows=2, cols=1)
    travel_plot.draw_histogram(axes[1], result)
    steps = axes[1].patches[0]
    values, edges, _ = steps.get_data()
    np.testing.assert_allclose(values, 100 * result.parts["launch"].histogram.share)
    np.testing.assert_allclose(edges, 1e3 * result.parts["launch"].histogram.edges)
    knees = sorted(line.get_xdata()[0] for line in axes[1].lines[1:])
    np.testing.assert_allclose(knees, [-100.0, 100.0])
    shock = LoggedShock(
        LogColumn("FL", "mm", TIME, "log.csv"), "mm", "", result, 0.0, SensedTravel(TIME, 0, clipped(TIME))
    )
    found = TravelAnswer(question=TravelQuestion(Log("log.csv", (shock.column,))), shocks=(shock,) * 3, parts_from="")
    assert save(travel_plot.figure(found), tmp_path / "travel.png").stat().st_size > 10_000


@pytest.mark.thorough
def test_the_same_pictures_come_out_the_same(half, run, tmp_path):
    found = LaunchAnswer(question=LaunchQuestion("kestrel"), runs=(run,), half=half, assumptions=())
    one, two = (save(launch_plot.figure(found), tmp_path / f"{i}.png").read_bytes() for i in range(2))
    assert one == two


def test_the_shocks_drawn_are_those_that_tell_the_runs_apart():
    def ran(front, rear):
        return SimpleNamespace(surface="sticky", metrics={"front_shock_rms_m_s": front, "rear_shock_rms_m_s": rear})

    assert launch_plot.shocks_axle([ran(0.02, 0.05), ran(0.03, 0.05)], "rear") == "front"
    assert launch_plot.shocks_axle([ran(0.02, 0.05), ran(0.02, 0.06)], "front") == "rear"
    assert launch_plot.shocks_axle([ran(0.02, 0.05)], "rear") == "rear"
    assert launch_plot.shocks_axle([ran(0.02, 0.05)], "front") == "front"
