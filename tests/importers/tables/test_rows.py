"""Rows to arrays: numbers come back, and a body that is no plain table is never read as one."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from dynoan.errors import ReadError
from dynoan.reading import read_bytes
from importers.grid import BLANKS, CellGrid
from importers.tables.by_arrow import WantedColumns
from importers.tables.numbers import NotATable, parse_rows
from importers.tables.plain_rows import plain_rows
from importers.tables.upright import turned_upright
from tests.importers.making import grid_of, quick

TABLES = st.integers(2, 5).flatmap(
    lambda width: st.lists(st.lists(st.floats(-1e9, 1e9), min_size=width, max_size=width), min_size=1, max_size=12)
)


def everything(grid: CellGrid) -> WantedColumns:
    return WantedColumns(tuple(range(grid.width)))


@quick
@given(
    TABLES, st.sampled_from([";", "\t", "|", ",", BLANKS]), st.sampled_from([".", ","]), st.sampled_from(["\n", "\r\n"])
)
def test_numbers_come_back_exactly(table, mark, decimal, eol):
    if mark == decimal:
        mark = ";"
    gap = "   " if mark == BLANKS else mark
    data = eol.join(gap.join(repr(x).replace(".", decimal) for x in row) for row in table) + eol
    grid = grid_of(len(table[0]), mark, decimal)
    body = parse_rows(data.encode(), grid, everything(grid))
    assert body.rows == len(table)
    np.testing.assert_array_equal(np.column_stack([body.values[i] for i in range(grid.width)]), table)


def test_only_wanted_columns_are_parsed():
    body = parse_rows(b"1,x,3\n4,y,6\n", grid_of(3), WantedColumns((2,), (1,)))
    assert body.values.keys() == {2}
    assert body.texts == {1: ["x", "y"]}


@pytest.mark.parametrize("cell", ["", "NaN", "nan", "---", "OVER", "#N/A", "null"])
def test_missing_cells_are_nan(cell):
    body = parse_rows(f"1,{cell}\n2,5\n".encode(), grid_of(2), everything(grid_of(2)))
    np.testing.assert_array_equal(body.values[1], [np.nan, 5.0])


@pytest.mark.parametrize("cell", ["1e999", "-1e999", "inf"])
def test_a_number_beyond_any_double_is_missing(cell):
    body = parse_rows(f"1,{cell}\n2,5\n".encode(), grid_of(2), everything(grid_of(2)))
    np.testing.assert_array_equal(body.values[1], [np.nan, 5.0])


@pytest.mark.parametrize("data", ["1,2\n3\n", "1,2\n3,4,5\n", "1,2\n3,abc\n", "1,2\nEnd of test\n"])
def test_a_line_that_is_no_row_is_not_a_table(data):
    with pytest.raises(NotATable):
        parse_rows(data.encode(), grid_of(2), everything(grid_of(2)))


def test_words_of_a_western_code_page_come_back():
    body = parse_rows("Dämpfer,2\n".encode("cp1252"), grid_of(2), WantedColumns((1,), (0,)))
    assert body.texts[0] == ["Dämpfer"]


@quick
@given(
    st.lists(st.lists(st.sampled_from(["1", "-2.5", "30"]), min_size=3, max_size=3), min_size=1, max_size=9), st.data()
)
def test_runs_of_blanks_become_one(rows, data):
    gap = st.sampled_from([" ", "  ", "\t", " \t "])
    lead = st.sampled_from(["", " ", "\t"])
    lines = [data.draw(lead) + data.draw(gap).join(row) + data.draw(lead) for row in rows]
    plain = bytes(plain_rows(("\n".join(lines) + "\n").encode(), grid_of(3, BLANKS)))
    assert plain.decode() == "\n".join(" ".join(row) for row in rows) + "\n"


def test_marks_that_group_digits_are_taken_out_of_numbers_only():
    grid = grid_of(3, ";", ",", thousands=".")
    assert plain_rows(b"1.234,5;12.345.678;0,1\n", grid) == b"1234,5;12345678;0,1\n"
    quoted = CellGrid(",", ".", 2, (True, True), thousands=",", quoted=True)
    assert plain_rows(b'1,"1,234.5"\n', quoted) == b'1,"1234.5"\n'


@pytest.mark.parametrize(("cell", "number"), [('"1,007.52"', 1007.52), ('"12,345,678.9"', 12345678.9)])
def test_a_mark_that_the_sample_did_not_show_is_taken_for_what_it_must_be(cell, number):
    grid = CellGrid(",", ".", 2, (True, True), quoted=True)
    assert parse_rows(f'1,"2.5"\n2,{cell}\n'.encode(), grid, everything(grid)).values[1][1] == number


def test_three_digits_without_a_decimal_mark_behind_them_could_be_either():
    grid = grid_of(2, ";")
    with pytest.raises(NotATable):
        parse_rows(b"1;2.5\n2;1,007\n", grid, everything(grid))


QUANTITIES = st.lists(st.integers(10, 900), min_size=3, max_size=8, unique=True).map(sorted)


@quick
@given(QUANTITIES, st.sampled_from([";", "\t", "|"]), st.sampled_from(["", "Shock: FL-03"]))
def test_a_table_on_its_side_is_turned_upright(speeds, mark, title):
    lines = [title, mark.join(["Velocity [mm/s]", *map(str, speeds)]),
             mark.join(["Force [N]", *(str(3 * v) for v in speeds)])]  # fmt: skip
    upright = turned_upright(lines)
    want = [*filter(None, [title]), "Velocity [mm/s]\tForce [N]", *(f"{v}\t{3 * v}" for v in speeds), ""]
    assert upright == want


@pytest.mark.parametrize(
    "lines",
    [[], ["Velocity;1;2;3"], ["Velocity;1;2;3", "Force;1;2"], ["Velocity;1;2", "Force;1;2"], ["a;1;2;3", "b;1;2;3"],
     ["1;2;3;4", "5;6;7;8"], ["Force;1;2;3", "Force;1;2;3"], ["Velocity;1;2;3", "Force;1;2;3"] * 40],
)  # fmt: skip
def test_upright_tables_and_other_text_stay_as_they_are(lines):
    assert turned_upright(lines) is None


PEAKS = "Speed (mm/s),Comp (N),Reb (N)\n50,200,150\n100,300,{}\n200,400,350\n"


@pytest.mark.parametrize("cell", ["", "---", "n/a"])
def test_a_missing_peak_is_told(cell):
    (sweep,) = read_bytes(PEAKS.format(cell).encode(), "rig.csv")
    assert sweep.samples == 5
    assert sweep.warnings == ("1 of 6 forces are missing: no number stands there",)


def test_a_cell_that_is_no_number_is_refused_by_line_and_in_our_own_words():
    with pytest.raises(ReadError) as refused:
        read_bytes(PEAKS.format("--250").encode(), "rig.csv")
    assert str(refused.value) == "rig.csv, line 3: '--250' is no number; mend it or leave the cell empty"
