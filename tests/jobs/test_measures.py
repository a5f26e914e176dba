"""Figures declared once: the same number at every door, a dash where it is not known."""

from __future__ import annotations

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from dynoan.jobs.measures import Measure, as_dict, cells
from dynoan.model.banded import Banded
from dynoan.units import parse

FEW = settings(max_examples=40, deadline=None)
KINDS = ("force", "velocity", "length", "stiffness", "mass", "pressure")


@pytest.mark.parametrize("kind", KINDS)
@FEW
@given(st.floats(-1e4, 1e4), st.sampled_from(["metric", "us"]))
def test_a_figure_with_the_unit_of_its_column_is_the_figure_in_si(kind, number, units):
    measure = Measure("x", "x", lambda _: number, kind)
    display = measure.display(units)
    shown = parse(f"{measure.text(None, units)} {measure.unit_text(units)}", kind)
    assert abs(shown - number) <= 0.5000001 * 10.0**-display.digits * display.factor


@pytest.mark.parametrize(
    "measure",
    [
        Measure("x", "x", lambda v: v), Measure("x", "x", lambda v: v, "force"),
        Measure("x", "x", lambda v: v, percent=True), Measure("x", "x", lambda v: v, unit="Hz"),
    ],
)  # fmt: skip
@pytest.mark.parametrize("value", [None, math.nan])
def test_what_is_not_known_is_a_dash_everywhere(measure, value):
    assert measure.text(value, "metric") == measure.text(value, "us") == "–"


def test_a_share_is_read_in_percent_and_words_as_they_are():
    assert Measure("x", "x", lambda v: v, percent=True).text(0.126, "metric") == "13 %"
    assert Measure("x", "x", lambda v: v, "force").text("critical", "us") == "critical"
    assert Measure("x", "x", lambda v: v).text(Banded(0.45, 0.43, 0.47), "metric") == "0.45 (0.43–0.47)"


def test_a_table_has_a_row_a_thing_and_the_measures_of_the_place_alone():
    always, more, never = (Measure(p, p, lambda v: v, "mass", terminal=p) for p in ("always", "more", "never"))
    measures = (always, more, never)
    assert cells(measures, {"FL": 1.0, "FR": 2.0}, "metric", ("always",)) == (
        ["always kg"],
        [["FL", "1.0"], ["FR", "2.0"]],
    )
    heads, rows = cells(measures, {"FL": 1.0}, "us", ("always", "more"))
    assert heads == ["always lb", "more lb"]
    assert rows == [["FL", "2", "2"]]
    assert as_dict(measures, 1.5) == {"always": 1.5, "more": 1.5, "never": 1.5}


@pytest.mark.parametrize(
    ("banded", "text"),
    [
        (Banded(1.005, 0.9, 1.1), "1.00 (0.90–1.10)"),
        (Banded(0.3, 0.2, 0.4, extrapolated=True), "0.30 (0.20–0.40) beyond data"),
        (Banded(12345.6, -1.0, 1e6), "12345.60 (-1.00–1000000.00)"),
    ],
)  # fmt: skip
def test_a_banded_figure_is_read_with_its_limits(banded, text):
    assert banded.text() == text
    assert Banded(0.45, 0.4, 0.5).text(1).startswith("0.")
    assert Banded(12.345, 12.3, 12.4).text(0) == "12 (12–12)"
