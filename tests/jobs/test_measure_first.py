"""What the car's own ± do to a launch: the shift of a car that says so, squares added, and what to measure first."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from dynoan.analysis.launch.compare import apart
from dynoan.analysis.launch.large.compare import nominal
from dynoan.analysis.statistics import Z95
from dynoan.errors import QuantityError
from dynoan.jobs.launch import answering as launch
from dynoan.jobs.launch.asked import LaunchQuestion
from dynoan.jobs.launch.measure_first import Shift, Unsure, unsure_of, unsure_run, widened
from dynoan.show import presenting
from dynoan.show.text.blocks import Look, Table
from dynoan.workbench import Workbench
from tests.cli.launch_library import CAR, make

#: seals that hold nothing, so that what is unsure is what a car says of itself
SURE = CAR.replace('tyre = "210', 'friction = "0 N"\ntyre = "210')
UNSURE = SURE.replace('"45 %"', '"45 ± 20 %"').replace('"510 mm"', '"510 ± 10 mm"')
SQUAT, RISE = "level_rear_squat_m", "level_nose_rise_m"


@pytest.fixture
def bench(tmp_path, monkeypatch):
    path = make(tmp_path / "library", monkeypatch, SURE)
    cars = {
        "unsure": UNSURE, "less": SURE.replace('"45 %"', '"25 %"'), "more": SURE.replace('"45 %"', '"65 %"'),
        "low": SURE.replace('"510 mm"', '"500 mm"'), "high": SURE.replace('"510 mm"', '"520 mm"'),
    }  # fmt: skip
    for name, text in cars.items():
        (path / "cars" / f"{name}.toml").write_text(text)
    return Workbench.find(path)


def ask(bench, car):
    return launch.answer(bench, LaunchQuestion.asked(car, surface="sticky", time=0.5, rise=0.15))


def test_bands_hold_what_the_ends_of_every_value_do(bench):
    sure, unsure = ask(bench, "kestrel").runs[0], ask(bench, "unsure").runs[0]
    ends = {name: ask(bench, name).runs[0].metrics for name in ("less", "more", "low", "high")}
    for key in (SQUAT, RISE):
        value = sure.metrics[key]
        assert unsure.metrics[key] == pytest.approx(value)
        above = [max(ends[a][key] - value, ends[b][key] - value, 0.0) for a, b in (("less", "more"), ("low", "high"))]
        wanted = value + np.sqrt((sure.high[key] - value) ** 2 + np.sum(np.square(above)))
        assert unsure.high[key] == pytest.approx(wanted, rel=2e-3)
        assert unsure.high[key] > sure.high[key]


def test_the_acceleration_at_the_end_is_as_unsure_as_the_car_makes_it(bench):
    key = "acceleration_end_m_s2"
    sure, unsure = ask(bench, "kestrel").runs[0], ask(bench, "unsure").runs[0]
    ends = {name: ask(bench, name).runs[0].metrics[key] for name in ("less", "more", "low", "high")}
    value, moved = sure.metrics[key], ends["high"] - ends["low"]
    assert moved > 0.02
    for end, way in ((unsure.high[key], 1), (unsure.low[key], -1)):
        parts = [max(way * (ends[name] - value) for name in pair) for pair in (("less", "more"), ("low", "high"))]
        band = (sure.high if way > 0 else sure.low)[key] - value
        assert way * (end - value) == pytest.approx(np.hypot(band, np.linalg.norm(parts)), abs=0.05 * moved)


def test_anti_squat_is_to_be_measured_first_for_the_squat(bench):
    found = ask(bench, "unsure")
    first = {one.figure: one.key for one in found.measure_first}
    assert first[SQUAT] == "antisquat"
    assert found.to_dict()["measure_first"][0]["surface"] == "sticky"
    table = next(b for b in presenting.blocks(found, Look()) if isinstance(b, Table) and "measure first" in b.columns)
    assert any(row[1] == "antisquat" for row in table.rows)


def test_a_traces_band_holds_what_the_ends_of_every_value_do(bench):
    """A line moves as far as its figure: the squares of curves and values add, at each moment."""
    sure, unsure = ask(bench, "kestrel").runs[0], ask(bench, "unsure").runs[0]
    ends = {name: ask(bench, name).runs[0].trace for name in ("less", "more", "low", "high")}
    for key in ("rear_rise_m", "front_rise_m"):
        line = sure.trace[key]
        above = [np.maximum.reduce([ends[a][key] - line, ends[b][key] - line, 0 * line])
                 for a, b in (("less", "more"), ("low", "high"))]  # fmt: skip
        wanted = line + np.sqrt((sure.trace_high[key] - line) ** 2 + np.square(above[0]) + np.square(above[1]))
        assert unsure.trace_high[key] == pytest.approx(wanted, abs=2e-3 * np.ptp(line))
        assert np.all(unsure.trace_low[key] <= line + 1e-12)
        assert np.max(unsure.trace_high[key] - line) > 1.2 * np.max(sure.trace_high[key] - line)


def test_what_moves_two_settings_alike_does_not_hide_which_is_better(bench):
    """Anti-squat that nobody measured moves the squat of both: which squats less is as sure as the curves are."""
    asked = {"surface": "sticky", "time": 0.5, "rise": 0.15, "setting": "rear=gravel@lsc=2,lsr=2"}
    one, two = launch.answer(bench, LaunchQuestion.asked("unsure", **asked)).runs
    apart_by = abs(two.metrics[SQUAT] - one.metrics[SQUAT])
    assert apart_by < one.high[SQUAT] - one.low[SQUAT]  # the bands of the whole touch
    assert one.of_car[SQUAT].shape == (3, 2)  # two of the file, and that grip falls with load
    alone = [replace(run, of_car={}, low=bare.low, high=bare.high) for run, bare in zip(
        (one, two), launch.answer(bench, LaunchQuestion.asked("kestrel", **asked)).runs, strict=True)]  # fmt: skip
    assert apart(one, two, SQUAT, paired=False) == apart(*alone, SQUAT, paired=False)
    other = replace(two, of_car={SQUAT: -two.of_car[SQUAT]})  # a car that goes the other way
    assert not apart(one, other, SQUAT, paired=False)


def test_every_setting_is_as_unsure_as_its_own_clicks_make_it(bench):
    """What anti-squat is off by moves the squat by another amount with other shocks: each has its own."""
    setting = {"surface": "sticky", "time": 0.8, "rise": 0.15, "setting": "rear=gravel@lsc=4,lsr=4"}
    one, two = launch.answer(bench, LaunchQuestion.asked("unsure", **setting)).runs
    sure, *ends = (
        launch.answer(bench, LaunchQuestion.asked(n, **setting)).runs[1] for n in ("kestrel", "less", "more")
    )
    shifts = [end.metrics[SQUAT] - sure.metrics[SQUAT] for end in ends]
    of_antisquat = max(two.of_car[SQUAT], key=np.ptp)
    assert of_antisquat == pytest.approx(shifts, rel=1e-3)
    assert max(one.of_car[SQUAT], key=np.ptp) != pytest.approx(shifts, rel=1e-3)
    assert two.high[SQUAT] > sure.metrics[SQUAT] + max(shifts)
    assert two.low[SQUAT] < sure.metrics[SQUAT] + min(shifts)


def test_a_car_that_states_none_is_told_of_the_tyres_alone(bench):
    """How their grip falls with load no file states; with a steady acceleration that is nothing either."""
    assert {one.key for one in ask(bench, "kestrel").measure_first} == {LOADED}
    found = launch.answer(bench, LaunchQuestion.asked("kestrel", surface="sticky", accel="3 m/s2", time=0.5, rise=0.15))
    assert found.measure_first == ()
    assert not any("measure first" in b.columns for b in presenting.blocks(found, Look()) if isinstance(b, Table))


#: what says how well reckoning and roads serve, or is no figure here
UNMOVED = ("goes_over_s", "energy_miss_pct", "driven_load_rms_roads_n")


def test_every_figure_is_as_unsure_as_the_car_makes_it(bench):
    """Whatever differs between cars at the ends of the ± has a band that is wider than the curves alone make it."""
    sure, unsure = ask(bench, "kestrel").runs[0], ask(bench, "unsure").runs[0]
    ends = [ask(bench, name).runs[0].metrics for name in ("less", "more", "low", "high")]
    moved = {
        key for key, value in sure.metrics.items()
        if key not in UNMOVED and max(abs(end[key] - value) for end in ends) > 1e-4 * max(abs(value), 1e-6)
    }  # fmt: skip
    assert {"level_pitch_rate_peak_rad_s", "driven_load_dip_n", "driven_load_rms_n", "rear_load_end_n",
            "front_shock_rebound_peak_m_s", "rear_shock_rms_m_s"} <= moved  # fmt: skip
    for key in moved:
        wide, narrow = unsure.high[key] - unsure.low[key], sure.high[key] - sure.low[key]
        assert wide > narrow, key
        assert unsure.low[key] <= unsure.metrics[key] <= unsure.high[key], key
    for key in UNMOVED[1:]:
        assert (unsure.low[key], unsure.high[key]) == (sure.low[key], sure.high[key])


def test_bands_hold_the_error_of_the_dynos_friction(bench):
    """Where the car's file states friction nothing is open of it; else its ends are what such files make of the car."""
    case = launch.launch_case(bench, bench.library.car("kestrel"), "it")
    friction = case.large.friction
    case = replace(case, large=replace(case.large, friction_sd=(0.0, 30.0)))
    asked = LaunchQuestion.asked("kestrel", surface="sticky", time=0.5, rise=0.15).run
    surface = case.car.surfaces["sticky"]
    surface = replace(surface, load_sensitivity=0.1)
    case = replace(case, car=replace(case.car, surfaces={"sticky": surface}))
    (shift,) = unsure_of(case, asked, surface, []).beside
    assert shift.key == "rear.friction"
    stiff = replace(case, large=replace(case.large, friction=(friction[0], friction[1] + Z95 * 30.0)))
    found = {
        k: nominal(c.large, asked.scene(c, surface), c.damping).figures[SQUAT] for k, c in enumerate((case, stiff))
    }
    assert shift.high[SQUAT] == pytest.approx(found[1] - found[0])
    run = unsure_run(case, asked, surface, [])
    value, ends = run.metrics[SQUAT], (shift.low[SQUAT], shift.high[SQUAT])
    assert run.low[SQUAT] <= value + min(ends) < value + max(ends) <= run.high[SQUAT]
    assert unsure_of(replace(case, large=replace(case.large, friction_sd=(0.0, 0.0))), asked, surface, []).all == ()


LOADED = "surfaces.sticky.load_sensitivity"
RATE = "level_nose_rise_rate_m_s"


def test_how_the_drive_comes_in_is_open_where_nobody_says_it(bench):
    """The band holds what a drive of half and of twice the usual time does; a stated time closes it."""
    asked = {"surface": "sticky", "time": 0.5}
    found = {
        rise: launch.answer(bench, LaunchQuestion.asked("kestrel", rise=rise, **asked))
        for rise in (None, "0.15 s", "0.15 ± 0.05 s", 0.075, 0.3)
    }
    open_, known, so_well, fast, slow = (one.runs[0] for one in found.values())
    assert open_.metrics[RATE] == known.metrics[RATE]
    assert open_.low[RATE] < slow.metrics[RATE] < known.low[RATE] < known.high[RATE] < fast.metrics[RATE]
    assert fast.metrics[RATE] < open_.high[RATE]
    assert open_.low[RATE] < so_well.low[RATE] < known.low[RATE]
    assert {one.key for one in found[None].measure_first if one.figure == RATE} == {"rise", LOADED}
    said = next(note for note in found[None].assumptions if "nobody says" in note)
    assert "0.075 to 0.3 s" in said
    assert not any("nobody says" in note for note in found["0.15 s"].assumptions)


def test_a_rise_that_is_no_time_with_an_error_is_refused():
    for text, fault in (("0.15 ± x s", "x s"), ("0.15 s ± -1", "no unit of time")):
        with pytest.raises(QuantityError, match=fault) as caught:
            LaunchQuestion.asked("kestrel", rise=text)
        assert caught.value.part == "rise"


def test_no_time_is_longer_than_the_run(bench):
    case = launch.launch_case(bench, bench.library.car("unsure"), "it")
    asked = LaunchQuestion.asked("unsure", surface="loose", time=0.5, torque="1250 N m").run
    run = unsure_run(case, asked, case.car.surfaces["loose"], [])
    assert 0 < run.metrics["wheelspin_s"] < run.high["wheelspin_s"] <= 0.5


@pytest.mark.parametrize("rise", ["0.15 ± 0.15 s", "0.15 ± 0.2 s", "0.15 ± 0 s"])
def test_a_drive_that_might_come_in_before_it_begins_is_refused(rise):
    with pytest.raises(QuantityError, match="above zero and below the time itself"):
        LaunchQuestion.asked("kestrel", rise=rise)


@pytest.mark.parametrize("rise", ["0.15 ± 0.05 s", "150 +- 50 ms", "0,15 s ± 0,05 s"])
def test_a_drive_that_is_known_so_well_is_read_as_a_cars_values_are(rise):
    drive = LaunchQuestion.asked("kestrel", rise=rise).run.drive
    assert drive.rise_ends == pytest.approx((0.1, 0.2))


def test_no_time_is_shorter_than_none_where_the_base_of_what_moves_it_lies_a_little_higher(bench):
    name, whole = "wheelspin_s", ask(bench, "unsure").runs[0]
    run = replace(whole, metrics={name: 0.804}, low={name: 0.803}, high={name: 0.805}, trace_low={}, trace_high={})
    grip = Shift("surfaces.sticky.load_sensitivity", 0.1, {name: -0.812}, {name: 0.2})
    assert widened(run, Unsure(beside=(grip,), least={name: 0.0})).low[name] == 0.0
