"""What a cell is: numbers in all spellings, missing values, words."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from importers.grid import BLANKS, CellGrid, is_missing, is_number, split_cells
from importers.grid.cells import MISSING, OVER
from importers.tables.by_arrow import WantedColumns
from importers.tables.numbers import parse_rows
from tests.importers.making import quick

NUMBERS = st.decimals(-10_000_000, 10_000_000, places=3).map(float)
#: marks that group digits, for each decimal mark
GROUPS = {".": ",'’ \u00a0\u202f", ",": ".'’ \u00a0\u202f"}


def spelled(number: float, decimal: str, group: str, plus: bool) -> str:
    text = f"{number:,.3f}".replace(",", "§").replace(".", decimal).replace("§", group)
    return "+" + text if plus and number > 0 else text


@quick
@given(NUMBERS, st.sampled_from(".,"), st.data(), st.booleans())
def test_a_number_in_any_spelling_is_a_number_and_is_read_as_itself(number, decimal, data, plus):
    group = data.draw(st.sampled_from(["", *GROUPS[decimal]]))
    cell = spelled(number, decimal, group, plus)
    assert is_number(cell, decimal)
    grid = CellGrid(";", decimal, 2, (True, True), thousands=group)
    body = parse_rows(f"{cell};{cell}\n".encode(), grid, WantedColumns((0, 1)))
    np.testing.assert_allclose([body.values[0][0], body.values[1][0]], number)


@quick
@given(st.floats(allow_nan=False, allow_infinity=False), st.sampled_from(".,"))
def test_scientific_numbers_are_read_as_themselves(number, decimal):
    cell = repr(number).replace(".", decimal)
    assert is_number(cell, decimal)
    body = parse_rows(f"{cell};0\n".encode(), CellGrid(";", decimal, 2, (True, True)), WantedColumns((0,)))
    np.testing.assert_array_equal(body.values[0], [number])


@pytest.mark.parametrize("decimal", [".", ","])
@pytest.mark.parametrize("cell", ["", "-", "1.2.3", "1,2,3", "12 mm", "1e", "e5", "--1", "0x10", "1_000", "NaN", "."])
def test_other_cells_are_no_numbers(cell, decimal):
    assert not is_number(cell, decimal)


@pytest.mark.parametrize("cell", ["1.234.567", "1'234'567", "12 345"])
def test_digits_in_threes_are_one_number_with_a_decimal_comma(cell):
    assert is_number(cell, ",")


@pytest.mark.parametrize("cell", ["1,23", "12,3456", "1'23"])
def test_digits_not_in_threes_are_no_number(cell):
    assert not is_number(cell, ".")


@pytest.mark.parametrize("word", sorted(MISSING))
def test_words_for_no_value_are_missing_in_any_case(word):
    assert is_missing(word)
    assert is_missing(word.upper())


def test_beyond_the_range_is_missing_too():
    assert OVER < MISSING
    assert is_missing("")


@pytest.mark.parametrize("word", ["force", "run", "comp", "0", "-1", "gravel", "n"])
def test_words_and_numbers_are_not_missing(word):
    assert not is_missing(word)


CELLS = st.text(st.sampled_from("abc012.-+ÄöμN/[]"), min_size=1, max_size=8)


@quick
@given(st.lists(CELLS, min_size=2, max_size=8), st.sampled_from([";", "\t", "|", ","]), st.booleans())
def test_cells_come_back_with_and_without_quotes(cells, mark, quoted):
    line = mark.join(f'"{c}"' if quoted else f" {c} " for c in cells)
    assert split_cells(line, mark) == cells


@quick
@given(st.lists(CELLS, min_size=1, max_size=8), st.sampled_from([" ", "   ", "\t", " \t "]))
def test_cells_between_runs_of_blanks_come_back(cells, gap):
    assert split_cells(gap + gap.join(cells) + gap, BLANKS) == cells


def test_a_delimiter_within_quotes_is_part_of_a_cell():
    assert split_cells('1,"1,200.5",x', ",") == ["1", "1,200.5", "x"]


def test_an_open_quote_is_no_fault():
    assert split_cells('1,"2,3', ",")[0] == "1"
