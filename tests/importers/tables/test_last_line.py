"""A file that was cut off while it was written: the last number is none, and is said to be left out."""

from __future__ import annotations

import numpy as np
import pytest

from dynoan.reading import read_bytes
from importers.tables.last_line import broken_off


def rows(n: int, cell: str, mark: str) -> list[str]:
    t = np.arange(n) / 1000
    x = -25 * np.cos(2 * np.pi * 2 * t)
    f = 2 * np.gradient(x, t) + 150 + 0.5 * x
    return [mark.join(cell % value for value in row) for row in zip(t, x, f, strict=True)]


def record(n: int, last: str, cell: str = "%.4f", mark: str = ",") -> bytes:
    lines = [mark.join(["Time (s)", "Displacement (mm)", "Force (N)"]), *rows(n, cell, mark)]
    return ("\n".join(lines) + "\n" + last).encode()


@pytest.mark.parametrize("last", ["1.996,-8.675,5", "1.9960,-8.6750,541", "1.9960,-8.6750,541.", "1.9960,-8.6750,541.8",
                                  "1.9960,-8.6", "1.9960,-8.6750", "1.99", "1.9960,"])  # fmt: skip
def test_a_row_that_breaks_off_is_left_out_and_said(last):
    (sweep,) = read_bytes(record(2000, last), "run.csv")
    assert sweep.samples == 2000
    assert broken_off(sweep.samples + 2) in sweep.warnings
    assert not any(last in line for line in sweep.facts.values())


@pytest.mark.parametrize("n", [2000, 130_000])
@pytest.mark.parametrize("last", ['"1.996","-8.675","5', '"1.996","-8.6', '"1.996","-8.675"', '"1.9'])
def test_within_quotes_too_however_long_the_record(n, last):
    (sweep,) = read_bytes(record(n, last, '"%.4f"'), "run.csv")
    assert sweep.samples == n
    assert broken_off(sweep.samples + 2) in sweep.warnings


@pytest.mark.parametrize("last", ["1.9960,-8.6750,541.8123", "1.9960,-8.6750,541.8123\n", "1.996,-8.675,541.8\n"])
def test_a_whole_one_is_a_row(last):
    (sweep,) = read_bytes(record(2000, last), "run.csv")
    assert sweep.samples == 2001
    assert not any("breaks off" in said for said in sweep.warnings)


def test_numbers_written_without_zeros_at_the_end_may_be_short():
    (sweep,) = read_bytes(record(2000, "2,-25,125", "%.6g"), "run.csv")
    assert sweep.samples == 2001
    assert not any("breaks off" in said for said in sweep.warnings)


@pytest.mark.parametrize("last", ["End of run", "Max,12.5,541.8", "12.03.2026", "Stroke 50 mm"])
def test_words_below_are_none(last):
    (sweep,) = read_bytes(record(2000, last), "run.csv")
    assert sweep.samples == 2000
    assert not any("breaks off" in said for said in sweep.warnings)


def test_a_line_left_out_within_quoted_rows_of_a_long_record():
    """Quotes stand around every cell of it, so a quote makes no line an odd one."""
    lines = record(130_000, "", '"%.4f"').decode().splitlines()
    lines[70_000] = '"0.0010"'
    (sweep,) = read_bytes(("\n".join(lines) + "\n").encode(), "run.csv")
    assert sweep.samples == 129_999
    assert any("torn lines were left out, the first is line 70001" in line for line in sweep.warnings)
