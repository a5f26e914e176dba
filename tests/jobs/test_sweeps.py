"""Listing, correcting, removing and verifying sweeps as questions and answers."""

from __future__ import annotations

import datetime
import json

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from dynoan.errors import CallError, LibraryError, LookupFault, QuantityError
from dynoan.jobs.ahead import doubted
from dynoan.jobs.check import CheckQuestion
from dynoan.jobs.check import answer as check
from dynoan.jobs.edit import EditQuestion, merged_clicks
from dynoan.jobs.edit import answer as edit
from dynoan.jobs.kept import record_row
from dynoan.jobs.new import NewQuestion
from dynoan.jobs.new import answer as new
from dynoan.jobs.remove import RemoveQuestion
from dynoan.jobs.remove import answer as remove
from dynoan.jobs.sweeps import SweepsQuestion
from dynoan.jobs.sweeps import answer as sweeps
from dynoan.library import SweepRecord
from dynoan.model.shock import ADJUSTERS
from dynoan.show import presenting
from dynoan.show.text.blocks import Look, Note, Paragraph, Table
from dynoan.workbench import Workbench
from dynoan.workbench.resolving import Wanted
from tests.library.made import made_sweep

KEPT = (
    ("FL-01", "gravel", {"lsc": 6, "lsr": 8}),
    ("FL-01", "tarmac", {"lsc": 6, "lsr": 2}),
    ("RL-02", "gravel", {"lsc": 1}),
)
CLICKS = st.dictionaries(st.sampled_from(sorted(ADJUSTERS)), st.integers(0, 999))
NAMES = st.text("abcdefgh-01 ü", min_size=1, max_size=8).map(str.strip).filter(bool)


@pytest.fixture
def bench(library):
    for number, (shock, pack, clicks) in enumerate(KEPT):
        library.add(*made_sweep(number, shock=shock, pack=pack, clicks=clicks))
    return Workbench.find(library.path)


@pytest.fixture
def tarmac(bench):
    return next(r for r in bench.library.records() if r.pack == "tarmac")


def made_record(shock="FL-01", pack="gravel", clicks=None, date="2026-03-01"):
    return SweepRecord("a" * 10, shock, pack, clicks or {}, "trace", date, None, None, 9, "a.csv", "0" * 64)


# Listing


@pytest.mark.parametrize(
    ("filters", "count"),
    [((), 3), (("pack=gravel",), 2), (("pack=gravel", "shock=FL-01"), 1), (("gravel@lsc=6",), 1), (("LSR=2",), 1),
     (("gravel",), 2), (("gravel", "FL-01"), 1), (("date=2026-03",), 3), (("date=2026-04",), 0), (("hsc=1",), 0)],
)  # fmt: skip
def test_what_is_listed_fits_every_filter(bench, filters, count):
    found = sweeps(bench, SweepsQuestion.asked(*filters))
    assert (len(found.records), found.held, len(found.to_dict()["sweeps"])) == (count, 3, count)
    assert [r.id for r in found.records] == sorted(r.id for r in found.records)


@settings(deadline=None)
@given(NAMES, NAMES, CLICKS)
def test_a_sweep_fits_the_filter_made_of_itself_and_no_other_click(shock, pack, clicks):
    filters = [f"shock={shock}", f"pack={pack}", "date=2026", *(f"{k}={v}" for k, v in clicks.items())]
    wanted = SweepsQuestion.asked(*filters).wanted
    assert wanted.fits(made_record(shock, pack, clicks))
    assert not wanted.fits(made_record(shock, f"{pack}x", clicks))
    for name, click in clicks.items():
        assert not wanted.fits(made_record(shock, pack, clicks | {name: click + 1}))


def test_nothing_wanted_fits_everything():
    assert Wanted().fits(made_record(None, None, {}, None))
    assert not Wanted(date="2026").fits(made_record(date=None))


@pytest.mark.parametrize("text", ["colour=red", "lsc=six", "lsc=6,lsc=7"])
def test_a_filter_that_is_none_is_refused_with_what_there_is(text):
    with pytest.raises(CallError, match="lsc"):
        SweepsQuestion.asked(text)


def test_a_name_that_is_nearly_one_is_asked_about(bench):
    with pytest.raises(LookupFault, match=r"'grvel' is no shock and no pack .*did you mean 'gravel'"):
        sweeps(bench, SweepsQuestion.asked("grvel"))
    none = presenting.blocks(sweeps(bench, SweepsQuestion.asked("pack=grvel")), Look())
    assert none == [Paragraph("no sweep of 3 fits pack=grvel (did you mean 'gravel'?)")]


def test_a_damaged_file_is_a_warning_and_the_rest_is_listed(bench, tarmac):
    (bench.library.path / tarmac.file).write_bytes(b"gone wrong")
    found = sweeps(bench, SweepsQuestion.asked())
    assert len(found.records) == 2
    assert found.warnings[0].startswith(f"{tarmac.file}: left out: ")


def test_a_list_says_of_how_many_it_was_chosen(bench):
    table, note = presenting.blocks(sweeps(bench, SweepsQuestion.asked("pack=gravel")), Look())
    assert isinstance(table, Table)
    assert (len(table.rows), note) == (2, Note("sweeps: 2 of 3"))
    assert presenting.blocks(sweeps(bench, SweepsQuestion.asked()), Look())[1] == Note("sweeps: 3")
    none = presenting.blocks(sweeps(bench, SweepsQuestion.asked("pack=wet", "lsc=1")), Look())
    assert none == [Paragraph("no sweep of 3 fits pack=wet lsc=1")]


def test_more_of_a_list_is_in_the_units_shown(bench):
    found = sweeps(bench, SweepsQuestion.asked())
    usual, more = (presenting.blocks(found, Look("us", more=more))[0] for more in (False, True))
    assert list(more.columns) == [*usual.columns, "gas", "added", "SHA-256"]
    assert more.rows[0][9] == "116 psi"  # 8 bar / (0.45359237 · 9.80665 / 0.0254² Pa): NIST SP 811, B.8


def test_an_empty_library_says_what_to_do(library):
    (text,) = presenting.blocks(sweeps(Workbench.find(library.path), SweepsQuestion.asked()), Look())
    assert "dynoan add FILE" in text.text


def test_the_frame_has_clicks_as_text_and_units_in_its_columns(bench):
    frame = sweeps(bench, SweepsQuestion.asked()).to_frame()
    none = sweeps(bench, SweepsQuestion.asked("pack=wet")).to_frame()
    assert (len(none), list(none.columns)) == (0, list(frame.columns))
    assert list(frame.columns) == list(record_row(bench.library.records()[0]))
    assert set(frame["clicks"]) == {"lsc=6,lsr=8", "lsc=6,lsr=2", "lsc=1"}
    assert {"temperature_c", "gas_pressure_pa"} <= set(frame.columns)


# Correcting


def test_a_correction_changes_what_is_named_and_nothing_else(bench, tarmac):
    found = edit(bench, EditQuestion.asked(tarmac.id[:6], clicks="lsc=9", temperature="95 °F", date="2026-05-02"))
    now = bench.library.record(tarmac.id)
    assert (found.before, found.records) == ((tarmac,), (now,))
    assert (now.clicks, now.date, now.pack) == ({"lsc": 9, "lsr": 2}, "2026-05-02", "tarmac")
    assert now.temperature == pytest.approx(35.0)
    assert found.to_dict()["sweeps"][0]["clicks"] == {"lsc": 9, "lsr": 2}


def test_a_day_far_ahead_is_doubted(bench, tarmac):
    assert edit(bench, EditQuestion.asked(tarmac.id, date="2026-02-01")).warnings == ()
    later = f"{datetime.date.today().year + 5}-02-01"
    assert edit(bench, EditQuestion.asked(tarmac.id, date=later)).warnings == (
        f"{later} lies more than a year ahead: is the year right?",
    )
    today = datetime.date(2026, 3, 1)
    assert not list(doubted(["2027-02-28", None, "2027-03-01T10:00"], today))
    assert len(list(doubted(["2027-03-03", "2027-03-03", "2031-01-01"], today))) == 2


def test_empty_takes_a_fact_away(bench, tarmac):
    edit(bench, EditQuestion.asked(tarmac.id, pack="", date="", clicks={}))
    now = bench.library.record(tarmac.id)
    assert (now.pack, now.date, now.clicks, now.shock) == (None, None, {}, "FL-01")


@settings(deadline=None)
@given(CLICKS, st.none() | CLICKS)
def test_clicks_not_named_stay(before, given_clicks):
    merged = merged_clicks(made_record(clicks=before), given_clicks)
    if given_clicks:
        assert merged == {**before, **given_clicks}
    else:
        assert merged == given_clicks  # None leaves them, an empty mapping takes them away


@settings(deadline=None)
@given(st.floats(-60, 400))
def test_a_temperature_is_a_number_in_celsius_or_text(degrees):
    assert EditQuestion.asked("a", temperature=degrees).temperature == degrees
    assert EditQuestion.asked("a", temperature=f"{degrees!r} °C").temperature == degrees
    fahrenheit = f"{degrees * 1.8 + 32!r} °F"  # NIST SP 811, B.8
    assert EditQuestion.asked("a", temperature=fahrenheit).temperature == pytest.approx(degrees, abs=1e-9)


def in_question(date):
    """The date in the question, or what the refusal is about."""
    try:
        return EditQuestion.asked("a", date=date).date
    except QuantityError as error:
        return error.part


@settings(deadline=None)
@given(st.dates().map(lambda d: d.isoformat()) | st.text())
def test_a_date_is_kept_as_typed_or_refused(text):
    assert in_question(text) in (text.strip(), "date")


@pytest.mark.parametrize(
    ("right", "kind", "part", "need"),
    [
        ({}, CallError, None, "correction"), ({"clicks": "lsc"}, CallError, "clicks", None),
        ({"clicks": ","}, CallError, "clicks", None), ({"pack": "c=4"}, CallError, "pack", "clicks"),
        ({"shock": "lsc=4,lsr=2"}, CallError, "shock", "clicks"), ({"date": "soon"}, QuantityError, "date", None),
        ({"date": "0999-01-01"}, QuantityError, "date", None),
        ({"temperature": "35"}, QuantityError, "temperature", None),
        ({"temperature": float("nan")}, QuantityError, "temperature", None),
        ({"temperature": "1e999 °C"}, QuantityError, "temperature", None),
    ],
)  # fmt: skip
def test_a_wrong_correction_is_about_its_part(right, kind, part, need):
    with pytest.raises(kind) as wrong:
        EditQuestion.asked("a", **right)
    assert (wrong.value.part, wrong.value.need) == (part, need)
    assert "--" not in str(wrong.value)


@pytest.mark.parametrize(
    "right", [{"clicks": "lsc=21"}, {"clicks": "hsr=1"}, {"pack": "x" * 999}, {"shock": "a\u202eb"}]
)
def test_a_correction_that_cannot_be_changes_nothing(bench, tarmac, right):
    shock = "[adjusters.lsc]\nclicks = 20\n[adjusters.lsr]\nclicks = 20\n"
    (bench.library.path / "shocks" / "FL-01.toml").write_text(shock)
    with pytest.raises((CallError, QuantityError)):
        edit(bench, EditQuestion.asked(tarmac.id, **right))
    assert bench.library.record(tarmac.id) == tarmac


def test_clicks_are_held_against_the_shock_it_is_said_to_be(bench, tarmac):
    (bench.library.path / "shocks" / "FR-09.toml").write_text("[adjusters.lsc]\nclicks = 5\n")
    with pytest.raises(CallError, match="FR-09"):
        edit(bench, EditQuestion.asked(tarmac.id, shock="FR-09", clicks="lsc=5"))  # lsr=2 stays, and FR-09 has no lsr


def test_the_workbench_sees_what_was_corrected_and_removed(bench, tarmac):
    assert len(bench.records) == 3
    edit(bench, EditQuestion.asked(tarmac.id, pack="wet"))
    assert {r.pack for r in bench.records} == {"gravel", "wet"}
    remove(bench, RemoveQuestion((tarmac.id,)))
    assert {r.pack for r in bench.records} == {"gravel"}


# Removing


def test_nothing_goes_unless_all_are_known(bench):
    ids = [r.id for r in bench.library.records()]
    with pytest.raises(LookupFault, match="ffffffff"):
        remove(bench, RemoveQuestion((ids[0], "ffffffff")))
    assert len(bench.library.records()) == 3
    found = remove(bench, RemoveQuestion((ids[0], ids[1][:7], ids[0])))
    assert (found.removed, found.failures, found.to_dict()) == (tuple(ids[:2]), (), {"removed": ids[:2]})
    assert [r.id for r in bench.library.records()] == ids[2:]
    assert presenting.blocks(found, Look()) == [Paragraph(f"removed {i}") for i in ids[:2]]


def test_one_that_will_not_go_is_told_beside_those_that_went(bench, monkeypatch):
    ids = [r.id for r in bench.library.records()]
    take = bench.library.remove

    def stubborn(sweep_id):
        if sweep_id == ids[1]:
            raise LibraryError(f"sweeps/{sweep_id}.h5: the disk is read-only")
        take(sweep_id)

    monkeypatch.setattr(bench.library, "remove", stubborn)
    found = remove(bench, RemoveQuestion(tuple(ids)))
    assert found.removed == (ids[0], ids[2])
    assert found.failures == (f"sweeps/{ids[1]}.h5: the disk is read-only",)
    assert presenting.blocks(found, Look())[-1] == Note(found.failures[0], failed=True)


# Verifying


def test_a_sound_library_is_no_no(bench):
    found = check(bench, CheckQuestion())
    assert (found.no, found.to_dict()) == (False, {"files": 4, "faults": [], "to_fill_in": []})
    assert list(found.to_frame().columns) == ["file", "fault"]
    assert presenting.blocks(found, Look()) == [Paragraph("4 files, all sound")]


def test_a_file_that_is_still_to_be_filled_in_is_named_and_no_fault(bench):
    new(bench, NewQuestion("shock", "FL 21"))
    found = check(bench, CheckQuestion())
    assert (found.no, found.faults) == (False, ())
    assert {row["file"] for row in found.to_dict()["to_fill_in"]} == {"shocks/FL 21.toml"}
    first, last = [block.text for block in presenting.blocks(found, Look())]
    assert first == "shocks/FL 21.toml: 4 values still to be filled in; dynoan new shock 'FL 21' names them"
    assert last == "5 files, all else sound"
    path = bench.library.path / "shocks" / "FL 21.toml"
    path.write_text(path.read_text().replace('clicks = ""', 'clicks = "many"', 1))
    assert check(bench, CheckQuestion()).no, "what is filled in wrongly is a fault"


def test_each_faulty_file_is_named_with_what_is_wrong(bench, tarmac):
    path = bench.library.path / tarmac.file
    path.write_bytes(path.read_bytes()[:-1] + b"\x00\x01")
    (bench.library.path / "cars" / "kes\x1b[2Jtrel.toml").write_text("wheelbase = 3")
    found = check(bench, CheckQuestion())
    assert found.no
    assert (found.files, {f.file for f in found.faults}) == (5, {tarmac.file, "cars/kes\x1b[2Jtrel.toml"})
    assert len(json.loads(json.dumps(found.to_dict()))["faults"]) == len(found.to_frame()) == 2
    *lines, count = [block.text for block in presenting.blocks(found, Look())]
    assert count == "2 of 5 files faulty; the others are sound"
    assert all(line.isprintable() for line in lines)
