"""Columns and lines as other people's rigs write them: letters before rows, days over columns, signs, sections."""

from __future__ import annotations

import numpy as np
import pytest

from dynoan.errors import ReadError
from dynoan.reading import read_bytes
from tests.importers.making import F, T, X

PEAKS = [(50, 100.0, 180.0), (100, 160.0, 290.0), (200, 240.0, 430.0)]
ROWS = [f"{t:.3f},{1e3 * x:.3f},{f:.1f}" for t, x, f in zip(T, X, F, strict=True)]


def sweeps(*lines: str):
    return read_bytes("\n".join(lines).encode(), "rig.csv")


def most(sweep, way: int) -> float:
    force = sweep.channels["force"]
    return float(np.max(way * force[way * sweep.channels["velocity"] > 0]))


def peaks(*above: str) -> list[str]:
    return [*above, "Velocity [mm/s],Comp [N],Reb [N]", *(f"{v},{c},{r}" for v, c, r in PEAKS)]


def test_a_temperature_between_lettered_rows_is_left_out_and_said():
    lines = ["I,shock TG-5", "H,Time [s],Disp [mm],Force [N]", *(f"D,{row}" for row in ROWS[:200])]
    lines[100:100] = ["T,28.1"]
    (sweep,) = sweeps(*lines, *(f"D,{row}" for row in ROWS[200:]))
    assert sweep.samples == len(ROWS)
    assert sweep.shock == "TG-5"
    assert any("'T' were left out: 1" in text for text in sweep.warnings)


def test_each_lettered_block_has_its_own_setting():
    lines = []
    for c, r in ((2, 4), (6, 8)):
        lines += [f"S,A{c},C={c},R={r}", "H,Velocity [mm/s],Comp [N],Reb [N]", *(f"D,{v},{a},{b}" for v, a, b in PEAKS)]
    assert [dict(s.clicks) for s in sweeps(*lines)] == [{"c": 2, "r": 4}, {"c": 6, "r": 8}]


def test_rows_of_shocks_called_by_letters_stay_whole():
    lines = ["SHOCK,SPEED mm/s,COMP N,REB N", *(f"{one},{v},{c},{r}" for one in "PD" for v, c, r in PEAKS)]
    assert [s.shock for s in sweeps(*lines)] == ["P", "D"]


@pytest.mark.parametrize("days", [("2025-03-01", "2025-05-10"), ("1 March 2025", "10 May 2025"), ("Mar-25", "May-25")])
def test_days_over_columns_are_runs_of_one_shock(days):
    lines = ["Shock,LF-8", f"Speed [mm/s],{days[0]},,{days[1]},", ",Comp [N],Reb [N],Comp [N],Reb [N]"]
    first, second = sweeps(*lines, *(f"{v},{c},{r},{0.9 * c:.1f},{0.9 * r:.1f}" for v, c, r in PEAKS))
    assert (first.shock, second.shock) == ("LF-8", "LF-8")
    assert (most(first, 1), most(second, 1)) == (240.0, 216.0)


@pytest.mark.parametrize(
    "section",
    [
        ["[Channels]", "1=Time [s]", "2=Displacement [mm]", "3=Force [N]"],
        ["[COLUMNS]", "Time,s", "Displacement,mm", "Force,N"],
        ["[Channel 1]", "Name=Time", "Unit=s", "[Channel 2]", "Name=Displacement", "Unit=mm", "[Channel 3]",
         "Name=Force", "Unit=N"],
    ],
)  # fmt: skip
def test_a_section_names_the_columns_of_rows_without_names(section):
    (sweep,) = sweeps(*section, "[Data]", *(row.replace(",", "\t") for row in ROWS))
    assert set(sweep.channels) == {"time", "displacement", "force"}
    assert sweep.shock is None


@pytest.mark.parametrize(
    "lines",
    [
        ("Comp: 8 clicks out", "Comp: 24 clicks total", "Reb: 10", "Reb clicks total: 22"),
        ("Compression 8 clicks, 24 clicks total", "Rebound 10 clicks", "Rebound range 0 to 22 clicks"),
        ("Comp clicks from full in,8", "Reb clicks from full in,10"),
        ("Kompressionsdämpning: 8 klick", "Returdämpning: 10 klick"),
        ("Stlačení: 8 kliků", "Roztažení: 10 kliků"),
    ],
)
def test_a_setting_is_taken_and_all_the_clicks_there_are_not(lines):
    (sweep,) = sweeps(*peaks(*lines))
    assert dict(sweep.clicks) == {"c": 8, "r": 10}


def test_clicks_of_a_word_that_is_not_known_are_told():
    (sweep,) = sweeps(*peaks("Whoosh: 5 clicks"))
    assert not sweep.clicks
    assert any("'Whoosh: 5 clicks'" in text for text in sweep.warnings)


@pytest.mark.parametrize("pair", ["BR", "JR", "CE", "DZ", "CD", "IO", "+-"])
def test_letters_and_signs_name_directions_in_pairs(pair):
    rows = [f"{way},{v},{f}" for v, c, r in PEAKS for way, f in zip(pair, (c, r), strict=True)]
    (sweep,) = sweeps("way,Speed [mm/s],Force [N]", *rows)
    assert (most(sweep, 1), most(sweep, -1)) == (240.0, 430.0)


@pytest.mark.parametrize("pair", [("hin", "her"), ("B", "Q")])
def test_rows_of_directions_that_are_not_known_are_refused(pair):
    rows = [f"{way},{v},{f}" for v, c, r in PEAKS for way, f in zip(pair, (c, r), strict=True)]
    with pytest.raises(ReadError, match=r"is a direction|names no direction"):
        sweeps("dir,Speed [mm/s],Force [N]", *rows)
    with pytest.raises(ReadError, match="neither is a direction"):
        sweeps("other,Speed [mm/s],Force [N]", *rows)


def test_two_half_filled_columns_of_force_in_time_are_one():
    v = np.gradient(X, T)
    rows = [f"{t:.3f},{1e3 * x:.3f},{f if s >= 0 else ''},{-f if s < 0 else ''}"
            for t, x, f, s in zip(T, X, F, v, strict=True)]  # fmt: skip
    (sweep,) = sweeps("Time [s],Disp [mm],Comp [N],Reb [N]", *rows)
    assert sweep.layout == "trace"
    assert np.allclose(sweep.channels["force"], F)


def test_signs_within_column_names_count():
    rows = [f"{t:.3f},{-1e3 * x:.3f},{-f:.1f}" for t, x, f in zip(T, X, F, strict=True)]
    (sweep,) = sweeps('"Time [s]","x (mm, + = extension)","F (N, + = tension)"', *rows)
    assert np.allclose(sweep.channels["force"], F, atol=0.06)


def test_a_slow_pull_one_way_with_kilonewtons_is_of_no_shock():
    rows = [f"{0.6 * i:.1f},{0.02 * i:.2f},{0.1 * i:.3f}" for i in range(300)]
    with pytest.raises(ReadError, match="a test of material"):
        sweeps("Time [s],Extension [mm],Force [kN]", *rows)


@pytest.mark.parametrize(
    ("goal", "measured"),
    [("Programmed speed", "Peak speed"), ("Requested speed", "Achieved speed"), ("Nominal speed", "Actual speed")],
)
def test_the_measured_speed_counts_beside_its_goal(goal, measured):
    lines = [f"{goal} [mm/s],{measured} [mm/s],Comp [N],Reb [N]", *(f"{v},{0.9 * v},{c},{r}" for v, c, r in PEAKS)]
    (sweep,) = sweeps(*lines)
    assert sweep.channels["velocity"].max() == pytest.approx(0.18)


def test_figures_beside_the_rows_and_a_title_are_no_facts():
    lines = [",Shock dyno,,,,,", ",S/N,SX-25,,,,", ",Speed,Comp,Reb,,Average comp,167", ",mm/s,N,N,,Average reb,12"]
    (sweep,) = sweeps(*lines, *(f",{v},{c},{r},,," for v, c, r in PEAKS))
    assert sweep.shock == "SX-25"
    assert not sweep.clicks


def test_thin_blanks_group_thousands():
    lines = [
        "Speed [mm/s];Comp [N];Reb [N]",
        "100;200,1;300,1",
        "300;602,5;1\u2009003,1",
        "900;1\u2009600,5;2\u2009803,1",
    ]
    (sweep,) = sweeps(*lines)
    assert (most(sweep, 1), most(sweep, -1)) == (1600.5, 2803.1)


def test_rows_with_numbers_of_no_known_spelling_are_refused_and_not_taken_for_lines_below():
    lines = ["Speed [mm/s];Comp [N];Reb [N]", "100;200,1;300,1", "300;602,5;1~003,1", "600;1~100,5;1~803,1"]
    with pytest.raises(ReadError, match="line 3"):
        sweeps(*lines, "900;1~600,5;2~803,1")


def test_plus_and_minus_one_are_directions_and_a_flag_is_none():
    rows = [f"{v},{way},{f}" for v, c, r in PEAKS for way, f in ((1, c), (-1, r))]
    (sweep,) = sweeps("Speed [mm/s],dir,Force [N]", *rows)
    assert (most(sweep, 1), most(sweep, -1)) == (240.0, 430.0)
    with pytest.raises(ReadError, match="'1' and '0'"):
        sweeps("Speed [mm/s],flag,Force [N]", *(row.replace(",-1,", ",0,") for row in rows))


def test_columns_called_in_and_out_are_the_directions_and_it_is_said():
    (sweep,) = sweeps("Snelheid mm/s,In N,Uit N", *(f"{v},{c},{r}" for v, c, r in PEAKS))
    assert (most(sweep, 1), most(sweep, -1)) == (240.0, 430.0)
    assert any("'In N' and 'Uit N'" in text for text in sweep.warnings)


def test_limits_beside_a_force_are_not_it():
    head = "Speed mm/s,Comp N,Comp lower limit,Comp upper limit,Reb N,Reb lower limit,Reb upper limit"
    (sweep,) = sweeps(head, *(f"{v},{c},{0.8 * c},{1.2 * c},{r},{0.8 * r},{1.2 * r}" for v, c, r in PEAKS))
    assert (most(sweep, 1), most(sweep, -1)) == (240.0, 430.0)


def test_low_and_high_speed_below_the_directions_are_adjusters():
    lines = ["Shock,Compression,,Rebound,,Speed mm/s,Comp N,Reb N", ",LS,HS,LS,HS,,,"]
    (sweep,) = sweeps(*lines, *(f"G1,4,1,6,2,{v},{c},{r}" for v, c, r in PEAKS))
    assert dict(sweep.clicks) == {"lsc": 4, "hsc": 1, "lsr": 6, "hsr": 2}


def test_less_than_no_clicks_is_told():
    (sweep,) = sweeps(*peaks("C: -6", "R: 9 clicks"))
    assert "c" not in sweep.clicks
    assert any("'C: -6' is less than no clicks" in text for text in sweep.warnings)


def test_marks_within_brackets_set_no_names_apart():
    v = np.gradient(X, T)
    rows = [f"{t:.3f},{-1e3 * s:.3f},{f:.1f}" for t, s, f in zip(T, v, F, strict=True)]
    (sweep,) = sweeps("Time (s),Rod velocity (mm/s, + out),Force (N, + compression)", *rows)
    assert np.allclose(sweep.channels["force"], F, atol=0.06)
    assert np.allclose(sweep.channels["velocity"], v, atol=1e-5)


def test_a_title_of_no_known_direction_does_not_take_the_last_one():
    one = ["Compression", "Speed [mm/s],Force [N]", *(f"{v},{c}" for v, c, _ in PEAKS)]
    other = ["Blorbing", "Speed [mm/s],Force [N]", *(f"{v},{r}" for v, _, r in PEAKS)]
    *_, last = sweeps(*one, *other)
    assert any("nothing says which direction" in text for text in last.warnings)


def test_all_of_compression_and_then_all_of_rebound_is_one_table():
    rows = [f"{way},{v},{f[k]}" for k, way in ((1, "compressione"), (2, "estensione")) for f in PEAKS for v in f[:1]]
    (sweep,) = sweeps("Fase,Speed [mm/s],Force [N]", *rows)
    assert (most(sweep, 1), most(sweep, -1)) == (240.0, 430.0)


def test_two_forces_of_one_unit_that_differ_by_little_are_not_the_same():
    rows = [f"{row},{1.008 * f:.1f}" for row, f in zip(ROWS, F, strict=True)]
    with pytest.raises(ReadError, match="force could be"):
        sweeps("Time [s],Disp [mm],Force A [N],Force B [N]", *rows)
    (sweep,) = sweeps("Time [s],Disp [mm],Force corrected [N],Force uncorrected [N]", *rows)
    assert np.allclose(sweep.channels["force"], F, atol=0.06)


def test_fast_and_slow_are_high_and_low_speed():
    (sweep,) = sweeps(*peaks("Fast bump 3, slow bump 7, slow rebound 9"))
    assert dict(sweep.clicks) == {"hsc": 3, "lsc": 7, "lsr": 9}


def test_the_number_of_a_test_is_no_setting():
    (sweep,) = sweeps(*peaks("Test no. C12-R5, damper SH-8"))
    assert not sweep.clicks
