"""First pieces that are power laws, against the laws of pipe flow and against scipy's curve_fit."""

from __future__ import annotations

import numpy as np
import pytest
from numpy.testing import assert_allclose
from scipy.optimize import curve_fit

from dynoan.analysis.fitting.choice import choose
from dynoan.analysis.fitting.fit import describe
from dynoan.analysis.fitting.power import as_power
from dynoan.analysis.knees.errors import jacobian
from tests.oracles.broken_stick import broken_stick

NOISE = 0.005


def noisy(law, seed, n=240, top=0.5):
    """Speeds, forces and weights of a law with noise of half a percent of the largest force."""
    rng = np.random.default_rng(seed)
    v = np.sort(rng.uniform(0.003, top, n))
    force = law(v)
    sd = NOISE * float(force.max())
    return v, force + rng.normal(0, sd, n), np.full(n, sd**-2)


class TestWhichLaw:
    """Pressure drop goes with v in laminar flow, with v^1.75 in a smooth pipe (Blasius 1913), with v² in an orifice."""

    @pytest.mark.parametrize("seed", range(4))
    def test_turbulent_pipe_flow_is_a_power_law(self, seed):
        stick = choose(*noisy(lambda v: 3000 * v**1.75, seed)).stick
        assert len(stick.knees) == 0
        assert stick.power == pytest.approx(1.75, abs=0.02)

    @pytest.mark.parametrize("seed", range(4))
    def test_an_orifice_stays_a_parabola(self, seed):
        stick = choose(*noisy(lambda v: 9000 * v**2, seed)).stick
        assert len(stick.knees) == 0
        assert np.isnan(stick.power)
        assert stick.bent.tolist() == [True]

    @pytest.mark.parametrize("seed", range(4))
    def test_laminar_flow_stays_a_line(self, seed):
        assert choose(*noisy(lambda v: 2000 * v, seed)).stick.bent.tolist() == [False]

    @pytest.mark.parametrize("seed", range(3))
    def test_a_leak_beside_an_orifice_stays_a_parabola(self, seed):
        assert np.isnan(choose(*noisy(lambda v: 800 * v + 3000 * v**2, seed)).stick.power)

    @pytest.mark.parametrize("seed", range(3))
    def test_a_bleed_below_a_blow_off(self, seed):
        at = 0.1

        def law(v):
            return np.where(v < at, 20000 * v**1.6, 20000 * at**1.6 + 900 * (v - at))

        stick = choose(*noisy(law, seed)).stick
        assert stick.power == pytest.approx(1.6, abs=0.05)
        assert_allclose(stick.knees, [at], rtol=0.01)
        assert stick.bent.tolist() == [True, False]


def test_alone_it_is_what_curve_fit_finds():
    v, force, weight = noisy(lambda v: 900 * v**0.6, 5)
    near = broken_stick(v, force, 0, through_zero=True, weights=weight, bent=True)
    found = as_power(near, (v, force, weight), 0.01)
    (a, m), _ = curve_fit(lambda v, a, m: a * v**m, v, force, p0=(1000, 1), xtol=1e-12)
    assert found.power == pytest.approx(m, rel=1e-5)
    assert found.values[1] == pytest.approx(a * v[-1] ** m, rel=1e-5)


def test_with_a_knee_no_start_of_curve_fit_does_better():
    at = 0.1
    v, force, weight = noisy(lambda v: np.where(v < at, 20000 * v**1.6, 20000 * at**1.6 + 900 * (v - at)), 7)
    near = broken_stick(v, force, 1, through_zero=True, weights=weight, bent=(True, False))
    found = as_power(near, (v, force, weight), 0.01)

    def law(v, a, m, k, s):
        return np.where(v < k, a * np.abs(v) ** m, a * np.abs(k) ** m + s * (v - k))

    best = np.inf
    for k in np.linspace(0.05, 0.2, 7):
        (p, _) = curve_fit(law, v, force, p0=(10000, 1.5, k, 1000), maxfev=20000)
        best = min(best, float(np.sum(weight * (force - law(v, *p)) ** 2)))
    assert found.sse <= best * (1 + 1e-6)


def test_derivatives_against_differences():
    v, force, weight = noisy(lambda v: 20000 * v**1.6, 1, n=60)
    near = broken_stick(v, force, 1, through_zero=True, weights=weight, bent=(True, True))
    stick = as_power(near, (v, force, weight), 0.01)
    exact = jacobian(stick, v)
    clear = np.abs(v - stick.knees[0]) > 1e-4

    def moved(what, i, step):
        changed = {name: np.array(getattr(stick, name), dtype=float) for name in ("knots", "values", "heights")}
        power = stick.power + (step if what == "power" else 0.0)
        if what != "power":
            changed[what][i] += step
        return type(stick)(**{**vars(stick), **changed, "power": power})(v)

    columns = [("values", 1), ("values", 2), ("power", 0), ("heights", 1), ("knots", 1)]
    for column, (what, i) in enumerate(columns):
        step = 1e-6 if what in ("power", "knots") else 1e-3
        difference = (moved(what, i, step) - moved(what, i, -step)) / (2 * step)
        assert_allclose(exact[clear, column], difference[clear], rtol=1e-4, atol=1e-3, err_msg=what)


def test_a_table_of_a_power_law_is_described_as_one():
    v = np.linspace(0.01, 0.5, 60)
    segments, knees = describe(v, 900 * v**0.6)
    assert knees == ()
    assert segments[0].exponent == pytest.approx(0.6, abs=0.02)
    assert segments[0].character == "digressive"
    assert_allclose(segments[0].force(v), 900 * v**0.6, rtol=0.01)


@pytest.mark.filterwarnings("error")
@pytest.mark.parametrize("seed", range(40))
def test_points_that_follow_no_law_at_all_are_fitted_without_a_fault(seed):
    rng = np.random.default_rng(seed)
    n = int(rng.choice([4, 6, 8, 12, 40, 240]))
    v = np.sort(rng.uniform(1e-6, 0.5, n))
    steps = np.where(rng.random(n) < 0.3, 5000.0, 100.0)
    force = (rng.normal(0, 100, n), np.full(n, 300.0), -500 * v, 1e-9 * v, steps)[seed % 5]
    assert np.isfinite(choose(v, force, np.ones(n), trust=4 * (seed % 2)).stick(v)).all()
