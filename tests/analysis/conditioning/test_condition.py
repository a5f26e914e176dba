"""Conditioning on made-up records whose gas, friction, lag and motion are known exactly."""

from __future__ import annotations

from dataclasses import replace
from functools import cache

import numpy as np
import pytest
from numpy.testing import assert_allclose

from dynoan.analysis.conditioning.assumptions import POLYTROPIC
from dynoan.analysis.conditioning.channels.blocks import cut, cycle_starts, middle_of
from dynoan.analysis.conditioning.channels.crank import crank, crank_at
from dynoan.analysis.conditioning.channels.record import prepare
from dynoan.analysis.conditioning.channels.slopes import local_slope, slope_noise
from dynoan.analysis.conditioning.channels.standing import pauses
from dynoan.analysis.conditioning.channels.velocity import find_motion
from dynoan.analysis.conditioning.condition import condition
from dynoan.analysis.conditioning.forces.effects import gas_law
from dynoan.analysis.conditioning.forces.shape import speed_edges
from dynoan.analysis.conditioning.forces.splines import design, spline_at
from dynoan.analysis.gas import gas_force, gas_rate
from dynoan.errors import FitError
from dynoan.model.sweep import Source, Sweep
from fixtures import rig
from tests.analysis.conditioning_records import RUN, SOFT, STIFF, driven, exact_trace, recorded, table, trace


@pytest.fixture(scope="module")
def staircase():
    return recorded(SOFT, 21, replace(RUN, zero=9.0, delay=7e-4), velocity=True)


@pytest.fixture(scope="module")
def found(staircase):
    return condition(staircase)


class TestStaircase:
    def test_blocks_are_the_speeds_that_were_driven(self, staircase):
        blocks = [b for b in cut(staircase.channels["displacement"]) if b.kind == "steady"]
        periods = [np.pi * RUN.stroke / speed * RUN.rate for speed in RUN.peak_speeds]
        assert_allclose([b.period for b in blocks], periods, rtol=0.01)

    def test_gas_and_zero_together(self, found):
        truth = SOFT.gas(np.array([RUN.centre]))[0] + 9.0
        assert found.gas_force == pytest.approx(truth, abs=2.0)

    def test_friction(self, found):
        assert found.friction == pytest.approx(SOFT.friction, abs=1.5)

    def test_delay_and_compliance_are_told_apart(self, found):
        # The rig integrates by steps of its own, which may move the force by a part of a sample.
        assert found.model.delay == pytest.approx(7e-4, abs=4e-4)
        assert 1 / found.model.give.value == pytest.approx(SOFT.stiffness, rel=0.15)

    def test_gas_force_over_travel(self, found):
        x = RUN.centre + np.array([-0.02, 0.02])
        slope = np.diff(SOFT.gas(x))[0] / 0.04
        assert found.model.slope.value == pytest.approx(slope, rel=0.1)

    def test_nothing_is_taken_out_without_a_line(self, found):
        said = "\n".join(found.findings)
        for word in ("samples", "velocity", "gas force", "over travel", "friction", "ms late", "give like a spring"):
            assert word in said

    def test_standing_still_is_left_out(self, staircase, found):
        record = prepare(staircase)
        v = find_motion(record, cut(record.displacement)).velocity
        still = pauses(v, record.displacement, record.dt)
        assert 0.8 * 5 * RUN.pause < still.sum() / RUN.rate < 1.2 * 5 * RUN.pause
        assert found.rows.count.sum() < (~still).sum()


class TestVelocity:
    def test_crank_motion_is_recovered_with_its_harmonics(self):
        t = np.linspace(-1, 1, 700)
        x = 0.02 * np.cos(9.0 * t) + 0.001 * np.sin(18.0 * t) + 0.004
        omega, amplitudes, rest = crank(t, x, 9.1, 4)
        assert omega == pytest.approx(9.0, rel=1e-7)
        assert rest < 1e-9
        assert_allclose(crank_at(t, omega, amplitudes)[1], -0.18 * np.sin(9 * t) + 0.018 * np.cos(18 * t), atol=1e-7)

    def test_local_slope_is_exact_for_a_cubic_up_to_the_ends(self):
        i = np.arange(40.0)
        assert_allclose(local_slope(0.01 * i**3 - i**2, 9), 0.03 * i**2 - 2 * i, atol=1e-9)

    def test_local_slope_is_that_of_savitzky_and_golay(self):
        signal = pytest.importorskip("scipy.signal")
        y = np.random.default_rng(4).normal(size=200)
        theirs = signal.savgol_filter(y, 11, 3, deriv=1)
        assert_allclose(local_slope(y, 11), theirs, atol=1e-12)

    def test_derived_velocity_does_not_eat_the_peaks(self, staircase):
        channels = {k: v for k, v in staircase.channels.items() if k != "velocity"}
        record = prepare(replace(staircase, channels=channels))
        motion = find_motion(record, cut(record.displacement))
        settled = motion.settled
        error = (motion.velocity - staircase.channels["velocity"])[settled]
        assert np.sqrt(np.mean(error**2)) < 1e-3 * 0.65
        reach = np.ptp(staircase.channels["velocity"][settled])
        assert np.ptp(motion.velocity[settled]) == pytest.approx(reach, rel=2e-3)

    @pytest.mark.parametrize(("factor", "says"), [(-1.0, "opposite sign"), (39.37, "check the unit")])
    def test_recorded_velocity_is_held_against_displacement(self, staircase, found, factor, says):
        channels = dict(staircase.channels)
        channels["velocity"] = factor * channels["velocity"]
        other = condition(replace(staircase, channels=channels))
        assert any(says in w for w in other.warnings)
        assert_allclose(other.force, found.force, atol=1e-6)

    def test_delay_of_a_recorded_velocity_is_found(self, staircase):
        channels = dict(staircase.channels)
        channels["velocity"] = np.roll(channels["velocity"], 2)
        said = condition(replace(staircase, channels=channels)).findings
        (line,) = (line for line in said if line.startswith("recorded velocity"))
        assert float(line.split()[-3]) == pytest.approx(2e3 / RUN.rate, abs=0.05)

    def test_without_time_and_velocity_the_rate_is_asked_for(self, staircase):
        channels = {k: staircase.channels[k] for k in ("displacement", "force")}
        with pytest.raises(FitError, match="state the sample rate"):
            condition(replace(staircase, channels=channels))
        stated = condition(replace(staircase, channels=channels, rate=RUN.rate))
        assert stated.gas_force == pytest.approx(SOFT.gas(np.array([RUN.centre]))[0] + 9.0, abs=2.0)


class TestOtherMotions:
    def test_random_motion(self):
        rng = np.random.default_rng(1)
        f = np.fft.rfftfreq(30_000, 1e-3)
        shape = np.exp(-(((f - 2) / 1.5) ** 2)) * (f > 0.3)
        v = np.fft.irfft(shape * np.exp(2j * np.pi * rng.random(len(f))), 30_000)
        done = condition(driven(0.16 * v / v.std(), 1e-3, STIFF, noise=8.0))
        assert done.friction == pytest.approx(STIFF.friction, abs=3.0)
        assert any("the slope of displacement" in line for line in done.findings)

    def test_half_a_cycle_says_what_cannot_be_told(self):
        t = np.arange(260) * 1e-3
        done = condition(driven(0.3 * np.sin(12 * t), 1e-3, SOFT))
        assert np.isnan(done.friction)
        assert any("one direction alone" in line for line in done.findings)

    def test_one_speed_says_that_the_lags_look_alike(self):
        t = np.arange(8000) * 1e-3
        done = condition(driven(0.25 * np.sin(10 * t), 1e-3, SOFT))
        assert any("one speed alone" in line for line in done.findings)

    @pytest.mark.thorough
    def test_a_shock_without_friction_gas_or_lag_is_given_none(self):
        done = condition(exact_trace(3))
        assert done.friction - 2 * done.friction_sd < 1.0
        assert abs(done.offset) < 3.0
        assert done.friction < 5.0
        assert abs(done.model.delay) < 1e-4

    def test_temperature_drift_is_found_said_and_taken_out(self):
        speeds = (0.06, 0.15, 0.4, 0.15, 0.06, 0.4)
        run = replace(RUN, peak_speeds=speeds, heating=1.0, temperature=35.0)
        done = condition(recorded(replace(SOFT, fade_per_k=0.004), 5, run, temperature=True))
        assert done.model.drift.value == pytest.approx(-0.004, abs=0.0008)
        assert any("per 10 °C" in w for w in done.warnings)


class TestDamagedRecords:
    def test_spikes_and_missing_samples_do_little(self, staircase, found):
        channels = dict(staircase.channels)
        force = channels["force"].copy()
        force[::701] += 4000.0
        force[9000:9030] = np.nan
        done = condition(replace(staircase, channels={**channels, "force": force}))
        assert any("30 samples with a missing value" in w for w in done.warnings)
        assert any("lone samples of force" in line for line in done.findings)
        assert done.gas_force == pytest.approx(found.gas_force, abs=1.0)
        assert done.friction == pytest.approx(found.friction, abs=1.0)

    @pytest.mark.thorough
    def test_coarse_force_channel_is_said(self, staircase, found):
        force = np.round(staircase.channels["force"] / 25) * 25
        done = condition(replace(staircase, channels={**staircase.channels, "force": force}))
        assert any("force resolution 25 N" in line for line in done.findings)
        assert done.gas_force == pytest.approx(found.gas_force, abs=5.0)

    def test_clipping_is_said(self, staircase):
        force = np.clip(staircase.channels["force"], -600, 500)
        done = condition(replace(staircase, channels={**staircase.channels, "force": force}))
        assert sum("clip" in w for w in done.warnings) == 2

    def test_signs_that_do_not_go_together_are_said(self, staircase):
        done = condition(replace(staircase, channels={**staircase.channels, "force": -staircase.channels["force"]}))
        assert any("work against damping" in w for w in done.warnings)

    @pytest.mark.parametrize(
        ("channels", "says"),
        [
            ({"time": np.arange(50.0), "displacement": np.arange(50.0), "force": np.full(50, 3.0)}, "stuck at 3 N"),
            ({"time": np.arange(50.0), "displacement": np.full(50, 0.1), "force": np.arange(50.0)}, "did not move"),
            ({"time": np.arange(9.0), "displacement": np.arange(9.0), "force": np.arange(9.0)}, "too few"),
            ({"time": np.arange(50.0), "force": np.arange(50.0)}, "no speed"),
        ],
    )
    def test_records_that_carry_nothing_are_refused_in_one_line(self, channels, says):
        with pytest.raises(FitError, match=says) as caught:
            condition(Sweep("trace", channels, Source("bad.csv", "0")))
        assert str(caught.value).startswith("bad.csv: ")
        assert "\n" not in str(caught.value)


class TestPeakTables:
    def test_gas_left_in_is_found_where_low_speeds_show_it(self):
        done = condition(table(1, truth=lambda v: 3000.0 * v, scatter=0.004, gas=150.0, removed=None))
        assert done.gas_force == pytest.approx(150.0, abs=15.0)
        assert any("taken out" in line for line in done.findings)

    def test_gas_stated_as_removed_is_left_alone(self):
        done = condition(table(1))
        assert abs(done.offset) < 0.01 * np.ptp(done.force)
        assert np.isnan(done.gas_force)

    def test_one_direction_alone_cannot_tell(self):
        whole = table(1, removed=None)
        half = {k: v[:12] for k, v in whole.channels.items()}
        done = condition(replace(whole, channels=half))
        assert done.offset_sd > 10.0

    def test_two_rows_are_too_few(self):
        with pytest.raises(FitError, match="too few"):
            condition(Sweep("peaks", {"velocity": np.array([0.1, -0.1]), "force": np.ones(2)}, Source("t", "0")))


class TestParts:
    def test_hysteresis_does_not_take_noise_for_cycles(self):
        t = np.arange(4000) / 1000
        x = 0.02 * np.sin(2 * np.pi * t) + np.random.default_rng(0).normal(0, 4e-4, len(t))
        assert cycle_starts(x, middle_of(x)) == pytest.approx([0, 1000, 2000, 3000, 4000], abs=10)

    def test_splines_reproduce_a_parabola_through_zero(self):
        u = np.linspace(0.001, 0.5, 400)
        edges = speed_edges(u)
        lines = design(u, (edges, edges))
        y = 100 * u + 900 * u**2
        gram, load = lines.normal(y, np.ones(len(u)))
        n = len(edges)
        w = np.linalg.lstsq(gram[:n, :n], load[:n], rcond=None)[0]
        value, slope = spline_at(u, edges, w)
        assert_allclose(value, y, atol=1e-6)
        assert_allclose(slope, 100 + 1800 * u, rtol=1e-6)

    def test_the_design_knows_the_curve_of_both_directions(self):
        v = np.linspace(-0.4, 0.4, 301)
        edges = (np.array([0, 0.1, 0.3, 0.5]), np.array([0, 0.2, 0.5]))
        w = np.arange(1.0, 8.0)
        value, slope = design(v, edges).curve(w)
        up, rise = spline_at(np.maximum(v, 0), edges[0], w[:4])
        down, fall = spline_at(np.maximum(-v, 0), edges[1], w[4:])
        assert_allclose(value, np.where(v > 0, up, -down), atol=1e-12)
        assert_allclose(slope[v != 0], np.where(v > 0, rise, fall)[v != 0], atol=1e-12)

    def test_sparse_sums_are_those_of_the_dense_matrix(self):
        rng = np.random.default_rng(2)
        v, y, w = rng.uniform(-0.5, 0.5, 300), rng.normal(size=300), rng.uniform(0.5, 2, 300)
        edges = (np.array([0, 0.1, 0.3, 0.5]), np.array([0, 0.2, 0.5]))
        lines = replace(design(v, edges), effects=np.array([np.ones(300), v**3]))
        p = lines.size + 2
        dense = np.column_stack([lines.times(unit) for unit in np.eye(p)])
        gram, load = lines.normal(y, w)
        assert_allclose(gram, dense.T @ (w[:, None] * dense), atol=1e-9)
        assert_allclose(load, dense.T @ (w * y), atol=1e-9)

    def test_uneven_time_is_put_on_an_even_grid(self):
        sweep = driven(0.2 * np.sin(10 * np.arange(4000) * 1e-3), 1e-3, SOFT)
        keep = np.random.default_rng(3).random(4000) > 0.2
        keep[1000:1060] = False
        record = prepare(replace(sweep, channels={k: v[keep] for k, v in sweep.channels.items()}))
        assert record.dt == pytest.approx(1e-3)
        assert any("uneven" in line for line in record.findings)
        assert (~record.good).sum() > 50


@cache
def conditioned(delay: float, zero: float = 0.0):
    return condition(recorded(STIFF, 4, replace(RUN, delay=delay, zero=zero)))


@pytest.mark.thorough
def test_delay_shifts_with_the_record():
    """Scaling law: a force channel later by 0.5 ms is found later by 0.5 ms, all else the same."""
    early, late = (conditioned(delay=d) for d in (0.0, 5e-4))
    assert late.model.delay - early.model.delay == pytest.approx(5e-4, abs=1e-4)
    assert late.gas_force == pytest.approx(early.gas_force, abs=1.0)


def test_zero_error_of_the_load_cell_goes_into_the_offset_alone():
    plain, shifted = (conditioned(delay=0.0, zero=z) for z in (0.0, 40.0))
    assert shifted.offset - plain.offset == pytest.approx(40.0, abs=0.5)
    assert_allclose(shifted.force, plain.force, atol=1.0)


@pytest.mark.thorough
def test_negative_offset_is_no_gas():
    done = condition(recorded(replace(SOFT, gas_pressure=0.0), 4, replace(RUN, zero=-60.0)))
    assert any("gas cannot pull" in w for w in done.warnings)


def test_a_straight_damper_without_noise():
    t = np.arange(6000) * 1e-3
    done = condition(trace(t, 0.02 * np.sin(8 * t), 900 * 0.16 * np.cos(8 * t)))
    # One speed alone: a little friction in place of damping is left possible, and stands in the band.
    v = np.array([0.1, -0.1])
    assert_allclose(done.model.damping(v), [90.0, -90.0], rtol=0.015)
    assert np.all(np.abs(done.model.damping(v) - [90.0, -90.0]) < 2.0 * done.open.damping(v).std(axis=0))


class TestGasColumn:
    """Gas pushes by ``p V^n = const`` (check value h11, exponents 1.0 to 1.4); a short column shows its bend."""

    @pytest.mark.parametrize(
        ("volume", "stroke"), [(3e-5, 0.05), pytest.param(2.4e-5, 0.07, marks=pytest.mark.thorough)]
    )
    def test_a_short_column_is_found_by_its_force(self, volume, stroke):
        run = replace(RUN, stroke=stroke)
        shock = replace(SOFT, gas_volume=volume)
        model = condition(recorded(shock, 1, run)).model
        assert model is not None
        slope = np.diff(shock.gas(run.centre + np.array([-1e-3, 1e-3])))[0] / 2e-3
        assert model.slope.value == pytest.approx(slope, rel=0.1)
        assert model.offset.value == pytest.approx(shock.gas(np.array([run.centre]))[0], abs=5.0)

    def test_the_law_is_that_of_a_polytropic_gas(self):
        rod, volume, travel = 0.014, 3e-5, 0.06
        column = volume / (np.pi / 4 * rod**2) - travel
        z = np.linspace(-0.05, 0.05, 11)
        exact = gas_force(charge=1e6, rod=rod, volume=volume, travel=z + travel, exponent=POLYTROPIC)
        middle = gas_force(charge=1e6, rod=rod, volume=volume, travel=travel, exponent=POLYTROPIC)
        slope = gas_rate(charge=1e6, rod=rod, volume=volume, travel=travel, exponent=POLYTROPIC)
        assert_allclose(middle + slope * gas_law(z, column), exact, rtol=1e-12)


class TestNoisyForce:
    """The rate of force corrects that force, so its noise must not be in both: delay and compliance would be off."""

    @pytest.mark.parametrize(("shock", "delay"), [
        (SOFT, 1e-3), pytest.param(STIFF, 0.0, marks=pytest.mark.thorough),
        pytest.param(SOFT, 0.0, marks=pytest.mark.thorough), pytest.param(STIFF, 1e-3, marks=pytest.mark.thorough),
    ])  # fmt: skip
    def test_delay_compliance_and_friction_hold_against_one_percent(self, shock, delay):
        reach = np.abs(shock.damping(np.array([-1.0, 1.0]) * max(RUN.peak_speeds), {})).max()
        made = rig.record(shock, {}, replace(RUN, noise=0.01 * reach, delay=delay), 5)
        model = condition(trace(made.time, made.displacement, made.force)).model
        assert model is not None
        assert model.delay == pytest.approx(delay, abs=3e-4)
        assert model.give.value * shock.stiffness == pytest.approx(1.0, abs=0.15)
        # Under a bleed that starts flat and this noise friction is told to half of it: its stated error must say so.
        assert abs(model.friction.value - shock.friction) < 2.0 * model.friction.sd < 0.5 * shock.friction

    def test_the_noise_of_a_local_slope_is_what_it_is_said_to_be(self):
        noise = np.random.default_rng(0).normal(size=200_000)
        for window in (7, 25):
            slope = local_slope(noise, window)[window:-window]
            assert float(np.std(slope)) == pytest.approx(slope_noise(window), rel=0.02)


@pytest.mark.thorough
def test_a_few_samples_between_those_that_are_missing_are_no_fault():
    """Slow and fast cycles at 4 kHz: of the slow ones thirty samples are averaged to a row, more than ten make one."""
    speeds = (0.02, 0.2)
    turning = [v / 0.025 for v in speeds]
    time = [np.arange(0.0, 3 * 2 * np.pi / w, 1 / 4000) for w in turning]
    v = np.concatenate([0.025 * w * np.cos(w * t) for w, t in zip(turning, time, strict=True)])
    x = np.concatenate([0.025 * np.sin(w * t) for w, t in zip(turning, time, strict=True)])
    force = 3000 * v + 120 + 12 * np.tanh(v / 0.001)
    force[20000:20400] = np.nan
    force[20200:20210] = 3000 * v[20200:20210] + 132
    found = condition(trace(np.arange(len(x)) / 4000, x, force))
    assert found.friction == pytest.approx(12, abs=4)
