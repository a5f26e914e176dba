"""Dates in the files of a library: kept in one form, read right in the forms that earlier versions kept, else named."""

from __future__ import annotations

from dataclasses import replace

import pytest

from dynoan.errors import QuantityError
from dynoan.library import Library
from dynoan.library.car_file import car_from_text
from dynoan.library.sweep_file import Kept, encode
from dynoan.model.setup import Setup
from tests.library.calling import dynoan
from tests.library.made import CAR, made_sweep


@pytest.fixture
def library(tmp_path, monkeypatch):
    library = Library.create(tmp_path / "lib")
    (library.path / "cars" / "kestrel.toml").write_text(CAR)
    monkeypatch.chdir(library.path)
    monkeypatch.delenv("DYNOAN_LIBRARY", raising=False)
    return library


def test_november_comes_after_may_however_both_are_typed(library):
    for day in ("20260502", "2.11.2026", "2026-W10-1", "May 30, 2026"):
        assert dynoan("setup", "record", "kestrel", "--good", "--date", day).code == 0
    assert [s.date for s in library.setups()] == ["2026-03-02", "2026-05-02", "2026-05-30", "2026-11-02"]
    assert dynoan("setup", "recall", "--json").result["setup"]["name"] == "2026-11-02-kestrel"
    assert sorted(library.text_names("setups")) == [f"{s.date}-kestrel" for s in library.setups()]


@pytest.mark.parametrize("command", [("setup", "record", "kestrel"), ("edit", "ID")])
def test_a_date_of_two_readings_is_refused_and_nothing_kept(library, command):
    sweep = library.add(*made_sweep()).id
    done = dynoan(*(sweep if word == "ID" else word for word in command), "--date", "05/02/2026")
    assert done.code == 2
    assert "'05/02/2026' could be 5 February or 2 May" in done.err
    assert library.setups() == ()
    assert library.records()[0].date == "2026-03-01"


def test_an_edited_date_is_kept_in_the_one_form(library):
    sweep = library.add(*made_sweep()).id
    assert dynoan("edit", sweep, "--date", "2 May 2026").code == 0
    assert library.records()[0].date == library.load(sweep).date == "2026-05-02"


@pytest.mark.parametrize("kept", ["20260502", "2.5.2026", "2026-05-02"])
def test_a_setup_file_of_another_form_is_read_right_and_sorted(library, kept):
    car = car_from_text(CAR, "cars/kestrel.toml")
    library.record_setup(Setup("", car, "2026-11-01", good=True), CAR)
    text = library.setup_text("2026-11-01-kestrel").replace("2026-11-01", kept)
    (library.path / "setups" / "older.toml").write_text(text)
    assert [s.date for s in library.setups()] == ["2026-05-02", "2026-11-01"]
    assert library.check().faults == ()


def test_a_setup_file_whose_date_has_two_readings_is_named(library):
    car = car_from_text(CAR, "cars/kestrel.toml")
    library.record_setup(Setup("", car, "2026-11-01", good=True), CAR)
    text = library.setup_text("2026-11-01-kestrel").replace("2026-11-01", "05/02/2026")
    (library.path / "setups" / "odd.toml").write_text(text)
    (fault,) = library.check().faults
    assert fault.file == "setups/odd.toml"
    assert "setup.date: '05/02/2026' could be 5 February or 2 May" in fault.fault
    with pytest.raises(QuantityError, match="could be"):
        library.setup("odd")


@pytest.mark.parametrize(
    ("kept", "read"), [("20260502", "2026-05-02"), ("2026-W10-1", "2026-03-02"), ("05/02/2026", None)]
)
def test_a_sweep_that_an_earlier_version_kept_with_a_date_of_another_form(library, kept, read):
    sweep, original = made_sweep()
    sweep_id = library.add(sweep, original).id
    path = library.path / "sweeps" / f"{sweep_id}.h5"
    path.write_bytes(encode(Kept(replace(sweep, date=kept), original, "2026-01-01T00:00:00.000Z")))
    assert library.records()[0].date == library.load(sweep_id).date == (read or kept)
    faults = library.check().faults
    assert [f.file for f in faults] == ([] if read else [f"sweeps/{sweep_id}.h5"])
    assert all("dynoan edit" in f.fault for f in faults)


def test_sweeps_are_chosen_by_day_month_or_year_in_any_form(library):
    library.add(*made_sweep())
    for date, found in (
        ("2026-03-01", 1),
        ("1.3.2026", 1),
        ("2026-03", 1),
        ("2026", 1),
        ("2026-04", 0),
        ("20260302", 0),
    ):
        assert len(dynoan("sweeps", f"date={date}", "--json").result["sweeps"]) == found, date
    assert dynoan("sweeps", "date=1/3/2026").code == 2
