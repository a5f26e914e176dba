"""Titles between a table's rows, speeds under a group's title, places on the car down a column, facts of channels."""

from __future__ import annotations

import numpy as np
import pytest

from dynoan.reading import read_bytes
from importers.stated import facts_of_lines

COMP, REB = (
    ["50;196;169;141", "100;328;284;239", "200;425;375;324"],
    ["50;295;252;209", "100;533;457;381", "200;706;614;522"],
)


def read(*lines: str, name: str = "t.csv"):
    return read_bytes("\n".join(lines).encode(), name)


def ends(sweeps):
    return [(float(s.channels["force"].max()), float(s.channels["force"].min())) for s in sweeps]


@pytest.mark.parametrize(
    ("head", "clicks"),
    [
        ("mm/s;3 clicks;8 clicks;13 clicks", True),
        ("Speed mm/s;3 cl;8 cl;13 cl", True),
        ("속도 mm/s;3단;8단;13단", True),
        ("speed mm/s;soft;medium;hard", False),
        ("mm/s;1/2 turn;1 turn;1 1/2 turns", False),
    ],
)
@pytest.mark.parametrize("titles", [("Compression (N)", "Rebound (N)"), ("Bump N;;;", "Rebound N;;;")])
def test_titles_of_the_directions_may_stand_below_the_runs_names(head, clicks, titles):
    sweeps = read("Shock;GT-7", head, titles[0], *COMP, titles[1], *REB)
    assert ends(sweeps) == [(425, -706), (375, -614), (324, -522)]
    assert [dict(s.clicks) for s in sweeps] == ([{"c": n, "r": n} for n in (3, 8, 13)] if clicks else [{}] * 3)


@pytest.mark.parametrize("at", ["at mm/s", "bei mm/s", "(mm/s)"])
def test_bare_speeds_take_their_unit_from_the_title_over_them(at):
    sweeps = read(
        f";;Druckkraft [N] {at};;;Zugkraft [N] {at};;", "LSC;LSR;50;150;300;50;150;300",
        "2;4;248;488;627;-356;-775;-979", "6;4;219;437;574;-356;-775;-979", "2;8;248;488;627;-300;-700;-900",
    )  # fmt: skip
    assert ends(sweeps) == [(627, -979), (574, -979), (627, -900)]
    assert [dict(s.clicks) for s in sweeps] == [{"lsc": 2, "lsr": 4}, {"lsc": 6, "lsr": 4}, {"lsc": 2, "lsr": 8}]
    assert all(float(np.abs(s.channels["velocity"]).max()) == pytest.approx(0.3) for s in sweeps)


@pytest.mark.parametrize(
    ("name", "first", "second"),
    [
        ("Position", "Left front", "Right front"),
        ("位置", "左前", "右前"),
        ("Wheel", "FL", "FR"),
        ("Seite", "links", "rechts"),
    ],
)
@pytest.mark.parametrize("blank", [True, False])
def test_places_down_a_column_are_the_shocks(name, first, second, blank):
    rows = [
        f"{place if k == 0 or not blank else ''};{v};{f + k};{2 * f + k}"
        for place, f in ((first, 300), (second, 400))
        for k, v in enumerate((0.1, 0.2, 0.4))
    ]
    sweeps = read(f"{name};Speed m/s;Compression N;Rebound N", *rows)
    assert [s.shock for s in sweeps] == [first, second]
    assert ends(sweeps) == [(302, -602), (402, -802)]


@pytest.mark.parametrize("rate", ["Rate (Hz):,512,512,512", "Sample rate,512,512,512"])
def test_what_is_said_of_each_channel_is_said_once(rate):
    t = np.arange(600) / 512
    rows = [f"{k},{np.cos(9 * s):.5f},{9 * np.sin(9 * s):.4f},{50 * np.sin(9 * s):.2f}" for k, s in enumerate(t)]
    head = ["Channel:,1,2,3", "Name:,LVDT,Vel,LoadCell", "Units:,in,in/s,lbf", rate, "Start:,2026-06-16 09:41:07,,"]
    (sweep,) = read(*head, "Sample,LVDT,Vel,LoadCell", *rows)
    assert sweep.rate == pytest.approx(512)
    assert len(sweep.channels["force"]) == 600


def test_a_rate_may_stand_alone_and_a_crank_s_frequency_is_none():
    assert facts_of_lines(["# 100 Hz"]).rate == 100
    assert facts_of_lines(["2 Hz"]).rate is None


@pytest.mark.parametrize(
    ("line", "clicks"),
    [("druk8 rebound14", {"c": 8, "r": 14}), ("tryck 4 rebound 6", {"c": 4, "r": 6}), ("komprese_kliky: 5", {"c": 5})],
)
def test_knobs_in_two_languages(line, clicks):
    assert dict(facts_of_lines([line]).clicks) == clicks


def test_a_column_of_knobs_is_no_force():
    rows = [f"{k};{v};{v + k};{2 * v + k}" for k in (2, 6) for v in (50, 100, 200)]
    first, second = read("Klik;rychlost [mm/s];tlak [N];tah [N]", *rows)
    assert ends((first, second)) == [(202, -402), (206, -406)]


def test_a_sentence_names_a_shock_by_its_place_and_number():
    said = "les chiffres de ton amortisseur arrière droit no"
    assert [facts_of_lines([f"{said} {n}"]).shock for n in (2, 118)] == ["arrière droit 2", "118"]
