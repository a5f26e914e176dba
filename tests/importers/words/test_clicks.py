"""Clicks as people write them. The spellings are common practice, no source."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from importers.words.adjusters import adjuster_of
from importers.words.clicks import clicks_of, doubted_clicks
from tests.importers.making import quick


@pytest.mark.parametrize(
    ("text", "clicks"),
    [
        ("Low speed compression: 6 clicks", {"lsc": 6}),
        ("LSC 6", {"lsc": 6}),
        ("LSC6HSC3LSR8HSR2", {"lsc": 6, "hsc": 3, "lsr": 8, "hsr": 2}),
        ("C6 R8", {"c": 6, "r": 8}),
        ("c6r8", {"c": 6, "r": 8}),
        ("6C/8R", {"c": 6, "r": 8}),
        ("lsc=6,lsr=8", {"lsc": 6, "lsr": 8}),
        ("FL-03_gravel_lsc6_lsr8.csv", {"lsc": 6, "lsr": 8}),
        ("LSC/HSC/LSR/HSR: 6/4/8/10", {"lsc": 6, "hsc": 4, "lsr": 8, "hsr": 10}),
        ("6 clicks compression, 8 clicks rebound", {"c": 6, "r": 8}),
        ("Rebound adjuster: 12 clicks out from closed", {"r": 12}),
        ("Druckstufe Low: 6", {"lsc": 6}),
        ("Zugstufe: 8 Klicks", {"r": 8}),
        ("Détente basse vitesse : 7 clics", {"lsr": 7}),
        ("Compresión de alta velocidad: 3", {"hsc": 3}),
        ("Estensione alta velocità: 9 scatti", {"hsr": 9}),
        ("Comp: 6 of 20", {"c": 6}),
        ("Comp HS/LS: 3/6", {"hsc": 3, "lsc": 6}),
        ("Compression (L/H) 6-3, rebound (L/H) 8-2", {"lsc": 6, "hsc": 3, "lsr": 8, "hsr": 2}),
        ("Reb 8, comp LS/HS: 6/3", {"r": 8, "lsc": 6, "hsc": 3}),
        ("HS/LS rebound = 3/6", {"hsr": 3, "lsr": 6}),
        ("gravel_lsc6_lsr8-2.csv", {"lsc": 6, "lsr": 8}),
        ("% cliques: comp 7, ext 5 (a partir de fechado)", {"c": 7, "r": 5}),
        ("Click: comp 5, est 7", {"c": 5, "r": 7}),
        ("Click: C 5, E 7", {"c": 5, "r": 7}),
        ("clics : comp 5, dét 7", {"c": 5, "r": 7}),
        ("Klik: bası 6, çeki 9", {"c": 6, "r": 9}),
        ("klikken: druk 4, trek 9", {"c": 4, "r": 9}),
        ("in 4 kliks, uit 6 kliks (vanaf dicht)", {"c": 4, "r": 6}),
        ("클릭: 압축 6, 리바운드 9 (완전 잠금에서)", {"c": 6, "r": 9}),
        ("Ext 7 Comp 3", {"c": 3, "r": 7}),
        ("comp: 3 of 19    Ext: 7 of 19", {"c": 3, "r": 7}),
    ],
)
def test_clicks_are_found(text, clicks):
    assert clicks_of(text) == clicks


@pytest.mark.parametrize(
    "text",
    [
        "Compression: 450 N",
        "Rebound 2.5 in/s",
        "Compression 0.25 m/s",
        "Temp: 45 C",
        "Gasdruck: 8 bar",
        "Cycle 3",
        "R2 test of C",
        "Rebound peak 500",
        "Hub 50 mm",
        "Date 2026-05-02",
        "Channel C 12.5",
        "det 5",
        "la vitesse est 12",
        "druk 8",
        "25 C = 77 F",
    ],
)
def test_other_numbers_are_no_clicks(text):
    assert clicks_of(text) == {}


def test_adjuster_alone():
    assert adjuster_of("low speed comp") == "lsc"
    assert adjuster_of("rebound clicks") == "r"
    assert adjuster_of("rebound force") is None


NAMES = {"lsc": ["LSC", "lsc", "Low speed compression", "LS comp"], "hsc": ["HSC", "High-speed bump"],
         "lsr": ["LSR", "Low speed rebound", "Zugstufe Low"], "hsr": ["HSR", "High speed reb"]}  # fmt: skip
SETTINGS = st.dictionaries(st.sampled_from(sorted(NAMES)), st.integers(0, 99), min_size=1)


@quick
@given(SETTINGS, st.data())
def test_clicks_come_back_however_they_are_set_down(clicks, data):
    mark = data.draw(st.sampled_from([" ", "=", ": ", " = "]))
    between = data.draw(st.sampled_from([", ", "; ", "  ", " / "]))
    text = between.join(f"{data.draw(st.sampled_from(NAMES[k]))}{mark}{n}" for k, n in clicks.items())
    assert clicks_of(text) == clicks


@quick
@given(SETTINGS)
def test_clicks_come_back_from_the_form_that_commands_take(clicks):
    assert clicks_of(",".join(f"{k}={n}" for k, n in clicks.items())) == clicks
    assert clicks_of("FL-03_gravel_" + "_".join(f"{k}{n}" for k, n in clicks.items()) + ".csv") == clicks


@quick
@given(st.integers(100, 999), st.sampled_from(sorted(NAMES)))
def test_more_clicks_than_any_adjuster_has_are_none(number, adjuster):
    assert clicks_of(f"{adjuster.upper()} {number}") == {}


@quick
@given(st.integers(0, 99), st.sampled_from(["clicks", "Klicks", "clics", "scatti", "crans"]))
def test_a_number_before_its_adjuster(number, word):
    assert clicks_of(f"{number} {word} rebound") == {"r": number}


@pytest.mark.parametrize(("text", "clicks"), [("C 12", {"c": 12}), ("c=12", {"c": 12}), ("channel C 12 of rig", {}),
                                              ("C4 R6 gravel", {"c": 4, "r": 6}), ("CR 7", {"cr": 7})])  # fmt: skip
def test_a_lone_letter_is_an_adjuster_only_where_it_says_so(text, clicks):
    assert clicks_of(text) == clicks


@quick
@given(st.text(max_size=60))
def test_any_text_is_read_or_left(text):
    assert all(0 <= n <= 99 for n in clicks_of(text).values())


@pytest.mark.parametrize("text", ["FL-03_C10-18_R18-10", "C 10/18 R 8", "comp 6-8 clicks", "LSC 6/24"])
def test_two_numbers_for_one_adjuster_are_no_clicks(text):
    assert clicks_of(text) == {}
    assert doubted_clicks(text)
