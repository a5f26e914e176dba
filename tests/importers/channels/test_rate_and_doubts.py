"""The sample rate, and what is wrong with a record: too wrong to read, or worth a warning."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from dynoan.errors import ReadError
from dynoan.model.importing import ReadOptions
from dynoan.model.motion import derived_velocity, eighth_of_cycle
from importers.channels import trace_channels
from importers.channels.rate import rate_of_times
from tests.importers.making import RATE, F, T, V, X, part_of, quick, trace


def read(columns, options=None, **more):
    return trace_channels(part_of(columns, options, **more))


@quick
@given(st.floats(10, 20_000), st.sampled_from([1.0, 1e-3]))
def test_the_rate_of_even_times_comes_back(rate, unit):
    time = np.arange(2000) / rate / unit
    assert rate_of_times(time, unit).hertz == pytest.approx(rate, rel=1e-5)


@quick
@given(st.floats(50, 380))
def test_times_rounded_to_a_tenth_of_a_millisecond_give_the_mean_rate(rate):
    time = np.round(np.arange(3000) / rate, 4)
    assert rate_of_times(time, 1.0).hertz == pytest.approx(rate, rel=1e-3)


@quick
@given(st.integers(5, 900))
def test_a_clock_of_whole_seconds_gives_the_rate_of_the_samples_between_its_ticks(rate):
    time = np.floor(np.arange(5 * rate + 3) / rate)
    assert rate_of_times(time, 1.0).hertz == pytest.approx(rate, rel=1e-6)


def test_a_clock_that_stands_has_no_rate():
    assert rate_of_times(np.zeros(50), 1.0).hertz is None


def test_a_rate_is_stated_by_the_user_or_the_file_where_there_is_no_time():
    columns = trace(time=None, velocity=None)
    told = read(columns, ReadOptions(rate=RATE), shared=("Sample rate: 100 Hz",))
    assert (told.rate, told.decisions["time"].evidence) == (RATE, "500 Hz, stated by the user")
    lines = read(columns, shared=("Sample rate: 500 Hz",))
    assert (lines.rate, lines.decisions["time"].evidence) == (RATE, "500 Hz, stated in the file")


def test_the_motion_tells_the_rate_where_nothing_else_does():
    channels = read(trace(time=None))
    assert channels.rate == pytest.approx(RATE, rel=1e-3)
    assert channels.decisions["time"].evidence.endswith("from displacement and velocity")


def test_without_any_rate_velocity_cannot_be_derived():
    with pytest.raises(ReadError, match="no velocity, no time and no sample rate, so velocity cannot be derived"):
        read(trace(time=None, velocity=None))


def test_a_recorded_velocity_needs_no_rate_but_a_warning():
    channels = read(trace(time=None, displacement=None))
    assert channels.rate is None
    assert any("the sample rate is not known" in w for w in channels.warnings)


@pytest.mark.parametrize(("stated", "said"), [("480 Hz", False), ("400 Hz", True)])
def test_a_time_column_wins_over_a_stated_rate_and_says_so(stated, said):
    channels = read(trace(), shared=(f"Sample rate: {stated}",))
    assert channels.rate == pytest.approx(RATE)
    assert any("the column was believed" in w for w in channels.warnings) is said


def test_a_sound_record_draws_no_warning():
    assert read(trace()).warnings == ()


@pytest.mark.parametrize(
    ("channel", "without"),
    [("force", ()), ("displacement", ()), ("velocity", ("time",)), ("velocity", ("displacement",))],
)
def test_a_stuck_channel_is_refused(channel, without):
    with pytest.raises(ReadError, match=f"{channel} stands at one value in all 1500 rows: a stuck sensor"):
        read(trace(**{channel: np.full(len(T), 0.3)}, **dict.fromkeys(without)))


@pytest.mark.parametrize(("channel", "most"), [("force", 2.1e5), ("velocity", 26.0), ("displacement", 2.1)])
def test_a_channel_beyond_any_dyno_is_refused(channel, most):
    values = {"force": F, "velocity": V, "displacement": X}[channel]
    with pytest.raises(ReadError, match=f"{channel} reaches .* more than any dyno gives; give the right unit with"):
        read({"Time [s]": T} | {n: v for n, v in trace(**{channel: values / values.max() * most}).items()
                                if n.split()[0].lower() in {channel, "force", "displacement"}})  # fmt: skip


@quick
@given(st.floats(0.0, 1.0))
def test_a_channel_must_hold_half_its_rows(share):
    force = np.where(np.arange(len(T)) < share * len(T), np.nan, F)
    there = int(np.isfinite(force).sum())
    if there < 0.5 * len(T):
        with pytest.raises(ReadError, match=f"only {there} of 1500 rows hold a force"):
            read(trace(force=force))
    elif there < len(T):
        assert any(
            f"{len(T) - there} of 1500 samples of force are missing" in w for w in read(trace(force=force)).warnings
        )


@pytest.mark.parametrize(
    ("time", "said"),
    [
        (np.zeros(len(T)), "time stands still; name another with .*--rate"),
        (T[::-1].copy(), "time runs backwards from row to row; sort the rows by time"),
        (np.random.default_rng(1).permutation(T), "time runs backwards in .*--rate"),
    ],
    ids=["still", "backwards", "shuffled"],
)
def test_time_must_run(time, said):
    with pytest.raises(ReadError, match=f"column 'Time .s.': {said}"):
        read({"Time [s]": time, "Displacement [m]": X, "Force [N]": F})


@pytest.mark.parametrize("rows", [1, 5, 7])
def test_a_trace_needs_a_few_rows(rows):
    with pytest.raises(ReadError, match=f"only {rows} rows from line 2; a trace needs at least 8"):
        read({name: values[:rows] for name, values in trace().items()})


def test_dropped_samples_are_counted():
    keep = np.delete(np.arange(len(T)), np.r_[300:310, 700])
    channels = read({name: values[keep] for name, values in trace().items()})
    assert any("11 samples were dropped in 2 gaps" in w for w in channels.warnings)


def test_repeated_times_and_jumps_back_are_counted():
    time = T.copy()
    time[500], time[800] = time[499], time[798] - 0.001
    warnings = read(trace(time=time)).warnings
    assert any("1 samples repeat the time before them" in w for w in warnings)
    assert any("time jumps back in 1 places" in w for w in warnings)


def test_uneven_sampling_is_said_and_rounded_times_are_not():
    steps = np.random.default_rng(5).uniform(0.5, 1.5, len(T)) / RATE
    time = np.cumsum(steps)
    uneven = {"Time [s]": time, "Displacement [m]": 0.02 * np.sin(6.28 * time),
              "Force [N]": 400 * np.cos(6.28 * time) + 140}  # fmt: skip
    assert any("sampling is uneven" in w for w in read(uneven).warnings)
    rounded = np.round(np.arange(len(T)) / 400, 3)  # 2.5 ms as 2 and 3 ms
    assert not any("uneven" in w for w in read(trace(time=rounded, velocity=None, displacement=X)).warnings)


@pytest.mark.parametrize(("limit", "word"), [(300.0, "highest"), (-150.0, "lowest")])
def test_a_load_cell_at_its_limit_is_said(limit, word):
    force = np.minimum(F, limit) if word == "highest" else np.maximum(F, limit)
    warnings = read(trace(force=force)).warnings
    assert any(f"force is clipped: it is held at its {word} value {limit:.0f} N" in w for w in warnings)


@pytest.mark.parametrize(("drift", "said"), [(9.0, False), (12.0, True)])
def test_a_drift_of_temperature_is_said(drift, said):
    channels = read(trace() | {"Temp [C]": 30 + drift * T / T[-1]})
    assert any("temperature drifts by" in w for w in channels.warnings) is said
    np.testing.assert_allclose(channels.values["temperature"][0], 30)


@pytest.mark.parametrize(("rate", "said"), [(30.0, True), (100.0, False)])
def test_a_rate_too_low_to_hold_the_peaks_is_said(rate, said):
    time = np.arange(400) / rate
    x, v = 0.02 * np.sin(2 * np.pi * time), 0.02 * 2 * np.pi * np.cos(2 * np.pi * time)
    columns = {"Time [s]": time, "Displacement [m]": x, "Velocity [m/s]": v, "Force [N]": 3000 * v + 140 + 300 * x}
    assert any("is low for" in w for w in read(columns).warnings) is said


def test_cells_beyond_the_range_are_counted():
    assert any("3 cells say that a sensor was beyond its range" in w for w in read(trace(), over=3).warnings)


@pytest.mark.parametrize(
    ("columns", "said"),
    [
        ({"Time [s]": T, "Level": X, "Force [N]": F}, "no velocity and no displacement column"),
        ({"Time [s]": T, "Displacement [m]": X}, "no force column; the columns are: 'Time"),
        ({"Time [s]": T, "Displacement [m]": X, "Load [stone]": F}, "'stone' is no unit of force that is known here"),
    ],
)
def test_what_a_curve_needs_is_asked_for(columns, said):
    with pytest.raises(ReadError, match=said):
        read(columns)


@quick
@given(st.floats(0.3, 8.0), st.floats(0.005, 0.05), st.floats(200, 3000))
def test_derived_velocity_is_that_of_a_sine(hertz, reach, rate):
    """The derivative of a sine is known in closed form; a tenth of a cycle at either end is left out."""
    if rate / hertz < 60:
        return
    time = np.arange(int(4 * rate / hertz)) / rate
    omega = 2 * np.pi * hertz
    got = derived_velocity(reach * np.sin(omega * time), 1 / rate)
    edge = len(time) // 40
    want = reach * omega * np.cos(omega * time)
    np.testing.assert_allclose(got[edge:-edge], want[edge:-edge], atol=0.02 * reach * omega)


@quick
@given(st.floats(-5, 5), st.floats(0.001, 0.1), st.integers(10, 400))
def test_derived_velocity_of_a_steady_motion_is_steady(speed, step, n):
    x = speed * step * np.arange(n)
    np.testing.assert_allclose(derived_velocity(x, step), speed, atol=1e-9 + 1e-6 * abs(speed))
    np.testing.assert_allclose(derived_velocity(x, np.full(n, step)), derived_velocity(x, step))


def test_missing_displacement_is_missing_velocity():
    x = X.copy()
    x[100:103] = np.nan
    got = derived_velocity(x, 1 / RATE)
    assert np.flatnonzero(np.isnan(got)).tolist() == [100, 101, 102]
    np.testing.assert_allclose(got[120:200], V[120:200], atol=2e-3)


@quick
@given(st.floats(0.5, 10))
def test_an_eighth_of_a_cycle_is_one(hertz):
    time = np.arange(4000) / 1000
    assert eighth_of_cycle(np.sin(2 * np.pi * hertz * time)) == pytest.approx(1000 / hertz / 8, rel=0.2, abs=1)


@pytest.mark.parametrize("x", [np.zeros(0), np.zeros(5), np.full(50, np.nan), np.zeros(50)])
def test_an_eighth_of_no_motion_is_at_least_a_sample(x):
    assert eighth_of_cycle(x) >= 1
