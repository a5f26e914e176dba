"""What lines around a table state, as people write them (names and forms: common practice, no source)."""

from __future__ import annotations

import pytest

from importers.stated import facts_of_lines
from importers.stated.file_name import facts_of_name


@pytest.mark.parametrize(
    ("line", "shock", "pack"),
    [
        ("Shock: FL-03", "FL-03", None),
        ("Shock FR-02   Valving: gravel", "FR-02", "gravel"),
        ("Shock dyno   Pack: mixed", None, "mixed"),
        ("shock FL-03 pack gravel", "FL-03", "gravel"),
    ],
)
def test_shock_and_pack_beside_one_another(line, shock, pack):
    facts = facts_of_lines([line])
    assert (facts.shock, facts.pack) == (shock, pack)


@pytest.mark.parametrize(
    ("name", "clicks", "asked"),
    [
        ("C8.csv", {}, True), ("R1.csv", {}, True), ("c20_peak_pos.csv", {}, True), ("c8 clicks.csv", {"c": 8}, False),
        ("comp 8.csv", {"c": 8}, False), ("gravel_c10_r10.csv", {"c": 10, "r": 10}, False),
    ],
)  # fmt: skip
def test_one_letter_and_a_number_alone_in_a_name_are_asked_about(name, clicks, asked):
    facts = facts_of_name(name)
    assert dict(facts.clicks) == clicks
    assert any("may be clicks" in warning for warning in facts.warnings) == asked
