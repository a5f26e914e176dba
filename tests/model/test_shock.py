"""Adjusters, counting and settings."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from dynoan.errors import CallError, QuantityError
from dynoan.model.shock import ADJUSTERS, Adjuster, Setting, Shock, clicks_text, parse_clicks

SHOCK = Shock("RL-02", (Adjuster("lsc", 20), Adjuster("hsr", 12, "from soft")))


def test_clicks_counted_from_soft_are_turned_round_and_back():
    closed = SHOCK.to_closed({"lsc": 6, "hsr": 3})
    assert closed == {"lsc": 6, "hsr": 9}
    assert SHOCK.to_counted(closed) == {"lsc": 6, "hsr": 3}


@given(st.dictionaries(st.sampled_from(sorted(ADJUSTERS)), st.integers(0, 999)))
def test_clicks_text_reads_back(clicks):
    assert parse_clicks(clicks_text(clicks)) == clicks


@pytest.mark.parametrize(
    "text", ["lsc", "lsc=", "lsc=six", "lsc=-1", "knob=3", "lsc=6,lsc=7", "lsc=6.5", "lsc=٣", "=3"]
)
def test_a_wrong_click_is_named(text):
    with pytest.raises(CallError, match=r"^clicks: '"):
        parse_clicks(text)


def test_a_click_outside_its_adjuster_is_refused():
    with pytest.raises(QuantityError, match="lsc=21 is outside the clicks of shock RL-02: 0 to 20"):
        SHOCK.check({"lsc": 21})
    with pytest.raises(CallError, match="has no adjuster 'hsc'; it has lsc, hsr"):
        SHOCK.check({"hsc": 1})


def test_a_setting_is_written_as_people_type_it():
    assert str(Setting("gravel", {"lsc": 6, "lsr": 8})) == "gravel@lsc=6,lsr=8"
    assert str(Setting("gravel")) == "gravel"


def test_an_adjuster_the_shock_lacks_counts_from_closed():
    assert SHOCK.to_counted({"hsr": 3, "cr": 5}) == {"hsr": SHOCK.adjuster("hsr").clicks - 3, "cr": 5}
    assert SHOCK.to_closed({"cr": 5}) == {"cr": 5}


@pytest.mark.parametrize("text", ["lsc 8 lsr 12", "lsc=8 lsr=12", "LSC: 8; LSR: 12", "lsc 8,lsr 12"])
def test_clicks_are_read_as_files_write_them_too(text):
    assert parse_clicks(text) == {"lsc": 8, "lsr": 12}
