"""The words of logged travel: how a column was understood, and the ranges between the knees."""

from __future__ import annotations

import numpy as np
import pytest

from dynoan.analysis.sensors.clipping import clipped
from dynoan.analysis.travel.summary import StrokeEnds, corner_travel
from dynoan.analysis.travel.velocity import shock_motion
from dynoan.jobs.travel import TravelAnswer, TravelQuestion
from dynoan.jobs.travel.found import LoggedShock
from dynoan.jobs.travel.sensed import SensedTravel
from dynoan.model.log import Log, LogColumn
from dynoan.show.text import travel as words
from dynoan.show.text.blocks import Look, Table
from tests.analysis.travel.test_summary import AMPLITUDE, TIME, kneed, sine

SOUND = SensedTravel(np.zeros(2), 0, clipped(np.zeros(2)))


@pytest.fixture(scope="module")
def answer():
    ends = StrokeEnds(bump=AMPLITUDE, droop=2 * AMPLITUDE)
    found = corner_travel("rl", shock_motion(TIME, sine()), (), curve=kneed(), ends=ends)
    shock = LoggedShock(
        LogColumn("POT_3", "V", np.zeros(2), "log.csv"), "25 mm per V", "the reading 2.1 V", found, 0.0, SOUND
    )
    return TravelAnswer(
        question=TravelQuestion(Log("log.csv", (shock.column,))), shocks=(shock,), parts_from="as given"
    )


def tables(answer: TravelAnswer, units: str = "metric") -> list[Table]:
    return [block for block in words.blocks(answer, Look(units)) if isinstance(block, Table)]


def test_how_a_column_was_understood(answer):
    said = words.understood(answer.shocks[0])
    for text in ("rear left: column 'POT_3'", "25 mm per V", "zero 0.0 mm (the reading 2.1 V)", "(Savitzky-Golay, "):
        assert text in said


def test_each_direction_has_its_row_and_its_end(answer):
    speeds = tables(answer)[0]
    compression, rebound = speeds.rows
    part = answer.shocks[0].travel.parts["all"]
    assert compression[0] == "rear left"
    assert compression[-1] == f"{part.bottomed.times} x, {part.bottomed.seconds:.2f} s"
    assert rebound[-1] == "0 x, 0.00 s"
    assert compression[-2] == f"{1e3 * part.deepest:.1f}"


def test_us_units_are_named_in_the_heads(answer):
    assert any("[in/s]" in head for head in tables(answer, "us")[0].columns)


def test_energy_is_told_between_the_knees(answer):
    ranges = tables(answer)[1]
    assert [row[3] for row in ranges.rows] == ["0 to 100", "over 100"] * 2
    shares = [float(row[-1].removesuffix("%")) for row in ranges.rows]
    assert sum(shares) == pytest.approx(100.0, abs=2.0)
