"""What else a file says beside its numbers: told of each sweep, so that nothing a reader of it would see is lost."""

from __future__ import annotations

from typing import Any

import numpy as np
import pytest

from dynoan.jobs.read.answering import SweepRead
from dynoan.model.sweep import Source, Sweep
from dynoan.show.text.blocks import Look, Paragraph
from dynoan.show.text.read import card

CHANNELS = {"velocity": np.array([-0.1, 0.1]), "force": np.array([-90.0, 60.0])}
MANY = {f"Line {i}": "x" for i in range(9)}


def left(facts: dict[str, str], **known: Any) -> str:
    """What a card tells of the lines that nothing was taken of."""
    sweep = Sweep("peaks", CHANNELS, Source("run.csv", "0"), facts=facts, **known)
    lines = [line for block in card(SweepRead.of(sweep), Look()) if isinstance(block, Paragraph)
             for line in block.text.splitlines()]  # fmt: skip
    return next((line.removeprefix("  file says ") for line in lines if line.startswith("  file says ")), "")


def test_a_setting_and_a_name_that_were_not_understood_are_told():
    facts = {"시료 번호": "DMP-31", "압축 단수": "5", "측정일": "2026.07.03"}
    assert left(facts, date="2026-07-03") == "시료 번호: DMP-31; 압축 단수: 5"


@pytest.mark.parametrize(
    ("facts", "known"),
    [
        ({"Damper": "No 12 front left"}, {"shock": "no 12 front left"}),
        ({"Comp": "8 clicks", "Reb": "10"}, {"clicks": {"c": 8, "r": 10}}),
        ({"Gas": "12 bar"}, {"gas_pressure": 12e5}),
        ({"Gasdruck": "8,0 bar"}, {"gas_pressure": 8e5}),
        ({"Pack": "gravel"}, {"pack": "gravel"}),
        ({"Date": "2026-01-22 00:00:00"}, {"date": "2026-01-22"}),
        ({"Datum": "3.7.2026"}, {"date": "2026-07-03"}),
        ({"Lift": "about 5"}, {"warnings": ("'Lift: about 5' was not understood",)}),
    ],
)
def test_what_was_taken_or_is_warned_of_is_not_told_again(facts, known):
    assert left(facts, **known) == ""


def test_of_many_lines_the_first_and_how_many_more():
    told = left(MANY)
    assert told.startswith("Line 0: x; Line 1: x")
    assert told.endswith("Line 5: x; and 3 more (-v)")


def test_a_long_one_is_cut():
    assert left({"Remark": "y" * 900}) == "Remark: " + "y" * 51 + "…"
