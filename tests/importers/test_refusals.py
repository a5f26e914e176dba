"""Broken files are refused in one line that names the file, the place and the way out."""

from __future__ import annotations

import json

import pytest

from dynoan.cli.main import cli
from dynoan.errors import ReadError
from dynoan.model.importing import ReadOptions
from dynoan.reading import read, read_bytes
from tests.importers.broken import BROKEN, HEADER, file, rows


def test_there_are_enough_kinds():
    assert len(BROKEN) >= 25


@pytest.mark.parametrize("kind", BROKEN)
def test_refusal_names_file_place_and_way_out(kind):
    data, words = BROKEN[kind]
    with pytest.raises(ReadError) as refusal:
        read_bytes(data, "rig.csv")
    text = str(refusal.value)
    assert text.startswith("rig.csv")
    assert "\n" not in text
    for word in words:
        assert word in text


@pytest.mark.parametrize("kind", BROKEN)
def test_command_gives_the_refusal_and_exit_2(kind, tmp_path, capsys):
    path = tmp_path / "rig.csv"
    path.write_bytes(BROKEN[kind][0])
    assert cli.main(["read", str(path), "--json"], standalone_mode=False) == 2
    out, err = capsys.readouterr()
    (found,) = json.loads(out)["result"]["files"]
    assert found["sweeps"] == []
    assert found["error"].startswith("rig.csv")
    assert len(err.strip().splitlines()) == 1
    assert "Traceback" not in err


@pytest.mark.parametrize(
    ("header", "option", "form"),
    [
        ("Time [s],Disp [mm],Velocity [mm/s],Force", {"units": {"force": "N"}}, "{t:.4f},{x:.3f},{v:.2f},{f:.1f}"),
        (
            "Time [s],Disp [mm],Velocity [mm/s],Force [stone]",
            {"units": {"force": "N"}},
            "{t:.4f},{x:.3f},{v:.2f},{f:.1f}",
        ),
        ("Disp [mm],Force [N]", {"rate": 200.0}, "{x:.3f},{f:.1f}"),
        (
            "a,b,c,d",
            {
                "columns": {"time": "1", "displacement": "2", "force": "4"},
                "units": {"time": "s", "displacement": "mm", "force": "N"},
            },
            "{t:.4f},{x:.3f},{v:.2f},{f:.1f}",
        ),
        (
            HEADER.replace("Velocity [mm/s]", "Force B [N]"),
            {"columns": {"force": "Force [N]"}},
            "{t:.4f},{x:.3f},{v:.2f},{f:.1f}",
        ),
    ],
)
def test_the_way_out_leads_out(header, option, form):
    (sweep,) = read_bytes(file(header, rows(form)), "rig.csv", ReadOptions(**option))
    assert sweep.channels["force"].max() == pytest.approx(3 * 2 * 3.14159265 * 20 + 120, abs=0.2)
    assert sweep.rate == pytest.approx(200.0)


def test_folder_is_refused(tmp_path):
    with pytest.raises(ReadError, match="folder"):
        read(tmp_path)


def test_large_rubbish_costs_little(tmp_path):
    # 12 MB: a good head, then lines that are no rows; refused from a few looks, with the line's number.
    data = file() + b"1,2\na,b,c\n9\n" * 1_000_000
    with pytest.raises(ReadError, match=r"line \d+"):
        read_bytes(data, "rig.csv")
