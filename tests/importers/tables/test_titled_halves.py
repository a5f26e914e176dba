"""Compression and rebound beside one another under their titles, speeds or clicks across each half."""

from __future__ import annotations

import pytest

from dynoan.errors import ReadError
from dynoan.model.importing import ReadOptions
from dynoan.reading import read_bytes

ACROSS = """Shock FL-9,,,,,,
,Compression (N),,,Rebound (N),,
Clicks,0.05 m/s,0.1 m/s,,0.05 m/s,0.1 m/s,0.2 m/s
0,264,527,,527,981,1304
6,217,434,,434,808,1074
12,178,356,,356,664,882
"""
STACKED = """Clicks from closed: 0 / 4 / 8
Compression (N)
mm/s,0,4,8
20,99,81,62
40,198,161,124
80,397,322,248
130,612,497,382
Rebound (N)
mm/s,0,4,8
20,198,161,124
40,397,322,248
80,794,645,496
130,1014,824,634
"""


def sweeps(text: str):
    return read_bytes(text.encode(), "table.csv", ReadOptions())


def points(sweep) -> set[tuple[int, int]]:
    pairs = zip(sweep.channels["velocity"], sweep.channels["force"], strict=True)
    return {(round(float(v) * 1e3), round(float(f))) for v, f in pairs}


def test_speeds_across_belong_to_the_half_they_stand_in():
    first, *others = sweeps(ACROSS)
    assert points(first) == {(50, 264), (100, 527), (-50, -527), (-100, -981), (-200, -1304)}
    assert [dict(s.clicks) for s in (first, *others)] == [{"c": n, "r": n} for n in (0, 6, 12)]
    assert "if one knob turns both, say --column 'cr=C Clicks' --column r=none" in first.warnings[0]
    one_knob = ReadOptions(columns={"cr": "C Clicks", "r": "none"})
    assert [dict(s.clicks) for s in read_bytes(ACROSS.encode(), "table.csv", one_knob)] == [
        {"cr": n} for n in (0, 6, 12)
    ]


def test_numbers_under_a_direction_are_clicks_where_a_line_above_speaks_of_clicks():
    found = {tuple(s.clicks.items()): points(s) for s in sweeps(STACKED)}
    assert {p for p in found[("c", 4), ("r", 4)] if p[0] > 0} == {(20, 81), (40, 161), (80, 322), (130, 497)}
    assert {p for p in found[("c", 8), ("r", 8)] if p[0] < 0} == {(-20, -124), (-40, -248), (-80, -496), (-130, -634)}
    assert len(found) == 3


def test_numbers_that_nothing_explains_are_asked_about_by_name():
    asked = r"under '0', '4', '8', and no line says.*where they are clicks, write them like 'C 4'"
    with pytest.raises(ReadError, match=asked):
        sweeps("mm/s,0,4,8\n" + STACKED.split("mm/s,0,4,8\n")[1].split("Rebound")[0])


@pytest.mark.parametrize("said", ["Shock FL-9, REBOUND ONLY", "nur Zugstufe", "Rebound force only; oil 20 C"])
def test_a_file_that_says_it_is_of_one_direction_is(said):
    (sweep,) = sweeps(f"{said}\nShock FL-9\nVelocity (mm/s),Force (N)\n20,124\n40,248\n80,496\n130,634\n210,786\n")
    assert points(sweep) == {(-20, -124), (-40, -248), (-80, -496), (-130, -634), (-210, -786)}
