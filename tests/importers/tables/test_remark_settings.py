"""Remarks beside rows: clicks there begin a setting, a line of words alone is told, none is lost."""

from __future__ import annotations

import numpy as np
import pytest

from dynoan.reading import read_bytes
from tests.importers.making import F, T, X

HEAD = ("Shock,ML-1", "LSC,3", "LSR,8", "Speed (mm/s),Comp (N),Reb (N),Remark")
FIRST = ("25,210,50,", "50,310,190,", "100,450,340,")
LATER = ("25,180,10,", "50,260,120,", "100,370,240,")


def sweeps(*lines: str):
    return read_bytes(("\n".join(lines) + "\n").encode(), "rig.csv")


@pytest.mark.parametrize("said", [",,,LSC 6 from here", ",,,LSC: 6", ",,,from here on lsc 6"])
def test_a_remark_alone_in_its_row_begins_a_setting(said):
    first, later = sweeps(*HEAD, *FIRST, said, *LATER)
    assert (dict(first.clicks), dict(later.clicks)) == ({"lsc": 3, "lsr": 8}, {"lsc": 6, "lsr": 8})
    assert (first.channels["force"].max(), later.channels["force"].max()) == (450, 370)
    assert [one.samples for one in (first, later)] == [6, 6]


def test_what_a_remark_stated_holds_until_another_says_otherwise():
    found = sweeps(*HEAD, *FIRST, ",,,LSC 6", *LATER, ",,,LSR 4", *LATER, ",,,LSC 9", *LATER)
    assert [dict(s.clicks) for s in found] == [
        {"lsc": 3, "lsr": 8},
        {"lsc": 6, "lsr": 8},
        {"lsc": 6, "lsr": 4},
        {"lsc": 9, "lsr": 4},
    ]


@pytest.mark.parametrize("every", [True, False])
def test_clicks_beside_rows_are_of_them_and_those_below(every):
    later = [f"{row}LSC 6" if every or not k else row for k, row in enumerate(LATER)]
    first, second = sweeps(*HEAD, *FIRST, *later)
    assert (first.clicks["lsc"], second.clicks["lsc"]) == (3, 6)
    assert any("'LSC 6'" in said for said in second.warnings)


def test_a_remark_at_the_first_row_is_of_all():
    (one,) = sweeps(*HEAD[:1], *HEAD[3:], FIRST[0] + "LSC 6", *FIRST[1:])
    assert dict(one.clicks) == {"lsc": 6}
    assert one.samples == 6


def test_other_words_alone_in_a_row_are_told():
    (one,) = sweeps(*HEAD, *FIRST[:2], ",,,oil topped up", *FIRST[2:])
    assert one.samples == 6
    assert any("'oil topped up'" in said for said in one.warnings)


def test_a_record_is_cut_where_a_remark_turns_a_knob():
    rows = [f"{t:.3f},{1e3 * x:.3f},{f:.1f}," for t, x, f in zip(T, X, F, strict=True)]
    first, second = sweeps("LSC,3", "Time (s),Disp (mm),Force (N),Note", *rows[:700], ",,,LSC 6 from here", *rows[700:])
    assert (first.clicks["lsc"], second.clicks["lsc"]) == (3, 6)
    np.testing.assert_allclose(np.concatenate([s.channels["force"] for s in (first, second)]), F, atol=0.06)


def test_a_knob_turned_in_a_long_record():
    rows = [f"{k / 500:.6f},{1e3 * X[k % len(X)]:.6f},{F[k % len(F)]:.6f}," for k in range(40_000)]
    assert sum(map(len, rows)) > 1 << 20
    first, second = sweeps(
        "LSC,3", "Time (s),Disp (mm),Force (N),Note", *rows[:30_000], ",,,LSC 6 here", *rows[30_000:]
    )
    assert [(s.clicks["lsc"], s.samples) for s in (first, second)] == [(3, 30_000), (6, 10_000)]
