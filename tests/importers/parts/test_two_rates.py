"""Records of loggers whose channels come at rates of their own, or behind a clock or a label of another program."""

from __future__ import annotations

import numpy as np
import pytest

from dynoan.model.importing import ReadOptions
from dynoan.reading import read_bytes

T = np.arange(1000) / 500
X, F = -12 * np.cos(8 * T), 200 + 500 * np.sin(8 * T)


def sweep_of(lines: list[str], name: str = "rig.csv"):
    (sweep,) = read_bytes("\n".join(lines).encode(), name, ReadOptions())
    return sweep


def test_a_slower_channel_gives_the_rows():
    rows = [
        f"{t:.3f},{f'{x:.3f}' if k % 5 == 0 else ''},{f:.1f}" for k, (t, x, f) in enumerate(zip(T, X, F, strict=True))
    ]
    sweep = sweep_of(["Time (s),Displacement (mm),Force (N)", *rows])
    assert (sweep.samples, sweep.rate) == (200, pytest.approx(100))
    assert "'Displacement (mm)' holds a number in one row of 5: those rows alone were used" in sweep.warnings


def test_the_clock_of_the_program_that_listened_is_no_time():
    rows = [f"12:01:{3 + t:06.3f} -> {1e3 * t:.0f},{x:.2f},{f:.1f}" for t, x, f in zip(T, X, F, strict=True)]
    sweep = sweep_of(["12:01:02.998 -> millis,pos_mm,force_N", *rows], "serial.log")
    assert (sweep.samples, sweep.rate) == (1000, pytest.approx(500))


@pytest.mark.parametrize("head", ["% columns: time_s disp_mm force_N", "# fields: time_s disp_mm force_N"])
def test_names_behind_a_word_for_columns(head):
    rows = [f"{t:.3f} {x:.3f} {f:.1f}" for t, x, f in zip(T, X, F, strict=True)]
    assert sweep_of(["% shock: RL-02", "% clicks: lsc=6, lsr=10", head, *rows], "rig.txt").samples == 1000


def test_a_row_of_rates_is_no_sample():
    rows = [f'"",{t:.3f},{x:.3f},{f:.1f}' for t, x, f in zip(T, X, F, strict=True)]
    heads = ["Channel,Time s,Pos mm,Load N", "Rate,500,500,500"]
    sweep = sweep_of([*heads, *rows])
    assert sweep.samples == 1000
    assert "the first row is called 'Rate' and no sample: left out" in sweep.warnings
