"""WHAT, taken apart."""

from __future__ import annotations

import pytest

from dynoan.errors import CallError
from dynoan.workbench.resolving import Wanted, parse_wanted


@pytest.mark.parametrize(
    ("text", "wanted"),
    [
        ("pack=gravel,lsc=6", Wanted(pack="gravel", clicks={"lsc": 6})),
        ("gravel@lsc=6,lsr=8", Wanted(pack="gravel", clicks={"lsc": 6, "lsr": 8})),
        ("shock=RL-02", Wanted(shock="RL-02")),
        ("shock=RL-02,date=2026-03", Wanted(shock="RL-02", date="2026-03")),
    ],
)
def test_what_names_a_setting(text, wanted):
    assert parse_wanted(text) == wanted


@pytest.mark.parametrize("text", ["pack=gravel,knob=6", "gravel@6", "pack=gravel,lsc=x"])
def test_a_part_that_is_not_understood_is_named(text):
    with pytest.raises(CallError, match=text.split("@")[0]):
        parse_wanted(text)
