"""A line of one amount names no columns, and a list of all columns stands before a remark that holds fewer names."""

from __future__ import annotations

import pytest

from dynoan.reading import read_bytes

ROWS = "1 28.3\n3 59.7\n5 75.6\n8 92.1\n10 99.1\n"
THREE = "0.01 65.7 134.0\n0.03 182.4 370.3\n0.08 402.7 805.0\n0.15 601.3 1169.5\n0.30 848.7 1570.2\n"


@pytest.mark.parametrize("line", ["SHAFT TEMP: 86 F", "OIL TEMP: 86 F", "Oil temp = 30 C", "Velocity limit: 50 in/s"])
def test_a_line_of_one_amount_names_no_columns(line):
    (sweep,) = read_bytes(f"SHOCK: LF 3-11\n{line}\n\nin/sec   comp lbs\n{ROWS}".encode(), "run.txt")
    assert sweep.decisions["velocity"].column == "in/sec"
    assert sweep.temperature == (None if "limit" in line else pytest.approx(30))


def test_it_names_none_over_two_halves_either():
    data = f"SHOCK: LF 3-11\nSHAFT TEMP: 86 F\n\nCOMPRESSION\nin/sec   lbs\n{ROWS}\nREBOUND\nin/sec   lbs\n{ROWS}"
    (sweep,) = read_bytes(data.encode(), "run.txt")
    assert sweep.temperature == pytest.approx(30)
    assert sorted(sweep.decisions) == ["force", "velocity"]
    assert "TEMP" not in sweep.decisions["force"].column


@pytest.mark.parametrize(
    "remark",
    ["Ambient 21 degC, surface temp at start 24 degC", "Force cell no 3, time of day 11:40", "Öl, Temperatur, Kraft"],
)
@pytest.mark.parametrize("label", ["col{}:", "Column {} =", "Spalte {}:"])
def test_a_list_of_all_columns_stands_before_a_remark(remark, label):
    names = ("velocity (m/s)", "compression force (N)", "rebound force (N)")
    listed = "".join(f"# {label.format(k)} {name}\n" for k, name in enumerate(names, 1))
    (sweep,) = read_bytes(f"# Lab\n# {remark}\n{listed}{THREE}".encode(), "run.txt")
    assert sweep.channels["force"].max() == pytest.approx(848.7)
    assert sweep.channels["force"].min() == pytest.approx(-1570.2)


def test_a_line_of_names_stands_before_a_list_of_some():
    data = f"# ch1: load cell\n# ch2: laser\nVelocity_m/s Comp_N Reb_N\n{THREE}"
    (sweep,) = read_bytes(data.encode(), "run.txt")
    assert sweep.channels["force"].max() == pytest.approx(848.7)
