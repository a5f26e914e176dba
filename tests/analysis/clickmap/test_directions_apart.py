"""What goes wrong in one direction's tests stays in that direction."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from dynoan.analysis.clickmap.mapping import fit_map
from dynoan.model.curve import DIRECTIONS, Curve, Direction
from tests.worlds.packs.rows import draw
from tests.worlds.packs.with_dynoan import as_tested, shock_of

SPEEDS = np.array([0.05, 0.1, 0.25])


def _spoiled(curve: Curve, direction: Direction) -> Curve:
    """One direction a third stronger, bands as they were: a wrong clicker, or another valve."""
    side = curve.side(direction)
    more = 0.35 * np.asarray(side.forces)
    total = side.total and tuple(one + more for one in side.total)
    worse = replace(side, forces=side.forces + more, low=side.low + more, high=side.high + more, total=total)
    return replace(curve, **{direction: worse})


@pytest.mark.parametrize("direction", ["rebound", pytest.param("compression", marks=pytest.mark.thorough)])
def test_a_test_that_is_wrong_in_one_direction_leaves_the_other_as_it_was(direction: Direction):
    world = draw("map two adjusters 8", 6000)
    kind, other = shock_of(world.library), DIRECTIONS[1 - DIRECTIONS.index(direction)]
    tested = as_tested(kind, world.library.runs)
    bad = tuple(replace(t, curve=_spoiled(t.curve, direction)) if i == 3 else t for i, t in enumerate(tested))
    good, spoiled = (fit_map("gravel", kind.adjusters, runs).direction(other) for runs in (tested, bad))
    (force, half), (again, half_again) = good.at(SPEEDS), spoiled.at(SPEEDS)
    # Left out as a stranger it takes what it told of the other direction along: within the bands, and no more.
    assert np.median(np.abs(again / force - 1.0)) < 0.01
    assert np.max(np.abs(again - force) / np.hypot(half, half_again)) < 1.0
    assert np.median(half_again / half) < 1.5
