"""Gas, rod and temperature as people write them: before and after, in titles, ranges, twice; none is lost unsaid."""

from __future__ import annotations

import pytest

from dynoan.reading import read_bytes
from importers.stated import facts_of_lines

TABLE = "Speed (mm/s),Bump (N),Rebound (N)\n50,200,150\n100,300,250\n200,400,350\n"


@pytest.mark.parametrize(
    ("lines", "gas", "warm", "said"),
    [
        (["Gas before,10 bar", "Gas after,8 bar"], 10e5, None, "'Gas after: 8 bar' is of after the run"),
        (["Gas pressure after test: 8 bar", "Gas pressure before test: 10 bar"], 10e5, None, "'Gas pressure before"),
        (["Gas (bar) start,10", "Gas (bar) end,8"], 10e5, None, "was taken"),
        (["Gas before 8.0 bar, after 8.4"], 8e5, None, "'after 8.4' is of after the run"),
        (["Gasdruck vorher;8 bar", "Gasdruck nachher;8,4 bar"], 8e5, None, "'Gasdruck nachher: 8,4 bar'"),
        (["Gas charge before/after: 10 / 9.5 bar"], 10e5, None, "is of after the run"),
        (["Shock temp start/end: 22/41 C"], None, 22.0, "is of after the run"),
        (["Temperatur: 25 Grad"], None, 25.0, ""),
        (["Gas after: 8 bar"], 8e5, None, "none is stated of before it"),
        (["Gas before: 8 bar", "Gas after: 8 bar"], 8e5, None, ""),
        (["Temp before,28 C", "Temp after,52 C"], None, 28.0, "'Temp after: 52 C' is of after the run"),
        (["Temperature end,52 C", "Temperature start,28 C"], None, 28.0, "'Temperature end: 52 C'"),
        (["Oil temp start,28 C", "Body temp,52 C"], None, 52.0, "temperature 52 and 28 °C"),
        (["Gas,8 bar", "Gas,10 bar"], 8e5, None, "gas pressure 8 and 10 bar"),
        (["Gas,116 psi", "Gas pressure,8 bar"], 116 * 6894.757, None, ""),
        (["Gas: 8 bar nitrogen"], 8e5, None, ""),
        (["Gas: 8 bar/116 psi"], 8e5, None, ""),
        (["Gas: 8-9 bar"], None, None, "'gas: 8-9 bar' is no pressure that is known here"),
        (["Gas: none"], None, None, ""),
        (["Temp: 40C/104F"], None, 40.0, ""),
        (["Temp: 104 F / 40 C"], None, 40.0, ""),
        (["Temp: ~40 °C"], None, 40.0, ""),
        (["Temp: 38-42 C"], None, 40.0, "its middle, 40 °C, was taken"),
        (["Temp: 38 °C to 42 °C"], None, 40.0, "its middle, 40 °C, was taken"),
        (["Temp: 28 -> 52 C"], None, 28.0, "the first, 28 °C, was taken"),
        (["Temp: 31 E"], None, None, "'temp: 31 E' is no temperature that is known here"),
        (["Ambient temperature: 18 C"], None, None, ""),
        (["Gas pressure: 10 bar cold, 12 bar hot"], 10e5, None, "gives 10 bar and 12 bar: the first was taken"),
        (["Gas 10 bar cold, 12 bar hot"], 10e5, None, "gives 10 bar and 12 bar"),
        (["Gas pressure,10 bar cold,12 bar hot"], 10e5, None, "gives 10 bar and 12 bar"),
        (["Gas pressure;10;bar;12;bar"], 10e5, None, "gives 10 bar and 12 bar"),
        (["Gas: 10 bar (12 bar hot)"], 10e5, None, "gives 10 bar and 12 bar"),
        (["Gas cold: 10 bar", "Gas hot: 12 bar"], 10e5, None, "'Gas hot: 12 bar' is of when it was hot"),
        (["Gas hot: 12 bar"], 12e5, None, "none is stated of when it was cold"),
        (["Oil temp: 25 C (start) 40 C (end)"], None, 25.0, "gives 25 °C and 40 °C"),
        (["Gas 10 bar, 145 psi", "Temp 25 C, room temp 21 C"], 10e5, 25.0, ""),
        (["Temperature: 25 C = 77 F"], None, 25.0, ""),
        (["Oil 40 C/104 F"], None, 40.0, ""),
        (["Temperature,25,C,,Gas,8,bar"], 8e5, 25.0, ""),
    ],
)
def test_what_is_taken_and_what_is_said(lines, gas, warm, said):
    found = facts_of_lines(lines, "," if ";" in lines[0] else ".")
    assert found.gas_pressure == (gas and pytest.approx(gas, rel=1e-4))
    assert found.temperature == (warm and pytest.approx(warm))
    assert (said in " | ".join(found.warnings)) if said else not found.warnings
    assert not found.clicks


def test_a_second_rod_is_told():
    found = facts_of_lines(["Rod: 12 mm / 14 mm"])
    assert found.rod == 0.012
    assert found.warnings == ("'Rod: 12 mm / 14 mm' gives 12 mm and 14 mm: the first was taken",)


@pytest.mark.parametrize(
    "title", ["Test 2, LSC 5, gas 10 bar, rod 16 mm, 35 °C", "Test 2 LSC 5 gas 10 bar rod 16 mm oil 35 °C"]
)
def test_a_title_says_all_of_its_block(title):
    head = "Shock: A1\nGas: 8 bar\nTest 1, LSC 3\n"
    first, second = read_bytes(f"{head}{TABLE}\n{title}\n{TABLE}".encode(), "rig.csv")
    assert (first.gas_pressure, first.rod, first.temperature) == (8e5, None, None)
    assert (second.gas_pressure, second.rod, second.temperature) == (10e5, 0.016, 35)
    assert (first.clicks, second.clicks) == ({"lsc": 3}, {"lsc": 5})


@pytest.mark.parametrize(
    "line",
    ["max gas 20 bar", "Tyre pressure 1.6 bar", "Run at room temp 18 °C", "stop at 30 mm", "was gas 12 bar before"],
)
def test_what_is_of_something_else_is_not_taken(line):
    found = facts_of_lines([line])
    assert (found.gas_pressure, found.rod, found.temperature) == (None, None, None)


def test_a_rod_without_a_unit_is_told():
    assert "'rod: 14' has no unit (mm or in)" in " | ".join(facts_of_lines(["Rod,14"]).warnings)


def test_a_knob_is_said_once():
    (sweep,) = read_bytes(f"Clicks,12\n{TABLE}".encode(), "rig.csv")
    assert len([said for said in sweep.warnings if "names no direction" in said]) == 1


def test_a_shock_called_by_its_corner_in_the_name_of_its_file_is_no_contradiction():
    (sweep,) = read_bytes(f"Shock: RF serial 1182\n{TABLE}".encode(), "RF_peak.csv")
    assert not any("was believed" in said for said in sweep.warnings)


@pytest.mark.parametrize(
    ("line", "gas", "warm", "said"),
    [
        ("Prüftemperatur;23 °C", None, 23.0, ""),
        ("Öltemp.: 34 °C", None, 34.0, ""),
        ("canister 200 psi", 200 * 6894.757, None, ""),
        ("充气压力：0.8 MPa", 8e5, None, ""),
        ("温度：25℃", None, 25.0, ""),
        ("Gaz basıncı 7.5 bar", 7.5e5, None, ""),
        ("bottle at 200 psi", None, None, "'bottle at 200 psi' has a pressure that is not said to be the shock's gas"),
        ("after three cycles 41 °C", None, None, "has a temperature that is not said to be the shock's"),
        ("tyre pressure 1.6 bar", None, None, ""),
        ("Run at room temp 18 °C", None, None, ""),
    ],
)
def test_an_amount_in_another_word_is_taken_or_said(line, gas, warm, said):
    found = facts_of_lines([line])
    assert found.gas_pressure == (gas and pytest.approx(gas, rel=1e-4))
    assert found.temperature == (warm and pytest.approx(warm))
    assert (said in " | ".join(found.warnings)) if said else not found.warnings
