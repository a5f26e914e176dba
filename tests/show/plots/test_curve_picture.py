"""The one picture of a sweep: what its curve leaves stands over velocity, over the cycle and over travel."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from dynoan.analysis.conditioning.condition import condition
from dynoan.analysis.fitting.fit import fit
from dynoan.show.plots.force_over_velocity import draw_curve
from dynoan.show.plots.left_over import panels
from dynoan.show.plots.one_sweep import sweep_picture
from tests.worlds.rows import draw
from tests.worlds.with_dynoan import sweep_of


@pytest.fixture(scope="module")
def voided():
    """A record of a shock whose oil leaves a void that closes after each reversal, and its curve."""
    sweep = sweep_of(draw("void", 4002))
    return sweep, fit(sweep)


@pytest.mark.thorough
def test_a_void_that_closes_is_seen_in_the_panel_over_the_cycle(voided):
    cycle, travel = sweep_picture(*voided).axes[4:6]
    assert cycle.get_ylabel() == travel.get_ylabel() == "left over [N]"
    fastest = cycle.get_lines()[2]
    angle, force = (np.asarray(part, dtype=float) for part in fastest.get_data())
    worst = angle[np.nanargmax(np.abs(force))]
    assert min(worst % 180, 180 - worst % 180) < 45  # near where the shock turns around
    assert np.nanmax(np.abs(force)) > 10 * np.nanmedian(np.abs(force))
    assert len(travel.get_lines()) == 3  # two directions and the zero line


def test_findings_in_the_picture_are_in_the_units_asked_for(voided):
    words = " ".join(sweep_picture(*voided, "us").axes[6].texts[0].get_text().split())
    assert "lbf" in words
    assert " N " not in words


def test_a_peak_table_has_no_cycle():
    sweep = sweep_of(draw("peaks", 4000))
    assert len(sweep_picture(sweep, fit(sweep)).axes) == 3


def test_the_picture_names_the_day_and_says_what_the_strokes_are(voided):
    sweep, curve = voided
    figure = sweep_picture(replace(sweep, date="2026-05-02T10:11"), curve)
    assert figure.get_suptitle() == f"{curve.what}, 2026-05-02"
    assert curve.compression.knees or curve.rebound.knees
    assert "knee: the slope changes" in figure.axes[0].get_legend_handles_labels()[1]


def test_a_knee_has_the_colour_of_its_curve(voided):
    """Where curves cross, marks of one colour could not be told apart."""
    _, curve = voided
    drawn = draw_curve(None, curve).get_lines()
    marks = [line for line in drawn if line.get_marker() == "|"]
    assert len(marks) == sum(bool(side.knees) for side in (curve.compression, curve.rebound)) > 0
    for mark in marks:
        sign = np.sign(mark.get_xdata()[0])
        (its,) = [line for line in drawn if line.get_marker() != "|" and np.size(line.get_xdata()) > 2
                  and np.sign(line.get_xdata()[-1]) == sign]  # fmt: skip
        assert mark.get_color() == its.get_color()


def test_a_panel_of_means_is_left_out_where_each_speed_has_one_cycle(voided):
    rows = condition(voided[0]).rows
    firsts = {block: rows.cycle[rows.block == block].min() for block in np.unique(rows.block)}
    once = rows.cycle == np.array([firsts[block] for block in rows.block])
    left = np.ones(len(rows))
    assert [words.split(":")[0] for words, _ in panels(rows, left)] == ["over the cycle", "over travel"]
    assert [words.split(":")[0] for words, _ in panels(rows.take(once), left[once])] == ["over travel"]
    assert panels(replace(rows, displacement=None), left) == []
