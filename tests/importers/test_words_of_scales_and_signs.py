"""Grams, inches in other tongues, "Soll" beside "Ist", D and Z, units in a list, oil, what a file is called."""

from __future__ import annotations

import io
import json

import numpy as np
import pytest
from scipy.io import savemat

from dynoan.errors import ReadError
from dynoan.model.importing import ReadOptions
from dynoan.reading import read_bytes
from importers.header import describe_column
from importers.records.units_listed import units_by_kind
from tests.importers.making import F, T, X

PEAKS = ("20,62,124", "50,158,316", "100,316,588", "150,411,685")
ROWS = [f"{t:.3f},{1e3 * x:.3f},{f:.1f}" for t, x, f in zip(T, X, F, strict=True)]


def sweeps(*lines: str, name: str = "rig.csv", options: ReadOptions | None = None):
    return read_bytes("\n".join(lines).encode(), name, options)


@pytest.mark.parametrize(
    "names", ["speed mm/s,comp g,reb g", "speed [mm/s],comp [g],reb [g]", "speed mm/s,comp gf,reb gf"]
)
def test_grams_of_a_kitchen_scale_are_a_force(names):
    (sweep,) = sweeps(names, "20,63.2,126.4", "50,158.1,316.1", "100,316.1,588.4")
    assert sweep.channels["force"].max() == pytest.approx(0.3161 * 9.80665)
    assert sweep.channels["force"].min() == pytest.approx(-0.5884 * 9.80665)


@pytest.mark.parametrize("name", ["accel g", "Body accel [g]", "G-force g", "x [g]"])
def test_an_acceleration_in_g_is_in_no_grams(name):
    assert describe_column(0, name).unit != "gf"


@pytest.mark.parametrize("unit", ["tum", "tommer", "polegadas", "дюйм", "インチ", "tuumaa"])
def test_an_inch_in_any_tongue(unit):
    (sweep,) = sweeps(f"Time [s],Displacement [{unit}],Force [N]", *(
        f"{t:.3f},{x / 0.0254:.5f},{f:.1f}" for t, x, f in zip(T, X, F, strict=True)))  # fmt: skip
    assert np.ptp(sweep.channels["displacement"]) == pytest.approx(np.ptp(X), rel=1e-3)


def test_d_and_z_behind_a_stroke_are_druck_and_zug():
    (sweep,) = sweeps("v/(mm/s),F_D/N,F_Z/N", *PEAKS)
    assert (sweep.channels["force"].max(), sweep.channels["force"].min()) == (411, -685)


@pytest.mark.parametrize(
    ("first", "second", "taken"),
    [
        ("Soll-Kraft [N]", "Ist-Kraft [N]", 1),
        ("Shock force (N)", "Cell force (N)", 0),
        ("Load cell (N)", "Shock load (N)", 1),
    ],
)
def test_what_is_wanted_or_measured_elsewhere_is_not_the_shocks_force(first, second, taken):
    rows = [f"{row},{f / 2:.1f}" if taken == 0 else f"{row.rpartition(',')[0]},{f / 2:.1f},{f:.1f}"
            for row, f in zip(ROWS, F, strict=True)]  # fmt: skip
    (sweep,) = sweeps(f"Time [s],Disp [mm],{first},{second}", *rows)
    assert sweep.channels["force"].max() == pytest.approx(np.max(F), abs=0.1)
    assert sweep.decisions["force"].column == (first, second)[taken]


def test_a_blank_column_between_two_shocks_is_a_cell_where_tabs_set_cells_apart():
    over, names = "Speed\tFL-02\t\t\tFR-02", "mm/s\tComp (N)\tReb (N)\t\tComp (N)\tReb (N)"
    found = sweeps(over, names, *(f"{v}\t{v}\t{2 * v}\t\t{3 * v}\t{4 * v}" for v in (20, 40, 80, 130)))
    assert [(s.shock, s.channels["force"].max()) for s in found] == [("FL-02", 130), ("FR-02", 390)]


def test_units_in_a_list_beside_the_columns():
    columns = {"Force": F, "Position": 1e3 * X, "Time": T}
    stream = io.BytesIO()
    savemat(stream, {**columns, "Units": np.array(["s", "mm", "N"], dtype=object)})
    (of_matlab,) = read_bytes(stream.getvalue(), "vars.mat")
    held = {name: list(x) for name, x in columns.items()} | {"units": ["N", "mm", "s"]}
    (of_json,) = read_bytes(json.dumps(held).encode(), "vars.json")
    for sweep in (of_matlab, of_json):
        assert np.ptp(sweep.channels["displacement"]) == pytest.approx(np.ptp(X))
    assert units_by_kind(["a", "Force"], ["N", "mm"]) == ["", ""]


@pytest.mark.parametrize(
    ("line", "shock", "warmth"),
    [
        ("Réf. amortisseur;AV-G", "AV-G", None), ("N° de l'amortisseur: AV-G", "AV-G", None), ("Shock: F", "F", None),
        ("Damper;N", None, None), ("Olio 34 °C", None, 34.0), ("油温,30℃", None, 30.0), ("Oil: 5W", None, None),
        ("Teplota oleje: 31 °C", None, 31.0), ("Oil 10", None, None),
        ("anbei die Werte vom Dämpfer HL-51 (Öl 30 °C):", "HL-51", 30.0), ("Shock FL-52 (oil 86 °F)", "FL-52", 30.0),
    ],
)  # fmt: skip
def test_a_line_that_names_the_shock_or_its_warmth(line, shock, warmth):
    (sweep,) = sweeps(line, "", "Velocity (mm/s),Compression (N),Rebound (N)", *PEAKS)
    assert (sweep.shock, sweep.temperature) == (shock, warmth)


ONE = ("Velocity (mm/s),Force (N)", "20,62", "50,158", "100,316")


@pytest.mark.parametrize(
    ("name", "way", "options"),
    [
        ("FR-77 rebound.csv", -1, None), ("FR-77_compression.csv", 1, None), ("FR-77 rebound 4.csv", 1, None),
        ("rebound adjuster.csv", 1, None), ("FR-77 rebound.csv", 1, ReadOptions(positive="compression")),
    ],
)  # fmt: skip
def test_a_files_name_says_the_direction_where_nothing_in_it_does(name, way, options):
    (sweep,) = sweeps(*ONE, name=name, options=options)
    assert sweep.channels["force"].tolist() == [way * f for f in (62, 158, 316)]
    assert np.all(np.sign(sweep.channels["velocity"]) == way)


def test_what_stands_in_the_file_wins_over_its_name():
    (sweep,) = sweeps("Velocity (mm/s),Force (N)", "-100,-500", "-50,-300", "50,158", "100,316", name="rebound.csv")
    assert sweep.channels["force"].tolist() == [-500, -300, 158, 316]


LONG = [f"{c},{way},{v},{k * v}" for c in (2, 6) for way, k in (("comp", 2), ("reb", 3)) for v in (20, 50, 90)]
CLICKS = ("Clicks,Direction,Velocity (mm/s),Force (N)", *LONG)


def test_one_column_may_be_the_clicks_of_both_knobs():
    (first, _) = sweeps(*CLICKS, options=ReadOptions(columns={"c": "Clicks", "r": "1"}))
    assert (first.clicks, first.warnings) == ({"c": 2, "r": 2}, ())
    (first, _) = sweeps(*CLICKS)
    assert any("say --column 'c=Clicks' --column 'r=Clicks'" in w for w in first.warnings)


def test_one_column_for_two_channels_is_an_error():
    with pytest.raises(ReadError, match=r"--column force and --column velocity name one column, 'Force \(N\)'"):
        sweeps(*CLICKS, options=ReadOptions(columns={"force": "Force", "velocity": "4"}))


@pytest.mark.parametrize(("rate", "held"), [(490.0, 490.0), (500.01, 500.0), (500.0, 500.0), (200.0, 200.0)])
def test_a_stated_rate_wins_over_the_time_column(rate, held):
    (sweep,) = sweeps("Time [s],Disp [mm],Force [N]", *ROWS, options=ReadOptions(rate=rate))
    assert sweep.rate == pytest.approx(held)
    assert any("you were believed" in w for w in sweep.warnings) == (held != 500.0)


def test_a_rate_a_little_off_the_time_column_keeps_the_gaps():
    rows = ROWS[:700] + ROWS[760:]
    (sweep,) = sweeps("Time [s],Disp [mm],Force [N]", *rows, options=ReadOptions(rate=510.0))
    assert sweep.rate == pytest.approx(510.0)
    assert np.diff(sweep.channels["time"]).max() == pytest.approx(61 / 510.0)


TWICE = ("Time [s],Disp [mm],Load [N],Load [N]", *(f"{row},{f / 2:.5f}" for row, f in zip(ROWS, F, strict=True)))


@pytest.mark.parametrize("name", ["Load#2", "Load [N]#2", "4"])
def test_one_of_two_columns_of_one_name(name):
    (sweep,) = sweeps(*TWICE, options=ReadOptions(columns={"force": name}))
    assert sweep.channels["force"].max() == pytest.approx(np.max(F) / 2, abs=0.1)


@pytest.mark.parametrize(
    ("options", "said"),
    [
        ({"columns": {"force": "Load"}}, r"'Load' for force could be 'Load \[N\]#1', 'Load \[N\]#2'; name one of them"),
        ({"columns": {"force": "3"}, "units": {"force": "kNN"}}, "'kNN' is no unit of force; write one such as N, kN"),
        ({"columns": {"force": "3", "c": "1"}}, "another number in nearly every row, so it is no c; name another with"),
    ],
)
def test_what_an_option_cannot_mean_is_said(options, said):
    with pytest.raises(ReadError, match=said):
        sweeps(*TWICE, options=ReadOptions(**options))


@pytest.mark.parametrize(
    ("lines", "code", "shock"),
    [
        (("댐퍼: KR-8", "속도(mm/s),압축(N),신장(N)"), "euc_kr", "KR-8"),
        (("Αμορτισέρ: GR-1", "Ταχύτητα (mm/s),Συμπίεση (N),Έκταση (N)"), "utf-8", "GR-1"),
        (("Shock: FL-43, rebound adjuster sweep", "Geschw. mm/s,Druckst. N,Zugst. N"), "utf-8", "FL-43"),
    ],
)
def test_a_table_in_words_of_its_own(lines, code, shock):
    (sweep,) = read_bytes("\n".join([*lines, *PEAKS]).encode(code), "words.csv")
    assert (sweep.shock, sweep.channels["force"].min(), sweep.channels["force"].max()) == (shock, -685, 411)


@pytest.mark.parametrize("line", ["FR-09 pack tarmac", "FR-09, tarmac pack", "# FR-09; pack tarmac"])
def test_a_shock_at_the_start_of_a_line_with_its_pack(line):
    (sweep,) = sweeps(line, "Velocity (mm/s),Compression (N),Rebound (N)", *PEAKS)
    assert (sweep.shock, sweep.pack) == ("FR-09", "tarmac")


def test_a_shock_before_a_clause_on_its_forces():
    (sweep,) = sweeps("RR-62, forces in lbs", "Velocity (mm/s),Compression,Rebound", *PEAKS)
    assert (sweep.shock, round(sweep.channels["force"].max())) == ("RR-62", round(411 * 4.4482216))


def test_words_to_the_right_of_a_row_lose_no_row():
    rows = ["90,261,459,,ok" if k == 2 else f"{20 + 35 * k},{100 + k},{200 + k}" for k in range(6)]
    (sweep,) = sweeps("Speed,Bump,Rebound,,Notes", "mm/s,N,N", *rows)
    assert sweep.samples == 12
    assert any("notes among the numbers were left out: 'ok'" in w for w in sweep.warnings)
