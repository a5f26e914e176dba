"""The columns of a logged file: names, units, numbers."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from dynoan.errors import CallError, QuantityError, ReadError
from dynoan.jobs.log_time import log_time
from dynoan.model.log import LogColumn, like
from dynoan.reading import read_log

HEAD = "Time [s],Shock FL [mm],Speed (in/s),Gear\n"


@pytest.fixture
def log(tmp_path):
    path = tmp_path / "run.csv"
    path.write_text(HEAD + "".join(f"{n / 100:.2f},{n % 7 - 3},{n % 5},{n % 3}\n" for n in range(200)))
    return read_log(path)


def test_names_stand_without_their_units_and_numbers_as_written(log):
    assert [(c.name, c.unit) for c in log.columns][:3] == [("Time", "s"), ("Shock FL", "mm"), ("Speed", "in/s")]
    assert np.array_equal(log.columns[1].values, [n % 7 - 3 for n in range(200)])


def test_si_follows_from_the_unit_in_the_header(log):
    assert log_time(log).seconds[-1] == pytest.approx(1.99)
    assert log.named("shock fl").si("length").max() == pytest.approx(0.003)
    assert log.named("Speed").si("velocity").max() == pytest.approx(4 * 0.0254)  # NIST SP 811, B.8


@pytest.mark.parametrize("name", ["Shock FL", "shock_fl", " SHOCK-FL ", "Shock.FL", "Shock FL [mm]"])
def test_a_column_is_found_however_its_name_is_typed(log, name):
    assert log.named(name) is log.columns[1]


def test_what_is_not_there_is_named_with_what_is(log):
    with pytest.raises(CallError, match=r"no column 'POT_1'; it has Time, Shock FL, Speed, Gear"):
        log.named("POT_1")
    with pytest.raises(CallError, match="no column is named time"):
        log_time(replace(log, columns=log.columns[1:]))
    assert like(log.columns, "^rpm") is None


def test_a_unit_that_is_none_or_of_another_kind_is_refused(log):
    with pytest.raises(QuantityError, match="'Gear' states no unit"):
        log.named("Gear").si("length")
    with pytest.raises(QuantityError, match="'mm' is no unit of velocity"):
        log.named("Shock FL").si("velocity")
    with pytest.raises(QuantityError, match="'N' is no unit of length"):
        LogColumn("Load", "N", np.zeros(3), "run.csv").si("length")


def test_a_log_whose_columns_have_no_names_is_refused(tmp_path):
    (tmp_path / "bare.csv").write_text("".join(f"{n / 100:.2f},{n % 7 - 3}\n" for n in range(200)))
    with pytest.raises(ReadError, match="no line names the columns"):
        read_log(tmp_path / "bare.csv")
