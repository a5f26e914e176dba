"""`dynoan launch` as a person and as a program calls it."""

from __future__ import annotations

import math

import pytest

from dynoan.cautions import CAUTIONS
from dynoan.errors import CallError, LookupFault, QuantityError
from dynoan.jobs.launch.figures import FIGURES
from tests.cli.launch_library import CAR, make, result, run


@pytest.fixture
def folder(tmp_path, monkeypatch):
    return make(tmp_path / "library", monkeypatch)


def test_json_has_runs_with_metrics_and_traces(folder):
    found = result(folder, "launch", "kestrel", "--surface", "loose")
    assert found["command"] == "launch"
    (one,) = found["result"]["runs"]
    assert one["label"] == "as on the car"
    ends = {f"{m.key}{end}" for m in FIGURES for end in ("", "_low", "_high")}
    assert set(one["metrics"]) == ends | {"goes_over"}
    assert all(name.rsplit("_", 1)[1] in ("m", "s", "n", "rad", "pct", "s2") for name in one["low"])
    assert len({len(values) for values in one["trace"].values()}) == 1
    assert one["trace"]["time_s"][-1] == pytest.approx(3.0)
    assert found["result"]["cautions"] == CAUTIONS
    assert any("pitch_inertia" in text for text in found["result"]["assumptions"])


def test_every_surface_runs_where_none_is_named(folder):
    labels = [r["label"] for r in result(folder, "launch", "kestrel")["result"]["runs"]]
    assert labels == ["as on the car, sticky", "as on the car, loose"]


def test_settings_are_compared_and_clicks_count_as_the_shock_counts(folder):
    """The rear shocks count from soft: their click 0 is the softest, 4 from closed."""
    runs = result(
        folder, "launch", "kestrel", "--surface", "sticky",
        "--setting", "rear=@lsc=0,hsc=0,lsr=0,hsr=0", "--setting", "rear=gravel@lsc=4,hsc=4,lsr=4,hsr=4",
    )["result"]["runs"]  # fmt: skip
    car, soft, stiff = (r["metrics"] for r in runs)
    assert soft["rear_squat_m"] > car["rear_squat_m"] > stiff["rear_squat_m"]


def test_a_setting_may_change_both_axles(folder):
    words = ("--setting", "front=mixed rear=tarmac@lsc=1")
    _, other = result(folder, "launch", "kestrel", "--surface", "sticky", *words)["result"]["runs"]
    assert other["label"] == "front=mixed rear=tarmac@lsc=1"


def test_a_torque_within_the_grip_gives_its_force(folder):
    (one,) = result(folder, "launch", "kestrel", "--surface", "sticky", "--torque", "900 N m")["result"]["runs"]
    moved = 1018 + 2 * 0.9 / 0.3**2  # the wheels turn too
    assert one["metrics"]["acceleration_end_m_s2"] == pytest.approx(900 / 0.3 / moved, rel=0.03)


def test_a_trace_file_drives_the_car(folder, tmp_path):
    log = tmp_path / "drive.csv"
    log.write_text("Zeit [s];Beschleunigung [g]\n0,0;0,0\n0,5;0,3\n3,0;0,3\n", encoding="utf-8")
    (one,) = result(folder, "launch", "kestrel", "--surface", "sticky", "--trace", str(log))["result"]["runs"]
    assert one["metrics"]["acceleration_end_m_s2"] == pytest.approx(0.3 * 9.80665, rel=1e-6)


@pytest.mark.thorough
def test_best_searches_all_clicks_of_the_driven_axle(folder, tmp_path):
    picture = tmp_path / "best.png"
    words = ("--surface", "loose", "--best", "steadiest", "--time", "0.5 s", "--plot", str(picture))
    found = result(folder, "launch", "kestrel", *words)["result"]
    assert found["axle"] == "rear"
    assert found["searched"] == 5**4
    now, best = (run["metrics"]["driven_load_rms_n"] for run in found["runs"])
    assert best <= now * 1.01
    line = [row["metrics"]["driven_load_rms_n"] for row in found["trade_off"]]
    assert min(line) == pytest.approx(best, rel=0.2)  # the search meets other roads than the verdict
    assert picture.read_bytes().startswith(b"\x89PNG")
    assert math.isclose(found["best"]["metrics"]["driven_load_rms_n"], best, rel_tol=0.2)


@pytest.mark.thorough
def test_best_gives_clicks_as_the_shock_counts_them(folder):
    """Slowest nose rise by the front: rebound closed. The front counts from closed, the rear from soft."""
    words = ("--surface", "sticky", "--best", "slowest-rise", "--time", "0.5 s")
    front = result(folder, "launch", "kestrel", *words, "--axle", "front")["result"]
    assert front["best"]["clicks"]["lsr"] == 0
    rear = result(folder, "launch", "kestrel", *words, "--axle", "rear")["result"]
    again = ("--setting", "rear=@" + ",".join(f"{k}={v}" for k, v in rear["best"]["clicks"].items()))
    runs = result(folder, "launch", "kestrel", "--surface", "sticky", "--time", "0.5 s", *again)["result"]["runs"]
    name = "level_nose_rise_rate_m_s"
    assert runs[1]["metrics"][name] == pytest.approx(rear["runs"][1]["metrics"][name], rel=1e-9)


def test_people_see_bands_verdict_assumptions_and_cautions_once(folder):
    done = run(folder, "launch", "kestrel", "--surface", "loose", "--setting", "front=tarmac@lsc=0,lsr=0")
    assert done.exception is None
    for text in ("(", " to ", "Slowest nose rise: front=tarmac", "Taken for granted", "front and rear in turn"):
        assert text in done.stdout
    assert done.stdout.count("A starting point, not a promise") == 1


def test_us_units(folder):
    done = run(folder, "launch", "kestrel", "--surface", "sticky", "--units", "us")
    assert "[in/s]" in done.stdout
    assert "[lbf]" in done.stdout


def test_a_picture(folder, tmp_path):
    picture = tmp_path / "launch.svg"
    done = run(folder, "launch", "kestrel", "--plot", str(picture))
    assert done.exception is None
    assert "<svg" in picture.read_text(encoding="utf-8")
    assert str(picture) in done.stderr


@pytest.mark.parametrize(
    ("words", "says"),
    [
        (("nobody",), "no car 'nobody'"),
        (("kestrel", "--surface", "mud"), "no surface 'mud'; it has sticky, loose"),
        (("kestrel", "--accel", "5"), "has no unit"),
        (("kestrel", "--accel", "5 m/s2", "--torque", "9 N m"), "exclude one another"),
        (("kestrel", "--slip", "2", "--torque", "900 N m"), "a slip of 0.01 to 1, not 2"),
        (("kestrel", "--slip", "0.1"), "engine is missing"),
        (("kestrel", "--slip", "0.1", "--accel", "5 m/s2"), "no wheel slips"),
        (("kestrel", "--slip", "0.1", "--torque", "900 N m", "--held", "500 N m"), "exclude one another"),
        (("kestrel", "--setting", "rear"), "rear=gravel@lsc=6"),
        (("kestrel", "--setting", "rear=gravel@lsc=77"), "outside the clicks of shock RL-03: 0 to 4"),
        (("kestrel", "--axle", "rear"), "--axle and --inside go with --best"),
        (("kestrel", "--best", "steadiest"), "one surface"),
        (("kestrel", "--seed", "-1"), "whole number"),
        (("kestrel", "--time", "0 s"), "0.05 to 30 s"),
        (("kestrel", "--plot", "x.bmp"), ".png, .svg or .pdf"),
    ],
)
def test_wrong_calls_say_what_to_do(folder, words, says):
    done = run(folder, "launch", *words)
    assert isinstance(done.exception, CallError | QuantityError | LookupFault)
    assert says in str(done.exception)


@pytest.mark.parametrize(
    ("line", "says"),
    [
        ('wheelbase = "2430 mm"', "cars/kestrel.toml: wheelbase is missing"),
        ('cg_height = "510 mm"', "cars/kestrel.toml: cg_height is missing"),
        ('driven = "rear"', "driven is missing"),
        ('tyre = "210 N/mm"', "tyre is missing for fl"),
    ],
)
def test_missing_keys_are_named(tmp_path, monkeypatch, line, says):
    folder = make(tmp_path / "library", monkeypatch, CAR.replace(line, ""))
    done = run(folder, "launch", "kestrel")
    assert isinstance(done.exception, QuantityError)
    assert says in str(done.exception)


def test_a_car_without_surfaces_is_told_how_to_name_one(tmp_path, monkeypatch):
    folder = make(tmp_path / "library", monkeypatch, CAR.split("[surfaces.sticky]")[0])
    done = run(folder, "launch", "kestrel")
    assert "[surfaces.loose] grip = 0.65" in str(done.exception)
