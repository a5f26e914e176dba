"""What lines around a table state, as people write them (names and forms: common practice, no source)."""

from __future__ import annotations

import pytest

from importers.stated import facts_of_lines
from importers.stated.file_name import facts_of_name
from importers.words.shock_names import shock_in


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


@pytest.mark.parametrize(
    ("line", "date"),
    [("Prova del 14/03/2026", "2026-03-14"), ("Essai du 14 mars 2026", "2026-03-14"), ("令和8年3月14日", "2026-03-14")],
)
def test_a_day_in_a_sentence_of_the_test_is_its_day(line, date):
    assert facts_of_lines([line]).date == date


@pytest.mark.parametrize(
    ("text", "shock"), [("2026_GR-FR_packG2", "GR-FR"), ("AX-LF-2_gravel", "AX-LF-2"), ("run-FR-2", "FR-2")]
)
def test_letters_before_a_corner_are_of_the_shocks_name(text, shock):
    assert shock_in(text.replace("_", " ")) == shock


def test_a_corner_behind_a_word_for_a_shock_is_its_name():
    assert facts_of_lines(["Demper LV - in 4 kliks, uit 6 kliks (vanaf dicht)"]).shock == "LV"
