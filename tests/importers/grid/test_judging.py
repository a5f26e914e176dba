"""Delimiter and decimal mark are judged right on generated tables, and none is seen in prose."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from importers.grid import BLANKS, detect_grid, fixed_spans
from importers.grid.fixed_width import as_tabs, first_fixed_row, tabbed
from tests.importers.making import grid_of, quick

SPACES = [(d, p) for d in (";", "\t", "|", ",", " ", "   ") for p in ".," if d != p]
TABLES = st.integers(2, 7).flatmap(
    lambda width: st.lists(
        st.lists(st.decimals(-9999, 9999, places=2).map(float), min_size=width, max_size=width), min_size=4, max_size=10
    )
)


def lines_of(table, delimiter, decimal, form="{:.2f}"):
    return tuple(delimiter.join(form.format(x).replace(".", decimal) for x in row) for row in table)


@quick
@given(TABLES, st.sampled_from(SPACES))
def test_the_grid_of_a_table_is_found(table, spaces):
    delimiter, decimal = spaces
    grid = detect_grid(lines_of(table, delimiter, decimal))
    assert (grid.delimiter, grid.decimal, grid.width) == (delimiter if delimiter.strip(" ") else BLANKS, decimal,
                                                          len(table[0]))  # fmt: skip
    assert grid.numeric == (True,) * len(table[0])
    assert grid.thousands == ""


@quick
@given(TABLES, st.sampled_from(SPACES), st.sampled_from(["Run 3", "Force [N]; Weg [mm]", "# 1, 2, 3", ""]))
def test_lines_above_and_below_do_not_change_it(table, spaces, other):
    lines = lines_of(table, *spaces)
    assume(spaces[1] != "," or "," not in other)  # beside decimal commas, a list of numbers reads as cells too
    assert detect_grid((other, *lines, other)) == detect_grid(lines)


@quick
@given(TABLES, st.sampled_from([(";", ",", "."), (";", ".", ","), ("\t", ".", "'"), ("|", ",", " ")]))
def test_marks_that_group_digits_are_found_where_they_stand(table, spaces):
    delimiter, decimal, group = spaces
    table = [[x + 20_000 for x in row] for row in table]
    lines = tuple(delimiter.join(f"{x:,.2f}".replace(",", "§").replace(".", decimal).replace("§", group) for x in row)
                  for row in table)  # fmt: skip
    grid = detect_grid(lines)
    assert (grid.delimiter, grid.decimal, grid.thousands) == (delimiter, decimal, group)


@quick
@given(TABLES, st.sampled_from([d for d, p in SPACES if p == "." and d.strip(" ")]))
def test_what_the_user_states_is_not_judged(table, delimiter):
    lines = lines_of(table, delimiter, ".")
    grid = detect_grid(lines, delimiter=delimiter, decimal=".")
    assert (grid.delimiter, grid.decimal, grid.width) == (delimiter, ".", len(table[0]))


@quick
@given(TABLES, st.data())
def test_missing_cells_are_part_of_the_table(table, data):
    rows = [line.split(";") for line in lines_of(table, ";", ".")]
    for row in rows[1:-1]:
        row[data.draw(st.integers(0, len(row) - 1))] = data.draw(st.sampled_from(["", "NaN", "---", "OVER"]))
    grid = detect_grid(tuple(";".join(row) for row in rows))
    if len(table[0]) > 2:  # of two cells one number is no row
        assert (grid.delimiter, grid.width) == (";", len(table[0]))
        assert all(grid.is_row(grid.cells(";".join(row))) for row in rows)


@quick
@given(TABLES)
def test_a_column_of_words_is_no_column_of_numbers(table):
    lines = tuple(f"gravel;{line}" for line in lines_of(table, ";", ","))
    assert detect_grid(lines).numeric == (False, *[True] * len(table[0]))


@pytest.mark.parametrize(
    ("cells", "decimal"),
    [
        (["640", "910", "1.150", "1.420"], ","),  # three digits behind a mark, and whole numbers below: thousands
        (["0.640", "0.910", "1.150", "1.420"], "."),
        (["1.150", "1.420", "1.777", "2.310"], "."),
        (["640", "910", "1,150", "1,420"], "."),
        (["0,640", "0,910", "1,150", "1,420"], ","),
    ],
)
def test_a_mark_before_three_digits_is_decimal_unless_whole_numbers_stand_beside_it(cells, decimal):
    assert detect_grid(tuple(f"{100 * i};{c};{c}" for i, c in enumerate(cells, 1))).decimal == decimal


def test_quoted_cells_may_hold_the_delimiter():
    grid = detect_grid(tuple(f'{i},"1,{i}00.5","2,{i}00.5"' for i in range(1, 9)))
    assert (grid.delimiter, grid.decimal, grid.thousands, grid.quoted) == (",", ".", ",", True)


@pytest.mark.parametrize("lines", [(), ("",), ("The shock was soft.", "So was the other."), ("1", "2", "3"),
                                   ("a;b;c", "d;e;f")])  # fmt: skip
def test_no_table_is_none(lines):
    assert detect_grid(lines) is None


def test_the_words_of_a_grid_name_its_marks():
    assert grid_of(3, ";", ",", thousands=".").words == (
        "semicolon between cells, decimal comma, thousands marked by '.'"
    )
    assert grid_of(3, BLANKS).words == "runs of blanks between cells, decimal point"


@pytest.mark.parametrize(("cells", "row"), [(["1", "2", "3"], True), (["1", "", "NaN"], True), (["", "", ""], False),
                                            (["1", "2"], False), (["1", "2", "z"], False),
                                            (["1", "2", "3", "4"], False)])  # fmt: skip
def test_a_row_has_all_cells_and_a_number(cells, row):
    assert grid_of(3).is_row(cells) is row


def test_empty_cells_beyond_the_width_are_dropped():
    assert grid_of(3).cells("1,2,3,,") == ["1", "2", "3"]
    assert grid_of(3).cells("1,2,,,") == ["1", "2", ""]


FIXED = st.lists(
    st.lists(st.none() | st.integers(-999, 999), min_size=3, max_size=3).filter(lambda r: r.count(None) < 2),
    min_size=5, max_size=10,
)  # fmt: skip


@quick
@given(FIXED)
def test_blank_cells_of_fixed_width_text_stay_blank(rows):
    rows = [[100, 200, 300], *rows, [-1, None, 333]]
    lines = ["".join(f"{'' if c is None else c:>8}" for c in row) for row in rows]
    grid = grid_of(3, BLANKS)
    spans = fixed_spans(lines, grid)
    assert len(spans) == 3
    wide = tabbed(grid, spans)
    text = as_tabs("\n".join(lines).encode(), spans, "utf-8").decode()
    got = [wide.cells(line) for line in text.splitlines()]
    assert got == [["" if c is None else str(c) for c in row] for row in rows]


@quick
@given(TABLES)
def test_full_rows_of_any_width_are_no_fixed_width_text(table):
    assert fixed_spans(lines_of(table, "  ", "."), grid_of(len(table[0]), BLANKS)) == ()


def test_rows_fuller_than_most_belong_to_the_table():
    lines = ["Time Force", "1 2 3", "4 5 6", "7 8"]
    assert first_fixed_row(lines, 3, grid_of(2, BLANKS)) == 1


def test_lines_that_are_no_rows_stay_as_they_are():
    text = as_tabs(
        b"  note of the day  \n  1   2\n", fixed_spans(["  1   2", "  1", "  3   4"], grid_of(2, BLANKS)), "utf-8"
    )
    assert text.decode().splitlines()[0] == "note of the day"


def test_the_grid_of_a_long_head_is_that_of_its_end():
    preamble = tuple(f"note;{i};of;the;day" for i in range(200))
    assert detect_grid((*preamble, *lines_of(np.ones((60, 2)), ",", "."))).delimiter == ","
