"""The trackside page in a browser: right numbers, nothing that overlaps, nothing that asks for a network."""

import random
import re
from dataclasses import replace

import numpy as np
import pytest

from dynoan.analysis.clickmap.at_clicks import curve_at
from dynoan.analysis.corner.ratios import corner_ratios
from dynoan.jobs.trackside import car_parts
from dynoan.library.setup_file import setup_from_text
from dynoan.model.clickmap import LossDoubt, ShockState
from dynoan.show.pages.trackside.build import LIMIT, build_trackside
from tests.browser.conftest import EVERY, LAYOUT_FAULTS, SIZES, SMALL_TARGETS, WEAK_EDGES, serious_faults
from tests.show.cars import EVIL, LAST, made_car, made_view, shock_of

pytestmark = pytest.mark.browser
PLACES = {"front": ("fl", "fr"), "rear": ("rl", "rr"), **{c: (c,) for c in ("fl", "fr", "rl", "rr")}}
TWENTY_UP = """key => { const b = document.querySelectorAll(`[data-load=${key}] button`)[1];
                         for (let i = 0; i < 20; i += 1) b.click(); }"""
SPOIL = """Object.keys(localStorage).forEach(k => localStorage.setItem(k, '{"now": {"fl": {"pack": "x"}}}'))"""
SNEAK_IN = """() => { const s = document.createElement('script'); s.textContent = 'window.hit = 1';
                      document.body.append(s); }"""
WORDS = {"tested": "Tested", "between": "Between", "outside": "Outside"}


def strengths(table):
    """One shock a little stronger than the mean, the more the faster; the other weaker, less surely known far out."""
    rise = np.linspace(0.0, 0.02, len(table.speeds))
    states = np.array([1.03 + rise, 0.96 - rise])
    ends = tuple(np.array([0.0, n - 1.0]) for n in table.force.shape[:-1])
    doubt = np.zeros((2, *[2] * len(ends), 2))
    doubt[1, ..., 0] = 0.001 * np.arange(2 ** len(ends)).reshape([2] * len(ends))
    return replace(table, scales=states, states=states, state_variances=np.array([0.0, 1e-4]), spread=0.01,
                   losses=LossDoubt(ends, np.array([0.02, 0.4]), doubt))  # fmt: skip


@pytest.fixture(scope="module")
def view():
    """Two shocks of known strength, so that the corners of an axle differ in more than weight."""
    plain = made_view()
    maps = {}
    for name, click_map in plain.maps.items():
        sides = {d: strengths(click_map.direction(d)) for d in ("compression", "rebound")}
        named = tuple(ShockState(shock, "", "") for shock in ("FL-01", "RR-02"))
        maps[name] = replace(click_map, shocks=("FL-01", "RR-02"), states=named, **sides)
    car_text, corner_text = car_parts(plain.car)
    return replace(plain, maps=maps, car_text=car_text, corner_text=corner_text)


@pytest.fixture(scope="module")
def html(view):
    return build_trackside(view)


def numbers(text):
    return [float(t.replace("−", "-")) for t in re.findall(r"[+−-]?\d+(?:\.\d+)?", text)]


def press(page, adjuster, steps):
    """Tap + or − of an adjuster so many times."""
    page.evaluate(
        """([name, steps]) => { const b = document.querySelectorAll(`[data-adjuster="${name}"] button`);
           for (let i = 0; i < Math.abs(steps); i += 1) b[steps > 0 ? 1 : 0].click(); }""",
        [adjuster, steps],
    )


def go(page, where):
    page.evaluate("w => document.querySelector(`#places input[value=${w}]`).click()", where)


def expected(view, corner, pack, clicks, mass, spring):
    """Ratios and forces as the library reckons them, from what `predict` and `ratio` use."""
    noun = replace(view.car.corners[corner], mass=mass, spring=spring)
    from_closed = shock_of(corner).to_closed(clicks)
    curve = curve_at(view.maps[pack], from_closed, clicks=clicks, shock=noun.shock)
    ratios = corner_ratios(noun, curve)
    out = {}
    for d, sign in (("compression", 1), ("rebound", -1)):
        for level, v in (("low", 0.05), ("high", 0.25)):
            low, high = curve.band(sign * v)
            out[d, level] = (getattr(ratios.side(d), level).value, abs(float(curve(sign * v))), float(high - low) / 2)
    return out, curve.standing


def shown(page, corner_index):
    out = {}
    for d in ("compression", "rebound"):
        for level in ("low", "high"):
            found = numbers(page.inner_text(f"#{d}-{level} .ratio"))
            cells = page.query_selector_all(f'[data-row="{d}-{level}"] td')
            force = numbers(cells[min(corner_index, len(cells) - 1)].inner_text())
            out[d, level] = (found[min(corner_index, len(found) - 1)], force[0], force[1])
    return out


@pytest.mark.slow
@pytest.mark.parametrize("count", [6, pytest.param(50, marks=pytest.mark.thorough)])
def test_random_settings_show_the_numbers_of_the_library(opened, html, view, count):
    page, rng = opened(html), random.Random(7)
    now = {c: [n.pack, dict(n.clicks), n.mass, n.spring] for c, n in view.car.corners.items()}
    for _ in range(count):
        where = rng.choice(list(PLACES))
        go(page, where)
        pack = rng.choice(list(view.maps))
        page.select_option("#pack", pack)
        for corner in PLACES[where]:
            now[corner][0] = pack
        for adjuster in ("lsc", "hsc", "lsr", "hsr"):
            steps = rng.randint(-LAST, LAST)
            press(page, adjuster, steps)
            for corner in PLACES[where]:
                clicks = now[corner][1]
                clicks[adjuster] = min(max(clicks[adjuster] + steps, 0), LAST)
        if len(PLACES[where]) == 1 and rng.random() < 0.5:
            mass, spring = round(rng.uniform(200, 300), 1), round(rng.uniform(30, 80), 1)
            page.fill("[data-load=mass] input", str(mass))
            page.fill("[data-load=spring] input", str(spring))
            page.press("[data-load=spring] input", "Enter")
            page.evaluate("document.activeElement.blur()")
            now[where][2:] = [mass, spring * 1e3]
        for i, corner in enumerate(PLACES[where]):
            pack, clicks, mass, spring = now[corner]
            want, standing = expected(view, corner, pack, clicks, mass, spring)
            for key, (ratio, force, half) in shown(page, i).items():
                assert ratio == pytest.approx(want[key][0], abs=0.0051), (corner, key, now[corner])
                assert force == pytest.approx(want[key][1], abs=0.55), (corner, key, now[corner])
                assert half == pytest.approx(want[key][2], abs=0.55), (corner, key, now[corner])
            if len(PLACES[where]) == 1:
                assert page.inner_text("#standing").startswith(WORDS[standing])
    assert not page.seen.complaints


def test_whole_car_table_holds_every_corner(opened, html, view):
    page = opened(html)
    for corner, noun in view.car.corners.items():
        want, _ = expected(view, corner, noun.pack, noun.clicks, noun.mass, noun.spring)
        found = numbers(page.inner_text(f'[data-corner="{corner}"]'))
        assert found == pytest.approx(
            [want[d, v][0] for d in ("compression", "rebound") for v in ("low", "high")], abs=0.0051
        )


def test_a_tap_with_finger_or_keyboard_turns_one_click(opened, html):
    page = opened(html, has_touch=True)
    knob = page.locator("[data-adjuster=lsc]")
    knob.locator("button").nth(1).tap()
    assert knob.locator("output").inner_text() == "7"
    knob.locator("button").nth(0).focus()
    page.keyboard.press("Enter")
    page.keyboard.press("Space")
    assert knob.locator("output").inner_text() == "5"
    page.wait_for_timeout(600)
    assert "low-speed compression 5" in page.inner_text("#live")


def test_plus_is_softer_counted_from_closed_and_stiffer_counted_from_soft(opened, html):
    page = opened(html)
    for where, adjuster, way in (("front", "lsr", "softer"), ("rear", "lsr", "stiffer"), ("rear", "lsc", "softer")):
        go(page, where)
        cell = "#rebound-low .ratio" if adjuster == "lsr" else "#compression-low .ratio"
        before = numbers(page.inner_text(cell))[0]
        assert way in page.locator(f"[data-adjuster={adjuster}] button").nth(1).get_attribute("aria-label")
        press(page, adjuster, 3)
        after = numbers(page.inner_text("#rebound-low .ratio" if adjuster == "lsr" else "#compression-low .ratio"))[0]
        assert (after > before) == (way == "stiffer")
        assert ("from soft" in page.inner_text(f"[data-adjuster={adjuster}] .said")) == (
            where == "rear" and adjuster == "lsr"
        )


def test_each_force_says_how_far_it_is_from_the_baseline(opened, html, view):
    page = opened(html)
    go(page, "fl")
    cell = '[data-row="compression-low"] td'
    assert "as baseline" in page.inner_text(cell)
    press(page, "lsc", -4)
    force, _, change = numbers(page.inner_text(cell))
    noun = view.car.corners["fl"]
    was = expected(view, "fl", noun.pack, noun.clicks, noun.mass, noun.spring)[0]["compression", "low"][1]
    assert change == pytest.approx(force - was, abs=1.01)
    assert change > 10


def test_forces_of_both_sides_fit_the_narrowest_phone(opened, html):
    page = opened(html, 320, 640)
    go(page, "front")
    assert page.evaluate("(t => t.scrollWidth - t.parentElement.clientWidth)(document.querySelector('.forces'))") <= 0


def test_ends_of_an_adjuster_hold(opened, html):
    page = opened(html)
    press(page, "hsc", 40)
    knob = page.locator("[data-adjuster=hsc]")
    assert knob.locator("output").inner_text() == str(LAST)
    assert knob.locator("button").nth(1).get_attribute("aria-disabled") == "true"
    assert knob.locator("button").nth(0).get_attribute("aria-disabled") == "false"


def test_stiffer_spring_and_more_weight_lower_the_ratio(opened, html):
    page = opened(html)
    go(page, "fl")
    first = numbers(page.inner_text("#rebound-low .ratio"))[0]
    for key in ("spring", "mass"):
        page.evaluate(TWENTY_UP, key)
        then = numbers(page.inner_text("#rebound-low .ratio"))[0]
        assert then < first
        first = then
    page.fill("[data-load=mass] input", "nonsense")
    page.press("[data-load=mass] input", "Enter")
    assert numbers(page.inner_text("#rebound-low .ratio"))[0] == first
    page.click("#reset")
    assert page.locator("[data-load=spring] input").input_value() == "45.0"


def test_choices_and_earlier_setups_go_on_the_car(opened, html):
    page = opened(html)
    page.click("#choices .entry:nth-child(2) button")
    assert page.input_value("#pack") == "mixed"
    assert page.inner_text("[data-adjuster=lsc] output") == "6"
    page.select_option("#surface", "wet tarmac")
    first = page.locator("#setups .entry").first
    assert "wet tarmac" in first.inner_text()
    first.locator("button").click()
    assert page.input_value("#pack") == "gravel"
    assert page.inner_text("[data-adjuster=lsc] output") == "4"
    assert page.locator("[data-load=spring] input").input_value() == "48.0"


@pytest.mark.parametrize("how", ["file", "text"])
def test_a_setup_noted_on_the_page_reads_as_a_setup(opened, html, view, how):
    page = opened(html)
    go(page, "fl")
    press(page, "lsc", 2)
    page.fill("[data-load=spring] input", "47,5")
    page.press("[data-load=spring] input", "Enter")
    page.select_option("#surface", "wet tarmac")
    page.fill("#note-date", "2026-06-13")
    page.fill("#note-temperature", "-3,5")
    page.fill("#note-result", 'P2 "close" \\ 2:03.4')
    page.fill("#note-remarks", "line one\nline two\t<b>")
    page.check("input[name=good][value=true]", force=True)
    if how == "file":
        with page.expect_download() as waiting:
            page.click("text=Save as a file")
        assert waiting.value.suggested_filename == "2026-06-13-kestrel-wet-tarmac.toml"
        text = waiting.value.path().read_text(encoding="utf-8")
    else:
        page.click("#copy")
        text = page.input_value("#written-text")
    setup = setup_from_text(text, "page.toml", "noted")
    assert (setup.car.name, setup.date, setup.surface, setup.good) == ("kestrel", "2026-06-13", "wet tarmac", True)
    assert setup.result == 'P2 "close" \\ 2:03.4'
    assert setup.temperature == -3.5
    assert setup.remarks == "line one line two <b>"
    corners = setup.car.corners
    assert corners["fl"].clicks == {"lsc": 8, "hsc": 6, "lsr": 5, "hsr": 4}
    assert corners["fl"].spring == pytest.approx(47.5e3)
    for name, corner in view.car.corners.items():
        if name != "fl":
            assert corners[name].clicks == corner.clicks
            assert corners[name].spring == pytest.approx(corner.spring)
        assert corners[name].mass == pytest.approx(corner.mass)
        assert (corners[name].shock, corners[name].gas_rate) == (corner.shock, corner.gas_rate)
    assert setup.car.targets == view.car.targets


def test_what_was_turned_survives_a_reload(opened, html):
    page = opened(html, own=True)
    press(page, "lsc", 3)
    page.reload()
    assert page.inner_text("[data-adjuster=lsc] output") == "9"
    page.evaluate('Object.keys(localStorage).forEach(k => localStorage.setItem(k, \'{"now": {"fl": {"pack": "x"}}}\'))')
    page.reload()
    assert page.inner_text("[data-adjuster=lsc] output") == "6"
    assert not page.seen.complaints


@pytest.mark.parametrize("scheme", ["light", pytest.param("dark", marks=pytest.mark.thorough)])
@pytest.mark.parametrize("size", [*SIZES, (640, 360)], ids=lambda s: f"{s[0]}x{s[1]}")
def test_nothing_overflows_or_overlaps_and_every_target_fits_a_thumb(opened, html, size, scheme):
    page = opened(html, *size, scheme)
    for where in ("front", "rl"):
        go(page, where)
        press(page, "lsr", 4)
        assert page.evaluate(LAYOUT_FAULTS) == []
        assert page.evaluate(SMALL_TARGETS) == []
        assert page.evaluate("(e => e.scrollWidth - e.clientWidth)(document.querySelector('.scroll'))") <= 0


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_axe_finds_no_serious_fault(opened, html, axe_source, scheme):
    page = opened(html, 768, 1024, scheme)
    press(page, "lsc", -20)
    page.click("#copy")
    assert serious_faults(page, axe_source, EVERY) == []
    assert page.evaluate(WEAK_EDGES) == []


@pytest.mark.parametrize(("part", "fault"), [("--edge", "edge"), ("--clay", "focus")])
def test_an_edge_or_a_ring_that_hardly_stands_out_is_found(opened, html, part, fault):
    page = opened(html, 768, 1024)
    page.evaluate("part => document.documentElement.style.setProperty(part, '#cfd7dc')", part)
    found = page.evaluate(WEAK_EDGES)
    assert len(found) > 5
    assert {one.split()[0] for one in found} == {fault}


@pytest.mark.parametrize("units", ["metric", "us"])
@pytest.mark.parametrize("text", [100, 200])
def test_low_speeds_take_the_width_that_the_words_below_the_curve_tell(opened, view, units, text):
    """Speeds to 100 mm/s or 4 in/s, where clicks act, are drawn half as wide again as on an even axis, or more."""
    page = opened(build_trackside(replace(view, units=units)))
    page.evaluate("text => { document.documentElement.style.fontSize = text + '%'; }", text)
    drawn_anew = "text => +document.querySelector('#curve .zero').getAttribute('x1') > 45 * text / 100"
    page.wait_for_function(drawn_anew, arg=text)  # by itself: no window was resized
    assert page.evaluate(LAYOUT_FAULTS) == []
    at = dict(
        page.evaluate("[...document.querySelectorAll('#curve .mid')].map(t => [t.textContent, +t.getAttribute('x')])")
    )
    box = page.evaluate(
        "(line => [+line.getAttribute('x1'), +line.getAttribute('x2')])(document.querySelector('#curve .zero'))"
    )
    low, unit = {"metric": ("100", "mm/s"), "us": ("4", "in/s")}[units]
    share = (at[low] - at["−" + low]) / (box[1] - box[0])
    said = re.search(
        r"up to (\S+) (\S+) take (\d+) % of the width, .* gives them (\d+) %", page.inner_text("#curve-stretch")
    )
    assert said.group(1, 2) == (low, unit)
    assert float(said[3]) == pytest.approx(100 * share, abs=0.6)
    assert float(said[4]) == pytest.approx(100 * share**2, abs=1.2)
    assert float(said[3]) > 1.5 * float(said[4])
    assert at["0"] == pytest.approx(sum(box) / 2)


def test_the_force_axis_ends_where_what_is_drawn_ends(opened, html):
    """It went by the stiffest pack and clicks: to twice the force of what was on the car."""
    page = opened(html)
    paper = page.evaluate("document.querySelector('#curve line.grid').getBBox().height")
    drawn = page.evaluate(
        """() => { const all = [...document.querySelectorAll("#curve .now, #curve .before")].map((e) => e.getBBox());
             return Math.max(...all.map((b) => b.y + b.height)) - Math.min(...all.map((b) => b.y)); }"""
    )
    assert 0.6 < drawn / paper <= 1


def test_no_request_leaves_the_page_and_nothing_is_refused(opened, html):
    page = opened(html)
    press(page, "lsc", 1)
    page.wait_for_timeout(300)
    assert len(page.seen.requests) == 1
    assert page.seen.requests[0].startswith("file://")
    assert page.seen.complaints == []
    assert not re.search(r"(?:src|href)\s*=\s*[\"'](?!#)", html)


def test_the_policy_refuses_foreign_script_and_network(opened, html):
    page = opened(html)
    page.evaluate(SNEAK_IN)
    assert page.evaluate("window.hit") is None
    assert page.evaluate("fetch('https://example.invalid/').then(() => 'went out', () => 'refused')") == "refused"
    assert any("Content Security Policy" in c for c in page.seen.complaints)
    assert not any(r.startswith("http") for r in page.seen.requests)


def test_names_from_files_show_as_text_everywhere(opened):
    car = replace(made_car(EVIL), name=EVIL)
    car = replace(car, surfaces={EVIL: next(iter(car.surfaces.values()))})
    view = made_view((EVIL, "mixed"), car=car, warnings=(EVIL,))
    evil = {"remarks": EVIL, "surface": EVIL, "result": EVIL, "name": EVIL}
    view = replace(view, setups=tuple(replace(s, **evil) for s in view.setups))
    page = opened(build_trackside(view))
    press(page, "lsc", 1)
    page.click("#choices .entry button")
    page.click("#copy")
    assert page.seen.dialogs == []
    assert page.seen.complaints == []
    assert page.evaluate("document.scripts.length") == 2
    assert page.inner_text("h1") == EVIL
    assert page.inner_text("#pack option >> nth=0") == EVIL
    assert EVIL in page.inner_text("#setups")
    assert EVIL in page.inner_text("#choices")
    assert EVIL in page.inner_text("#about-title ~ p.warning")
    page.evaluate("scrollTo(0, 0)")
    assert page.evaluate(LAYOUT_FAULTS) == []


def test_reduced_motion_and_us_units(opened, view):
    page = opened(build_trackside(replace(view, units="us")), reduced_motion="reduce")
    assert "in/s" in page.inner_text("#low-head")
    assert page.evaluate("getComputedStyle(document.querySelector('.strip .fill')).transitionDuration") == "0s"
    go(page, "fl")
    noun = view.car.corners["fl"]
    want, _ = expected(view, "fl", noun.pack, noun.clicks, noun.mass, noun.spring)
    found = numbers(page.inner_text('[data-row="compression-high"] td'))[0]
    assert found == pytest.approx(want["compression", "high"][1] / 4.4482216152605, abs=0.06)  # lbf: NIST SP 811, B.8
    page.click("#copy")
    text = page.input_value("#written-text")
    assert setup_from_text(text, "page.toml", "x").car.corners["fl"].spring == pytest.approx(noun.spring)


def test_without_script_the_page_says_what_to_do(opened, html):
    page = opened(html, java_script_enabled=False)
    assert "open the file in a browser" in page.inner_text("noscript")


def test_page_is_small_and_the_same_each_time(html, view):
    assert len(html.encode()) < LIMIT
    assert build_trackside(view) == html
