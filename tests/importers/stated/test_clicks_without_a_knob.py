"""A shock by what it damps or by its place and number, and clicks beside it of a knob that is not named."""

from __future__ import annotations

import pytest

from dynoan.reading import read_bytes
from importers.stated import facts_of_lines, facts_of_name

ROWS = "Speed [mm/s],Compression [N],Rebound [N]\n50,202,417\n100,260,627\n200,321,857\n"


@pytest.mark.parametrize(
    ("title", "shock"),
    [
        ("Steering damper", "Steering damper"),
        ("Lenkungsdämpfer", "Lenkungsdämpfer"),
        ("Amortisseur de direction", "Amortisseur de direction"),
        ("Test of steering damper", "steering damper"),
        ("Steering damper #3", "Steering damper #3"),
        ("Steering damper, C 4 R 6", "Steering damper"),
        ("Cab damper left", "Cab damper left"),
        ("rear shock #2", "rear 2"),
        ("Dämpfer hinten links Nr. 4", "hinten links 4"),
        ("dyno test of rear left shock", "rear left"),
        ("Left rear shock 3, after rebuild", "Left rear 3"),
        ("Fork left leg 14 clicks reb", "Fork left leg"),
        ("Shock: LR 22 clicks reb", "LR"),
        ("direction: rebound", None),
        ("Steering test", None),
        ("Rear shock, rebound force", None),
    ],
)
def test_a_title_names_a_shock_by_what_or_where_it_damps(title, shock):
    (sweep,) = read_bytes(f"{title}\n{ROWS}".encode(), "t.csv")
    assert sweep.shock == shock


@pytest.mark.parametrize(
    ("line", "clicks"),
    [("LR: 22 reb", {"r": 22}), ("Rear left 6 clicks rebound 3 clicks comp", {"r": 6, "c": 3})],
)
def test_clicks_beside_a_place_are_of_the_shock_there(line, clicks):
    facts = facts_of_lines([line])
    assert dict(facts.clicks) == clicks
    assert facts.shock


@pytest.mark.parametrize("line", ["FL 12 clicks", "7781 8 clicks", "Front fork 14 klik", "rear 4 clicks from soft"])
def test_clicks_of_a_knob_that_is_not_named_are_asked_about(line):
    facts = facts_of_lines([line])
    assert not facts.clicks
    assert any("clicks that were not understood" in said for said in facts.warnings)
    named = facts_of_name(f"{line}.csv"), facts_of_name(f"a.xlsx, sheet '{line}'")
    assert all(any("does not say of which knob" in said for said in facts.warnings) for facts in named)


@pytest.mark.parametrize("line", ["tested every 2 clicks", "in 2 click steps", "24 clicks total", "no clicks"])
def test_how_far_settings_are_apart_is_no_setting(line):
    assert not any("not understood" in said for said in facts_of_lines([line]).warnings)


def test_a_name_tells_turns_two_numbers_and_one_of_rebound():
    said = {
        "reb 1 turn out.csv": "'reb 1 turn' are turns",
        "LR 22r.csv": "'22r' in the file's name may be clicks",
        "a.xlsx, sheet '8-10'": "such as 'C 8 R 10'",
    }
    assert all(any(words in w for w in facts_of_name(name).warnings) for name, words in said.items())
    assert facts_of_name("a.xlsx, sheet 'VL 8 Klicks Zug'").pack != "Klicks"


@pytest.mark.parametrize(
    ("name", "said", "apart"),
    [
        ("FR_damper.csv", "FR-2", False),
        ("VL_run3.csv", "Rood 12 voor links", False),
        ("RF_gravel_c2_r3.csv", "RF serial 1182", False),
        ("FL_damper.csv", "FR-2", True),
    ],
)
def test_a_corner_in_a_file_s_name_is_part_of_a_name(name, said, apart):
    (sweep,) = read_bytes(f"Shock: {said}\n{ROWS}".encode(), name)
    assert any("the file's name says shock" in w for w in sweep.warnings) is apart
