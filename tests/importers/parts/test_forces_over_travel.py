"""Forces over travel, a column a speed: no motion is told, and the refusal says so rather than anything of marks."""

from __future__ import annotations

import io
from math import cos, sin, tau

import openpyxl
import pytest

from dynoan.errors import ReadError
from dynoan.reading import read_bytes

ROWS = [[x, *(round(k * (625 - x * x) ** 0.5 * 10 + 40, 1) for k in (1, 2, 3))] for x in range(-24, 25, 2)]
HEADS = [
    ["Travel (mm)", "0.05 m/s", "0.10 m/s", "0.25 m/s"],
    ["Travel mm", 50, 130, 260],
    ["pos in", "2 ips comp", "2 ips reb", "10 ips comp"],
    ["Weg [mm]", "100 mm/s [N]", "200 mm/s [N]", "400 mm/s [N]"],
]


def workbook(*rows):
    book = openpyxl.Workbook()
    for row in rows:
        book.active.append(list(row))
    stream = io.BytesIO()
    book.save(stream)
    return stream.getvalue()


@pytest.mark.parametrize("head", HEADS)
def test_it_is_said_that_no_motion_is_told(head):
    with pytest.raises(ReadError, match="how fast and which way the shock moved in each row is not told") as refused:
        read_bytes(workbook(["Shock", "KR-11"], [], head, *ROWS), "stroke.xlsx")
    assert f"over '{head[0]}' in columns '{head[1]}' to '{head[-1]}'" in str(refused.value)
    assert "decimal" not in str(refused.value)


def test_loops_that_each_have_their_travel_are_read():
    names = ["x (mm)", "F (N)"] * 2

    rows = [
        [v for k in (1, 2.6) for v in (round(25 * sin(tau * n / 100), 3), round(150 * k * cos(tau * n / 100), 2))]
        for n in range(200)
    ]
    found = read_bytes(workbook(["50 mm/s", "", "130 mm/s", ""], names, *rows), "loops.xlsx")
    assert [max(abs(one.channels["force"])) for one in found] == pytest.approx([150, 390], rel=0.01)
