"""The trackside page in a browser: nothing on it that nobody said, nothing lost that somebody typed."""

import random
from dataclasses import replace

import pytest

from dynoan.analysis.choosing.aims import WantedRatio
from dynoan.analysis.choosing.assumptions import TOLERANCE
from dynoan.analysis.choosing.choice import Reached, within_tolerance
from dynoan.analysis.clickmap.at_clicks import curve_at
from dynoan.analysis.corner.ratios import corner_ratios
from dynoan.jobs.trackside import car_parts
from dynoan.library.setup_file import setup_from_text
from dynoan.show.pages.launch_table import LaunchCell, LaunchFigures, LaunchRow
from dynoan.show.pages.trackside.build import build_trackside
from dynoan.show.pages.worn import Worn
from tests.browser.conftest import LAYOUT_FAULTS
from tests.browser.test_trackside import go, numbers, press
from tests.show.cars import LAST, made_view, shock_of

pytestmark = pytest.mark.browser
WORN = Worn("RR-02", ("rr",), "Rear right: RR-02 changed between 2025-10-04 and 2026-03-15",
            "RR-02: less rebound force, gas lost since 2025-10-04", ("Less rebound force: -23 % at 50 mm/s",),
            ("Less rebound force: thinner oil or wear.",))  # fmt: skip
LAUNCH = LaunchFigures(
    ("gravel", "dry tarmac"),
    (LaunchRow("Nose: highest rise, drive alone [mm]", (LaunchCell("14.3", "14.2 to 14.4"), LaunchCell("25.8", ""))),),
    (),
    "The bands hold it 19 times of 20.",
    ("Gas rate not stated.",),
)


def bare(view, corner, **on):
    changed = replace(view.car.corners[corner], **({"pack": None, "clicks": {}} | on))
    return replace(view, car=replace(view.car, corners=view.car.corners | {corner: changed}))


@pytest.fixture(scope="module")
def view():
    plain = made_view(worn=(WORN,), launch=LAUNCH)
    car_text, corner_text = car_parts(plain.car)
    return replace(plain, car_text=car_text, corner_text=corner_text)


@pytest.fixture(scope="module")
def html(view):
    return build_trackside(view)


def saved(page):
    page.fill("#note-date", "2026-06-13")
    page.click("#copy")
    return page.input_value("#written-text")


def test_a_corner_of_which_nothing_is_said_shows_that_and_is_not_written(opened, view):
    page = opened(build_trackside(bare(view, "fl")))
    go(page, "fl")
    assert page.inner_text("#pack option:checked") == "not known"
    assert page.locator("#knobs .knob").count() == 0
    assert page.inner_text("#standing").startswith("Not known")
    assert numbers(page.inner_text("#compression-low .ratio")) == []
    assert "not known" in page.inner_text('[data-row="rebound-low"] td')
    assert numbers(page.inner_text('[data-corner="fl"]')) == []
    text = saved(page)
    corners = setup_from_text(text, "page.toml", "noted").car.corners
    assert (corners["fl"].pack, dict(corners["fl"].clicks)) == (None, {})
    assert corners["fr"].pack == "gravel"
    assert "FL" in page.inner_text("#saved")
    assert not page.seen.complaints


def test_a_pack_that_the_page_lacks_stays_what_it_is(opened, view):
    page = opened(build_trackside(bare(view, "rl", pack="wet", clicks={"lsc": 3})))
    go(page, "rear")
    assert "wet" in page.inner_text("#standing")
    go(page, "rl")
    assert "wet (not on this page)" in page.inner_text("#pack option:checked")
    corners = setup_from_text(saved(page), "page.toml", "noted").car.corners
    assert (corners["rl"].pack, dict(corners["rl"].clicks)) == ("wet", {"lsc": 3})


def test_clicks_become_known_one_by_one_by_hand_alone(opened, view):
    page = opened(build_trackside(bare(view, "fl")))
    go(page, "fl")
    page.select_option("#pack", "mixed")
    assert page.locator("[data-adjuster=lsc] output").inner_text() == "–"
    for adjuster in ("lsc", "hsc", "lsr"):
        press(page, adjuster, 1)
        assert page.inner_text("#standing").startswith("Not known")
    assert "clicks" in saved(page)
    assert set(setup_from_text(saved(page), "p.toml", "n").car.corners["fl"].clicks) == {"lsc", "hsc", "lsr"}
    press(page, "hsr", 1)
    assert not page.inner_text("#standing").startswith("Not known")
    assert len(numbers(page.inner_text("#compression-low .ratio"))) == 1


def test_a_temperature_is_taken_with_and_without_its_unit(opened, html):
    page = opened(html)
    us = [(f"64 {form}", 17.777778) for form in ("F", "°F", "deg F", "degrees F", "degrees Fahrenheit", "˚F")]
    for typed, written in (("18", 18.0), ("18 °C", 18.0), *us, ("-3,5C", -3.5)):
        page.fill("#note-temperature", typed)
        found = setup_from_text(saved(page), "p.toml", "n").temperature
        assert found == pytest.approx(written, abs=1e-4), typed


def test_a_temperature_that_is_none_is_told_at_its_field_and_nothing_is_saved(opened, html):
    page = opened(html)
    page.fill("#note-temperature", "18 volts")
    page.click("#copy")
    assert page.is_visible("#note-temperature-fault")
    assert "18 °C" in page.inner_text("#note-temperature-fault")
    assert page.input_value("#note-temperature") == "18 volts"
    assert page.input_value("#written-text") == ""
    assert page.evaluate("document.activeElement.id") == "note-temperature"


def test_springs_are_taken_with_any_unit_of_the_library(opened, html):
    page = opened(html)
    go(page, "fl")
    field = page.locator("[data-load=spring] input")
    us = ("lb/in", "lbs", "lb per in", "lbs per inch", "#/in", "#", "pounds per inch", "lb/in.", "lbf/in", "lbs./in.")
    for typed, spring in (
        ("47.5 N/mm", 47.5),
        *((f"{270 + i} {u}", (270 + i) * 0.1751268) for i, u in enumerate(us)),
        ("47,5", 47.5),
    ):
        field.fill(typed)
        field.press("Enter")
        assert float(field.input_value()) == pytest.approx(spring, abs=0.051), typed
        assert page.is_hidden("#spring-fault")


def test_a_comma_that_may_set_thousands_apart_is_asked_about(opened, html):
    page = opened(html)
    go(page, "fl")
    field = page.locator("[data-load=mass] input")
    before = page.inner_text("#rebound-low .ratio")
    field.fill("1,190 lb")
    page.locator("#note-result").focus()
    assert "write 1190 or 1.190" in page.inner_text("#mass-fault")
    assert page.inner_text("#rebound-low .ratio") == before


def test_a_refused_entry_stays_with_its_fault_through_turning_the_phone_and_a_reload(opened, html):
    page = opened(html, own=True)
    go(page, "fl")
    field = page.locator("[data-load=spring] input")
    field.fill("stiff")
    page.locator("#note-result").focus()
    for _ in range(2):
        page.set_viewport_size({"width": 640, "height": 360})
        page.wait_for_timeout(60)
        assert field.input_value() == "stiff"
        assert "Not taken" in page.inner_text("#spring-fault")
        page.set_viewport_size({"width": 360, "height": 640})
        page.wait_for_timeout(60)
    page.evaluate("scrollTo(0, 0)")
    assert page.evaluate(LAYOUT_FAULTS) == []
    page.reload()
    go(page, "fl")
    assert page.locator("[data-load=spring] input").input_value() == "stiff"
    assert page.is_visible("#spring-fault")


def test_what_is_being_typed_survives_turning_the_phone(opened, html):
    page = opened(html, own=True)
    field = page.locator("[data-load=mass] input")
    field.fill("27")
    page.set_viewport_size({"width": 640, "height": 360})
    page.wait_for_timeout(60)
    assert field.input_value() == "27"
    page.fill("#note-remarks", "half a sent")
    page.wait_for_timeout(200)  # nobody reloads sooner, and the browser stores from another process
    page.reload()
    assert page.input_value("#note-remarks") == "half a sent"


def test_one_undo_takes_back_everything(opened, html):
    page = opened(html)
    seen_by_people = "#whole td, output, #loads input, select"

    def state():
        return page.evaluate(
            "w => [...document.querySelectorAll(w)].map(e => e.value || e.textContent)", seen_by_people
        )

    seen = [state()]
    steps = (
        lambda: press(page, "lsc", 1),
        lambda: page.select_option("#pack", "mixed"),
        lambda: page.click("#choices .entry:nth-child(2) button"),
        lambda: page.click("#setups .entry:nth-child(1) button"),
        lambda: page.select_option("#surface", "wet tarmac"),
        lambda: page.click("[data-load=spring] button >> nth=1"),
        lambda: page.click("#reset"),
    )
    for step in steps:
        step()
        seen.append(state())
    for before in reversed(seen[:-1]):
        page.locator(".undo").first.click()
        assert state() == before
    assert page.locator(".undo").first.get_attribute("aria-disabled") == "true"


def test_a_choice_says_whether_it_is_on_the_car(opened, html, view):
    page = opened(html)
    mark = page.locator("#choices .entry:nth-child(1) .mark")
    page.click("#choices .entry:nth-child(1) button")
    assert mark.is_visible()
    press(page, "lsc", 1)
    assert not mark.is_visible(), "a click was turned"
    page.locator(".undo").first.click()
    assert mark.is_visible()


def test_baseline_and_earlier_setups_reach_the_whole_car_and_say_so(opened, html, view):
    page = opened(html)
    assert page.inner_text("#reset") == "Whole car to baseline"
    assert page.inner_text("#setups .entry button >> nth=0") == "Use on whole car"
    assert page.inner_text("#choices .entry button >> nth=0") == "Use on front"
    before = page.inner_text("#whole")
    page.click("#setups .entry:nth-child(2) button")
    assert page.inner_text("#whole") != before
    go(page, "fl")
    page.click("#reset")
    assert page.inner_text("#whole") == before


def rule(ratio, target):
    """What the page should say of a ratio, by the rule that `choose` goes by."""
    wide = (ratio.high - ratio.low) / 2 / target > TOLERANCE
    fits, sure = within_tolerance([Reached("fl", WantedRatio("rebound", 0.05, target), ratio)], TOLERANCE)
    out = ratio.low / target - 1 > TOLERANCE or ratio.high / target - 1 < -TOLERANCE
    if sure:
        return "met"
    if wide and not out:
        return "cannot tell apart"
    return "likely" if fits else "off"


@pytest.mark.parametrize("settings", [4, pytest.param(12, marks=pytest.mark.thorough)])
def test_met_is_the_rule_of_fits(opened, view, settings):
    rng, told = random.Random(16), set()
    for width in (0.4, 1.0, 5.0):
        maps = {n: widened(m, width) for n, m in view.maps.items()}
        page = opened(build_trackside(replace(view, maps=maps)))
        go(page, "fl")
        on = view.car.corners["fl"].clicks
        for _ in range(settings):
            clicks = {}
            for adjuster in ("lsc", "hsc", "lsr", "hsr"):
                clicks[adjuster] = rng.randint(0, LAST)
                press(page, adjuster, clicks[adjuster] - on[adjuster])
            on = clicks
            corner = view.car.corners["fl"]
            ratios = corner_ratios(corner, curve_at(maps["gravel"], shock_of("fl").to_closed(clicks), clicks=clicks))
            for d in ("compression", "rebound"):
                for level in ("low", "high"):
                    target = getattr(getattr(view.car.targets["front"], d), level)
                    text = page.inner_text(f"#{d}-{level} .aim b")
                    found = rule(getattr(ratios.side(d), level), target)
                    told.add(found)
                    assert text.split(",")[0] == found if found != "off" else text[0] in "+−0", (text, found)
    assert told == {"met", "likely", "off", "cannot tell apart"}


def widened(click_map, times):
    sides = {d: click_map.direction(d) for d in ("compression", "rebound")}
    return replace(click_map, **{d: replace(s, half_width=s.half_width * times) for d, s in sides.items()})


def test_a_changed_shock_stands_on_top_and_where_its_corner_is_looked_at(opened, html):
    page = opened(html)
    assert "RR-02 changed" in page.inner_text("main > :first-child")
    assert page.is_hidden("#weak")
    for where in ("rear", "rr"):
        go(page, where)
        assert "less rebound force" in page.inner_text("#weak")
    assert "shock changed" in page.inner_text('[data-corner="rr"]')
    assert page.evaluate(LAYOUT_FAULTS) == []


def test_launch_figures_stand_by_surface(opened, html, view):
    page = opened(html)
    assert "25.8" in page.inner_text(".launch")
    none = opened(build_trackside(replace(view, launch=None, no_launch="the car's file has no wheelbase")))
    assert "no wheelbase" in none.inner_text("#launch-title ~ p")
