"""A file to fill in is in the library's units throughout."""

from __future__ import annotations

import re

import pytest

from dynoan.library.templates import car_template, shock_template

METRIC = re.compile(r"\d ?(?:mm|m|cm|kg|N|N/mm|N s/m|kg m2|N m|bar|°C)\b")
US = re.compile(r"\d ?(?:in|lb|lb/in|lbf s/in|lb ft2?|psi|°F)\b")


@pytest.mark.parametrize("text", [
    lambda units: car_template("club", {}, units, {}),
    lambda units: shock_template("FL-01", {}, units, ("lsc", "lsr"), {}),
], ids=["car", "shock"])  # fmt: skip
@pytest.mark.parametrize(("units", "other"), [("us", METRIC), ("metric", US)])
def test_no_other_unit_is_in_it(text, units, other):
    body = [line for line in text(units).splitlines() if "Any unit" not in line]
    assert len(body) > 5
    assert not [line for line in body if other.search(line)]
