"""Files as people and rigs write them: what stands beside the numbers, between them and instead of them."""

from __future__ import annotations

import numpy as np
import pytest

from dynoan.errors import ReadError
from dynoan.model.record_motion import velocity
from dynoan.reading import read_bytes
from tests.importers.making import F, T, X

ROWS = [f"{t:.3f},{1e3 * x:.3f},{f:.1f}" for t, x, f in zip(T, X, F, strict=True)]
HEAD = "Time [s],Disp [mm],Force [N]"
TOP = float(np.max(F))


def sweeps(*lines: str, encoding: str = "utf-8"):
    return read_bytes("\n".join(lines).encode(encoding), "rig.csv")


def warned(sweep, words: str) -> bool:
    return any(words in text for text in sweep.warnings)


@pytest.mark.parametrize("blank", ["", ",,", ";;;"])
def test_hundreds_of_blank_rows_below_a_table_are_no_table(blank):
    peaks = ["Velocity [mm/s],Compression [N],Rebound [N]", "50,90,110", "100,150,190", "200,210,260"]
    (sweep,) = sweeps(*peaks, *[blank] * 400)
    assert sweep.layout == "peaks"
    assert len(sweep.channels["force"]) == 6


@pytest.mark.parametrize("nines", ["9999", "-999.99", "99999.0"])
def test_nines_that_a_record_leaps_to_are_missing_samples(nines):
    rows = [f"{row.rpartition(',')[0]},{nines}" if at in (40, 200, 201) else row for at, row in enumerate(ROWS)]
    (sweep,) = sweeps(HEAD, *rows)
    assert np.isnan(sweep.channels["force"]).sum() == 3
    assert np.nanmax(sweep.channels["force"]) == pytest.approx(TOP, abs=0.1)
    assert warned(sweep, "3 times in 'Force [N]'")


def test_a_force_of_999_newtons_among_its_like_is_measured():
    (sweep,) = sweeps("Velocity [mm/s],Compression [N],Rebound [N]", "100,500,-300", "200,800,-400", "300,999,-500")
    assert sweep.channels["force"].max() == 999


def test_rows_called_min_and_max_are_no_samples():
    beside = ["Min,0,0,-900", "Max,9,50,900", *(f",{row}" for row in ROWS)]
    (sweep,) = sweeps("Name,Time s,Disp mm,Load N", *beside)
    assert sweep.samples == len(ROWS)
    assert warned(sweep, "'Min', 'Max' sum up the others")
    (sweep,) = sweeps("Name,Time,Disp,Load", "Unit,s,mm,N", *beside)
    assert (sweep.samples, sweep.facts["Channel max"]) == (len(ROWS), "9 / 50 / 900")


def test_lone_spikes_are_told_and_kept():
    rows = [f"{row.rpartition(',')[0]},{float(row.rpartition(',')[2]) + 5000:.1f}" if at in (60, 300) else row
            for at, row in enumerate(ROWS)]  # fmt: skip
    (sweep,) = sweeps(HEAD, *rows)
    assert warned(sweep, "2 lone spikes of up to 5000 N")
    (clean,) = sweeps(HEAD, *ROWS)
    assert not warned(clean, "spike")


def test_a_stated_stroke_that_the_travel_is_not_is_doubted():
    (sweep,) = sweeps("Stroke: 300 mm", HEAD, *ROWS)
    assert warned(sweep, "though a stroke of 300 mm is stated")
    travel = 1e3 * np.ptp(X)
    assert not warned(sweeps(f"Stroke: {travel:.1f} mm", HEAD, *ROWS)[0], "stroke")


def test_days_as_a_spreadsheet_counts_them_are_time():
    rows = ["Date/Time,Disp [mm],Force [N]"]
    rows += [f"{45731.6 + t / 86400:.10f},{row.partition(',')[2]}" for t, row in zip(T, ROWS, strict=True)]
    (sweep,) = sweeps(*rows)
    assert sweep.rate == pytest.approx(1 / (T[1] - T[0]), rel=1e-3)
    assert warned(sweep, "counts days")


def test_what_a_file_says_of_force_is_not_said_of_its_motion():
    turned = [f"{t:.3f},{1e3 * x:.3f},{-f:.1f}" for t, x, f in zip(T, X, F, strict=True)]
    lines = ["# displacement and velocity positive in compression (bump)", "# force positive in tension (rebound)"]
    (sweep,) = sweeps(*lines, HEAD, *turned)
    assert sweep.channels["force"].max() == pytest.approx(TOP, abs=0.1)
    assert sweep.decisions["force"].sign == -1


def test_two_lines_that_contradict_one_another_are_told():
    (sweep,) = sweeps("Force: positive in compression", "Sign convention: tension positive", HEAD, *ROWS)
    assert warned(sweep, "that compression and that rebound is positive")
    (sweep,) = sweeps("Compression clicks: 3", "Notes: rerun at comp 9 clicks", HEAD, *ROWS)
    assert not sweep.clicks
    assert warned(sweep, "both c=3 and c=9")


@pytest.mark.parametrize("order", [(0, 1, 2, 3), (0, 2, 1, 3)])
def test_two_shocks_side_by_side_over_one_time_are_two_sweeps(order):
    names = ["Left travel [mm]", "Left force [N]", "Right travel [mm]", "Right force [N]"]
    cells = [1e3 * X, F, 1e3 * X, 1.2 * F]
    rows = [",".join(f"{column[at]:.3f}" for column in (T, *(cells[k] for k in order))) for at in range(len(T))]
    left, right = sweeps(",".join(["t [s]", *(names[k] for k in order)]), *rows)
    assert (left.shock, right.shock) == ("Left", "Right")
    assert right.channels["force"].max() == pytest.approx(1.2 * TOP, abs=0.1)


def test_two_cells_under_one_shock_are_not_two_shocks():
    rows = [f"{row.rpartition(',')[0]},{0.5 * f:.1f},{0.5 * f + 3:.1f}" for row, f in zip(ROWS, F, strict=True)]
    with pytest.raises(ReadError, match="force could be 'Load left"):
        sweeps("t [s],Pos [mm],Load left [N],Load right [N]", *rows)


def test_a_time_over_runs_of_other_clicks_is_theirs_all():
    rows = [f"{row},{row.partition(',')[2]}" for row in ROWS]
    first, second = sweeps("SN 5501 click series,,,,", "Clicks C/R,0/0,,8/6,", f"{HEAD},Disp [mm],Force [N]", *rows)
    assert (first.clicks, second.clicks) == ({"c": 0, "r": 0}, {"c": 8, "r": 6})
    assert first.shock == second.shock == "5501"
    assert first.samples == second.samples == len(ROWS)


def test_columns_called_by_their_units_beside_a_count_of_samples():
    rows = [f"{at},{row.partition(',')[2]}" for at, row in enumerate(ROWS)]
    (sweep,) = sweeps("Acquired at 500 samples per second", "Sample,mm,N", *rows)
    assert sweep.rate == 500
    assert sweep.channels["force"].max() == pytest.approx(TOP, abs=0.1)


def test_one_row_a_test_with_peaks_across():
    first, second = sweeps(
        "Date,Shock,Pack,Comp clicks,Reb clicks,Oil °F,C 2 in/s [lbf],C 5 in/s [lbf],C 10 in/s [lbf],R 2 in/s [lbf],"
        "R 5 in/s [lbf],R 10 in/s [lbf],Remarks",
        "2025-03-01,LF-2,mixed,4,6,90,37.0,77.1,119.9,69.6,122.6,188.2,ok",
        '2025-03-08,LF-2,gravel,10,12,101,30.0,66.2,109.0,55.6,104.8,170.5,"after rebuild, new seal"',
    )
    assert (first.pack, first.clicks, second.pack, second.clicks) == (
        "mixed", {"c": 4, "r": 6}, "gravel", {"c": 10, "r": 12})  # fmt: skip
    assert first.channels["force"].max() == pytest.approx(119.9 * 4.448222)  # the pound-force of ISO 80000-4
    assert second.date == "2025-03-08"


def test_clicks_that_head_columns_are_no_speeds():
    peaks = sweeps(
        "Velocity (mm/s),Comp @ 0 clicks (N),Comp @ 6 clicks (N)", "50,181,150", "100,335,286", "200,485,436"
    )
    assert [sweep.clicks for sweep in peaks] == [{"c": 0}, {"c": 6}]
    assert [float(sweep.channels["velocity"].max()) for sweep in peaks] == [0.2, 0.2]


def test_a_force_in_brackets_in_a_title_is_its_unit():
    rows = ["0,69,181,335,410", "4,61,161,303,378", "8,53,141,270,345"]
    found = sweeps("Peak compression force (N) by click and speed",
                   "Comp clicks,25 mm/s,50 mm/s,100 mm/s,150 mm/s", *rows)  # fmt: skip
    assert [float(sweep.channels["force"].max()) for sweep in found] == [410, 378, 345]


def test_a_few_lost_samples_make_no_speed_of_their_own():
    whole = sweeps(HEAD, *ROWS)[0]
    (short,) = sweeps(HEAD, *(row for at, row in enumerate(ROWS) if at not in (101, 102, 300)))
    top = float(np.max(np.abs(velocity(whole))))
    assert float(np.max(np.abs(velocity(short)))) == pytest.approx(top, rel=0.02)


@pytest.mark.parametrize(
    ("line", "code", "shock"),
    [("Demper;LA-4", "utf-8", "LA-4"), ("Tlumič;P-3", "cp1250", "P-3"), ("# Éprouvette : ARG-5", "cp1252", "ARG-5"),
     ("ダンパー;No.31", "shift_jis", "No.31"), ("Damper serial: TOP-7", "utf-8", "TOP-7")],
)  # fmt: skip
def test_words_for_a_shock(line, code, shock):
    head = {"cp1250": "Čas [s];Zdvih [mm];Síla [N]", "shift_jis": "時間[s];変位[mm];荷重[N]"}.get(code)
    rows = [row.replace(",", ";") for row in ROWS]
    (sweep,) = sweeps(line, head or "Time [s];Disp [mm];Force [N]", *rows, encoding=code)
    assert sweep.shock == shock


def test_means_and_their_deviations_are_told_apart():
    (sweep,) = sweeps("Geschwindigkeit [mm/s];Druck Mittel [N];Druck s [N];Zug Mittel [N];Zug s [N];n",
                      "50;140,5;0,56;262,2;1,31;5", "100;270,0;1,08;430,4;2,15;5",
                      "250;495,0;1,98;775,4;3,88;5")  # fmt: skip
    assert (sweep.channels["force"].max(), sweep.channels["force"].min()) == (495.0, -775.4)


def test_keys_in_the_first_of_their_rows_alone_are_carried_down():
    rows = ["2025-04-05,FL-3,mixed,4,6,50,160,300,", ",,,,,100,302,483,", "2025-04-06,FR-3,mixed,4,6,50,165,312,",
            ",,,,,100,311,497,"]  # fmt: skip
    left, right = sweeps("Date,Shock,Pack,C clicks,R clicks,Speed (mm/s),Comp (N),Reb (N),Remark", *rows)
    assert (left.shock, right.shock, left.clicks) == ("FL-3", "FR-3", {"c": 4, "r": 6})
    assert (left.channels["force"].max(), right.channels["force"].max()) == (302, 311)
    assert right.date == "2025-04-06"


def test_a_line_of_json_states_what_it_holds():
    (sweep,) = sweeps('# {"shock": "JX-4", "pack": "gravel 2", "clicks": {"lsc": 4, "lsr": 9}}', HEAD, *ROWS)
    assert (sweep.shock, sweep.pack, sweep.clicks) == ("JX-4", "gravel 2", {"lsc": 4, "lsr": 9})


def test_notes_to_the_right_of_a_table_are_no_columns():
    (sweep,) = sweeps("Velocity (mm/s),Comp (N),Reb (N),,Shock,NR-4", "50,150,262,,Comp clicks,6",
                      "100,286,430,,Reb clicks,10", "250,511,775,,Next service,40 h")  # fmt: skip
    assert (sweep.shock, sweep.clicks) == ("NR-4", {"c": 6, "r": 10})
    assert sweep.channels["force"].max() == 511


def test_samples_taken_at_uneven_times_make_no_speed_of_their_own():
    at = np.cumsum(np.random.default_rng(3).integers(8, 13, 400)) / 1000
    x = 20 * np.sin(2 * np.pi * at)
    (sweep,) = sweeps("millis,travel_mm,force_N", *(f"{1e3 * t:.0f},{p:.3f},{60 * np.cos(2 * np.pi * t) + 140:.1f}"
                                                    for t, p in zip(at, x, strict=True)))  # fmt: skip
    assert np.max(np.abs(velocity(sweep))) == pytest.approx(0.02 * 2 * np.pi, rel=0.03)


@pytest.mark.parametrize("called", ["ERR", "SHUNT"])
def test_rows_that_a_state_calls_no_measurement_are_left_out_aloud(called):
    rows = [f"{row.rpartition(',')[0]},8191.9,{called}" if 50 < at < 60 else f"{row},ok" for at, row in enumerate(ROWS)]
    (sweep,) = sweeps(f"{HEAD},State", *rows)
    assert sweep.channels["force"].max() == pytest.approx(TOP, abs=0.1)
    assert warned(sweep, f"9 of 1500 rows are called '{called}'")


def test_a_comma_in_a_quoted_comment_far_down_is_no_delimiter():
    said = '"a small knock, left"'
    rows = [f"{at},{row},{said if at == 400 else ''}" for at, row in enumerate(ROWS)]
    (sweep,) = sweeps("No.,Time [s],Disp [mm],Force [N],Comment", *rows)
    assert sweep.samples == len(ROWS)


def test_clicks_as_words_and_a_damper_beside_its_spring():
    (sweep,) = sweeps("Compression: five clicks out", "Rebound: zwölf Klicks", HEAD, *ROWS)
    assert sweep.clicks == {"c": 5, "r": 12}
    rows = [f"{row.rpartition(',')[0]},{2 * f:.1f},{f:.1f},{f:.1f}" for row, f in zip(ROWS, F, strict=True)]
    (sweep,) = sweeps("Time [s],Disp [mm],Total force [N],Spring force [N],Damper force [N]", *rows)
    assert sweep.channels["force"].max() == pytest.approx(TOP, abs=0.1)


def test_unnamed_columns_over_one_time_are_runs_of_their_own_aloud():
    rows = [f"{row},{row.partition(',')[2]}" for row in ROWS]
    first, second = sweeps("t [s],Pos 1 [mm],Load 1 [N],Pos 2 [mm],Load 2 [N]", *rows)
    assert warned(first, "columns 2 to 3 and columns 4 to 5 over one time were taken as runs of their own")
    assert second.samples == len(ROWS)
