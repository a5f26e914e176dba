"""What a shock is called under less common keys, in a title, and by its place on the car."""

from __future__ import annotations

import pytest

from importers.stated import contradictions, facts_of_lines, facts_of_name


@pytest.mark.parametrize(
    ("line", "shock"),
    [
        ("Amortisseur: AR-G", "AR-G"),
        ("Amort. n° 5", "5"),
        ("Amort.: B12", "B12"),
        ("Dämpfer Nr. 12", "12"),
        ("Dämpfer Nr.: HR4", "HR4"),
        ("stødd.: bag venstre", "bag venstre"),
        ("Unit no: K-7", "K-7"),
        ("unit 77B", "77B"),
        ("corner: LF", "LF"),
        ("Part: hinten links", "hinten links"),
        ("Position: right rear", "right rear"),
        ("Rear left damper, dyno'd 14.6.2025", "rear left"),
        ("RL-02 tested on 3 March 2025 at the barn", "RL-02"),
        ("BUILD SHEET\tRL-02", "RL-02"),
        ("Left Rear", "Left Rear"),
        ("FL", "FL"),
        ("Fork leg left", "Fork leg left"),
        ("Left fork leg, 2.5wt", "Left fork leg"),
        ("gabel links", "gabel links"),
        ("front right damper", "front right"),
        ("Damper from the left rear", "left rear"),
        ("LR corner, after rebuild", "LR"),
        ("NSR", "NSR"),
        ("Vorne links", "Vorne links"),
        ("Rear shock", "Rear"),
        ("fork cartridge no 2", "2"),
    ],
)
def test_taken(line, shock):
    assert facts_of_lines([line]).shock == shock


@pytest.mark.parametrize(
    "line",
    [
        "Position: 12 mm",
        "Position: centre",
        "Rear",
        "Load cell\tLC-500",
        "Dampf: 3",
        "Sample rate: 400 Hz",
        "Part: piston",
        "RL-02 or RL-03 tested",
        "left and right",
        "Front, rear",
        "fork oil 5wt",
        "front right LF",
    ],
)
def test_none_taken(line):
    assert facts_of_lines([line]).shock is None


def test_a_place_gives_way_to_a_name():
    assert facts_of_lines(["Rear left", "Position: rear left", "Serial: 4471"]).shock == "4471"


def test_two_places_are_none():
    assert facts_of_lines(["Front left", "Rear left"]).shock is None


@pytest.mark.parametrize(
    ("name", "shock"),
    [
        ("test_rear_left.csv", "rear left"),
        ("fork leg left 3.csv", "fork leg left"),
        ("a.xlsx, sheet 'Fork right'", "Fork right"),
        ("left_right_compared.csv", None),
        ("front left and rear left.csv", None),
        ("left.csv", None),
    ],
)
def test_places_in_names_of_files(name, shock):
    assert facts_of_name(name).shock == shock


def test_a_place_in_a_files_name_contradicts_no_name_in_the_file():
    placed, named = facts_of_name("rear_left_1.csv"), facts_of_lines(["Shock: FL-03"])
    assert not contradictions(named, placed)
    assert contradictions(named, facts_of_name("RR-02.csv"))
