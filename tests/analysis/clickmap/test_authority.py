"""What a click is worth, on maps that are the truth of the invented packs."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from dynoan.analysis.clickmap.asked.authority import Coverage, authority, authority_shown, coverage, dead_clicks, told
from dynoan.analysis.clickmap.trends.openings import tables
from dynoan.model.clickmap import Oddity
from tests.made import SPEEDS, made_map

MAP = made_map("gravel", last=8)


def test_newtons_a_click_times_clicks_is_the_whole_turn():
    one = next(a for a in authority(MAP) if (a.adjuster, a.direction) == ("hsc", "compression"))
    base = MAP.complete({})
    closed = MAP.force(base | {"hsc": 0}, one.speeds)[0]
    opened = MAP.force(base | {"hsc": 8}, one.speeds)[0]
    np.testing.assert_allclose(one.newtons * 8, closed - opened, rtol=1e-9)


def test_percent_a_click_compounds_to_the_whole_turn():
    one = next(a for a in authority(MAP) if (a.adjuster, a.direction) == ("lsr", "rebound"))
    base = MAP.complete({})
    closed = MAP.force(base | {"lsr": 0}, -one.speeds)[0]
    opened = MAP.force(base | {"lsr": 8}, -one.speeds)[0]
    np.testing.assert_allclose((1 - one.percent / 100) ** 8, opened / closed, rtol=1e-9)


def test_cross_talk_is_told_from_what_an_adjuster_is_meant_for():
    found = {(a.adjuster, a.direction): a.intended for a in authority(MAP)}
    assert found[("lsr", "compression")] is False
    assert found[("lsc", "compression")] is True
    assert ("lsc", "rebound") not in found


def test_low_speed_adjusters_cover_low_speeds_and_high_speed_ones_high_speeds():
    spans = {(c.adjuster, c.direction): c for c in coverage(authority(MAP))}
    low, high = spans[("lsc", "compression")], spans[("hsc", "compression")]
    assert isinstance(low, Coverage)
    assert low.low < high.low
    assert low.high < high.high


def test_dead_clicks_are_found_as_one_run():
    table = MAP.compression
    force = table.force.copy()
    force[5:] = force[5]  # the needle is out of the way from click 5 on
    stuck = replace(MAP, compression=replace(table, force=force))
    runs = dead_clicks(stuck)
    assert [(r.adjuster, r.first, r.last) for r in runs] == [("lsc", 5, 8)]
    assert dead_clicks(MAP) == ()


def test_dead_clicks_are_said_no_further_than_tests_reach():
    force = MAP.compression.force.copy()
    force[5:] = force[5]
    stuck = replace(MAP, compression=replace(MAP.compression, force=force))

    def told(last: int) -> list[tuple[int, int]]:
        reached = (*(t for t in MAP.tested if t["lsc"] < last), {**MAP.complete({}), "lsc": last})
        return [(r.first, r.last) for r in dead_clicks(replace(stuck, tested=reached))]

    assert told(6) == [(5, 6)]
    assert told(5) == []


def test_one_click_that_does_less_than_the_next_is_no_dead_range():
    force = MAP.compression.force.copy()
    force[1] = force[0]
    stuck = replace(MAP, compression=replace(MAP.compression, force=force))
    assert dead_clicks(stuck) == ()
    force[2] = force[0]
    assert [(r.adjuster, r.first, r.last) for r in dead_clicks(stuck)] == [("lsc", 0, 2)]


@pytest.mark.parametrize("turned", [False, True])
def test_an_adjuster_may_be_dead_over_nearly_half_its_range_at_one_end(turned):
    wanted = np.clip(np.arange(21) / 12.0, 0.0, 1.0)
    wanted = 1.0 - wanted[::-1] if turned else wanted
    assert any(way.kind == "dead clicks" and np.allclose(way.table, wanted) for way in tables(20))


def test_an_adjuster_that_no_test_moved_has_no_say_and_no_dead_clicks():
    still = replace(MAP, tested=tuple(dict(t) | {"hsc": 3} for t in MAP.tested))
    assert not next(a for a in authority(still) if a.adjuster == "hsc").known
    assert all(c.adjuster != "hsc" for c in coverage(authority(still)))
    assert len(SPEEDS) == still.compression.force.shape[-1]


def test_speeds_are_round_in_the_units_people_are_shown():
    metric, us = (authority_shown(MAP, None, units) for units in ("metric", "us"))
    assert [one.adjuster for one in us] == [one.adjuster for one in metric]
    np.testing.assert_allclose(us[0].speeds / 0.0254, np.round(us[0].speeds / 0.0254), rtol=1e-12)
    np.testing.assert_array_equal(metric[0].speeds, authority(MAP)[0].speeds)
    same = authority(MAP, speeds=us[0].speeds.tolist())
    np.testing.assert_array_equal(us[0].newtons, same[0].newtons)
    assert us[0].speeds[-1] <= MAP.compression.top_speed * 1.001


@pytest.mark.parametrize(
    ("oddities", "shown"), [((), False), ((Oddity("cross-talk", "lsr", "lsr moves compression"),), True)]
)
def test_cross_talk_is_shown_as_a_fact_only_where_the_tests_are_sure_of_it(oddities, shown):
    map = replace(MAP, oddities=oddities)
    crossed = [one.adjuster for one in told(map, authority(map)) if not one.intended]
    assert crossed == (["lsr"] if shown else [])
