"""Rows that leave out last columns which few rows fill: none is lost, wherever the fuller ones stand."""

from __future__ import annotations

import numpy as np
import pytest

from dynoan.errors import ReadError
from dynoan.reading import read_bytes
from tests.importers.making import F, T, X

NAMES = "Time (s),Disp (mm),Force (N),Temp (°C),Note"
ROWS = [f"{t:.3f},{1e3 * x:.3f},{f:.1f}" for t, x, f in zip(T, X, F, strict=True)]
PEAKS = ("50,200,150", "100,300,250", "200,400,350")


def only(*lines: str, end: str = "\n", mark: str = ","):
    (sweep,) = read_bytes((end.join(lines) + end).replace(",", mark).encode(), "rig.csv")
    return sweep


@pytest.mark.parametrize("at", [0, 10, 700, len(T) - 1])
@pytest.mark.parametrize(
    ("more", "names"), [(",40.5,start", NAMES), (",40.5", NAMES), (",40.5", NAMES[:-5]), (",,hm", NAMES)]
)
def test_a_row_with_more_cells_than_others_is_one_of_them(at, more, names):
    rows = [*ROWS]
    rows[at] += more
    sweep = only("Shock,RG-3", names, *rows)
    np.testing.assert_allclose(sweep.channels["force"], F, atol=0.06)
    assert sweep.temperature == (40.5 if "40" in more else None)
    assert not any("," in fact for fact in sweep.facts)


@pytest.mark.parametrize("mark", [",", ";", "\t"])
@pytest.mark.parametrize("end", ["\n", "\r\n"])
@pytest.mark.parametrize("at", [0, 1, 2])
def test_a_table_of_three_rows_keeps_each(at, end, mark):
    rows = [*PEAKS]
    rows[at] += ",31"
    sweep = only("Shock,A", "Speed (mm/s),Bump (N),Rebound (N),Temp (C)", *rows, end=end, mark=mark)
    assert sorted(sweep.channels["force"]) == [-350, -250, -150, 200, 300, 400]
    assert sweep.temperature == 31


def test_most_rows_full_and_some_short():
    rows = [f"{row},40,{k}" if k % 3 else row for k, row in enumerate(ROWS)]
    assert len(only(NAMES, *rows).channels["force"]) == len(T)


def test_a_remark_with_the_mark_in_quotes():
    sweep = only("v (mm/s),Comp (N),Reb (N),Temp (C),Remark", PEAKS[0], PEAKS[1] + ',31,"loud, whistles"', PEAKS[2])
    assert len(sweep.channels["force"]) == 6
    assert sweep.temperature == 31


def test_the_table_below_keeps_its_own_columns():
    first = ("Speed (mm/s),Bump (N),Rebound (N),Temp (C)", PEAKS[0] + ",31", *PEAKS[1:])
    second = ("Speed (mm/s),Bump (N),Rebound (N)", *PEAKS)
    found = read_bytes("\n".join(["LSC: 2", *first, "", "LSC: 4", *second, ""]).encode(), "rig.csv")
    assert [len(s.channels["force"]) for s in found] == [6, 6]
    assert [dict(s.clicks) for s in found] == [{"lsc": 2}, {"lsc": 4}]


def test_a_row_that_lacks_what_is_needed_is_told():
    sweep = only("Speed (mm/s),Bump (N),Rebound (N)", "50,200", *PEAKS[1:])
    assert any("'50,200'" in said and "left out" in said for said in sweep.warnings)
    with pytest.raises(ReadError, match="line 3: found"):
        only("Speed (mm/s),Bump (N),Rebound (N),Temp (C)", PEAKS[0], "70,300", *PEAKS[1:], "300,450,400,31")


@pytest.mark.parametrize("at", [0, 1, 2])
def test_words_behind_a_row_that_no_name_stands_over_are_told(at):
    rows = [*PEAKS]
    rows[at] += ",noisy"
    sweep = only("Speed (mm/s),Bump (N),Rebound (N)", *rows)
    assert len(sweep.channels["force"]) == 6
    assert sweep.warnings == ("notes among the numbers were left out: 'noisy'",)


def test_clicks_behind_rows_begin_a_setting():
    later = [row + ",LSC 6" for row in PEAKS]
    found = read_bytes("\n".join(["Speed (mm/s),Bump (N),Rebound (N)", *PEAKS, *later, ""]).encode(), "rig.csv")
    assert [dict(s.clicks) for s in found] == [{}, {"lsc": 6}]
    assert [len(s.channels["force"]) for s in found] == [6, 6]


def test_a_first_row_that_a_remark_follows_is_the_first():
    sweep = only("Speed (mm/s),Bump (N),Rebound (N)", PEAKS[0], "# started again", *PEAKS[1:])
    assert len(sweep.channels["force"]) == 6
    assert any("'# started again'" in said for said in sweep.warnings)


def test_a_line_that_breaks_off_at_the_end_is_no_row():
    names, rows = NAMES[:-5], [f"{row},40.5" for row in ROWS]
    cut = "\n".join([names, *rows[:-1], rows[-1][:-6]])
    (sweep,) = read_bytes(cut.encode(), "rig.csv")
    assert len(sweep.channels["force"]) == len(T) - 1
    assert any("no full row" in said for said in sweep.warnings)


def test_a_quote_that_is_never_closed_ends():
    rows = [*ROWS[:20], ROWS[20] + ',"0.010,1.570', *ROWS[21:40], ROWS[40] + ",40.5"]
    with pytest.raises(ReadError):
        only(NAMES, *rows)
