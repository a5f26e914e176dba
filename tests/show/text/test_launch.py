"""The words of a launch: figures with their bands in people's units, verdicts that claim no more than bands allow."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest

from dynoan.analysis.launch.compare import LaunchRun
from dynoan.analysis.launch.drive import constant_acceleration
from dynoan.analysis.launch.from_car import half_car
from dynoan.analysis.launch.scene import Scene
from dynoan.cautions import SHORT
from dynoan.jobs.launch import LaunchAnswer, LaunchVerdict
from dynoan.jobs.launch.asked import LaunchQuestion
from dynoan.jobs.launch.drive import DriveAsked
from dynoan.jobs.launch.figures import BY_KEY, FIGURES
from dynoan.show.pages.launch_table import launch_figures
from dynoan.show.text import launch as words
from dynoan.show.text.blocks import Look, Paragraph, Table
from tests.analysis.launch_cars import FLAT, damping, kestrel
from tests.oracles.small_angle.launching import launch

NOSE = BY_KEY["nose_rise_m"]


@pytest.fixture(scope="module")
def answer():
    car = kestrel()
    half, scene = half_car(car), Scene(constant_acceleration(5.0), FLAT, duration=1.0)
    runs = tuple(launch(half, scene, damping(car, lsr=clicks), f"lsr {clicks}") for clicks in (2, 6))
    return LaunchAnswer(question=LaunchQuestion("kestrel"), runs=runs, half=half, assumptions=half.notes)


def run(value: float, low: float, high: float) -> LaunchRun:
    return LaunchRun("now", {NOSE.key: value}, {NOSE.key: low}, {NOSE.key: high}, {})


@pytest.mark.parametrize(
    ("units", "text"), [("metric", "17.3 (16.9 to 17.8)"), ("us", "0.68 (0.67 to 0.70)")]
)  # fmt: skip
def test_a_band_stands_behind_its_figure(units, text):
    assert words.banded(NOSE, run(0.0173, 0.0169, 0.0178), units) == text


def test_a_band_too_narrow_to_show_is_left_out():
    assert words.banded(NOSE, run(0.01731, 0.01730, 0.01732), "metric") == "17.3"


def test_what_a_run_cannot_tell_is_a_dash():
    assert words.banded(NOSE, run(0.0173, math.nan, math.nan), "metric") == "17.3"
    assert words.with_unit(NOSE, {NOSE.key: math.nan}, "metric") == "–"
    assert words.with_unit(NOSE, {NOSE.key: 0.0123}, "metric") == "12.3 mm"


@pytest.mark.parametrize(
    ("verdict", "text"),
    [
        ("best", "Slowest nose rise: a."),
        ("no difference", "Slowest nose rise: no difference."),
        (
            "cannot tell",
            "Slowest nose rise: cannot tell; a comes out best, but b is no further off than roads and damping curves "
            "leave open.",
        ),
    ],
)
def test_a_verdict_in_words(verdict, text):
    assert words.sentence(LaunchVerdict("level_nose_rise_rate_m_s", "Slowest nose rise", "a", "b", verdict)) == text


def test_few_figures_then_with_more_all_of_them(answer):
    few, every = (words.figures(answer.runs, Look("metric", more)) for more in (False, True))
    assert few.columns == ["", "lsr 2", "lsr 6"]
    always = [row for row in every.rows[: sum(m.terminal == "always" for m in FIGURES)] if set(row[1:]) != {"–"}]
    assert few.rows == always  # what no run can tell is not worth a line
    assert len(few.rows) < len(every.rows) == len(FIGURES)


def test_what_is_taken_for_granted_and_the_cautions_come_last(answer):
    table, *rest = words.blocks(answer, Look())
    assert isinstance(table, Table)
    said = [block.text for block in rest if isinstance(block, Paragraph)]
    taken = said[-1 - len(answer.assumptions) : -1]
    assert [text.removeprefix("Taken for granted: ").removesuffix(".") for text in taken] == list(answer.assumptions)
    assert said[-1] == SHORT


def test_an_option_of_the_shell_is_named_in_the_terminal_and_on_no_page(answer):
    told = replace(answer, assumptions=DriveAsked().taken(kestrel()))
    shell = [block.text for block in words.blocks(told, Look()) if isinstance(block, Paragraph)]
    assert any("(--rise)" in text for text in shell if text.startswith("Taken for granted"))
    page = launch_figures(told, "metric").granted
    assert len(page) == len(told.assumptions) > 1
    assert not any("--" in text for text in page)


@pytest.mark.parametrize(("spun", "says"), [(True, "a lighter foot decides"), (False, "no difference.")])
def test_why_no_setting_changes_the_wheelspin_is_said(spun, says):
    told = words.sentence(LaunchVerdict("wheelspin_s", "Least wheelspin", "a", "b", "no difference", spun))
    assert says in told
    assert told.startswith("Least wheelspin: no difference.")
    assert ("lighter foot" in told) == spun
