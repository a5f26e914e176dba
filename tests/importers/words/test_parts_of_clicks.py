"""Halves and quarters of clicks, which no click map has: none is taken for a whole number, and each is told of."""

from __future__ import annotations

import pytest

from dynoan.errors import ReadError
from dynoan.reading import read_bytes
from importers.stated import facts_of_lines, facts_of_name
from importers.words.parted_clicks import parted_clicks

SPEEDS = (25, 50, 100, 200)


@pytest.mark.parametrize(
    ("line", "clicks", "said"),
    [
        ("4.5 clicks rebound", {}, "4.5 clicks rebound"),
        ("4 1/2 clicks reb", {}, "4.5 clicks reb"),
        ("Comp 6.3 clicks", {}, "comp 6.3 clicks"),
        ("comp 6 and a half clicks, reb 8", {"r": 8}, "comp 6.5"),
        ("comp six and a half", {}, "comp 6.5"),
        ("2 clicks and a half on rebound", {}, "2.5 clicks on rebound"),
        ("reb 4 and 1/2 clicks", {}, "reb 4.5"),
        ("reb 8 + 1/2", {}, "reb 8.5"),
        ("reb 8 half clicks", {}, "8 half clicks"),
        ("half a click comp", {}, "half a click"),
        ("quarter click reb", {}, "quarter click"),
        ("C6.5 R8", {}, "c6.5"),
        ("C6,5/R8", {}, "c6.5"),
        ("R8.5", {}, "r8.5"),
        ("Clicks: 6½", {}, "clicks 6.5"),
        ("Adjuster: 6.5", {}, "adjuster 6.5"),
        ("6 1/2 clicks out", {}, "6.5 clicks"),
        ("Zugstufe 4,5 Klicks", {}, "zugstufe 4.5"),
    ],
)
def test_parts_of_clicks_are_told_of_once_and_not_taken(line, clicks, said):
    facts = facts_of_lines([line])
    assert facts.clicks == clicks
    assert facts.warnings == (f"'{said}' is no whole number of clicks: not taken; state it",)


@pytest.mark.parametrize("line", ["Comp: half", "reb: half open", "LSR: middle", "Zugstufe: Mitte"])
def test_a_knob_between_its_ends_has_no_number(line):
    facts = facts_of_lines([line])
    assert not facts.clicks
    assert facts.warnings == (f"'{line}' is no number of clicks: not taken; state it",)


def test_one_of_two_numbers_is_none():
    facts = facts_of_lines(["between 6 and 7 clicks comp"])
    assert not facts.clicks
    assert any("clicks that were not understood" in said for said in facts.warnings)


@pytest.mark.parametrize(
    ("line", "clicks"),
    [("Rebound 8.0 clicks", {"r": 8}), ("LSC/LSR: 6,5", {"lsc": 6, "lsr": 5}), ("C6 R8 @ .26", {"c": 6, "r": 8}),
     ("comp 6, reb 8, half the travel", {"c": 6, "r": 8})],
)  # fmt: skip
def test_whole_clicks_are_no_parts(line, clicks):
    assert facts_of_lines([line]).clicks == clicks
    assert parted_clicks(line) == ()


@pytest.mark.parametrize("name", ["FL-03_c6.5_r8.csv", "FL-03 LSC 6½ LSR 8.csv", "FL-03_6.5clicks.csv"])
def test_parts_of_clicks_in_a_name_are_told_of(name):
    facts = facts_of_name(name)
    assert not {"lsc", "c"} & {*facts.clicks}
    assert any("no whole number of clicks" in said for said in facts.warnings)


@pytest.mark.parametrize("name", ["Clicks", "LSC"])
def test_a_column_of_parts_of_clicks_is_refused(name):
    rows = [f"{c},{v},{100 + v + c:.0f},{150 + v + c:.0f}" for c in (4, 4.5, 5) for v in SPEEDS]
    data = "\n".join([f"{name},Velocity (mm/s),Compression (N),Rebound (N)", *rows, ""]).encode()
    with pytest.raises(ReadError, match=r"4\.5 is no whole number of clicks"):
        read_bytes(data, "rig.csv")


def test_columns_of_parts_of_clicks_are_left_out_and_told_of():
    head = "Velocity (mm/s),Comp 4.5 clicks (N),Comp 6 clicks (N),Reb 4.5 clicks (N),Reb 6 clicks (N)"
    rows = [f"{v},{100 + v},{90 + v},{150 + v},{140 + v}" for v in SPEEDS]
    (sweep,) = read_bytes("\n".join([head, *rows, ""]).encode(), "rig.csv")
    assert sweep.clicks == {"c": 6, "r": 6}
    assert "'Comp 4.5 clicks (N)' and so on are of no whole number of clicks: left out" in sweep.warnings
