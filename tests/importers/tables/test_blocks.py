"""Lines between the rows: notes, repeated headers, settings, torn rows, the header of another table."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from dynoan.errors import ReadError
from dynoan.model.importing import ReadOptions
from dynoan.reading import read_bytes
from importers.header import find_header
from importers.tables import read_tables
from importers.tables.blocks import split_blocks
from importers.tables.odd_lines import cut_lines, odd_lines
from importers.tables.pieces import MendedRow, OtherLines, PlainRows, pieces
from importers.tables.table import TableBody
from importers.tables.torn import TornLine, is_torn, torn_warnings
from tests.importers.making import grid_of, quick

NAMES = "Velocity [mm/s],Force [N],Temp [C]"
GRID = grid_of(3)


def body_of(lines, grid=GRID, end="\n") -> TableBody:
    header = find_header([NAMES.replace(",", grid.delimiter if grid.delimiter != "blanks" else "  ")], grid, "1 2 3")
    return TableBody((end.join(lines) + end).encode(), header, grid, first_line=2, file="rig.csv", code="utf-8")


def rows(n, start=0):
    return [f"{10 * i},{20 * i},{30}" for i in range(start, start + n)]


OTHERS = ["", "Page 2", "-- end of run --", "Checked by the team"]


@quick
@given(st.lists(st.sampled_from(["row", *OTHERS]), max_size=40), st.sampled_from(["\n", "\r\n"]))
def test_no_row_is_lost_and_none_is_made(kinds, end):
    lines = [f"{i},{2 * i},{3 * i}" if kind == "row" else kind for i, kind in enumerate(["row", *kinds])]
    split = split_blocks(body_of(lines, end=end))
    got = b"".join(block.data for block in split.blocks).decode().split()
    assert got == [line for line in lines if line not in OTHERS]
    assert split.rest is None


@quick
@given(st.lists(st.booleans(), min_size=1, max_size=30))
def test_only_odd_lines_are_looked_at_and_the_pieces_are_in_order(plain):
    lines = [f"{i},1,2" if ok else f"{i},OVER,2" for i, ok in enumerate(plain)]
    cut = cut_lines(body_of(lines))
    odd = odd_lines(cut)
    assert [not o for o in odd] == plain
    found = []
    for piece in pieces(cut, odd):
        assert isinstance(piece, PlainRows | MendedRow)
        data = cut.raw(piece.start, piece.stop) if isinstance(piece, PlainRows) else piece.data
        found += [int(line.split(",")[0]) for line in data.decode().splitlines()]
    assert found == list(range(len(plain)))


def test_missing_values_are_written_so_that_they_are_known_and_counted():
    cut = cut_lines(body_of(["1,OVER,3", "2,n/a,4"]))
    assert list(pieces(cut, odd_lines(cut))) == [MendedRow(b"1,,3\n", 1), MendedRow(b"2,,4\n", 0)]
    blanks = grid_of(3, "blanks")
    cut = cut_lines(body_of(["1 OVER 3"], blanks))
    assert list(pieces(cut, odd_lines(cut))) == [MendedRow(b"1 NaN 3\n", 1)]


def test_lines_next_to_one_another_are_one_piece_without_blank_ones():
    cut = cut_lines(body_of(["1,2,3", "Page 2", "", "of 3", "4,5,6"]))
    assert [p for p in pieces(cut, odd_lines(cut)) if isinstance(p, OtherLines)] == [
        OtherLines((1, 3), ("Page 2", "of 3"))]  # fmt: skip


def test_a_row_of_empty_cells_is_a_row_without_values():
    (table,) = tables_of(f"{NAMES}\n1,2,3\n,,\n4,5,6\n")
    np.testing.assert_array_equal(table.values[1], [2, np.nan, 5])


def test_a_repeated_header_breaks_a_block_and_is_no_note():
    split = split_blocks(body_of([*rows(5), NAMES, *rows(5)]))
    (block,) = split.blocks
    assert [(b.row, b.lines) for b in block.breaks] == [(5, ())]


def test_a_note_breaks_a_block_and_is_kept():
    (block,) = split_blocks(body_of([*rows(5), "Run 2", *rows(5)])).blocks
    assert [(b.row, b.lines) for b in block.breaks] == [(5, ("Run 2",))]


@pytest.mark.parametrize("line", ["LSC 4 LSR 8", "Shock: FL-03"])
def test_a_setting_between_rows_starts_a_block_of_its_own(line):
    first, second = split_blocks(body_of([*rows(3), line, *rows(4)])).blocks
    assert (first.lines, second.lines) == ((), (line,))
    assert (first.first_line, second.first_line) == (2, 6)
    assert (first.data.count(b"\n"), second.data.count(b"\n")) == (3, 4)


def test_another_header_is_where_another_table_starts():
    lines = [*rows(4), "Time [s],Displacement [mm]", "0.1,5", "0.2,6"]
    split = split_blocks(body_of(lines))
    assert split.rest == len("\n".join(lines[:4])) + 1


@pytest.mark.parametrize(
    ("text", "torn"),
    [("1,2", True), ("5", True), ("1,2,abc", True), ("End", False), ("LSC 4", False), ("# 1,2", False),
     ("x,y,z1", False), ("1,2,3,4", True), ("Page 7", False)],
)  # fmt: skip
def test_a_line_is_torn_where_it_holds_numbers_but_is_no_row(text, torn):
    assert is_torn(text, GRID, below_header=False) is torn


def test_a_lone_number_beside_a_repeated_header_is_a_page():
    assert not is_torn("5", GRID, below_header=True)


@pytest.mark.parametrize(
    ("torn", "rows_there", "refused"),
    [(1, 49, True), (1, 50, False), (3, 60, False), (4, 60, True), (4, 400, False), (5, 400, True)],
)
def test_few_torn_lines_of_a_long_table_may_be_left_out(torn, rows_there, refused):
    lines = cut_lines(body_of(rows(500)))
    found = [TornLine(at, "1,2") for at in range(10, 10 + torn)]
    if refused:
        with pytest.raises(ReadError, match="line 12: found '1,2', wanted 3 cells of numbers; mend the line"):
            torn_warnings(found, lines, rows_there)
    else:
        said = torn_warnings(found, lines, rows_there)
        assert said == (f"{torn} torn lines were left out, the first is line 12",)


def test_the_last_line_may_always_be_torn():
    lines = cut_lines(body_of([*rows(5), "7,8"]))
    assert torn_warnings([TornLine(5, "7,8")], lines, 5) == ("line 7, the last, is no full row and was left out",)


def test_another_decimal_mark_in_a_torn_line_is_said():
    lines = cut_lines(body_of(rows(500)))
    with pytest.raises(ReadError, match="give --decimal ','"):
        torn_warnings([TornLine(9, "1;2,5")], cut_lines(body_of(rows(500), grid_of(3, ";"))), 500)
    assert torn_warnings([], lines, 500) == ()


def tables_of(text: str, **options):
    return read_tables(text.encode(), "rig.csv", ReadOptions(**options))


def test_two_tables_of_one_file_share_what_stands_above_the_first():
    text = f"Shock: FL-03\n{NAMES}\n" + "\n".join(rows(4)) + "\nTime [s],Displacement [mm]\n0.1,5\n0.2,6\n0.3,7\n"
    first, second = tables_of(text)
    assert (first.shared, second.shared) == (("Shock: FL-03",),) * 2
    assert (first.rows, second.rows) == (4, 3)
    np.testing.assert_array_equal(second.values[1], [5, 6, 7])


def test_a_header_that_no_rows_follow_is_a_line_below():
    text = f"{NAMES}\n" + "\n".join(rows(4)) + "\nTime [s],Displacement [mm]\n"
    (table,) = tables_of(text)
    assert (table.rows, table.shared) == (4, ("Time [s],Displacement [mm]",))


@pytest.mark.parametrize("n", [2, 3, 50])
def test_line_numbers_are_those_of_the_file(n):
    (table,) = tables_of("\n" * 3 + f"Run\n{NAMES}\n" + "\n".join(rows(n)) + "\n")
    assert table.first_line == 6


def test_lines_below_the_rows_hold_for_the_file():
    (table,) = tables_of(f"{NAMES}\n" + "\n".join(rows(4)) + "\n\nGas pressure: 8 bar\nEnd\n")
    assert table.shared == ("Gas pressure: 8 bar", "End")
    assert table.rows == 4


def test_cells_beyond_the_range_are_counted_in_a_plain_body():
    (table,) = tables_of(f"{NAMES}\n" + "\n".join(rows(4)) + "\n5,OVER,1\n6,7,8\n")
    assert table.over == 1


def test_clock_times_become_seconds():
    (table,) = tables_of("Time;Force [N];Weg [mm]\n10:00:00.0;1;5\n10:00:00.5;2;6\n10:00:01.0;3;7\n")
    np.testing.assert_allclose(table.values[0], [0, 0.5, 1.0])
    assert table.columns[0].unit == "s"


@pytest.mark.parametrize(("text", "said"), [
    ("a word\n" * 5, "no table of numbers in its first lines .line 1 begins 'a word'"),
    (NAMES + "\n", "named but no rows of numbers follow"),
    (",".join("1" * 401) + "\n" + ",".join("2" * 401) + "\n", "no table of numbers"),
])  # fmt: skip
def test_text_without_a_table_is_refused(text, said):
    with pytest.raises(ReadError, match=f"^rig.csv: .*{said}"):
        tables_of(text)


@quick
@given(st.text(st.sampled_from("0123456789.,;- \n\tabNFs[]#:"), max_size=300))
def test_any_text_is_tables_or_a_refusal_of_one_line(text):
    refusal, tables = "", []
    try:
        tables = tables_of(text)
    except ReadError as error:
        refusal = str(error)
    assert "\n" not in refusal
    assert refusal.startswith("rig.csv") or all(len(x) == t.rows for t in tables for x in t.values.values())


def _runs(text: str):
    return read_bytes(f"Velocity [m/s],Compression [N],Rebound [N]\n{text}".encode(), "blocks.csv")


PEAKS = "0.05,{0},420\n0.1,480,700\n0.2,700,1010\n"


@pytest.mark.parametrize("mark", [",", ": ", ",,", ";"])
def test_a_setting_below_the_rows_is_theirs(mark):
    (sweep,) = _runs(f"{PEAKS.format(300)}\nShock{mark}FT-21\nComp clicks{mark}4\nReb clicks{mark}9\n")
    assert (sweep.shock, sweep.clicks, sweep.samples) == ("FT-21", {"c": 4, "r": 9}, 6)


@pytest.mark.parametrize("above", ["", "Shock: A-1\n"])
def test_settings_below_the_rows_of_several_runs_are_of_the_rows_above_them(above):
    text = "\n".join(f"{PEAKS.format(100 * k)}\nComp clicks,{k}\n" for k in (2, 3, 4))
    sweeps = read_bytes(f"{above}Velocity [m/s],Compression [N],Rebound [N]\n{text}".encode(), "blocks.csv")
    assert {s.clicks["c"]: float(s.channels["force"][s.channels["force"] > 0].min()) for s in sweeps} == {
        2: 200.0, 3: 300.0, 4: 400.0
    }  # fmt: skip
    assert "settings stand below the rows" in sweeps[0].warnings[0]


def test_settings_above_the_rows_of_several_runs_are_of_the_rows_below_them():
    sweeps = _runs("\n".join(f"Comp clicks,{k}\n{PEAKS.format(100 * k)}" for k in (2, 3)) + "\nDate,2026-05-05\n")
    assert [(s.clicks["c"], s.date) for s in sweeps] == [(2, "2026-05-05"), (3, "2026-05-05")]
