"""A date is understood as it was meant or refused, and kept in one form that sorts as time does."""

from __future__ import annotations

import datetime
import re

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from dynoan.errors import QuantityError
from dynoan.model.dates import date_beginning, iso_date, tidy_date

MONTHS = ["January", "February", "March", "April", "May", "June", "July", "August", "September", "October", "November",
          "December"]  # fmt: skip
days = st.dates(datetime.date(1970, 1, 1), datetime.date(2200, 12, 31))
KEPT = re.compile(r"\d{4}-\d\d-\d\d(T\d\d:\d\d(:\d\d(\.\d{6})?)?([+-]\d\d:\d\d)?)?", re.ASCII)


def typed(day: datetime.date) -> list[str]:
    """The forms people type in which nothing can be taken for anything else."""
    y, m, d = day.year, day.month, day.day
    name = MONTHS[m - 1]
    forms = [
        day.isoformat(), f"{y}/{m:02d}/{d:02d}", f"{y}-{m}-{d}", f"{y}.{m}.{d}", f"{y}{m:02d}{d:02d}", f"{d}.{m}.{y}",
        f"{d:02d}.{m:02d}.{y}", f"{d}. {m}. {y}", f"{d} {name} {y}", f"{d} {name[:3]} {y}", f"{name} {d}, {y}",
        f"{name[:3].upper()} {d} {y}", f" {day.isoformat()} ", f"{d}. {name} {y}",
    ]  # fmt: skip
    return forms + ([f"{d}/{m}/{y}", f"{m}/{d}/{y}", f"{d}-{m}-{y}"] if d > 12 or d == m else [])


@given(days)
def test_every_form_of_a_day_is_kept_as_one(day):
    assert {iso_date(form) for form in typed(day)} == {day.isoformat()}


@given(days.filter(lambda day: day.day <= 12 and day.day != day.month), st.sampled_from("/-"))
def test_a_day_and_month_that_could_be_swapped_are_refused_with_both_readings(day, mark):
    for first in (f"{day.day:02d}{mark}{day.month:02d}", f"{day.day}{mark}{day.month}"):
        with pytest.raises(QuantityError) as caught:
            iso_date(f"{first}{mark}{day.year}")
        assert f"{day.day} {MONTHS[day.month - 1]}" in str(caught.value)
        assert f"{day.month} {MONTHS[day.day - 1]}" in str(caught.value)
        assert day.isoformat() in str(caught.value)


@given(days, st.times().map(lambda t: t.replace(microsecond=0)))
def test_a_time_behind_a_day_is_kept_as_it_was_stated(day, time):
    for form in typed(day):
        assert iso_date(f"{form.strip()} {time:%H:%M}") == f"{day.isoformat()}T{time:%H:%M}"
        assert iso_date(f"{form.strip()}T{time:%H:%M:%S}") == f"{day.isoformat()}T{time:%H:%M:%S}"


@given(st.lists(days, min_size=2), st.data())
def test_in_order_as_text_is_in_order_as_time(some, data):
    kept = [iso_date(data.draw(st.sampled_from(typed(day)))) for day in some]
    assert sorted(kept) == [day.isoformat() for day in sorted(some)]


@given(
    st.text(max_size=60)
    | st.from_regex(r"[0-9./T: -]{4,30}", fullmatch=True)
    | st.from_regex(r"\d{1,4}[-/.]\w{1,9}[-/.]\d{1,4}", fullmatch=True)
)
@example("2026-W10-1")
@example("2026-05-02T14:30+02:00")
@example("٢٠٢٦-٠٥-٠٢")
@example("99999999999999999999-01-01")
@example("0.0.2026")
@example("1 foo 2026")
def test_any_text_is_kept_in_the_one_form_or_refused_in_one_line(text):
    kept = tidy_date(text)
    if KEPT.fullmatch(kept):
        assert iso_date(kept) == iso_date(text) == kept
        datetime.datetime.fromisoformat(kept)
        return
    assert kept == text
    with pytest.raises(QuantityError) as caught:
        iso_date(text)
    assert len(str(caught.value)) < 200
    assert str(caught.value).isprintable()


@pytest.mark.parametrize(
    ("text", "kept"),
    [
        ("2026-W10-1", "2026-03-02"), ("20260502T1430", "2026-05-02T14:30:00"), ("2nd May 2026", "2026-05-02"),
        ("2 May 2026 14:30Z", "2026-05-02T14:30+00:00"), ("2026-05-02T14:30+02:00", "2026-05-02T14:30+02:00"),
        ("Sept 3 2026", "2026-09-03"), ("2.5.2026 9:05", "2026-05-02T09:05"),
    ],
)  # fmt: skip
def test_other_forms_of_the_standard_and_of_the_tongue(text, kept):
    assert iso_date(text) == kept


@pytest.mark.parametrize(
    "text",
    ["", "today", "2026", "2026-05", "31.2.2026", "2026-02-29", "1.1.26", "2 Ma 2026", "2 Ju 2026", "2026-05-02T25:00",
     "2026-05-02T", "2026-13-01", "1969-12-31", "2201-01-01", "2026-05/02", "x" * 10_000],
)  # fmt: skip
def test_what_is_no_date_is_refused_with_the_right_form_or_the_years(text):
    with pytest.raises(QuantityError, match=r"write it like 2026-05-02|outside the years 1970 to 2200") as caught:
        iso_date(text, "setups/x.toml: setup.date")
    assert str(caught.value).startswith("setups/x.toml: setup.date: '")
    assert len(str(caught.value)) < 200


def test_a_month_or_a_year_is_a_beginning_and_no_date():
    assert [date_beginning(t) for t in ("2026", "2026-05", "2.5.2026")] == ["2026", "2026-05", "2026-05-02"]
    with pytest.raises(QuantityError):
        date_beginning("may")
