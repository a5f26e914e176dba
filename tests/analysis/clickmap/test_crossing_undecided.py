"""Where tests leave open whether a screw moves the other direction too, the map stands between; its band holds both."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from dynoan.analysis.clickmap.tested.data import gather
from dynoan.analysis.clickmap.tested.setting import Tested
from dynoan.analysis.clickmap.trends.trend import FittedDirection
from dynoan.analysis.clickmap.valve.hydraulic import fit_hydraulic
from dynoan.model.shock import Adjuster
from tests.made import made_curve

V = np.array([0.03, 0.1, 0.3])
AXES = tuple(Adjuster(name, 10) for name in ("lsc", "hsc", "lsr"))


@pytest.fixture(scope="module")
def crossed() -> FittedDirection:
    """Compression of a pack whose rebound bleed lets oil by, tested with both low-speed screws turned together."""
    tests = [Tested("RL-03", {"lsc": n, "hsc": 5, "lsr": n}, made_curve(lsc=n, lsr=n), "2026-03-01")
             for n in (0, 3, 6, 10)]  # fmt: skip
    return fit_hydraulic(gather("compression", AXES, tests), "lsr")


def test_tests_hold_a_map_where_they_are_and_elsewhere_the_doubt_is_told(crossed: FittedDirection) -> None:
    settled = crossed.settled.copy()
    settled[crossed.shared] = 0.5
    half, sure = (replace(crossed, settled=settled, crossing=share) for share in (0.5, 1.0))
    tested, elsewhere = np.array([[3.0, 5.0, 3.0]]), np.array([[3.0, 5.0, 10.0]])
    there, away = (np.abs(half.undecided(at, V)) for at in (tested, elsewhere))
    assert np.max(away) > 0.01
    assert np.max(there) < 0.5 * np.max(away)
    gone = half.owed(elsewhere, V) - half.unsettled(elsewhere, V)
    np.testing.assert_allclose(gone, -0.5 * half.undecided(elsewhere, V))
    np.testing.assert_array_equal(sure.owed(elsewhere, V), sure.unsettled(elsewhere, V))
    narrow, wide = (np.sqrt(np.einsum("nss->ns", one.covariance(elsewhere, V))) for one in (sure, half))
    assert np.all(wide >= np.hypot(narrow, 0.5 * away) * 0.999)


def test_a_map_without_it_owes_nothing_for_it() -> None:
    tests = [Tested("RL-03", {"lsc": n, "hsc": 5}, made_curve(lsc=n), "2026-03-01") for n in (0, 10)]
    plain = fit_hydraulic(gather("compression", AXES[:2], tests))
    np.testing.assert_array_equal(plain.undecided(np.array([[5.0, 5.0]]), V), 0.0)
