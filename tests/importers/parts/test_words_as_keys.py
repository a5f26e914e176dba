"""Columns of words that name places, samples or runs, under heads that are a channel's or a count's too."""

from __future__ import annotations

import math

import pytest

from dynoan.reading import read_bytes

ROWS = ((50, 123, 188), (100, 212, 341), (200, 284, 462))
HEAD = "Speed mm/s,Compression N,Rebound N"


def table(head: str, words: list[str], *, first_alone: bool = False, crossed: bool = False) -> bytes:
    rows = [(j, k, w, row) for j, w in enumerate(words) for k, row in enumerate(ROWS)]
    rows = sorted(rows, key=lambda one: one[1]) if crossed else rows
    lines = (f"{'' if k and first_alone else w},{v},{c + 10 * j},{r}" for j, k, w, (v, c, r) in rows)
    return "\n".join([f"{head},{HEAD}", *lines, ""]).encode()


@pytest.mark.parametrize("head", ["Position", "Sample", "Wheel", "Location", "位置", "Platz", "Damper", "Einbauort"])
@pytest.mark.parametrize("words", [["LF", "RF", "LR"], ["VF", "HF", "VB"], ["A-17", "A-18", "A-21"], ["A", "B", "C"]])
def test_name_the_shock_in_every_row_and_in_the_first_of_joined_cells(head, words):
    for first_alone in (False, True):
        sweeps = read_bytes(table(head, words, first_alone=first_alone), "corners.csv")
        assert [s.shock for s in sweeps] == words
        assert [s.channels["force"][0] for s in sweeps] == [123, 133, 143]


@pytest.mark.parametrize("head", ["Gruppe", "Nr.", "Car"])
def test_of_other_names_tell_the_runs_apart(head):
    sweeps = read_bytes(table(head, ["Kestrel", "Heron", "Swift"]), "runs.csv")
    assert [(s.shock, s.source.part) for s in sweeps] == [
        (None, "group Kestrel"), (None, "group Heron"), (None, "group Swift")
    ]  # fmt: skip


@pytest.mark.parametrize(("head", "part"), [("Platz", "shock"), ("Gruppe", "run")])
def test_whose_rows_do_not_lie_together(head, part):
    sweeps = read_bytes(table(head, ["Kestrel", "Heron", "Swift"], crossed=True), "crossed.csv")
    assert [s.source.part for s in sweeps] == [f"{part} {name}" for name in ("Kestrel", "Heron", "Swift")]
    assert [s.channels["force"].tolist()[:3] for s in sweeps] == [[123, 212, 284], [133, 222, 294], [143, 232, 304]]


def test_of_one_word_in_every_row_are_said_of_the_run():
    (sweep,) = read_bytes(table("Position", ["LF"]), "one.csv")
    assert sweep.shock == "LF"
    (sweep,) = read_bytes(table("Operator", ["Ann"]), "one.csv")
    assert (sweep.shock, sweep.facts["Operator"]) == (None, "Ann")


def test_over_positions_that_are_numbers_hold_a_displacement():
    rows = "\n".join(f"{25 * math.sin(k / 50):.3f},{k / 500},{500 * math.cos(k / 50):.2f}" for k in range(700))
    (sweep,) = read_bytes(f"Position mm,t s,F N\n{rows}\n".encode(), "trace.csv")
    assert max(sweep.channels["displacement"]) == pytest.approx(0.025, rel=1e-3)


def test_of_records_one_below_another():
    rows = (f"{w},{k / 500},{25 * math.sin(k / 50):.3f},{500 * math.cos(k / 50):.2f}"
            for w in ("LF", "RF") for k in range(700))  # fmt: skip
    sweeps = read_bytes("\n".join(["Position,t s,x mm,F N", *rows, ""]).encode(), "traces.csv")
    assert [(s.shock, s.samples) for s in sweeps] == [("LF", 700), ("RF", 700)]


@pytest.mark.parametrize("words", [("low", "mid", "high"), ("S1", "S2", "S3")])
def test_that_change_with_each_speed_of_one_sweep_tell_no_runs_apart(words):
    rows = "".join(f"{w},{v},{c},{r}\n" for w, (v, c, r) in zip(words, ROWS, strict=True))
    for head in ("Position", "Sample"):
        (sweep,) = read_bytes(f"{head},{HEAD}\n{rows}".encode(), "sweep.csv")
        assert (sweep.shock, sweep.samples) == (None, 6)


@pytest.mark.parametrize(
    ("words", "clicks"),
    [
        (["C4 R6", "C8 R6"], [{"c": 4, "r": 6}, {"c": 8, "r": 6}]),
        (["soft", "hard"], [{}, {}]),
        (["1 click", "5 click"], [{}, {}]),
    ],
)
def test_of_positions_of_a_knob_name_no_shock(words, clicks):
    sweeps = read_bytes(table("Position", words), "knob.csv")
    assert [(s.shock, dict(s.clicks)) for s in sweeps] == [(None, one) for one in clicks]
