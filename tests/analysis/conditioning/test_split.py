"""Friction and damping told apart where a record shows both: exact broken lines, with and without Coulomb friction."""

from __future__ import annotations

import tracemalloc
from dataclasses import replace

import numpy as np
import pytest
from numpy.testing import assert_allclose, assert_array_equal

from dynoan.analysis.conditioning.assumptions import LEAST_WARMING
from dynoan.analysis.conditioning.condition import _read, condition
from dynoan.analysis.conditioning.forces.columns import Columns
from dynoan.analysis.conditioning.forces.state import Lag, State
from dynoan.analysis.conditioning.samples.rubbing import LAWS, Rubbed, frictions, steady
from dynoan.analysis.fitting.fit import fit
from dynoan.model.arrays import FloatArray
from dynoan.model.sweep import Sweep
from tests.analysis.band_records import LINES, Line
from tests.analysis.conditioning_records import trace
from tests.often import often
from tests.worlds.rows import draw
from tests.worlds.with_dynoan import sweep_of

TWO = LINES["two knees, the second faint"]


def staircase(line: Line, friction: float, noise: float = 0.0) -> Sweep:
    """Six cycles or more at each of four speeds, friction that jumps at reversal, no gas and no lag."""
    stroke, rate, parts = 0.05, 1000.0, []
    for share in (0.12, 0.3, 0.6, 1.0):
        omega = share * line.top / (stroke / 2)
        cycles = max(6, int(5.0 * omega / (2 * np.pi)))
        t = np.arange(int(cycles * 2 * np.pi / omega * rate)) / rate
        parts.append((-stroke / 2 * np.cos(omega * t), share * line.top * np.sin(omega * t)))
    x, v = (np.concatenate(part) for part in zip(*parts, strict=True))
    error = np.random.default_rng(3).normal(0, 1, len(v)) * noise
    return trace(np.arange(len(x)) / rate, x, line(v) + friction * np.sign(v) + error)


@pytest.mark.parametrize("friction", [0.0, 11.0])
def test_exact_broken_lines_are_given_the_friction_they_have_and_no_knee_more(friction):
    curve = fit(staircase(TWO, friction))
    # A little friction is always left possible, and stands in the error.
    assert curve.friction == pytest.approx(friction, abs=max(1.2, 2.0 * curve.friction_sd))
    assert curve.friction_sd < 2.0
    for side in (curve.compression, curve.rebound):
        assert_allclose([knee.velocity for knee in side.knees], TWO.knees, rtol=0.01)
    v = np.linspace(0.01, 0.95, 40) * TWO.top
    v = np.concatenate([-v[::-1], v])
    reach = np.ptp(TWO(v))
    assert np.sqrt(np.mean((curve(v) - TWO(v)) ** 2)) < 1e-3 * reach
    low, high = curve.band(v)
    assert np.median(0.5 * (high - low)) < 2.7e-3 * reach


def test_friction_that_jumps_is_told_from_damping_under_noise():
    line = LINES["one faint knee, soft"]
    found = condition(staircase(line, 11.0, line.noise))
    assert found.friction == pytest.approx(11.0, abs=1.5)
    assert found.friction_sd < 1.7


def test_a_lag_of_part_of_a_sample_does_not_smooth_noise():
    """Straight lines between samples would take up to half of its power away: any lag would fit better than none."""
    sweep = staircase(TWO, 0.0, 8.0)
    record = condition(sweep).rows
    columns = Columns(record)
    state = [State(Lag(lag)) for lag in (0.0, 0.5 * columns.step)]
    rough = [np.std(np.diff(columns.at(s, 0.01, shut=(), early=False).y, 3)) for s in state]
    assert rough[1] == pytest.approx(rough[0], rel=0.03)


def test_some_rows_of_a_record_that_hardly_warms_are_fitted_with_the_same_effects():
    record = _read(staircase(TWO, 0.0, 8.0)).rows
    warm = np.zeros(len(record))
    warm[1] = LEAST_WARMING
    columns = Columns(replace(record, temperature=warm))
    first = columns.at(State(), 0.01, shut=(), early=False)
    state = State(x=np.zeros(columns.size + len(first.effects)), steps=columns.guess)
    whole, few = (one.at(state, 0.01, shut=(), early=False).effects for one in (columns, columns.few(2)))
    names = [e.name for e in whole], [e.name for e in few]
    assert names[0] == names[1]
    assert "drift" in names[0]


class TestLaws:
    """Against the same laws integrated in steps a hundred times finer."""

    FINE, STEP = 1e-5, 100

    def motion(self):
        t = np.arange(0, 2.0, self.FINE)
        return 0.05 * np.sin(9.0 * t + 0.4)

    @pytest.mark.parametrize("law", [one for one in LAWS if one.what == "slide"], ids=lambda law: law.name)
    def test_friction_over_a_travel_after_reversal(self, law):
        """Dahl's own equation, dF/dx = (1 − F·sign v)/length (1976), by Euler steps."""
        v = self.motion()
        force, bent = np.empty(len(v)), 1.0
        for i, one in enumerate(v):
            force[i] = bent
            bent += (1.0 - bent * np.sign(one)) * one * self.FINE / law.scale
        coarse = frictions(v[:: self.STEP], self.FINE * self.STEP)[:, LAWS.index(law)]
        assert_allclose(coarse, force[:: self.STEP], atol=0.03)

    @pytest.mark.parametrize("what", ["turn", "breakaway"])
    def test_what_turns_over_a_speed_is_averaged_over_what_velocity_may_be_off_by(self, what):
        """Against the mean over ten thousand velocities drawn evenly from the width."""
        law = next(one for one in LAWS if one.what == what)
        v, off = np.array([0.0, 0.001, -0.003, 0.02]), 0.004
        found = frictions(v, 1e-3, np.full(4, off))[:, LAWS.index(law)]
        drawn = v + off * np.random.default_rng(5).uniform(-1, 1, (10_000, 1))
        assert_allclose(found, law.sliding(drawn).mean(axis=0), atol=0.04)
        assert_allclose(frictions(v, 1e-3, np.zeros(4)), frictions(v, 1e-3))

    def test_the_friction_of_some_rows_is_that_of_all_and_takes_no_memory_for_the_others(self):
        v = np.random.default_rng(3).normal(0.0, 0.1, 200_000).cumsum() * 1e-2
        off, some = np.full(len(v), 1e-4), np.arange(50, 100_000, 997)
        tracemalloc.start()
        found = Rubbed.along(v, 1e-3, off).rows(some, 2)
        most = tracemalloc.get_traced_memory()[1]
        tracemalloc.stop()
        of_all = frictions(v, 1e-3, off)
        assert_array_equal(found, of_all.reshape(100_000, 2, len(LAWS)).mean(axis=1)[some])
        assert most < 0.5 * of_all.nbytes

    def test_long_sliding_is_what_each_law_comes_to(self):
        v = np.full(4000, 0.02)
        assert_allclose(frictions(v, 1e-3)[-1], steady([law.name for law in LAWS], v[:1])[:, 0], atol=1e-9)

    def test_breakaway_falls_off_with_speed(self):
        """exp(−(v/s)²): 1/e of it is left at its speed (Stribeck's curve in the form of Canudas de Wit, 1995)."""
        for law in (one for one in LAWS if one.travel):
            assert law.sliding(np.array([law.scale])) == pytest.approx(np.exp(-1.0))

    @pytest.mark.parametrize("law", often(2, [one for one in LAWS if one.what == "flex"]), ids=lambda law: law.name)
    def test_bent_bristles_resist_by_the_rate_at_which_they_bend(self, law):
        """The time derivative of Dahl's force, from the same friction worked out in much finer steps."""
        v = self.motion()
        bent = frictions(v, self.FINE)[:, [one.name for one in LAWS].index(f"slide {law.scale:g}")]
        found = frictions(v, self.FINE)[:, LAWS.index(law)]
        reference = np.gradient(bent, self.FINE)
        assert_allclose(found[10:-10], reference[10:-10], atol=0.02 * np.abs(reference).max())
        assert not law.sliding(np.array([-0.1, 0.2])).any()


@pytest.mark.parametrize("seed", often(1, [4000, 4002, 4004]))
def test_friction_of_a_seal_with_bristles_is_told_within_its_error(seed):
    """The spike at a fast reversal is no breakaway, and what is no breakaway is no steep start of the damping."""
    record = draw("LuGre strong", seed)
    found = condition(sweep_of(record))
    assert found.friction == pytest.approx(record.friction_n, abs=3.0 * found.friction_sd)
    assert found.friction_sd < 0.45 * record.friction_n  # a valve that holds from rest would look like it


@pytest.mark.parametrize("row", often(1, ["fade by work strong", "fade strong"]))
def test_fade_is_told_whole_whether_by_time_or_by_work(row):
    record = draw(row, 4002)
    fade = condition(sweep_of(record)).model.fade
    assert fade.clear
    assert -fade.value == pytest.approx(record.fade, abs=2.5 * fade.sd)


def test_a_leak_that_fades_beside_a_port_that_does_not_leaves_fast_damping_in_its_band():
    """Oil thins by a fifth while speeds rise: laminar flow hangs on viscosity, turbulent flow hardly does.

    Both by the textbook (Hagen and Poiseuille; Bernoulli's orifice). The fast runs come last, when the oil is warm.
    """
    dt, reach, fade = 0.002, 0.02, 0.2
    runs = [
        np.arange(round(4 * 2 * np.pi * reach / top / dt)) * dt * top / reach for top in (0.04, 0.1, 0.2, 0.35, 0.5)
    ]
    angle = np.concatenate([run + 2 * np.pi * 4 * i for i, run in enumerate(runs)])
    x, time = -reach * np.cos(angle), np.arange(len(angle)) * dt
    v = np.gradient(x, dt)

    def laminar(u: FloatArray) -> FloatArray:
        return 1500.0 * u / (1.0 + np.abs(u) / 0.15)

    def turbulent(u: FloatArray) -> FloatArray:
        return 1800.0 * u * np.abs(u)

    work = np.cumsum(np.abs(v * (laminar(v) + turbulent(v))))
    warm = fade * (work / work[-1])
    force = (1.0 - warm) * laminar(v) + turbulent(v) + 15.0 * np.tanh(v / 0.002)
    force += np.random.default_rng(5).normal(0.0, 1.5, len(v))
    curve = fit(trace(time, x, force))
    at = np.array([-0.45, -0.35, 0.35, 0.45])
    truth = (1.0 - warm.mean()) * laminar(at) + turbulent(at)
    low, high = curve.band(at)
    assert np.all((low <= truth) & (truth <= high))
    assert np.all(high - low < 0.2 * np.abs(truth))
