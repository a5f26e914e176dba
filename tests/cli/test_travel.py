"""`dynoan travel` as a person and as a program calls it."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pytest

from dynoan.cli.log_options import per_corner
from dynoan.errors import DynoanError
from dynoan.jobs.travel import parts_from
from tests.cli.launch_library import make, result, run
from tests.library.calling import dynoan

DEMO = Path(__file__).parents[2] / "fixtures" / "demo" / "travel" / "kestrel_loose_run3.csv"


@pytest.fixture
def volts(tmp_path):
    """One shock in volts, falling as it gets shorter, 40 V/m, 2.1 V at rest, a decimal comma, no speed."""
    time = np.arange(0.0, 6.0, 0.004)
    x = np.where(time < 2.0, 0.0, 0.0075 * (1 - np.cos(2 * np.pi * 1.7 * (time - 2.0))))
    reading = 2.1 - 40.0 * x
    rows = [f"{t:.3f};{v:.5f}".replace(".", ",") for t, v in zip(time, reading, strict=True)]
    path = tmp_path / "log.csv"
    path.write_text("\n".join(["Time;POT_3", "s;V", *rows]) + "\n", encoding="utf-8")
    return path


def test_a_log_without_a_library(monkeypatch, tmp_path):
    monkeypatch.chdir(tmp_path)
    found = result(None, "travel", str(DEMO))["result"]
    assert set(found["corners"]) == {"fl", "fr", "rl", "rr"}
    parts = found["corners"]["rl"]["parts"]
    assert set(parts) == {"all", "launch", "the rest"}
    assert "Speed" in found["parts_from"]
    # It squats: the rear gets shorter and the front longer when it leaves the line.
    assert parts["launch"]["deepest_m"] > found["corners"]["fl"]["parts"]["launch"]["deepest_m"]
    assert parts["all"]["bottoming"] is None
    assert sum(parts["all"]["histogram"]["share"]) == pytest.approx(1.0)


def test_curves_of_the_car_give_knees_energy_and_ends(tmp_path, monkeypatch):
    folder = make(tmp_path / "library", monkeypatch)
    picture = tmp_path / "travel.png"
    found = result(folder, "travel", str(DEMO), "--car", "kestrel", "--plot", str(picture))["result"]
    part = found["corners"]["fr"]["parts"]["all"]
    knee = part["rebound"]["knees"][0]
    assert knee["below_share"] + knee["above_share"] == pytest.approx(1.0)
    energies = [r["energy_share"] for d in ("compression", "rebound") for r in part[d]["ranges"]]
    assert sum(energies) == pytest.approx(1.0)
    assert part["bottoming"] == {"times": 0, "seconds": 0.0}
    assert picture.read_bytes().startswith(b"\x89PNG")


def test_volts_are_calibrated_with_sign_and_zero(volts):
    words = ("--corner", "rl=POT_3", "--scale", "-25 mm per V", "--zero", "2.1 V")
    found = result(None, "travel", str(volts), *words)["result"]
    corner = found["corners"]["rl"]
    assert corner["parts"]["all"]["deepest_m"] == pytest.approx(0.015, rel=0.01)
    assert corner["parts"]["launch"]["compression"]["peak_m_s"] == pytest.approx(0.0075 * 2 * np.pi * 1.7, rel=0.02)
    assert corner["zero"] == "the reading 2.1 V"
    assert "begin to move" in found["parts_from"]


def test_the_wrong_sign_swaps_the_ends(volts):
    right, wrong = (
        result(None, "travel", str(volts), "--corner", "rl=pot 3", "--scale", s, "--part", "2..2.2")["result"]
        for s in ("-25 mm per V", "25 mm/V")
    )
    assert right["corners"]["rl"]["parts"]["launch"]["compression"]["time_share"] > 0.6
    assert wrong["corners"]["rl"]["parts"]["launch"]["rebound"]["time_share"] > 0.6


def test_people_see_how_it_was_understood(volts):
    done = run(None, "travel", str(volts), "--corner", "rl=POT_3", "--scale", "-25 mm per V")
    assert done.exception is None
    for text in (
        "rear left: column 'POT_3' at 250 Hz",
        "-25 mm per V",
        "(Savitzky-Golay, ",
        "(the median before",
    ):
        assert text in done.stdout


def test_a_slow_logger_is_warned_of(tmp_path):
    time = np.arange(0.0, 20.0, 0.02)
    rows = [f"{t:.2f},{20 * np.sin(3 * t):.3f}" for t in time]
    path = tmp_path / "slow.csv"
    path.write_text("\n".join(["time [s],rl [mm]", *rows]) + "\n", encoding="utf-8")
    found = result(None, "travel", str(path))
    assert any("50 Hz" in text for text in found["warnings"])
    assert any("no launch found" in text for text in found["warnings"])


@pytest.mark.parametrize(
    ("words", "says"),
    [
        (("--corner", "rl=POT_9"), "no column 'POT_9'; it has Time, POT_3"),
        (("--corner", "POT_3"), "is not like fl="),
        (("--corner", "rl=POT_3"), "no length; say what it means"),
        (("--corner", "rl=POT_3", "--scale", "25"), "25 mm per V"),
        (("--corner", "rl=POT_3", "--scale", "25 mm per mm"), "is in V, but the scale is '25 mm per mm'"),
        (("--corner", "rl=POT_3", "--scale", "25 mm per V", "--zero", "58 mm"), "not in the unit of the scale"),
        (("--corner", "rl=POT_3", "--corner", "rr=POT_3", "--scale", "25 mm per V"), "two corners"),
        (("--scale", "25 mm per V"), "no column names a corner"),
        (("--corner", "rl=POT_3", "--scale", "25 mm per V", "--part", "90..95"), "holds nothing"),
        (("--corner", "rl=POT_3", "--scale", "25 mm per V", "--part", "soon"), "launch=2.0..5.0"),
        (("--corner", "rl=POT_3", "--scale", "25 mm per V", "--window", "2 ms"), "too narrow"),
    ],
)
def test_wrong_calls_say_what_to_do(volts, words, says):
    done = run(None, "travel", str(volts), *words)
    assert isinstance(done.exception, DynoanError)
    assert says in str(done.exception)


def test_options_for_all_and_for_one():
    found = per_corner(["25 mm per V", "rl=30 mm per V"], "scale")
    assert found["rl"] == "30 mm per V"
    assert found["fl"] == "25 mm per V"
    with pytest.raises(DynoanError, match="twice"):
        per_corner(["rl=a", "rl=b"], "corner")


def test_parts_as_people_write_them():
    assert parts_from(["2,0..5,0", "hairpin=12 s to 15 s"]) == {"launch": (2.0, 5.0), "hairpin": (12.0, 15.0)}
    with pytest.raises(DynoanError, match="is taken"):
        parts_from(["1..2", "3..4"])


def test_a_part_that_ends_before_it_starts_is_refused(volts):
    done = run(None, "travel", str(volts), "--corner", "rl=POT_3", "--scale", "25 mm per V", "--part", "5..2")
    assert "ends before it starts" in str(done.exception)


def test_a_column_in_volts_is_told_by_its_header(tmp_path):
    rows = [f"{n / 100:.2f},{2.5 + 0.1 * np.sin(n / 10):.4f}" for n in range(400)]
    path = tmp_path / "volt.csv"
    path.write_text("\n".join(["Time [s],Pot FL [V]", *rows]) + "\n", encoding="utf-8")
    refused = run(None, "travel", str(path), "--corner", "fl=Pot FL")
    assert "column 'Pot FL' is in V, no length" in str(refused.exception)


def written(folder, name, head, *columns, sep=","):
    rows = "".join(sep.join(f"{v:.4f}" for v in row) + "\n" for row in zip(*columns, strict=True))
    (folder / name).write_text(head + "\n" + rows)
    return folder / name


AT = np.arange(0.0, 8.0, 0.005)
LEFT = 60 + np.where(AT < 2, 0, 18 * np.sin(9 * AT) + 9 * np.sin(23 * AT + 1))  # [mm]


def test_a_sensor_that_runs_out_says_at_least(tmp_path):
    done = dynoan("travel", written(tmp_path, "short.csv", "Time [s],FL [mm]", AT, np.clip(LEFT, 45, 70)))
    assert "at least 10." in done.out
    assert "front left: the sensor runs out of its range" in done.err


def test_dropouts_are_left_out_and_said(tmp_path):
    lost = LEFT.copy()
    lost[[700, 900, 901, 1300]] = 0.0
    whole, holed = (
        dynoan("travel", written(tmp_path, f"{n}.csv", "Time [s],FL [mm]", AT, v), "--json").result["corners"]["fl"]
        for n, v in (("whole", LEFT), ("holed", lost))
    )
    assert (whole["lost_samples"], holed["lost_samples"]) == (0, 4)
    for key in ("deepest_m", "longest_m"):
        assert holed["parts"]["all"][key] == pytest.approx(whole["parts"]["all"][key], abs=5e-4)
    assert "4 samples of drop-outs" in dynoan("travel", tmp_path / "holed.csv").err


@pytest.mark.parametrize(("head", "more"), [
    ("Timestamp,Damper FL [mm]", []), ("Time,Shock FL [mm]", []), ("Zeit [s],Federweg VL [mm]", []),
    ("clock [s],Shock FL [mm]", ["--time", "clock"]), ("Time [s],Shock FL [%]", ["--scale", "1 mm per %"]),
])  # fmt: skip
def test_columns_as_loggers_name_them(tmp_path, head, more):
    done = dynoan("travel", written(tmp_path, "log.csv", head, AT, LEFT), *more, "--json")
    assert done.code == 0, done.err
    assert done.result["corners"]["fl"]["rate_hz"] == pytest.approx(200.0, rel=1e-3)


def test_a_column_of_percent_is_said_to_be_no_length(tmp_path):
    done = dynoan("travel", written(tmp_path, "log.csv", "Time [s],Shock FL [%]", AT, LEFT))
    assert "column 'Shock FL' is in %, no length" in done.err


SQUAT = np.clip((AT - 2) / 0.4, 0, 1)  #: of a launch at 2 s


def test_a_launch_shows_that_the_signs_are_turned_round(tmp_path):
    front, rear = 60 - 15 * SQUAT + np.sin(40 * AT) * SQUAT, 55 + 20 * SQUAT + np.sin(40 * AT) * SQUAT
    right = dynoan("travel", written(tmp_path, "right.csv", "Time [s],FL [mm],RL [mm]", AT, front, rear))
    turned = dynoan("travel", written(tmp_path, "turned.csv", "Time [s],FL [mm],RL [mm]", AT, 120 - front, 110 - rear))
    assert "the front goes down and the rear up" in turned.err
    assert "the front goes down" not in right.err


def test_a_shock_that_creeps_as_the_car_stands_or_stands_elsewhere_at_the_end_is_said(tmp_path):
    move = np.where((AT > 3) & (AT < 6), 12 * np.sin(9 * (AT - 3)), 0)
    log = written(tmp_path, "creeps.csv", "Time [s],FL [mm]", AT, 60 + move + 1.0 * AT)
    err = dynoan("travel", log).err
    assert "as the car stood: did somebody get in, or does the sensor drift?" in err
    assert "mm from where it stood before the start" in err
    sound = dynoan("travel", written(tmp_path, "sound.csv", "Time [s],FL [mm]", AT, 60 + move)).err
    assert "as the car stood" not in sound
    assert "from where it stood" not in sound


def test_zero_is_where_it_stood_last_though_it_was_pushed_before(tmp_path):
    pushed = 60 + np.where(AT < 1.4, 8 * np.sin(6 * AT), 0) - 15 * SQUAT
    log = written(tmp_path, "pushed.csv", "Time [s],FL [mm],Speed [m/s]", AT, pushed, np.clip(AT - 2, 0, None) * 5)
    done = dynoan("travel", log, "--json")
    assert done.result["corners"]["fl"]["zero_at_m"] == pytest.approx(0.060, abs=3e-4)


def test_a_metric_scale_is_told_in_us_units_to_three_figures(volts):
    words = ("--corner", "rl=POT_3", "--units", "us", "--scale")
    assert "-0.984 in per V" in run(None, "travel", str(volts), *words, "-25 mm per V").stdout.replace("\n", " ")
    assert "1.05 in per V" in run(None, "travel", str(volts), *words, "1.05 in per V").stdout.replace("\n", " ")
