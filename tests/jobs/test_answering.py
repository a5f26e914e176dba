"""How a door's values become the parts of a question."""

from __future__ import annotations

import importlib
import json
import math
import pkgutil
from dataclasses import dataclass

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

import dynoan.jobs
from dynoan.errors import CallError, DynoanError, LookupFault, QuantityError
from dynoan.jobs.answering import Answer, about, quantity, temperature_of

FEW = settings(max_examples=40, deadline=None)


@FEW
@given(st.floats(-1e6, 1e6))
def test_a_number_is_si_and_so_is_text_in_si_units(number):
    assert quantity(number, "velocity", "speed") == number
    assert quantity(f"{number!r} m/s", "velocity", "speed") == number
    assert quantity(repr(number), "velocity", "speed", bare=True) == number


@pytest.mark.parametrize("number", [np.float64(2.5), np.float32(2.5), np.int64(2), 2])
def test_a_number_out_of_an_array_is_a_number(number):
    found = quantity(number, "length", "x")
    assert found == float(number)
    assert type(found) is float


@pytest.mark.parametrize("bare", [False, True])
@pytest.mark.parametrize("value", ["", "fast", "12 kg", "1e999 m/s", None, True, b"1", [1.0], "1 m/s 2", "\x1b[2J"])
def test_what_is_no_quantity_is_refused_with_its_part_and_what_would_be_right(value, bare):
    with pytest.raises(QuantityError) as caught:
        quantity(value, "velocity", "low_speed", bare=bare)
    assert caught.value.part == "low_speed"
    assert str(caught.value).startswith("low speed: ")
    assert str(caught.value).isprintable()


def test_text_without_a_unit_is_refused_unless_it_may_stand_bare():
    with pytest.raises(QuantityError, match="has no unit; write it like '50 mm/s'"):
        quantity("0.05", "velocity", "low")
    assert quantity("0.05", "velocity", "low", bare=True) == 0.05
    assert quantity("2 in/s", "velocity", "low", bare=True) == pytest.approx(0.0508)  # 1 in = 0.0254 m exactly, 1959


@pytest.mark.parametrize("value", [math.nan, math.inf, -math.inf, "1e999 °C", "warm", "20", "20 mm"])
def test_a_temperature_that_is_none_is_refused(value):
    with pytest.raises(QuantityError) as caught:
        temperature_of(value, "air")
    assert caught.value.part == "air"


def test_temperatures_are_the_same_in_any_scale():
    # NIST SP 811, appendix B.8: t/°C = (t/°F − 32)/1.8; t/°C = T/K − 273.15
    assert temperature_of(25.0) == temperature_of("25 °C") == pytest.approx(temperature_of("77 °F"))
    assert temperature_of("298.15 K") == pytest.approx(25.0)


@pytest.mark.parametrize("kind", [QuantityError, CallError, LookupFault])
def test_an_error_within_is_about_the_part_and_keeps_its_kind_and_need(kind):
    with pytest.raises(kind) as caught, about("rear_pack"):
        raise kind("no such thing", part="name", need="library")
    assert (str(caught.value), caught.value.part, caught.value.need) == (
        "rear pack: no such thing",
        "rear_pack",
        "library",
    )


def test_a_fault_of_the_program_is_not_made_an_error_of_the_question():
    with pytest.raises(ZeroDivisionError), about("speed"):
        1 / 0  # noqa: B018
    assert not issubclass(ZeroDivisionError, DynoanError)


def test_a_time_without_a_unit_is_seconds_and_a_length_is_not():
    assert quantity("3", "time", "time") == quantity("3 s", "time", "time") == quantity(3, "time", "time") == 3.0
    with pytest.raises(QuantityError, match="no unit"):
        quantity("3", "length", "length")


@dataclass(frozen=True, kw_only=True)
class _Arrays(Answer):
    def to_dict(self):
        return {"a": np.arange(2.0), "b": ({"c": np.float64(1.5)}, [np.bool_(True), np.int64(3)], "text", None)}


def test_plain_values_go_through_json_whatever_arrays_an_answer_holds():
    found = json.loads(json.dumps(_Arrays().to_dict()))
    assert found == {"a": [0.0, 1.0], "b": [{"c": 1.5}, [True, 3], "text", None]}


def test_every_jobs_answer_is_made_plain_so():
    for module in pkgutil.walk_packages(dynoan.jobs.__path__, "dynoan.jobs."):
        importlib.import_module(module.name)
    answers, left = set(), [Answer]
    while left:
        below = left.pop().__subclasses__()
        answers.update(below)
        left += below
    of_jobs = [one for one in answers if one.__module__.startswith("dynoan.jobs") and one.job]
    assert len(of_jobs) > 30
    assert all(hasattr(one.to_dict, "__wrapped__") for one in of_jobs)
