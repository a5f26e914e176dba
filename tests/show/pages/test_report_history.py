"""Setups kept, in a report: an axle with the same on both sides is named once, the minute instead of the second."""

from dataclasses import replace

from dynoan.model.setup import Setup
from dynoan.show.pages.report.history import setups_section
from tests.show.cars import made_car

CAR = made_car()


def row_of(car):
    (table,) = setups_section([Setup("day", car, "2026-11-27T00:22:21", good=True)]).blocks
    return " | ".join(str(cell) for cell in table.rows[0])


def with_clicks(**clicks):
    corners = {c: replace(corner, pack="gravel", clicks={"lsc": clicks.get(c, 8)}) for c, corner in CAR.corners.items()}
    return replace(CAR, corners=corners)


def test_what_both_sides_share_stands_once():
    row = row_of(with_clicks())
    assert "front gravel lsc 8; rear gravel lsc 8" in row
    assert "2026-11-27 00:22 |" in row


def test_sides_that_differ_stand_apart():
    assert "front gravel lsc 8; rear left gravel lsc 8; rear right gravel lsc 9" in row_of(with_clicks(rr=9))
