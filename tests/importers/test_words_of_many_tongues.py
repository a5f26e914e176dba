"""Packs, temperatures, gas, clicks, serials and days as shops of many countries write them, each with what is none."""

from __future__ import annotations

import pytest

from importers.stated import facts_of_lines


@pytest.mark.parametrize(
    ("line", "pack"),
    [
        ("Paquete de láminas: gravilla A", "gravilla A"),
        ("Juego de láminas;tierra 2", "tierra 2"),
        ("Sada planžet:\tšotolina", "šotolina"),
        ("Пакет клапанов: гравий", "гравий"),
        ("仕様,グラベル2", "グラベル2"),
        ("Taratura;sterrato duro", "sterrato duro"),
        ("Pacote de lâminas: terra", "terra"),
        ("Ventielpakket: onverhard", "onverhard"),
        ("Shimspakke: grus", "grus"),
        ("Pakke;grus", "grus"),
        ("Zestaw płytek: szuter", "szuter"),
        ("Pile de clapets : terre 3", "terre 3"),
        ("阀片组: 砂石", "砂石"),
        ("Back from Tom. Mixed pack, LSC 8, LSR 11", "Mixed"),
        ("Job 12 | Shock LR-9 | Valving 4C/7R linear piston | Gas 75 psi", "4C/7R linear piston"),
        ("Valving: C5/R3 digressive", "C5/R3 digressive"),
    ],
)
def test_packs(line, pack):
    facts = facts_of_lines([line])
    assert facts.pack == pack
    assert not {"c", "r"} & {*facts.clicks}


@pytest.mark.parametrize("line", ["Battery pack, new", "Damper pack, seal kit", "Verhouding R/C: 1.8"])
def test_no_packs(line):
    assert facts_of_lines([line]).pack is None


@pytest.mark.parametrize(
    ("lines", "warmth"),
    [
        (["Óleo a 30 °C"], 30.0),
        (["Oil at 41 °C"], 41.0),
        (["Huile à 38 °C"], 38.0),
        (["Shock no. 7B; pack: rally wet; 30 degC"], 30.0),
        (["Shock RL-02, gravel, 31 °C"], 31.0),
        (["Temp.: 30 gr. C"], 30.0),
        (["Temperatuur: 30 graden C"], 30.0),
        (["Teplota: 30 stupňů C"], 30.0),
        (["SHAFT TEMP: 86 F"], 30.0),
        (["oil_temp=44", "oil_temp_unit=degC"], 44.0),
        (["Temperatur;44", "Temperatur Einheit;°C"], 44.0),
    ],
)
def test_temperatures(lines, warmth):
    facts = facts_of_lines(lines)
    assert facts.temperature == pytest.approx(warmth)
    assert not facts.warnings


@pytest.mark.parametrize("line", ["30 °C", "Shock RL-02; 20 °C ambient", "Luft 21 °C", "Room at 19 °C"])
def test_temperatures_that_are_not_said_to_be_the_shocks(line):
    assert facts_of_lines([line]).temperature is None


@pytest.mark.parametrize(
    ("lines", "bar"),
    [(["Kvävgastryck;8 bar"], 8), (["Nitrogentrykk: 9 bar"], 9), (["gas_pressure=10", "gas_pressure_unit=bar"], 10)],
)
def test_gas(lines, bar):
    assert facts_of_lines(lines).gas_pressure == pytest.approx(1e5 * bar)


@pytest.mark.parametrize(
    ("line", "clicks"),
    [
        ("Comp clicker 12 out, reb clicker 13 out", {"c": 12, "r": 13}),
        ("Kompression lav: 8 klik ude", {"lsc": 8}),
        ("Compressie hoog: 3 klikken", {"hsc": 3}),
        ("Druckstufe niedrig: 5 Klicks", {"lsc": 5}),
        ("Zugstufe hoch: 7 Klicks", {"hsr": 7}),
    ],
)
def test_clicks(line, clicks):
    assert dict(facts_of_lines([line]).clicks) == clicks


@pytest.mark.parametrize(
    ("lines", "shock"),
    [
        (["Trail shock 210x55, s/n TS-0917"], "TS-0917"),
        (["Trail shock 216 x 63", "s/n TS-12"], "TS-12"),
        (["Mono posteriore;matr. MP-221"], "MP-221"),
        (["Trail shock 210x55"], None),
        (["Shock: 210x55", "Serial: TS-0917"], "TS-0917"),
        (["Shock: 210x55"], "210x55"),
        (["Shock 210"], "210"),
        (["Job 12 | Damper LR-9 | Gas 75 psi | 88 F"], "LR-9"),
        (["Data logger;Unit 12;Gas 5 bar"], None),
    ],
)
def test_shocks(lines, shock):
    assert facts_of_lines(lines).shock == shock


@pytest.mark.parametrize(
    ("line", "day"),
    [
        ("Banc amortisseur - relevé du 6 mai 2025", "2025-05-06"),
        ("Dämpfer hinten, Aufnahme 6. Mai 2025", "2025-05-06"),
        ("banc révisé 6 mai 2025, prochain contrôle 2026", None),
    ],
)
def test_days(line, day):
    assert facts_of_lines([line]).date == day
