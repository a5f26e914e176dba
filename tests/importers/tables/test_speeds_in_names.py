"""Columns called by a direction and a bare speed, whose unit a remark tells, above or below."""

from __future__ import annotations

import pytest

from dynoan.errors import ReadError
from dynoan.reading import read_bytes

COMPRESSION, REBOUND = (310, 520, 780), (420, 800, 1290)


def table(pattern, speeds, mark=",", first="Clicks"):
    names = [pattern.format(way=way, v=v) for way in ("Bump", "Rebound") for v in speeds]
    rows = [mark.join(map(str, (k, *COMPRESSION, *REBOUND))) for k in (2, 8)]
    return "\n".join((mark.join((first, *names)), *rows)) + "\n"


SLOW = ("0.05", "0.13", "0.25")


@pytest.mark.parametrize(
    ("text", "unit"),
    [
        ("# speeds in m/s\n" + table("{way} {v} (N)", SLOW), 1.0),
        (table("{way} {v} (N)", SLOW) + "(speeds in m/s)\n", 1.0),
        (table("{way} N @ {v}", SLOW) + "all speeds m/s\n", 1.0),
        (table("{way}@{v} [N]", SLOW) + "# velocity m/s\n", 1.0),
        ("all velocities are mm/s\n" + table("{way} {v} N", (50, 130, 250), "\t"), 1e-3),
        ("Geschwindigkeiten in m/s, Kraefte in N\n" + table("{way} {v}", ("0,05", "0,13", "0,25"), ";"), 1.0),
        (table("{way} {v} (N)", (2, 5, 10)) + "notes: shaft speed columns are in/s\n", 0.0254),
    ],
)
def test_a_remark_tells_the_unit_of_speeds(text, unit):
    first, second = read_bytes(text.encode(), "sheet.csv")
    speeds = [v * unit for v in ((0.05, 0.13, 0.25) if unit == 1.0 else (50, 130, 250) if unit == 1e-3 else (2, 5, 10))]
    assert first.channels["velocity"] == pytest.approx([*speeds, *(-v for v in speeds)])
    assert first.channels["force"].tolist() == [*COMPRESSION, *(-f for f in REBOUND)]
    assert [one.clicks for one in (first, second)] == [{"cr": 2}, {"cr": 8}]
    assert not any("is stated as well" in said for said in first.warnings)


def test_without_a_unit_it_is_asked_for():
    with pytest.raises(ReadError, match="give --unit velocity=UNIT"):
        read_bytes(table("{way} {v} (N)", SLOW).encode(), "sheet.csv")


def test_clicks_in_names_stay_clicks():
    text = "Speed (m/s)," + ",".join(f"{way} {k} (N)" for way in ("Bump", "Rebound") for k in (2, 5, 10))
    rows = "".join(f"{v},300,200,100,420,320,220\n" for v in SLOW)
    found = read_bytes(f"{text} \n{rows}speeds in m/s\n".encode(), "sheet.csv")
    assert [one.clicks for one in found] == [{"c": k, "r": k} for k in (2, 5, 10)]
