"""The same motion in any units is one answer in SI; units are asked for where nothing tells them."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from dynoan.errors import ReadError
from dynoan.model.importing import ReadOptions
from dynoan.units import INCH, POUND_FORCE
from importers.channels import peak_channels, trace_channels
from importers.channels.agreement import Stretch, agreement
from importers.channels.probe import Probe
from importers.channels.scaling import scale_channels
from importers.channels.units import unit_of
from importers.header import describe_column
from importers.words.unit_text import UnitScale
from tests.importers.making import RATE, F, T, V, X, part_of, quick, trace

IN = {"m": 1.0, "mm": 1e-3, "in": INCH, "cm": 0.01}
PER_S = {f"{unit}/s": factor for unit, factor in IN.items()}
FORCES = {"N": 1.0, "kN": 1e3, "lbf": POUND_FORCE, "daN": 10.0}
TIMES = {"s": 1.0, "ms": 1e-3, "µs": 1e-6, "min": 60.0}


def written(x="m", v="m/s", f="N", t="s", *, shown=("x", "v", "f", "t")):
    """The one motion of these tests in other units, which the names of the columns state or not."""
    units = {"t": ("Time", T / TIMES[t], t), "x": ("Displacement", X / IN[x], x), "v": ("Velocity", V / PER_S[v], v),
             "f": ("Force", F / FORCES[f], f)}  # fmt: skip
    return {f"{name} [{unit}]" if key in shown else name: values for key, (name, values, unit) in units.items()}


def assert_the_motion(channels):
    np.testing.assert_allclose(channels.values["displacement"], X, atol=1e-9)
    np.testing.assert_allclose(channels.values["velocity"], V, atol=1e-9)
    np.testing.assert_allclose(channels.values["force"], F, atol=1e-6)
    assert channels.rate == pytest.approx(RATE)


@quick
@given(
    st.sampled_from(sorted(IN)),
    st.sampled_from(sorted(PER_S)),
    st.sampled_from(sorted(FORCES)),
    st.sampled_from(sorted(TIMES)),
)
def test_the_same_motion_in_any_units_is_one_answer_in_si(x, v, f, t):
    channels = trace_channels(part_of(written(x, v, f, t)))
    assert_the_motion(channels)
    assert {c: d.unit for c, d in channels.decisions.items()} == {
        "time": t, "displacement": x, "velocity": v, "force": f}  # fmt: skip


@pytest.mark.parametrize("x", sorted(IN))
def test_the_one_unit_of_displacement_that_fits_the_velocity_is_found(x):
    channels = trace_channels(part_of(written(x=x, shown="vft")))
    assert_the_motion(channels)
    assert channels.decisions["displacement"].unit == x
    assert "no unit stated; only" in channels.decisions["displacement"].evidence


@pytest.mark.parametrize("v", sorted(PER_S))
def test_the_one_unit_of_velocity_that_fits_the_displacement_is_found(v):
    assert_the_motion(trace_channels(part_of(written(v=v, shown="xft"))))


@pytest.mark.parametrize("t", sorted(TIMES))
def test_the_one_unit_of_time_that_fits_the_motion_is_found(t):
    assert_the_motion(trace_channels(part_of(written(t=t, shown="xvf"))))


@pytest.mark.parametrize("t", ["s", "ms", "µs"])
def test_the_unit_of_time_is_found_by_what_a_rig_can_reach(t):
    columns = {name: values for name, values in written(t=t, shown="xf").items() if "Velocity" not in name}
    channels = trace_channels(part_of(columns))
    assert channels.rate == pytest.approx(RATE)
    assert "that a rig can make" in channels.decisions["time"].evidence


def test_a_force_without_a_unit_is_asked_for():
    with pytest.raises(
        ReadError, match="column 'Force': force has no unit and nothing tells it; give --unit force=UNIT"
    ):
        trace_channels(part_of(written(shown="xvt")))


def test_a_temperature_without_a_unit_is_left_out_and_said():
    channels = trace_channels(part_of(trace() | {"Temp": 20 + T}))
    assert "temperature" not in channels.values
    assert any("temperature has no unit and was left out" in w for w in channels.warnings)


@pytest.mark.parametrize(("wrong", "shown"), [("mm", "1000"), ("in", "39.37"), ("cm", "100")])
def test_a_unit_that_is_wrong_by_a_unit_s_factor_is_refused(wrong, shown):
    columns = trace(displacement=None) | {f"Displacement [{wrong}]": X}
    with pytest.raises(ReadError, match=r"times as far as velocity .* says, so one unit is wrong"):
        trace_channels(part_of(columns))


@pytest.mark.parametrize(("share", "said"), [(1.02, False), (1.05, True), (0.9, True)])
def test_a_velocity_that_is_a_little_wrong_is_warned_of(share, said):
    channels = trace_channels(part_of(trace(velocity=V / share)))
    assert any("velocity disagrees with displacement" in w for w in channels.warnings) is said


def test_channels_of_two_runs_are_warned_of():
    other = np.random.default_rng(3).normal(size=len(T)) * 0.1
    warnings = trace_channels(part_of(trace(velocity=other))).warnings
    assert any("displacement does not follow the recorded velocity" in w for w in warnings)


def found(name: str, options=None, **more):
    part = part_of(trace(), options, **more)
    return unit_of(part, "force", describe_column(3, name))


def test_the_user_s_unit_wins_and_is_said_where_the_file_says_another():
    told = ReadOptions(units={"force": "lbf"})
    assert found("Force [N]", told).warning == "force is taken in lbf as told, though the file says N"
    assert found("Force [lbs]", told).unit == "lbf"
    assert found("Force", told) == ("lbf", "stated by the user", "")


def test_a_column_s_unit_wins_over_the_lines_above():
    assert found("Force [N]", shared=("Units: kN, m, s",)).unit == "N"
    assert found("Force", shared=("Units: kN, m, s",)) == ("kN", "stated in the lines above", "")
    assert found("Force [stone]", shared=("Units: kN, m, s",)).unit == "kN"
    assert found("Force").unit == ""


@pytest.mark.parametrize(
    ("name", "options", "said"),
    [("Force [stone]", None, "'stone' is no unit of force that is known here"),
     ("Force [N]", ReadOptions(units={"force": "mm"}), "--unit force=mm: 'mm' is no unit of force")],
)  # fmt: skip
def test_a_unit_that_is_none_is_refused(name, options, said):
    with pytest.raises(ReadError, match=said):
        found(name, options)


@quick
@given(st.sampled_from(sorted(PER_S)), st.sampled_from(sorted(FORCES)))
def test_a_peak_table_in_any_units_is_one_answer_in_si(v, f):
    speeds, force = np.array([0.05, 0.1, 0.2]), np.array([200.0, 350.0, 600.0])
    columns = {
        f"Velocity [{v}]": speeds / PER_S[v],
        f"Comp [{f}]": force / FORCES[f],
        f"Reb [{f}]": 2 * force / FORCES[f],
    }
    channels = peak_channels(part_of(columns))
    np.testing.assert_allclose(channels.values["velocity"], [*speeds, *-speeds])
    np.testing.assert_allclose(channels.values["force"], [*force, *(-2 * force)])


@quick
@given(st.floats(1e-4, 1e4), st.floats(1e-4, 1e4), st.sampled_from([1, -1]))
def test_agreement_scales_with_the_units_and_turns_with_the_sign(x_scale, v_scale, sign):
    got = agreement([Stretch(sign * X * x_scale, V * v_scale, 1 / RATE)])
    assert got.scale == pytest.approx(sign * x_scale / v_scale, rel=2e-3)
    assert got.fit == pytest.approx(sign, abs=1e-3)


def test_agreement_of_a_shock_at_rest_is_none():
    rest = agreement([Stretch(np.zeros(100), np.zeros(100), 0.01)])
    assert (np.isnan(rest.scale), rest.fit) == (True, 0.0)


@quick
@given(st.integers(1, 300_000))
def test_a_probe_is_stretches_of_the_record(n):
    x = np.arange(float(n))
    probe = Probe.of({"force": x})
    looked = probe.joined("force")
    assert len(looked) <= max(len(x), 1 << 16)
    assert set(looked) <= set(x)
    assert (looked[0], looked[-1]) == (x[0], x[-1])
    assert all((np.diff(s["force"]) == 1).all() for s in probe.stretches)


def test_a_scaled_probe_holds_only_what_has_a_scale():
    probe = Probe.of({"time": T, "force": F}).scaled({"force": UnitScale(2.0, 1.0)})
    assert probe.has("force")
    assert not probe.has("time")
    np.testing.assert_allclose(probe.joined("force"), 2 * F + 1)


def test_scaling_says_what_displacement_and_velocity_agree_on():
    part = part_of(trace())
    scaled = scale_channels(part, {c: part.values[col.index] for c, col in part.roles.channels.items()}, None)
    assert scaled.agreed.scale == pytest.approx(1.0, rel=1e-3)
    assert (scaled.warnings, set(scaled.scales)) == ((), {"time", "displacement", "velocity", "force"})
