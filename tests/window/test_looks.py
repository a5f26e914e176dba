"""Every screen at sizes from a phone to a large screen, light and dark, by keyboard alone, for screen readers."""

import re
import threading
import time

import pytest

from dynoan.jobs import trackside
from tests.browser.conftest import LAYOUT_FAULTS, SMALL_TARGETS, WEAK_EDGES, hidden_focus, serious_faults
from tests.golden.running import run
from tests.often import often
from tests.once import laid
from tests.window.conftest import DEMO
from tests.window.served import Served, entered

pytestmark = [pytest.mark.browser, pytest.mark.slow]
SIZES = ((360, 740), (768, 1024), (1280, 800), (1920, 1080))
SCREENS = (
    "/files", "/packs", "/packs/runs?shock=FL-01&pack=gravel", "/packs?plan=tarmac", "/curves?s=gravel@lsc=4&s=tarmac",
    "/curves?s=gravel&a=shock%3DRL-03,pack%3Dgravel&b=shock%3DRR-04,pack%3Dgravel", "/car?car=kestrel",
    "/car?car=kestrel#choose", "/car?car=kestrel#launch", "/packs/runs?by=date", "/car/edit?car=kestrel",
    "/log", "/help",
)  # fmt: skip
#: cells with a number outside forms and links that cannot be asked how it was got
DUMB_CELLS = r"""() => [...document.querySelectorAll("main td")].filter((td) => /\d/.test(td.textContent)
  && !td.querySelector("form, input, button, a, [data-how]") && !td.matches("[data-how]")
  && !td.closest(":is(.card, section, article):has(details.how)"))
  .map((td) => td.textContent.slice(0, 60))"""


@pytest.fixture(scope="module")
def served(demo_library, tmp_path_factory):
    folder = tmp_path_factory.mktemp("looks") / "demo"
    laid(demo_library, folder)
    made = Served(folder)
    made.desk.prepare_all()
    for path in sorted((DEMO / "dyno").iterdir())[:3]:
        made.desk.dropped.put(path.name, path.read_bytes(), 0.0)
    made.desk.dropped.put("bare.csv", b"time,load,pos\n0,1,2\n1,2,3\n2,3,4\n", 1.0)
    made.wait()
    yield made
    made.close()


def until(holds):
    for _ in range(1200):
        if holds():
            return
        time.sleep(0.05)
    raise AssertionError("it never held")


def opened(page, served, path):
    page.goto(served.base + path)
    if served.desk.works.under_way() or page.locator("[data-reload]").count():
        served.wait()
        page.goto(served.base + path)
    page.wait_for_timeout(150)


@pytest.mark.parametrize("path", often(7, [*SCREENS[::2], *SCREENS[1::2]]))
def test_a_screen_has_no_fault_on_a_phone_and_none_that_axe_finds_once_it_is_wide(chromium, served, axe_source, path):
    with entered(chromium, served, *SIZES[0]) as page:
        opened(page, served, path)
        nothing_overlaps_sticks_out_is_too_small_or_a_number_without_an_answer(page)
        page.set_viewport_size({"width": 1280, "height": 800})
        page.wait_for_timeout(100)
        axe_finds_nothing_serious(page, axe_source)


@pytest.mark.thorough
@pytest.mark.parametrize("width", [768, 1280, 1920])
@pytest.mark.parametrize("path", SCREENS)
def test_a_screen_has_no_fault_at_any_width(chromium, served, path, width):
    with entered(chromium, served, width, dict(SIZES)[width]) as page:
        opened(page, served, path)
        nothing_overlaps_sticks_out_is_too_small_or_a_number_without_an_answer(page)


@pytest.mark.thorough
@pytest.mark.parametrize("scheme", ["light", "dark"])
@pytest.mark.parametrize("path", SCREENS)
def test_axe_finds_nothing_serious(chromium, served, axe_source, path, scheme):
    with entered(chromium, served, scheme=scheme, bypass_csp=True) as page:
        opened(page, served, path)
        axe_finds_nothing_serious(page, axe_source)


def nothing_overlaps_sticks_out_is_too_small_or_a_number_without_an_answer(page):
    assert page.evaluate(LAYOUT_FAULTS) == []
    assert page.seen.complaints == []
    small = [t for t in page.evaluate(SMALL_TARGETS) if t[2] < 43.99 and t[1] > 0 and not inline(page, t)]
    assert small == []
    assert page.evaluate(DUMB_CELLS) == []


def axe_finds_nothing_serious(page, source):
    assert serious_faults(page, source) == []
    assert page.evaluate(WEAK_EDGES) == []


def inline(page, target):
    """A link inside a sentence is as high as its line."""
    return (
        target[0] and page.locator("p a, h2 a, h3 a, th a, dd a, li a").filter(has_text=str(target[0])[:30]).count() > 0
    )


@pytest.mark.thorough
@pytest.mark.parametrize("path", SCREENS)
def test_text_twice_as_large_still_fits(chromium, served, path):
    with entered(chromium, served, 1280, 800) as page:
        opened(page, served, path)
        page.evaluate("document.documentElement.style.fontSize = '200%'")
        page.wait_for_timeout(300)
        stops, hidden = hidden_focus(page)
        assert stops > 8
        assert hidden == []
        page.evaluate("() => { document.activeElement.blur(); scrollTo(0, 0); }")
        page.wait_for_timeout(100)
        assert page.evaluate(LAYOUT_FAULTS) == []


@pytest.mark.thorough
def test_pages_of_one_thing_hold_text_twice_as_large_and_a_narrow_window(chromium, served):
    """The card of a day had the numbers of four corners over one another."""
    run(["setup", "record", "kestrel", "--surface", "loose", "--date", "2026-05-02"], served.desk.path)
    day = "name=2026-05-02-kestrel"
    for path in (f"/log/card?{day}", f"/log/edit?{day}", "/packs/health?shock=RR-04", "/log/travel?car=kestrel"):
        with entered(chromium, served, 1280, 800) as page:
            opened(page, served, path)
            page.evaluate("document.documentElement.style.fontSize = '200%'")
            page.wait_for_timeout(300)
            assert page.evaluate(LAYOUT_FAULTS) == [], path
            page.evaluate("document.documentElement.style.fontSize = ''")
            page.set_viewport_size({"width": 320, "height": 256})
            page.wait_for_timeout(100)
            assert page.evaluate(LAYOUT_FAULTS) == [], path


def test_a_click_is_turned_by_keyboard_alone(chromium, served):
    with entered(chromium, served) as page:
        opened(page, served, "/curves?s=gravel@lsc=6")
        for _ in range(60):
            page.keyboard.press("Tab")
            if page.evaluate("document.activeElement.getAttribute('aria-label')") == (
                "low-speed compression, one click stiffer"
            ):
                break
        before = page.locator("svg.curve path.line").get_attribute("d")
        page.keyboard.press("Enter")
        until(lambda: page.locator("svg.curve path.line").get_attribute("d") != before)
        until(lambda: "lsc%3D5" in page.evaluate("location.search"))
        assert page.evaluate("document.activeElement.tagName") == "BUTTON"


def test_a_page_made_before_its_click_map_was_there_takes_a_turned_click(chromium, served):
    with entered(chromium, served) as page:
        opened(page, served, "/curves?s=gravel@lsc=6")
        page.evaluate("document.getElementById('worth').closest('section').remove()")  # as it comes without the map
        before = page.locator("#forces").inner_text()
        page.get_by_role("button", name="low-speed compression, one click stiffer").click()
        until(lambda: page.locator("#forces").inner_text() != before)
        page.wait_for_timeout(100)
        assert page.seen.complaints == []


def test_a_turned_click_redraws_the_curve_of_its_axle_and_no_other(chromium, served):
    with entered(chromium, served) as page:
        opened(page, served, "/car?car=kestrel")
        front, rear = (page.locator(f'[data-curve="{axle}"]') for axle in ("front", "rear"))
        assert front.locator("path.line").count() == rear.locator("path.line").count() == 1
        before = rear.locator("svg").inner_html()
        page.get_by_role("button", name="front low-speed compression, one click stiffer").click()
        until(lambda: front.locator("path.line").count() == 2)
        assert rear.locator("svg").inner_html() == before
        front.locator("svg").focus()
        for _ in range(6):
            page.keyboard.press("ArrowRight")
        said = front.locator(".under").inner_text()
        assert "now " in said
        assert "then " in said
        before = front.locator("path.line").nth(1).get_attribute("d")
        front.get_by_label("Curve of").select_option("fr")
        assert front.locator("path.line").nth(1).get_attribute("d") != before, "another shock's own curve"
        until(lambda: "lsc" in page.evaluate("location.search"))
        page.reload()
        until(lambda: page.locator('[data-curve="front"] path.line').count() == 2)
        assert page.seen.complaints == []


@pytest.mark.parametrize(
    ("path", "field", "numbers"),
    [
        ("/curves?s=gravel@lsc=6", "input[name=lsc]", "#forces"),
        ("/car?car=kestrel", "#front-lsc", ".compared >> nth=0"),
    ],
)
def test_numbers_are_grey_until_the_answer_is_there_and_the_field_goes_back_without_one(
    chromium, served, path, field, numbers
):
    with entered(chromium, served) as page:
        opened(page, served, path)
        page.locator("svg.curve path.line").first.wait_for()
        held = []
        page.route(re.compile("/(curves|car)/data"), lambda route: held.append(route))  # noqa: PLW0108
        click, told = page.locator(field).input_value(), page.locator(numbers).inner_text()
        page.get_by_role("button", name="low-speed compression, one click softer").first.click()
        until(lambda: held)
        page.locator("main.late").wait_for()
        assert page.locator(field).input_value() == str(int(click) + 1)
        held[0].abort()
        page.get_by_text("so this was put back").wait_for()
        assert page.locator(field).input_value() == click
        assert page.locator(numbers).inner_text() == told
        assert page.locator("main.late").count() == 0
        page.unroute_all()  # the page is lent to other tests


def test_one_part_of_the_car_is_shown_and_the_line_stays(chromium, served):
    with entered(chromium, served, 1366, 768) as page:
        opened(page, served, "/car?car=kestrel")
        wide = "[...document.querySelectorAll('main .scroll')].filter((e) => e.scrollWidth > e.clientWidth + 1).length"
        assert page.evaluate(wide) == 0, "nothing of the corners is cut"
        page.locator(".parts").get_by_role("link", name="Launch").click()
        page.locator("#launch").wait_for()
        assert page.locator("#now").is_hidden()
        page.mouse.wheel(0, 4000)
        page.wait_for_timeout(100)
        assert page.locator(".car-line").bounding_box()["y"] >= 0
        page.locator("select[name=wish]").select_option("nose")
        page.get_by_role("button", name="Find the clicks").click()
        field = page.locator("input[name=limit][aria-invalid=true]")
        field.wait_for()
        assert "how much?" in page.locator("#x-limit").inner_text()
        until(lambda: field.evaluate("e => e === document.activeElement"))


def test_a_tab_with_files_says_that_they_changed_in_another(chromium, served):
    with entered(chromium, served) as page:
        opened(page, served, "/files")
        assert page.locator("#behind").is_hidden()
        made = served.desk.dropped.put("late.csv", (DEMO / "unlabelled.csv").read_bytes() + b"\n\n\n", 1.0)
        page.evaluate("document.dispatchEvent(new Event('visibilitychange'))")  # else it looks every few seconds
        page.locator("#behind").wait_for()
        assert "in another window" in page.locator("#behind").inner_text()
        served.desk.dropped.take_off(made.id)


def test_values_are_read_with_the_arrow_keys(chromium, served):
    with entered(chromium, served) as page:
        opened(page, served, "/curves?s=gravel@lsc=6&s=tarmac")
        page.locator("svg.curve").focus()
        for _ in range(12):
            page.keyboard.press("ArrowRight")
        said = page.locator("#under").inner_text()
        assert "mm/s" in said
        assert said.count(" N") >= 2


def test_a_refused_form_comes_back_as_it_was_sent(chromium, served):
    """What was written of a day was gone where one field of it was refused."""
    with entered(chromium, served) as page:
        opened(page, served, "/log")
        page.get_by_label("Remarks").fill("front too soft")
        page.get_by_label("Temperature").fill("18 doors")
        page.get_by_role("button", name="Keep it").click()
        page.get_by_text("no unit of temperature").wait_for()
        assert page.get_by_label("Remarks").input_value() == "front too soft"
        assert page.get_by_label("Temperature").input_value() == "18 doors"
        page.goto(f"{served.base}/log")
        assert page.get_by_label("Remarks").input_value() == "", "once, not for ever"


def test_what_is_written_beside_a_file_goes_with_every_button(chromium, tmp_path):
    """Written into a card, then another button pressed: it was gone, or the run was kept without it."""
    served = Served(tmp_path / "team")
    try:
        with entered(chromium, served) as page:
            page.set_input_files("#files", [DEMO / "unlabelled.csv", DEMO / "dyno" / "rear_left_mixed_peaks.csv"])
            cards = page.locator("article.file")
            until(lambda: cards.count() == 2)
            lone = cards.filter(has_text="unlabelled.csv").first
            if page.locator("#many[open]").count() == 0:
                page.get_by_text("Fill in many at once").click()
            page.get_by_label("Date of unlabelled.csv").fill("2026-02-03")
            lone.get_by_label("Which pack?").fill("wet")
            page.get_by_label("Pack of unlabelled.csv").press("Enter")
            until(lambda: page.get_by_label("Pack of unlabelled.csv").input_value() == "wet")
            assert served.desk.library.records() == (), "Enter sets; it does not keep"
            page.get_by_label("lsc of unlabelled.csv").fill("7")
            page.get_by_role("button", name="Keep all 2").click()
            page.get_by_text("2 new runs kept").wait_for()
        (record,) = [r for r in served.desk.library.records() if r.pack == "wet"]
        assert (record.date[:10], record.clicks["lsc"]) == ("2026-02-03", 7)
    finally:
        served.close()


def test_what_stands_in_another_form_outlives_the_one_that_is_sent(chromium, served):
    with entered(chromium, served) as page:
        opened(page, served, "/packs")
        page.get_by_label("New name").fill("stones")
        page.get_by_role("button", name="US", exact=True).click()
        page.get_by_role("button", name="metric", exact=True).wait_for()
        assert page.get_by_label("New name").input_value() == "stones"
        page.get_by_role("button", name="metric", exact=True).click()
        page.get_by_role("button", name="US", exact=True).wait_for()
        until(lambda: page.get_by_label("New name").input_value() == "stones")
        page.goto(f"{served.base}/packs")
        assert page.get_by_label("New name").input_value() == "", "once, not for ever"


def test_what_is_typed_and_told_outlives_a_page_that_shows_itself_anew(chromium, served, monkeypatch):
    typed = threading.Event()

    def made_once_typed(bench, _kind, car, _logs):
        assert typed.wait(300)
        return trackside.answer(bench, trackside.TracksideQuestion.asked(car, launch=False))

    monkeypatch.setattr("dynoan.window.carried_pages._answer", made_once_typed)
    with entered(chromium, served) as page:
        opened(page, served, "/log")
        served.desk.say("something was done", undo=False)
        page.get_by_role("button", name="Make and save the page for the phone").last.click()
        page.get_by_text("something was done").wait_for()
        page.get_by_label("Remarks").fill("typed meanwhile")
        typed.set()
        page.get_by_role("link", name="Save the page for the phone").wait_for()
        assert page.get_by_label("Remarks").input_value() == "typed meanwhile"
        assert page.evaluate("document.activeElement.name") == "remarks"
        assert page.get_by_text("something was done").is_visible()


def test_the_next_pack_is_laid_beside_and_back_takes_it_away(chromium, served):
    with entered(chromium, served) as page:
        opened(page, served, "/curves?s=gravel")
        page.get_by_role("button", name="Add a setting").click()
        page.locator("fieldset.setting").nth(1).wait_for()
        until(lambda: page.locator("fieldset.setting select").nth(1).input_value() != "gravel")
        page.go_back()
        until(lambda: page.locator("fieldset.setting").count() == 1)


def test_where_all_packs_are_laid_out_the_first_comes_again_a_click_apart(chromium, served):
    with entered(chromium, served) as page:
        opened(page, served, "/curves?s=gravel")
        settings = page.locator("fieldset.setting")
        packs = settings.first.locator("option").count()
        for count in range(2, packs + 2):
            page.get_by_role("button", name="Add a setting").click()
            until(lambda count=count: settings.count() == count)
        assert settings.last.locator("select").input_value() == "gravel"
        clicks = [
            [one.input_value() for one in place.locator("input").all()] for place in (settings.first, settings.last)
        ]
        assert sum(a != b for a, b in zip(*clicks, strict=True)) == 1


@pytest.mark.parametrize("noticed", [True, False])
def test_what_is_typed_stays_where_the_program_is_gone(chromium, served, noticed):
    with entered(chromium, served) as page:
        opened(page, served, "/log")
        page.get_by_label("Remarks").fill("a long story")
        page.route("**/*", lambda route: route.abort())
        if noticed:
            assert page.evaluate("import('/static/page.js').then(p => p.look())") is None
        else:
            page.wait_for_timeout(400)  # the program was last heard of a moment ago, and is not looked for yet
        page.get_by_role("button", name="Keep it").click()
        page.get_by_text("The program does not answer").wait_for()
        page.get_by_role("link", name="Packs", exact=True).click()
        assert page.url.endswith("/log")
        assert page.get_by_label("Remarks").input_value() == "a long story"
        page.unroute("**/*")
        page.get_by_role("link", name="Packs", exact=True).click()
        page.wait_for_url("**/packs")
        page.seen.complaints.clear()  # of the answers that did not come


def test_a_file_dropped_where_the_program_is_gone_leaves_the_page(chromium, served, tmp_path):
    (tmp_path / "run.csv").write_text("Velocity (mm/s),Force (N)\n50,100\n")
    with entered(chromium, served) as page:
        opened(page, served, "/files")
        page.route("**/files/drop", lambda route: route.abort())
        page.locator("#files").set_input_files(tmp_path / "run.csv")
        page.get_by_text("run.csv: the window did not answer").wait_for()
        assert page.locator("#drop").is_visible()
        page.seen.complaints.clear()


def test_on_paper_nothing_is_cut_off_and_lines_can_be_told_apart(chromium, served):
    with entered(chromium, served) as page:
        opened(page, served, "/curves?s=gravel")
        page.emulate_media(media="print", color_scheme="dark")
        style = "([what, key]) => getComputedStyle(document.querySelector(what))[key]"
        assert page.evaluate(style, [".scroll", "overflow"]) == "visible"
        assert page.evaluate(style, ["main", "display"]) == "block"
        assert page.evaluate(style, ["path.line", "stroke"]) == "rgb(43, 54, 64)", (
            "dark on paper, however the screen is"
        )
        assert page.evaluate(style, ["i.swatch", "printColorAdjust"]) == "exact"
        assert page.evaluate(style, ["button.main", "color"]) == "rgb(0, 0, 0)"


def test_two_tabs_one_that_is_behind_says_so(chromium, served):
    with entered(chromium, served, own=True) as page:
        page.clock.install()
        opened(page, served, "/packs")
        assert page.locator("#behind").is_hidden()
        path = served.desk.path / "cars" / "kestrel.toml"
        path.write_text(path.read_text() + "# seen\n")
        page.clock.fast_forward(4000)  # it looks every few seconds
        page.locator("#behind").wait_for()
        page.get_by_role("link", name="Show it as it is now").click()
        page.wait_for_load_state()
        assert page.locator("#behind").is_hidden()


def test_a_page_of_another_site_changes_nothing(chromium, served):
    with entered(chromium, served) as page:
        other = page.context.new_page()
        form = f"<form method=post action='{served.base}/units'><input name=units value=us></form>"
        other.set_content(form)
        with other.expect_navigation():
            other.evaluate("document.forms[0].submit()")
        assert (
            "nothing was changed" in other.content() or "403" in other.content() or other.url.startswith("chrome-error")
        )
        got = other.evaluate(
            f"fetch('{served.base}/state', {{credentials: 'include'}}).then(r => 'read', () => 'refused')"
        )
        assert served.desk.units == "metric"
        assert got == "refused" or served.base in other.url


def test_dropped_files_go_up_and_show(chromium, served, tmp_path):
    with entered(chromium, served) as page:
        opened(page, served, "/files")
        files = []
        for i, name in enumerate(("a.csv", "<b onmouseover=alert(1)>.csv")):
            path = tmp_path / name
            path.write_bytes((DEMO / "unlabelled.csv").read_bytes() + b"\n" * i)
            files.append(str(path))
        with page.expect_navigation():
            page.locator("#files").set_input_files(files)
        page.get_by_role("heading", name="<b onmouseover=alert(1)>.csv").wait_for()
        assert page.locator("article.file").count() == 6
        assert page.seen.complaints == []


def test_of_more_files_than_may_lie_here_it_is_told_once_what_became_of_the_others(chromium, tmp_path, monkeypatch):
    monkeypatch.setattr("dynoan.window.files.MOST_FILES", 30)
    monkeypatch.setattr("dynoan.window.dropped.MOST_FILES", 2)
    served = Served(tmp_path / "few")
    data = (DEMO / "unlabelled.csv").read_bytes()
    sent = [{"name": f"{i}.csv", "mimeType": "text/csv", "buffer": data + b"\n" * i} for i in range(40)]
    with entered(chromium, served) as page:
        with page.expect_navigation():
            page.set_input_files("#files", sent)
        told = page.locator(".said").all_inner_texts()
        assert len([text for text in told if "the first 30 were looked at" in text]) == 1
        assert len([text for text in told if "keep or take off some of them first" in text]) == 1
        assert len([text for text in told if "files more were not looked at" in text]) == 1
        assert page.locator("article.file").count() == 2
    served.close()


@pytest.mark.thorough
@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_axe_finds_nothing_serious_on_what_is_reckoned_beside(chromium, served, axe_source, scheme):
    """What launches tell, and clicks for a launch: both show only once somebody asked and it was reckoned."""
    with entered(chromium, served, scheme=scheme, bypass_csp=True) as page:
        opened(page, served, "/log")
        logs = sorted((DEMO / "travel").glob("kestrel_launch_*.csv"))[1:]
        page.locator('#learn input[type="file"]').set_input_files([str(path) for path in logs])
        page.locator('#learn select[name="surface"]').select_option("loose")
        page.get_by_role("button", name="See what they tell").click()
        served.wait()
        opened(page, served, "/log")
        page.get_by_role("group", name="What the launches tell").wait_for()
        assert serious_faults(page, axe_source) == []
        opened(page, served, "/car?car=kestrel#launch")
        page.get_by_role("combobox", name="Aim").select_option("nose-rate")
        page.get_by_label("Limit, where the aim has one").fill("97")
        page.get_by_role("combobox", name="Turn").select_option("front")
        page.get_by_role("button", name="Find the clicks").click()
        served.wait()
        page.reload()
        page.get_by_role("group", name="Clicks for the aim").wait_for()
        assert serious_faults(page, axe_source) == []
        assert page.evaluate(LAYOUT_FAULTS) == []
        assert page.seen.complaints == []


def test_a_number_that_is_pressed_says_how_it_was_got(chromium, served):
    with entered(chromium, served) as page:
        opened(page, served, "/car?car=kestrel")
        box = page.locator("dialog#how")
        page.locator('[data-at="fl.compression.low"] b').first.click()
        assert box.is_visible()
        told = box.inner_text()
        ratio = served.desk.remembered["car kestrel"].now.corners["fl"].ratios.compression.low.value
        assert "Critical damping at this shock is" in told
        assert f"is {ratio:.2f}" in told
        assert box.locator("h2").inner_text().startswith("Front left, compression, at low speed")
        page.keyboard.press("Escape")
        assert box.is_hidden()
        page.get_by_role("button", name="front low-speed compression, one click stiffer").click()
        until(lambda: page.locator('[data-then="fl.compression.low"] b').count())
        before = page.locator('[data-then="fl.compression.low"]').get_attribute("data-how")
        page.get_by_role("button", name="front low-speed compression, one click stiffer").click()
        until(lambda: page.locator('[data-then="fl.compression.low"]').get_attribute("data-how") != before)
        assert page.seen.complaints == []


def test_numbers_are_asked_by_keyboard_alone(chromium, served):
    with entered(chromium, served) as page:
        opened(page, served, "/curves?s=gravel@lsc=6&s=tarmac")
        page.get_by_role("group", name="Forces in compression").focus()
        page.keyboard.press("Enter")
        first = page.evaluate("document.activeElement.innerText")
        page.keyboard.press("ArrowDown")
        page.keyboard.press("ArrowRight")
        assert page.evaluate("document.activeElement.tagName") == "TD"
        assert page.evaluate("document.activeElement.innerText") != first
        page.keyboard.press("Enter")
        assert "95 % limits" in page.locator("dialog#how").inner_text()
        page.keyboard.press("Escape")
        assert page.evaluate("document.activeElement.tagName") == "TD", "back where one was"
        page.keyboard.press("Escape")
        assert page.evaluate("document.activeElement.getAttribute('aria-label')") == "Forces in compression"


def test_on_a_phone_what_nobody_asked_for_is_folded(chromium, served):
    with entered(chromium, served, 360, 640) as page:
        opened(page, served, "/car?car=kestrel&rear.spring=50#what")
        page.locator('[data-axle="front"] .compared').wait_for()
        assert page.locator("#now").is_hidden()
        assert page.locator("#what input[name='rear.spring']").is_visible(), "it was asked for"
        assert page.locator("#what input[name='front.spring']").is_hidden()
        opened(page, served, "/car?car=kestrel#what")
        assert page.locator("#rear-lsc").is_hidden()
        assert page.locator("#what").bounding_box()["height"] < 1900
        bar = page.locator(".at-hand").bounding_box()
        assert bar["y"] + bar["height"] <= 641, "what to do with it stays at hand"
        page.locator("summary", has_text="curve of the rear").click()
        page.locator("#rear-lsc").wait_for()


def test_on_a_phone_the_best_setting_of_each_axle_is_shown_and_the_others_folded(chromium, served):
    with entered(chromium, served, 360, 640) as page:
        opened(page, served, "/car?car=kestrel#choose")
        shown = page.locator("#choose .ranked tbody tr:visible")
        assert shown.count() == 2
        page.locator("#choose details.more summary", has_text="5 more settings nearly as good").first.click()
        assert shown.count() == 7
        page.set_viewport_size({"width": 1280, "height": 800})
        wide = page.locator("#choose .scroll >> nth=0").locator("tbody tr")
        wide.nth(2).wait_for()
        assert wide.count() == 3


@pytest.mark.parametrize("more", ["", "&s=tarmac@lsc=10,hsc=10,lsr=10,hsr=10"])
def test_forces_of_two_settings_stand_beside_each_other_on_the_narrowest_phone(chromium, served, more):
    with entered(chromium, served, 320, 640) as page:
        opened(page, served, f"/curves?s=gravel@lsc=10,hsc=10,lsr=10,hsr=10{more}")
        for table in page.locator("#forces .scroll").all():
            assert table.evaluate("t => t.scrollWidth - t.clientWidth") <= 0
        assert page.locator("#forces tbody tr").first.bounding_box()["height"] < (105 if more else 42)
