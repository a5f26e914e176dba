"""Runs side by side whose columns have the same names: under titles, under clicks, or each with its own clicks."""

from __future__ import annotations

import pytest

from dynoan.reading import read_bytes

ROWS = [(50, 300, 420, 280, 390), (100, 480, 700, 450, 660), (200, 700, 1010, 660, 950)]
FORCES = [[300, 480, 700, -420, -700, -1010], [280, 450, 660, -390, -660, -950]]


def read(*heads: str, speed_in_each: bool = False):
    cells = [(v, a, b, v, c, d) if speed_in_each else (v, a, b, c, d) for v, a, b, c, d in ROWS]
    rows = [";".join(map(str, row)) for row in cells]
    return read_bytes("\n".join([*heads, *rows, ""]).encode(), "probe.csv")


def forces(sweeps) -> list[list[float]]:
    return [sweep.channels["force"].tolist() for sweep in sweeps]


def test_titles_over_forces_of_one_speed_are_shocks_of_their_own():
    found = read("Click;6", "Velocità;SX;;DX;", "mm/s;Compr. (N);Est. (N);Compr. (N);Est. (N)")
    assert forces(found) == FORCES
    assert [sweep.source.part for sweep in found] == ["SX", "DX"]


def test_the_speed_may_be_named_beside_the_titles():
    found = read("Vitesse (mm/s);Gauche;;Droite;", ";Comp. (N);Dét. (N);Comp. (N);Dét. (N)")
    assert forces(found) == FORCES
    assert [sweep.shock for sweep in found] == ["Gauche", "Droite"]


def test_sides_in_the_names_of_both_directions_are_shocks_of_one_speed():
    found = read("Vitesse (mm/s);Gauche comp. (N);Gauche dét. (N);Droite comp. (N);Droite dét. (N)")
    assert forces(found) == FORCES
    assert [sweep.shock for sweep in found] == ["Gauche", "Droite"]


def test_clicks_over_tables_that_hold_their_own_speeds():
    found = read("0段;;;8段;;", "速度 mm/s;縮 N;伸 N;速度 mm/s;縮 N;伸 N", speed_in_each=True)
    assert forces(found) == FORCES
    assert [sweep.clicks for sweep in found] == [{"cr": 0}, {"cr": 8}]


@pytest.mark.parametrize(
    "heads",
    [
        ["Hastighet;Kompresjon;Retur;Kompresjon;Retur", "Klikk fra lukket;2;4;6;8", "mm/s;N;N;N;N"],
        ["Speed (mm/s);Comp (N);Reb (N);Comp (N);Reb (N)", "Clicks;2;4;6;8"],
        ["速度 mm/s;壓縮2段;回彈4段;壓縮6段;回彈8段"],
    ],
    ids=["a line below", "without units", "in the names"],
)
def test_each_column_has_its_own_clicks(heads):
    found = read(*(["Forces in N"] if len(heads) == 1 else []), *heads)
    assert forces(found) == FORCES
    assert [sweep.clicks for sweep in found] == [{"c": 2, "r": 4}, {"c": 6, "r": 8}]
    assert "taken as one run with both knobs so, c=2 and r=4" in found[0].warnings[-1]


def test_a_knob_may_be_held_and_a_sweep_of_one_after_another_makes_no_pairs():
    found = read("Forces in N", "Speed mm/s;Comp 6;Reb 2;Comp 6;Reb 8")
    assert [sweep.clicks for sweep in found] == [{"c": 6, "r": 2}, {"c": 6, "r": 8}]
    found = read("Forces in N", "Speed mm/s;Comp 2;Comp 6;Reb 4;Reb 8")
    assert [sweep.clicks for sweep in found] == [{"c": 2}, {"c": 6}, {"r": 4}, {"r": 8}]


def test_decimals_of_speeds_across_are_as_those_of_the_forces():
    text = "\n".join(
        [
            "\t\tCompressão (kgf)\t\tRetorno (kgf)\t",
            "Cliques comp.\tCliques ret.\t0,1 m/s\t0,2 m/s\t0,1 m/s\t0,2 m/s",
            "2\t2\t34.4\t44.4\t55.9\t73.8",
            "4\t6\t32.6\t42.3\t49.7\t66.4\n",
        ]
    )
    first, second = read_bytes(text.encode(), "probe.csv")
    assert (first.clicks, second.clicks) == ({"c": 2, "r": 2}, {"c": 4, "r": 6})
    assert first.channels["velocity"].tolist() == pytest.approx([0.1, 0.2, -0.1, -0.2])
