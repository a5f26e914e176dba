"""In a terminal, however narrow, every number of the piped text is there whole, and no line runs over the edge."""

from __future__ import annotations

import re
import shlex
from collections import Counter

import pytest

from dynoan.show.text.widths import across
from tests.golden.answering import said
from tests.golden.commands import BY_SLUG
from tests.golden.grounds import Grounds
from tests.golden.line import Line
from tests.golden.running import Ran, run
from tests.golden.terminal import shown

WIDTHS = (60,)  #: in every run, the hardest; wider ones are seen in the thorough one, and 80 of a few tables here
WIDER = (80, 100, 140)
#: at least one line a command, the widest of its tables, and both systems of units
SLUGS = (
    "demo-sweeps-us", "demo-check", "demo-curve-us", "demo-compare-packs", "demo-compare-equal", "demo-match-pairs",
    "demo-identify", "demo-predict-several", "demo-plan-runs", "demo-health-us", "demo-ratio", "demo-choose-typed-us",
    "demo-carry-back-us", "demo-launch-loose-us", "demo-travel-parts-us", "demo-setup-list", "demo-setup-recall",
    "demo-setup-compare-us", "edit", "remove", "add-again", "read-peaks-us", "read-several",
)  # fmt: skip
#: further tables of the same commands
FURTHER = (
    "demo-sweeps", "demo-curve-at", "demo-match-us", "demo-predict-shock-us", "demo-ratio-us", "demo-choose-front",
    "demo-launch-settings", "demo-ratio-no-car", "demo-trackside", "report-all",
)  # fmt: skip
BOTH = ("demo-ratio", "demo-compare-packs", "demo-setup-list", "read-several")
A_FILE = ("demo-setup-recall",)  #: shows a file as it is
NUMBER = re.compile(r"\d+(?:[.,:/]\d+)*")


def _numbers(text: str) -> Counter[str]:
    return Counter(NUMBER.findall(text))


def _text(ran: Ran) -> str:
    return ran.out + ran.err


CASES = [
    *(pytest.param(BY_SLUG[slug], (*WIDTHS, 80) if slug in BOTH else WIDTHS, id=f"narrow-{slug}") for slug in SLUGS),
    *(pytest.param(BY_SLUG[slug], WIDTHS, id=f"narrow-{slug}", marks=pytest.mark.thorough) for slug in FURTHER),
    *(pytest.param(BY_SLUG[slug], WIDER, id=f"wide-{slug}", marks=pytest.mark.thorough) for slug in SLUGS + FURTHER),
]


@pytest.mark.parametrize(("line", "widths"), CASES)
def test_a_terminal_shows_every_number_whole(line: Line, widths: tuple[int, ...], grounds: Grounds):
    piped = _text(said(line, grounds))
    for width in widths:
        with grounds.place(line) as folder:
            for text in line.before:
                run(shlex.split(text), folder)
            seen = shown(line.words, folder, width)
        assert not _numbers(piped) - _numbers(seen), f"{width} columns:\n{seen}"
        over = [each for each in seen.split("\n") if across(each.split("\r")[-1]) > width and " " in each.strip()]
        assert not over or line.slug in A_FILE, f"{width} columns:\n{over}"
