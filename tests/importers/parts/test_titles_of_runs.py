"""Titles over runs side by side: temperatures are theirs, positions are clicks where the file speaks of clicks."""

from __future__ import annotations

import pytest

from dynoan.reading import read_bytes

SPEEDS = ("0,05", "0,1", "0,2", "0,35")


def read_beside(titles, ways=("In [N]", "Uit [N]"), *above: str, under: bool = True):
    pairs = "".join(f";{title};" for title in titles)
    names = ";".join(way for _ in titles for way in ways)
    factors = [1 - 0.1 * k for k, _ in enumerate(titles)]
    rows = [
        ";".join((v, *(f"{round(n * f * (k + 1))}" for f in factors for n in (250, 500)))) for k, v in enumerate(SPEEDS)
    ]
    head = (pairs, f"Snelheid [m/s];{names}")
    return read_bytes("\n".join(("Demper;NL-6", *above, *head, *rows, "")).encode(), "run.csv")


def test_in_and_out_again_and_again_are_the_directions():
    sweeps = read_beside(["stand 0", "stand 5", "stand 10"])
    assert [round(float(s.channels["force"].min())) for s in sweeps] == [-2000, -1800, -1600]
    assert all(not s.clicks for s in sweeps)
    said = " | ".join(sweeps[0].warnings)
    assert "'In [N]' and 'Uit [N]' were taken as the forces of compression and rebound" in said
    assert "'stand 0', 'stand 5' and 'stand 10' were taken as runs" in said
    assert "if their numbers are clicks, state them" in said


@pytest.mark.parametrize("title", ["stand {}", "pos. {}", "Stufe {}", "cran {}"])
def test_positions_are_clicks_where_a_line_speaks_of_clicks(title):
    sweeps = read_beside([title.format(n) for n in (0, 5, 10)], ("In [N]", "Uit [N]"), "Stelknop: klikken vanaf dicht")
    assert [dict(s.clicks) for s in sweeps] == [{"cr": 0}, {"cr": 5}, {"cr": 10}]
    assert "state them" not in " | ".join(w for s in sweeps for w in s.warnings if "runs of their own" in w)


@pytest.mark.parametrize("titles", [("20 °C", "90 °C"), ("koud 20 °C", "warm 90 °C"), ("20 degC", "90 degC")])
def test_a_title_of_warmth_is_its_runs(titles):
    sweeps = read_beside(titles, ("Compressie [N]", "Uitgaand [N]"), "Temperatuur: 15 °C")
    assert [s.temperature for s in sweeps] == [20.0, 90.0]


def test_warmth_in_the_columns_names_is_their_runs():
    rows = "0.1\t753\t2008\t661\t1701\n0.2\t1187\t2963\t1026\t2534\n0.3\t1505\t3535\t1314\t3009\n"
    data = f"Shock: HD-80\nv [m/s]\tC 20°C [N]\tR 20°C [N]\tC 90°C [N]\tR 90°C [N]\n{rows}"
    assert [s.temperature for s in read_bytes(data.encode(), "run.txt")] == [20.0, 90.0]


@pytest.mark.parametrize(
    "name", ["Forhold R/K", "Verhouding", "Relación R/C", "Stosunek", "Poměr R/C", "Suhde", "比率"]
)
def test_a_ratio_beside_two_directions_is_no_force(name):
    rows = "26,162,320,1.98\n52,275,530,1.93\n131,462,874,1.89\n262,620,1085,1.75\n"
    (sweep,) = read_bytes(f"Speed [mm/s],Comp [N],Reb [N],{name}\n{rows}".encode(), "run.csv")
    assert sweep.channels["force"].min() == pytest.approx(-1085)
