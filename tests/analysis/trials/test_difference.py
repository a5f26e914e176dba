"""Differences under drift, ranks and power, against published figures."""

from __future__ import annotations

import numpy as np
import pytest

from dynoan.analysis.trials.assumptions import LEVEL
from dynoan.analysis.trials.difference import RunOrder, Scatter, design, drift_fit, limits, pooled
from dynoan.analysis.trials.judging import judge
from dynoan.analysis.trials.power import extended, following, further_runs, power
from dynoan.analysis.trials.ranks import rank_test
from dynoan.errors import QuantityError
from tests.checks import check

INFINITE = 10**9


def test_sleep_data_as_pairs_of_days():
    """Each sleeper is a day with a level of his own, and no drift within."""
    published = check("kH01")
    one, two = published.inputs["group1"], published.inputs["group2"]
    order = RunOrder.of("ba" * 10, days=np.repeat(np.arange(10), 2))
    fit = drift_fit(order, np.ravel([one, two], order="F"), degree=0)
    found = limits(fit.difference, fit.design.variance, fit.scatter, level=0.05)
    published.holds([found.difference, found.t, fit.scatter.dof, found.p, found.low, found.high])


def test_car_mileage_pooled():
    """Two samples of that mean and deviation stand for the data, which are larger than their summary."""
    published = check("kH03")
    given = published.inputs

    def sample(mean, sd, n):
        raw = np.arange(n, dtype=float)
        return mean + sd * (raw - raw.mean()) / raw.std(ddof=1)

    a = sample(given["mean2"], given["sd2"], given["n2"])
    b = sample(given["mean1"], given["sd1"], given["n1"])
    fit = drift_fit(RunOrder.of("a" * len(a) + "b" * len(b)), np.concatenate([a, b]), degree=0)
    found = limits(fit.difference, fit.design.variance, fit.scatter)
    np.testing.assert_allclose([found.t, fit.scatter.dof], published.expected[2:], rtol=published.rel,
                               err_msg=published.source)  # fmt: skip


def test_variance_of_orders_of_runs():
    published = check("kH09")
    given = published.inputs
    fit = drift_fit(RunOrder.of("aba"), [given["a1"], given["b"], given["a2"]])
    found = [fit.difference]
    for sequence in given["sequence"]:
        order = RunOrder.of(sequence.lower())
        straight = [] if sequence == "AB" else [design(order).variance]
        found += [design(order, degree=0).variance, *straight] if sequence != "AB" else []
    assert np.isinf(design(RunOrder.of("ab")).variance)  # drift and difference look alike
    two = design(RunOrder.of("ab"), degree=0).variance
    without = published.expected
    assert two == pytest.approx(without[2])
    np.testing.assert_allclose(found, [without[0], *without[3:]], rtol=1e-6, err_msg=published.source)


def test_four_items_in_turn_under_drift():
    published = check("kH10")
    readings = np.ravel(published.inputs["readings"])
    order = RunOrder.of("abcd" * 3)
    spread = [drift_fit(order, readings, degree).scatter.sd for degree in range(4)]
    bent = drift_fit(order, readings, degree=2)
    linear, square = bent.values[4:6]
    published.holds([*spread, linear, square, -bent.difference, bent.error])


def test_rank_sum_is_exact():
    published = check("kH05")
    found = rank_test(np.array(published.inputs["y"]), np.array(published.inputs["x"]))
    published.holds([found.pairs, found.p_larger])


def test_few_runs_cannot_reach_any_p_by_ranks():
    published = check("kH08")
    least = [rank_test(np.arange(n), np.arange(n) + n).least for n in published.inputs["each"]]
    np.testing.assert_allclose(least, published.expected[-3:], rtol=1e-6)
    assert rank_test(np.arange(3), np.arange(3) + 3).p == pytest.approx(0.1)


def test_power_of_two_samples():
    published = check("kH07")
    given = published.inputs
    made = design(RunOrder.of("a" * given["n"] + "b" * given["n"]), degree=0)
    published.holds(power(made, given["delta"], Scatter(given["sd"], 0), given["alpha"]))


def test_a_scatter_that_few_runs_tell_makes_a_large_difference_less_sure_to_be_found():
    """Checked by drawing what the scatter may be: the same share by chance alone."""
    made, known_by = design(RunOrder.of("abbabaab")), 5
    drawn = 0.03 * np.sqrt(known_by / np.random.default_rng(3).chisquare(known_by, 400))
    mean = np.mean([power(made, 0.1, Scatter(float(sd), known_by)) for sd in drawn])
    hardly = power(made, 0.1, Scatter(0.03, known_by), known_by=known_by)
    assert hardly == pytest.approx(mean, abs=0.02)
    assert hardly < power(made, 0.1, Scatter(0.03, known_by)) - 0.02
    assert power(made, 0.1, Scatter(0.03, known_by), known_by=1e6) == pytest.approx(
        power(made, 0.1, Scatter(0.03, known_by)), abs=1e-3
    )


def test_pairs_for_a_stated_power():
    """Pairs of runs, each pair a day of its own: the standard deviation of a pair's difference is √2 that of a run."""
    published = check("kH08")
    needed = []
    for effect in published.inputs["effect"]:
        pairs = 2
        while True:
            made = design(RunOrder.of("ab" * pairs, days=np.repeat(np.arange(pairs), 2)), degree=0)
            if power(made, effect * np.sqrt(2), Scatter(1.0, 0), 0.05) >= published.inputs["power"]:
                break
            pairs += 1
        needed.append(pairs)
    assert needed == [int(np.ceil(n)) for n in published.expected[:5]]


def test_a_straight_drift_leaves_nothing():
    results = [4.0 + 0.3 / 7 * n + 0.25 * (s == "b") for n, s in enumerate("abbaab")]  # sevenths: not rounded
    fit = drift_fit(RunOrder.of("abbaab"), results)
    assert fit.difference == pytest.approx(0.25)
    assert fit.scatter.sd == pytest.approx(0.0, abs=1e-12)


def test_rounded_results_on_a_straight_line_still_scatter_by_their_rounding():
    fit = drift_fit(RunOrder.of("abba", places=[0, 2, 3, 4]), [4.83, 4.70, 4.72, 4.91])
    assert fit.scatter.sd == pytest.approx(0.01 / np.sqrt(12))  # of an even spread over one step
    exact = drift_fit(RunOrder.of("abba", places=[0, 2, 3, 4]), np.array([4.83, 4.70, 4.72, 4.91]) * 1.000123456)
    assert exact.scatter.sd < 1e-6


def test_two_days_have_levels_and_drifts_of_their_own():
    days = [0] * 4 + [1] * 4
    level, slope = [4.0, 9.0], [0.3, -0.7]
    results = [
        level[d] + slope[d] * n - 0.1 * (s == "b") for n, (d, s) in enumerate(zip(days, "abbabaab", strict=True))
    ]
    fit = drift_fit(RunOrder.of("abbabaab", days), results)
    assert fit.difference == pytest.approx(-0.1)
    assert fit.design.dof == 8 - 5


def test_a_run_struck_out_keeps_its_place():
    results = [1.0, 2.0, 4.0, 5.0]  # a drift of one a run, the third struck out
    fit = drift_fit(RunOrder.of("abab", places=[0, 1, 3, 4]), results)
    assert fit.difference == pytest.approx(0.0, abs=1e-12)


def test_what_earlier_days_lend_is_bounded():
    own, lent = Scatter(0.2, 1), Scatter(0.1, 100)
    both = pooled(own, lent, 6)
    assert both.dof == 7
    assert both.sd == pytest.approx(np.sqrt((0.04 + 6 * 0.01) / 7))
    assert pooled(None, lent, 6) == Scatter(0.1, 6)
    assert pooled(own, None, 6) is own


def test_one_result_a_run():
    with pytest.raises(QuantityError, match="3 results for 4 runs"):
        drift_fit(RunOrder.of("abba"), [1.0, 2.0, 3.0])
    with pytest.raises(QuantityError, match="finite"):
        drift_fit(RunOrder.of("ab"), [1.0, float("nan")])


def test_a_plan_goes_on_turned_about():
    assert extended("abba", "", 8) == "abbabaab"
    assert extended("aba", "", 6) == "abaaba"
    assert following("abba", 2) == "b"


def test_further_runs_are_those_that_reach_the_power():
    scatter = Scatter(0.1, 6)
    more = further_runs("abba", "abba", 0.15, scatter)
    assert power(design(RunOrder.of(extended("abba", "abba", more))), 0.15, scatter, LEVEL) >= 0.8
    assert power(design(RunOrder.of(extended("abba", "abba", more - 1))), 0.15, scatter, LEVEL) < 0.8
    assert further_runs("abba", "", 0.001, scatter) is None
    assert design(RunOrder.of(extended("abba", "", further_runs("abba", "", 0.1, None)))).dof == 3


def test_a_bend_of_the_day_looks_like_a_difference_in_four_runs_and_not_in_eight():
    bow = 0.5 * ((np.arange(8) - 3.5) / 3.5) ** 2
    few = judge(RunOrder.of("abba"), [10.01, 9.0, 9.01, 10.0], less=True)
    many = judge(RunOrder.of("abbabaab"), 10 + bow + 0.01 * np.array([1, -1, 0, 1, -1, 0, 1, -1]), less=True)
    assert few.verdict == "b better"
    assert few.bend_alike
    assert many.verdict == "cannot tell"
    assert not many.bend_alike
