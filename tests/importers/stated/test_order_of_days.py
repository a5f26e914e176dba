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


@pytest.mark.parametrize("above", ["", "Date: 2026-02-05\n"])
def test_an_order_where_no_day_has_any_is_refused(above):
    with pytest.raises(ReadError, match="--dates month-first had no effect, as no day stands in it"):
        read(above + ROWS, "month-first")


@pytest.mark.parametrize("day", ["25/02/2026", "25.02.2026"])
def test_a_day_that_cannot_have_the_order_is_told(day):
    sweep = read(f"Date: {day}\n" + ROWS, "month-first")
    assert sweep.date == "2026-02-25"
    assert f"'{day}' was taken as 2026-02-25, though you say month-first" in sweep.warnings[0]


def test_a_column_of_days_in_no_known_order_is_told():
    assert any("'05/02/2026' has day and month in an order" in warning for warning in read(DAYS, None).warnings)
