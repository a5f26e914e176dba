"""Sample rates and times between samples, as lines and heads state them."""

from __future__ import annotations

import numpy as np
import pytest

from dynoan.errors import ReadError
from dynoan.reading import read_bytes
from importers.header import describe_column
from importers.stated import facts_of_lines
from tests.importers.making import RATE, F, V, X


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


SECOND_RATES = (
    "Rate (Hz):,500,250", "Rate (Hz):;500;250", "Rate (Hz),500,250", "Rate (Hz),500,250,500", "Sampling Hz,500,250",
    "Sample rate:\t500\t250", "Rate: 500 Hz, 250 Hz", "Rate (Hz): 500/250", "Rate: 500 and 250 Hz",
    "Rate (kHz):,0.5,0.25", "Sample interval (ms):,2,4", "Sampled at 500 Hz and 250 Hz",
)  # fmt: skip


@pytest.mark.parametrize("line", SECOND_RATES)
def test_two_rates_of_one_file_are_none_and_said(line):
    with pytest.raises(ReadError, match=r"500 Hz and 250 Hz, and no time column tells which is this record's"):
        read_bytes(trace(line, "N,Disp (mm),Force (N)"), "rig.csv")


@pytest.mark.parametrize("line", SECOND_RATES)
def test_a_time_column_settles_which_of_two_rates_it_is(line):
    (sweep,) = read_bytes(trace(line, "Time (s),Disp (mm),Force (N)", time=lambda i: f"{i / RATE:.4f}"), "rig.csv")
    assert sweep.rate == pytest.approx(RATE)
    assert not any("Hz" in said for said in sweep.warnings)


def test_two_rates_over_a_recorded_velocity_are_said_and_peaks_have_none():
    rows = "\n".join(f"{1e3 * v:.3f},{f:.1f}" for v, f in zip(V, F, strict=True))
    (sweep,) = read_bytes(f"Rate (Hz):,500,250\nVelocity (mm/s),Force (N)\n{rows}\n".encode(), "rig.csv")
    assert sweep.rate is None
    assert any("states the sample rates 500 Hz and 250 Hz" in said for said in sweep.warnings)
    peaks = b"Rate (Hz):,500,250\nVelocity (mm/s),Compression (N),Rebound (N)\n25,60,90\n50,110,170\n100,200,330\n"
    assert not any("Hz" in said for said in read_bytes(peaks, "peaks.csv")[0].warnings)


def test_blocks_that_state_a_rate_each_have_their_own():
    blocks = [
        trace(f"Shock: FL-{k}", f"Rate (Hz): {rate}", "N,Disp (mm),Force (N)") for k, rate in ((1, 500), (2, 250))
    ]
    assert [(s.shock, s.rate) for s in read_bytes(b"\n\n".join(blocks), "rig.csv")] == [
        ("FL-1", 500.0),
        ("FL-2", 250.0),
    ]


@pytest.mark.parametrize(
    ("line", "rate"),
    [("Rate (Hz):,1,000", 1000.0), ("Rate (Hz): 1,000", 1000.0), ("Rate (Hz):,500,500", 500.0), ("Rate:,500,Hz", 500.0),
     ("Rate: 500 Hz (max 1000 Hz)", 500.0), ("Rate 1 kHz", 1000.0)],
)  # fmt: skip
def test_a_single_rate_however_its_digits_stand(line, rate):
    assert facts_of_lines([line]).rate == pytest.approx(rate)


def test_numbers_in_cells_of_their_own_are_not_one():
    facts = facts_of_lines(["Gas pressure (bar):,10,12"])
    assert facts.gas_pressure is None
    assert any("10 12" in said for said in facts.warnings)
    assert facts_of_lines(["Gas pressure:,10,bar"]).gas_pressure == pytest.approx(10e5)
