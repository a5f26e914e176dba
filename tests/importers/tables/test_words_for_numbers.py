"""Words in the place of numbers: a gap each, said with the word and how often."""

from __future__ import annotations

import numpy as np
import pytest

from dynoan.errors import ReadError
from dynoan.reading import read_bytes
from tests.importers.making import F, T, X

HEAD = "Speed (mm/s){0}Comp (N){0}Reb (N)"


def peaks(mark: str, first: str, second: str) -> bytes:
    rows = [("25", "210", "330"), ("50", "380", "610"), ("100", "560", "980")]
    rows += [("200", "810", first), ("300", "1010", second)]
    return "\n".join([HEAD.format(mark), *(mark.join(row) for row in rows), ""]).encode()


def trace(mark: str, word: str, at: range) -> bytes:
    rows = [[f"{t:.4f}", f"{1e3 * x:.3f}", f"{f:.1f}"] for t, x, f in zip(T, X, F, strict=True)]
    for i in at:
        rows[i][2] = word
    head = mark.join(("time_s", "disp_mm", "force_N"))
    return "\n".join([head, *map(mark.join, rows), ""]).encode()


@pytest.mark.parametrize("mark", [",", ";", "\t"])
@pytest.mark.parametrize(
    ("first", "second", "said"),
    [
        ("ovf", "OVF", "2 cells say that a sensor was beyond its range"),
        ("over range", "Sat.", "2 cells say that a sensor was beyond its range"),
        ("1450", "out of range", "1 cell says that a sensor was beyond its range; it was left out"),
        ("OVER", "n/a", "2 of 10 forces are missing"),
        ("no data", "----", "2 of 10 forces are missing"),
        ("peg", "peg", "2 cells of numbers hold a word, 'peg': no number was taken there"),
    ],
)
def test_of_a_table_of_peaks(mark, first, second, said):
    (sweep,) = read_bytes(peaks(mark, first, second), "peaks.csv")
    force = sweep.channels["force"]
    assert len(force) == (9 if first == "1450" else 8)
    assert force.min() == (-1450 if first == "1450" else -980)
    assert any(said in w for w in sweep.warnings)


@pytest.mark.parametrize("mark", [",", " ", "\t"])
@pytest.mark.parametrize(
    ("word", "said"), [("OVF", "10 cells say"), ("RNG!", "10 cells of numbers hold a word, 'RNG!'")]
)
def test_of_a_record(mark, word, said):
    (sweep,) = read_bytes(trace(mark, word, range(70, 80)), "run.txt")
    assert np.flatnonzero(np.isnan(sweep.channels["force"])).tolist() == list(range(70, 80))
    assert any(w.startswith(said) for w in sweep.warnings)
    assert "10 of 1500 samples of force are missing" in sweep.warnings


@pytest.mark.parametrize("row", ["100,rebound,400", "100,12x7,400", "abc,560,980"])
def test_what_says_more_is_no_gap(row):
    lines = trace(",", "", range(0)).decode().splitlines()
    with pytest.raises(ReadError, match=row):
        read_bytes("\n".join([*lines[:200], row, *lines[200:], ""]).encode(), "run.csv")
