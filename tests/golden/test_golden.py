"""Every held command still gives the exit code, the JSON object and the refusal that are stored."""

from __future__ import annotations

import pytest

from tests.golden import store
from tests.golden.answering import KINDS, answer, held
from tests.golden.commands import BY_SLUG, LINES, SELDOM, cases
from tests.golden.compare import differences, report
from tests.golden.grounds import Grounds
from tests.golden.line import Line

COMMANDS = (
    "demo", "read", "add", "sweeps", "edit", "remove", "check", "curve", "compare", "match", "identify", "predict",
    "plan", "health", "ratio", "choose", "carry", "launch", "travel", "setup", "report", "trackside",
)  # fmt: skip
HOW = "meant? then: python -m tests.golden.record"


@pytest.mark.parametrize("line", cases(line for line in LINES if line.json))
def test_the_answer_is_the_stored_one(line: Line, grounds: Grounds):
    stored = store.stored("json", line)
    found = answer("json", line, grounds)
    if stored["exit"] == 2 and stored["json"] is None:
        found["json"] = None  # a refusal may be told on standard output too
    differing = differences(stored, found, line.tolerance)
    assert not differing, f"{report(line.text, differing)}\n{HOW} {line.slug}"


def test_every_line_is_stored_and_nothing_else():
    assert len(BY_SLUG) == len(LINES), "two lines share a slug"
    for kind in KINDS:
        for ground in {line.ground for line in LINES}:
            declared = {line.slug for line in LINES if line.ground == ground and held(kind, line)}
            assert set(store.load(kind, ground)) == declared, f"{HOW}, for the lines declared and not stored"


def test_what_is_asked_seldom_is_there_and_its_command_is_asked_in_every_run():
    assert set(BY_SLUG) >= SELDOM
    often = {line.words[0] for slug, line in BY_SLUG.items() if slug not in SELDOM}
    assert {BY_SLUG[slug].words[0] for slug in SELDOM} <= often


def test_every_command_is_held():
    assert set(COMMANDS) <= {word for line in LINES for word in line.words[:1]}


def test_another_tolerance_says_why():
    assert all(line.why for line in LINES if line.tolerance != Line.tolerance)
