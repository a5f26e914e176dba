"""Bare numbers across a table or down its side: speeds and clicks where they can be nothing else, or asked about."""

from __future__ import annotations

import pytest

from dynoan.errors import ReadError
from dynoan.model.importing import ReadOptions
from dynoan.reading import read_bytes

DOWN = ("2,200,400,600,700", "6,150,300,500,600", "10,100,200,400,500")
UP = ("2,300,500,700,800", "6,250,400,600,700", "10,200,300,500,600")
MARKED = ",50 mm/s,100 mm/s,200 mm/s,300 mm/s"


def sweeps(*lines: str, **options):
    return read_bytes("\n".join(lines).encode(), "table.csv", ReadOptions(**options))


@pytest.mark.parametrize("corner", ["mm/s", "Clicks", ""])
def test_numbers_beyond_any_clicks_are_speeds(corner):
    known = {} if corner == "mm/s" else {"units": {"velocity": "mm/s"}}
    lines = ("Compression (N)", f"{corner},50,100,200,300", *DOWN)
    first = sweeps(*lines, **known)[0]
    assert first.channels["velocity"] == pytest.approx([0.05, 0.1, 0.2, 0.3])
    assert first.channels["force"].tolist() == [200, 400, 600, 700]
    if known:
        with pytest.raises(ReadError, match="give --unit velocity=UNIT"):
            sweeps(*lines)


def test_speeds_above_the_titles_of_both_directions_belong_to_each():
    found = sweeps(
        MARKED, "Compression (N),,,,", *(f"C {row}" for row in DOWN), "Rebound (N)", *(f"R {row}" for row in UP)
    )
    assert [dict(one.clicks) for one in found] == [{"c": n, "r": n} for n in (2, 6, 10)]
    assert [one.channels["force"].tolist()[3::4] for one in found] == [[700, -800], [600, -700], [500, -600]]


def test_rows_that_numbers_alone_call_are_runs_and_asked_about():
    first, *others = sweeps(MARKED, "Compression (N)", *DOWN, "Rebound (N)", *UP)
    assert len(others) == 2
    assert not first.clicks
    assert any("rows are called '2', '6', '10'" in w and "write them like 'C 4'" in w for w in first.warnings)


@pytest.mark.parametrize("across", ["101,102,103,104", "50,100,124.925.019,200", "100,50,200,300"])
def test_numbers_that_may_be_serials_are_asked_about(across):
    with pytest.raises(ReadError, match="which is which"):
        sweeps("Compression (N)", f"mm/s,{across}", *DOWN)


BLOCK = ("50,200,150,100", "100,400,300,200", "200,600,500,400")


@pytest.mark.parametrize("corner", ["mm/s", "Velocity (mm/s)"])
def test_the_same_numbers_over_both_directions_are_clicks_and_said_so(corner):
    names = f"{corner},2,6,10"
    found = sweeps("Compression (N)", names, *BLOCK, "", "Rebound (N)", names, *BLOCK)
    assert [dict(one.clicks) for one in found] == [{"c": n, "r": n} for n in (2, 6, 10)]
    assert "'2', '6', '10' over compression and over rebound were taken as clicks" in found[0].warnings[0]


def test_blanks_within_cells_that_tabs_set_apart_are_no_marks():
    (sweep,) = sweeps(
        "Knob\tWay of it\tVelocity [mm/s]\tForce [N]", *(f"C 2\tcompression\t{v}\t{3 * v}" for v in (20, 50))
    )
    assert (sweep.clicks, sweep.channels["force"].tolist()) == ({"c": 2}, [60, 150])


@pytest.mark.parametrize(
    ("lines", "place"),
    [
        (("Force (N)", "Direction,@50,@100,@200", "Comp,200,300,400", "Reb,300,400,500"), "speeds across the top"),
        (("Compression clicks (N)", ";0;4", "50;200;180", "100;300;280"), "speeds in the first column"),
    ],
)
def test_speeds_without_unit_are_asked_for_by_where_they_stand(lines, place):
    with pytest.raises(ReadError, match=f"column '{place}': velocity has no unit"):
        sweeps(*lines)
