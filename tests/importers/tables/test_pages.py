"""Heads of pages: glued to no title, no new run where the rows go on, a new one where they start again."""

from __future__ import annotations

import numpy as np
import pytest

from dynoan.reading import read_bytes
from tests.importers.making import F, T, X

HEAD = " Velocity     Bump   Rebound\n   (mm/s)      (N)       (N)\n --------  -------  --------\n"


def sweeps(text: str, name: str = "report.prn"):
    return read_bytes(text.encode(), name)


def rows(*speeds: int) -> str:
    return "".join(f"{v:9d}{2 * v:9d}{3 * v:10d}\n" for v in speeds)


def page(number: int, setting: str, *speeds: int) -> str:
    head = f"SHOCK TEST REPORT                    Page {number} of 2\nShock No: WB-77\n"
    return f"{head}{setting}\n\n{HEAD}{rows(*speeds)}\n"


@pytest.mark.parametrize(
    ("setting", "clicks"),
    [
        ("Bump clicks: 8       Rebound clicks: 9", {"c": 8, "r": 9}),
        ("Comp: 8 clicks    Reb: 9 clicks", {"c": 8, "r": 9}),
        ("Comp 8 clicks     Reb 9 clicks", {"c": 8, "r": 9}),
        ("LSC: 8     LSR: 9", {"lsc": 8, "lsr": 9}),
        ("Comp clicks: 8", {"c": 8}),
    ],
)
def test_a_line_of_clicks_over_the_titles_is_none_of_them(setting, clicks):
    (one,) = sweeps(page(1, setting, 20, 40, 60, 80))
    assert dict(one.clicks) == clicks
    assert one.samples == 8
    assert not one.warnings


def test_a_table_goes_on_below_the_head_of_its_second_page():
    setting = "Bump clicks: 8       Rebound clicks: 9"
    (one,) = sweeps(page(1, setting, 20, 40, 60) + page(2, setting, 80, 100))
    assert (one.samples, one.shock, dict(one.clicks)) == (10, "WB-77", {"c": 8, "r": 9})
    assert not one.warnings


def test_another_setting_or_a_start_anew_is_another_run():
    one, other = "Bump clicks: 8       Rebound clicks: 9", "Bump clicks: 4       Rebound clicks: 9"
    found = sweeps(page(1, one, 20, 40, 60) + page(2, other, 80, 100))
    assert [s.clicks["c"] for s in found] == [8, 4]
    found = sweeps(page(1, one, 20, 40, 60) + page(2, one, 20, 40, 60))
    assert [s.samples for s in found] == [6, 6]


def test_a_record_goes_on_over_pages():
    lines = [f"{t:8.3f}{1e3 * x:10.3f}{f:10.1f}" for t, x, f in zip(T, X, F, strict=True)]
    head = "Damper test  CP-1   page {}\nLSC=8 LSR=8\n    Time      Disp     Force\n       s        mm         N\n"
    text = "".join(head.format(k + 1) + "\n".join(lines[at : at + 500]) + "\n" for k, at in enumerate((0, 500, 1000)))
    (one,) = sweeps(text, "record.txt")
    np.testing.assert_allclose(one.channels["force"], F, atol=0.06)
    assert dict(one.clicks) == {"lsc": 8, "lsr": 8}


def test_a_note_between_rows_that_says_something_else_is_told():
    table = "Gas: 8 bar\nSpeed (mm/s),Comp (N),Reb (N)\n50,200,150\n100,300,250\nGas: 9 bar\n200,400,350\n"
    (one,) = sweeps(table, "rig.csv")
    assert any("'Gas: 9 bar'" in said for said in one.warnings)
