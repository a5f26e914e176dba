"""Turning a record round turns its signs and nothing else."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from dynoan.errors import ReadError
from dynoan.model.importing import ReadOptions
from importers.channels import peak_channels, trace_channels
from importers.channels.rest_force import CountedMotion, rest_force
from importers.channels.sign import related
from tests.importers.making import F, T, V, X, part_of, quick, trace

SIGN = st.sampled_from([1, -1])


@quick
@given(SIGN, SIGN, SIGN)
def test_a_record_turned_round_in_any_channel_is_the_same_record(force, velocity, displacement):
    columns = trace(force=force * F, velocity=velocity * V, displacement=displacement * X)
    channels = trace_channels(part_of(columns))
    for channel, values in (("force", F), ("velocity", V), ("displacement", X)):
        np.testing.assert_allclose(channels.values[channel], values, atol=1e-12)
    signs = {c: channels.decisions[c].sign for c in ("force", "velocity", "displacement")}
    assert signs == {"force": force, "velocity": velocity, "displacement": displacement}
    assert channels.decisions["time"].sign == 1


@quick
@given(SIGN, SIGN, st.sampled_from(["compression", "rebound"]))
def test_what_the_user_says_is_positive_is_that_of_the_force(force, displacement, way):
    columns = trace(force=force * F, velocity=None, displacement=displacement * X)
    channels = trace_channels(part_of(columns, ReadOptions(positive=way)))
    assert channels.decisions["force"].sign == (1 if way == "compression" else -1)
    power = np.nansum(channels.values["force"] * np.gradient(channels.values["displacement"]))
    assert power > 0  # damping takes energy out, whatever is believed of the directions
    assert f"stated: {way} is positive" in channels.decisions["force"].evidence


@pytest.mark.parametrize(("line", "sign"), [("Force: rebound positive", -1), ("Force: compression positive", 1)])
def test_what_a_line_says_wins_over_the_gas(line, sign):
    assert trace_channels(part_of(trace(), shared=(line,))).decisions["force"].sign == sign


def test_what_a_line_says_of_velocity_is_believed_of_velocity():
    channels = trace_channels(part_of(trace(), shared=("Velocity: rebound positive",)))
    assert channels.decisions["velocity"].sign == -1


def test_a_shock_s_length_grows_in_rebound():
    columns = trace(displacement=None) | {"Shock length [m]": 0.4 - X}
    channels = trace_channels(part_of(columns))
    assert channels.decisions["displacement"].sign == -1


@quick
@given(st.floats(-400, 400), st.floats(500, 5000), st.floats(-0.004, 0.004))
def test_the_force_at_rest_is_found_through_lag(gas, damping, lag):
    """Lag shifts the two turning points opposite ways, so their mean is the gas force."""
    force = damping * 0.02 * 2 * np.pi * np.cos(2 * np.pi * (T - lag)) + gas
    found = rest_force(CountedMotion(force, V, X))
    assert found.force == pytest.approx(gas, abs=1 + 0.01 * damping * 0.12)
    assert found.samples > 4


def test_the_force_at_rest_is_found_between_samples():
    t = np.arange(60) / 10 + 0.013
    v, x = np.cos(2 * np.pi * t), np.sin(2 * np.pi * t)
    assert rest_force(CountedMotion(500 * v + 140, v, x)).force == pytest.approx(140, abs=5)


def test_a_record_without_turns_has_no_force_at_rest():
    v = np.linspace(0.1, 0.2, 100)
    assert rest_force(CountedMotion(1000 * v, v)).samples == 0


@quick
@given(st.lists(st.floats(-1e3, 1e3), min_size=3, max_size=50), st.floats(0.1, 10), st.floats(-5, 5))
def test_correlation_does_not_hang_on_scale_or_offset(values, factor, offset):
    x = np.array(values)
    if np.ptp(x) < 1e-3:
        return
    assert related(x, factor * x + offset) == pytest.approx(1.0)
    assert related(x, -factor * x + offset) == pytest.approx(-1.0)


def test_correlation_of_nothing_is_nothing():
    nothing = np.full(5, np.nan)
    assert related(nothing, nothing) == 0.0
    assert related(np.ones(5), np.arange(5.0)) == 0.0


def test_force_that_does_not_follow_velocity_is_warned_of():
    warnings = trace_channels(part_of(trace(force=140 + 5000 * X))).warnings
    assert any("force hardly follows velocity" in w for w in warnings)


SPEEDS, COMP, REB = np.array([0.05, 0.1, 0.2]), np.array([200.0, 300.0, 500.0]), np.array([250.0, 400.0, 700.0])
WANT_V, WANT_F = [*SPEEDS, *-SPEEDS], [*COMP, *-REB]


@pytest.mark.parametrize(("comp", "reb", "sign"), [(1, 1, 1), (1, -1, 1), (-1, 1, -1)])
def test_columns_of_directions_are_magnitudes_or_signed(comp, reb, sign):
    columns = {"Velocity [m/s]": SPEEDS, "Comp [N]": comp * COMP, "Reb [N]": reb * REB}
    channels = peak_channels(part_of(columns))
    np.testing.assert_allclose(channels.values["velocity"], WANT_V)
    np.testing.assert_allclose(channels.values["force"], WANT_F)
    assert channels.decisions["force"].sign == sign


def signed(v=1, f=1, up=1):
    return {"Velocity [m/s]": v * np.r_[SPEEDS, -SPEEDS], "Force [N]": f * np.r_[COMP, -up * REB]}


@pytest.mark.parametrize(
    ("columns", "options", "lines"),
    [
        (signed(), None, ()),
        (signed(v=-1), None, ()),  # damping resists, so the two count opposite ways
        (signed(up=-1), None, ()),  # magnitudes
        (signed(-1, -1), ReadOptions(positive="rebound"), ()),
        (signed(-1, -1), None, ("Rebound positive",)),
        (signed(1, -1), None, ("Velocity: compression positive",)),
        (signed(-1, 1), None, ("Force: compression positive",)),
    ],
)
def test_rows_of_one_force_column_are_turned_so_that_compression_is_positive(columns, options, lines):
    channels = peak_channels(part_of(columns, options, shared=lines))
    order = np.argsort(-channels.values["velocity"])
    want = dict(zip(WANT_V, WANT_F, strict=True))
    if columns["Velocity [m/s]"][0] < 0 and options is None and not lines:
        want = {-v: -f for v, f in want.items()}  # nothing says which way: velocity leads
    got = dict(zip(channels.values["velocity"][order], channels.values["force"][order], strict=True))
    assert got == pytest.approx(want)


def test_an_assumed_direction_is_said():
    said = "nothing says which direction is positive: compression was assumed; --positive rebound turns it round"
    assert peak_channels(part_of(signed())).warnings == (said,)
    assert peak_channels(part_of(signed(), ReadOptions(positive="compression"))).warnings == ()


@pytest.mark.parametrize(
    "words", [("Compression", "Rebound"), ("C", "R"), ("Druckstufe", "Zugstufe"), ("bump", "droop")]
)
@pytest.mark.parametrize("reb", [1, -1])
def test_a_column_of_direction_words_gives_the_signs(words, reb):
    columns = {"Direction": [words[0]] * 3 + [words[1]] * 3, "Velocity [m/s]": np.r_[SPEEDS, SPEEDS],
               "Force [N]": np.r_[COMP, reb * REB]}  # fmt: skip
    channels = peak_channels(part_of(columns))
    np.testing.assert_allclose(channels.values["velocity"], WANT_V)
    np.testing.assert_allclose(channels.values["force"], WANT_F)


def test_a_row_whose_direction_is_not_said_is_left_out():
    columns = {"Direction": ["Comp", "Comp", "?", "Reb"], "Velocity [m/s]": [0.1, 0.2, 0.3, 0.1],
               "Force [N]": [1.0, 2, 3, 4]}  # fmt: skip
    np.testing.assert_allclose(peak_channels(part_of(columns)).values["velocity"], [0.1, 0.2, -0.1])


@pytest.mark.parametrize(
    ("columns", "said"),
    [
        ({"Velocity [m/s]": [0.1], "Comp [N]": [1.0]}, "1 rows hold a velocity and a force from line 2; a peak table"),
        ({"Velocity [m/s]": SPEEDS, "Comp [kN]": COMP * 10, "Reb [kN]": REB}, "force reaches .* give --unit force="),
        ({"Velocity [m/s]": SPEEDS, "Comp [N]": [5.0] * 3, "Reb [N]": [5.0] * 3}, "force is 5 N in every row: a stuck"),
        ({"Velocity [m/s]": SPEEDS, "Comp": COMP, "Reb": REB}, "force has no unit and nothing tells it"),
        ({"Velocity [m/s]": SPEEDS, "Direction": ["up", "down", "up"], "Force [N]": COMP}, "'up' names no direction"),
    ],
)
def test_a_peak_table_that_cannot_be_is_refused(columns, said):
    with pytest.raises(ReadError, match=said):
        peak_channels(part_of(columns))


def test_several_runs_in_one_peak_table_are_said():
    columns = {"Velocity [m/s]": np.tile(SPEEDS, 3), "Comp [N]": np.tile(COMP, 3), "Reb [N]": np.tile(REB, 3)}
    assert "speeds repeat: several runs were taken together" in peak_channels(part_of(columns)).warnings


def test_the_fastest_row_tells_the_sign_since_gas_may_turn_the_slow_ones():
    columns = {"Velocity [m/s]": SPEEDS, "Comp [N]": COMP, "Reb [N]": [30.0, -100.0, -500.0]}
    np.testing.assert_allclose(peak_channels(part_of(columns)).values["force"][3:], [30, -100, -500])
