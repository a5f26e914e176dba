"""Knees of the program against where made valves open."""

import numpy as np
import pytest

from tests.worlds.knees import OPENING, opening_of, openings
from tests.worlds.valves import balance, bleed

#: 80 openings of 40 fresh records each (21100 to 21139): see README
SEEDS = {"valve sharp blow-off": 21003, "valve poppet": 21003}


def test_the_true_opening_is_where_pressure_reaches_the_crack():
    cracks = balance(lambda p: 0.1 * (bleed(p, 0.1) + 4.0 * np.maximum(p - 1.0, 0.0) * np.sqrt(p)))
    assert opening_of(cracks, 1.0, 0.5) == pytest.approx(0.1, rel=2e-3)
    assert opening_of(lambda v: -np.asarray(cracks(-np.asarray(v))), -1.0, 0.5) == pytest.approx(0.1, rel=2e-3)


@pytest.mark.parametrize("row", OPENING)
def test_a_knee_stands_where_the_valve_opens_and_its_interval_holds_that_speed(row):
    for one in openings(row, SEEDS[row]):
        assert abs(one.off) < 0.05
        assert one.held
        assert one.half < 0.06
