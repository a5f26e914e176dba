"""A force that stays as the shaft comes to rest is no error of friction; play of a screw is noise along its slope."""

from __future__ import annotations

import numpy as np
import pytest

from dynoan.analysis.clickmap.tested.data import axes_of, gather
from dynoan.analysis.clickmap.trends.discrepancy import pieces
from dynoan.analysis.clickmap.trends.trend import FittedDirection
from dynoan.analysis.clickmap.valve.at_rest import at_rest, rest_words
from dynoan.analysis.clickmap.valve.hydraulic import fit_hydraulic
from dynoan.analysis.clickmap.valve.law import INDEX
from dynoan.analysis.clickmap.valve.trend import ValveTrend
from dynoan.model.curve import DIRECTIONS
from tests.worlds.packs import foot_valve
from tests.worlds.packs.rows import draw
from tests.worlds.packs.with_dynoan import as_tested, shock_of

PACKS, LIBRARY, _ = foot_valve.library(0)
KIND = shock_of(LIBRARY)


@pytest.fixture(scope="module")
def compression() -> FittedDirection:
    tested = as_tested(KIND, LIBRARY.of("gravel"))
    return fit_hydraulic(gather("compression", axes_of("compression", KIND.adjusters), tested))


def test_what_a_check_plate_holds_at_rest_stays_in_the_map(compression):
    clicks = {"lsc": 14, "hsc": 10, "lsr": 11, "hsr": 7}
    true = PACKS[0].force(clicks, [0.025])[0]
    assert np.exp(compression.logs(np.array([[14.0, 10.0]]), np.array([0.025])))[0, 0] == pytest.approx(true, rel=0.15)
    assert isinstance(compression.trend, ValveTrend)
    plate = (foot_valve.BORE - foot_valve.ROD) * PACKS[0].weak
    assert compression.trend.theta[INDEX["rest"]] == pytest.approx(plate, abs=4.0)


def test_what_stays_at_rest_is_told_with_its_doubt(compression):
    plate = (foot_valve.BORE - foot_valve.ROD) * PACKS[0].weak
    found = at_rest(compression)
    assert found is not None
    assert abs(found.force - plate) < 2.0 * found.sd + 0.5
    (said,) = rest_words({"compression": compression})
    assert f"in compression {found.force:.0f} N (± {1.96 * found.sd:.0f}) stays as the shaft comes to rest" in said


def test_of_a_valve_without_one_nothing_is_said(compression):
    world = draw("map regular 8", 5)
    kind = shock_of(world.library)
    fits = {d: fit_hydraulic(gather(d, axes_of(d, kind.adjusters), as_tested(kind, world.library.runs)))
            for d in DIRECTIONS}  # fmt: skip
    assert rest_words(fits) == ()


def test_play_of_a_screw_is_each_tests_own_and_as_large_as_a_click_there(compression):
    data = compression.data
    loose = pieces(data, compression.spread, None, compression.slopes).loose[0]
    blocks = loose.reshape(data.tests, len(data.speeds), data.tests, len(data.speeds))
    click = compression.slopes[:, :, 0] / data.last[0]
    np.testing.assert_allclose(blocks[2, :, 2, :], np.outer(click[2], click[2]))
    assert not np.any(blocks[2, :, 5, :])
