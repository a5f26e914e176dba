"""Tables that shops lay out in ways of their own: units in cells, travel left, one direction below the other."""

from __future__ import annotations

import io
from datetime import datetime, timedelta

import numpy as np
import openpyxl
import pytest
from scipy.io import savemat

from dynoan.errors import ReadError
from dynoan.model.importing import ReadOptions
from dynoan.reading import read_bytes
from tests.importers.making import F, T, X

MM = 1e3 * X
ROWS = [f"{t:.3f},{x:.3f},{f:.1f}" for t, x, f in zip(T, MM, F, strict=True)]
TOP = float(np.max(F))
SPEEDS = (50, 100, 200, 400)

LBF = 4.4482216152605  #: [N]


def sweeps(*lines: str, name: str = "rig.csv", **options):
    return read_bytes("\n".join(lines).encode(), name, ReadOptions(**options))


def turned(x: np.ndarray) -> list[str]:
    return [f"{t:.3f},{a:.3f},{f:.1f}" for t, a, f in zip(T, x, F, strict=True)]


@pytest.mark.parametrize(
    ("name", "x"),
    [
        ("Distance to bump stop (mm)", 60 - MM),
        ("Travel left to full bump (mm)", 60 - MM),
        ("Distance to full droop (mm)", 60 + MM),
        ("Weg bis ausgefedert (mm)", 60 + MM),
    ],
)
def test_travel_counted_to_an_end(name, x):
    (sweep,) = sweeps(f"Time (s),{name},Force (N)", *turned(x))
    assert sweep.channels["force"].max() == pytest.approx(TOP, abs=0.1)
    assert sweep.channels["displacement"][100] - sweep.channels["displacement"][0] == pytest.approx(X[100], rel=0.02)


def test_a_click_over_a_trace_says_nothing_of_its_sign():
    rows = [f"{row},,{row}" for row in ROWS]
    found = sweeps("Reb 0,,,,Reb 4,,", "t (s),x (mm),F (N),,t (s),x (mm),F (N)", *rows)
    assert [dict(one.clicks) for one in found] == [{"r": 0}, {"r": 4}]
    assert all(one.channels["force"].max() == pytest.approx(TOP, abs=0.1) for one in found)


def test_clicks_counted_from_an_end_are_a_column_of_clicks():
    rows = [f"{k},{v},{300 + v},{400 + v - 10 * k}" for k in (0, 4) for v in (50, 100, 200)]
    found = sweeps("Rebound clicks from closed,Velocity (mm/s),Compression (N),Rebound (N)", *rows)
    assert [(dict(one.clicks), one.channels["force"].min()) for one in found] == [({"r": 0}, -600), ({"r": 4}, -560)]


def test_units_behind_the_numbers_of_a_long_table():
    rows = [f"{t:.3f} s,{x:.3f} mm,{f:.1f} N" for t, x, f in zip(T, MM, F, strict=True)]
    (sweep,) = sweeps("Time,Position,Load", *rows)
    assert (sweep.samples, sweep.channels["force"].max()) == (len(T), pytest.approx(TOP, abs=0.1))
    assert np.ptp(sweep.channels["displacement"]) == pytest.approx(np.ptp(X), rel=1e-3)


@pytest.mark.parametrize("mark", [",", ";"])
def test_an_uncertainty_behind_a_number_is_none_of_the_next(mark):
    rows = [mark.join([str(v), f"{300 + v} ± 12", f"{200 + v} ± 15"]) for v in (50, 100, 200, 400)]
    (sweep,) = sweeps(mark.join(["Velocity (mm/s)", "Comp (N)", "Reb (N)"]), *rows)
    assert (sweep.channels["force"].max(), sweep.channels["force"].min()) == (700, -600)


def test_the_units_of_clauses_hold_no_inches():
    rows = [row.replace(",", ";").replace(".", ",") for row in ROWS]
    (sweep,) = sweeps("t;s;F", *rows, "Einheiten: t in s; s in mm; F in N")
    assert np.ptp(sweep.channels["displacement"]) == pytest.approx(np.ptp(X), rel=1e-3)


def test_counts_by_a_line_that_says_how_they_become_a_unit():
    counts = [
        f"{n},{round((x + 51.2) / 0.025)},{round((f + 3072) / 1.5)}" for n, (x, f) in enumerate(zip(MM, F, strict=True))
    ]
    above = ("# rate_hz=500", "# disp: mm = 0.025*counts - 51.2", "# force: N = 1.5*counts - 3072")
    (sweep,) = sweeps(*above, "n,disp_counts,force_counts", *counts)
    assert sweep.rate == 500
    assert np.ptp(sweep.channels["displacement"]) == pytest.approx(np.ptp(X), abs=5e-5)
    assert sweep.channels["force"].max() == pytest.approx(TOP, abs=1.5)


def test_one_motion_from_two_zeros_is_one_column():
    rows = [f"{t:.3f},{x + 60:.2f},{x:.2f},{f:.1f}" for t, x, f in zip(T, MM, F, strict=True)]
    (sweep,) = sweeps("Time (s),Position abs (mm),Position rel (mm),Force (N)", *rows)
    assert np.ptp(sweep.channels["displacement"]) == pytest.approx(np.ptp(X), rel=1e-3)
    other = [f"{t:.3f},{1.2 * x + 60:.2f},{x:.2f},{f:.1f}" for t, x, f in zip(T, MM, F, strict=True)]
    with pytest.raises(ReadError, match="displacement could be"):
        sweeps("Time (s),Position abs (mm),Position rel (mm),Force (N)", *other)


def test_a_table_of_each_direction_below_one_another_makes_whole_settings():
    rebound = ["mm/s,0,4", "50,136,104", "100,236,197", "200,357,318"]
    bump = ["mm/s,0,4", "50,391,378", "100,450,430", "200,560,540"]
    title = "{} force (N) by rebound click"
    found = sweeps(title.format("Rebound"), *rebound, "", title.format("Compression"), *bump)
    assert [dict(one.clicks) for one in found] == [{"r": 0}, {"r": 4}]
    assert [(one.channels["force"].min(), one.channels["force"].max()) for one in found] == [(-357, 560), (-318, 540)]


def test_rows_of_targets_and_of_means_are_no_measurements():
    rows = [
        f"{kind},{v},{300 + v + more},{200 + v}" for kind, more in (("Measured", 0), ("Target", 90)) for v in SPEEDS
    ]
    (sweep,) = sweeps("Type,Velocity (mm/s),Comp (N),Reb (N)", *rows)
    assert sweep.channels["force"].max() == 700
    assert any("'Target'" in text for text in sweep.warnings)
    cycles = [f"{v},{n},{300 + v},{200 + v}" for v in SPEEDS for n in ("1", "2", "mean")]
    (sweep,) = sweeps("Velocity (mm/s),Cycle,Comp (N),Reb (N)", *cycles)
    assert sweep.samples == 2 * 2 * len(SPEEDS)
    assert any("'mean'" in text for text in sweep.warnings)


def test_phases_under_their_names_are_runs_though_time_goes_on():
    found = sweeps("WARM-UP", "Time (s),Disp (mm),Force (N)", *ROWS[:900], "TEST", *ROWS[900:])
    assert [one.samples for one in found] == [900, 600]
    (whole,) = sweeps("Time (s),Disp (mm),Force (N)", *ROWS[:900], "TEST", *ROWS[900:])
    assert whole.samples == 1500


def test_a_corner_that_names_rows_and_columns():
    table = ["0,237,532,694,1019", "4,192,455,617,942"]
    found = sweeps("Rebound force [N]", "Clicks \\ speed [mm/s],50,100,200,400", *table)
    assert [(dict(s.clicks), s.channels["force"].min()) for s in found] == [({"r": 0}, -1019), ({"r": 4}, -942)]
    assert all(one.channels["velocity"].min() == pytest.approx(-0.4) for one in found)


@pytest.mark.parametrize("corner", ["Clicks \\ in/s", "Cliques \\ pol/s"])
def test_speeds_that_could_be_clicks_are_speeds_where_the_corner_names_clicks_first(corner):
    across = f"{corner},2,4,8,12"
    low, high = ["0,75,113,166,208", "4,65,99,148,189"], ["0,119,180,261,327", "4,103,157,234,297"]
    found = sweeps("Compression (lbf)", across, *low, "", "Rebound (lbf)", across, *high)
    assert [dict(one.clicks) for one in found] == [{"c": 0, "r": 0}, {"c": 4, "r": 4}]
    for one, comp, reb in zip(found, (208, 189), (327, 297), strict=True):
        assert one.channels["velocity"].max() == pytest.approx(12 * 0.0254)
        assert [one.channels["force"].max(), -one.channels["force"].min()] == pytest.approx([comp * LBF, reb * LBF])


def test_clicks_across_stay_clicks_where_speeds_stand_at_the_rows():
    rows = ["25,300,250,200", "100,610,520,440", "200,900,800,700"]
    found = sweeps("Compression (N)", "Clicks / velocity mm/s,0,4,8", *rows, "",
                   "Rebound (N)", "Clicks / velocity mm/s,0,4,8", *rows)  # fmt: skip
    assert [dict(one.clicks) for one in found] == [{"c": k, "r": k} for k in (0, 4, 8)]
    assert [one.channels["velocity"].max() for one in found] == pytest.approx([0.2] * 3)


def test_all_that_is_missing_is_asked_for_at_once():
    with pytest.raises(ReadError, match="--unit force=UNIT --unit displacement=UNIT") as refused:
        sweeps("Time,Position,Force", *ROWS)
    assert "columns 'Force' and 'Position'" in str(refused.value)


def test_help_for_names_that_say_nothing_cannot_be_typed_to_a_wrong_curve():
    with pytest.raises(ReadError, match="compression=NAME --column rebound=NAME") as refused:
        sweeps("IPS,CD,RD", "1,30,40", "2,50,60", "3,60,80")
    assert "=RD" not in str(refused.value)


def test_no_column_is_a_channel_where_the_user_says_so():
    rows = [f"{row},{0.1 + 0.001 * (k % 7):.4f}" for k, row in enumerate(ROWS)]
    (sweep,) = sweeps("Time (s),Disp (mm),Force (N),Velocity (m/s)", *rows, columns={"velocity": "none"})
    assert "velocity" not in sweep.channels
    with pytest.raises(ReadError, match="had no effect"):
        sweeps("Time (s),Disp (mm),Force (N)", *ROWS, columns={"velocity": "none"})


def book(**sheets: list[list[object]]) -> bytes:
    workbook = openpyxl.Workbook()
    workbook.remove(workbook.active)
    for title, rows in sheets.items():
        sheet = workbook.create_sheet(title)
        for row in rows:
            sheet.append(row)
    held = io.BytesIO()
    workbook.save(held)
    return held.getvalue()


def peaks(more: float) -> list[list[object]]:
    return [["Velocity (mm/s)", "Comp (N)", "Reb (N)"], *([v, 300 + v + more, 200 + v] for v in SPEEDS)]


def test_the_sheet_of_means_is_no_run_beside_several():
    found = read_bytes(book(**{"Run 1": peaks(0), "Run 2": peaks(10), "Average": peaks(5)}), "rig.xlsx")
    assert [one.channels["force"].max() for one in found] == [700, 710]
    assert all(any("'Average'" in text for text in one.warnings) for one in found)
    (alone,) = read_bytes(book(Average=peaks(5)), "rig.xlsx")
    assert alone.channels["force"].max() == 705


def test_one_record_filtered_in_another_sheet_is_one_run():
    head = ["Time (s)", "Disp (mm)", "Force (N)"]
    raw, smooth = (
        [head, *([t, x, share * f] for t, x, f in zip(T.tolist(), MM.tolist(), F.tolist(), strict=True))]
        for share in (1.0, 0.99)
    )
    (sweep,) = read_bytes(book(Raw=raw, Filtered=smooth), "rig.xlsx")
    assert sweep.channels["force"].max() == pytest.approx(TOP, abs=0.1)
    assert any("'Filtered'" in text for text in sweep.warnings)


def test_days_with_clock_times_are_the_time():
    start = datetime(2025, 6, 1, 9)
    head: list[object] = ["Date/Time", "Disp (mm)", "Force (N)"]
    rows = [[start + timedelta(seconds=t), x, f] for t, x, f in zip(T.tolist(), MM.tolist(), F.tolist(), strict=True)]
    (sweep,) = read_bytes(book(Sheet=[head, *rows]), "rig.xlsx")
    assert (sweep.rate, sweep.date) == (pytest.approx(500), "2025-06-01")


def test_a_matrix_whose_columns_a_list_names():
    held = io.BytesIO()
    labels = np.array(["Time [s]", "Pos [mm]", "Force [N]"], dtype=object)
    savemat(held, {"data": np.column_stack([T, MM, F]), "labels": labels})
    (sweep,) = read_bytes(held.getvalue(), "rig.mat")
    assert sweep.channels["force"].max() == pytest.approx(TOP)


@pytest.mark.parametrize("mark", ["~", ":"])
def test_cells_set_apart_by_other_marks(mark):
    rows = [row.replace(",", mark) for row in ROWS]
    (sweep,) = sweeps("Shock: RL-02", mark.join(["Time (s)", "Disp (mm)", "Force (N)"]), *rows, "")
    assert (sweep.samples, sweep.channels["force"].max()) == (1500, pytest.approx(TOP, abs=0.1))
    assert sweep.shock == "RL-02"


def test_lines_that_stand_whole_in_quotes():
    (sweep,) = sweeps('"Time (s),Disp (mm),Force (N)"', *(f'"{row}"' for row in ROWS), "")
    assert sweep.channels["force"].max() == pytest.approx(TOP, abs=0.1)


def test_clock_times_alone_are_no_cells():
    with pytest.raises(ReadError):
        sweeps("Time", *(f"10:00:{t:06.3f}" for t in T), "")


def test_turns_without_a_stroke_ask_for_the_stroke():
    table = ["RPM,Compression (N),Rebound (N)", "20,300,400", "40,400,600", "80,600,900"]
    with pytest.raises(ReadError, match="a line such as 'Stroke: 50 mm'"):
        sweeps(*table)
    (sweep,) = sweeps("Stroke: 50 mm", *table)
    assert sweep.channels["velocity"].max() == pytest.approx(np.pi * 0.05 * 80 / 60)


def test_a_long_record_that_lies_on_its_side():
    t = np.arange(6000) / 500
    columns = {"Time (s)": t, "Disp (mm)": 20 * np.sin(6 * t), "Force (N)": 360 * np.cos(6 * t) + 140}
    (sweep,) = sweeps(*(",".join([name, *(f"{v:.3f}" for v in x)]) for name, x in columns.items()), "")
    assert (sweep.samples, sweep.rate) == (6000, pytest.approx(500))
    assert sweep.channels["force"].max() == pytest.approx(500, rel=1e-4)


@pytest.mark.parametrize(
    "line", ["Shock KR-4,Rebound 9 clicks,Compression 6 clicks", "Shock KR-4,comp 6,reb 9", "Shock KR-4,P2,C6,R9"]
)
@pytest.mark.parametrize("more", [",Temp (C)", ""])
def test_a_line_of_settings_right_above_the_names_is_of_the_run(line, more):
    rows = [f"{v},{2 * v + 50},{3 * v + 80}{',30' if more else ''}" for v in SPEEDS]
    (sweep,) = sweeps(line, f"Speed (mm/s),Comp (N),Reb (N){more}", *rows)
    assert (sweep.shock, sweep.clicks, sweep.samples) == ("KR-4", {"c": 6, "r": 9}, 8)
