"""Measured records of others, with origin and licence beside them in fixtures/real, read as their figures say."""

from __future__ import annotations

from pathlib import Path

import pytest

from dynoan.errors import ReadError
from dynoan.model.importing import ReadOptions
from dynoan.model.record_motion import peaks
from dynoan.reading import read

REAL = Path(__file__).parents[2] / "fixtures" / "real"
FOUR = ReadOptions(
    columns={"time": "1", "displacement": "2", "velocity": "3", "force": "4"},
    units={"time": "s", "displacement": "mm", "velocity": "mm/s", "force": "N"},
)


@pytest.mark.parametrize(
    ("name", "options", "speed", "forces"),
    [
        ("utfsm-mr-pre/2mm5Hz1A.txt", FOUR, 0.052, (1374, 1361)),
        ("utfpr-mr/ensaio.A.1.csv", None, 0.056, (1014, 824)),
        ("utfpr-mr/ensaio.vali.9.csv", None, 0.054, (392, 142)),
    ],
)
def test_record_is_read_and_its_direction_is_only_assumed(name, options, speed, forces):
    (sweep,) = read(REAL / name, options)
    found = peaks(sweep)
    assert found["compression"].velocity == pytest.approx(speed, rel=0.05)
    assert (found["compression"].force, found["rebound"].force) == pytest.approx(forces, abs=0.6)
    assert "assumed" in sweep.decisions["force"].evidence
    assert any("compression was assumed" in w for w in sweep.warnings)


def test_columns_without_names_are_asked_for():
    with pytest.raises(ReadError, match="no line that names them"):
        read(REAL / "utfsm-mr-pre/2mm5Hz1A.txt")


@pytest.mark.parametrize("folder", sorted(p.name for p in REAL.iterdir()))
def test_licence_and_origin_lie_beside(folder):
    assert "Permission is hereby granted" in (REAL / folder / "LICENSE").read_text("utf-8")
    assert "Licence: MIT" in (REAL / folder / "ORIGIN.md").read_text("utf-8")
