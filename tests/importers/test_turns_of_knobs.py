"""Adjusters counted in turns: no clicks, told each time, and a table over them is read as runs of their own."""

from __future__ import annotations

import numpy as np
import pytest

from dynoan.errors import ReadError
from dynoan.reading import read_bytes
from importers.stated import facts_of_lines
from importers.words.turns import knob_turned, turns_alone, turns_of

ROWS = ["50{0}402{0}390{0}380", "100{0}560{0}550{0}540", "200{0}821{0}810{0}800"]


def read(*lines: str):
    return read_bytes("\n".join(lines).encode(), "turns.csv")


def table(head: str, mark: str = ";") -> list[str]:
    return [head, *(row.format(mark) for row in ROWS)]


@pytest.mark.parametrize(
    "head",
    [
        "mm/s;1/2 turn;1 turn;1 1/2 turns",
        "mm/s;0.5 turns out;1 turns out;1.5 turns out",
        "mm/s;½ Umdr.;1 Umdr.;1½ Umdr.",
        "Vitesse (mm/s);0,5 tour;1 tour;1,5 tours",
    ],
)
def test_turns_across_a_table_are_runs_of_the_direction_in_its_title(head):
    sweeps = read("Rebound force [N]", *table(head))
    assert [float(s.channels["force"].min()) for s in sweeps] == [-821, -810, -800]
    assert all(float(s.channels["force"].max()) < 0 for s in sweeps)
    assert all(not s.clicks and any("turns and no clicks" in w for w in s.warnings) for s in sweeps)


def test_bare_numbers_are_turns_where_a_line_says_so():
    first, _, last = read("Cartridge 4, turns out", "Compression force (N)", *table("mm/s;1/2;1;1 1/2"))
    assert [float(s.channels["force"].max()) for s in (first, last)] == [821, 800]
    with pytest.raises(ReadError):
        read("Compression force (N)", *table("mm/s;1/2;1;1 1/2"))


def test_the_directions_of_the_same_turns_in_two_tables_are_joined_by_their_turns():
    sweeps = read(
        "Fork, turns out", "", "Compression force (N)", *table("mm/s;1/2;1;1 1/2"), "", "Rebound force (N)",
        "mm/s;1/2;1;1 1/2", "50;102;90;80", "100;160;150;140", "200;221;210;200",
    )  # fmt: skip
    found = [(float(s.channels["force"].max()), float(s.channels["force"].min())) for s in sweeps]
    assert found == [(821, -221), (810, -210), (800, -200)]


def test_runs_beside_one_another_join_their_own_halves():
    sweeps = read(
        "mm/s;soft Comp N;hard Comp N", "50;100;200", "150;200;300", "",
        "mm/s;soft Reb N;hard Reb N", "50;300;400", "150;400;500",
    )  # fmt: skip
    assert [sorted({*np.abs(s.channels["force"])}) for s in sweeps] == [[100, 200, 300, 400], [200, 300, 400, 500]]


def test_turns_across_without_a_word_of_direction_are_taken_as_of_their_knob_with_a_warning():
    sweeps = read("Rebound adjuster in turns", *table("Speed mm/s;1/2 turn;1 turn;2 turns"), "Force in N")
    assert all(any("were taken as rebound" in w for w in s.warnings) for s in sweeps)


@pytest.mark.parametrize(
    ("name", "cells", "written"),
    [
        ("Turns out", ("0.5", "1.5"), "'C 2' or 'R 2'"),
        ("Reb turns", ("0.5", "1.5"), "'R 2'"),
        ("Rebound (turns out)", ("0.5", "1.5"), "'R 2'"),
        ("HSC turns", ("0.5", "1.5"), "'HSC 2'"),
        ("Turns from closed", ("1/2", "1 1/2"), "'C 2' or 'R 2'"),
    ],
)
def test_a_column_of_turns_tells_runs_apart(name, cells, written):
    rows = [f"{cell};{v};{v + 100};{v + 300}" for cell in cells for v in (50, 100, 200)]
    first, second = read(f"{name};Speed mm/s;Compression N;Rebound N", *rows)
    assert float(first.channels["force"].max()) == float(second.channels["force"].max()) == 300
    assert not first.clicks
    assert any(f"{cells[0]}' are turns and no clicks" in w and written in w for w in first.warnings)


def test_a_record_s_own_turns_are_no_key():
    rows = [f"{t / 100:.2f};{1 + t // 100};{20 * np.sin(t / 16):.3f};{300 * np.cos(t / 16):.1f}" for t in range(400)]
    (sweep,) = read("Time s;Turns;Position mm;Force N", *rows)
    assert len(sweep.channels["force"]) == 400


@pytest.mark.parametrize(
    ("line", "clicks", "said"),
    [
        ("Zugstufe 1 1/2 Umdrehungen offen", {}, "'zugstufe 1 1/2 umdrehungen'"),
        ("Détente: 1,5 tours; Compression: 8 clics", {"c": 8}, "'detente: 1,5 tours'"),
        ("3/4 turn out on rebound, 10 clicks comp", {"c": 10}, "'3/4 turn out on rebound'"),
        ("Rebound 1/2 turn out", {}, "'rebound 1/2 turn'"),
        ("Paluu 1,5 kierrosta", {}, "'paluu 1,5 kierrosta'"),
        ("odbicie 2 obroty, dobicie 6 klikniec", {"c": 6}, "'odbicie 2 obroty'"),
    ],
)
def test_turns_in_a_line_are_told_and_no_click_is_made_of_them(line, clicks, said):
    facts = facts_of_lines([line])
    assert dict(facts.clicks) == clicks
    assert [said in w for w in facts.warnings] == [True]


def test_turns_a_minute_are_a_crank_s():
    assert [turns_of(t) for t in ("Compression 60 tours/min", "C: 30 giri al minuto")] == [[], []]
    assert (turns_alone("60 U/min"), knob_turned("Turns/min"), knob_turned("Temperature")) == (None, None, None)


@pytest.mark.parametrize(
    ("first", "second"),
    [
        ("2 out / 4 out", "4 out / 4 out"),
        ("Clicks: 8/12", "Clicks: 6/12"),
        ("8-10", "6-8"),
        ("lsc 6 -> 8", "lsc 8 -> 10"),
        ("Rebound 1/2 turn out", "Rebound 1 1/2 turns out"),
    ],
)
def test_a_block_s_question_on_its_setting_is_not_asked_of_the_next(first, second):
    rows = ["mm/s;C (N);R (N)", "50;202;-417", "100;260;-627", "200;321;-857", ""]
    one, other = read(first, *rows, second, *rows)
    assert len([w for w in one.warnings if "click" in w]) == len([w for w in other.warnings if "click" in w]) == 1
    assert {*one.warnings}.isdisjoint(other.warnings)


def test_turns_across_that_no_line_says_the_direction_of_are_asked_about():
    with pytest.raises(ReadError, match="no line says of which direction") as refused:
        read("mm/s;1/2 turn;1 turn;2 turns", *(row.format(";") for row in ROWS))
    assert "'1/2 turn rebound [N]'" in str(refused.value.hint)
