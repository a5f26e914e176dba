"""``dynoan read``: the card, the JSON that others rely on, the options, the picture, and several files at once."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from dynoan.cli import main as shell
from dynoan.cli.hints import spoken
from dynoan.cli.main import cli
from dynoan.errors import CallError, QuantityError
from tests.importers.broken import file, rows
from tests.metric import metric

CORPUS = Path(__file__).parents[2] / "fixtures" / "layouts"
PLAIN = str(CORPUS / "plain_comma.csv")
PEAKS = str(CORPUS / "peaks_us_positive.csv")


@pytest.fixture(autouse=True)
def no_library(monkeypatch, tmp_path):
    monkeypatch.chdir(tmp_path)
    monkeypatch.delenv("DYNOAN_LIBRARY", raising=False)


def run(*args: str) -> int:
    return cli.main(["read", *args], prog_name="dynoan", standalone_mode=False) or 0


def result(capsys, *args: str, code: int = 0):
    assert run(*args, "--json") == code
    out = capsys.readouterr().out
    assert out.count("\n") == 1
    body = json.loads(out)
    assert body["command"] == "read"
    return body["result"]["files"]


def test_json_has_the_promised_keys(capsys):
    (found,) = result(capsys, PLAIN)
    assert found["error"] is None
    (sweep,) = found["sweeps"]
    keys = {"layout", "shock", "pack", "clicks", "samples", "rate_hz", "compression", "rebound", "channels", "warnings"}
    assert keys <= set(sweep)
    assert set(sweep["compression"]) == {"peak_velocity_m_s", "peak_force_n"} == set(sweep["rebound"])
    assert {"column", "unit", "sign"} <= set(sweep["channels"]["force"])
    assert sweep["channels"]["force"]["sign"] == 1


def test_rebound_peaks_are_magnitudes(capsys):
    (found,) = result(capsys, PEAKS)
    assert found["sweeps"][0]["rebound"]["peak_force_n"] > 0
    assert found["sweeps"][0]["rate_hz"] is None


def test_a_bad_file_does_not_hide_the_others(capsys, tmp_path):
    (tmp_path / "bad.csv").write_text("nothing here\n")
    found = result(capsys, PLAIN, "bad.csv", "gone.csv", PEAKS, code=2)
    assert [bool(f["error"]) for f in found] == [False, True, True, False]
    assert found[1]["error"].startswith("bad.csv")
    assert found[2]["error"].startswith("gone.csv: no such file; check the name; it was looked for in ")


def test_card_shows_setting_evidence_peaks_and_a_plot(capsys):
    assert run(PLAIN) == 0
    out = capsys.readouterr().out
    for words in (
        "trace, 529 samples at 100 Hz",
        "shock FL-01, pack gravel, lsc=6,lsr=8",
        "'Force [N]' in N",
        "gas force pushes out",
        "peaks     compression",
        "mm/s",
        "│",
    ):
        assert words in out
    assert max(map(len, out.splitlines())) < 200


def test_units_of_the_card_follow_the_option(capsys):
    run(PEAKS, "--units", "us")
    assert "lbf at up to 20.0 in/s" in capsys.readouterr().out


def test_options_win_over_the_file(capsys):
    options = (
        "--shock",
        "RL-09",
        "--pack",
        "tarmac",
        "--clicks",
        "lsc=3",
        "--unit",
        "force=lbf",
        "--positive",
        "rebound",
    )
    (found,) = result(capsys, PLAIN, *options)
    (sweep,) = found["sweeps"]
    assert (sweep["shock"], sweep["pack"], sweep["clicks"]) == ("RL-09", "tarmac", {"lsc": 3, "lsr": 8})
    assert sweep["channels"]["force"]["unit"] == "lbf"
    assert sweep["channels"]["force"]["sign"] == -1
    assert any("as told" in w for w in sweep["warnings"])


def test_columns_by_number_with_rate_and_marks(capsys, tmp_path):
    body = [r.replace(".", ",") for r in rows("{x:.3f}|{f:.1f}")]
    (tmp_path / "bare.txt").write_bytes(file("", body)[1:])
    columns = ("--column", "displacement=1", "--column", "force=2", "--unit", "displacement=mm", "--unit", "force=N")
    (found,) = result(capsys, "bare.txt", *columns, "--rate", "200 Hz", "--delimiter", "|", "--decimal", ",")
    assert found["sweeps"][0]["rate_hz"] == 200
    assert found["sweeps"][0]["samples"] == 400


@pytest.mark.parametrize(
    ("args", "words"),
    [
        (("--unit", "force"), "--unit 'force'"),
        (("--unit", "torque=Nm"), "--unit 'torque=Nm'"),
        (("--column", "force="), "--column 'force='"),
        (("--delimiter", "x"), "--delimiter 'x'"),
        (("--decimal", ";"), "--decimal ';'"),
        (("--rate", "0 Hz"), "--rate"),
        (("--rate", "1000"), "--rate"),
        (("--clicks", "6"), "--clicks"),
    ],
)
def test_wrong_options_say_what_is_wanted(args, words):
    with pytest.raises((CallError, QuantityError)) as refused:
        run(PLAIN, *args)
    assert words in spoken(refused.value)


def test_an_option_of_another_unit_is_refused(capsys):
    (found,) = result(capsys, PLAIN, "--unit", "force=mm", code=2)
    assert "'mm' is no unit of force" in found["error"]


@pytest.mark.parametrize("suffix", ["png", "svg"])
def test_picture(capsys, tmp_path, suffix):
    assert run(PLAIN, "--plot", f"out.{suffix}") == 0
    picture = (tmp_path / f"out.{suffix}").read_bytes()
    assert picture.startswith(b"\x89PNG" if suffix == "png" else b"<?xml")
    assert f"picture: out.{suffix}" in capsys.readouterr().err


def test_layouts_of_the_library_are_used(capsys, tmp_path):
    from dynoan.library import Library

    library = tmp_path / "team"
    Library.create(library)
    (library / "layouts").mkdir(exist_ok=True)
    card = """
header = ["Clk", "Pos", "Ld"]
delimiter = ";"
[columns]
time = "Clk"
displacement = "Pos"
force = "Ld"
[units]
time = "s"
displacement = "mm"
force = "N"
"""
    (library / "layouts" / "old-rig.toml").write_text(card)
    (tmp_path / "run.txt").write_bytes(file("Clk;Pos;Ld", rows("{t:.4f};{x:.3f};{f:.1f}")))
    (found,) = result(capsys, "run.txt", "--library", str(library))
    assert found["sweeps"][0]["importer"] == "old-rig"


US = "Velocity (in/s),Compression (lbf),Rebound (lbf)\n" + "".join(
    f"{v},{9 * v},{12 * v}\n" for v in (1, 2, 4, 8, 10, 20)
)


def test_a_file_in_pounds_is_shown_in_pounds_where_nobody_says_otherwise(tmp_path, capsys):
    (tmp_path / "a.csv").write_text(US)
    for words in (["read", "a.csv"], ["curve", "a.csv"]):
        assert shell.run(words, folder=tmp_path) == 0
        said = capsys.readouterr().out
        assert "lbf" in said
        assert metric(said) == []
    assert shell.run(["read", "a.csv", "--units", "metric"], folder=tmp_path) == 0
    assert "1068 N at up to 508 mm/s" in capsys.readouterr().out


def test_a_library_made_of_files_in_pounds_shows_pounds_and_says_so(tmp_path, capsys):
    (tmp_path / "a.csv").write_text(US)
    words = ["add", "a.csv", "--library", "team", "--shock", "F1", "--pack", "p", "--clicks", "c=1"]
    assert shell.run(words, folder=tmp_path) == 0
    assert "it shows US units, as its first file has" in capsys.readouterr().err
    assert 'units = "us"' in (tmp_path / "team" / "dynoan.toml").read_text()
