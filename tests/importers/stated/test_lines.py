"""What lines and names state. Forms and words: common practice, no source; factors see NIST SP 811."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from dynoan.units import INCH, PSI
from importers.stated import StatedFacts, contradictions, facts_of_lines, facts_of_name, merged, statements
from importers.stated.pairs import pairs
from importers.stated.quantities import quantity, rate_of, rate_of_interval, units_in
from tests.importers.making import quick

KEYS = st.sampled_from(["Shock", "Pack", "Operator", "Oil temp", "Note"])
VALUES = st.text(st.sampled_from("abcXYZ019-"), min_size=1, max_size=12).filter(lambda v: not v.startswith("-"))


@quick
@given(
    st.lists(st.tuples(KEYS, VALUES), min_size=1, max_size=3, unique_by=lambda p: p[0]),
    st.sampled_from([": ", " = ", ":", "="]),
    st.sampled_from(["; ", "\t", " | ", "    "]),
    st.sampled_from(["", "# ", "// "]),
)
def test_pairs_come_back_however_they_are_set_apart(stated, mark, between, comment):
    line = comment + between.join(f"{key}{mark}{value}" for key, value in stated)
    assert [tuple(pair) for pair in pairs(line)] == stated


@pytest.mark.parametrize(
    ("line", "found"),
    [
        ("Gas pressure;10;bar", [("Gas pressure", "10 bar")]),
        ("Gas pressure: ;10;bar", [("Gas pressure", "10 bar")]),
        ("Gas pressure:;10 bar", [("Gas pressure", "10 bar")]),
        ("Stroke: 50;mm", [("Stroke", "50 mm")]),
        ("Shock,FL-03", [("Shock", "FL-03")]),
        ("Oil temp 42 C", [("Oil temp", "42 C")]),
        ("tested shock FL-03 pack gravel", [("shock", "FL-03"), ("pack", "gravel")]),
        ("The shock was soft", []),
        ("", []),
    ],
)
def test_pairs_without_a_mark_and_with_values_in_cells_behind(line, found):
    assert [tuple(pair) for pair in pairs(line)] == found


@pytest.mark.parametrize(
    ("line", "fact", "value"),
    [
        ("Gas pressure: 10 bar", "gas_pressure", 1e6),
        ("N2 pressure = 150 psi", "gas_pressure", 150 * PSI),
        ("Gasdruck: 8 bar", "gas_pressure", 8e5),
        ("Oil temperature: 104 °F", "temperature", 40.0),
        ("Öltemperatur [°C]: 38", "temperature", 38.0),
        ("Température huile : 41 °C", "temperature", 41.0),
        ("Stroke: 2 in", "stroke", 2 * INCH),
        ("Hub; 50 mm", "stroke", 0.05),
        ("Sample rate: 500 Hz", "rate", 500.0),
        ("Sample rate: 2 kHz", "rate", 2000.0),
        ("Abtastrate: 500", "rate", 500.0),
        ("Sampling: 250 samples/s", "rate", 250.0),
        ("dt = 2 ms", "rate", 500.0),
        ("Sample interval: 0.004 s", "rate", 250.0),
        ("Date: 2026-05-02", "date", "2026-05-02"),
        ("Datum: 02.05.2026 10:11", "date", "2026-05-02"),
        ("Serial number: FL-03", "shock", "FL-03"),
        ("Ventilpaket: gravel", "pack", "gravel"),
        ("Gas force removed", "gas_removed", True),
        ("Gaskraft: abgezogen", "gas_removed", True),
        ("Gas force included", "gas_removed", False),
        ("Gas force not subtracted", "gas_removed", False),
    ],
)
def test_a_line_states_a_fact_in_si(line, fact, value):
    found = getattr(facts_of_lines([line]), fact)
    assert found == (pytest.approx(value) if isinstance(value, float) else value)


@pytest.mark.parametrize("line", ["Gas pressure: soft", "Gas pressure: 10", "Stroke: 5 bar", "Oil temp: 40 Hz",
                                  "Sample rate: 0 Hz", "Sample rate: -5 Hz", "dt = 0 s", "Date: 05/06/2026",
                                  "Shock: 450 N", "Compression: 450 N"])  # fmt: skip
def test_what_cannot_be_is_no_fact(line):
    found = facts_of_lines([line])
    assert (found.gas_pressure, found.stroke, found.temperature, found.rate, found.date, found.shock) == (None,) * 6
    assert found.clicks == {}
    assert found.lines  # kept as it stood


@quick
@given(st.decimals(1, 9999, places=1).map(float), st.sampled_from(["bar", "psi", "kPa", "MPa"]))
def test_a_quantity_is_the_same_in_any_unit_it_is_stated_in(number, unit):
    pascals = {"bar": 1e5, "psi": PSI, "kPa": 1e3, "MPa": 1e6}[unit]
    assert quantity(f"{number} {unit}", "pressure", ".") == pytest.approx(number * pascals)
    assert quantity(f"{number} {unit} at 20 °C", "pressure", ".") == pytest.approx(number * pascals)
    assert quantity(f"{number}".replace(".", ",") + unit, "pressure", ",") == pytest.approx(number * pascals)


def test_three_digits_behind_a_point_are_thousands_where_the_table_has_decimal_commas():
    assert quantity("1.250 mm", "length", ",") == pytest.approx(1.25)
    assert quantity("1.250 mm", "length", ".") == pytest.approx(1.25e-3)


@pytest.mark.parametrize(
    ("value", "rate"),
    [("500", 500.0), ("1 kHz", 1000.0), ("200 S/s", 200.0), ("100 points per second", 100.0), ("250 sps", 250.0),
     ("fast", None), ("0", None)],
)  # fmt: skip
def test_rates_in_words(value, rate):
    assert rate_of(value, ".") == rate


@quick
@given(st.floats(0.1, 1000))
def test_a_rate_and_its_interval_agree(milliseconds):
    assert rate_of_interval(f"{milliseconds!r} ms", ".") == pytest.approx(1000 / milliseconds)


@pytest.mark.parametrize(
    ("line", "units"),
    [
        ("Units: N, mm, s", {"force": "N", "displacement": "mm", "time": "s"}),
        ("Einheiten: kN mm/s", {"force": "kN", "velocity": "mm/s"}),
        ("Force unit: lbf", {"force": "lbf"}),
        ("Velocity: mm/s", {"velocity": "mm/s"}),
        ("forces in N, speeds in mm/s", {"force": "N", "velocity": "mm/s"}),
        ("Units: N, lbf, mm", {"displacement": "mm"}),
        ("Force: 450 N", {}),
    ],
)
def test_units_of_the_columns_in_a_line(line, units):
    assert units_in(line, pairs(line)) == units


@quick
@given(st.lists(st.builds(StatedFacts, shock=st.none() | st.just("A") | st.just("B"), rate=st.none() | st.floats(1, 9),
                          clicks=st.dictionaries(st.sampled_from(["lsc", "lsr"]), st.integers(0, 9)),
                          warnings=st.lists(st.sampled_from("xyz")).map(tuple)), max_size=6))  # fmt: skip
def test_the_first_to_state_a_thing_wins(stated):
    found = merged(stated)
    for key in ("shock", "rate"):
        said = [getattr(f, key) for f in stated if getattr(f, key) is not None]
        assert getattr(found, key) == (said[0] if said else None)
    for adjuster in ("lsc", "lsr"):
        said = [f.clicks[adjuster] for f in stated if adjuster in f.clicks]
        assert found.clicks.get(adjuster) == (said[0] if said else None)
    assert set(found.warnings) == {w for f in stated for w in f.warnings}
    assert len(found.warnings) == len(set(found.warnings))


def test_merging_pairwise_is_merging_at_once():
    a, b, c = StatedFacts(shock="A"), StatedFacts(shock="B", pack="b"), StatedFacts(pack="c", date="2026-05-02")
    assert merged((a, b, c)) == a.over(b).over(c) == a.over(b.over(c))


def test_false_is_something_stated():
    assert StatedFacts(gas_removed=False).over(StatedFacts(gas_removed=True)).gas_removed is False


@pytest.mark.parametrize("line", ["clicks counted from full soft", "Klicks ab voll offen", "clics depuis souple"])
def test_clicks_from_soft_are_warned_of(line):
    assert any("counts clicks from soft" in w for w in facts_of_lines([line]).warnings)


@pytest.mark.parametrize(
    ("name", "shock", "pack", "clicks"),
    [
        ("FL-03_gravel_lsc6_lsr8.csv", "FL-03", "gravel", {"lsc": 6, "lsr": 8}),
        ("RR01 mixed C4 R6.txt", "RR01", "mixed", {"c": 4, "r": 6}),
        ("SN-1204.csv", "SN-1204", None, {}),
        ("pack=tarmac_run3.csv", None, "tarmac", {}),
        ("run 3.csv", None, None, {}),
        ("LSC-4_test.csv", None, None, {"lsc": 4}),
        ("2026-05-02_FL-03.csv", "FL-03", None, {}),
        ("FL-03_gravel_wet_lsc6.csv", "FL-03", None, {"lsc": 6}),
        ("R1_gravel_c3_r12.csv", "R1", "gravel", {"c": 3, "r": 12}),
        ("run07 R1 gravel c8 r8.csv", "R1", "gravel", {"c": 8, "r": 8}),
        ("R1_gravel_lsc8_lsr9.csv", "R1", "gravel", {"lsc": 8, "lsr": 9}),
        ("C2_gravel_c4_r4.csv", "C2", "gravel", {"c": 4, "r": 4}),
        ("gravel R1 c8 r8.csv", None, None, {}),
        ("C6 R8 c6.csv", None, None, {"c": 6, "r": 8}),
    ],
)
def test_what_a_file_name_states(name, shock, pack, clicks):
    found = facts_of_name(name)
    assert (found.shock, found.pack, dict(found.clicks)) == (shock, pack, clicks)


def test_a_name_that_gives_an_adjuster_two_numbers_is_doubted():
    assert facts_of_name("gravel R1 c8 r8.csv").doubted == ("R1 r8",)
    assert facts_of_name("R1_gravel_c3_r12.csv").doubted == ()


def test_a_name_that_contradicts_the_lines_is_said():
    stated, name = (
        StatedFacts(shock="FL-03", clicks={"lsc": 6}),
        StatedFacts(shock="FL-04", clicks={"lsc": 5, "lsr": 1}),
    )
    assert contradictions(stated, name) == (
        "the file's name says lsc=5, the file says lsc=6: the file was believed",
        "the file's name says shock FL-04, the file says FL-03: the file was believed",
    )
    assert contradictions(StatedFacts(shock="fl 03"), StatedFacts(shock="FL_03")) == ()


@pytest.mark.parametrize(
    ("line", "said"),
    [
        ("Compression is positive", {"all": "compression"}),
        ("Rebound positive", {"all": "rebound"}),
        ("Velocity: rebound positive; Force: compression positive", {"velocity": "rebound", "force": "compression"}),
        ("Weg: Druckstufe positiv", {"displacement": "compression"}),
        ("compression negative", {"all": "rebound"}),
        ("bump + / rebound -", {"all": "compression"}),
        ("Compression: 450 N", {}),
        ("positive", {}),
    ],
)
def test_which_direction_lines_say_is_positive(line, said):
    assert statements([line]) == said


def test_the_first_statement_of_a_channel_wins():
    assert statements(["Force: rebound positive", "Force: compression positive"]) == {"force": "rebound"}


@quick
@given(st.lists(st.text(max_size=60), max_size=5))
def test_any_lines_are_facts_or_nothing(lines):
    found = facts_of_lines(lines)
    assert found.rate is None or found.rate > 0
    assert all(way in ("compression", "rebound") for way in statements(lines).values())


def test_a_line_that_counts_from_both_ends_says_so():
    line = "Shock FL-5, pack gravel, LSC 12 out from closed, LSR 5 from full soft"
    assert any("some clicks from soft and some from closed" in w for w in facts_of_lines([line]).warnings)
