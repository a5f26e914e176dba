"""Units of two channels with a word between them, a test's own name beside a shock's, millinewtons."""

from __future__ import annotations

import pytest

from dynoan.errors import ReadError
from dynoan.reading import read_bytes
from importers.stated import facts_of_lines

POUND, INCH = 4.4482216152605, 0.0254
TABLE = "Speed{0}Comp{0}Reb\n1{0}19{0}28\n2{0}36{0}54\n4{0}60{0}97\n6{0}72{0}117\n"


@pytest.mark.parametrize(
    "line", ["in/sec vs lbs", "in/s against lbf", "lbs vs. in/sec", "in/sec and lbs", "in/s over lb"]
)
@pytest.mark.parametrize("mark", ["   ", "\t", ","])
def test_units_with_a_word_between_are_no_names(line, mark):
    (sweep,) = read_bytes(f"LR 76-5\n{line}\n{TABLE.format(mark)}".encode(), "run.txt")
    assert sweep.channels["force"].max() == pytest.approx(72 * POUND)
    assert sweep.channels["force"].min() == pytest.approx(-117 * POUND)
    assert sweep.channels["velocity"].max() == pytest.approx(6 * INCH)


@pytest.mark.parametrize("key", ["Test ID", "Test no.", "Report number", "Test ref"])
def test_a_tests_own_name_is_no_shocks(key):
    assert facts_of_lines([f"{key},T-5512", "Shock S/N,US-31"]).shock == "US-31"
    assert facts_of_lines([f"{key},T-5512"]).shock is None
    assert facts_of_lines(["BUILD SHEET,RL-02"]).shock == "RL-02"


def test_millinewtons_are_told_from_meganewtons():
    rows = "".join(f"{i * 1000},{x},{150000 + 900 * x}\n" for i, x in enumerate((0, 20, 30, 20, 0, -20, -30, -20) * 40))
    (sweep,) = read_bytes(f"time_us,pos_mm,force_mN\n{rows}".encode(), "run.csv")
    assert sweep.channels["force"].max() == pytest.approx(177.0)
    with pytest.raises(ReadError, match="force has no unit"):
        read_bytes(f"time_us,pos_mm,force_MN\n{rows}".encode(), "run.csv")
