"""Names, warmth and numbers that stand beside clicks in a title, and numbers that are a recorder's and no shock's."""

from __future__ import annotations

import pytest

from dynoan.reading import read_bytes
from importers.stated import facts_of_lines, facts_of_name

PEAKS = "Velocity (mm/s),Compression (N),Rebound (N)\n25,60,90\n50,110,170\n100,200,330\n"


def sweep_of(*lines: str, name: str = "rig.csv"):
    (sweep,) = read_bytes("\n".join([*lines, PEAKS]).encode(), name)
    return sweep


@pytest.mark.parametrize(
    ("title", "shock", "clicks"),
    [
        ("A7 reb 8", "A7", {"r": 8}),
        ("A7, rebound 8 clicks", "A7", {"r": 8}),
        ("B12 - comp 6 reb 8", "B12", {"c": 6, "r": 8}),
        ("K3 LSC 6 LSR 8", "K3", {"lsc": 6, "lsr": 8}),
    ],
)
def test_a_code_before_clicks_is_the_shocks_name_and_said(title, shock, clicks):
    for sweep in (sweep_of(title), sweep_of(name=f"{title}.csv")):
        assert (sweep.shock, sweep.clicks) == (shock, clicks)
        assert any(f"'{shock}' before the clicks was taken as the shock's name" in said for said in sweep.warnings)


def test_a_name_that_another_line_states_is_the_shocks():
    sweep = sweep_of("A7 reb 8", "Shock: FL-03")
    assert (sweep.shock, sweep.warnings) == ("FL-03", ())


def test_a_code_that_may_be_a_packs_or_a_tests_is_asked_about_and_an_adjusters_is_none():
    asked = sweep_of("P2 reb 8")
    assert asked.shock is None
    assert any("'P2' before the clicks may name a shock, a pack or a test" in said for said in asked.warnings)
    knobs = sweep_of("C7 reb 8")
    assert (knobs.shock, knobs.clicks, knobs.warnings) == (None, {"c": 7, "r": 8}, ())


@pytest.mark.parametrize(
    ("title", "said"),
    [("A7 R8", "'R8' may be clicks"), ("FL-03 C6", "'C6' may be clicks"), ("Rear left 8 reb", "'8 reb' may be clicks"),
     ("RL-02, 12C", "'12C' may be clicks or a temperature")],
)  # fmt: skip
def test_one_number_behind_a_name_is_asked_about(title, said):
    facts = facts_of_lines([title])
    assert not facts.clicks
    assert any(said in warning for warning in facts.warnings)


@pytest.mark.parametrize(
    ("line", "clicks", "warmth"),
    [
        ("Rear left 12 clicks reb, 20C", {"r": 12}, 20.0),
        ("reb 12, 20 C", {"r": 12}, 20.0),
        ("FL-03 C6 R8 20C", {"c": 6, "r": 8}, 20.0),
        ("Clicks: C6 R8; 12C", {"c": 6, "r": 8}, 12.0),
        ("6C 8R, 20C", {"c": 6, "r": 8}, 20.0),
        ("10 clicks comp, 8 clicks reb, 35C", {"c": 10, "r": 8}, 35.0),
        ("Rear left 12 clicks reb, 20 deg C", {"r": 12}, 20.0),
        ("C6 R8 68F", {"c": 6, "r": 8}, 20.0),
        ("12R 20C", {"c": 20, "r": 12}, None),
        ("20C/12R", {"c": 20, "r": 12}, None),
        ("C 20 R 8", {"c": 20, "r": 8}, None),
    ],
)
def test_a_degrees_letter_without_its_sign_beside_clicks(line, clicks, warmth):
    facts = facts_of_lines([line])
    assert facts.clicks == clicks
    assert facts.temperature == (None if warmth is None else pytest.approx(warmth))


@pytest.mark.parametrize(
    ("line", "said"),
    [
        ("reb 12, 20C", "'20C' was taken as 20 °C and not as clicks of compression"),
        ("12 clicks reb, 12C", "'12C' was taken as clicks and may be 12 °C"),
        ("reb 12, 12C", "'12C' beside the clicks may be a temperature and may be clicks: not taken"),
    ],
)
def test_what_may_be_warmth_or_clicks_is_said(line, said):
    assert any(said in warning for warning in facts_of_lines([line]).warnings)


def test_what_can_be_nothing_but_warmth_is_not():
    assert facts_of_lines(["FL-03 C6 R8, 20C"]).warnings == ()


@pytest.mark.parametrize(
    ("line", "shock"),
    [("shock LR@8", "LR"), ("shock LR @ 8", "LR"), ("Shock: RL-02 @ 8/10", "RL-02"), ("LR@8", "LR"),
     ("Damper RR-2@12 clicks", "RR-2"), ("FL-03@8/10 gravel", "FL-03")],
)  # fmt: skip
def test_numbers_behind_a_name_and_an_at_are_no_part_of_it_and_asked_about(line, shock):
    facts = facts_of_lines([line])
    assert (facts.shock, dict(facts.clicks)) == (shock, {})
    assert any("names no adjusters: no clicks were taken" in warning for warning in facts.warnings)


def test_what_else_stands_behind_an_at():
    assert facts_of_lines(["Shock: LR@20C"]).temperature == pytest.approx(20.0)
    facts = facts_of_lines(["Shock: FL-03@c6,r8"])
    assert (facts.shock, facts.clicks, facts.warnings) == ("FL-03", {"c": 6, "r": 8}, ())
    assert facts_of_lines(["Pack: gravel@8"]).pack == "gravel"
    assert facts_of_lines(["Shock: RL-02 @ 10 in/s"]).warnings == ()
    assert facts_of_name("LR@8.csv").shock == "LR"


def test_clicks_in_words_are_no_part_of_a_packs_name():
    facts = facts_of_lines(["Pack: P2 reb 8"])
    assert (facts.pack, facts.clicks) == ("P2", {"r": 8})


@pytest.mark.parametrize(
    "lines",
    [["Recorder,Unit 7"], ["Recorder unit 7"], ["Data logger;Unit 12;fw 2.1"], ["Load cell,Serial 1234"],
     ["Sensor SN 4411"], ["Tested on rig unit 4"], ["[Recorder]", "Unit=7"], ["Prüfstand Unit 3"]],
)  # fmt: skip
def test_the_number_of_what_measures_or_drives_is_no_shocks(lines):
    assert facts_of_lines(lines).shock is None


@pytest.mark.parametrize(
    ("line", "shock"), [("Unit 7", "7"), ("Test unit 7", "7"), ("Recorder unit 7, shock FL-03", "FL-03")]
)
def test_a_unit_that_is_no_devices_is_the_shocks(line, shock):
    assert facts_of_lines([line]).shock == shock


@pytest.mark.parametrize(
    ("line", "shock"),
    [
        ("Shock type: steering damper", "steering damper"),
        ("Type of shock,steering damper", "steering damper"),
        ("Dämpferart: Lenkungsdämpfer", "Lenkungsdämpfer"),
        ("Damper type: fork leg left", "fork leg left"),
        ("Damper type: monotube", None),
    ],
)
def test_a_kind_that_says_what_is_damped_is_the_shocks_name(line, shock):
    assert facts_of_lines([line]).shock == shock


def test_a_serial_is_the_shocks_name_before_its_kind():
    assert facts_of_lines(["Shock type: steering damper", "Serial: SD-4"]).shock == "SD-4"


def test_a_title_begins_with_the_shocks_name_where_no_line_names_another():
    assert facts_of_lines(["FL-03 gravel", "LSC 6 LSR 8"]).shock == "FL-03"
    assert facts_of_lines(["FL-03 gravel", "Shock: RR-1"]).shock == "RR-1"
    assert facts_of_lines(["like FL-03 gravel"]).shock is None
