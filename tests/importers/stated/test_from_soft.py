"""Clicks that are counted from soft are said to be, wherever the file says it: stiff and soft would change places."""

from __future__ import annotations

import pytest

from dynoan.reading import read_bytes
from importers.stated import FROM_SOFT

HEAD = "Speed (mm/s);Comp (N);Reb (N)"
ROWS = ((25, 250, 397), (51, 411, 662), (102, 583, 956), (254, 810, 1326))


def sweeps_of(above="", column=""):
    rows = [";".join(map(str, row)) for row in ROWS]
    if column:
        rows = [f"{k};{row}" for k in (4, 8) for row in rows]
    lines = [above, f"{column};{HEAD}" if column else HEAD, *rows]
    return read_bytes("\n".join(line for line in lines if line).encode() + b"\n", "run.csv")


@pytest.mark.parametrize(
    "line",
    ["LSC: 4 from soft", "LSC 4 (0 = full soft)", "0 = full soft\nLSC: 4", "Click zero: full open\nLSC: 4",
     "Klicks von offen\nLSC: 4", "LSC: 4 clicks in", "LSC (from soft): 4", "full soft = 0\nLSC: 4",
     "LSC 4 clicks off full open"],
)  # fmt: skip
def test_a_line_that_counts_from_soft_is_warned_of_and_its_clicks_are_kept(line):
    (sweep,) = sweeps_of(above=line)
    assert FROM_SOFT in sweep.warnings
    assert sweep.clicks == {"lsc": 4}


@pytest.mark.parametrize("column", ["LSC from open", "LSC (from soft)", "C clicks from full open"])
def test_so_is_a_column_s_name(column):
    sweeps = sweeps_of(column=column)
    assert [list(s.clicks.values()) for s in sweeps] == [[4], [8]]
    assert all(FROM_SOFT in s.warnings for s in sweeps)


@pytest.mark.parametrize(
    "line",
    ["LSC: 4", "LSC: 4 clicks out", "LSC: 4 from closed", "LSC 4 (0 = full hard)", "LSC: 4\nsoft road",
     "LSC: 0\nsoft pack",
     "LSC: 4 of 20 clicks in total", "Spring: 10 open coils"],
)  # fmt: skip
def test_other_lines_are_not(line):
    (sweep,) = sweeps_of(above=line)
    assert FROM_SOFT not in sweep.warnings
