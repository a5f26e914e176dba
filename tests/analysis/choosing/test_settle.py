"""What the targets do not decide stays as it is on the car, and springs that would fit are found wherever they are."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from dynoan.analysis.choosing.advice import spring_that_fits
from dynoan.analysis.choosing.aims import CornerAim, Group, Place, WantedRatio
from dynoan.analysis.choosing.assumptions import STAY
from dynoan.analysis.choosing.choose import plans
from dynoan.analysis.choosing.one_pack import Rules
from dynoan.model.car import Corner
from tests.made import made_map

CORNER = Corner("rl", mass=240.0, unsprung=32.0, spring=38e3, spring_ratio=0.9, shock_ratio=0.88, pack="gravel")
NOW = {"lsc": 4, "hsc": 5, "lsr": 4, "hsr": 5}
LAST = 10


def place(*wanted: WantedRatio, corner: Corner = CORNER, now: dict[str, int] | None = NOW) -> Place:
    return Place("rear", (CornerAim(corner, wanted, now=now),))


def best(at: Place, packs: tuple[str, ...] = ("gravel", "mixed"), stay: float = STAY):
    maps = [made_map(name, LAST) for name in packs]
    return plans([Group("rear", (at,))], maps, Rules(stay=stay))[0].choices[0]


def ratio_now(direction: str, level: str) -> float:
    one = plans(
        [Group("rear", (place(WantedRatio("compression", 0.05, 0.3)),))], [made_map("gravel", LAST)], Rules(within=0)
    )[0].choices[0]
    return one.ratio[direction, level].value


class TestUndecidedStays:
    def test_rebound_that_nothing_is_wanted_of_stays_and_so_does_the_pack(self):
        wanted = WantedRatio("compression", 0.05, 1.25 * ratio_now("compression", "low"))
        found = best(place(wanted))
        assert found.pack == "gravel"
        assert (found.clicks["lsr"], found.clicks["hsr"]) == (NOW["lsr"], NOW["hsr"])
        assert found.clicks["lsc"] < NOW["lsc"]  # more low-speed damping is fewer clicks open
        assert found.miss < 0.02

    def test_without_the_rule_rebound_runs_away(self):
        """Why the rule is there: the least sensitive setting lies at an end."""
        found = best(place(WantedRatio("compression", 0.05, 1.25 * ratio_now("compression", "low"))), stay=0.0)
        assert found.clicks["lsr"] != NOW["lsr"]

    def test_a_car_that_has_what_is_wanted_is_left_alone(self):
        wanted = [
            WantedRatio(d, v, ratio_now(d, at))
            for d in ("compression", "rebound")
            for v, at in ((0.05, "low"), (0.25, "high"))
        ]
        assert best(place(*wanted)).clicks == NOW

    def test_left_and_right_do_not_part_over_what_is_not_asked(self):
        wanted = 1.2 * ratio_now("compression", "low")
        masses = [replace(CORNER, name=n, mass=m) for n, m in (("rl", 232.0), ("rr", 250.0))]
        clicks = [best(place(WantedRatio("compression", 0.05, wanted), corner=c)).clicks for c in masses]
        assert clicks[0]["hsc"] == clicks[1]["hsc"] == NOW["hsc"]

    def test_without_clicks_on_the_car_nothing_is_held(self):
        found = best(place(WantedRatio("compression", 0.05, 0.4), now=None))
        assert set(found.clicks) == set(NOW)


class TestSprings:
    @pytest.mark.parametrize("factor", [0.08, 0.5, 1.7, 6.0])
    def test_springs_are_found_wherever_a_rate_brings_a_fit(self, factor):
        """What a setting gives on springs `factor` times as stiff is wanted of today's: that rate must be found."""
        base = place(*(WantedRatio(d, v, 1.0) for d in ("compression", "rebound") for v in (0.05, 0.25)))
        sprung = replace(
            base, aims=tuple(replace(a, corner=replace(a.corner, spring=CORNER.spring * factor)) for a in base.aims)
        )
        there = plans([Group("rear", (sprung,))], [made_map("gravel", LAST)], Rules(within=0))[0].choices[0]
        wanted = [WantedRatio(k[0], 0.05 if k[1] == "low" else 0.25, b.value) for k, b in there.ratio.items()]
        found = spring_that_fits(
            [Group("rear", (place(*wanted),))], [made_map("gravel", LAST)], Rules(tolerance=0.02, within=0)
        )
        assert found is not None
        assert found.factor == pytest.approx(factor, rel=0.05)  # within twice the tolerance of a ratio
        assert found.plan.fits

    def test_none_where_the_shape_is_in_the_way(self):
        steep = [WantedRatio("compression", 0.05, 0.05), WantedRatio("compression", 0.25, 1.5)]
        found = spring_that_fits([Group("rear", (place(*steep),))], [made_map("gravel", LAST)], Rules(tolerance=0.05))
        force = made_map("gravel", LAST).compression
        assert found is None
        shape = force.at(np.array([0.05, 0.25]))[0]
        assert (shape[..., 1] / shape[..., 0]).max() / 5 < 1.5 / 0.05 * 0.95 / 1.05  # no click is that progressive
