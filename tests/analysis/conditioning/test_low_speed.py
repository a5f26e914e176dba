"""Near zero speed: rows that average both directions, friction that differs between them, and what stays open."""

from __future__ import annotations

from collections.abc import Callable

import numpy as np
import pytest

from dynoan.analysis.conditioning.assumptions import LEAK_BESIDE, LITTLE_LEAK, STARTS
from dynoan.analysis.conditioning.condition import condition
from dynoan.analysis.conditioning.forces.effects import yielding
from dynoan.analysis.conditioning.forces.shape import centres, leaking, smoothness, speed_edges
from dynoan.analysis.conditioning.forces.splines import design
from dynoan.analysis.conditioning.left_open.low_speed_untold import HARD, Untold, said_of
from dynoan.analysis.conditioning.samples.rubbing import LAWS, Law, frictions
from dynoan.model.arrays import FloatArray
from dynoan.show.text.restated import restated
from tests.analysis.conditioning_records import trace
from tests.often import often_together
from tests.worlds.rows import draw
from tests.worlds.with_dynoan import fit, sweep_of

EDGES = (np.array([0.0, 0.001, 0.003, 0.01, 0.1]), np.array([0.0, 0.002, 0.02, 0.1]))
WEIGHTS = np.array([5.0, 8.0, 12.0, 20.0, 25.0, 30.0, 30.0, 60.0, 90.0])


class TestRowsThatAverage:
    def test_a_row_of_both_directions_holds_the_mean_of_either(self):
        v, half = np.array([0.0, 0.0002, -0.0003, 0.05]), np.full(4, 0.0005)
        got = design(v, EDGES, half).curve(WEIGHTS)[0]
        for value, middle in zip(got[:3], v[:3], strict=True):
            fine = middle + np.linspace(-0.0005, 0.0005, 4001)
            assert value == pytest.approx(float(np.mean(design(fine, EDGES).curve(WEIGHTS)[0])), rel=0.06, abs=0.15)
        assert got[3] == design(v, EDGES).curve(WEIGHTS)[0][3]

    def test_its_normal_equations_are_those_of_the_dense_matrix(self):
        rng = np.random.default_rng(3)
        v, half = rng.normal(0.0, 0.002, 200), np.full(200, 0.001)
        lines = design(v, EDGES, half)
        dense = np.array([lines.times(one) for one in np.eye(lines.size)]).T
        y, weight = rng.normal(size=200), rng.uniform(0.5, 2.0, 200)
        gram, load = lines.normal(y, weight)
        np.testing.assert_allclose(gram, (dense * weight[:, None]).T @ dense, atol=1e-9)
        np.testing.assert_allclose(load, dense.T @ (weight * y), atol=1e-9)
        np.testing.assert_allclose(lines.curve(WEIGHTS)[0], dense @ WEIGHTS, atol=1e-9)

    def test_what_yields_is_averaged_alike(self):
        v, half = np.array([0.0005]), np.array([0.002])
        fine = 0.0005 + np.linspace(-0.002, 0.002, 4001)
        for value, each in zip(yielding(v, half)[0], yielding(fine)[0], strict=True):
            assert value[0] == pytest.approx(float(each.mean()), abs=2e-3)


class TestFrictionThatDiffers:
    def test_its_law_is_the_same_both_ways(self):
        law = Law.named("tilt 0.002")
        assert law.sliding(np.array([-0.05, 0.0, 0.05])) == pytest.approx([1.0, 0.0, 1.0])

    def test_it_is_found_and_said(self):
        t = np.arange(0.0, 30.0, 0.001)
        turn = np.cumsum(np.interp(t, [0.0, 10.0, 10.5, 20.0, 20.5, 30.0], [2.0, 2.0, 6.0, 6.0, 14.0, 14.0])) * 0.001
        x = -0.02 * np.cos(turn)
        v = np.gradient(x, t)
        force = 1500.0 * v + np.where(v > 0, 36.0, 24.0) * np.tanh(v / 0.002) + 100.0
        found = condition(trace(t, x, force + np.random.default_rng(1).normal(0.0, 0.5, len(t))))
        assert found.friction == pytest.approx(30.0, abs=2.0 * found.friction_sd + 1.0)
        assert found.model.tilt.value == pytest.approx(6.0, abs=2.0)
        assert any("more in compression than the other way" in line for line in found.findings)

    def test_the_sum_is_held_whatever_speed_it_turns_around_over(self):
        """Gas force took what friction had more one way where that did not turn around over 2 mm/s."""
        record = draw("friction tilted", 4000)
        v = np.concatenate([-np.geomspace(0.02, 0.3, 12), np.geomspace(0.02, 0.3, 12)])
        band, truth = fit(record).total(v), record.truth(v) + record.friction(v)
        assert np.mean((band.low <= truth) & (truth <= band.high)) > 0.9
        assert np.median(band.high - band.low) < 0.01 * np.ptp(truth)

    def test_it_may_differ_over_travel_where_it_turns_around_over_a_travel(self):
        """That passed for friction that differs between directions, and gas force was off by as much."""
        t = np.arange(0.0, 24.0, 0.001)
        turn = np.cumsum(np.interp(t, [0.0, 10.0, 10.5, 18.0, 18.5, 24.0], [1.5, 1.5, 6.0, 6.0, 14.0, 14.0])) * 0.001
        x = -0.02 * np.cos(turn)
        v = np.gradient(x, t)
        rub = 25.0 * frictions(v, 0.001)[:, LAWS.index(Law("slide", 3e-5))] * (1.0 - 25.0 * x)
        noise = np.random.default_rng(1).normal(0.0, 0.5, len(t))
        found = condition(trace(t, x, 1500.0 * v + rub + 100.0 + noise))
        assert found.offset == pytest.approx(100.0, abs=2.0 * found.offset_sd + 1.0)
        assert found.model.left[0] < 1.0


class TestSteepStarts:
    @pytest.mark.parametrize(
        ("row", "seed"), often_together(1, [("short rod", 8005), ("5 kHz", 8000), ("friction tilted", 8005)])
    )
    def test_a_start_that_is_steep_one_way_alone_is_held(self, row, seed):
        """Half of the points or more lay outside: friction and gas force had taken what rows and splines could not."""
        record = draw(row, seed)
        v = np.concatenate([-np.geomspace(0.01, record.covered[1], 20), np.geomspace(0.01, record.covered[1], 20)])[
            1:-1
        ]
        band, truth = fit(record).damping(v), record.truth(v)
        assert np.mean((band.low <= truth) & (truth <= band.high)) > 0.9


class TestWhatIsNotTold:
    @staticmethod
    def open_(**change) -> Untold:
        return Untold(**{"way": "rebound", "force": 100.0, "half": 110.0, "either": 0.0, "apart": 0.0, "step": 0.001,
                         "slowest": 0.2,
                         **change})  # fmt: skip

    def test_what_is_known_is_not_doubted(self):
        assert said_of(self.open_(half=100.0 * HARD - 1.0), one_speed=True) == []

    @pytest.mark.parametrize(
        ("change", "cause"),
        [({"step": 0.04}, "changes by 40 mm/s"), ({"either": 0.5}, "holds until it yields"),
         ({"apart": 60.0}, "differ by 60 N"), ({}, "look alike")],
    )  # fmt: skip
    def test_the_cause_is_named(self, change, cause):
        (line,) = said_of(self.open_(**change), one_speed=False)
        assert line.startswith("rebound damping at 30 mm/s cannot be told")
        assert cause in line
        assert "would tell" in line

    def test_a_fluid_that_yields_beside_slow_friction_is_told_to_be_either(self):
        record = draw("bleed by travel", 1)
        found = condition(sweep_of(record), record.stated.rod_m)
        assert found.model.untold.either > 0.25


class TestStarts:
    """How slopes are expected to go with speed where all flow goes through bleed and leaks."""

    @staticmethod
    def surprise(force: Callable[[FloatArray], FloatArray], start: float) -> float:
        """Return how far a law is off what is expected of a start, in squares of standard deviations."""
        edges = speed_edges(np.linspace(0.0, 0.5, 50))
        steps = np.diff(force(centres(edges)), prepend=0.0)
        return float(np.sum((smoothness(edges, steps, start) @ steps)[:-1] ** 2))

    @pytest.mark.parametrize("leak", [LEAK_BESIDE, LITTLE_LEAK])
    def test_an_orifice_beside_a_leak_is_expected_by_its_own_start_alone(self, leak):
        """Flow shared between a laminar leak and an orifice under one pressure: v = a F + b √F."""

        def both(v: FloatArray) -> FloatArray:
            orifice = 1.0 - leak
            return 150.0 * ((-orifice + np.sqrt(orifice**2 + 4.0 * leak * v / 0.02)) / (2.0 * leak)) ** 2

        others = [start for start in STARTS if start > -1.0 and start != leak]
        assert self.surprise(both, leak) < min(self.surprise(both, start) for start in others) - 1.0

    @pytest.mark.parametrize("leak", [0.1, 0.2, 0.5, 0.8])
    def test_the_slope_beside_a_leak_is_that_of_the_flow_they_share(self, leak):
        force = np.geomspace(1e-4, 4.0, 4001)
        flow = leak * force + (1.0 - leak) * np.sqrt(force)
        slope = np.gradient(force, flow)
        assert leaking(flow, leak)[1:-1] / leak == pytest.approx(slope[1:-1], rel=1e-3)

    def test_an_orifice_goes_on_to_where_valves_open(self):
        def square(v: FloatArray) -> FloatArray:
            return np.where(v < 0.05, 1e5 * v**2, 250.0 + 1e4 * (v - 0.05))

        assert self.surprise(square, 1.0) < 2.5


def test_what_cannot_be_told_is_told_in_us_units_whole():
    untold = Untold("compression", 15.0, 48.0, either=0.0, apart=0.0, step=0.001, slowest=0.032)
    (said,) = said_of(untold, one_speed=False)
    assert "15 N there, give or take 48 N" in said
    assert "3.4 lbf there, give or take 10.8 lbf" in restated(said, "us")
