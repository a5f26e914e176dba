"""Keys that stand in the first row of their group alone, as in joined cells: no row below is lost."""

from __future__ import annotations

import io

import numpy as np
import openpyxl
import pytest

from dynoan.reading import read_bytes
from tests.importers.making import F, T, X

ROWS = ("50,79,155", "100,198,377", "200,253,555")
NAMES = "Speed (mm/s),Comp (N),Reb (N)"


def sweeps(*lines: str):
    return read_bytes(("\n".join(lines) + "\n").encode(), "rig.csv")


def grouped(*keys: str) -> list[str]:
    return [f"{key if k == 0 else ''},{row}" for key in keys for k, row in enumerate(ROWS)]


@pytest.mark.parametrize(
    ("name", "one", "other"),
    [("LSR", "2", "8"), ("Clicks", "2", "8"), ("Run", "1", "2"), ("Shock", "A1", "A2"), ("Setting", "C2 R4", "C6 R8")],
)
def test_rows_below_a_key_are_of_it(name, one, other):
    first, second = sweeps(f"{name},{NAMES}", *grouped(one, other))
    assert [s.samples for s in (first, second)] == [6, 6]
    assert (dict(first.clicks), first.shock) != (dict(second.clicks), second.shock) or name == "Run"
    assert not any("left out" in said for s in (first, second) for said in s.warnings)


def test_a_direction_over_its_rows():
    rows = ["Compression,50,79", ",100,198", ",200,253", "Rebound,50,125", ",100,305", ",200,456"]
    (sweep,) = sweeps("Direction,Speed (mm/s),Force (N)", *rows)
    assert sorted(sweep.channels["force"]) == [-456, -305, -125, 79, 198, 253]


def test_a_run_over_both_directions():
    rows = [
        "2,Comp,50,79",
        ",,100,198",
        ",Reb,50,125",
        ",,100,305",
        "8,Comp,50,70",
        ",,100,180",
        ",Reb,50,99",
        ",,100,210",
    ]
    first, second = sweeps("LSR,Direction,Speed (mm/s),Force (N)", *rows)
    assert (first.clicks["lsr"], second.clicks["lsr"]) == (2, 8)
    assert sorted(first.channels["force"]) == [-305, -125, 79, 198]
    rows = ["2,50,79", ",100,198", ",-50,-125", ",-100,-305", "8,50,70", ",100,180", ",-50,-99", ",-100,-210"]
    assert [s.samples for s in sweeps("LSR,Speed (mm/s),Force (N)", *rows)] == [4, 4]


def test_one_row_without_its_key():
    (sweep,) = sweeps(f"LSR,{NAMES}", f"2,{ROWS[0]}", f",{ROWS[1]}", f"2,{ROWS[2]}")
    assert (sweep.samples, dict(sweep.clicks)) == (6, {"lsr": 2})


def test_a_run_that_starts_anew_without_a_key_is_of_none_above_and_is_told():
    first, second = sweeps(f"LSR,{NAMES}", *(f"2,{row}" for row in ROWS), *(f",{row}" for row in ROWS))
    assert (dict(first.clicks), dict(second.clicks)) == ({"lsr": 2}, {})
    assert [s.samples for s in (first, second)] == [6, 6]
    assert any("3 rows have nothing under 'LSR'" in said for said in second.warnings)


def test_a_record_named_in_its_first_row():
    rows = [
        f"{'7' if k == 0 else ''},{t:.3f},{1e3 * x:.3f},{f:.1f}"
        for k, (t, x, f) in enumerate(zip(T, X, F, strict=True))
    ]
    (sweep,) = sweeps("LSR,Time (s),Disp (mm),Force (N)", *rows)
    assert dict(sweep.clicks) == {"lsr": 7}
    np.testing.assert_allclose(sweep.channels["force"], F, atol=0.06)


def test_joined_cells_of_a_workbook():
    book = openpyxl.Workbook()
    sheet = book.active
    sheet.append(["LSC", "Speed (mm/s)", "Comp (N)", "Reb (N)"])
    for clicks in (2, 8):
        for k, row in enumerate(ROWS):
            sheet.append([clicks if k == 0 else None, *map(int, row.split(","))])
    sheet.merge_cells("A2:A4")
    sheet.merge_cells("A5:A7")
    held = io.BytesIO()
    book.save(held)
    assert [(dict(s.clicks), s.samples) for s in read_bytes(held.getvalue(), "rig.xlsx")] == [
        ({"lsc": 2}, 6),
        ({"lsc": 8}, 6),
    ]
