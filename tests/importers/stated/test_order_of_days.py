"""An order of day and month: taken where a day has it, a column's too; refused where no day answers to it."""

from __future__ import annotations

import pytest

from dynoan.errors import ReadError
from dynoan.model.importing import ReadOptions
from dynoan.reading import read_bytes

ROWS = "Velocity [mm/s],Compression [N],Rebound [N]\n50,200,300\n100,300,400\n200,400,500\n"
DAYS = "Date,Velocity [mm/s],Compression [N],Rebound [N]\n" + "".join(
    f"05/02/2026,{v},{2 * v},{3 * v}\n" for v in (50, 100, 200)
)


def read(text: str, dates):
    (sweep,) = read_bytes(text.encode(), "days.csv", ReadOptions(dates=dates))
    return sweep


@pytest.mark.parametrize(
    ("text", "order", "day"),
    [
        ("Date: 05/02/2026\n" + ROWS, "month-first", "2026-05-02"),
        ("Date: 25/02/2026\n" + ROWS, "day-first", "2026-02-25"),
        ("Datum: 02.05.2026\n" + ROWS, "day-first", "2026-05-02"),
        (DAYS, "day-first", "2026-02-05"),
        (DAYS, "month-first", "2026-05-02"),
    ],
)
def test_an_order_that_a_day_can_have_is_taken(text, order, day):
    assert read(text, order).date == day


@pytest.mark.parametrize(
    ("above", "order", "why"),
    [
        ("", "day-first", "no day stands in it as day, month and year in numbers"),
        ("Date: 2026-02-05\n", "month-first", "no day stands in it"),
        ("Date: 25/02/2026\n", "month-first", "'25/02/2026' can only be meant otherwise"),
        ("Datum: 02.05.2026\n", "month-first", "'02.05.2026' can only be meant otherwise"),
    ],
)
def test_an_order_that_no_day_has_is_refused(above, order, why):
    with pytest.raises(ReadError, match=f"--dates {order} had no effect, as {why}"):
        read(above + ROWS, order)


def test_a_column_of_days_in_no_known_order_is_told():
    assert any("'05/02/2026' has day and month in an order" in warning for warning in read(DAYS, None).warnings)
