"""What people write above a table: clicks before adjusters, both speeds of a direction, names and what follows."""

from __future__ import annotations

import json

import pytest

from dynoan.errors import ReadError
from dynoan.reading import read_bytes
from importers.stated import facts_of_lines, facts_of_name
from importers.words.clicks import clicks_of

FOUR = {"lsc": 8, "hsc": 3, "lsr": 10, "hsr": 4}
TWO = {"c": 8, "r": 10}


@pytest.mark.parametrize(
    ("line", "clicks"),
    [
        ("Settings: 8 LSC 3 HSC 10 LSR 4 HSR", FOUR),
        ("8 LSC / 3 HSC / 10 LSR / 4 HSR", FOUR),
        ("8 bump, 10 rebound", TWO),
        ("Klicks: 8 Druck, 10 Zug", TWO),
        ("Réglages: 8 compression, 10 détente", TWO),
        ("6 LSC 8 LSR compression (N)", {"lsc": 6, "lsr": 8}),
        ("comp 8 reb 10", TWO),
        ("LSC/HSC: 8/3  LSR/HSR: 10/4", FOUR),
        ("Clicks bump/rebound: 8/10", TWO),
        ("Compression: LS 8 / HS 3", {"lsc": 8, "hsc": 3}),
        ("Rebound: 10 low, 4 high", {"lsr": 10, "hsr": 4}),
        ("Hidas puristus: 8", {"lsc": 8}),
        ("Kompression lågfart: 8 klick", {"lsc": 8}),
        ("LSB 8, HSB 3, LSR 10, HSR 4", FOUR),
        ("圧側クリック: 8", {"c": 8}),
        ("伸側: 10クリック", {"r": 10}),
        ("LSC: 8.0", {"lsc": 8}),
        ("LSC: full in, then 6 out", {"lsc": 6}),
        ("Comp closed", {"c": 0}),
        ("Shims C: 20 x 0.20, R: 18 x 0.25", {}),
        ("customer wants rebound 2 clicks softer", {}),
    ],
)
def test_clicks(line, clicks):
    assert clicks_of(line) == clicks


@pytest.mark.parametrize(
    ("line", "stated"),
    [
        ("Shock ID    : 3301", {"shock": "3301"}),
        ("Valving .......... trap", {"pack": "trap"}),
        ("Damper: 118-A  Spec: wet  LSC/HSC: 3/4", {"shock": "118-A", "pack": "wet"}),
        ("Damper: RL-121 (pack: B)", {"shock": "RL-121", "pack": "B"}),
        ("pack: gravel, LSC 6 LSR 8", {"pack": "gravel", "clicks": {"lsc": 6, "lsr": 8}}),
        ("Shock: FR-1 (rebuilt)", {"shock": "FR-1"}),
        ("Pack = 'gravel'", {"pack": "gravel"}),
        ("Piston: 46 mm", {"pack": None}),
        ("Piston: 35", {"pack": None}),
        ("Piston: digressive 2/1", {"pack": "digressive 2/1"}),
        ("Session: 3", {"date": None, "warnings": ()}),
        ("Zestaw zaworów: szuter", {"pack": "szuter"}),
        ("Max stroke of shock 120 mm", {"shock": None, "stroke": None}),
        ("Stroke: 120 mm (shock)", {"stroke": None}),
        ("Amplitude: 25 mm", {"stroke": 0.05}),
        ("Amplitude (peak to peak): 50 mm", {"stroke": 0.05}),
        ('Crank stroke: 2"', {"stroke": 0.0508}),
        ("Skok: 50 mm", {"stroke": 0.05}),
        ("Rod: Ø 14 mm", {"rod": 0.014}),
        ('Shaft Dia: 5/8"', {"rod": 0.015875}),
        ("Gas: 10 bar cold", {"gas_pressure": 1e6}),
        ("Gas pressure: 10 kgf/cm2", {"gas_pressure": 980665.0}),
        ("Gastryck: 9 bar", {"gas_pressure": 9e5}),
        ("oil_temperature_c: 31", {"temperature": 31}),
        ("Temperature, C: 31", {"temperature": 31}),
        ("Body temp 31 deg C", {"temperature": 31}),
        ("# pacco: neve ; olio 31 °C", {"pack": "neve", "temperature": 31}),
        ("Temp (C),41,Gas (bar),10,Rod (mm),14", {"temperature": 41, "gas_pressure": 1e6, "rod": 0.014}),
        ("Session 2026-03-15, dyno room 21 °C", {"date": "2026-03-15"}),
    ],
)
def test_facts(line, stated):
    facts = facts_of_lines([line])
    found = {key: getattr(facts, key) for key in stated}
    assert found == {k: pytest.approx(v) if isinstance(v, float) else v for k, v in stated.items()}


def test_a_name_speaks_of_packs_and_states_none():
    assert [facts_of_name(name).pack for name in ("two_packs.csv", "pack_gravel.csv", "packA.csv")] == [
        None,
        "gravel",
        "A",
    ]
    assert facts_of_name("FR03 Gravel C6 R12 35degC.csv").temperature == 35


ROWS = "Velocity (mm/s);Compression (N);Rebound (N)\n50;327;491\n100;350;526\n200;394;591\n"


def read(text: str):
    return read_bytes(text.encode(), "card.csv")


def test_a_square_of_speeds_across_and_directions_down_is_a_setting():
    (sweep,) = read(f";Low speed;High speed\nCompression;8;3\nRebound;10;4\n{ROWS}")
    assert (sweep.clicks, sweep.channels["force"][-1]) == (FOUR, -591)


def test_a_setting_with_its_numbers_first_is_a_cell_and_no_speed():
    found = read("Setting;" + "6C 8R;".join(ROWS.splitlines(keepends=True)))
    assert [(dict(s.clicks), s.channels["force"].tolist()) for s in found] == [
        ({"c": 6, "r": 8}, [327, 350, 394, -491, -526, -591])
    ]


@pytest.mark.parametrize("sign", ["", "-"])
def test_forces_under_the_clicks_of_rebound_are_of_rebound(sign):
    (first, second) = read(f"Velocity (mm/s);R0 (N);R5 (N)\n50;{sign}491;{sign}416\n100;{sign}526;{sign}451\n")
    assert (first.clicks, first.channels["force"].tolist()) == ({"r": 0}, [-491, -526])
    assert second.channels["velocity"].tolist() == pytest.approx([-0.05, -0.1])


def test_thrust_beside_pull_is_a_force_and_no_pressure():
    (sweep,) = read(
        "Kennlinie (Kräfte in daN, Geschwindigkeiten in cm/s)\nGeschwindigkeit;Druck;Zug\n5;20;30\n10;30;40\n"
    )
    assert sweep.channels["force"].tolist() == [200, 300, -300, -400]


def test_a_name_may_be_broken_within_its_quotes():
    (sweep,) = read(ROWS.replace("Velocity (mm/s)", '"Velocity\n(mm/s)"').replace("Rebound (N)", '"Rebound\n(N)"'))
    assert sweep.channels["force"].tolist() == [327, 350, 394, -491, -526, -591]


def test_cells_that_say_they_hold_no_number_are_told():
    (sweep,) = read(ROWS.replace("350", "#DIV/0!"))
    assert len(sweep.channels["force"]) == 5
    assert "1 cell says '#DIV/0!' and no number: what stands there was left out" in sweep.warnings


def test_the_stroke_that_a_speed_comes_from_is_told():
    rows = "Frequency (Hz),Compression (N),Rebound (N)\n1,300,400\n2,450,600\n3,600,800\n"
    (sweep,) = read(f"Amplitude (p-p): 50 mm\n{rows}")
    assert any("the stroke of 50 mm" in warning for warning in sweep.warnings)
    with pytest.raises(ReadError, match="no velocity column"):
        read(f"Stroke: 120 mm (shock)\n{rows}")


def test_notes_right_beside_the_numbers_are_notes():
    lines = ROWS.splitlines()
    notes = [";Shock;A1", ";Pack;p", ";LSC;6", ";LSR;8"]
    (sweep,) = read("\n".join(a + b for a, b in zip(lines, notes, strict=True)) + "\n")
    assert (sweep.shock, sweep.pack, sweep.clicks, sweep.samples) == ("A1", "p", {"lsc": 6, "lsr": 8}, 6)


def test_facts_beside_columns_and_rows_are_taken():
    record = {"header": {"Shock": "A1", "LSC": 6, "LSR": 8}, "columns": ["speed mm/s", "compression N", "rebound N"]}
    data = json.dumps(record | {"rows": [[50, 300, 400], [100, 450, 600], [200, 620, 900]]})
    (sweep,) = read_bytes(data.encode(), "run.json")
    assert (sweep.shock, sweep.clicks) == ("A1", {"lsc": 6, "lsr": 8})


ROWS_OF_HERTZ = "Frequency (Hz),Compression (N),Rebound (N)\n1,300,400\n2,450,600\n3,600,800\n"


def test_the_rigs_stroke_wins_over_one_that_the_shocks_may_be():
    (sweep,) = read(f"Total stroke: 120 mm\nStroke: 110 mm\nCrank stroke: 50 mm\n{ROWS_OF_HERTZ}")
    assert sweep.stroke == pytest.approx(0.05)


def test_a_stroke_that_the_shocks_may_be_is_said_to_be_one():
    (sweep,) = read(f"Total stroke: 120 mm\n{ROWS_OF_HERTZ}")
    assert any("of 120 mm; if 'total stroke: 120 mm' is the shock's stroke" in warning for warning in sweep.warnings)


def test_two_strokes_of_one_test_are_told():
    (sweep,) = read(f"Stroke: 50 mm\nAmplitude: 50 mm\n{ROWS_OF_HERTZ}")
    assert any("two strokes of one test: 50 mm was taken" in warning for warning in sweep.warnings)


def test_settings_listed_by_adjuster_are_taken():
    record = {
        "settings": [{"adjuster": "lsc", "clicks": 6}, {"adjuster": "Low speed rebound", "clicks": 8}],
        "data": [{"speed mm/s": s, "compression N": 3 * s, "rebound N": 4 * s} for s in (50, 100, 200)],
    }
    for data in (record, {"metadata": {"settings": record["settings"]}, "data": record["data"]}):
        (sweep,) = read_bytes(json.dumps(data).encode(), "run.json")
        assert (sweep.clicks, sweep.warnings) == ({"lsc": 6, "lsr": 8}, ())


def test_settings_under_speeds_and_directions_are_taken():
    square = "Low speed;;High speed;\nComp;Reb;Comp;Reb\n6;8;2;3\n\n"
    (sweep,) = read(square + ROWS)
    assert sweep.clicks == {"lsc": 6, "lsr": 8, "hsc": 2, "hsr": 3}
