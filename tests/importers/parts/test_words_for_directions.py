"""Force and click columns in the words of twenty languages, clicks down; what one word leaves open its mate tells."""

from __future__ import annotations

import numpy as np
import pytest

from dynoan.reading import read_bytes
from importers.header import describe_column

SETTINGS = [(2, 4), (8, 4), (8, 10)]
HEADS = [
    "Druckstufe Klicks;Zugstufe Klicks;Geschw. [mm/s];Druckstufe [N];Zugstufe [N]",
    "Clics comp.;Clics détente;Vitesse (mm/s);Compression (N);Détente (N)",
    "Compresión (clics);Extensión (clics);Vel. mm/s;F compresión [N];F extensión [N]",
    "Clicks frenado;Clicks expansión;Vel mm/s;Frenado [N];Expansión [N]",
    "Klikk trykk;Klikk retur;Hastighet mm/s;Trykk N;Retur N",
    "Klik tryk;Klik træk;Hastighed mm/s;Tryk N;Træk N",
    "Puristus naksua;Paluu naksua;Nopeus mm/s;Puristus N;Paluu N",
    "Kliks ingaand;Kliks uitgaand;Snelheid mm/s;Ingaand N;Uitgaand N",
    "Scatti comp;Scatti est;Velocità mm/s;Compressione N;Estensione N",
    "Cliques compressão;Cliques retorno;Velocidade mm/s;Compressão N;Retorno N",
    "Kliki dobicie;Kliki odbicie;Prędkość mm/s;Dobicie N;Odbicie N",
    "komprese_kliky;odskok_kliky;rychlost_mm_s;sila_tlak_N;sila_tah_N",
    "Kattanás nyomás;Kattanás húzás;Sebesség mm/s;Nyomás N;Húzás N",
    "Kapanma klik;Açılma klik;Hız mm/s;Kapanma N;Açılma N",
    "縮側クリック;伸側クリック;速度 mm/s;縮側 N;伸側 N",
    "압축 클릭;신장 클릭;속도 mm/s;압축 N;신장 N",
    "압축 단수;신장 단수;속도 mm/s;압축력 N;신장력 N",
    "压缩格数;回弹格数;速度 mm/s;压缩力 N;回弹力 N",
    "Сжатие щелчки;Отбой щелчки;Скорость мм/с;Сжатие Н;Отбой Н",
    "Klikid surve;Klikid tõmme;Kiirus mm/s;Surve N;Tõmme N",
    "Clicuri compresie;Clicuri revenire;Viteză mm/s;Compresie N;Revenire N",
]


@pytest.mark.parametrize("head", HEADS)
def test_clicks_down_in_many_languages(head):
    rows = [f"{c};{r};{v};{3 * v - 5 * c};{5 * v - 9 * r}" for c, r in SETTINGS for v in (50, 100, 200)]
    sweeps = read_bytes("\n".join([head, *rows]).encode(), "clicks.csv")
    assert [dict(s.clicks) for s in sweeps] == [{"c": c, "r": r} for c, r in SETTINGS]
    found = [(float(s.channels["force"].max()), float(s.channels["force"].min())) for s in sweeps]
    assert found == [(600 - 5 * c, 9 * r - 1000) for c, r in SETTINGS]


def test_a_knob_of_an_unknown_word_is_the_other_s_and_said():
    rows = [f"{k};4;{v};{v + k};{2 * v}" for k in (2, 8) for v in (50, 100, 200)]
    first, second = read_bytes("\n".join(["Klik foo;Klik reb;mm/s;Comp N;Reb N", *rows]).encode(), "k.csv")
    assert (first.clicks, second.clicks) == ({"c": 2, "r": 4}, {"c": 8, "r": 4})
    assert any("'Klik foo' has a word not known here" in said for said in first.warnings)


def test_knobs_of_unknown_words_alone_are_told():
    rows = [f"{k};4;{v};{v + k};{2 * v}" for k in (2, 8) for v in (50, 100, 200)]
    sweeps = read_bytes("\n".join(["Klik foo;Klik baz;mm/s;Comp N;Reb N", *rows]).encode(), "k.csv")
    assert all(any("'Klik foo' are clicks of an adjuster that is not known" in w for w in s.warnings) for s in sweeps)


def test_a_force_under_a_word_not_known_beside_one_direction_alone_is_told():
    rows = [f"{v};{3 * v};{5 * v};{4 * v}" for v in (50, 100, 200)]
    (sweep,) = read_bytes("\n".join(["mm/s;Reb N;Foo N;Baz N", *rows]).encode(), "k.csv")
    assert any("'Foo N' was left out" in said for said in sweep.warnings)


@pytest.mark.parametrize(
    ("name", "channel", "positive"),
    [
        ("Kraft N (Druck positiv)", "force", "compression"),
        ("Weg mm (Ausfedern positiv)", "displacement", "rebound"),
        ("Velocity - positive in compression [mm/s]", "velocity", "compression"),
        ("Force N (+ = rebound)", "force", "rebound"),
        ("disp mm, ext. positive", "displacement", "rebound"),
    ],
)
def test_a_sign_is_of_the_column_that_names_it(name, channel, positive):
    column = describe_column(0, name)
    assert (column.channel, column.positive) == (channel, positive)


@pytest.mark.parametrize("turned", [1, -1])
def test_the_sign_of_one_channel_says_nothing_of_another(turned):
    t = np.arange(400) / 200
    x, v = -20 * np.cos(9 * t), 180 * np.sin(9 * t)
    f = np.where(v > 0, 400, 700) * np.sin(9 * t) + 90
    rows = [f"{a:.3f},{turned * b:.3f},{c:.2f},{d:.1f}" for a, b, c, d in zip(t, x, v, f, strict=True)]
    head = "Time s,Displacement mm,Velocity - positive in compression [mm/s],Force N"
    (sweep,) = read_bytes("\n".join([head, *rows]).encode(), "v.csv")
    np.testing.assert_allclose(sweep.channels["displacement"], np.round(x, 3) / 1e3, atol=1e-9)


def test_a_time_zone_is_one_behind_a_time_alone():
    assert describe_column(0, "Time (EST)").channel == "time"
    assert describe_column(0, "Scatti est").role == "r"
