"""Stand-in settings: every click scored, exactly."""

from __future__ import annotations

from itertools import product

import numpy as np

from dynoan.analysis.clickmap.asked.equivalent import common_speeds, equivalents
from dynoan.analysis.clickmap.assumptions.data import LEAST_FORCE
from tests.made import made_curve, made_map

MAPS = [made_map(pack, last=5) for pack in ("gravel", "mixed", "tarmac")]


def test_a_setting_of_the_same_pack_is_its_own_stand_in():
    best = equivalents(made_curve("mixed", 5, 2, 4, 3), MAPS)[0]
    assert best.pack == "mixed"
    assert best.from_closed == {"lsc": 5, "hsc": 2, "lsr": 4, "hsr": 3}
    assert best.worst < 0.5


def test_the_best_is_the_best_of_all_clicks_by_brute_force():
    wanted, map = made_curve("gravel", 3, 3, 3, 3), MAPS[1]
    best = equivalents(wanted, [map], count=1)[0]
    worst = []
    for clicks in product(range(6), repeat=4):
        setting = dict(zip(("lsc", "hsc", "lsr", "hsr"), clicks, strict=True))
        off: list[float] = []
        for direction, sign in (("compression", 1), ("rebound", -1)):
            speeds = common_speeds(wanted, direction, map.direction(direction))
            true = np.abs(wanted(sign * speeds))
            off += list(np.abs(np.abs(map.force(setting, sign * speeds)[0]) - true) / np.maximum(true, LEAST_FORCE))
        worst.append(max(off) + 0.1 * float(np.mean(off)))
    np.testing.assert_allclose((best.worst + 0.1 * best.mean) / 100, min(worst), rtol=1e-6)


def test_where_it_is_worst_is_named():
    best = equivalents(made_curve("gravel", 0, 0, 0, 0), [MAPS[2]], count=1)[0]
    assert best.worst_direction in ("compression", "rebound")
    speed = np.array([best.worst_speed if best.worst_direction == "compression" else -best.worst_speed])
    true = np.abs(made_curve("gravel", 0, 0, 0, 0)(speed))
    off = abs(abs(MAPS[2].force(best.from_closed, speed)[0]) - true) / np.maximum(true, LEAST_FORCE)
    np.testing.assert_allclose(100 * off[0], best.worst, rtol=1e-6)
