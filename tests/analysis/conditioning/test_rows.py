"""What is said of the samples that are used."""

from __future__ import annotations

import numpy as np
import pytest

from dynoan.analysis.conditioning.channels.velocity import find_motion
from dynoan.analysis.conditioning.condition import condition
from dynoan.analysis.conditioning.samples.rows import one_speed, used_words
from dynoan.analysis.fitting.fit import fit
from dynoan.errors import FitError
from tests.analysis.conditioning.test_resting import cut, moved, prepare, recorded
from tests.worlds.rows import draw
from tests.worlds.with_dynoan import sweep_of


@pytest.mark.parametrize(
    ("fewer", "still", "says"),
    [
        (0, 0, ""),
        (10, 0, "; starting and stopping left out"),
        (10, 5, "; starting, stopping and standing still left out"),
    ],
)
def test_only_what_is_left_out_is_said_to_be(fewer, still, says):
    x, v = moved((0.15, 8), rest=0.0)
    record = prepare(recorded(x, 2000.0 * v))
    blocks = find_motion(record, cut(x)).blocks
    n = record.samples
    said = used_words(record, blocks, (n - fewer, True), still)
    assert said.startswith(f"used {n - fewer} of {n} samples: ")
    assert said.endswith(f"of constant speed{says}")


@pytest.mark.parametrize(("row", "alone"), [("course", False), ("chirp", False), ("one speed", True)])
def test_a_course_or_a_sweep_is_not_one_speed(row, alone):
    found = condition(sweep_of(draw(row, 4100)))
    assert one_speed(found.rows) is alone
    assert any("one speed alone" in line for line in found.findings) is alone


def test_corners_all_over_are_those_of_few_samples_a_turn():
    """A coarse record of some twenty samples a turn is none of jumps: it is used as it is."""
    curve = fit(sweep_of(draw("any", 27081)))
    assert any("used 88 of 144 samples" in line for line in curve.findings)
    assert not any("jumps" in line for line in curve.findings)


def test_a_record_without_any_stretch_is_refused_in_words():
    jumping = np.where(np.random.default_rng(6).random(300) < 0.5, 0.02, -0.02)
    with pytest.raises(FitError, match="hardly anything moves in this record"):
        fit(recorded(jumping, 2000.0 * np.gradient(jumping), rate=100.0))
