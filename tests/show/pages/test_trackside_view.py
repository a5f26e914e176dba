"""What the trackside page carries: tables that lose nothing one could see, baselines, sizes, refusals."""

import json
from dataclasses import replace
from html import unescape

import numpy as np
import pytest

from dynoan.errors import CallError
from dynoan.model.car import Targets
from dynoan.model.example_numbers import TOLD
from dynoan.show.pages.trackside import payload as trackside_payload
from dynoan.show.pages.trackside.build import build_trackside
from dynoan.show.pages.trackside.packing import packed, unpacked
from dynoan.show.pages.trackside.payload import payload, shown_velocities
from dynoan.show.pages.trackside.tables import pack_table
from tests.made import made_map
from tests.show.cars import EVIL, FRONT, made_car, made_view, shock_of


def numbers(table, column, kind):
    whole = unpacked(column["data"], tuple(table["shape"]), kind).ravel()
    return whole * column["scale"] + column.get("from", 0.0)


@pytest.fixture(scope="module")
def click_map():
    return made_map("mixed", 8)


@pytest.mark.parametrize("direction", ["compression", "rebound"])
def test_forces_at_the_shown_velocities_are_the_maps_within_a_sixteenth_of_a_newton(click_map, direction):
    table = pack_table(click_map, (0.05, 0.25), 10)[direction]
    truth, half = click_map.direction(direction).at([0.05, 0.25])
    for i, entry in enumerate(table["exact"]):
        assert np.max(np.abs(numbers(table, entry["force"], "<u2") - truth[..., i].ravel())) < 0.06
        assert np.max(np.abs(numbers(table, entry["half"], "<u2") - half[..., i].ravel())) < 0.06


def test_drawn_speeds_lie_within_a_pixel_of_the_map(click_map):
    table = pack_table(click_map, (0.05, 0.25), 14)["rebound"]
    truth, _ = click_map.rebound.at([c["velocity"] for c in table["drawn"]])
    for i, column in enumerate(table["drawn"]):
        error = np.max(np.abs(numbers(table, column, "<u1") - truth[..., i].ravel()))
        assert error < np.max(truth) / 300  # a curve is at most 360 pixels high


def test_a_car_of_example_numbers_is_called_so_at_the_top():
    view = made_view(("mixed",))
    before, _, _ = unescape(build_trackside(replace(view, example=True))).partition('class="work"')
    assert TOLD in before
    assert TOLD not in unescape(build_trackside(view))


def test_a_velocity_beyond_the_tests_is_marked(click_map):
    table = pack_table(click_map, (0.05, 0.8), 6)["compression"]
    assert [e["beyond"] for e in table["exact"]] == [False, True]


def test_velocities_are_those_of_both_axles():
    car = made_car()
    assert shown_velocities(car) == (0.05, 0.25)
    car = replace(car, targets={"front": Targets(low_velocity=0.04)})
    assert shown_velocities(car) == (0.04, 0.05, 0.25)


def with_corner(view, name, **changes):
    corner = replace(view.car.corners[name], **changes)
    return replace(view, car=replace(view.car, corners=view.car.corners | {name: corner}))


def test_a_corner_without_a_setting_is_not_known():
    view = with_corner(made_view(("gravel",)), "rl", pack=None, clicks={})
    corner = payload(view)["corners"]["rl"]
    assert (corner["pack"], corner["clicks"], corner["other"]) == (None, {}, None)


def test_a_pack_that_the_page_lacks_is_named_and_no_other_put_in_its_place():
    view = with_corner(made_view(("gravel",)), "rl", pack="wet", clicks={"lsc": 3})
    corner = payload(view)["corners"]["rl"]
    assert (corner["pack"], corner["clicks"]) == (None, {})
    assert corner["other"] == {"pack": "wet", "clicks": {"lsc": 3}}


def test_clicks_the_car_leaves_out_are_not_known():
    view = with_corner(made_view(("gravel",)), "fl", clicks={"lsc": 3})
    clicks = payload(view)["corners"]["fl"]["clicks"]
    assert clicks == {name: 3 if name == "lsc" else None for name in FRONT}


def test_a_setups_clicks_are_those_written_down():
    view = made_view(("gravel",))
    bare = replace(view.setups[1].car.corners["fl"], clicks={"hsr": 2})
    car = replace(view.car, corners=view.car.corners | {"fl": bare})
    view = replace(view, setups=(replace(view.setups[1], car=car),))
    assert payload(view)["setups"][0]["corners"]["fl"]["clicks"] == {"hsr": 2}


@pytest.mark.parametrize("kind", ["<u1", "<u2"])
@pytest.mark.parametrize("shape", [(1,), (7,), (5, 4), (3, 4, 6)])
def test_packing_loses_nothing(kind, shape):
    top = np.iinfo(kind).max
    whole = np.random.default_rng(5).integers(0, top, size=shape, endpoint=True)
    whole.flat[0] = top
    assert np.array_equal(unpacked(packed(whole, kind), shape, kind), whole)


def test_tables_grow_coarser_before_they_grow_too_large(monkeypatch):
    view = made_view(("gravel", "mixed"))
    fine = len(payload(view)["packs"][0]["compression"]["drawn"])
    monkeypatch.setattr(trackside_payload, "TABLE_AIM", 22_000)
    assert len(payload(view)["packs"][0]["compression"]["drawn"]) < fine
    monkeypatch.setattr(trackside_payload, "TABLE_LIMIT", 1000)
    with pytest.raises(CallError, match="name fewer") as large:
        payload(view)
    assert large.value.need == "fewer packs"


@pytest.mark.parametrize(("packs", "most"), [(2, 560_000), pytest.param(8, 1_000_000, marks=pytest.mark.thorough)])
def test_packs_of_twenty_four_clicks_stay_under_a_megabyte(packs, most):
    """Eight do; both directions over three adjusters each, and no two clicks of an adjuster worth the same."""
    big, rough = made_map("gravel", 24), np.random.default_rng(3)
    names = [f"pack {n}" for n in range(packs)]
    maps = {}
    for name in names:
        sides = {d: roughened(big.compression, rough) for d in ("compression", "rebound")}
        sides["rebound"] = replace(sides["rebound"], adjusters=("lsr", "hsr", "lsc"))
        maps[name] = replace(big, pack=name, **sides)
    view = made_view(("gravel",))
    counting = {corner: {name: shock_of(corner) for name in names} for corner in view.car.corners}
    view = replace(view, maps=maps, counting=counting)
    assert len(build_trackside(view).encode()) < most


def roughened(table, rough):
    """A direction whose adjusters do more at one click and less at another."""
    times = np.ones(table.force.shape[:-1])
    for axis, last in enumerate(times.shape):
        by_click = 1 + 0.01 * rough.standard_normal(last)
        times *= by_click.reshape([-1 if i == axis else 1 for i in range(times.ndim)])
    return replace(table, force=table.force * times[..., None], half_width=table.half_width * times[..., None])


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
