"""Columns of a logger found and turned into SI whatever they are called and whatever stands in them."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from dynoan.errors import CallError, QuantityError
from dynoan.jobs.log_time import log_time
from dynoan.model.log import Log, LogColumn

FEW = settings(max_examples=50, deadline=None)
NAMES = st.lists(st.text(max_size=10), min_size=1, max_size=5)


def log(*columns: tuple[str, str]) -> Log:
    return Log("runs/a.csv", tuple(LogColumn(n, u, np.arange(3.0), "a.csv") for n, u in columns))


@FEW
@given(NAMES)
def test_every_column_is_found_by_its_name_the_first_where_two_are_alike(names):
    made = log(*((name, "mm") for name in names))
    for name in names:
        found = made.named(name)
        assert made.columns.index(found) <= names.index(name)


@FEW
@given(NAMES, st.text(max_size=10))
def test_a_name_is_found_or_refused_with_the_file_and_all_there_are(names, wanted):
    made = log(*((name, "mm") for name in names))
    try:
        assert made.named(wanted) in made.columns
    except CallError as error:
        said = str(error)
        assert said.startswith("a.csv: no column")
        assert all(name in said for name in names)


@pytest.mark.parametrize(("one", "other", "ratio"), [("mm", "in", 25.4), ("m/s", "mm/s", 1e-3), ("N", "kN", 1e3)])
def test_the_same_motion_in_another_unit_is_the_same(one, other, ratio):
    kind = {"mm": "length", "m/s": "velocity", "N": "force"}[one]
    values = np.array([0.0, -2.0, np.nan, np.inf, 1e30])
    first = LogColumn("x", one, values * ratio, "a.csv").si(kind)
    np.testing.assert_allclose(LogColumn("x", other, values, "a.csv").si(kind), first, rtol=1e-12)


@FEW
@given(st.text(max_size=20))
def test_a_unit_is_understood_or_refused_with_file_column_and_one_that_would_be_right(unit):
    try:
        values = LogColumn("Load", unit, np.ones(2), "a.csv").si("force")
    except QuantityError as error:
        assert str(error).startswith("a.csv: column 'Load'")  # noqa: PT017
        assert "N" in str(error)  # noqa: PT017
    else:
        assert (values > 0).all()


def test_time_is_the_column_called_so_before_others_and_its_unit_is_told_by_its_steps():
    assert log_time(log(("lap time", "s"), ("Time", "ms"))).seconds.tolist() == [0.0, 1e-3, 2e-3]
    assert log_time(log(("timestamp", "s"))).seconds.tolist() == [0.0, 1.0, 2.0]
    found = log_time(log(("Time", "")))
    assert (found.told, found.seconds.tolist()) == ("ms", [0.0, 1e-3, 2e-3])
    assert log_time(log(("Time", "ms"), ("T2", "s")), "t2").seconds.tolist() == [0.0, 1.0, 2.0]
    with pytest.raises(CallError, match=r"a\.csv: no column is named time; it has lap time"):
        log_time(log(("lap time", "s")))
    with pytest.raises(CallError, match=r"a\.csv: column 'Time' is no time of a log, .* 'Time \[s\]'"):
        log_time(log(("Time", "mm")))
