"""A day within a sentence is the test's where it says so, is told where nothing says whose, and no other's is taken."""

from __future__ import annotations

from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from importers.stated import facts_of_lines
from tests.importers.making import quick

FORMS = (
    "RL-02 tested on {0.day} {0:%B} {0.year} at the barn",
    "Run by the lake, {0:%A} {0.day} {0:%B} {0.year}, after lunch",
    "we ran this one {0:%B} {0.day}, {0.year} in the rain",
    "Shock #3 - tested {0.year}-{0:%m-%d} (cold)",
    "info: Shock RL-02, LSC 6, tested {0:%d.%m.%Y}, gas 10 bar",
    "gemessen am {0.day}. {0:%B} {0.year} in der Halle",
    "RL-02, {0.day} {0:%b} {0.year}, barn",
    "{0:%a} {0.day} {0:%b} {0:%y}",
)


@quick
@given(st.dates(date(2001, 1, 1), date(2040, 12, 31)), st.sampled_from(FORMS))
def test_of_the_test(day, form):
    facts = facts_of_lines(["Damper sheet", form.format(day), "LSC 6 LSR 8"])
    assert (facts.date, facts.warnings) == (day.isoformat(), ())


@pytest.mark.parametrize(
    ("line", "day"),
    [
        ("Shock #3 - tested 3/14/25 (cold)", "2025-03-14"),
        ("Montag, 3. März 2025 in der Halle", "2025-03-03"),
        ("essai du 14/06/25 sur banc", "2025-06-14"),
        ("probado el 7 de octubre de 2025 en el taller", "2025-10-07"),
        ("Rear left damper, dyno'd 14.6.2025", "2025-06-14"),
    ],
)
def test_as_people_write(line, day):
    assert facts_of_lines([line]).date == day


@pytest.mark.parametrize(
    "line",
    [
        "oil changed 3 March 2025",
        "calibrated on 2025-03-03, next due 2026-03-03",
        "shim stack drawing of 3 March 2025",
        "rebuilt 3/14/2025 and tested since",
        "form 7, revision of 14.06.2025",
    ],
)
def test_of_another_matter(line):
    facts = facts_of_lines([line])
    assert (facts.date, facts.swappable, facts.warnings) == (None, None, ())


def test_of_nothing_that_is_said():
    facts = facts_of_lines(
        ["K. and friends in the barn since noon of 3 March 2025 or so", "the barn, 3 March 2025 or so"]
    )
    assert facts.date is None
    assert facts.warnings == ("'the barn, 3 March 2025 or so' has a day that is not said to be the test's: not taken",)
