"""Cells as offices, spreadsheets and people write them, and rows that are left out: read, or said, never silent."""

from __future__ import annotations

import numpy as np
import pytest

from dynoan.errors import ReadError
from dynoan.model.importing import ReadOptions
from dynoan.reading import read_bytes

V, C, R = (25, 51, 102, 254), (250, 411, 583, 810), (397, 662, 956, 1326)


def sweep_of(rebound, head="Speed (mm/s);Comp (N);Reb (N)", above="", mark=";"):
    rows = [mark.join(map(str, row)) for row in zip(V, C, rebound, strict=True)]
    (sweep,) = read_bytes(
        "\n".join([head.replace(";", mark), *([above] if above else []), *rows, ""]).encode(), "a.csv"
    )
    return sweep


def forces(sweep):
    f = sweep.channels["force"]
    return [round(float(x)) for x in f[f > 0]], [round(float(-x)) for x in f[f < 0]]


@pytest.mark.parametrize("mark", [";", "\t", ","])
@pytest.mark.parametrize("form", ["{}-", "{} -", "- {}", "−  {}", "~{}", "≈ {}", "ca. {}"])
def test_numbers_in_the_spelling_of_offices_and_people(form, mark):
    assert forces(sweep_of([form.format(x) for x in R], mark=mark)) == (list(C), list(R))


@pytest.mark.parametrize("cell", ["#####", "#REF!", ">900", "+OL", "< 1.5", "****"])
@pytest.mark.parametrize("at", [1, 2, 3])
def test_a_cell_without_a_value_costs_no_other_of_its_row(cell, at):
    sweep = sweep_of([cell if k == at else x for k, x in enumerate(R)])
    assert forces(sweep) == (list(C), [x for k, x in enumerate(R) if k != at])
    assert any("beyond its range" in w for w in sweep.warnings) == (cell in (">900", "+OL", "< 1.5"))


def test_a_first_row_with_a_word_keeps_its_number_and_the_word_is_named():
    sweep = sweep_of(R, above="13;145;low")
    assert forces(sweep) == ([145, *C], list(R))
    assert sweep.warnings == ("notes among the numbers were left out: 'low'",)


def test_a_line_of_units_or_of_remarks_above_the_rows_is_no_row():
    assert sweep_of(R, "Speed;Comp;Reb", above="mm/s;N;N").warnings == ()
    assert sweep_of(R, above="slow to fast").warnings == ()


@pytest.mark.parametrize(
    ("row", "decimal", "other"),
    [('{},"{:,}","{:,}"', ",", "."), ("{}\t{:,}\t{:,}", ",", "."), ("{}|{:,}|{:,}", ",", ".")],
)
def test_forces_that_are_all_thousands_are_asked_about_where_no_shock_is_so_weak(row, decimal, other):
    rows = ((300, 2593, 4223), (500, 3285, 5250), (900, 4665, 7290))
    head = row.replace("{:,}", "{}").replace('"', "").format("Speed (mm/s)", "Comp (N)", "Reb (N)")
    data = "\n".join([head, *(row.format(*r) for r in rows), ""]).encode()
    with pytest.raises(ReadError, match="7290 N if it groups thousands"):
        read_bytes(data, "kerb.txt")
    for told, top in ((decimal, 7.29), (other, 7290.0)):
        (sweep,) = read_bytes(data, "kerb.txt", ReadOptions(decimal=told))
        assert float(np.abs(sweep.channels["force"]).max()) == pytest.approx(top)


def test_decimals_of_the_speeds_say_that_the_mark_is_no_thousand():
    data = b"Speed (m/s);Comp (N);Reb (N)\n0.305;2.593;4.223\n0.505;3.285;5.255\n0.905;4.665;7.293\n"
    (sweep,) = read_bytes(data, "toy.csv")
    assert float(sweep.channels["force"].max()) == pytest.approx(4.665)


def test_clicks_after_at_beside_a_column_of_speeds_are_no_speeds():
    text = "Speed (mm/s);Rebound @ 4 (N);Rebound @ 8 (N);Compression @ 6 (N)\n"
    text += "".join(f"{v};{r};{r - 50};{c}\n" for v, c, r in zip(V, C, R, strict=True))
    sweeps = read_bytes(text.encode(), "at.csv")
    assert [dict(s.clicks) for s in sweeps] == [{"r": 4}, {"r": 8}, {"c": 6}]
    assert forces(sweeps[0]) == ([], list(R))
    assert forces(sweeps[2]) == (list(C), [])


@pytest.mark.parametrize("letter", ["B", "C", "Bump"])
def test_settings_down_the_side_with_a_letter_and_a_speed_across(letter):
    head = f"Setting,{letter} @ 1 in/s (lbf),{letter} @ 3 in/s (lbf),R @ 1 in/s (lbf),R @ 3 in/s (lbf)"
    sweeps = read_bytes(f"{head}\nC2 R2,55.2,101.3,84.4,161.1\nC6 R6,40.2,73.7,57,108.7\n".encode(), "b.csv")
    assert [dict(s.clicks) for s in sweeps] == [{"c": 2, "r": 2}, {"c": 6, "r": 6}]
    assert forces(sweeps[0]) == ([246, 451], [375, 717])


@pytest.mark.parametrize(
    ("title", "way"), [("Rebound adjuster sweep", -1), ("Compression clicks, compression only", 1)]
)
def test_bare_clicks_under_a_title_of_one_direction_are_of_that_direction(title, way):
    text = f"{title}, forces in N\nSpeed (mm/s);4 clicks;8 clicks\n"
    text += "".join(f"{v};{r};{r - 50}\n" for v, r in zip(V, R, strict=True))
    sweeps = read_bytes(text.encode(), "sweep.csv")
    assert [list(s.clicks.values()) for s in sweeps] == [[4], [8]]
    assert all((np.sign(s.channels["force"]) == way).all() for s in sweeps)
    assert all(s.warnings == () for s in sweeps)
