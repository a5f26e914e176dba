"""``dynoan curve`` as a person and as a script call it; files need no library."""

from __future__ import annotations

import csv
import io
import json

import numpy as np
import pytest
from click.testing import CliRunner

from dynoan.cli.main import cli
from dynoan.errors import CallError
from tests.analysis.conditioning_records import FEW, broken_line

SIDE = {"knees", "segments"}
SIDE_NAMES = ("compression", "rebound")
KEYS = {"what", "shock", "pack", "clicks", "gas_force_n", "friction_n", "rms_n", "standing", "table", *SIDE_NAMES}


@pytest.fixture
def file(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    monkeypatch.delenv("DYNOAN_LIBRARY", raising=False)
    rng = np.random.default_rng(4)
    rows = [(1000 * v, *(abs(broken_line(s * v)) * (1 + rng.normal(0, 0.01)) for s in (1, -1))) for v in FEW]
    lines = ["Shock: FL-01", "Pack: gravel", "Velocity (mm/s),Compression (N),Rebound (N)"]
    lines += [",".join(f"{c:.2f}" for c in row) for row in rows]
    path = tmp_path / "table.csv"
    path.write_text("\n".join(lines) + "\n")
    return path


def call(*words):
    return CliRunner().invoke(
        cli, ["curve", *map(str, words)], prog_name="dynoan", standalone_mode=False, catch_exceptions=False
    )


def result(*words):
    done = call(*words, "--json")
    assert done.return_value == 0
    return json.loads(done.stdout)


def test_json_holds_every_key_that_others_rely_on(file):
    body = result(file)
    assert set(body) == {"dynoan", "command", "result", "warnings"}
    assert body["command"] == "curve"
    (curve,) = body["result"]["curves"]
    assert set(curve) >= KEYS
    for name in ("compression", "rebound"):
        assert set(curve[name]) >= SIDE
        for knee in curve[name]["knees"]:
            assert set(knee) == {"velocity_m_s", "low_m_s", "high_m_s", "force_n"}
            assert knee["low_m_s"] <= knee["velocity_m_s"] <= knee["high_m_s"]
        for piece in curve[name]["segments"]:
            assert set(piece) >= {"from_m_s", "to_m_s", "slope_n_s_m", "character"}
            assert piece["character"] in {"digressive", "linear", "progressive"}
    assert curve["standing"] == "tested"
    assert curve["shock"] == "FL-01"


def test_table_is_signed_at_the_speeds_asked_for_in_both_directions(file):
    table = result(file, "--at", "50, 10 in/s")["result"]["curves"][0]["table"]
    assert [row["velocity_m_s"] for row in table] == pytest.approx([-0.254, -0.05, 0.05, 0.254])
    for row in table:
        assert row["low_n"] < row["force_n"] < row["high_n"]
        assert row["force_n"] == pytest.approx(float(broken_line(row["velocity_m_s"])), rel=0.06)


def test_speeds_beyond_the_data_are_flagged_in_words(file):
    body = result(file, "--at", "0.7 m/s")
    assert any("beyond the data in compression" in w for w in body["warnings"])
    assert all(row["extrapolated"] for row in body["result"]["curves"][0]["table"])


def test_people_read_knees_forces_and_what_was_found(file):
    said = call(file).stdout
    for word in ("table.csv", "gas force", "knee at its end", "95 % band", "found and taken out", "peak table"):
        assert word in said


def test_us_units(file):
    said = call(file, "--units", "us", "--at", "2").stdout
    assert "in/s" in said
    assert "lbf" in said
    assert "2" in said.split("95 % band")[-1]


def test_csv_is_one_table_in_si(file):
    rows = list(csv.DictReader(io.StringIO(call(file, "--csv", "--at", "0.1 m/s").stdout)))
    assert [float(r["velocity_m_s"]) for r in rows] == [-0.1, 0.1]
    assert list(rows[0]) == [
        "what", "velocity_m_s", "force_n", "low_n", "high_n", "extrapolated", "sum_n", "sum_low_n", "sum_high_n",
    ]  # fmt: skip


@pytest.mark.parametrize(("suffix", "start"), [(".png", b"\x89PNG"), (".svg", b"<?xml")])
def test_plot_is_written_and_named(file, suffix, start):
    out = file.with_suffix(suffix)
    body = result(file, "--plot", out)
    assert out.read_bytes().startswith(start)
    assert body["result"]["plot"] == str(out)


def test_what_is_stated_wins_over_the_file(file):
    curve = result(file, "--pack", "tarmac", "--clicks", "lsc=4")["result"]["curves"][0]
    assert curve["pack"] == "tarmac"
    assert curve["clicks"] == {"lsc": 4}


def test_a_missing_file_is_called_one(file):
    with pytest.raises(CallError, match=r"rig_9\.csv: no such file"):
        CliRunner().invoke(cli, ["curve", "rig_9.csv"], catch_exceptions=False)
