"""Keys with a value over each run's columns, serials over tables side by side, one knob's clicks down the side."""

from __future__ import annotations

import pytest

from dynoan.reading import read_bytes

TABLE = (
    "Speed (mm/s),Comp (N),Reb (N),Comp (N),Reb (N)",
    "50,200,150,210,160",
    "100,300,250,310,260",
    "200,400,350,410,360",
)


def sweeps(*lines: str):
    return read_bytes(("\n".join(lines) + "\n").encode(), "rig.csv")


@pytest.mark.parametrize(
    "keys",
    [
        ("Shock,1041,1041,1042,1042", "Gas bar,8,8,9,9", "LSC,3,3,5,5"),
        ("Shock,1041,,1042,", "Gas bar,8,,9,", "LSC,3,,5,"),
        ("Shock,1041,,1042", "LSC,3,,5", "Gas (bar),8,,9"),
    ],
)
def test_each_run_has_what_stands_over_its_columns(keys):
    first, second = sweeps("Customer,club", *keys, *TABLE)
    assert (first.shock, second.shock) == ("1041", "1042")
    assert (first.gas_pressure, second.gas_pressure) == (8e5, 9e5)
    assert (dict(first.clicks), dict(second.clicks)) == ({"lsc": 3}, {"lsc": 5})
    assert (first.channels["force"].max(), second.channels["force"].max()) == (400, 410)


def test_a_value_over_the_first_column_alone_is_of_all():
    first, second = sweeps("Rod,16 mm,,,", "Pack,gravel,gravel,wet,wet", "Temp (C),30,30,35,35", *TABLE)
    assert (first.rod, second.rod) == (0.016, 0.016)
    assert (first.pack, second.pack) == ("gravel", "wet")
    assert (first.temperature, second.temperature) == (30, 35)


def test_what_follows_the_table_is_kept():
    keys = ("Shock,1,1,2,2", "LSC,3,3,5,5")
    assert [s.rod for s in sweeps(*keys, *TABLE, "", "Rod,14 mm")] == [0.014, 0.014]
    found = sweeps(*keys, *TABLE, "", "Shock,3,3,4,4", "LSC,1,1,2,2", *TABLE)
    assert [(s.shock, s.clicks["lsc"]) for s in found] == [("1", 3), ("2", 5), ("3", 1), ("4", 2)]


def _beside(key: str, left: str, right: str) -> list[str]:
    """A line with a key over each of two tables of three columns."""
    blanks = "," * (3 - key.count(","))
    return [f"{key}{left}{blanks},{key}{right}{blanks}".rstrip(",") + ",,"]


@pytest.mark.parametrize("key", ["Serial: ", "Shock: ", "Shock,"])
def test_tables_side_by_side_with_keys_of_their_own(key):
    table = (
        "Speed [m/s],Bump [N],Rebound [N],,Speed [m/s],Bump [N],Rebound [N]",
        ".1,200,150,,.1,210,160",
        ".2,300,250,,.2,310,260",
        ".3,400,350,,.3,410,360",
    )
    first, second = sweeps(*_beside(key, "1041", "1042"), *_beside("Gas,", "8 bar", "9 bar"), *table)
    assert (first.shock, second.shock) == ("1041", "1042")
    assert (first.gas_pressure, second.gas_pressure) == (8e5, 9e5)
    assert (first.channels["force"].max(), second.channels["force"].max()) == (400, 410)
    assert not first.warnings
    assert not second.warnings


@pytest.mark.parametrize("corner", ["Clicks (LSR)", "LSR (clicks)", "LSR", "Clicks LSR"])
def test_forces_at_clicks_of_one_knob_are_of_its_direction(corner):
    rows = ("0,50,190,348,476", "6,-15,120,239,335")
    first, second = sweeps("Forces in N", f"{corner},25 mm/s,50 mm/s,100 mm/s,150 mm/s", *rows)
    assert (dict(first.clicks), dict(second.clicks)) == ({"lsr": 0}, {"lsr": 6})
    assert sorted(first.channels["force"]) == [-476, -348, -190, -50]
    assert sorted(second.channels["force"]) == [-335, -239, -120, 15]
    assert any("taken as rebound" in said for said in first.warnings)


def test_a_sign_or_a_word_tells_the_direction_first():
    rows = ("0,50,190,348,476", "6,15,120,239,335")
    (first, _) = sweeps("Compression forces in N", "LSR,25 mm/s,50 mm/s,100 mm/s,150 mm/s", *rows)
    assert first.channels["force"].max() == 476
    assert not any("taken as rebound" in said for said in first.warnings)
    (first, _) = sweeps("Forces in N", "LSR,-50 mm/s,-25 mm/s,25 mm/s,50 mm/s", *rows)
    assert not any("taken as rebound" in said for said in first.warnings)
