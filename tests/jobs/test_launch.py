"""The launch as a question and an answer: what may be asked, what comes back, and what each wrong question is told."""

from __future__ import annotations

import itertools
import json
import math

import numpy as np
import pytest

from dynoan.analysis.launch.large.search import RECKONED
from dynoan.analysis.launch.metrics import LEVEL
from dynoan.analysis.launch.objectives import OBJECTIVES
from dynoan.cautions import CAUTIONS
from dynoan.errors import CallError, LookupFault, QuantityError
from dynoan.jobs import launch
from dynoan.jobs.launch import best as launch_best
from dynoan.jobs.launch.asked import LaunchQuestion
from dynoan.jobs.launch.best import BestClicksQuestion
from dynoan.jobs.launch.figures import BY_KEY, FIGURES
from dynoan.jobs.launch.settings import LaunchSetting
from dynoan.model.log import Log, LogColumn
from dynoan.units import GRAVITY
from dynoan.workbench import Workbench
from tests.cli.launch_library import CAR, make

MASS, RADIUS, HEIGHT, WHEELBASE = 1018.0, 0.3, 0.51, 2.43


@pytest.fixture
def bench(tmp_path, monkeypatch):
    return Workbench.find(make(tmp_path / "library", monkeypatch))


def ask(bench, **asked):
    return launch.answer(bench, LaunchQuestion.asked("kestrel", **({"surface": "sticky", "time": 1.0} | asked)))


_SEARCHED: dict[str, launch_best.BestClicksAnswer] = {}


def search(bench, best="slowest-rise", **asked):
    """The answer to a search; the car is the same in all these tests, so it is searched once."""
    given = {"surface": "sticky", "time": 0.5} | asked
    key = repr((best, sorted(given.items())))
    if key not in _SEARCHED:
        _SEARCHED[key] = launch_best.answer(bench, BestClicksQuestion.asked("kestrel", best, **given))
    return _SEARCHED[key]


class TestQuestion:
    def test_numbers_are_si_and_text_has_a_unit(self):
        told = LaunchQuestion.asked("kestrel", torque="2400 N m", rise="150 ms", time="2 s", seed=4).run
        assert told == LaunchQuestion.asked("kestrel", torque=2400.0, rise=0.15, time=2, seed=4).run
        assert (told.drive.torque, told.drive.rise, told.duration, told.seed) == (2400.0, 0.15, 2.0, 4)

    def test_the_car_as_it_is_runs_first(self):
        asked = LaunchQuestion.asked("kestrel", setting="rear=gravel@lsc=1", surface="loose")
        assert [s.label for s in asked.settings] == ["as on the car", "rear=gravel@lsc=1"]
        assert asked.surfaces == ("loose",)

    def test_settings_as_people_write_them(self):
        found = LaunchSetting.parsed("front=mixed; rear=@lsc=6,lsr=8")
        assert found.packs == {"fl": "mixed", "fr": "mixed"}
        assert found.clicks["rr"] == {"lsc": 6, "lsr": 8}
        one = LaunchSetting.parsed("fl=lsc=3")
        assert (one.packs, one.clicks) == ({}, {"fl": {"lsc": 3}})

    @pytest.mark.parametrize("text", ["", "rear", "middle=gravel", "rear=", "rear=@lsc"])
    def test_what_is_no_setting_is_about_the_setting(self, text):
        with pytest.raises(CallError) as error:
            LaunchSetting.parsed(text)
        assert error.value.part == "setting"
        assert "--" not in str(error.value)

    @pytest.mark.parametrize(
        ("asked", "part"),
        [({"accel": "5"}, "accel"), ({"torque": "5 N"}, "torque"), ({"time": "3 mm"}, "time"), ({"seed": -1}, "seed")],
    )
    def test_a_wrong_value_is_about_its_part(self, asked, part):
        with pytest.raises(QuantityError) as error:
            LaunchQuestion.asked("kestrel", **asked)
        assert error.value.part == part

    def test_two_ways_of_driving_off_exclude_one_another(self):
        with pytest.raises(CallError, match="accel and torque exclude one another"):
            LaunchQuestion.asked("kestrel", accel=5.0, torque=900.0)
        with pytest.raises(CallError, match="has its own") as error:
            LaunchQuestion.asked("kestrel", trace=ramp(), rise=0.2)
        assert error.value.part == "rise"


def ramp(name: str = "a", unit: str = "m/s2") -> Log:
    time, value = np.array([0.0, 0.4, 5.0]), np.array([0.0, 3.0, 3.0])
    return Log("d/run.csv", (LogColumn("Time", "s", time, "run.csv"), LogColumn(name, unit, value, "run.csv")))


class TestAnswer:
    def test_a_torque_within_the_grip_gives_its_force(self, bench):
        """But for what turns the wheels themselves: 0.9 kg m2 each are assumed."""
        (run,) = ask(bench, torque="900 N m").runs
        moved = MASS + 2 * 0.9 / RADIUS**2
        assert run.metrics["speed_end_m_s"] == pytest.approx(900 / RADIUS / moved * (1 - 0.15 / 2), rel=0.01)
        assert run.metrics["wheelspin_s"] == 0.0

    def test_load_transfer_is_that_of_the_textbooks(self, bench):
        """m·a·h/L whatever the springs and links; R. N. Jazar, *Vehicle Dynamics*, ch. 2."""
        (run,) = ask(bench, accel=4.0, time=6.0).runs
        assert run.metrics["load_transfer_end_n"] == pytest.approx(
            MASS * 4.0 * HEIGHT / WHEELBASE, rel=0.02
        )  # the body rises

    def test_a_recorded_acceleration_drives_the_car(self, bench):
        (run,) = ask(bench, trace=ramp("Long acc")).runs
        assert run.metrics["acceleration_end_m_s2"] == pytest.approx(3.0, rel=1e-6)
        in_g = ask(bench, trace=ramp("Beschleunigung", "g")).runs[0]
        assert in_g.trace["rear_drive_n"][-1] == pytest.approx(3 * GRAVITY * MASS)

    def test_a_trace_without_an_acceleration_names_what_it_has(self, bench):
        with pytest.raises(CallError, match=r"d/run.csv: no column is named an acceleration.*it has Time, speed"):
            ask(bench, trace=ramp("speed"))

    def test_clicks_count_as_the_shock_counts(self, bench):
        """The rear shocks count from soft: their click 0 is the softest, 4 from closed."""
        soft, stiff = "rear=@lsc=0,hsc=0,lsr=0,hsr=0", "rear=@lsc=4,hsc=4,lsr=4,hsr=4"
        car, soft_run, stiff_run = ask(bench, setting=[soft, stiff]).runs
        squat = [run.metrics["rear_squat_m"] for run in (soft_run, car, stiff_run)]
        assert squat == sorted(squat, reverse=True)

    def test_every_surface_runs_where_none_is_named(self, bench):
        assert [r.label for r in ask(bench, surface=()).runs] == ["as on the car, sticky", "as on the car, loose"]

    def test_the_verdict_says_best_only_where_bands_part(self, bench):
        found = ask(bench, setting="front=tarmac@lsc=0,lsr=0", rise=0.15)  # what moves both alike is known
        for verdict in found.verdicts:
            one, other = sorted(found.runs, key=lambda r: r.metrics[verdict.key])
            assert (verdict.best, verdict.next) == (one.label, other.label)
            assert (verdict.verdict == "best") == (one.high[verdict.key] < other.low[verdict.key])
        same = ask(bench, setting="rear=gravel")
        assert {v.verdict for v in same.verdicts} == {"no difference"}
        assert ask(bench).verdicts == ()

    def test_what_is_missing_in_the_car_is_told(self, bench, tmp_path, monkeypatch):
        assert any("pitch_inertia" in text for text in ask(bench).assumptions)
        bare = Workbench.find(make(tmp_path / "bare", monkeypatch, CAR.replace('wheel_radius = "300 mm"', "")))
        with pytest.raises(QuantityError, match="wheel_radius is missing, and a drive by torque needs it"):
            ask(bare, torque=900.0)

    def test_settings_are_held_against_the_first_on_the_roads_of_both(self, bench):
        found = ask(bench, surface="loose", setting=["rear=@lsc=0,lsr=0", "rear=@lsc=2,lsr=2"])
        firm, same = found.differences
        assert (firm.against, firm.label) == ("as on the car", "rear=@lsc=0,lsr=0")
        assert firm.roads == 12
        change = firm.changes["driven_load_rms_n"]
        assert change.low < change.value < change.high
        means = [run.metrics["driven_load_rms_n"] for run in found.runs]
        assert change.value == pytest.approx(means[1] - means[0], rel=0.02)
        assert same.changes["distance_m"].value == 0.0
        assert found.to_dict()["differences"][0]["changes"]["driven_load_rms_n"]["value"] == change.value

    def test_a_driver_who_lifts_spins_less(self, bench):
        down, lifted = (ask(bench, surface="loose", torque=2400.0, slip=slip).runs[0].metrics for slip in (None, 0.15))
        assert lifted["wheelspin_s"] < 0.5 * down["wheelspin_s"]

    def test_the_dict_is_what_json_prints(self, bench):
        found = ask(bench).to_dict()
        (run,) = found["runs"]
        assert set(run) == {
            "label", "surface", "setting", "metrics", "low", "high", "trace", "trace_low", "trace_high",
        }  # fmt: skip
        assert run["metrics"]["goes_over"] is False
        assert run["metrics"]["nose_rise_m_low"] <= run["metrics"]["nose_rise_m"] <= run["metrics"]["nose_rise_m_high"]
        assert found["cautions"] == CAUTIONS
        assert np.allclose(np.diff(run["trace"]["time_s"]), 0.01)

    def test_the_frame_has_a_row_a_run_and_bands_beside_the_figures(self, bench):
        frame = ask(bench, setting="rear=mixed").to_frame()
        assert list(frame["label"]) == ["as on the car", "rear=mixed"]
        for m in FIGURES:
            low, value, high = frame[f"{m.key}_low"], frame[m.key], frame[f"{m.key}_high"]
            assert ((low <= value) & (value <= high) | value.isna()).all(), m.key

    @pytest.mark.parametrize(
        ("asked", "error", "says"),
        [
            ({"surface": "mud"}, CallError, "no surface 'mud'; it has sticky, loose"),
            ({"setting": "rear=gravel@lsc=77"}, QuantityError, "outside the clicks"),
        ],
    )
    def test_what_the_car_lacks_is_named(self, bench, asked, error, says):
        with pytest.raises(error, match=says):
            ask(bench, **asked)

    def test_a_car_the_library_lacks_is_named(self, bench):
        with pytest.raises(LookupFault, match="no car 'nobody'"):
            launch.answer(bench, LaunchQuestion.asked("nobody"))

    def test_who_watches_is_told_what_runs(self, bench):
        seen = []
        asked = LaunchQuestion.asked("kestrel", surface="loose", time=0.5)
        launch.answer(bench, asked, lambda what, share: seen.append((what, share)))
        assert seen == [("running as on the car: all the grip there is", 0.0)]


class TestBestClicks:
    def test_nothing_searched_beats_the_best(self, bench):
        found = search(bench)
        key = "level_nose_rise_rate_m_s"
        reached = found.search.figures[key]
        assert len(reached) == 5**4
        assert found.best.figures[key] <= reached.min() + 1e-3 * (reached.max() - reached.min())
        assert [run.label for run in found.runs] == ["as on the car", "best"]
        assert found.runs[1].metrics[key] == pytest.approx(found.best.figures[key], rel=2e-3)

    @pytest.mark.thorough
    def test_the_trade_off_is_one_in_both_figures(self, bench):
        found = search(bench, "steadiest")
        line = sorted((t.figures["driven_load_rms_n"], t.figures["level_nose_rise_rate_m_s"]) for t in found.trade_off)
        assert len(line) > 2
        assert all(a[1] > b[1] for a, b in itertools.pairwise(line[1:]))

    @pytest.mark.thorough
    def test_clicks_come_as_the_shock_counts_them(self, bench):
        """Slowest rise by the front is rebound closed; the front counts from closed, so 0."""
        assert search(bench, axle="front").best.clicks["lsr"] == 0
        assert search(bench).axle == "rear"

    def test_the_frame_has_clicks_and_figures(self, bench):
        frame = search(bench).to_frame()
        assert list(frame.columns[:6]) == ["lsc", "hsc", "lsr", "hsr", "standing", "best"]
        assert frame["best"].sum() == 1

    def test_the_dict_is_what_json_prints(self, bench):
        found = search(bench).to_dict()
        assert {
            "runs",
            "objective",
            "axle",
            "searched",
            "settings",
            "best",
            "trade_off",
            "assumptions",
            "unsure",
            "measure_first",
            "differences",
            "decides",
            "cautions",
        } == set(found)
        assert set(found["best"]) == {"clicks", "standing", "metrics", "best", "now"}

    @pytest.mark.parametrize(
        ("asked", "part", "need"),
        [
            ({"best": "fastest"}, "best", None), ({"axle": "middle"}, "axle", None),
            ({"surface": ()}, None, "one surface"), ({"setting": ["rear=mixed", "rear=tarmac"]}, None, "one setting"),
        ],
    )  # fmt: skip
    def test_wrong_questions_name_what_they_are_about(self, bench, asked, part, need):
        with pytest.raises(CallError) as error:
            search(bench, **asked)
        assert (error.value.part, error.value.need) == (part, need)


class TestFigures:
    def test_each_computed_figure_is_declared_once(self, bench):
        computed = set(ask(bench).runs[0].metrics)
        assert len({m.key for m in FIGURES}) == len(FIGURES)
        assert {m.key for m in FIGURES} == computed
        assert {f"level_{key}" for key in LEVEL} <= computed

    def test_what_a_search_reckons_is_declared(self):
        assert set(BY_KEY) >= RECKONED

    @pytest.mark.parametrize("name", OBJECTIVES)
    def test_what_an_objective_weighs_is_reckoned_by_a_search(self, name):
        assert {OBJECTIVES[name].aim, OBJECTIVES[name].against} <= RECKONED

    def test_a_figure_is_shown_in_the_units_asked_for(self):
        nose, pitch = BY_KEY["nose_rise_m"], BY_KEY["pitch_peak_rad"]
        assert nose.text({"nose_rise_m": 0.0127}, "us") == "0.50"
        assert nose.column("metric") == "nose: highest rise mm"
        assert pitch.text({"pitch_peak_rad": math.radians(1.5)}, "us") == "1.50"
        assert nose.text({"nose_rise_m": math.nan}, "metric") == "–"
        assert all(m.unit_text(units) for m in FIGURES for units in ("metric", "us"))


def test_a_launch_as_plain_values_goes_through_json(bench):
    found = json.loads(json.dumps(ask(bench).to_dict()))
    assert len(found["runs"][0]["trace"]["time_s"]) > 10
