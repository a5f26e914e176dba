"""Every command line whose answer is held: data only."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from typing import Any

import pytest

from tests.golden.demo_lines import DEMO
from tests.golden.file_lines import FILES
from tests.golden.line import Line
from tests.golden.second_lines import SECOND

#: commands that show bands of a click map, and single lines of other commands that do
BANDED = (
    "predict",
    "compare",
    "match",
    "identify",
    "ratio",
    "choose",
    "carry",
    "launch",
    "travel",
    "report",
    "trackside",
)
CURVES = ("curve", "health", "plan")
BANDS = (
    "a click map's variance is the prior's less what the tests explain, two nearly equal numbers: where the threads of "
    "the linear algebra add in another order, bands of the demo's gravel map move by up to 2e-7, forces by 3e-12"
)

KNEES = (
    "the joint fit ends where a step no longer gains anything: on processors that add in another order, ends of knees "
    "moved by up to 4e-8"
)

ODD_RIG = "an odd rig's record of few samples: between two makes of processor its bands moved by 1e-5"


def _banded(line: Line) -> Line:
    if line.slug == "second-curve-layout":
        return replace(line, tolerance=1e-4, why=ODD_RIG)
    of_files = line.ground == "files" and line.words[0] in ("compare", "match")  # fitted as `curve` fits them
    if line.words[0] in CURVES or of_files:
        return replace(line, tolerance=1e-5, why=KNEES)
    mapped = line.ground != "files" and line.words[0] in BANDED
    return replace(line, tolerance=1e-5, why=BANDS) if mapped else line


LINES: tuple[Line, ...] = tuple(_banded(line) for line in (*DEMO, *FILES, *SECOND))
BY_SLUG = {line.slug: line for line in LINES}
#: another form of what a line beside it holds, that takes long to reckon or draw: asked in the thorough run
SELDOM = frozenset({
    "demo-launch-seed", "demo-launch-accel", "demo-launch-no-radius", "demo-launch-settings", "demo-plan-runs",
    "demo-report-car", "demo-trackside-us", "demo-health-pack", "second-launch-best", "second-launch-both",
    "demo-launch-best", "second-compare-both", "demo-ratio-picture", "demo-choose-once", "second-carry-shocks",
    "demo-launch-no-centre", "second-ratio-wet", "demo-identify-packs", "second-plan-soft", "second-launch-setting",
    "demo-choose-none", "demo-choose-like", "demo-choose-within", "demo-choose-tight", "second-launch-torque",
    "second-launch-best-inside", "remove-then-predict", "demo-launch-loose-us", "demo-carry-back-us",
    "demo-ratio-plot", "demo-travel-plot", "demo-launch-plot", "demo-match-plot", "demo-predict-plot",
    "demo-compare-plot", "demo-health-plot", "demo-choose-plot",
})  # fmt: skip


def cases(lines: Iterable[Line]) -> list[Any]:
    """Return lines as what a test is given, those asked seldom marked."""
    marks = dict.fromkeys(SELDOM, pytest.mark.thorough)
    return [pytest.param(line, id=line.slug, marks=marks.get(line.slug, ())) for line in lines]
