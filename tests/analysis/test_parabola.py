"""The least of a function that is known at a few places."""

from __future__ import annotations

import numpy as np
import pytest

from dynoan.analysis.parabola import least_of


@pytest.mark.parametrize(("losses", "least"), [((3.0, 1.0, 3.0), 0.5), ((1.0, 2.0, 3.0), 0.0), ((3.0, 2.0, 1.0), 1.0)])
def test_a_parabola_through_the_lowest_is_least_between_its_neighbours(losses, least):
    assert least_of(np.array([0.0, 0.5, 1.0]), np.array(losses)) == pytest.approx(least)
