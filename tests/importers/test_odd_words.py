"""What shops write beside their numbers in other words than most: units, rates, strokes, clicks without a direction."""

from __future__ import annotations

import numpy as np
import pytest

from dynoan.errors import ReadError
from dynoan.reading import read_bytes
from tests.importers.making import F, T, X

ROWS = [f"{t:.3f},{1e3 * x:.3f},{f:.1f}" for t, x, f in zip(T, X, F, strict=True)]
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
