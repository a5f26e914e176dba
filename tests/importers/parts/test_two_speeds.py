"""Low and high speed in one cell, "6/2": in the order that is said, else asked."""

from __future__ import annotations

import pytest

from dynoan.errors import ReadError
from dynoan.reading import read_bytes

ROWS = ((25, 210, 330), (50, 380, 610), (100, 560, 980))
WANTED = [{"lsc": 6, "hsc": 2, "lsr": 8, "hsr": 3}, {"lsc": 10, "hsc": 4, "lsr": 12, "hsr": 6}]


def table(head: str, *settings: str) -> bytes:
    return "\n".join([head, *(f"{s},{v},{c},{r}" for s in settings for v, c, r in ROWS), ""]).encode()


@pytest.mark.parametrize(
    "line", ["Comp 6/2, Reb 8/3 (LS/HS)", "HS/LS comp 2/6 reb 3/8", "low/high: C 6/2, R 8/3", "C 6-2 R 8-3 (LS-HS)"]
)
def test_in_an_order_said_once(line):
    (sweep,) = read_bytes(
        f"{line}\n".encode() + table("x,mm/s,C N,R N", "").replace(b"x,", b"").replace(b"\n,", b"\n"), "a.csv"
    )
    assert (sweep.clicks, sweep.warnings) == (WANTED[0], ())


@pytest.mark.parametrize(
    ("head", "settings"),
    [
        ("Setting LS/HS,mm/s,C N,R N", ("C6/2 R8/3", "C10/4 R12/6")),
        ("Comp LS/HS,Reb LS/HS,mm/s,C N,R N", ("6/2,8/3", "10/4,12/6")),
        ("Comp HS/LS,Reb HS/LS,mm/s,C N,R N", ("2/6,3/8", "4/10,6/12")),
    ],
)
def test_in_columns(head, settings):
    assert [s.clicks for s in read_bytes(table(head, *settings), "a.csv")] == WANTED


def test_in_a_column_of_settings_of_no_order_are_asked_about():
    sweeps = read_bytes(table("Setting,mm/s,C N,R N", "C6/2 R8/3", "C10/4 R12/6"), "a.csv")
    assert [(s.clicks, s.samples) for s in sweeps] == [({}, 6), ({}, 6)]
    for sweep, cell in zip(sweeps, ("c6/2", "c10/4"), strict=True):
        assert any(w.startswith(f"'{cell}' gives one adjuster two numbers") for w in sweep.warnings)


def test_below_a_direction_alone_say_what_to_write():
    with pytest.raises(ReadError, match="write low and high speed in columns of their own, LSC and HSC"):
        read_bytes(table("Comp,Reb,mm/s,Comp N,Reb N", "6/2,8/3", "10/4,12/6"), "a.csv")
