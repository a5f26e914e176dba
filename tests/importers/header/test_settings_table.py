"""Settings whose names stand over their values are lines of their own, and no names or units of the columns below."""

from __future__ import annotations

import pytest

from dynoan.reading import read_bytes

PEAKS = "Velocity [m/s],Compression [N],Rebound [N]\n0.05,300,420\n0.1,480,700\n0.2,700,1010\n"


def read(above: str, below: str = "", table: str = PEAKS):
    (sweep,) = read_bytes(f"{above}\n\n{table}\n{below}".encode(), "probe.csv")
    assert float(sweep.channels["force"].max()) == 700.0
    assert float(sweep.channels["force"].min()) == -1010.0
    return sweep


@pytest.mark.parametrize(
    ("above", "shock", "pack", "clicks"),
    [
        ("Shock,Pack,Comp clicks,Reb clicks,Date\nVV-1,gravel,4,9,2024-07-07", "VV-1", "gravel", {"c": 4, "r": 9}),
        ("Shock,Comp,Reb\nVV-1,4,9", "VV-1", None, {"c": 4, "r": 9}),
        ("Shock,Operator\nVV-1,Jo", "VV-1", None, {}),
        ("Damper;Valve pack\nVV-1;soft", "VV-1", "soft", {}),
        ("Shock,,Temp\n,,C\nVV-1,,29", "VV-1", None, {}),
        ("Shock,Stroke,Rod\n,mm,mm\nVV-1,50,14", "VV-1", None, {}),
        ("Stroke,Speed,Temp\nmm,rpm,C\n50,96,29", None, None, {}),
        ("Shock,VV-1\nPack,gravel", "VV-1", "gravel", {}),
        ("Shock,VV-1,Pack,gravel", "VV-1", "gravel", {}),
        ("Shock,VV-1\nOperator,Jo", "VV-1", None, {}),
    ],
)
def test_settings_are_those_below_their_names(above, shock, pack, clicks):
    sweep = read(above)
    assert (sweep.shock, sweep.pack, sweep.clicks) == (shock, pack, clicks)


@pytest.mark.parametrize("above", ["Shock,Date,Temp\n,,C\nMT-4,2024-05-05,29", "Temp,Gas\nC,bar\n29,12"])
def test_its_units_are_none_of_the_columns_below(above):
    assert read(above).temperature == 29.0


def test_a_large_record_has_its_settings_above_it_too():
    rows = "".join(f"{k / 1000:.3f},{25 * (k % 2 - 0.5):.3f},{100 + k % 7}\n" for k in range(6000))
    text = f"Shock,Date\nVV-1,2024-07-07\n\nTime (s),Position (mm),Force (N)\n{rows}"
    (sweep,) = read_bytes(text.encode(), "long.csv")
    assert (sweep.shock, sweep.date, len(text) > 1 << 16) == ("VV-1", "2024-07-07", True)


def test_a_table_of_several_runs_is_none_of_one_runs_settings():
    above = "Shock,Pack\nVV-1,gravel\nVV-2,tarmac"
    (sweep,) = read_bytes(f"{above}\n\n{PEAKS}".encode(), "probe.csv")
    assert sweep.pack is None
