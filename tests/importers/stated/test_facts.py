"""What lines around a table state, as people write them (names and forms: common practice, no source)."""

from __future__ import annotations

import pytest

from importers.stated import facts_of_lines


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
