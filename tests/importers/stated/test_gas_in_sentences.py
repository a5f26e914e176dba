"""Gas pressure in a sentence: taken where its words are of a shock's gas, else told."""

from __future__ import annotations

import pytest

from importers.stated import facts_of_lines


@pytest.mark.parametrize(
    ("line", "bar"),
    [
        ("# monotube FL-03, 12 bar nitrogen", 12.0),
        ("Monotube, 150 psi in reservoir, 14 mm rod", 10.342),
        ("new oil; N2 at 200 psi", 13.79),
        ("Einrohr (8,5 bar Stickstoff)", 8.5),
        ("gas bottle at 150 bar, shock has 12 bar nitrogen", 12.0),
    ],
)
def test_taken(line, bar):
    facts = facts_of_lines([line])
    assert facts.gas_pressure == pytest.approx(bar * 1e5, rel=1e-3)
    assert not any("pressure" in said for said in facts.warnings)


@pytest.mark.parametrize(
    "line",
    [
        "monotube 12 bar",
        "recharged to 12 bar before test",
        "nitrogen supply at 12 bar",
        "N2 bottle 180 bar",
        "reservoir was 12 bar",
        "nitrogen, then 12 bar",
    ],
)
def test_none_taken(line):
    assert facts_of_lines([line]).gas_pressure is None


def test_two_pressures_are_none_and_told():
    facts = facts_of_lines(["12 bar nitrogen", "reservoir at 9 bar"])
    assert facts.gas_pressure is None
    assert any("none was taken" in said for said in facts.warnings)


def test_a_key_of_the_gas_wins():
    assert facts_of_lines(["12 bar nitrogen", "Gas pressure: 10 bar"]).gas_pressure == 1e6


def test_what_a_sentence_says_of_a_shock_is_no_name():
    assert facts_of_lines(["gas at 9 bar, shock has 12 bar nitrogen"]).shock is None
