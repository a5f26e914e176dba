"""Mutated files of every kind that people hand over end in an answer or in one line, soon; `long` runs on demand."""

from __future__ import annotations

import random
from pathlib import Path

import pytest

from tests.fuzz.targets import FIXTURES, mutated, outcome, targets

TARGETS = {target.name: target for target in targets()}
EACH = 60  #: inputs a target; `python -m tests.fuzz.long` tries as many as there is time for
FEW = {"matlab": 4, "workbooks": 15}  #: of those that a process of its own reads
FOUND = sorted((FIXTURES / "fuzz").iterdir())


@pytest.mark.parametrize("name", TARGETS)
def test_a_mutated_file_is_answered_or_refused(name):
    choose = random.Random(7)
    target = TARGETS[name]
    came = {outcome(target, mutated(target.seeds, choose)) for _ in range(FEW.get(name, EACH))}
    assert came <= {"answered", "refused"}


@pytest.mark.parametrize("name", TARGETS)
def test_the_seeds_are_answered_so_that_a_mutation_meets_more_than_the_first_refusal(name):
    target = TARGETS[name]
    came = [outcome(target, seed) for seed in target.seeds]
    assert came.count("answered") >= 0.9 * len(came)


@pytest.mark.parametrize("path", FOUND, ids=lambda p: p.name)
@pytest.mark.parametrize("name", ["rig files", "logs"])
def test_what_was_found_before_stays_mended(name, path: Path):
    assert outcome(TARGETS[name], path.read_bytes()) in ("answered", "refused")
