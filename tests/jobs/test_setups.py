"""Recording, listing, comparing and recalling setups as questions and answers."""

from __future__ import annotations

import datetime
import json

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from dynoan.errors import CallError, LookupFault, QuantityError
from dynoan.jobs.setup.compare import SetupCompareQuestion
from dynoan.jobs.setup.compare import answer as compare
from dynoan.jobs.setup.edit import SetupEditQuestion
from dynoan.jobs.setup.edit import answer as corrected
from dynoan.jobs.setup.listing import SetupListQuestion
from dynoan.jobs.setup.listing import answer as listed
from dynoan.jobs.setup.plain import setup_row
from dynoan.jobs.setup.recall import SetupRecallQuestion
from dynoan.jobs.setup.recall import answer as recall
from dynoan.jobs.setup.record import SetupRecordQuestion
from dynoan.jobs.setup.record import answer as record
from dynoan.show import presenting
from dynoan.show.text.blocks import Look, Paragraph, Table
from dynoan.workbench import Workbench
from tests.library.made import CAR

SEEN = st.text(st.characters(exclude_categories=["C", "Z"], include_characters=" "), max_size=40)


@pytest.fixture
def bench(library):
    (library.path / "cars" / "kestrel.toml").write_text(CAR)
    return Workbench.find(library.path)


def keep(bench, car="kestrel", **asked):
    return record(bench, SetupRecordQuestion.asked(car, **asked)).setup


def names(setups):
    return [s.name for s in setups]


# Recording


def test_the_cars_own_text_is_kept_word_for_word(bench):
    found = record(bench, SetupRecordQuestion.asked("kestrel", date="2026-05-02", temperature="64.4 °F", good=True))
    assert bench.library.setup_text(found.setup.name).endswith(CAR)
    assert (found.setup.name, found.setup.good) == ("2026-05-02-kestrel", True)
    assert found.setup.temperature == pytest.approx(18.0)  # (64.4 - 32) / 1.8: NIST SP 811, B.8
    plain = json.loads(json.dumps(found.to_dict()))["setup"]
    assert plain["corners"]["fl"] == {"shock": "FL-01", "pack": "gravel", "clicks": {"lsc": 8, "lsr": 10},
                                      "spring_n_m": pytest.approx(48159.88, abs=0.01), "mass_kg": 268.0}  # fmt: skip


def test_it_is_now_where_nothing_says_when(bench):
    before = datetime.datetime.now().replace(microsecond=0)
    assert before <= datetime.datetime.fromisoformat(keep(bench).date) <= datetime.datetime.now()


@given(result=SEEN, remarks=SEEN, good=st.none() | st.booleans(), degrees=st.none() | st.floats(-60, 90))
@settings(suppress_health_check=[HealthCheck.function_scoped_fixture], max_examples=25, deadline=None)
def test_what_is_said_of_a_day_reads_back(bench, result, remarks, good, degrees):
    kept = keep(bench, date="2026-05-02", result=result, remarks=remarks, good=good, temperature=degrees)
    assert (kept.result or "", kept.remarks, kept.good) == (result, remarks, good)
    assert kept.temperature == (None if degrees is None else pytest.approx(degrees, rel=1e-5, abs=1e-6))


def test_a_setup_file_keeps_its_facts_where_nothing_else_is_said(bench, tmp_path):
    page = 'setup.car = "kestrel"\nsetup.date = "2026-05-03"\nsetup.surface = "loose"\nsetup.good = true\n\n' + CAR
    (tmp_path / "phone.toml").write_text(page)
    kept = keep(bench, None, file=tmp_path / "phone.toml", result="P3", good=False)
    assert (kept.date, kept.surface, kept.result, kept.good) == ("2026-05-03", "loose", "P3", False)


@pytest.mark.parametrize(
    ("asked", "kind", "part", "need"),
    [
        ({}, CallError, None, "car or file"), ({"car": "kestrel", "file": "a.toml"}, CallError, None, "car or file"),
        ({"car": "kestrel", "date": "yesterday"}, QuantityError, "date", None),
        ({"car": "kestrel", "date": ""}, QuantityError, "date", None),
        ({"car": "kestrel", "temperature": "18"}, QuantityError, "temperature", None),
        ({"car": "kestrel", "temperature": "18 mm"}, QuantityError, "temperature", None),
        ({"car": "kestrel", "temperature": float("inf")}, QuantityError, "temperature", None),
    ],
)  # fmt: skip
def test_a_wrong_question_is_about_its_part_and_names_no_option(asked, kind, part, need):
    with pytest.raises(kind) as wrong:
        SetupRecordQuestion.asked(**asked)
    assert (wrong.value.part, wrong.value.need) == (part, need)
    assert "--" not in str(wrong.value)


@pytest.mark.parametrize(
    ("asked", "says"),
    [
        ({"car": "kestral"}, "did you mean 'kestrel'"), ({"car": "kestrel", "temperature": 180.0}, "no weather"),
        ({"car": "kestrel", "remarks": "x" * 30_000}, "shorten"), ({"file": "/dev/zero"}, "not a regular file"),
        ({"file": "nowhere.toml"}, "nowhere.toml"),
    ],
)  # fmt: skip
def test_what_cannot_be_kept_leaves_nothing(bench, asked, says):
    with pytest.raises(Exception, match=says):
        record(bench, SetupRecordQuestion.asked(**asked))
    assert bench.library.setups() == ()


# Listing and recalling


@pytest.fixture
def season(bench):
    keep(bench, date="2026-05-02", surface="loose", good=True)
    keep(bench, date="2026-06-02", surface="sticky", good=True)
    keep(bench, date="2026-07-02", surface="loose", good=False)
    keep(bench, date="2026-08-02", surface="loose")
    return bench


def test_setups_are_listed_oldest_first(season):
    found = listed(season, SetupListQuestion())
    assert [s.date for s in found.setups] == ["2026-05-02", "2026-06-02", "2026-07-02", "2026-08-02"]
    assert names(listed(season, SetupListQuestion("LOOSE")).setups) == [
        "2026-05-02-kestrel", "2026-07-02-kestrel", "2026-08-02-kestrel"
    ]  # fmt: skip
    assert listed(season, SetupListQuestion("ice")).setups == ()
    assert list(found.to_frame()["good"]) == [True, True, False, None]
    assert "temperature_c" in found.to_frame().columns
    assert list(found.to_frame().columns) == list(setup_row(found.setups[0]))
    assert list(listed(season, SetupListQuestion("ice")).to_frame().columns) == list(found.to_frame().columns)


def test_long_remarks_are_cut_short_unless_more_is_wanted(bench):
    keep(bench, date="2026-05-02", remarks="rear loose on exit\n" * 9)
    usual, more = (presenting.blocks(listed(bench, SetupListQuestion()), Look(more=more))[0] for more in (False, True))
    assert isinstance(usual, Table)
    assert (len(usual.rows[0][-1]), usual.rows[0][-1][-1]) == (60, "…")
    assert more.rows[0][-1] == " ".join(["rear loose on exit"] * 9)


def test_no_setups_says_how_to_keep_one(bench):
    (text,) = presenting.blocks(listed(bench, SetupListQuestion("ice")), Look())
    assert text.text.startswith("no setups on ice yet; keep one with:")


@pytest.mark.parametrize(
    ("question", "date"),
    [(SetupRecallQuestion(), "2026-06-02"), (SetupRecallQuestion(surface="Loose"), "2026-05-02"),
     (SetupRecallQuestion(car="KESTREL"), "2026-06-02"), (SetupRecallQuestion("2026-07-02-kestrel"), "2026-07-02")],
)  # fmt: skip
def test_the_last_good_one_that_fits_is_recalled_or_the_one_named(season, question, date):
    found = recall(season, question)
    assert (found.no, found.setup.date, found.car_text) == (False, date, CAR)
    assert set(found.to_dict()) == {"setup", "text"}
    assert presenting.blocks(found, Look())[0].text == found.text.rstrip("\n")


@pytest.mark.parametrize(
    ("question", "says"),
    [(SetupRecallQuestion(surface="wet"), "no good setup on wet is kept"),
     (SetupRecallQuestion(surface="loose", car="gull"), "no good setup on loose of gull is kept")],
)  # fmt: skip
def test_the_answer_is_no_where_no_good_one_fits(season, question, says):
    found = recall(season, question)
    assert (found.no, found.to_dict(), list(found.rows())) == (True, {"setup": None, "unreadable": []}, [])
    (text,) = presenting.blocks(found, Look())
    assert isinstance(text, Paragraph)
    assert text.text.startswith(says)
    with pytest.raises(LookupFault):
        _ = found.car_text


def test_a_setup_edited_wrongly_is_a_warning_and_the_rest_is_found(season):
    (season.library.path / "setups" / "2026-09-09-kestrel.toml").write_text(CAR)
    found = listed(season, SetupListQuestion())
    assert len(found.setups) == 4
    assert found.warnings[0].startswith("setups/2026-09-09-kestrel.toml: left out: ")
    assert recall(season, SetupRecallQuestion()).warnings == found.warnings
    with pytest.raises(QuantityError, match=r"setups/2026-09-09-kestrel\.toml"):
        recall(season, SetupRecallQuestion("2026-09-09-kestrel"))


# Comparing


def test_only_what_differs_is_told_values_in_si_texts_as_shown(bench):
    keep(bench, date="2026-05-02", surface="loose")
    changed = CAR.replace("lsc=8,lsr=10", "lsc=9,lsr=10").replace("38 N/mm", "42 N/mm")
    (bench.library.path / "cars" / "kestrel.toml").write_text(changed)
    keep(bench, date="2026-05-02", surface="loose")
    found = compare(bench, SetupCompareQuestion("2026-05-02-kestrel", "2026-05-02-kestrel-2"))
    assert {row["what"]: (row["a"], row["b"]) for row in found.rows()} == {
        "front left lsc": (8, 9), "rear left spring": (38_000.0, 42_000.0), "rear right spring": (38_000.0, 42_000.0),
    }  # fmt: skip
    assert (found.to_dict()["a"], found.to_dict()["b"]) == ("2026-05-02-kestrel", "2026-05-02-kestrel-2")
    (table,) = presenting.blocks(found, Look("us"))
    assert ["rear left spring", "217 lb/in", "240 lb/in"] in [list(r) for r in table.rows]  # NIST SP 811, B.8
    same = compare(bench, SetupCompareQuestion("2026-05-02-kestrel", "2026-05-02-kestrel"))
    assert presenting.blocks(same, Look())[0].text.endswith("do not differ")
    assert len(same.to_frame()) == 0


def test_a_setup_there_is_none_of_is_named(season):
    with pytest.raises(LookupFault, match="no setup 'may'"):
        compare(season, SetupCompareQuestion("2026-05-02-kestrel", "may"))


# Correcting, and the card


def test_a_corrected_setup_keeps_its_name_and_its_car(bench):
    kept = keep(bench, date="2026-05-02", result="2nd", remarks="wet", good=False)
    found = corrected(
        bench, SetupEditQuestion.asked(kept.name, result="1st", remarks="", good=True, temperature="18 °C")
    )
    assert (found.setup.name, found.setup.result, found.setup.remarks) == (kept.name, "1st", "")
    assert (found.setup.good, found.setup.temperature, found.setup.recorded) == (True, 18.0, kept.recorded)
    assert bench.library.setup_text(kept.name).endswith(CAR)
    assert found.before.result == "2nd"


def test_correcting_nothing_or_what_is_not_there_is_refused(bench):
    with pytest.raises(CallError, match="nothing to correct"):
        SetupEditQuestion.asked("x")
    with pytest.raises(LookupFault):
        corrected(bench, SetupEditQuestion.asked("x", result="1st"))


def test_the_card_holds_what_goes_on_each_corner(bench):
    kept = keep(bench, date="2026-05-02", surface="loose", good=True)
    found = recall(bench, SetupRecallQuestion(kept.name, card=True))
    tables = [b for b in presenting.blocks(found, Look("us")) if isinstance(b, Table)]
    front = {row[0]: list(row[1:]) for row in tables[0].rows}
    assert front["lsc"] == ["8", ""]
    assert front["spring"] == ["275 lb/in", "275 lb/in"]
    assert front["shock"] == ["FL-01", ""]
    assert any("clicks from closed" in b.text for b in presenting.blocks(found, Look()) if isinstance(b, Paragraph))
