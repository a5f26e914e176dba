"""Words beside numbers: parts of a unit, French inches, knobs by any word for a direction, quotes around all cells."""

from __future__ import annotations

import numpy as np
import pytest

from dynoan.reading import read_bytes
from importers.header import describe_column
from importers.stated import facts_of_lines


@pytest.mark.parametrize(
    ("name", "unit", "factor"),
    [
        ("Weg 1/10 mm", "mm", 0.1),
        ("Hub in 1/100 mm", "mm", 0.01),
        ("Position_0.1mm", "mm", 0.1),
        ("Kraft x10 N", "N", 10.0),
        ("Time 0.1 s", "s", 0.1),
        ("Force 2 N", "N", 1.0),
        ("Force N*10", "N", 10.0),
        ("Force_N x 10", "N", 10.0),
        ("Kraft N×100", "N", 100.0),
        ("Load 10*N", "N", 10.0),
        ("Disp mm*0.1", "mm", 0.1),
        ("Velocity m/s x 10^-3", "m/s", 1e-3),
        ("Force (N x 10^2)", "N", 100.0),
    ],
)
def test_a_part_of_a_unit_needs_no_brackets(name, unit, factor):
    column = describe_column(0, name)
    assert (column.unit, column.factor) == (unit, pytest.approx(factor))


def test_a_scale_without_brackets_is_read_as_one_in_brackets():
    rows = "\n".join(f"{v},{0.2 * v:.1f},{0.3 * v:.1f}" for v in (25, 50, 100, 200))
    heads = ("Velocity mm/s,Compression N*10,Rebound N*10", "Velocity (mm/s),Compression (N*10),Rebound (N*10)")
    bare, bracketed = (read_bytes(f"{head}\n{rows}\n".encode(), "w.csv")[0] for head in heads)
    assert float(np.abs(bare.channels["force"]).max()) == pytest.approx(600.0)
    np.testing.assert_array_equal(bare.channels["force"], bracketed.channels["force"])
    assert any("'Compression N*10' was multiplied by 10" in said for said in bare.warnings)


@pytest.mark.parametrize(
    ("name", "unknown"), [("Force N/10", "N/10"), ("Speed mm/s /10", "mm/s /10"), ("Force (kg*9.81)", "")]
)
def test_what_may_be_a_factor_or_its_inverse_is_no_unit(name, unknown):
    column = describe_column(0, name)
    assert (column.unit, column.unknown_unit, column.factor) == ("", unknown, 1.0)


def test_what_is_counted_in_tenths_is_read_so():
    t = np.arange(400) / 200
    x, f = np.round(-200 * np.cos(9 * t)), np.round(300 * np.sin(9 * t) + 80)
    rows = "\n".join(f"{1e3 * a:.0f}\t{b:.0f}\t{c:.0f}" for a, b, c in zip(t, x, f, strict=True))
    (sweep,) = read_bytes(f"Zeit ms\tWeg 1/10 mm\tKraft N\n{rows}\n".encode(), "w.tsv")
    np.testing.assert_allclose(np.abs(sweep.channels["displacement"]), np.abs(x) * 1e-4)
    assert any("multiplied by 0.1" in said for said in sweep.warnings)


def test_inches_are_shortened_in_french():
    (sweep,) = read_bytes(b"Vitesse (po/s);Compression (lb);Detente (lb)\n2;46;69\n4;77;125\n8;102;167\n", "v.csv")
    assert float(np.abs(sweep.channels["velocity"]).max()) == pytest.approx(8 * 0.0254)


@pytest.mark.parametrize(
    ("line", "clicks"),
    [
        ("Sıkışma: 8 klik", {"c": 8}),
        ("Expansión: 9 clics", {"r": 9}),
        ("압축 단수\t5", {"c": 5}),
        ("sıkışma 8 klik, açılma 12 klik", {"c": 8, "r": 12}),
        ("8/9 naksua (puristus/paluu)", {"c": 8, "r": 9}),
        ("8/9 clicks (compression/rebound)", {"c": 8, "r": 9}),
        ('RF "heavy" valving   7 clicks both ways', {"c": 7, "r": 7}),
        ("both knobs at 5 clicks", {"c": 5, "r": 5}),
        ("7 clicks both shocks", {}),
        ("Extension 12 mm", {}),
    ],
)
def test_a_knob_is_known_by_any_word_for_its_direction_beside_clicks(line, clicks):
    assert dict(facts_of_lines([line]).clicks) == clicks


def test_a_column_of_clicks_is_too():
    rows = "".join(f"{c};{v};{v + c};{2 * v + c}\n" for c in (4, 8) for v in (50, 100, 200))
    first, second = read_bytes(f"Sıkışma klik;mm/s;Sıkışma N;Açılma N\n{rows}".encode(), "k.csv")
    assert (first.clicks, second.clicks) == ({"c": 4}, {"c": 8})


def test_a_remark_with_the_units_of_the_columns_may_say_more_in_brackets():
    units = facts_of_lines(["# positie mm, kracht kg (trek is plus)"]).units
    assert dict(units) == {"displacement": "mm", "force": "kg"}


@pytest.mark.parametrize("n", [300, 60_000])
@pytest.mark.parametrize(("mark", "decimal"), [(",", "."), (";", ","), (",", ",")])
def test_a_torn_last_line_in_quotes_is_left_out(n, mark, decimal):
    t = np.arange(n) / 2000
    columns = t, -25 * np.cos(70 * t), 200 * np.sin(70 * t) + 100
    cells = [[f"{v:.4f}".replace(".", decimal) for v in column] for column in columns]
    rows = [mark.join(f'"{c}"' for c in row) for row in zip(*cells, strict=True)]
    head = mark.join(('"Time [s]"', '"Position [mm]"', '"Force [N]"'))
    (sweep,) = read_bytes("\r\n".join([head, *rows, f'"9{decimal}5"{mark}"-2']).encode(), "q.csv")
    np.testing.assert_allclose(np.abs(sweep.channels["force"]), np.abs(np.round(columns[2], 4)), rtol=0, atol=1e-12)
    assert any("last" in said and "is no full row" in said for said in sweep.warnings)


@pytest.mark.parametrize(
    ("line", "clicks"), [("Tryk,8 klik", {"c": 8}), ("Tah;8 kliků", {"r": 8}), ("Comp: 24 clicks total", {})]
)
def test_a_key_beside_a_number_of_clicks_is_a_knob_s(line, clicks):
    assert dict(facts_of_lines([line]).clicks) == clicks


@pytest.mark.parametrize(
    ("line", "said"),
    [
        ("Foo,10 bar", "has a pressure that is not said"),
        ("Foo,25 °C", "has a temperature that is not said"),
        ("Setting,8,5", "such as 'C 8 R 5'"),
    ],
)
def test_what_stands_behind_a_comma_is_told_too(line, said):
    assert any(said in warning for warning in facts_of_lines([line]).warnings)


def test_a_rate_of_all_channels_may_have_its_unit_in_the_key():
    assert facts_of_lines(["Sampling Hz,250,250"]).rate == 250


@pytest.mark.parametrize(
    ("line", "said"),
    [
        ("load x 2 (lever)", "speaks of a factor"),
        ("Force * 10", "speaks of a factor"),
        ("Friction 22 N subtracted", "forces that were changed before"),
        ("Seal friction removed: yes", "forces that were changed before"),
        ("spring force subtracted", "forces that were changed before"),
    ],
)
def test_what_was_done_to_the_forces_is_said(line, said):
    assert any(said in warning for warning in facts_of_lines([line]).warnings)


@pytest.mark.parametrize("line", ["Spring removed", "Friction removed: no", "Load cell 2", "friction measured 22 N"])
def test_what_was_not_done_to_them_is_not(line):
    assert facts_of_lines([line]).warnings == ()
