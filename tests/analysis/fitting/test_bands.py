"""95 % bands against the truth of exact broken lines, and the profile of the sum of squares against a plain search.

Short runs with loose limits; 200 records a kind are in tests/benchmarks/bench_bands.py.
"""

from __future__ import annotations

import numpy as np
import pytest
from numpy.testing import assert_allclose

from dynoan.analysis.fitting.assumptions import APART, LEAST_SHARE, LEFT_BY_PARABOLA
from dynoan.analysis.fitting.fit import fit
from dynoan.analysis.fitting.side import around
from dynoan.analysis.statistics import Z95, t_quantile
from tests.analysis.band_records import LINES, Tally, broken_staircase, broken_table, broken_trace
from tests.analysis.conditioning_records import SOFT, recorded
from tests.oracles.broken_stick import broken_stick, profile_interval

lines = list(LINES.values())


def tally(make, records, first=70_000) -> Tally:
    out = Tally()
    for i in range(records):
        line = lines[i % len(lines)]
        out.add(fit(make(line, first + i)), line)
    return out


class TestCoverage:
    @pytest.mark.parametrize(
        "make",
        [
            pytest.param(broken_trace, id="independent", marks=pytest.mark.thorough),
            pytest.param(
                lambda line, seed: broken_trace(line, seed, noise="cycles"), id="cycles", marks=pytest.mark.thorough
            ),
            pytest.param(broken_staircase, id="staircase", marks=pytest.mark.thorough),
        ],
    )
    def test_of_traces(self, make):
        """Five records a kind."""
        self.traces(make, 5)

    def test_of_a_few_staircases(self):
        self.traces(broken_staircase, 2)

    def traces(self, make, records):
        """No friction is in these records; one speed alone does not show that, so each true knee is held against the
        nearest that was found.
        """
        curves = [(fit(make(lines[i], 70_000 + i)), lines[i]) for i in range(records)]
        found = Tally()
        near = []
        for curve, line in curves:
            found.add(curve, line)
            near += [
                (min(side.knees, key=lambda k, at=true: abs(k.velocity - at)), true)
                for side in (curve.compression, curve.rebound) for true in line.knees
            ]  # fmt: skip
        assert np.mean(found.held) > 0.85
        assert np.mean([knee.low <= true <= knee.high for knee, true in near]) > 0.8
        assert np.median([abs(knee.velocity / true - 1) for knee, true in near]) < 0.01

    @pytest.mark.thorough
    def test_of_peak_tables(self):
        """No table tells friction, a zero of the load cell or a bend between two speeds; the bands allow for them and
        hold these, which have none, more often than they say. Half the width of that of damping and friction together
        must be about what 95 % of the errors stay below.
        """
        found, off = Tally(), []
        for i in range(60):
            line = lines[i % len(lines)]
            curve = fit(broken_table(line, 70_000 + i))
            found.add(curve, line)
            v = np.linspace(0.05, 0.98, 20) * line.top
            v = np.concatenate([-v, v])
            low, high = curve.total_band(v)
            off.append(np.abs(curve.total(v) - line(v)) / (0.5 * (high - low)))
        assert np.mean(found.held) > 0.88
        assert np.mean(found.knees) > 0.88
        assert 0.6 < np.quantile(off, 0.95) < 1.2

    @pytest.mark.thorough
    def test_knees_of_a_plain_broken_line_are_not_called_unsure(self):
        """Half widths are about 1.96 times how far the knees are off over records, and far from twice that."""
        line = LINES["three plain knees"]
        curves = [fit(broken_trace(line, 71_000 + i, noise="cycles")) for i in range(8)]
        sides = [s for c in curves for s in (c.compression, c.rebound) if len(s.knees) == 3]
        off = np.array([[k.velocity - true for k, true in zip(s.knees, line.knees, strict=True)] for s in sides])
        half = np.array([[0.5 * (k.high - k.low) for k in s.knees] for s in sides])
        assert len(sides) >= 14
        assert 0.6 < np.median(np.median(half, axis=0) / (1.96 * np.sqrt(np.mean(off**2, axis=0)))) < 1.25


class TestUnseen:
    def test_share_that_a_parabola_leaves_of_turbulent_flow(self):
        """Force as the 1.75th power of speed: Blasius' law of friction in smooth pipes (1913)."""
        x = np.linspace(0, 1, 4001)[1:]
        matrix = np.column_stack([x, x * (1 - x)])
        found, *_ = np.linalg.lstsq(matrix, x**1.75, rcond=None)
        left = np.sqrt(np.mean((x**1.75 - matrix @ found) ** 2))
        assert left / abs(found[1] / 4) == pytest.approx(LEFT_BY_PARABOLA, abs=0.001)

    def test_a_curve_of_few_pieces_lies_in_its_own_band_and_none_is_narrower_than_what_pieces_leave(self):
        side = fit(recorded(SOFT, 5)).compression
        force = side.force(side.speeds)
        assert np.all((side.low <= force) & (force <= side.high))
        assert np.all(side.high - side.low >= 2 * Z95 * LEAST_SHARE * 0.9 * force)

    def test_neither_a_curve_nor_its_sum_with_friction_lies_on_the_edge_of_its_band(self):
        middle, half = np.array([100.0, 100.0, 100.0]), np.full((2, 3), 10.0)
        low, high = around(middle, half, np.array([70.0, 100.0, 130.0]))
        beyond = np.hypot(10.0, APART * 30.0)
        assert_allclose(low, [70.0 - beyond, 90.0, 100.0 - beyond])
        assert_allclose(high, [100.0 + beyond, 110.0, 130.0 + beyond])

    def test_a_curve_pinned_to_zero_is_sure_there(self):
        side = fit(broken_trace(LINES["one plain knee"], 5)).compression
        assert (side.high - side.low)[0] / 2 < 2e-3 * side.force(side.top_speed)


def plain_profile(x, y, at):
    """Least sum of squares with the first of two knees at a place, by lstsq and a search over the second."""
    optimize = pytest.importorskip("scipy.optimize")

    def sse(other):
        m = np.column_stack([np.ones_like(x), x, np.maximum(x - at, 0), np.maximum(x - other, 0)])
        return float(np.sum((y - m @ np.linalg.lstsq(m, y, rcond=None)[0]) ** 2))

    starts = np.linspace(at, x.max(), 200)[1:-1]
    best = starts[int(np.argmin([sse(s) for s in starts]))]
    step = starts[1] - starts[0]
    return optimize.minimize_scalar(sse, bounds=(best - step, best + step), method="bounded").fun


class TestProfile:
    @pytest.mark.parametrize("seed", range(3))
    def test_ends_lie_where_the_sum_of_squares_passes_the_limit(self, seed):
        """Against scipy's bounded search over the other knee, each sum of squares by lstsq."""
        rng = np.random.default_rng(seed)
        x = np.sort(rng.uniform(0, 0.5, 60))
        y = np.interp(x, [0, 0.1, 0.3, 0.5], [0, 500, 800, 1800]) + rng.normal(0, 25, 60)
        stick = broken_stick(x, y, 2)
        low, high = profile_interval(x, y, stick)
        assert low < stick.knees[0] < high
        limit = stick.sse * (1 + t_quantile(0.975, 60 - 6) ** 2 / (60 - 6))
        assert_allclose([plain_profile(x, y, low), plain_profile(x, y, high)], limit, rtol=2e-4)

    def test_each_knee_has_its_own(self):
        rng = np.random.default_rng(9)
        x = np.linspace(0, 0.5, 80)
        y = np.interp(x, [0, 0.06, 0.2, 0.35, 0.5], [0, 300, 550, 700, 1100]) + rng.normal(0, 8, 80)
        stick = broken_stick(x, y, 3)
        for j, knee in enumerate(stick.knees):
            low, high = profile_interval(x, y, stick, knee=j)
            assert low < knee < high
            assert high - low < 0.2
