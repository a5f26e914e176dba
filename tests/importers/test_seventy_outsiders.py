"""Causes that seventy files of other people brought up: a line each, as they wrote them or nearly so."""

from __future__ import annotations

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
    text = "Prędkość;Odbicie (N);;Dobicie (N);\nmm/s;4 kl.;8 kl.;4 kl.;8 kl.\n50;230;200;151;131\n100;461;400;279;243\n250;620;553;380;345\n"
    found = read(text)
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
