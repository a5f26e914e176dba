"""Clicks as people write them. The spellings are common practice, no source."""

from __future__ import annotations

import pytest

from importers.words.adjusters import adjuster_of
from importers.words.clicks import clicks_of


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
    ],
)
def test_other_numbers_are_no_clicks(text):
    assert clicks_of(text) == {}


def test_adjuster_alone():
    assert adjuster_of("low speed comp") == "lsc"
    assert adjuster_of("rebound clicks") == "r"
    assert adjuster_of("rebound force") is None
