"""A car that lifts its wheels: its heights to the last before it goes over, and that they hang on little there."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from dynoan.analysis.launch.large import layout as at
from dynoan.analysis.launch.large.compare import launch_large
from dynoan.jobs.launch.near_over import near_over
from dynoan.jobs.launch.settings import LaunchCase
from tests.analysis.launch.test_large import COEFFICIENT, both, car, scene
from tests.analysis.launch_cars import linear

OVER = 1.8571  #: grip from which that car goes over
HIGH, PEAK = 0.663, 40e3


@pytest.mark.parametrize("share", [0.997])
def test_to_the_last_before_it_goes_over_heights_are_those_of_bodies_and_rods(share):
    large, ours, theirs = both(share * OVER, PEAK, HIGH, False)
    pressed = large.half.front.static_load / large.half.front.tyre
    assert np.isnan(ours.figures[0, at.OVER])
    assert ours.figures[0, at.FRONT_HEIGHT] == pytest.approx(theirs.front_wheel.max() - pressed, rel=2e-3)


@pytest.mark.parametrize(("share", "said"), [(0.98, True), (0.93, False), (0.80, False), (1.05, False)])
def test_near_to_going_over_is_said(share, said):
    """Not from afar, not where the wheels stay down, not where it goes over: that is said in other words."""
    large, _, _ = both(0.999 * OVER, PEAK, HIGH, False)
    of = car(HIGH)
    case = LaunchCase("it", of, large.half, linear(of, COEFFICIENT), large)
    here = scene(large.half, share * OVER, PEAK, 2.0)
    found = launch_large(large, here, case.damping)
    warned = near_over(case, here, found)
    assert bool(warned) == said
    assert all("goes over" in text for text in warned)
    if said:
        assert not near_over(case, here, replace(found, metrics=found.metrics | {"front_wheel_height_m": 0.0}))
