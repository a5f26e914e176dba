"""A file to fill in is in the library's units throughout."""

from __future__ import annotations

import re

import pytest

from dynoan.errors import QuantityError
from dynoan.library.car_file import car_from_text
from dynoan.library.tables import TomlTable
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


@pytest.mark.parametrize(("units", "weight", "rate"), [("us", "590 lb", "260 lb/in"), ("metric", "268 kg", "45 N/mm")])
def test_what_is_filled_in_between_its_quotes_is_understood(units, weight, rate):
    """A ratio has no unit, yet the template's quotes invite it."""
    values = {"unsprung": "34 kg", "spring": rate, "spring_ratio": "0.93", "shock_ratio": "0,9", "mass": weight}
    text = re.sub(
        r'^(\w+) = ""', lambda m: f'{m[1]} = "{values[m[1]]}"', car_template("club", {}, units, {}), flags=re.M
    )
    corner = car_from_text(text, "club.toml", "club").corners["fl"]
    assert (corner.spring_ratio, corner.shock_ratio) == (0.93, 0.9)


@pytest.mark.parametrize("value", ["0.9 lb", "about one", "nan"])
def test_what_is_no_number_is_still_refused(value):
    table = TomlTable({"shock_ratio": value}, "club.toml", ("shock_ratio",), "front")
    with pytest.raises(QuantityError, match="without a unit"):
        table.number("shock_ratio", -1e6, 1e6)
