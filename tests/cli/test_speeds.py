"""Speeds after --at: a bare number is in the unit of the tables shown, or refused."""

import pytest

from dynoan.cli.call import Call
from dynoan.cli.speeds import with_units
from dynoan.errors import QuantityError


@pytest.mark.parametrize(("units", "text"), [("metric", "50 mm/s,2 in/s"), ("us", "50 in/s,2 in/s")])
def test_a_bare_number_has_the_unit_of_the_tables(units, text):
    assert with_units(Call("curve", units=units), "50, 2 in/s") == text


@pytest.mark.parametrize("text", [None, "2 in/s", "fast", "0.05 m/s,3 N"])
def test_what_is_not_bare_stays_as_it_is(text):
    assert with_units(Call("curve", units="us"), text) == text


def test_a_bare_number_too_small_for_that_unit_is_refused():
    with pytest.raises(QuantityError, match=r"'0.05' has no unit and would be 0.05 mm/s; write '0.05 m/s'") as fault:
        with_units(Call("curve", units="metric"), "0.05")
    assert fault.value.part == "at"
