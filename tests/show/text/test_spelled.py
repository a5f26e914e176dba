"""Signs that a terminal cannot show are spelled, in tables as in lines, and columns stay straight."""

from __future__ import annotations

import io

import pytest

from dynoan.show.text.plan import speeds_text
from dynoan.show.text.signs import signed
from dynoan.show.text.spelled import SPELLED, spelled
from dynoan.show.text.tables import table
from dynoan.units import FACTORS, normal_unit


def stream(encoding):
    return io.TextIOWrapper(io.BytesIO(), encoding=encoding)


def test_only_what_cannot_be_shown_is_spelled():
    text = "− 2 ± 0.3 °F, 5 m/s² … größer ☃"
    assert spelled(text, stream("utf-8")) == text
    assert spelled(text, stream("cp1252")) == "- 2 ± 0.3 °F, 5 m/s² … größer ☃"
    assert spelled(text, stream("ascii")) == "- 2 +/- 0.3 degF, 5 m/s2 ... größer ☃"


def test_every_spelling_is_plain_and_a_unit_stays_one():
    assert all(plain.isascii() for plain in SPELLED.values())
    assert normal_unit(spelled("m/s²", stream("ascii"))) in FACTORS["acceleration"]
    assert normal_unit(spelled("kg·m²", stream("ascii"))) in FACTORS["inertia"]


def test_a_table_of_spelled_numbers_stays_to_the_right(monkeypatch):
    out = stream("ascii")
    monkeypatch.setattr("sys.stdout", out)
    table(["force", "limits", "change"], [["2.0", "± 0.3", "−1.5"], ["123.0", "± 10.5", "0.40–0.50"]])
    out.flush()
    lines = out.buffer.getvalue().decode("ascii").splitlines()
    assert lines[2:] == ["  2.0   +/- 0.3       -1.5", "123.0  +/- 10.5  0.40-0.50"]


@pytest.mark.parametrize(("value", "text"), [(-0.04, "0.0"), (0.0, "0.0"), (0.06, "+0.1"), (-12.34, "-12.3")])
def test_nothing_has_no_sign(value, text):
    assert signed(value, 1) == text


def test_speeds_of_a_plan_are_whole_where_that_is_hardly_another_speed():
    assert speeds_text((0.025, 0.0406, 0.05, 0.1, 0.15, 0.25, 0.5), "us") == "1 1.6 2 4 6 10 20"
    assert speeds_text((0.025, 0.0406, 0.5), "metric") == "25 41 500"
