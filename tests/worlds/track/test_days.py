"""Of made days without a difference few are called better, and those with one are found as often as was stated."""

from __future__ import annotations

from itertools import product

import numpy as np
import pytest

from dynoan.analysis.trials.difference import RunOrder, Scatter, design
from dynoan.analysis.trials.judging import judge
from dynoan.analysis.trials.power import power
from tests.worlds.track.days import Weather, day

DAYS, MANY = 200, 1000  #: of the short forms and of the long ones
WEATHERS = {
    "straight": Weather(),
    "steep": Weather(drift=20.0),
    "heavy tails": Weather(heavy=True),
    "bends a little": Weather(bend=0.5),
    "a coarse clock": Weather(scatter=0.01, clock=1.0),
    "a clock coarser than the driver": Weather(scatter=0.005, clock=2.0),
}


def found(order: str, difference: float, weather: Weather, lent: Scatter | None = None,
          first: int = 0, days: int = DAYS) -> np.ndarray:  # fmt: skip
    """Return +1 where b is found better, -1 where a is, 0 where it cannot be told; less is better."""
    sign = {"b better": 1, "a better": -1, "cannot tell": 0}
    made = [day(first + seed, order, difference, weather) for seed in range(days)]
    return np.array([sign[judge(RunOrder.of(d.order), d.results, less=True, lent=lent).verdict] for d in made])


@pytest.mark.parametrize(
    ("weather", "order", "days"),
    [("straight", "abbabaab", DAYS), ("heavy tails", "abba", DAYS),
     *(pytest.param(*one, marks=pytest.mark.thorough)
       for one in product(WEATHERS, ("abba", "ababa", "abbabaab"), (MANY,)))],
)  # fmt: skip
def test_days_without_a_difference_are_seldom_called_better(order, weather, days):
    assert np.mean(found(order, 0.0, WEATHERS[weather], days=days) != 0) <= 0.05


@pytest.mark.thorough
@pytest.mark.parametrize("weather", ["a coarse clock", "a clock coarser than the driver"])
def test_rounded_results_that_lie_on_a_line_by_chance_say_nothing(weather):
    assert np.mean(found("abba", 0.0, WEATHERS[weather]) != 0) <= 0.05


@pytest.mark.parametrize(
    ("order", "days"),
    [("abba", DAYS), *(pytest.param(o, MANY, marks=pytest.mark.thorough) for o in ("abba", "aba", "abbabaab"))],
)
def test_what_earlier_days_lend_keeps_that(order, days):
    assert np.mean(found(order, 0.0, Weather(), Scatter(0.1, 12), days=days) != 0) <= 0.05


def test_a_day_that_bends_by_the_scatter_of_a_run_is_seldom_called_a_difference():
    assert np.mean(found("abba", 0.0, Weather(bend=1.0), Scatter(0.1, 12)) != 0) <= 0.05


@pytest.mark.parametrize(("order", "difference", "days"), [
    ("abbabaab", 0.2, DAYS),
    *(pytest.param(*given, MANY, marks=pytest.mark.thorough)
      for given in (("abbabaab", 0.2), ("abba", 0.5), ("ababa", 0.3), ("abba" * 3, 0.1))),
])  # fmt: skip
def test_power_is_as_stated(order, difference, days):
    stated = power(design(RunOrder.of(order)), difference, Scatter(0.1, 0))
    hits = found(order, -difference, Weather(), first=5000, days=days)
    assert np.mean(hits == 1) == pytest.approx(stated, abs=0.05)


@pytest.mark.parametrize("days", [DAYS, pytest.param(MANY, marks=pytest.mark.thorough)])
def test_limits_hold_the_true_difference(days):
    made = [day(9000 + seed, "abbabaab", 0.05) for seed in range(days)]
    held = []
    for d in made:
        limits = judge(RunOrder.of(d.order), d.results, less=True).found
        held.append(limits.low <= d.difference <= limits.high)
    assert 0.94 <= np.mean(held) <= 0.98
