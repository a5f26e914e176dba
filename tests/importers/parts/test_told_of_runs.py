"""What lines, heads and sheets say of one of several runs beside one another."""

from __future__ import annotations

import io

import openpyxl
import pytest

from dynoan.reading import read_bytes
from tests.importers.making import F, T, X

PEAKS = [(25, 250, 397), (51, 411, 662), (102, 583, 956)]


def test_a_line_that_begins_with_a_run_is_of_that_run_alone():
    lines = ["Run 1: LSC 4 LSR 6", "Run 2: LSC 8 LSR 10", "Gas pressure: 10 bar",
             "Speed (mm/s),Run 1 Comp (N),Run 1 Reb (N),Run 2 Comp (N),Run 2 Reb (N)",
             *(f"{v},{c},{r},{0.8 * c},{0.8 * r}" for v, c, r in PEAKS)]  # fmt: skip
    first, second = read_bytes("\n".join(lines).encode(), "runs.csv")
    assert [dict(s.clicks) for s in (first, second)] == [{"lsc": 4, "lsr": 6}, {"lsc": 8, "lsr": 10}]
    assert first.gas_pressure == second.gas_pressure == pytest.approx(1e6)


def test_heads_of_traces_side_by_side_give_their_clicks():
    heads = [f"Disp LSC={n} LSR={n} (mm),Force LSC={n} LSR={n} (N)" for n in (0, 8)]
    rows = [f"{t:.3f},{1e3 * x:.3f},{f:.1f},{1e3 * x:.3f},{0.7 * f:.1f}" for t, x, f in zip(T, X, F, strict=True)]
    sweeps = read_bytes("\n".join([f"Time (s),{','.join(heads)}", *rows]).encode(), "wide.csv")
    assert [dict(s.clicks) for s in sweeps] == [{"lsc": 0, "lsr": 0}, {"lsc": 8, "lsr": 8}]


@pytest.mark.parametrize(("titles", "shocks"), [(("FL", "RR"), ["FL", "RR"]), (("Left Front", "Right Front"),) * 2,
                                                (("Run 1", "Run 2"), [None, None])])  # fmt: skip
def test_a_sheet_called_by_a_corner_is_that_shock(titles, shocks):
    book = openpyxl.Workbook()
    book.remove(book.active)
    for title in titles:
        sheet = book.create_sheet(title)
        for row in [("Speed (mm/s)", "Comp (N)", "Reb (N)"), *PEAKS]:
            sheet.append(row)
    out = io.BytesIO()
    book.save(out)
    assert [s.shock for s in read_bytes(out.getvalue(), "car.xlsx")] == list(shocks)


def test_scales_of_two_channels_may_stand_in_one_line():
    rows = [f"{t:.3f};{f / 500:.5f};{1e3 * x / 10:.5f}" for t, x, f in zip(T, X, F, strict=True)]
    head = ["# force: 500 N/V, displacement: 10 mm/V", "time [s];force [V];displacement [V]"]
    (sweep,) = read_bytes("\n".join([*head, *rows]).encode(), "adc.csv")
    assert float(abs(sweep.channels["force"]).max()) == pytest.approx(float(abs(F).max()), rel=0.01)
    assert float(sweep.channels["displacement"].max()) == pytest.approx(0.02, rel=0.01)


def test_units_may_be_keys_run_together():
    lines = ["SpeedUnit=mm/s", "ForceUnit=N", "Speed,Comp,Reb", *(f"{v},{c},{r}" for v, c, r in PEAKS)]
    (sweep,) = read_bytes("\n".join(lines).encode(), "ini.dat")
    assert float(sweep.channels["velocity"].max()) == pytest.approx(0.102)
