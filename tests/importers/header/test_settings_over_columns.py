"""A line of the run's settings in cells right above the names of columns is about the run: no group of columns."""

from __future__ import annotations

import re

import pytest

from dynoan.reading import read_bytes

THREE = "Speed (mm/s),Comp (N),Reb (N)\n50,200,300\n100,350,500\n200,500,800\n"
FOUR = "Speed (mm/s),Comp (N),Reb (N),Temp (C)\n50,200,300,30\n100,350,500,31\n200,500,800,34\n"
LONG = (
    "Speed (mm/s),Direction,Force (N)\n50,comp,200\n50,reb,300\n100,comp,350\n100,reb,500\n200,comp,500\n200,reb,800\n"
)
COUNTED = "No,Speed (mm/s),Sens,F (N)\n1,50,comp,200\n2,50,reb,300\n3,100,comp,350\n4,100,reb,500\n"

LINES = (
    "KR-4,comp 6,reb 9",
    "KR-4,reb 9,comp 6",
    "KR-4,,reb 9,comp 6",
    ",reb 9,comp 6",
    "Shock KR-4,C6,R9",
    "Shock KR-4,P2,C6,R9",
    "Shock KR-4,Rebound 9,P2,Compression 6",
    "Essai 12,amortisseur KR-4,détente 9 clics,compression 6 clics",
    "KR-4,Zug 9,Druck 6",
    "2026-03-14,reb 9,comp 6",
    "reb 9,comp 6,KR-4",
)


@pytest.mark.parametrize("table", [THREE, FOUR, LONG, COUNTED], ids=["three", "four", "long", "counted"])
@pytest.mark.parametrize("line", LINES)
def test_settings_over_the_columns_leave_their_directions(line, table):
    (sweep,) = read_bytes(f"{line}\n{table}".encode(), "card.csv")
    (plain,) = read_bytes(table.encode(), "card.csv")
    assert dict(sweep.clicks) == {"c": 6, "r": 9}
    assert sweep.channels["force"].tolist() == plain.channels["force"].tolist()
    assert sweep.warnings == plain.warnings


@pytest.mark.parametrize("line", [line for line in LINES if re.search("Shock|amortisseur", line)])
def test_the_shock_of_such_a_line_is_read(line):
    (sweep,) = read_bytes(f"{line}\n{FOUR}".encode(), "card.csv")
    assert sweep.shock == "KR-4"


def test_settings_over_columns_without_directions_still_name_them():
    data = b"Speed (mm/s),comp 6,reb 9\nmm/s,N,N\n50,200,300\n100,350,500\n200,500,800\n"
    (sweep,) = read_bytes(data, "card.csv")
    assert dict(sweep.clicks) == {"c": 6, "r": 9}
    assert sweep.channels["force"].tolist() == [200, 350, 500, -300, -500, -800]


def test_one_knob_a_group_is_two_runs_where_the_columns_repeat():
    data = b",comp 6,,reb 9,\nSpeed (mm/s),Comp (N),Reb (N),Comp (N),Reb (N)\n50,200,300,210,310\n100,350,500,360,510\n"
    assert [dict(s.clicks) for s in read_bytes(data, "card.csv")] == [{"c": 6}, {"r": 9}]
