"""Heads of two rows and more, under several lines of remarks; a lone unit at the end of a head."""

from __future__ import annotations

import pytest

from dynoan.reading import read_bytes

REMARKS = ["KESTREL CLUB DAY", "all speeds in/s; force lbf", "Shock\tRL-02", "Unit settings count out from closed"]
ROWS = ((1, 47, 74, 40, 60), (2, 85, 137, 70, 110), (4, 126, 220, 105, 180), (8, 182, 326, 150, 270))


def text(*head: str, columns: int = 3) -> bytes:
    return "\n".join([*head, *("\t".join(map(str, row[:columns])) for row in ROWS), ""]).encode()


@pytest.mark.parametrize("lines", range(len(REMARKS) + 1))
def test_settings_over_both_directions(lines):
    head = ("\tLSC 4 LSR 6\t\tLSC 8 LSR 10\t", "Speed (in/s)\tBump (lbf)\tReb (lbf)\tBump (lbf)\tReb (lbf)")
    sweeps = read_bytes(text(*REMARKS[:lines], *head, columns=5), "sheet.txt")
    assert [s.clicks for s in sweeps] == [{"lsc": 4, "lsr": 6}, {"lsc": 8, "lsr": 10}]
    assert [round(s.channels["force"].max() / 4.4482216) for s in sweeps] == [182, 150]


@pytest.mark.parametrize(
    "head",
    [
        ("Speed\tForce\t", "\tBump\tRebound", "in/s\tlbf\tlbf"),
        ("Speed\tForce", "\tBump\tRebound", "in/s\tlbf\tlbf"),
        ("Speed\tBump\tRebound", "in/s\tlbf\tlbf"),
        ("Speed (in/s)\tForce (lbf)\t", "\tBump\tRebound"),
    ],
)
def test_directions_under_one_force_with_units_below(head):
    (sweep,) = read_bytes(text(*REMARKS, *head), "sheet.txt")
    assert (sweep.shock, sweep.samples) == ("RL-02", 8)
    assert sweep.channels["force"].max() == pytest.approx(182 * 4.4482216)
    assert sweep.channels["velocity"].max() == pytest.approx(8 * 0.0254)


def test_speeds_each_over_its_directions():
    head = ("Clicks\t2 in/s\t\t8 in/s", "\tC\tR\tC\tR", "\tlbf\tlbf\tlbf\tlbf")
    sweeps = read_bytes(text(*REMARKS[2:3], *head, columns=5), "sheet.txt")
    assert [s.clicks for s in sweeps] == [{"cr": 1}, {"cr": 2}, {"cr": 4}, {"cr": 8}]
    first = sweeps[0]
    found = dict(zip(first.channels["velocity"].round(4), (first.channels["force"] / 4.4482216).round(), strict=True))
    assert found == {0.0508: 47, -0.0508: -74, 0.2032: 40, -0.2032: -60}


@pytest.mark.parametrize(
    "head",
    [
        "in/s\tBump\tRebound\t(lbf)",
        "in/s\tBump\tRebound (lbf)",
        "in/s\tBump\tRebound\tlbf",
        "in/s,Bump,Rebound,[lbf]",
        "in/s   Bump   Rebound   (lbf)",
    ],
)
def test_a_lone_unit_at_the_end_is_of_all_forces(head):
    mark = "," if "," in head else "\t" if "\t" in head else "   "
    (sweep,) = read_bytes(text(head).replace(b"\t", mark.encode()), "sheet.txt")
    assert sweep.channels["force"].max() == pytest.approx(182 * 4.4482216)
    assert any("'Bump' has no unit and was taken in lbf" in w for w in sweep.warnings)
