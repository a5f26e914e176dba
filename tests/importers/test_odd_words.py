"""What shops write beside their numbers in other words than most: units, rates, strokes, clicks without a direction."""

from __future__ import annotations

import io

import numpy as np
import openpyxl
import pytest

from dynoan.errors import ReadError
from dynoan.reading import read_bytes
from tests.importers.making import F, T, X

ROWS = [f"{t:.3f},{1e3 * x:.3f},{f:.1f}" for t, x, f in zip(T, X, F, strict=True)]
TOP = float(np.max(F))
RATE = 1 / float(T[1] - T[0])


def sweeps(*lines: str, encoding: str = "utf-8"):
    return read_bytes("\n".join(lines).encode(encoding), "rig.csv")


@pytest.mark.parametrize(
    ("units", "names"),
    [
        ("# jednotky: s, mm, N", "Čas,Poloha,Síla"),
        ("Birim: s, mm, N", "Zaman,Konum,Kuvvet"),
        ("単位: s, mm, N", "t,x,F"),
    ],
)
def test_a_line_of_units_is_known_by_its_word_in_any_tongue(units, names):
    (sweep,) = sweeps(units, names, *ROWS)
    assert np.ptp(sweep.channels["displacement"]) == pytest.approx(np.ptp(X), rel=1e-3)


@pytest.mark.parametrize(("said", "share"), [("{:g} S/s", 1.0), ("{:g} kS/s", 1e-3), ("{:g} ksamples/s", 1e-3)])
def test_a_rate_in_thousands_of_samples(said, share):
    rows = [row.partition(",")[2] for row in ROWS]
    (sweep,) = sweeps(f"Scan rate: {said.format(RATE * share)}", "Displacement [mm],Force [N]", *rows)
    assert sweep.rate == pytest.approx(RATE)


def test_peak_speeds_from_cycles_and_an_amplitude():
    table = ["Frequency (Hz),Compression force (N),Rebound force (N)", "0.5,494,584", "1.0,594,745", "2.0,794,1067"]
    (sweep,) = sweeps("Amplitude: ±30 mm", *table)
    assert sweep.channels["velocity"].max() == pytest.approx(2 * np.pi * 2.0 * 0.030)


@pytest.mark.parametrize("first", ["Velocity", ""])
def test_clicks_over_pairs_of_columns_are_settings_of_one_adjuster(first):
    rows = ["50,307,-206,298,-163", "130,409,-389,397,-337", "260,514,-596,503,-543"]
    found = sweeps(f"{first},2 clicks,,6 clicks,", "mm/s,Comp N,Reb N,Comp N,Reb N", *rows)
    assert [dict(one.clicks) for one in found] == [{"cr": 2}, {"cr": 6}]
    assert [one.channels["force"].min() for one in found] == [-596, -543]
    assert all(any("names no direction" in text for text in one.warnings) for one in found)


@pytest.mark.parametrize(
    ("line", "clicks"), [("8 clicks", {"cr": 8}), ("Klick 3", {"cr": 3}), ("Position 3", {}), ("8", {})]
)
def test_a_line_of_clicks_alone(line, clicks):
    (sweep,) = sweeps(line, "Time [s],Disp [mm],Force [N]", *ROWS)
    assert dict(sweep.clicks) == clicks


def test_a_scale_that_was_used_is_not_called_unused():
    rows = [f"{t:.3f},{50 * x:.5f},{f / 500:.6f}" for t, x, f in zip(T, X, F, strict=True)]
    (sweep,) = sweeps(
        "Force scale: 500 N/V", "Displacement scale: 20 mm/V", "Time (s),Displacement (V),Force (V)", *rows
    )
    assert np.nanmax(sweep.channels["force"]) == pytest.approx(np.max(F), abs=0.1)
    assert not any("not applied" in text for text in sweep.warnings)


def test_a_scale_without_its_column_is_told():
    (sweep,) = sweeps("Temperature scale: 20 °C/V", "Force scale: 500 N/V", "Time (s),Disp (mm),Load (N)", *ROWS)
    assert not any("Force scale" in text for text in sweep.warnings)


def test_two_cells_that_may_share_a_load_are_asked_about():
    rows = [f"{t:.3f},{1e3 * x:.3f},{0.55 * f:.1f},{0.45 * f:.1f}" for t, x, f in zip(T, X, F, strict=True)]
    with pytest.raises(ReadError, match="could be") as fault:
        sweeps("Time [s],Disp [mm],Load cell 1 [N],Load cell 2 [N]", *rows)
    assert "share the load" in (fault.value.hint or "")


@pytest.mark.parametrize(
    ("name", "closing"),
    [
        ("Travel from full extension (mm)", True),
        ("Weg ab Vollausfederung (mm)", True),
        ("Position from fully extended (mm)", True),
        ("Travel from full compression (mm)", False),
    ],
)
def test_travel_counted_from_an_end_grows_away_from_it(name, closing):
    x = X if closing else -X
    rows = [f"{t:.3f},{1e3 * (a - x.min()) + 6:.3f},{f:.1f}" for t, a, f in zip(T, x, F, strict=True)]
    (sweep,) = sweeps(f"Time [s],{name},Force [N]", *rows)
    assert np.corrcoef(sweep.channels["displacement"], X)[0, 1] > 0.99
    assert sweep.channels["force"].max() == pytest.approx(TOP, abs=0.1)
    assert not any("believed" in text for text in sweep.warnings)


def test_a_whole_curve_under_each_rebound_click():
    head = ["Velocity [m/s],Reb 0,Reb 4", ",[N],[N]"]
    rows = ["-0.6,-1283,-1216", "-0.2,-631,-563", "-0.05,-237,-193", "0.05,311,303", "0.2,470,459", "0.6,795,783"]
    zero, four = sweeps(*head, *rows)
    assert (dict(zero.clicks), dict(four.clicks)) == ({"r": 0}, {"r": 4})
    assert (four.channels["force"].min(), four.channels["force"].max()) == (-1216, 783)
    assert four.channels["velocity"].min() == pytest.approx(-0.6)


def test_the_speed_a_rig_was_set_to_is_no_sample():
    rows = [f"{50 * (1 + at // 200)},{row}" for at, row in enumerate(ROWS)]
    (sweep,) = sweeps("Set speed (mm/s),Time (s),Disp (mm),Force (N)", *rows)
    assert "velocity" not in sweep.channels
    assert np.ptp(sweep.channels["displacement"]) == pytest.approx(np.ptp(X), rel=1e-3)
    assert any("stands still while the shock moves" in text for text in sweep.warnings)


def test_magnitudes_beside_a_column_of_directions():
    v = np.gradient(X, T)
    ways = np.where(v >= 0, "C", "R")
    rows = [f"{t:.3f},{abs(s):.5f},{f:.1f},{way}" for t, s, f, way in zip(T, v, F, ways, strict=True)]
    (sweep,) = sweeps("Time (s),Velocity (m/s),Force (N),Direction", *rows)
    assert np.allclose(sweep.channels["velocity"], v, atol=1e-4)
    assert sweep.channels["force"].min() == pytest.approx(F.min(), abs=0.1)
    rows = [f"{t:.3f},{abs(s):.5f},{abs(f):.1f},{way}" for t, s, f, way in zip(T, v, F, ways, strict=True)]
    with pytest.raises(ReadError, match="is a magnitude"):
        sweeps("Time (s),Velocity (m/s),Force abs (N),Direction", *rows)


def test_a_sheet_of_targets_is_not_measured():
    book = openpyxl.Workbook()
    for title, force in (("Target", 100), ("Measured", 110)):
        sheet = book.create_sheet(title)
        sheet.append(("Velocity (m/s)", "Compression (N)", "Rebound (N)"))
        for v in (1, 2, 3):
            sheet.append((v, force * v, 2 * force * v))
    del book["Sheet"]
    data = io.BytesIO()
    book.save(data)
    (sweep,) = read_bytes(data.getvalue(), "shock.xlsx")
    assert sweep.source.part == "Measured"
    assert sweep.channels["force"].max() == 330
    assert any("'Target' was left out" in text for text in sweep.warnings)


def test_two_sides_of_a_car_in_letters_beside_what_they_differ_by():
    head = "Velocity (mm/s),L Comp (N),L Reb (N),R Comp (N),R Reb (N),Comp diff %,Reb diff %"
    rows = ["50,399,57,368,20,-7.6,-6.8", "100,482,279,435,180,-9.8,-35.6", "200,568,400,503,276,-11.3,-30.9"]
    left, right = sweeps(head, *rows)
    assert (left.channels["force"].max(), left.channels["force"].min()) == (568, -400)
    assert (right.channels["force"].max(), right.channels["force"].min()) == (503, -276)


def test_a_sensor_that_is_called_by_its_kind_and_its_unit():
    rows = [f"{1e6 * t:.0f},{1e3 * x:.3f},{f / 9.80665:.4f}" for t, x, f in zip(T, X, F, strict=True)]
    (sweep,) = sweeps("time_us,encoder_mm,loadcell_kg", *rows)
    assert np.ptp(sweep.channels["displacement"]) == pytest.approx(np.ptp(X), rel=1e-3)
    assert np.ptp(sweep.channels["force"]) == pytest.approx(np.ptp(F), rel=1e-3)


def test_a_line_broken_in_a_cell_of_a_page_is_a_blank():
    head = "<tr><th>Velocity<br>mm/s</th><th>Compression<br>N</th><th>Rebound<br/>N</th></tr>"
    rows = "".join(f"<tr><td>{v}</td><td>{2 * v}</td><td>{3 * v}</td></tr>" for v in (50, 100, 200))
    (sweep,) = sweeps(f"<html><body><table>{head}{rows}</table></body></html>")
    assert sweep.channels["velocity"].max() == pytest.approx(0.2)
    assert sweep.channels["force"].min() == -600


def test_turns_a_minute_without_a_unit_give_the_rate():
    hertz, x = 1.6, 25 * np.sin(2 * np.pi * 1.6 * np.arange(1000) / 400)
    v = np.gradient(x) * 400
    rows = [f"{a:.3f},{100 + 2 * b:.2f}" for a, b in zip(x, v, strict=True)]
    head = [f"RPM,{60 * hertz:g}", "Stroke,50,mm", "Samples per revolution,250", "Displacement (mm),Force (N)"]
    (sweep,) = sweeps(*head, *rows)
    assert sweep.rate == pytest.approx(400, rel=0.01)


@pytest.mark.parametrize("mark", ["'", "’", "\u202f", "\u00a0"])
def test_thousands_marked_first_far_down_a_record(mark):
    def grouped(f: float) -> str:
        text = f"{abs(f):.1f}"
        whole, point, tenth = text.partition(".")
        whole = f"{whole[:-3]}{mark}{whole[-3:]}" if len(whole) > 3 else whole
        return f"{'-' if f < 0 else ''}{whole}{point}{tenth}"

    grow = np.where(np.arange(len(F)) > len(F) // 2, 4.0, 0.5)
    rows = [f"{t:.3f};{1e3 * x:.3f};{grouped(g * f)}" for t, x, f, g in zip(T, X, F, grow, strict=True)]
    (sweep,) = sweeps("Time [s];Disp [mm];Force [N]", *rows)
    assert np.abs(sweep.channels["force"]).max() == pytest.approx(np.abs(grow * F).max(), abs=0.1)
    assert np.abs(sweep.channels["force"]).max() > 1000
