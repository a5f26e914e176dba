"""Sample rates and times between samples, as lines and heads state them."""

from __future__ import annotations

import numpy as np
import pytest

from dynoan.errors import ReadError
from dynoan.reading import read_bytes
from importers.header import describe_column
from importers.stated import facts_of_lines
from tests.importers.making import RATE, F, X


@pytest.mark.parametrize(
    ("line", "rate"),
    [("Messintervall 0,004 s", 250.0), ("Scans/sec,250", 250.0), ("samples per second: 250", 250.0),
     ("Sample interval 4 ms", 250.0)],
)  # fmt: skip
def test_a_line_states_the_rate(line, rate):
    assert facts_of_lines([line], "," if "0,0" in line else ".").rate == pytest.approx(rate)


@pytest.mark.parametrize(
    "lines", [["Sample rate 500 Hz, every 2nd sample saved"], ["Fs: 500 Hz", "every 2nd point kept"]]
)
def test_of_samples_that_were_kept_the_rate_is_less_and_said(lines):
    facts = facts_of_lines(lines)
    assert facts.rate == 250.0
    assert any("one sample of 2 was kept" in warning for warning in facts.warnings)


def test_every_sample_of_a_sentence_thins_nothing():
    assert facts_of_lines(["Sample rate 500 Hz", "every 10 minutes a run"]).rate == 500.0


@pytest.mark.parametrize(
    ("head", "unit", "factor"), [("Time (100 ns)", "ns", 100.0), ("Time [10 ms]", "ms", 10.0), ("t (1 ms)", "ms", 1.0)]
)
def test_a_head_of_time_may_say_how_long_one_count_is(head, unit, factor):
    column = describe_column(0, head)
    assert (column.channel, column.unit, column.factor) == ("time", unit, factor)


def trace(*above: str, time=lambda i: f"{i}") -> bytes:
    rows = [f"{time(i)},{1e3 * x:.4f},{f:.1f}" for i, (x, f) in enumerate(zip(X, F, strict=True))]
    return "\n".join([*above, *rows]).encode()


def test_a_clock_of_ticks_that_no_unit_is_known_of_is_refused_by_name():
    with pytest.raises(ReadError, match=r"'100 ticks' is no unit of time"):
        read_bytes(trace("Time (100 ticks),Disp (mm),Force (N)"), "rig.csv")


@pytest.mark.parametrize("head", ["UTC", "Time (UTC)", "Timestamp [local time]", "When"])
def test_stamps_are_the_time_under_any_head(head):
    data = trace(f"{head},Disp (mm),Force (N)", time=lambda i: f"2026-03-14T14:05:{11 + i / RATE:07.4f}Z")
    (sweep,) = read_bytes(data, "rig.csv")
    assert sweep.rate == pytest.approx(RATE)


def test_an_x_that_grows_evenly_is_the_time():
    (sweep,) = read_bytes(trace("X,Displacement (mm),Force (N)", time=lambda i: f"{i / RATE:.4f}"), "rig.csv")
    assert sweep.rate == pytest.approx(RATE)
    assert float(np.ptp(sweep.channels["displacement"])) == pytest.approx(float(np.ptp(X)), rel=1e-3)
