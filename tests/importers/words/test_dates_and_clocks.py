"""Days and clock times in the ways people write them; swapped day and month must not be guessed."""

from __future__ import annotations

from datetime import date, datetime, timedelta

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from importers.words.clock import clock_seconds
from importers.words.dates import date_of, lone_day, without_dates
from tests.importers.making import quick

DAYS = st.dates(min_value=date(1950, 1, 1), max_value=date(2100, 12, 31))
ENGLISH = ("January", "February", "March", "April", "May", "June",
    "July", "August", "September", "October", "November", "December")  # fmt: skip
GERMAN = ("Januar", "Februar", "März", "April", "Mai", "Juni",
    "Juli", "August", "September", "Oktober", "November", "Dezember")  # fmt: skip
FRENCH = ("janvier", "février", "mars", "avril", "mai", "juin",
    "juillet", "août", "septembre", "octobre", "novembre", "décembre")  # fmt: skip
ITALIAN = ("gennaio", "febbraio", "marzo", "aprile", "maggio", "giugno",
    "luglio", "agosto", "settembre", "ottobre", "novembre", "dicembre")  # fmt: skip
SPANISH = ("enero", "febrero", "marzo", "abril", "mayo", "junio",
    "julio", "agosto", "septiembre", "octubre", "noviembre", "diciembre")  # fmt: skip


@quick
@given(DAYS)
def test_the_iso_day_comes_back(day):
    assert date_of(day.isoformat()) == day.isoformat()
    assert date_of(f"{day:%Y%m%d}") == day.isoformat()
    assert date_of(f"run of {day:%Y/%m/%d} 10:11") == day.isoformat()


@quick
@given(DAYS)
def test_dots_mean_day_before_month(day):
    assert date_of(f"{day.day}.{day.month}.{day.year}") == day.isoformat()
    assert date_of(f"{day:%d.%m.%Y}, 14:05") == day.isoformat()


@quick
@given(DAYS)
def test_strokes_are_believed_only_where_day_and_month_cannot_be_swapped(day):
    sure = day.day > 12 or day.day == day.month
    want = day.isoformat() if sure else None
    assert date_of(f"{day.day}/{day.month}/{day.year}") == want
    assert date_of(f"{day.month}/{day.day}/{day.year}") == want
    assert date_of(f"{day:%m-%d-%Y}") == want


@pytest.mark.parametrize("names", [ENGLISH, GERMAN, FRENCH, ITALIAN, SPANISH], ids=["en", "de", "fr", "it", "es"])
@quick
@given(day=DAYS)
def test_months_in_words_of_five_languages(names, day):
    word = names[day.month - 1]
    assert date_of(f"{day.day} {word} {day.year}") == day.isoformat()
    assert date_of(f"{day.day}. {word} {day.year}") == day.isoformat()


@quick
@given(DAYS)
def test_english_months_before_the_day_and_cut_to_three_letters(day):
    word = ENGLISH[day.month - 1]
    assert date_of(f"{word} {day.day}, {day.year}") in (day.isoformat(), None)
    assert date_of(f"{word[:3]} {day.day} {day.year}") == day.isoformat()
    assert date_of(f"{day.day}-{word[:3]}-{day.year}") == day.isoformat()


@pytest.mark.parametrize("text", ["", "FL-03", "1949-12-31", "2101-01-01", "2026-13-01", "31.02.2026", "12:30:15",
                                  "2 Foo 2026", "gravel"])  # fmt: skip
def test_no_day_is_none(text):
    assert date_of(text) is None


def test_two_digits_are_of_this_century():
    assert date_of("02.05.26") == "2026-05-02"


@quick
@given(DAYS, st.sampled_from(["%Y-%m-%d", "%d.%m.%Y", "%m/%d/%Y"]))
def test_days_leave_no_numbers_behind_that_could_be_clicks(day, form):
    assert without_dates(f"LSC 6 {day:{form}} LSR 8").split() == ["LSC", "6", "LSR", "8"]


TIMES = st.lists(st.integers(0, 86_399_999), min_size=2, max_size=40).map(sorted)


@quick
@given(TIMES, st.sampled_from([".", ","]))
def test_clock_times_are_seconds_since_the_first(milliseconds, mark):
    texts = [f"{m // 3_600_000:02d}:{m // 60_000 % 60:02d}:{m % 60_000 / 1000:06.3f}".replace(".", mark)
             for m in milliseconds]  # fmt: skip
    want = (np.array(milliseconds) - milliseconds[0]) / 1000
    np.testing.assert_allclose(clock_seconds(texts), want, atol=1e-6)


@quick
@given(st.datetimes(min_value=datetime(1990, 1, 1), max_value=datetime(2080, 1, 1)), st.integers(0, 400_000))
def test_clock_times_run_on_over_midnight_where_days_stand_beside_them(start, seconds):
    texts = [start.isoformat(" ", "milliseconds"), (start + timedelta(seconds=seconds)).isoformat("T", "milliseconds")]
    np.testing.assert_allclose(clock_seconds(texts), [0.0, seconds], atol=2e-3)


def test_minutes_and_seconds_alone():
    np.testing.assert_allclose(clock_seconds(["05:12.4", "05:12.9", "06:00.0"]), [0.0, 0.5, 47.6])


@pytest.mark.parametrize("texts", [[], ["1.5", "2.5"], ["FL:03", "FR:04"], ["10:00:00", "x", "y"]])
def test_other_cells_are_no_clock_times(texts):
    assert clock_seconds(texts) is None


def test_a_torn_cell_among_many_is_missing():
    found = clock_seconds(["10:00:00.0", "10:00:00.1", "??", "10:00:00.3"])
    np.testing.assert_allclose(found, [0.0, 0.1, np.nan, 0.3], atol=1e-9)


@quick
@given(DAYS, st.sampled_from(["{}", "{} 10:11:12", "{} 2:33 PM", "Date: {}", "tested on {}", "Datum {}, 14:05 Uhr"]))
def test_a_day_alone_is_found_whatever_time_and_word_stand_beside_it(day, form):
    found = lone_day(form.format(day.isoformat()))
    assert found is not None
    assert date_of(found) == day.isoformat()


@quick
@given(DAYS, st.sampled_from(["calibrated {}", "due {} cell", "oil changed {}", "rev {}b", "shock 12 {}"]))
def test_a_day_of_something_else_is_not_alone(day, form):
    assert lone_day(form.format(day.isoformat())) is None


@pytest.mark.parametrize(
    "text",
    ["14-Mar-26", "14/MAR/2026", "14Mar2026", "2026-Mar-14", "2026年3月14日", "2026년 3월 14일", "14 maart 2026",
     "14 марта 2026", "14. maaliskuuta 2026", "2026. március 14.", "14 Mart 2026", "14 března 2026", "14 marca 2026"],
)  # fmt: skip
def test_months_in_further_languages_and_forms(text):
    assert date_of(text) == "2026-03-14"
    assert lone_day(text) is not None


@pytest.mark.parametrize("text", ["lsc 12 mark 24", "12 mm 200", "run 12-gravel-26", "4 runs 2026"])
def test_numbers_beside_words_are_no_day(text):
    assert date_of(text) is None


DAY_AND_CLOCK = [
    "3/4/2026 14:05:{}", "3/14/2026 14:05:{}", "2026/03/14 14:05:{}", "03/14/2026 02:05:{} PM", "14-Mar-2026 14:05:{}",
    "03-14-2026 14:05:{}", "Mar 14 2026 14:05:{}", "2026-03-14T14:05:{}Z", "14 Mar 2026, 14:05:{}",
    "14.03.2026 14:05:{}", "20260314T1405{}", "20260314-1405{}",
]  # fmt: skip


@pytest.mark.parametrize("form", DAY_AND_CLOCK)
def test_a_day_in_any_form_may_stand_before_the_clock(form):
    stamps = [form.format(f"{11 + 0.004 * i:06.3f}") for i in range(5)]
    assert clock_seconds(stamps) == pytest.approx(0.004 * np.arange(5), abs=1e-6)


@pytest.mark.parametrize(
    "stamps",
    [("3/4/2026 23:59:59.9", "3/5/2026 00:00:00.1"), ("3/4/2026 23:59:59.9", "4/4/2026 00:00:00.1"),
     ("28 Feb 2026 23:59:59.9", "1 Mar 2026 00:00:00.1")],
)  # fmt: skip
def test_the_next_day_follows_in_whichever_order_day_and_month_stand(stamps):
    assert clock_seconds(stamps) == pytest.approx([0, 0.2], abs=1e-6)


@pytest.mark.parametrize("form", ["14:05:11:{:03d}", "14:05:11:{:d}"])
def test_parts_of_a_second_may_stand_behind_a_colon(form):
    assert clock_seconds([form.format(40 * i) for i in range(5)]) == pytest.approx(0.04 * np.arange(5))
