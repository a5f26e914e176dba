"""Cars drawn from the ± of a file: exact for what is straight in the values, and honest for what is not."""

from __future__ import annotations

import numpy as np
import pytest

from dynoan.analysis.launch.unsure import draws, open_to
from dynoan.analysis.statistics import Z95


@pytest.mark.parametrize("values", [1, 2, 7, 14, 30])
class TestDraws:
    def test_each_value_has_its_variance_and_none_anything_in_common(self, values):
        drawn = draws(values)
        np.testing.assert_allclose(drawn.T @ drawn / len(drawn), np.eye(values), atol=1e-12)

    def test_each_car_has_its_mirror_image(self, values):
        drawn = draws(values)
        np.testing.assert_array_equal(drawn[: len(drawn) // 2], -drawn[len(drawn) // 2 :])

    def test_they_are_as_few_as_said(self, values):
        assert len(draws(values)) == max(24, 4 * values)


class TestOpenTo:
    def test_of_a_straight_figure_the_squares_of_the_slopes_add(self):
        slopes = np.array([3.0, -1.0, 0.5])
        below, above = open_to(draws(3) @ slopes)
        assert below == pytest.approx(above, rel=1e-12)
        assert above == pytest.approx(Z95 * np.linalg.norm(slopes), rel=1e-12)

    def test_what_only_rises_reaches_up_alone(self):
        below, above = open_to(np.maximum(draws(3) @ np.ones(3), 0.0))
        assert below == 0.0
        assert above > 1.0

    def test_a_bent_figure_is_held_19_times_of_20(self):
        """An exponential of two values: what 100,000 cars do, drawn otherwise."""
        slopes = np.array([0.3, 0.2])
        below, above = open_to(np.exp(draws(2) @ slopes) - 1.0)
        many = np.exp(np.random.default_rng(5).standard_normal((100_000, 2)) @ slopes) - 1.0
        assert 0.90 < np.mean((many > -below) & (many < above)) < 0.98

    def test_cars_without_the_figure_do_not_count(self):
        assert open_to(np.array([1.0, np.nan, -1.0])) == open_to(np.array([1.0, -1.0]))
        assert open_to(np.array([np.nan])) == (0.0, 0.0)
