"""Tables that were misread or refused once: clicks under directions, loops of several speeds, messages, thousands."""

from __future__ import annotations

import time

import numpy as np
import pytest

from dynoan.errors import ReadError
from dynoan.model.importing import ReadOptions
from dynoan.reading import read_bytes

ROWS = ((13, 144, 96, 318, 212), (51, 400, 270, 840, 560), (102, 580, 390, 1180, 790), (254, 900, 605, 1610, 1070))
FORCE = {"compression": {2: [r[1] for r in ROWS], 6: [r[2] for r in ROWS]},
         "rebound": {2: [-r[3] for r in ROWS], 6: [-r[4] for r in ROWS]}}  # fmt: skip


def table(*head: str) -> bytes:
    return "\n".join([*head, *(",".join(map(str, row)) for row in ROWS), ""]).encode()


@pytest.mark.parametrize(
    "head",
    [
        ("forces in N", "v mm/s,C2,C6,R2,R6"),
        (",Compression (N),,Rebound (N),", "Velocity (mm/s),2,6,2,6"),
        (",Compression (N),,Rebound (N),", "Velocity (mm/s),2 clicks,6 clicks,2 clicks,6 clicks"),
    ],
)
def test_both_directions_of_one_number_of_clicks_are_one_run(head):
    sweeps = read_bytes(table(*head), "clicks.csv")
    assert [s.clicks for s in sweeps] == [{"c": 2, "r": 2}, {"c": 6, "r": 6}]
    for sweep, n in zip(sweeps, (2, 6), strict=True):
        v, force = sweep.channels["velocity"], sweep.channels["force"]
        assert sorted(force[v > 0]) == FORCE["compression"][n]
        assert sorted(force[v < 0], reverse=True) == FORCE["rebound"][n]
        (said,) = (w for w in sweep.warnings if "both knobs" in w)
        assert f"were taken as one run with both knobs so, c={n} and r={n}" in said


def test_columns_of_an_adjuster_without_a_direction_are_whole_curves_where_rebound_has_its_sign():
    rows = "\n".join(f"{v},{2 * v},{3 * v},{4 * v},{5 * v}" for v in (-100, -50, 50, 100))
    sweeps = read_bytes(f"forces in N\nv mm/s,C2,C6,R2,R6\n{rows}\n".encode(), "both.csv")
    assert [(s.clicks, s.samples) for s in sweeps] == [({"c": 2}, 4), ({"c": 6}, 4), ({"r": 2}, 4), ({"r": 6}, 4)]


def test_tables_of_speeds_across_whose_corner_names_their_unit_alone():
    lines = []
    for way, side in (("Compression", 1), ("Rebound", 3)):
        lines += [f"{way} (N)", "Clicks \\ mm/s;" + ";".join(str(r[0]) for r in ROWS)]
        lines += [f"{n};" + ";".join(str(r[side + k]) for r in ROWS) for k, n in enumerate((2, 6))] + [""]
    sweeps = read_bytes("\n".join(lines).encode(), "across.csv")
    assert [s.clicks for s in sweeps] == [{"c": 2, "r": 2}, {"c": 6, "r": 6}]
    for sweep in sweeps:
        n = sweep.clicks["c"]
        assert sweep.channels["force"].tolist() == [*FORCE["compression"][n], *FORCE["rebound"][n]]


@pytest.mark.parametrize("row", ['{},"{:,}","{:,}"', "{}\t{:,}\t{:,}"])
def test_pounds_that_are_all_thousands_are_asked_about(row):
    head = row.replace("{:,}", "{}").replace('"', "").format("Speed in/s", "Comp lbf", "Reb lbf")
    data = "\n".join([head, *(row.format(v, 1400 + 23 * v, 2000 + 31 * v) for v in (10, 20, 40)), ""]).encode()
    with pytest.raises(ReadError, match=r"14.4 N if ',' is the decimal mark, 14412 N if it groups thousands"):
        read_bytes(data, "truck.txt")
    (sweep,) = read_bytes(data, "truck.txt", ReadOptions(decimal="."))
    assert float(np.abs(sweep.channels["force"]).max()) == pytest.approx(3240 * 4.4482216)


def loops(head: str) -> bytes:
    phase = np.arange(200) / 200 * 2 * np.pi
    columns = [x for speed in (50, 200) for x in (25 * np.sin(phase), 2.0 * speed * np.cos(phase) + 150)]
    return "\n".join([head, *(",".join(f"{x:.3f}" for x in row) for row in zip(*columns, strict=True)), ""]).encode()


@pytest.mark.parametrize(
    "head",
    [
        "Disp 50 mm/s (mm),Force 50 mm/s (N),Disp 200 mm/s (mm),Force 200 mm/s (N)",
        "50 mm/s,,200 mm/s,\nx (mm),F (N),x (mm),F (N)",
    ],
)
def test_loops_of_several_speeds_side_by_side_take_their_time_from_their_speed(head):
    slow, fast = read_bytes(loops(head), "loops.csv")
    for sweep, speed in ((slow, 0.05), (fast, 0.2)):
        omega = speed / 0.025
        assert sweep.rate == pytest.approx(200 * omega / (2 * np.pi), rel=2e-3)
        assert any(f"so that the travel has 'Velocity: {1e3 * speed:g} mm/s'" in w for w in sweep.warnings)


def message(first: str, unit: str = " N") -> bytes:
    return "\n".join([first, *(f"{v} mm/s = {c} / {r}{unit}" for v, c, _, r, _ in ROWS), "cheers"]).encode()


def test_a_message_of_two_forces_a_speed_takes_their_order_from_a_line_or_asks():
    (sweep,) = read_bytes(message("Hinten rechts, Zug/Druck:"), "chat.txt")
    v, force = sweep.channels["velocity"], sweep.channels["force"]
    assert force[v < 0].tolist() == [-c for c in FORCE["compression"][2]]
    first = "Hi, rear right done, 8 clicks out on compression and 6 on rebound."
    with pytest.raises(ReadError, match=r"could be 'first.*', 'second.*--column compression=NAME"):
        read_bytes(message(first), "chat.txt")
    (sweep,) = read_bytes(
        message(first), "chat.txt", ReadOptions(columns={"compression": "first", "rebound": "second"})
    )
    assert sweep.clicks == {"c": 8, "r": 6}
    with pytest.raises(ReadError, match="force has no unit"):
        read_bytes(message("comp / reb", unit=""), "chat.txt")


@pytest.mark.parametrize("name", ["rear left C8.csv", "VL_C8.csv", "hinten links C8.csv"])
def test_a_lone_letter_and_number_beside_a_place_on_the_car_may_be_clicks(name):
    (sweep,) = read_bytes(b"mm/s,comp N,reb N\n50,200,300\n100,300,450\n200,450,650\n", name)
    assert sweep.clicks == {}
    assert sweep.warnings == ("'C8' in the file's name may be clicks: not taken; state them",)


def test_a_rod_of_stated_length_is_a_rod_ratio():
    data = (
        "Hub: 50 mm\nPleuellänge: 125,0 mm\nDrehzahl (1/min);Druck (N);Zug (N)\n30;100;200\n60;200;350\n120;300;500\n"
    )
    (sweep,) = read_bytes(data.encode(), "kurbel.csv")
    angle = np.linspace(0, np.pi, 100_001)
    place = 25 * (1 - np.cos(angle)) + 125 * (1 - np.sqrt(1 - (np.sin(angle) / 5) ** 2))
    fastest = float(np.gradient(place, angle).max()) * 1e-3
    assert float(sweep.channels["velocity"].max()) == pytest.approx(4 * np.pi * fastest, rel=1e-5)
    assert any("a crank of rod ratio 5" in w for w in sweep.warnings)


def test_small_words_in_the_key_of_a_day():
    rows = "50;200;300\n100;300;450\n200;450;650\n"
    data = f"Date de l'essai : 14/02/2026\nVitesse (mm/s);Compression (N);Détente (N)\n{rows}"
    (sweep,) = read_bytes(data.encode(), "essai.csv")
    assert sweep.date == "2026-02-14"


@pytest.mark.parametrize("head", ["Speed," + "([" * 20_000 + ",N", "." * 40_000 + ",b,c"])
def test_a_long_head_is_refused_soon_and_in_short(head):
    started = time.process_time()
    with pytest.raises(ReadError) as refused:
        read_bytes(f"{head}\n1,2,3\n2,3,4\n3,4,5\n".encode(), "head.csv")
    assert len(str(refused.value)) < 600
    assert time.process_time() - started < 2.0
