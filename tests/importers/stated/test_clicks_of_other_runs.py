"""Clicks beside how many there are, of other runs, and from where they are counted, as people write them."""

from __future__ import annotations

import pytest

from dynoan.reading import read_bytes
from importers.stated import facts_of_lines

TABLE = "Speed (mm/s),Bump (N),Rebound (N)\n50,200,150\n100,300,250\n200,400,350\n"


@pytest.mark.parametrize(
    ("line", "clicks"),
    [
        ("Comp. Clicks: 6 (max 20)", {"c": 6}),
        ("Comp. Clicks: 6 (20 max)", {"c": 6}),
        ("Rebound clicks: 9 (total 24)", {"r": 9}),
        ("Comp clicks 6, max 20", {"c": 6}),
        ("Comp clicks: 6 (range 0-20)", {"c": 6}),
        ("LSC: 6 [max 20], LSR: 8 [max 20]", {"lsc": 6, "lsr": 8}),
        ("LSC: 6 total: 20", {"lsc": 6}),
        ("Zugstufe 9 Klicks (gesamt 24)", {"r": 9}),
        ("Comp: 24 clicks total, 6 out", {"c": 6}),
        ("Comp: 24 clicks total", {}),
        ("6 out comp, 9 out reb", {"c": 6, "r": 9}),
        ("six out on comp, 9 out on rebound", {"c": 6, "r": 9}),
        ("6 from closed on comp, 9 from closed on reb", {"c": 6, "r": 9}),
        ("Comp set to 6, reb set to 9", {"c": 6, "r": 9}),
        ("Compression was set 6 from closed and rebound 9 from closed", {"c": 6, "r": 9}),
        ("Click compressione (da chiuso): 4", {"c": 4}),
        ("Zugstufe (von offen): 9", {"r": 9}),
        ("压缩阻尼: 7", {"c": 7}),
        ("--- changed to R 12 ---", {"r": 12}),
    ],
)
def test_the_setting_is_taken(line, clicks):
    assert dict(facts_of_lines([line]).clicks) == clicks


@pytest.mark.parametrize(
    ("line", "end"),
    [
        ("C 6 R 9 (0 = open)", "from soft"),
        ("C 6 (0 = open)", "from soft"),
        ("C 6 R 9 (20 = full hard)", "from soft"),
        ("C 6 R 9, more clicks = stiffer", "from soft"),
        ("LSR +9 from minimum", "from soft"),
        ("6 in comp, 9 in reb", "from soft"),
        ("C 6 R 9", ""),
        ("6 out comp, 9 out reb", ""),
    ],
)
def test_from_where_clicks_are_counted(line, end):
    found = facts_of_lines([line])
    assert found.clicks
    assert {*found.counted.values()} == ({end} if end else set())


@pytest.mark.parametrize(
    "line",
    ["Recommended: C 4 R 5", "Target: C 4 R 5", "Stock setting: C 4 R 5", "Last run: C 4 R 5", "Same as C 4 R 5",
     "Next time try C 4 R 5", "Empfehlung: C 4 R 5", "Next run with C 4 R 5", "Prochain essai : C 4 R 5",
     "Previous setting: C 4 R 4"],
)  # fmt: skip
def test_another_runs_clicks_are_not_this_ones(line):
    alone = facts_of_lines([line])
    assert not alone.clicks
    assert any("is not said to be this run's setting" in said for said in alone.warnings)
    for lines in ([line, "Clicks: C 6 R 9"], ["Clicks: C 6 R 9", line]):
        found = facts_of_lines(lines)
        assert dict(found.clicks) == {"c": 6, "r": 9}
        assert not found.warnings


@pytest.mark.parametrize(
    "line", ["Customer: club, C 4 R 5", "Try 3: C 4 R 5", "Serie 2, C 4 R 5", "Werkstatt Nord C 4 R 5"]
)
def test_a_line_that_only_begins_like_that_is_the_runs(line):
    assert dict(facts_of_lines([line]).clicks) == {"c": 4, "r": 5}


def test_a_baseline_is_the_run_unless_another_line_says_so():
    assert dict(facts_of_lines(["Baseline: C 4 R 4"]).clicks) == {"c": 4, "r": 4}
    assert dict(facts_of_lines(["Baseline: C 4 R 4", "Clicks C 6 R 9"]).clicks) == {"c": 6, "r": 9}


def test_what_was_tested_beside_what_was_asked_for():
    found = facts_of_lines(["Customer's setting C 4 R 4, tested at C 6 R 9"])
    assert dict(found.clicks) == {"c": 6, "r": 9}


def test_a_remark_below_says_nothing_of_the_run():
    (sweep,) = read_bytes(f"C 6 R 9\n{TABLE}\nRemark: rebound closed 2 clicks after run\n".encode(), "rig.csv")
    assert dict(sweep.clicks) == {"c": 6, "r": 9}


@pytest.mark.parametrize(
    ("line", "said"),
    [
        ("Clicks: -6 comp / -9 reb", "speaks of clicks that were not understood"),
        ("HSC (turns): 2", "turns and no clicks"),
        ("Rebound: max", "does not say which end"),
        ("Clicks 6/9", "names no adjusters"),
    ],
)
def test_what_is_not_understood_is_told(line, said):
    found = facts_of_lines([line])
    assert not found.clicks
    assert said in " | ".join(found.warnings)


def test_a_range_is_doubted_and_a_number_of_sweeps_is_none():
    assert facts_of_lines(["Comp clicks 4 - 6"]).doubted
    assert not facts_of_lines(["Comp clicks 4 - 6"]).clicks
    assert not facts_of_lines(["Rebound 9 sweeps"]).clicks


def test_a_knob_turned_between_runs():
    lines = ["C 4 R 6", TABLE.strip(), "--- changed to R 12 ---", *TABLE.strip().split("\n")[1:]]
    first, second = read_bytes("\n".join([*lines, ""]).encode(), "rig.csv")
    assert (first.clicks["r"], second.clicks["r"]) == (6, 12)


@pytest.mark.parametrize(
    ("lines", "clicks", "said"),
    [
        (["Remark: LSC 6 LSR 8"], {"lsc": 6, "lsr": 8}, "clicks were read from a remark, 'Remark: LSC 6 LSR 8'"),
        (["Note: C6 R8"], {"c": 6, "r": 8}, "clicks were read from a remark"),
        (["Remark: C6 R8 felt better last time"], {}, "may be of another setting than this run's"),
        (["Notes: was C8 R6 before, now stiffer"], {}, "is not said to be this run's setting"),
        (["Remark: LSC 6 LSR 8", "LSC: 4", "LSR: 3"], {"lsc": 4, "lsr": 3}, "lsc=6, lsr=8, another line lsc=4, lsr=3"),
        (["Remark: LSC 4", "LSC: 4"], {"lsc": 4}, ""),
        (["Remark: was LSC 2", "LSC: 4"], {"lsc": 4}, ""),
        (["Remark: LSR 8", "LSC: 4"], {"lsc": 4, "lsr": 8}, "clicks were read from a remark"),
        (["Remark: LSR 8", "Note: LSR 9"], {}, "the file says both lsr=8 and lsr=9"),
    ],
)
def test_clicks_in_a_remark_are_said_and_never_win(lines, clicks, said):
    found = facts_of_lines(lines)
    assert dict(found.clicks) == clicks
    assert said in " | ".join(found.warnings) if said else found.warnings == ()


@pytest.mark.parametrize(
    ("lines", "pack", "clicks", "said"),
    [
        (["Valving: C5/R3"], "C5/R3", {}, "'C5/R3' was taken as its code"),
        (["Valve code: C15-R21", "Clicks: C5 R9"], "C15-R21", {"c": 5, "r": 9}, ""),
        (["Valving: 6C 4R", "LSC 5"], "6C 4R", {"lsc": 5}, ""),
        (["Shim stack: C8 R6"], "C8 R6", {}, "was taken as its code"),
        (["Pack: P2 C6 R8"], "P2", {"c": 6, "r": 8}, ""),
    ],
)
def test_a_code_of_a_pack_is_no_setting(lines, pack, clicks, said):
    found = facts_of_lines(lines)
    assert (found.pack, dict(found.clicks)) == (pack, clicks)
    assert said in " | ".join(found.warnings) if said else found.warnings == ()


@pytest.mark.parametrize(
    ("line", "clicks", "said"),
    [
        ("Clicks: comp 5, xyz 7", {"c": 5}, "'xyz 7' beside the clicks was not understood"),
        ("Clicks: abc 5, xyz 7", {}, "speaks of clicks that were not understood"),
        ("Clicks: 10 of 18 clicks", {}, "speaks of clicks that were not understood"),
        ("Setting: 8/12", {}, "'Setting: 8/12' names no adjusters"),
        ("Test 2, LSC 6 clicks", {"lsc": 6}, ""),
        ("Comp: 5 clics, Dét: 7 clics", {"c": 5, "r": 7}, ""),
        ("Paluu (naksua kiinni-asennosta): 8", {"r": 8}, ""),
        ("Klik: 6", {"cr": 6}, "'Klik: 6' names no direction"),
    ],
)
def test_no_click_of_a_list_is_lost_unsaid(line, clicks, said):
    found = facts_of_lines([line])
    assert dict(found.clicks) == clicks
    assert [said in one for one in found.warnings] == ([True] if said else [])
