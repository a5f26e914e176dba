"""Peak tables of few rows: the curve meets them; one direction alone tells no gas force; runs that are no repeats."""

from __future__ import annotations

import numpy as np
import pytest

import dynoan
from dynoan.analysis.conditioning.tables import peak_table
from dynoan.analysis.conditioning.tables.assumptions import ODD_TRIED
from dynoan.reading import read_bytes

DIGRESSIVE = ((0.05, 380.0, -480.0), (0.13, 565.0, -980.0), (0.25, 720.0, -1230.0))


HEAD = "Velocity (m/s),Compression (N),Rebound (N)"


def table(rows, head=HEAD):
    text = "\n".join([head, *(",".join(str(cell) for cell in row) for row in rows)])
    return read_bytes(text.encode(), "few.csv")


def rows_of(law, speeds):
    return [(v, round(law(v), 1), -round(1.8 * law(v), 1)) for v in speeds]


LAWS = {
    "straight": lambda v: 3000 * v + 30,
    "square root": lambda v: 1500 * v**0.5 + 30,
    "opens at 0.1": lambda v: 30 + 6000 * min(v, 0.1) + 800 * max(v - 0.1, 0.0),
    "square": lambda v: 30 + 900 * v + 6000 * v**2,
}


@pytest.mark.parametrize("law", LAWS)
@pytest.mark.parametrize("count", [3, 4, 5, 6])
def test_the_curve_with_gas_force_is_the_table(law, count):
    rows = rows_of(LAWS[law], np.round(np.linspace(0.05, 0.4, count), 3))
    curve = dynoan.fit(table(rows))
    top = rows[-1][1]
    for v, compression, rebound in rows:
        assert curve.compression.force(v) + curve.gas_force == pytest.approx(compression, abs=0.03 * top)
        assert -curve.rebound.force(v) + curve.gas_force == pytest.approx(rebound, abs=0.054 * top)


def test_where_no_law_of_two_values_meets_three_rows_the_curve_goes_from_row_to_row():
    curve = dynoan.fit(table(DIGRESSIVE))
    assert [knee.velocity for knee in curve.rebound.knees] == pytest.approx([0.05, 0.13])
    # Between the rows nobody measured: a knee may stand anywhere from the row before to the row after.
    assert [k.low for k in curve.rebound.knees] == pytest.approx([0.0, 0.05])
    assert [k.high for k in curve.rebound.knees] == pytest.approx([0.13, 0.25])
    assert curve.rms < 1.0


def test_a_straight_valve_of_three_rows_has_no_knee():
    curve = dynoan.fit(
        table([(0.05, 150.0, -150.0), (0.1, 300.0, -300.0), (0.2, 600.0, -600.0)], f"Gas force: removed\n{HEAD}")
    )
    assert not curve.compression.knees
    assert not curve.rebound.knees
    assert curve.compression.segments[0].character == "linear"


def test_a_table_leaves_gas_force_no_more_open_than_it_was_before():
    said = next(f for f in dynoan.fit(table(DIGRESSIVE)).findings if f.startswith("gas force"))
    # Taken for granted where nobody states it: 120 N with a standard deviation of 120 N.
    assert "± 240)" in said


def test_one_direction_alone_does_not_tell_gas_force():
    head = "Velocity (m/s),Rebound (N)"
    said = " ".join(dynoan.fit(table([(v, -r) for v, _, r in DIGRESSIVE], head)).findings)
    assert "one direction alone cannot tell" in said
    assert "both directions run together" not in said


def test_runs_that_are_no_repeats_are_told():
    first = table(DIGRESSIVE)
    softer = table([(v, 0.7 * c, 0.7 * r) for v, c, r in DIGRESSIVE])
    told = [w for w in dynoan.fit([*first, *softer]).warnings if "no repeats" in w]
    assert len(told) == 1
    assert "run 2 has" in told[0]
    assert "run 1 1" in told[0]


def test_repeats_are_not_told():
    first = table(DIGRESSIVE)
    again = table([(v, 1.03 * c, 1.03 * r) for v, c, r in DIGRESSIVE])
    assert not dynoan.fit([*first, *again]).warnings


def test_a_slow_run_beside_a_fast_one_is_not_held_against_it():
    fast = table(DIGRESSIVE)
    slow = table([(0.01, 200.0, -100.0), (0.02, 240.0, -180.0), (0.03, 260.0, -230.0)])
    assert not dynoan.fit([*fast, *slow]).warnings


TYPED = [
    (0.025, 158, -323),
    (0.05, 258, -524),
    (0.1, 385, -755),
    (0.15, 450, -853),
    (0.2, 502, -917),
    (0.3, 590, -1026),
]


def test_a_force_ten_times_those_beside_it_is_left_out_and_said():
    slipped = [(v, 10 * c if v == 0.15 else c, r) for v, c, r in TYPED]
    right, found = dynoan.fit(table(TYPED)), dynoan.fit(table(slipped))
    assert any("450" in line and "left out" in line for line in found.findings)
    for v, *_ in TYPED:
        assert found.compression.force(v) == pytest.approx(right.compression.force(v), abs=0.08 * 590)
        assert found.rebound.force(v) == pytest.approx(right.rebound.force(v), abs=0.08 * 1026)


def test_rebound_that_gas_pushes_the_other_way_stays():
    gassed = [(0.01, 190, 90), (0.02, 230, -12), (0.05, 330, -180), (0.1, 460, -390), (0.2, 640, -700)]
    assert not any("left out" in line for line in dynoan.fit(table(gassed)).findings)


def test_a_last_row_beside_one_that_gas_holds_near_zero_stays():
    gassed = [(0.05, 320, 150), (0.1, 380, 120), (0.2, 450, 80), (0.4, 560, -3), (0.6, 700, -187)]
    assert not any("left out" in line for line in dynoan.fit(table(gassed)).findings)


def test_one_row_a_third_too_low_is_named_and_left_out():
    slipped = [(v, c, -600 if v == 0.15 else r) for v, c, r in TYPED]
    right, found = dynoan.fit(table(TYPED)), dynoan.fit(table(slipped))
    assert any(line.startswith("rebound force of 600 N at 150 mm/s is off the line") for line in found.findings)
    for v, *_ in TYPED:
        assert found.rebound.force(v) == pytest.approx(right.rebound.force(v), abs=0.05 * 1026)


def test_rows_at_one_speed_that_are_no_repeats_are_told():
    softer = [(v, 0.75 * c, 0.75 * r) for v, c, r in TYPED]
    told = [w for w in dynoan.fit(table([*TYPED, *softer])).warnings if "rows at one speed lie" in w]
    assert len(told) == 1


def test_repeats_at_one_speed_are_not_told_and_do_rise():
    again = [(v, 1.01 * c, 1.01 * r) for v, c, r in TYPED]
    curve = dynoan.fit(table([*TYPED, *again]))
    assert not any("lie" in w and "apart" in w for w in curve.warnings)
    assert not any("do not rise" in line for line in curve.findings)


@pytest.mark.parametrize("scatter", [0.0, 0.003])
def test_a_table_that_rises_makes_no_curve_that_falls(scatter):
    rng = np.random.default_rng(4)
    for top in (300.0, 1800.0):
        rows = [
            (round(v, 3), round(top * x * (1 + scatter * rng.normal()), 1), round(-1.5 * top * x, 1))
            for v, x in zip(np.linspace(0.05, 0.65, 7), (0.1, 0.35, 0.75, 0.85, 0.9, 0.95, 1.0), strict=True)
        ]
        curve = dynoan.fit(table(rows))
        for side in (curve.compression, curve.rebound):
            assert np.diff(side.force(np.linspace(0.05, 0.65, 200))).min() > -0.001 * top


def test_of_a_long_table_no_more_than_some_rows_are_tried(monkeypatch):
    tried, asked = [], peak_table._scatter
    monkeypatch.setattr(peak_table, "_scatter", lambda *of: tried.append(1) or asked(*of))
    rng = np.random.default_rng(2)
    rows = [
        (round(v, 4), round(2000 * v * (1 + 0.08 * rng.normal()), 1), round(-4000 * v * (1 + 0.08 * rng.normal()), 1))
        for v in np.linspace(0.02, 0.6, 60)
    ]
    dynoan.fit(table(rows))
    assert len(tried) == ODD_TRIED
