"""``dynoan learn``: logs of launches read, values told, the car's file changed only when asked."""

from __future__ import annotations

import numpy as np
import pytest

from dynoan.jobs.learn import LearnQuestion
from dynoan.jobs.learn.logs import LearnHints, learn_log
from dynoan.reading import read_log
from tests.cli.launch_library import CAR, make
from tests.library.calling import dynoan
from tests.made import made_curve
from tests.worlds.track import launches as world


@pytest.fixture
def library(tmp_path, monkeypatch):
    return make(tmp_path / "library", monkeypatch)


@pytest.fixture(scope="module")
def logs(tmp_path_factory):
    """Two launches of a car that squats far more than its file says; the accelerometer counts backward."""
    folder = tmp_path_factory.mktemp("logs")
    curve = made_curve("gravel", 2, 2, 2, 2)
    weekend = world.weekends([21], 2, ("fl", "rl", "acceleration"), keys=("antisquat",), rough=(1e-6, 2e-6),
                              force=lambda _axle, speed: curve(speed))[0]  # fmt: skip
    for n, log in enumerate(weekend.launches, 1):
        log.columns["acceleration"][:] *= -1
        (folder / f"run{n}.csv").write_text(world.csv_text(log))
    return folder


@pytest.mark.thorough
def test_two_logs_are_learned_from_and_the_last_one_is_tried(library, logs, tmp_path):
    before = (library / "cars" / "kestrel.toml").read_text()
    done = dynoan("--library", library, "learn", logs / "run1.csv", logs / "run2.csv", "--car", "kestrel", "--surface",
                  "loose", "--json", "--plot", tmp_path / "learn.png")  # fmt: skip
    found = done.result
    assert found["values"]["surfaces.loose.grip"]["told"]
    assert set(found["values"]["cg_height"]) >= {"before", "after", "low", "high", "unit"}
    assert found["left_out"]["log"] == "run2.csv"
    assert found["logs"][0]["channels"] == ["front", "rear", "acceleration"]
    assert any("counted backward" in line for line in found["logs"][0]["understood"])
    assert any("zero" in line and "where the car stood" in line for line in found["logs"][0]["understood"])
    assert not found["written"]
    assert found["changes"]
    assert (library / "cars" / "kestrel.toml").read_text() == before
    assert done.code == (1 if found["verdict"] in ("no better", "cannot tell") else 0)
    assert (tmp_path / "learn.png").stat().st_size > 10_000


def test_what_one_log_tells_goes_into_the_file_where_asked(library, logs):
    path = library / "cars" / "kestrel.toml"
    before = path.read_text()
    done = dynoan("--library", library, "learn", logs / "run1.csv", "--car", "kestrel", "--surface", "loose", "--write")
    after = path.read_text()
    assert "Written into the car's file" in done.out
    assert "nothing is left to try it on" in done.err
    assert 'grip = "0.' in after
    assert " ± " in after
    changed = [new for old, new in zip(before.splitlines(), after.splitlines(), strict=False) if old != new]
    assert 0 < len(changed) <= len(after.splitlines())
    path.write_text(before)


@pytest.mark.parametrize(("text", "words", "says"), [
    ("time [s],oil [degC]\n" + "".join(f"{n / 10},80\n" for n in range(60)), [], "neither travel of a shock"),
    ("time [s],FL [mm]\n" + "".join(f"{n / 50},40.0\n" for n in range(300)), [], "no launch found"),
    ("time [s],Speed [km/h]\n" + "".join(f"{n / 50},{max(0, n - 290)}\n" for n in range(300)), [], "the log ends"),
    ("time [s],Speed [km/h]\n0,0\n", ["--surface", "ice"], "no surface 'ice'"),
])  # fmt: skip
def test_learn_refuses_in_a_line(library, tmp_path, text, words, says):
    (tmp_path / "log.csv").write_text(text)
    where = words or ["--surface", "loose"]
    done = dynoan("--library", library, "learn", tmp_path / "log.csv", "--car", "kestrel", *where)
    assert (done.code, says in done.err) == (2, True), done.err


def test_the_car_of_the_test_is_the_worlds():
    assert f'wheelbase = "{1e3 * world.WHEELBASE:.0f} mm"' in CAR
    assert np.allclose(world.MASSES, [268, 262, 241, 247])


def test_logs_that_no_model_follows_are_doubted_and_nothing_is_written(library, logs, tmp_path):
    """Front and rear taken for one another."""
    text = (logs / "run1.csv").read_text().replace("Shock FL", "Shock XX").replace("Shock RL", "Shock FL")
    (tmp_path / "run1.csv").write_text(text.replace("Shock XX", "Shock RL"))
    before = (library / "cars" / "kestrel.toml").read_text()
    done = dynoan(
        "--library", library, "learn", tmp_path / "run1.csv", "--car", "kestrel", "--surface", "loose", "--write"
    )
    assert "of these shocks' travel: are columns" in done.err
    assert done.code == 1
    assert "Cannot tell: the launch model does not follow these logs" in done.out
    assert "With --write" not in done.out
    assert (library / "cars" / "kestrel.toml").read_text() == before


def test_an_accelerometer_in_volts_takes_a_scale_of_its_own(library, logs, tmp_path):
    path = tmp_path / "volts.csv"
    said, first, *rows = (logs / "run1.csv").read_text().splitlines()
    place = first.split(",").index("Longitudinal acc [m/s2]")
    cells = [row.split(",") for row in rows]
    for row in cells:
        row[place] = f"{2.5 + float(row[place]) / 9.80665:.6f}"
    path.write_text("\n".join([said, first.replace("Longitudinal acc [m/s2]", "Ch 9 [V]"), *map(",".join, cells)]))
    told = learn_log(read_log(logs / "run1.csv"), LearnHints())
    hints = LearnQuestion.asked([read_log(path)], car="kestrel", surface="loose",
                                corner={"acceleration": "Ch 9"}, scale={"acceleration": "1 g per V"}).hints  # fmt: skip
    found = learn_log(read_log(path), hints)
    assert found.launch.names == told.launch.names
    for one, other in zip(found.launch.channels, told.launch.channels, strict=True):
        np.testing.assert_allclose(one.values, other.values, atol=1e-4)
    assert any("'Ch 9', 1 g per V" in line for line in found.understood)
    done = dynoan("--library", library, "learn", path, "--car", "kestrel", "--surface", "loose", "--corner",
                  "acceleration=Ch 9")  # fmt: skip
    assert done.code == 2
    assert "no acceleration" in done.err
