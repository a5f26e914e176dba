"""Mutated files of every kind that people hand over end in an answer or in one line, soon; `long` runs on demand."""

from __future__ import annotations

import random
from pathlib import Path

import pytest

from tests.fuzz.marathon import WANTED
from tests.fuzz.targets import FIXTURES, mutated, outcome, targets

TARGETS = {target.name: target for target in targets()}
EACH = 20  #: inputs a target; `python -m tests.fuzz.long` tries as many as there is time for
#: of those that a process of its own reads, or that are fitted
FEW = {"matlab": 2, "workbooks": 5, "learn logs": 5, "travel logs": 5, "bounce logs": 5}
MANY = 40  #: seeds of a target of which one in five is tried in every run; `test_corpus` reads all of them
FOUND = sorted((FIXTURES / "fuzz").iterdir())


@pytest.mark.parametrize("name", TARGETS)
def test_a_mutated_file_is_answered_or_refused(name):
    choose = random.Random(7)
    target = TARGETS[name]
    came = {outcome(target, mutated(target.seeds, choose)) for _ in range(FEW.get(name, EACH))}
    assert came <= {"answered", "refused"}


@pytest.mark.parametrize(
    "piece", ["1/", "+", "(a ", "a, ", "\t1", "C8 ", "9 in/s ", "8 clicks ", "[x", "1 (", "a=", "2026-"]
)
def test_a_line_of_one_piece_without_end_is_answered_or_refused_as_soon(piece):
    line = piece * (20_000 // len(piece))
    table = "Speed mm/s,Comp N,Reb N\n10,50,-60\n20,80,-90\n40,100,-120\n"
    assert outcome(TARGETS["rig files"], f"{line}\n{table}".encode()) in {"answered", "refused"}


@pytest.mark.parametrize("name", TARGETS)
def test_the_seeds_are_answered_so_that_a_mutation_meets_more_than_the_first_refusal(name):
    target = TARGETS[name]
    came = [outcome(target, seed) for seed in target.seeds[:: 1 if len(target.seeds) < MANY else 5]]
    assert came.count("answered") >= 0.9 * len(came)


def test_the_long_run_takes_them_all():
    assert WANTED.keys() == TARGETS.keys()


def test_an_edit_that_changes_another_value_is_seen(monkeypatch):
    def spoiled(text: str, _file: str, _settings: object) -> tuple[str, tuple[()]]:
        return text.replace("2430 mm", "2431 mm"), ()

    monkeypatch.setattr("tests.fuzz.track_targets.with_settings", spoiled)
    target = TARGETS["edited cars"]
    assert outcome(target, target.seeds[0]).endswith("another value is changed")


@pytest.mark.parametrize("path", FOUND, ids=lambda p: p.name)
@pytest.mark.parametrize("name", ["rig files", "logs", "cars", "edited cars", "setups", "trials"])
def test_what_was_found_before_stays_mended(name, path: Path):
    assert outcome(TARGETS[name], path.read_bytes()) in ("answered", "refused")
