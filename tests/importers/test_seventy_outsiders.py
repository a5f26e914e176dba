"""Causes that seventy files of other people brought up: a line each, as they wrote them or nearly so."""

from __future__ import annotations

import io
import json

import numpy as np
import openpyxl
import pytest

from dynoan.reading import read_bytes
from importers.stated import facts_of_lines, statements

PEAKS = "mm/s;Comp N;Reb N\n50;135;205\n100;251;410\n200;326;532\n"


def read(text, name="sheet.csv"):
    return read_bytes(text.encode(), name)


@pytest.mark.parametrize(
    ("line", "said"),
    [
        ("- Compresión: 6 clics", {}),
        ("Essai 12 - compression 8 clics, détente 12 clics", {}),
        ("Aula 5: bitubo - compressão 8 cliques, retorno 12 cliques", {}),
        ("# - rebound 4", {}),
        ("Sign: - rebound", {"all": "compression"}),
        ("rebound = -", {"all": "compression"}),
        ("compression +, rebound -", {"all": "compression"}),
        ("- is rebound", {"all": "compression"}),
        ("Force (-) rebound", {"force": "compression"}),
    ],
)
def test_a_dash_that_sets_words_apart_is_no_sign(line, said):
    assert statements([line]) == said


@pytest.mark.parametrize(
    ("line", "shock"),
    [
        ("Dämpfer VR-88 – Klicks Zug 12, Druck 8", "VR-88"),
        ("Dämpfer 4W-1, 19.03.26, Fd = Druckkraft", "4W-1"),
        ("品名,フロント左,", "フロント左"),
        ("Shock no.;4012-B;;Tech;J.", "4012-B"),
        ("Ammortizzatore posteriore DX", "posteriore DX"),
        ("Amortisseur arrière gauche - compression 8 clics, détente 12 clics", "arrière gauche"),
        ("Pieza,Horquilla 2", "Horquilla 2"),
    ],
)
def test_names_of_shocks(line, shock):
    assert facts_of_lines([line]).shock == shock


def test_the_day_beside_a_code_is_kept():
    assert facts_of_lines(["Dämpfer 4W-1, 19.03.26"]).date == "2026-03-19"


def test_gas_in_a_compound():
    assert facts_of_lines(["Gasfülldruck:\t14 bar"]).gas_pressure == 14e5


def test_a_letter_beside_a_word_for_clicks():
    assert facts_of_lines(["Klick K\t8", "Klick R\t6"]).clicks == {"c": 8, "r": 6}


def test_ends_of_knobs_in_words_are_a_setting_and_no_names_of_columns():
    text = (
        "Comp full hard, reb full soft\n\nin/sec   comp lbf   reb lbf\n0.5   7.5   11.4\n1   15   22.8\n2   30   45.6\n"
    )
    (sweep,) = read(text, "LR.txt")
    assert sweep.clicks == {"c": 0}
    assert any("'reb full soft' is the last click" in said for said in sweep.warnings)


def test_letters_of_directions_under_clicks_of_one_knob():
    text = ";Reb 0;;Reb 5;\nin/s;C lbf;R lbf;C lbf;R lbf\n1;15;33;15;28\n3;46;99;46;85\n5;61;147;61;126\n"
    found = read(f"Compression at 10 clicks\n{text}")
    assert [one.clicks for one in found] == [{"c": 10, "r": 0}, {"c": 10, "r": 5}]
    assert [one.channels["force"].tolist()[-1] for one in found] == pytest.approx([-653.89, -560.48], abs=0.01)
    assert all(max(one.channels["force"]) == pytest.approx(271.34, abs=0.01) for one in found)


def test_clicks_below_directions_that_stand_over_them():
    names = "Prędkość;Odbicie (N);;Dobicie (N);\nmm/s;4 kl.;8 kl.;4 kl.;8 kl.\n"
    found = read(f"{names}50;230;200;151;131\n100;461;400;279;243\n250;620;553;380;345\n")
    assert [one.clicks for one in found] == [{"c": 4, "r": 4}, {"c": 8, "r": 8}]
    assert [min(one.channels["force"]) for one in found] == [-620, -553]


def test_one_force_of_a_direction_is_of_each_setting_of_the_other():
    text = (
        "Vitesse;Compression;Détente (N);\nmm/s;N;5 clics;10 clics\n52;140;257;213\n130;273;562;469\n260;370;680;586\n"
    )
    found = read(text)
    assert [one.clicks for one in found] == [{"r": 5}, {"r": 10}]
    assert all(max(one.channels["force"]) == 370 for one in found)
    assert all(any("taken as of each setting" in said for said in one.warnings) for one in found)


def test_a_lone_knob_and_the_unit_of_speeds_behind_them():
    text = "単位 N;ガス圧 1.0 MPa;;;\n伸側段数;0.05;0.1;0.3;m/s\n0;290;580;809;\n5;248;495;716;\n10;205;410;622;\n"
    found = read(text)
    assert [one.clicks for one in found] == [{"r": 0}, {"r": 5}, {"r": 10}]
    assert found[0].channels["force"].tolist() == [-290, -580, -809]
    assert found[0].channels["velocity"].tolist() == [-0.05, -0.1, -0.3]


def test_a_title_says_of_which_direction_a_table_of_clicks_is():
    title = "Dämpfer 5519 - Zugstufe (Druckstufe 10 Klicks)\nKraft in N\n"
    text = f"{title}Klicks \\ v [m/s];0,05;0,1;0,4\n2;273;546;862\n6;239;478;787\n"
    found = read(text)
    assert [one.clicks for one in found] == [{"c": 10, "r": 2}, {"c": 10, "r": 6}]
    assert found[1].channels["force"].tolist() == [-239, -478, -787]


def test_units_in_a_title():
    assert facts_of_lines(["lbs at in/s, all shocks 5 clicks comp"]).units == {"force": "lbs", "velocity": "in/s"}


@pytest.mark.parametrize(
    ("lines", "shock"),
    [
        (["Vergleich mit Dämpfer K-1", "Dämpfer;K-2"], "K-2"),
        (["compared with shock K-1"], None),
        (["RP-2 compression only, 27 Feb 2026"], "RP-2"),
        (["Amortisseur LX - 11/12/2025"], "LX"),
        (["SHOCK DYNO - TEST"], None),
        (["Damper LSC - 6"], None),
        (["Right fork, C 8 R 10"], "Right fork"),
        (["Shock DYNO - Test"], None),
    ],
)
def test_which_shock_a_sentence_names(lines, shock):
    assert facts_of_lines(lines).shock == shock


@pytest.mark.parametrize(
    ("line", "warmth"),
    [("Cold 18 C", 18), ("Hot, 80 °C", 80), ('"3 novembre 2025, 25 °C"', 25), ("Cold start 18 clicks", None)],
)
def test_warmth_in_a_title(line, warmth):
    assert facts_of_lines([line]).temperature == warmth


def test_what_was_gives_way_to_what_is_now():
    assert facts_of_lines(["Was comp 8 reb 12, now comp 6 reb 10"]).clicks == {"c": 6, "r": 10}


def test_the_order_of_a_day_in_words():
    facts = facts_of_lines(["Test 11/12/2025 (jour/mois)"])
    assert facts.swappable == "11/12/2025"
    assert facts.day_first


def test_signals_of_json_in_other_languages():
    wave = [25 * ((k % 40) / 20 - 1) * (-1) ** (k // 40) for k in range(200)]
    held = {
        "Prüfling": "Probe 17",
        "Klicks": {"Druck": 10, "Zug": 5},
        "Abtastrate_Hz": 500,
        "Kanäle": [
            {"Name": "Weg", "Einheit": "mm", "Werte": wave},
            {"Name": "Kraft", "Einheit": "N", "Werte": [10 * w + 120 for w in wave]},
        ],
    }
    (sweep,) = read(json.dumps(held), "probe.json")
    assert (sweep.shock, sweep.clicks, sweep.rate) == ("Probe 17", {"c": 10, "r": 5}, 500)


def test_particulars_as_json_beside_arrays():
    stream = io.BytesIO()
    time = np.arange(400) * 2.5e-3
    meta = json.dumps({"shock": "FL", "comp_clicks": 7, "gas_bar": 10, "units": {"t": "s", "x": "m", "F": "N"}})
    np.savez(stream, t=time, x=0.025 * np.sin(12 * time), F=400 * np.cos(12 * time) + 120, meta=np.array(meta))
    (sweep,) = read_bytes(stream.getvalue(), "run.npz")
    assert (sweep.shock, sweep.clicks, sweep.gas_pressure, sweep.rate) == ("FL", {"c": 7}, 1e6, pytest.approx(400))


def test_tables_side_by_side_each_with_its_own_lines():
    text = (
        "Data;25/11/2025;;;;;\nDianteiro;;;;Traseiro;;\nGás 3 bar;;;;Gás 12 bar;;\nC 5 R 7;;;;C 8 R 9;;\n"
        "mm/s;Compressão (kgf);Retorno (kgf);;mm/s;Compressão (kgf);Retorno (kgf)\n"
        "52;17.2;24.4;;52;12.4;18.1\n131;33;53.6;;131;23.9;39.9\n262;43;65.7;;262;32;49.5\n"
    )
    front, rear = read(text)
    assert [(one.shock, one.gas_pressure) for one in (front, rear)] == [("Dianteiro", 3e5), ("Traseiro", 12e5)]
    assert [one.clicks for one in (front, rear)] == [{"c": 5, "r": 7}, {"c": 8, "r": 9}]
    assert front.date == rear.date == "2025-11-25"


def test_serials_beside_the_places_of_a_pair():
    text = (
        "Pair check;;2026-03-18;;;;\nLeft;S/N 501;;;Right;S/N 502;\n150 psi;;;;140 psi;;\n"
        "in/s;C (lbf);R (lbf);;in/s;C (lbf);R (lbf)\n8;78;-129;;8;82;-135\n6;70;-118;;6;73;-124\n2;33;-51;;2;35;-53\n"
    )
    assert [one.shock for one in read(text)] == ["501", "502"]


def test_a_form_to_the_left_of_a_record_may_hold_keys_of_any_kind():
    form = [("Prova", 1), ("Ammortizzatore", "ANT 12"), ("Click comp.", 8), ("Temp. [°C]", 33)]
    rows = [
        (n * 0.005, 25 * np.sin(n / 16), 125 / 1.6 * np.cos(n / 16), 400 * np.cos(n / 16) + 100) for n in range(150)
    ]
    lines = ["Prova;1;;Tempo [s];Corsa [mm];Velocità [mm/s];Forza [N]"]
    for k, row in enumerate(rows):
        key, value = form[k + 1] if k < 3 else ("", "")
        lines.append(";".join([key, str(value), "", *(f"{x:.3f}" for x in row)]))
    (sweep,) = read("\n".join(lines), "prova.csv")
    assert (sweep.shock, sweep.temperature, sweep.samples) == ("ANT 12", 33, 150)


def test_notes_pinned_to_cells_are_told():
    book = openpyxl.Workbook()
    for row in (["Shock", "HB-3"], [], ["mm/s", "Comp N", "Reb N"], [50, 135, 205], [100, 251, 410], [200, 326, 532]):
        book.active.append(row)
    book.active["B1"].comment = openpyxl.comments.Comment("refilled to 9 bar & tested", "shop")
    stream = io.BytesIO()
    book.save(stream)
    (sweep,) = read_bytes(stream.getvalue(), "book.xlsx")
    assert "notes pinned to cells are not read: B1 'refilled to 9 bar & tested'" in sweep.warnings


def test_a_day_that_ends_a_short_title():
    assert facts_of_lines(["Four corners 11/22/25"]).date == "2025-11-22"
    assert facts_of_lines(["valid until 11/22/25"]).date is None
