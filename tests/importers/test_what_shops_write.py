"""Names, days, boxes and lists as shops write them into files and workbooks: each is taken or told."""

from __future__ import annotations

import io

import numpy as np
import openpyxl
import pytest

from dynoan.reading import read_bytes
from importers.stated import facts_of_lines
from tests.importers.making import F, T, X

PEAKS = ("Speed mm/s,Comp N,Reb N", "50,79,125", "100,198,305", "200,253,456")


def sweeps(*lines: str, name: str = "rig.csv"):
    return read_bytes(("\n".join(lines) + "\n").encode(), name)


def workbook(**sheets: list) -> bytes:
    book = openpyxl.Workbook()
    book.remove(book.active)
    for title, rows in sheets.items():
        sheet = book.create_sheet(title.replace("_", " "))
        for row in rows:
            sheet.append(row)
    held = io.BytesIO()
    book.save(held)
    return held.getvalue()


def peaks(*above: list, factor: float = 1) -> list:
    rows = [[50, 79, 125], [100, 198, 305], [200, 253, 456]]
    return [*above, ["Speed mm/s", "Comp N", "Reb N"], *([v, factor * c, factor * r] for v, c, r in rows)]


@pytest.mark.parametrize(
    ("line", "shock", "pack"),
    [
        ('Shock,"Ö-Rear, left"', "Ö-Rear, left", None),
        ("Shock/Pack: RR-3 / Gravel soft", "RR-3", "Gravel soft"),
        ("Shock: LB", "LB", None),
        ("Shock: IN", "IN", None),
        ("Ventilsatz: Schotter", None, "Schotter"),
        ("Rear shock, rebound force [N] at clicks from closed", None, None),
    ],
)
def test_names(line, shock, pack):
    found = facts_of_lines([line])
    assert (found.shock, found.pack) == (shock, pack)
    assert not found.warnings


def test_a_shock_called_like_a_unit_is_told():
    assert "'Shock: mm' is a unit" in " | ".join(facts_of_lines(["Shock: mm"]).warnings)


@pytest.mark.parametrize(
    ("line", "date"),
    [
        ("Dyno session 2026-05-12", "2026-05-12"),
        ("2026-05-12 run 3 of the day", "2026-05-12"),
        ("Calibrated 2025-01-01", None),
        ("one of 2026-05-12, one of 2026-05-13", None),
    ],
)
def test_the_day_of_a_title(line, date):
    assert facts_of_lines(["Damper test", line]).date == date


@pytest.mark.parametrize(("line", "warm"), [("Tested 6/21/2026 at 85 F", 29.444), ("Tested at 24 °C", 24)])
def test_how_warm_it_was_tested(line, warm):
    assert facts_of_lines([line]).temperature == pytest.approx(warm, abs=0.01)


@pytest.mark.parametrize(
    ("line", "removed"),
    [
        ("Forces without gas", True),
        ("Kräfte ohne Gas", True),
        ("Forces incl. gas", False),
        ("without gas bottle", None),
    ],
)
def test_gas_in_the_forces(line, removed):
    assert facts_of_lines([line]).gas_removed is removed


def test_titles_of_one_letter_beside_named_forces_are_clicks():
    rows = ["A1;3;4;50;95;145", ";;;100;237;353", "A2;6;7;50;85;130", ";;;100;213;317"]
    first, second = sweeps("Shock;C;R;Speed mm/s;Comp N;Reb N", *rows)
    assert (first.shock, dict(first.clicks)) == ("A1", {"c": 3, "r": 4})
    assert (second.shock, dict(second.clicks)) == ("A2", {"c": 6, "r": 7})
    assert (first.samples, second.samples) == (4, 4)


def test_signs_behind_units_in_one_bracket():
    rows = [f"{t:.3f},{1e3 * x:.3f},{-f:.1f}" for t, x, f in zip(T, X, F, strict=True)]
    (sweep,) = sweeps('Time (s),"Pos (mm, bump +)","Load (N, tension +)"', *rows)
    np.testing.assert_allclose(sweep.channels["force"], F, atol=0.06)
    assert sweep.channels["displacement"][100] == pytest.approx(X[100], abs=1e-5)


def test_a_sentence_about_units_is_no_line_of_titles():
    (sweep,) = sweeps("Speed in mm/s, forces in N, rebound as positive numbers.", "Speed,Comp,Reb", *PEAKS[1:])
    assert sorted(sweep.channels["force"]) == [-456, -305, -125, 79, 198, 253]


def test_where_a_title_says_that_its_clicks_are_counted_from():
    (sweep,) = sweeps("LSR (from open),Speed (mm/s),Comp (N),Reb (N)", *(f"2,{row}" for row in PEAKS[1:]))
    assert (dict(sweep.clicks), dict(sweep.counted)) == ({"lsr": 2}, {"lsr": "from soft"})


def test_marks_at_numbers_are_told():
    (sweep,) = sweeps(PEAKS[0], "50,79,125", "100,198*,305", "200,253,~456")
    assert sweep.samples == 6
    assert sweep.warnings == ("marks beside numbers were left out, the numbers kept: '198*', '~456'",)


def test_a_unit_in_one_cell_as_its_name_states_it():
    (sweep,) = sweeps(PEAKS[0], "50,79,125", "100,198 N,305", "200,253,456")
    assert sorted(sweep.channels["force"]) == [-456, -305, -125, 79, 198, 253]
    assert not sweep.warnings


def test_the_sum_of_two_cells_is_the_force():
    rows = [f"{t:.3f},{1e3 * x:.3f},{f / 2:.2f},{f / 2 + 1:.2f},{f + 1:.2f}" for t, x, f in zip(T, X, F, strict=True)]
    (sweep,) = sweeps("Time s,Pos mm,Cell A N,Cell B N,Sum N", *rows)
    np.testing.assert_allclose(sweep.channels["force"], F + 1, atol=0.02)


@pytest.mark.parametrize("kind", ["xlsx", "csv"])
def test_a_box_of_settings_beside_a_record(kind):
    box = [["Shock", "SB-8"], ["Comp clicks", 8], ["Reb clicks", 9], ["Max force N", 401]]
    rows = [[round(float(t), 3), round(1e3 * float(x), 3), round(float(f), 1)] for t, x, f in zip(T, X, F, strict=True)]
    every = [["Time s", "Disp mm", "Force N"], *rows]
    beside = [[*row, None, *(box[k] if k < len(box) else [])] for k, row in enumerate(every)]
    if kind == "xlsx":
        (sweep,) = read_bytes(workbook(Sheet1=beside), "rig.xlsx")
    else:
        wide = [[*row, *[None] * (6 - len(row))] for row in beside]
        (sweep,) = sweeps(*(",".join("" if c is None else str(c) for c in row) for row in wide))
    assert (sweep.shock, dict(sweep.clicks)) == ("SB-8", {"c": 8, "r": 9})
    np.testing.assert_allclose(sweep.channels["force"], F, atol=0.06)


def test_a_sheet_that_lists_the_settings_of_the_others():
    names = [["Run", "Shock", "Comp", "Reb"], [1, "LS-1", 4, 4], [2, "LS-1", 10, 5]]
    found = read_bytes(workbook(Settings=names, Run_1=peaks(), Run_2=peaks(factor=0.8)), "rig.xlsx")
    assert [(s.shock, dict(s.clicks)) for s in found] == [("LS-1", {"c": 4, "r": 4}), ("LS-1", {"c": 10, "r": 5})]


def test_a_sheet_without_motion_that_says_nothing_of_the_others_is_told():
    parts = [["No", "Comp", "Reb"], [7, 1, 2], [8, 3, 4]]
    (one,) = read_bytes(workbook(Springs=parts, Run_1=peaks()), "rig.xlsx")
    assert any("sheet 'Springs' holds no motion" in said for said in one.warnings)


def test_a_block_called_otherwise_than_its_sheet():
    both = [*peaks(["Front shock"]), [None], *peaks(["Rear shock"], factor=0.9)]
    front, rear = read_bytes(workbook(Front=both), "rig.xlsx")
    assert front.shock == "Front"
    assert rear.shock != "Front"
