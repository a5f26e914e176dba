"""Clicks and turns out of knobs that no word names: asked for in a line, and never taken for another's."""

from __future__ import annotations

import pytest

from dynoan.reading import read_bytes
from importers.stated import facts_of_lines, facts_of_name

ROWS = "Speed (mm/s),Compression (N),Rebound (N)\n50,310,420\n130,520,800\n250,780,1290\n"


@pytest.mark.parametrize(
    ("line", "written"),
    [
        ("2 out / 4 out", "'C 2 R 4'"),
        ("Setting: 2 out, 4 out", "'C 2 R 4'"),
        ("tested 6 clicks out and 8 clicks out", "'C 6 R 8'"),
        ("4/6 @ 0.26", "'C 4 R 6'"),
        ("4 out 3 out 8 out 2 out", "'LSC 4 HSC 3 LSR 8 HSR 2'"),
    ],
)
def test_clicks_are_asked_for(line, written):
    facts = facts_of_lines([line])
    assert not facts.clicks
    assert [said for said in facts.warnings if f"write whose they are, such as {written}" in said]


@pytest.mark.parametrize(
    ("line", "said"),
    [
        ("adjuster: 1 1/2 turns", "'1 1/2 turns' are turns and no clicks"),
        ("2¼ turns out from closed", "'2¼ turns out' are turns and no clicks"),
        ("1/2 turn", "'1/2 turn' are turns and no clicks"),
        ("C: 1 1/2 T, R: 2 T", "'c: 1 1/2 turns' are turns and no clicks"),
        ("LSC 2¼ turns / LSR 10 clicks", "'lsc 2¼ turns' are turns and no clicks"),
    ],
)
def test_turns_are_told(line, said):
    assert any(said in warning for warning in facts_of_lines([line]).warnings)


@pytest.mark.parametrize(
    "line", ["C 2 out, R 4 out", "run 2 out of 4", "comp 2 out", "logged out at 14", "turned 3 mm"]
)
def test_others_are_left_alone(line):
    assert not any("names no adjuster" in w or "not named" in w for w in facts_of_lines([line]).warnings)


def test_a_sheet_and_columns_ask_too():
    assert any("such as 'C 2 R 4'" in said for said in facts_of_name("a.xlsx, sheet '2 out 4 out'").warnings)
    names = "Speed in/s,2 out Comp lb,2 out Reb lb,6 out Comp lb,6 out Reb lb"
    rows = "1,40,60,35,50\n3,80,120,70,100\n6,130,200,110,170\n"
    for sweep in read_bytes(f"{names}\n{rows}".encode(), "out.csv"):
        assert sweep.clicks or any("write whose they are" in said for said in sweep.warnings)


def test_a_title_above_each_block_asks_for_its_own():
    first, second = read_bytes(f"2 out / 4 out\n{ROWS}\n6 out / 8 out\n{ROWS}".encode(), "blocks.csv")
    assert any("'C 2 R 4'" in said for said in first.warnings)
    assert any("'C 6 R 8'" in said for said in second.warnings)


@pytest.mark.parametrize("text", ["C 4 / R 6 @ .26", "C4R6@0.26", "c4 r6 @ 10 in/s", "C4 R6 @ 0.26 m/s"])
def test_a_speed_behind_clicks_is_none_of_them(text):
    assert facts_of_lines([text]).clicks == {"c": 4, "r": 6}
    assert facts_of_name(f"a.xlsx, sheet '{text}'").clicks == {"c": 4, "r": 6}


def test_a_lone_click_before_a_speed_is_taken_in_a_line_and_told_in_a_sheets_name():
    assert facts_of_lines(["R6 @ 0.26"]).clicks == {"r": 6}
    assert any(
        "'R6' in the file's name may be clicks" in said for said in facts_of_name("a.xlsx, sheet 'R6 @ 0.26'").warnings
    )
