"""What the trackside page carries: tables that lose nothing one could see, baselines, sizes, refusals."""

import base64
import json
from dataclasses import replace
from html import unescape

import numpy as np
import pytest

from dynoan.errors import CallError
from dynoan.model.car import Targets
from dynoan.show.pages.trackside import view as trackside_view
from dynoan.show.pages.trackside.build import build_trackside
from dynoan.show.pages.trackside.tables import pack_table
from dynoan.show.pages.trackside.view import payload, shown_velocities
from tests.made import made_map
from tests.show.cars import EVIL, FRONT, LAST, made_car, made_view


def unpacked(column, kind):
    return np.frombuffer(base64.b64decode(column["data"]), dtype=kind) * column["scale"] + column.get("from", 0.0)


@pytest.fixture(scope="module")
def click_map():
    return made_map("mixed", 8)


@pytest.mark.parametrize("direction", ["compression", "rebound"])
def test_forces_at_the_shown_velocities_are_the_maps_within_a_sixteenth_of_a_newton(click_map, direction):
    table = pack_table(click_map, (0.05, 0.25), 10)[direction]
    truth, half = click_map.direction(direction).at([0.05, 0.25])
    for i, entry in enumerate(table["exact"]):
        assert np.max(np.abs(unpacked(entry["force"], "<u2") - truth[..., i].ravel())) < 0.06
        assert np.max(np.abs(unpacked(entry["half"], "<u2") - half[..., i].ravel())) < 0.06


def test_drawn_speeds_lie_within_a_pixel_of_the_map(click_map):
    table = pack_table(click_map, (0.05, 0.25), 14)["rebound"]
    truth, _ = click_map.rebound.at([c["velocity"] for c in table["drawn"]])
    for i, column in enumerate(table["drawn"]):
        error = np.max(np.abs(unpacked(column, "u1") - truth[..., i].ravel()))
        assert error < np.max(truth) / 300  # a curve is at most 360 pixels high


def test_a_velocity_beyond_the_tests_is_marked(click_map):
    table = pack_table(click_map, (0.05, 0.8), 6)["compression"]
    assert [e["beyond"] for e in table["exact"]] == [False, True]


def test_velocities_are_those_of_both_axles():
    car = made_car()
    assert shown_velocities(car) == (0.05, 0.25)
    car = replace(car, targets={"front": Targets(low_velocity=0.04)})
    assert shown_velocities(car) == (0.04, 0.05, 0.25)


def test_a_corner_without_a_setting_starts_where_most_tests_sat():
    view = made_view(("gravel",))
    bare = replace(view.car.corners["rl"], pack=None, clicks={})
    view = replace(view, car=replace(view.car, corners=view.car.corners | {"rl": bare}))
    corner = payload(view)["corners"]["rl"]
    usual = view.maps["gravel"].complete({})
    assert corner["pack"] == "gravel"
    assert corner["clicks"]["lsc"] == usual["lsc"]
    assert corner["clicks"]["lsr"] == LAST - usual["lsr"]  # the rear's rebound counts from soft


def test_clicks_the_car_leaves_out_are_filled_in():
    view = made_view(("gravel",))
    some = replace(view.car.corners["fl"], clicks={"lsc": 3})
    view = replace(view, car=replace(view.car, corners=view.car.corners | {"fl": some}))
    clicks = payload(view)["corners"]["fl"]["clicks"]
    assert clicks["lsc"] == 3
    assert set(clicks) == set(FRONT)


def test_tables_grow_coarser_before_they_grow_too_large(monkeypatch):
    view = made_view(("gravel", "mixed"))
    fine = len(payload(view)["packs"][0]["compression"]["drawn"])
    monkeypatch.setattr(trackside_view, "TABLE_LIMIT", 110_000)
    assert len(payload(view)["packs"][0]["compression"]["drawn"]) < fine
    monkeypatch.setattr(trackside_view, "TABLE_LIMIT", 1000)
    with pytest.raises(CallError, match="name fewer") as large:
        payload(view)
    assert large.value.need == "fewer packs"


def test_twenty_four_clicks_and_three_packs_stay_under_two_megabytes():
    big = made_map("gravel", 24)
    wide = replace(big, rebound=replace(big.compression, adjusters=("lsr", "hsr", "lsc")))
    view = made_view(("gravel", "mixed", "tarmac"))
    view = replace(view, maps={p: replace(wide, pack=p) for p in view.maps})
    assert len(build_trackside(view).encode()) < 2_000_000


def test_no_pack_or_no_corner_is_refused():
    view = made_view(("gravel",))
    with pytest.raises(CallError, match="tested pack"):
        payload(replace(view, maps={}))


def test_page_holds_one_policy_and_names_cannot_end_the_data():
    page = build_trackside(made_view((EVIL, "</script><b>")))
    assert page.count("Content-Security-Policy") == 1
    assert "default-src 'none'" in unescape(page)
    assert EVIL not in page
    data = page.split('id="data">')[1].split("</script>")[0]
    assert {p["name"] for p in json.loads(data)["packs"]} == {EVIL, "</script><b>"}
