"""Carrying keeps ratios: laws of scaling, and a way back to where one came from."""

from __future__ import annotations

from dataclasses import replace
from functools import cache
from itertools import product

import numpy as np
import pytest

from dynoan.analysis.choosing.assumptions import CLOSE
from dynoan.analysis.choosing.carry import Moved, carry
from dynoan.analysis.choosing.one_pack import Rules
from dynoan.analysis.corner.ratios import corner_ratios
from dynoan.model.car import Corner
from tests.made import made_curve
from tests.made import made_map as slow_map
from tests.often import often

made_map = cache(slow_map)
FL = Corner("fl", 268.0, 34.0, 45e3, 0.95, 0.92, tyre=210e3, pack="gravel")
CLICKS = {"lsc": 4, "hsc": 6, "lsr": 3, "hsr": 5}
AT = (0.05, 0.25)


def carried(after: Corner, *, inside: bool = False, maps=None, now=CLICKS):
    moved = Moved(FL, made_curve("gravel", **CLICKS), after, made_curve("gravel", **CLICKS), now)
    return carry("front", [moved], maps or [made_map("gravel", 10)], Rules(inside=inside, count=1), AT)


def test_no_change_keeps_the_clicks():
    found = carried(FL)
    assert found.choice.clicks == CLICKS
    (corner,) = found.corners
    assert corner.force_factor == 1.0
    for key, ratio in corner.before.items():
        assert corner.carried[key].value == pytest.approx(ratio, rel=1e-9)
        assert corner.untouched[key] == pytest.approx(ratio, rel=1e-9)
        assert corner.lost(key) == pytest.approx(0, abs=1e-9)


def test_force_goes_with_the_root_of_rate_and_mass():
    (corner,) = carried(replace(FL, spring=45e3 * 1.2, mass=34 + 234 * 0.9)).corners
    assert corner.force_factor == pytest.approx((1.2 * 0.9) ** 0.5, rel=1e-12)


def test_a_stiffer_spring_takes_clicks_in_and_loses_less_than_leaving_them():
    found = carried(replace(FL, spring=45e3 * 1.15))
    (corner,) = found.corners
    assert sum(found.choice.clicks.values()) < sum(CLICKS.values())
    worst = max(abs(corner.lost(key)) for key in corner.before)
    left = max(abs(corner.untouched[key] / corner.before[key] - 1) for key in corner.before)
    assert left == pytest.approx(1 - 1.15**-0.5, rel=1e-6)
    assert worst < left / 2


def test_the_smallest_turn_that_keeps_the_ratios_is_taken():
    """No setting with fewer clicks of turn at its most turned adjuster keeps every ratio within the close tolerance."""
    after = replace(FL, spring=45e3 * 1.12)
    found = carried(after)
    (corner,) = found.corners
    turned = max(abs(found.choice.clicks[n] - CLICKS[n]) for n in CLICKS)
    assert turned > 0
    assert max(abs(corner.lost(key)) for key in corner.before) <= CLOSE
    for clicks in product(*(range(max(c - turned + 1, 0), c + turned) for c in CLICKS.values())):
        ratios = corner_ratios(after, made_curve("gravel", *clicks)).secants()
        assert max(abs(ratios[key].value / corner.before[key] - 1) for key in ratios) > CLOSE


def test_tested_ground_is_kept_where_it_will_do():
    click_map = made_map("gravel", 10)
    near = replace(click_map, tested=({**CLICKS}, {n: c - 1 for n, c in CLICKS.items()}))
    assert carried(replace(FL, spring=45e3 * 1.05), maps=[near]).choice.standing != "outside"
    assert carried(replace(FL, spring=45e3 * 1.7), maps=[near]).choice.standing == "outside"


def test_a_motion_ratio_counts_once_as_the_shock_moves_faster_too():
    """The wheel feels R·F(R·v): at the same speed of the wheel the shock gives 1/1.1 of its force, at 1.1 its speed."""
    (corner,) = carried(replace(FL, shock_ratio=0.92 * 1.1)).corners
    assert corner.force_factor == pytest.approx(1.1**-1, rel=1e-12)


def test_another_pack_may_take_over():
    found = carried(replace(FL, spring=45e3 * 1.9), maps=[made_map("gravel", 10), made_map("mixed", 10)])
    assert found.choice.pack == "mixed"


def test_what_cannot_be_kept_is_told():
    found = carried(replace(FL, spring=45e3 * 6))
    assert not found.choice.fits
    assert found.choice.ends
    assert min(found.corners[0].lost(key) for key in found.corners[0].before) < -0.1


@pytest.mark.parametrize("after", often(1, [0.80, 0.70, 1.0]))
def test_another_motion_ratio_keeps_what_the_wheel_feels(after):
    """Force at the wheel at the same speed of the wheel, before and after: R·F(R·v), reckoned from the curves alone."""
    before = Corner("rl", 240.0, 32.0, 38e3, 0.9, 0.92, pack="gravel")
    last, clicks = 20, {"lsc": 8, "hsc": 9, "lsr": 8, "hsr": 9}
    changed = replace(before, shock_ratio=after)
    curve = made_curve("gravel", **clicks)
    moved = Moved(before, curve, changed, curve, now=clicks)
    found = carry("rl", [moved], [made_map("gravel", last)], Rules(), (0.05, 0.25))
    carried = made_curve("gravel", **found.choice.clicks)
    worst = 0.0
    for sign in (1.0, -1.0):
        wheel = sign * np.array([0.05, 0.25]) / 0.92  # where the shock was at the low and the high velocity
        was, now = (r * c(r * wheel) for r, c in ((0.92, curve), (after, carried)))
        worst = max(worst, float(np.max(np.abs(now / was - 1))))
    lost = max(abs(found.corners[0].lost(key)) for key in found.corners[0].carried)
    assert lost == pytest.approx(worst, abs=0.02)  # what it says it loses is what the wheel loses
