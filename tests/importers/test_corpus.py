"""Every file of the corpus is read right with no options: layout, setting, counts, rate, peaks, units, signs."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from dynoan.jobs.read import SweepRead
from dynoan.reading import read

CORPUS = Path(__file__).parents[2] / "fixtures" / "layouts"
FILES = sorted(p for p in CORPUS.iterdir() if not p.name.endswith(".truth.json"))
FORCE_STEP = 0.6  #: coarsest rounding of a force in the corpus [N]


def truth_of(path: Path):
    return json.loads(path.with_name(path.name + ".truth.json").read_text("utf-8"))["sweeps"]


def test_corpus_is_large():
    assert len(FILES) >= 278


@pytest.mark.parametrize("path", FILES, ids=lambda p: p.name)
def test_file_is_read_as_its_truth_says(path):
    read_as_told(path)


def read_as_told(path: Path) -> None:
    truths = truth_of(path)
    sweeps = [SweepRead.of(s).to_dict() for s in read(path)]
    assert len(sweeps) == len(truths)
    for got, want in zip(sweeps, truths, strict=True):
        for key in ("layout", "shock", "pack", "clicks", "samples"):
            assert got[key] == want[key], key
        assert got["rate_hz"] == (None if want["rate_hz"] is None else pytest.approx(want["rate_hz"], rel=5e-3))
        for way in ("compression", "rebound"):
            if want[way]["peak_force_n"] is None:
                assert got[way] == want[way]
                continue
            assert got[way]["peak_force_n"] == pytest.approx(want[way]["peak_force_n"], rel=2e-3, abs=FORCE_STEP)
            recorded = "velocity" in got["channels"]
            assert got[way]["peak_velocity_m_s"] == pytest.approx(
                want[way]["peak_velocity_m_s"], rel=2e-3 if recorded else 0.03, abs=6e-4
            )
        for channel, sign in want["signs"].items():
            assert got["channels"][channel]["sign"] == sign, channel
        for channel, unit in want["units"].items():
            assert got["channels"][channel]["unit"] == unit
        for key in ("date", "temperature_c", "gas_pressure_pa", "gas_removed"):
            if key in want:
                assert (
                    got[key] == pytest.approx(want[key], rel=1e-4)
                    if isinstance(want[key], float)
                    else got[key] == want[key]
                )
