"""Which lines above the rows are the header, however they are set."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from dynoan.model.importing import LayoutCard, ReadOptions
from importers.grid import BLANKS
from importers.header import find_header, names_columns, uncomment, with_layout
from importers.header.line_cells import header_cells
from tests.importers.making import grid_of, quick

NAMES = {"time": "Time", "displacement": "Travel", "velocity": "Speed", "force": "Load"}
UNITS = {"time": "s", "displacement": "mm", "velocity": "mm/s", "force": "lbf"}


@quick
@given(
    st.permutations(sorted(NAMES)), st.sampled_from([";", "\t", "|", ","]), st.sampled_from(["name", "row", "paren"])
)
def test_names_and_units_come_back_in_their_order(order, mark, put):
    form = {"name": "{n} [{u}]", "row": "{n}", "paren": "{n} ({u})"}[put]
    above = [mark.join(form.format(n=NAMES[c], u=UNITS[c]) for c in order)]
    above += [mark.join(UNITS[c] for c in order)] if put == "row" else []
    header = find_header(["Run of the day", "", *above], grid_of(4, mark))
    assert [c.channel for c in header.columns] == list(order)
    assert [c.unit for c in header.columns] == [UNITS[c] for c in order]
    assert header.preamble == ("Run of the day",)
    assert header.lines == {line.strip() for line in above}
    assert (header.found, header.cells, header.units_row) == (True, 4, put == "row")


@pytest.mark.parametrize("mark", ["# ", "% ", "// ", "! ", "rem ", "-- "])
def test_a_commented_header_is_a_header(mark):
    header = find_header([f"{mark}Time [s],Force [N]"], grid_of(2))
    assert [c.channel for c in header.columns] == ["time", "force"]
    assert uncomment(f"{mark}Time [s]") == "Time [s]"


def test_a_line_without_a_mark_is_left_as_it_is():
    assert uncomment("  Time [s]") == "  Time [s]"
    assert uncomment("-5.0,3.0") == "-5.0,3.0"


@pytest.mark.parametrize(
    "line", ["Time [s]   Disp [mm]   Force [N]", "Time[s] Disp[mm] Force[N]", "Time;Disp;Force", "Time, Disp, Force",
             "Time\tDisp\tForce"])  # fmt: skip
def test_a_header_over_blank_separated_rows_may_be_set_otherwise(line):
    header = find_header([line], grid_of(3, BLANKS), "0.0  1.0  2.0")
    assert [c.channel for c in header.columns] == ["time", "displacement", "force"]


def test_words_stand_over_their_columns():
    line, row = "   Time       Shaft speed   Load", "  0.000          120.0      450.0"
    assert header_cells(line, grid_of(3, BLANKS), row) == ["Time", "Shaft speed", "Load"]


def test_words_over_rows_of_another_width_are_no_cells():
    assert header_cells("Shock tested by the team today", grid_of(2, BLANKS), "1 2 3") == []


def test_a_header_wider_than_the_rows_is_none():
    assert header_cells("a,b,c,d", grid_of(3), "") == []
    assert header_cells("a,b,c,,", grid_of(3), "") == ["a", "b", "c"]


def test_groups_above_name_the_columns_below_them():
    header = find_header([";LSC 0;;LSC 8;", "Velocity [mm/s];Comp [N];Reb [N];Comp [N];Reb [N]"], grid_of(5, ";"))
    assert [c.clicks for c in header.columns] == [{}, {"lsc": 0}, {"lsc": 0}, {"lsc": 8}, {"lsc": 8}]
    assert [c.direction for c in header.columns][1:] == ["compression", "rebound"] * 2


def test_a_line_of_directions_below_the_names_is_part_of_them():
    header = find_header(["Velocity [mm/s];Force [N];Force [N]", ";Compression;Rebound"], grid_of(3, ";"))
    assert [(c.channel, c.direction) for c in header.columns] == [
        ("velocity", None), ("force", "compression"), ("force", "rebound")]  # fmt: skip


@pytest.mark.parametrize("base", [0, 1])
def test_columns_may_be_listed_in_the_preamble(base):
    lines = [f"Column {base}: Time [s]", f"Column {base + 1} = Force, N", f"Channel {base + 2}) Position [mm]"]
    header = find_header(lines, grid_of(3, ";"))
    assert [(c.channel, c.unit) for c in header.columns] == [("time", "s"), ("force", "N"), ("displacement", "mm")]
    assert header.cells == 0


def test_units_alone_name_what_they_can():
    header = find_header(["ms,mm,kN"], grid_of(3))
    assert [(c.channel, c.by_unit) for c in header.columns] == [("time", True), ("displacement", True), ("force", True)]


@pytest.mark.parametrize("above", [[], [""], ["The shock was soft."], ["12 of 20"]])
def test_no_header_is_said_so(above):
    header = find_header(above, grid_of(3))
    assert not header.found
    assert [c.text for c in header.columns] == ["", "", ""]


def test_only_lines_near_above_the_rows_are_a_header():
    far = ["Time [s],Force [N]", *[f"note {i}" for i in range(6)]]
    assert not find_header(far, grid_of(2)).found


def test_a_file_whose_rows_are_missing_still_names_columns():
    assert names_columns(["Time [s];Force [N]", ""])
    assert not names_columns(["Time [s]", "gravel;mixed"])


CARD = LayoutCard("old rig", ("Pos", "Ld"), columns={"force": "Ld"}, units={"force": "lbf"}, positive="rebound",
                  rate=250.0, delimiter=";", decimal=",")  # fmt: skip


@pytest.mark.parametrize("line", ["Pos;Ld", "clk; ld ;POS", "Pos;Ld;Temp"])
def test_a_layout_applies_where_a_line_holds_all_its_names(line):
    choice = with_layout(["Run 3", line, "1;2"], ReadOptions(layouts=(CARD,)))
    assert choice.layout == "old rig"
    assert (choice.options.positive, choice.options.rate, choice.options.decimal) == ("rebound", 250.0, ",")


@pytest.mark.parametrize("line", ["Pos;Load", "Pos,Ld", "Pos"])
def test_a_layout_leaves_other_files_alone(line):
    options = ReadOptions(layouts=(CARD,))
    assert with_layout([line], options) == (options, "text", options)


def test_a_layout_that_skips_lines_looks_at_one_line_only():
    card = LayoutCard("skipping", ("Pos", "Ld"), skip=1)
    assert with_layout(["x", "Pos,Ld"], ReadOptions(layouts=(card,))).layout == "skipping"
    assert with_layout(["Pos,Ld", "x"], ReadOptions(layouts=(card,))).layout == "text"


def test_the_user_wins_over_a_layout_in_everything():
    mine = ReadOptions(layouts=(CARD,), columns={"force": "Pos"}, units={"force": "N"}, positive="compression",
                       rate=100.0, delimiter=",", decimal=".")  # fmt: skip
    options = with_layout(["Pos;Ld"], mine).options
    assert options == mine


def test_words_between_two_columns_belong_to_the_one_they_stand_over():
    assert header_cells("abc  de    Z", grid_of(2, BLANKS), "1234567890 1") == ["abc de", "Z"]


def test_of_two_lines_that_name_the_same_the_lower_is_the_header():
    header = find_header(["Time [s];Force [N]", "Zeit [s];Kraft [N]"], grid_of(2, ";"))
    assert header.names == ("Zeit [s]", "Kraft [N]")
    assert header.preamble == ("Time [s];Force [N]",)
