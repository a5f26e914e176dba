"""Tables of whatever stands in people's files: nothing lost, nothing wider than the screen, never long to make."""

from __future__ import annotations

import csv
import io
import time

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from dynoan.show.text import tables
from dynoan.show.text.widths import across, one_line, spread, wrapped

FEW = settings(max_examples=60, deadline=None)
SEEN = st.text(st.characters(codec="utf-8", exclude_categories=["Cc", "Cf", "Cs", "Zl", "Zp", "Zs"]) | st.just(" "),
               max_size=14).map(lambda t: " ".join(t.split()))  # fmt: skip
WORD = st.sampled_from(["gravel", "12.5", "-3", "12 ± 4", "日本", "e\u0301", "knee", "–", "12 ± 4 N s/m"])
WORDS = st.lists(WORD, max_size=4).map(" ".join)


def grids(cell: st.SearchStrategy[str]) -> st.SearchStrategy[list[list[str]]]:
    """One to four columns, head and rows."""
    return st.integers(1, 4).flatmap(lambda n: st.lists(st.lists(cell, min_size=n, max_size=n), min_size=1, max_size=5))


@FEW
@given(grids(SEEN))
def test_plain_text_is_one_line_a_row_with_every_cell_whole(grid):
    head, *rows = grid
    lines = tables.plain_text(head, rows).split("\n")
    assert len(lines) == len(rows) + 3  # head, rule, rows, and what follows the last line's end
    for row, line in zip(rows, lines[2:], strict=False):
        at = 0
        for cell in row:
            at = line.index(cell, at) + len(cell)


@FEW
@given(grids(WORDS), st.integers(40, 120))
def test_fitted_text_is_no_wider_than_the_screen_and_keeps_every_word(grid, width):
    head, *rows = grid
    text = tables.fitted_text(head, rows, "", width)
    assert max(map(across, text.split("\n"))) <= width
    wanted = [word for row in [head, *rows] for cell in row for word in cell.split()] if rows else []
    for word in set(wanted):
        assert text.count(word) >= wanted.count(word)


@FEW
@given(st.text(max_size=60), st.integers(1, 40))
def test_wrapping_keeps_every_word_in_order(text, width):
    assert "".join("".join(wrapped(text, width)).split()) == "".join(text.replace("\u2060", " ").split())
    assert spread(text, 10_000) == text


@FEW
@given(st.text(max_size=40))
def test_no_text_of_a_file_steers_a_terminal(text):
    shown = one_line(text)
    assert shown.isprintable()
    assert len(shown) == len(text)


def test_marks_without_width_are_shown_on_a_narrow_screen_too():
    text = tables.fitted_text(["a" * 30, "b"], [["\u0301", "x y z"]], "", 20)
    assert "\u0301" in text


@pytest.mark.parametrize(
    "cell", ["1" + " " * 20_000 + "x", "1" * 20_000 + "x", "1 " * 10_000 + "x", "1" + " (" * 9_000, "1 ±" * 6_000 + "x"]
)
def test_a_long_remark_does_not_hold_a_table_up(cell):
    start = time.process_time()
    assert tables.numeric_columns(["remarks"], [[cell]]) == [False]
    assert time.process_time() - start < 1.0


@pytest.mark.parametrize("cell", ["12", "-12.5", "+3", "−3", "1 234", "1e-5", "12 ± 3", "0.4 (0.3–0.5)", "12 %",
                                  "20 °C",
                                  "1 .. 2", "1..2", "3 to 4", "5*", "± 2"])  # fmt: skip
def test_a_number_with_its_doubt_is_a_number(cell):
    assert tables.numeric_columns(["a"], [[cell], ["–"], [""]]) == [True]


@pytest.mark.parametrize("cell", ["RL-02", "12 N x", "lsc=6", "2026-05-02 (wet)", "e5", "nan"])
def test_a_name_is_none(cell):
    assert tables.numeric_columns(["a"], [["12"], [cell]]) == [False]


def test_a_column_of_dashes_alone_is_no_column_of_numbers():
    assert tables.numeric_columns(["a", "b"], [["–", "1"], ["", "–"]]) == [False, True]


def test_a_row_that_is_too_short_is_an_error_and_not_a_shifted_table():
    with pytest.raises((ValueError, IndexError)):
        tables.plain_text(["a", "b"], [["1"]])


@FEW
@given(grids(st.text(st.characters(codec="utf-8", exclude_characters="\r\0"), max_size=10)))
def test_csv_reads_back_whatever_stands_in_it(grid):
    head, *rows = grid
    read = list(csv.reader(io.StringIO(tables.csv_text(head, rows), newline="")))
    assert [row or [""] for row in read] == grid
