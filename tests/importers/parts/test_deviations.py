"""Columns of how far repeats scatter, beside means: no force in either order, in many languages, and told."""

from __future__ import annotations

import math

import pytest

from dynoan.reading import read_bytes

ROWS = ((50, 123, 3.0, 188, 5.0), (100, 212, 4.1, 341, 6.1), (200, 284, 5.2, 462, 7.2), (400, 388, 6.3, 600, 8.3))
FORCES = [123, 212, 284, 388, -188, -341, -462, -600]


def table(head: str, order: tuple[int, ...] = (0, 1, 2, 3, 4)) -> bytes:
    return "\n".join([head, *(";".join(str(row[k]) for k in order) for row in ROWS), ""]).encode()


def forces(data: bytes) -> list[float]:
    (sweep,) = read_bytes(data, "repeats.csv")
    assert any("how far values scatter" in w and "not used" in w for w in sweep.warnings)
    assert "taken as runs" not in " ".join(sweep.warnings)
    return sweep.channels["force"].tolist()


@pytest.mark.parametrize(
    ("mean", "scatter"),
    [
        ("Mittel", "Stabw."), ("Mittelwert", "s"), ("average", "+/-"), ("avg", "±"), ("", "±"), ("", "SD"),
        ("moy.", "écart-type"), ("media", "desv."), ("ka.", "hajonta"), ("ka.", "s"), ("평균", "편차"),
        ("平均", "标准差"), ("ort.", "std sapma"), ("gem.", "stdafw."), ("průměr", "směr. odch."),
        ("średnia", "odch. std."),
        ("medel", "stdavv."), ("média", "desvio"), ("среднее", "СКО"), ("x̄", "σ"), ("", "s"),
    ],
)  # fmt: skip
def test_in_the_words_of_many_countries(mean, scatter):
    pair = [f"{way} {word} N".replace("  ", " ") for way in ("Compression", "Rebound") for word in (mean, scatter)]
    assert forces(table(";".join(["Speed mm/s", *pair]))) == FORCES
    turned = [pair[k] for k in (1, 0, 3, 2)]
    assert forces(table(";".join(["Speed mm/s", *turned]), (0, 2, 1, 4, 3))) == FORCES


@pytest.mark.parametrize(
    ("head", "order"),
    [
        ("v mm/s;Druck N;s;Zug N;s", (0, 1, 2, 3, 4)),
        ("v mm/s;Druck N;±;Zug N;±", (0, 1, 2, 3, 4)),
        ("Speed;Compression [N];;Rebound [N];\n[mm/s];mean;±;mean;±", (0, 1, 2, 3, 4)),
        ("Nopeus;Puristus;;Paluu;\nmm/s;ka. N;s N;ka. N;s N", (0, 1, 2, 3, 4)),
        ("v mm/s;F comp N;F reb N;s comp N;s reb N", (0, 1, 3, 2, 4)),
        ("v mm/s;σ comp;σ reb;comp N;reb N", (0, 2, 4, 1, 3)),
    ],
)
def test_under_heads_of_two_rows_and_behind_all_means(head, order):
    assert forces(table(head, order)) == FORCES


def test_of_one_signed_force():
    rows = "\n".join(f"{3 + abs(v) // 50};{v};{2 * v}" for v in (-200, -100, -50, 50, 100, 200))
    assert forces(f"Stabw. N;v mm/s;Kraft N\n{rows}\n".encode()) == [-400, -200, -100, 100, 200, 400]


def test_of_several_settings_and_shocks():
    rows = "\n".join(f"{v};{2 * v};{3 + v // 50};{3 * v};5" for v in (50, 100, 200))
    sweeps = read_bytes(f"v mm/s;C4 comp N;C4 comp ± N;C8 comp N;C8 comp ± N\n{rows}\n".encode(), "clicks.csv")
    assert [(s.clicks, max(s.channels["force"])) for s in sweeps] == [({"c": 4}, 400), ({"c": 8}, 600)]
    head = "v mm/s;Left comp mean N;Left comp sd N;Right comp mean N;Right comp sd N"
    sweeps = read_bytes(f"{head}\n{rows}\n".encode(), "sides.csv")
    assert [(s.shock, max(s.channels["force"])) for s in sweeps] == [("Left", 400), ("Right", 600)]


def test_a_column_too_large_for_a_scatter_and_a_path_called_s_are_none():
    motion = [(250 * math.cos(k / 20), 25 + 12 * math.sin(k / 20)) for k in range(500)]
    rows = "\n".join(f"{v:.3f};{x:.3f};{2 * v:.2f}" for v, x in motion)
    (sweep,) = read_bytes(f"v mm/s;s mm;F N\n{rows}\n".encode(), "path.csv")
    assert "displacement" in sweep.channels
    assert not any("scatter" in w for w in sweep.warnings)
    rows = "\n".join(f"{v};{2 * v};{-v / 50}" for v in (-200, -100, -50, 50, 100, 200))
    (sweep,) = read_bytes(f"v mm/s;Force N;dev from target N\n{rows}\n".encode(), "signed.csv")
    assert not any("scatter" in w for w in sweep.warnings)


@pytest.mark.parametrize(("mean", "scatter"), [("mean", "sd"), ("Mittel", "Stabw."), ("ka.", "hajonta"), ("avg", "±")])
def test_in_rows_of_their_own(mean, scatter):
    rows = "".join(f"{v};{mean};{c};{r}\n{v};{scatter};{a};{b}\n" for v, c, a, r, b in ROWS)
    (sweep,) = read_bytes(f"Speed mm/s;Stat;Comp N;Reb N\n{rows}".encode(), "rows.csv")
    assert sweep.channels["force"].tolist() == FORCES
    assert any(f"rows called '{scatter}'" in w for w in sweep.warnings)


@pytest.mark.parametrize("scatter", [("SD", "SD"), ("σFc N", "σFr N")])
def test_beside_forces_named_by_letters(scatter):
    assert forces(table(f"v mm/s;Fc N;{scatter[0]};Fr N;{scatter[1]}")) == FORCES
