"""Settings as people write them: an end of the range, runs explained above a table, what a file's name holds."""

from __future__ import annotations

import numpy as np
import pytest

from dynoan.model.importing import ReadOptions
from dynoan.reading import read_bytes

TABLE = "Speed mm/s,Comp N,Reb N\n25,142,348\n50,249,562\n100,403,809\n"


def sweeps(text: str, name: str = "rig.csv"):
    return read_bytes(text.encode(), name, ReadOptions())


@pytest.mark.parametrize("end", ["full closed", "closed", "fully closed", "full hard"])
def test_closed_is_no_click_out(end):
    (sweep,) = sweeps(f"LSC: {end}\nLSR: 6\n{TABLE}")
    assert dict(sweep.clicks) == {"lsc": 0, "lsr": 6}
    assert sweep.warnings == ()


def test_the_soft_end_has_no_number_here():
    (sweep,) = sweeps(f"LSC: full open\nLSR: 6\n{TABLE}")
    assert dict(sweep.clicks) == {"lsr": 6}
    assert "'LSC: full open' is the last click" in sweep.warnings[0]


def test_so_many_of_so_many_are_clicks():
    (sweep,) = sweeps(f"C 6 of 20\nR 8 of 22\n{TABLE}")
    assert dict(sweep.clicks) == {"c": 6, "r": 8}


@pytest.mark.parametrize(
    ("line", "clicks"),
    [
        ("LSC: full open (22)", {"lsc": 22}),
        ("Comp full stiff, Reb 8", {"c": 0, "r": 8}),
        ("C: closed; R: 12 out", {"c": 0, "r": 12}),
        ("LSC/HSC = 6/3, LSR = 9", {"lsc": 6, "hsc": 3, "lsr": 9}),
        ("Adj: 10R 6C", {"c": 6, "r": 10}),
        ("Setting 6-10 (C-R)", {"c": 6, "r": 10}),
        ("Clicks LSC-HSC-LSR: 6-4-10", {"lsc": 6, "hsc": 4, "lsr": 10}),
    ],
)
def test_clicks_in_other_orders(line, clicks):
    assert dict(sweeps(f"{line}\n{TABLE}")[0].clicks) == clicks


def test_runs_that_lines_below_explain():
    rows = "25,142,348,120,300\n50,249,562,210,500\n100,403,809,340,700\n"
    heads = "Speed (mm/s),Run 1 C (N),Run 1 R (N),Run 2 C (N),Run 2 R (N)\n"
    found = sweeps(f"{heads}{rows}Run 1 = C4 R6\nRun 2 = C8 R10\n")
    assert [dict(s.clicks) for s in found] == [{"c": 4, "r": 6}, {"c": 8, "r": 10}]


def test_four_numbers_without_adjusters_are_named():
    (sweep,) = sweeps(f"Clicks: 4/6/2/8\n{TABLE}")
    assert (dict(sweep.clicks), sweep.warnings) == (
        {},
        ("'Clicks: 4/6/2/8' names no adjusters: no clicks were taken; state them",),
    )
    (sweep,) = sweeps(f"Clicks (LSC/HSC/LSR/HSR): 4/6/2/8\n{TABLE}")
    assert (dict(sweep.clicks), sweep.warnings) == ({"lsc": 4, "hsc": 6, "lsr": 2, "hsr": 8}, ())


@pytest.mark.parametrize(
    "above",
    ["Run 1: C=4 R=6\nRun 2: C=8 R=6\n", "Run #1 = C4/R6; Run #2 = C8/R6\n", "Run;Clicks C;Clicks R\n1;4;6\n2;8;6\n\n"],
)
def test_runs_that_lines_above_explain(above):
    rows = "".join(f"{run};{v};{c};{2 * c}\n" for run in (1, 2) for v, c in ((25, 142), (50, 249), (100, 403)))
    found = sweeps(f"{above}Run;Speed (mm/s);Comp (N);Reb (N)\n{rows}")
    assert [dict(s.clicks) for s in found] == [{"c": 4, "r": 6}, {"c": 8, "r": 6}]
    assert not any("none was taken" in w for s in found for w in s.warnings)


def test_a_name_holds_a_corner_and_a_pressure_and_what_may_be_clicks():
    (sweep,) = sweeps(TABLE, "FL 200psi C4.csv")
    assert (sweep.shock, dict(sweep.clicks)) == ("FL", {})
    assert sweep.gas_pressure == pytest.approx(200 * 6894.757, rel=1e-4)
    assert sweep.warnings == ("'C4' in the file's name may be clicks: not taken; state them",)
    (sweep,) = sweeps("LSC: 4\n" + TABLE, "FL 200psi C4.csv")
    assert not any("may be clicks" in w for w in sweep.warnings)


def test_the_corner_in_a_line_of_clicks_is_the_shock():
    (sweep,) = sweeps(f"FL, LSC 4, LSR 6\n{TABLE}")
    assert (sweep.shock, dict(sweep.clicks)) == ("FL", {"lsc": 4, "lsr": 6})
    (sweep,) = sweeps(f"FL, LSC 4, LSR 6\nShock: RL-02\n{TABLE}")
    assert sweep.shock == "RL-02"


@pytest.mark.parametrize(
    ("line", "day"),
    [
        ("Shock RL-02, 14 March 2026", "2026-03-14"),
        ("After rebuild (16/03/2026)", "2026-03-16"),
        ('"Log Date","14/03/2026"', "2026-03-14"),
        ("Load cell calibrated (16/03/2026)", None),
    ],
)
def test_days_in_titles(line, day):
    assert sweeps(f"{line}\n{TABLE}")[0].date == day


def test_a_stroke_given_as_an_amplitude():
    rows = "Frequency (Hz);Comp (N);Reb (N)\n0.2;150;350\n0.4;250;560\n0.8;400;810\n"
    (sweep,) = sweeps(f"Test stroke +/- 25 mm\n{rows}")
    assert sweep.channels["velocity"].max() == pytest.approx(2 * np.pi * 0.8 * 0.025)


@pytest.mark.parametrize("below", ["mm/s and N", "Units: mm/s, N"])
def test_speeds_with_a_letter_across_and_the_units_below(below):
    rows = "C clicks,R clicks,25C,50C,100C,25R,50R,100R\n4,6,142,249,403,348,562,809\n8,10,120,210,340,300,500,700\n"
    found = sweeps(rows + below)
    assert [(dict(s.clicks), s.samples) for s in found] == [({"c": 4, "r": 6}, 6), ({"c": 8, "r": 10}, 6)]
    assert found[0].channels["force"].min() == -809


def test_coefficients_beside_forces_are_none():
    rows = "25,142,348,5.7,13.9\n50,249,562,5.0,11.2\n100,403,809,4.0,8.1\n"
    (sweep,) = sweeps("Speed (mm/s),Comp (N),Reb (N),Ns/mm C,Ns/mm R\n" + rows)
    assert (sweep.channels["force"].max(), sweep.channels["force"].min()) == (403, -809)


def test_rows_of_each_adjuster_are_forces_of_its_direction():
    rows = "C0,142,249,403\nC6,120,210,340\nR0,348,562,809\nR6,300,500,700\nall N\n"
    found = sweeps("Clicks,25 mm/s,50 mm/s,100 mm/s\n" + rows)
    assert [(dict(s.clicks), s.channels["force"][[2, 5]].tolist()) for s in found] == [
        ({"c": 0, "r": 0}, [403, -809]),
        ({"c": 6, "r": 6}, [340, -700]),
    ]
