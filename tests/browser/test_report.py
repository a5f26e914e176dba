"""The report in a browser: readable without script at every size, in both schemes, and on paper."""

import re
from dataclasses import replace
from io import BytesIO
from itertools import pairwise

import pytest
from pypdf import PdfReader

from dynoan.show.pages.report.blocks import Grid
from dynoan.show.pages.report.build import LAST, build_report, sections
from dynoan.show.pages.report.sheets import ABOVE, height, placed
from tests.browser.conftest import EVERY, LAYOUT_FAULTS, SIZES, WEAK_EDGES, serious_faults
from tests.show.cars import EVIL
from tests.show.reports import made_report, usual_report, with_parts

pytestmark = pytest.mark.browser


@pytest.fixture(scope="module")
def view():
    return usual_report()[0]


@pytest.fixture(scope="module")
def html():
    return usual_report()[1]


@pytest.fixture(scope="module")
def parts(view):
    """The parts of the report; their pictures take a while to draw."""
    return sections(view)


@pytest.fixture(scope="module", params=["A4", pytest.param("Letter", marks=pytest.mark.thorough)])
def sheets(request, chromium, html, tmp_path_factory):
    """The text of each sheet of paper that the report is printed on."""
    path = tmp_path_factory.mktemp("paper") / "report.html"
    path.write_text(html, encoding="utf-8")
    with chromium.lent(360, 640) as page:
        page.goto(path.as_uri())
        page.emulate_media(media="print")
        return [sheet.extract_text() for sheet in PdfReader(BytesIO(page.pdf(format=request.param))).pages]


@pytest.mark.parametrize("scheme", ["light", pytest.param("dark", marks=pytest.mark.thorough)])
@pytest.mark.parametrize("size", SIZES, ids=lambda s: f"{s[0]}x{s[1]}")
def test_nothing_overflows_or_overlaps(opened, html, size, scheme):
    page = opened(html, *size, scheme)
    assert page.evaluate(LAYOUT_FAULTS) == []


def test_a_wide_window_holds_every_table_whole(opened, html):
    page = opened(html, 1440, 900)
    assert page.evaluate("document.querySelectorAll('.scroll table').length") > 8
    assert (
        page.evaluate(
            """() => [...document.querySelectorAll('.scroll')].filter((e) => e.scrollWidth > e.clientWidth)
             .map((e) => e.getAttribute("aria-label"))"""
        )
        == []
    )


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_axe_finds_no_serious_fault(opened, html, axe_source, scheme):
    page = opened(html, 1440, 900, scheme)
    assert serious_faults(page, axe_source, EVERY) == []
    assert page.evaluate(WEAK_EDGES) == []


def test_no_request_leaves_the_page_and_nothing_is_refused(opened, html):
    page = opened(html)
    page.wait_for_timeout(200)
    assert page.seen.requests == [page.url]
    assert page.seen.complaints == []


def test_on_paper_every_table_and_picture_fits_between_the_margins(opened, html):
    """A4 is 210 mm wide (ISO 216), Letter 8.5 in; the page's margins are 13 mm; CSS has 96 px to the inch."""
    page = opened(html)
    page.emulate_media(media="print")
    for width in (184, 190):
        page.set_viewport_size({"width": round(width / 25.4 * 96), "height": 1000})
        too_wide = page.evaluate(
            """() => [...document.querySelectorAll("table, svg")].filter((e) => e.getBoundingClientRect().right
                 > document.documentElement.clientWidth + 0.5).map((e) => e.textContent.slice(0, 40))"""
        )
        assert too_wide == [], f"{width} mm"


def test_contents_on_paper_name_the_pages_on_which_parts_begin(sheets, view, parts):
    assert len(view.parts.packs) + len(view.parts.cars) + len(view.parts.shocks) < len(sheets) < 30
    feet = [re.findall(r"^\d+-\d+$", text, re.MULTILINE) for text in sheets]
    numbers = [foot[-1] for foot in feet]
    assert [len(foot) for foot in feet[1:]] == [1] * (len(sheets) - 1), "one number a sheet"
    assert len(set(numbers)) == len(numbers)
    assert [int(n.split("-")[0]) for n in numbers] == sorted(int(n.split("-")[0]) for n in numbers)
    listed = re.findall(r"^(?:\d+ *)?(\D.*?)\s+(\d+-1)$", sheets[0], re.MULTILINE)
    titles = [s.title for s in parts][1:]
    assert [title for title, _ in listed] == [*titles, LAST, "How each number was got"]
    for title, number in listed:
        part = number.split("-")[0]
        assert re.search(rf"^(?:{part} +)?{re.escape(title)}$", sheets[numbers.index(number)], re.MULTILINE), title


def test_no_sheet_is_nearly_empty_and_none_ends_with_a_heading(sheets, parts):
    """A part of three lines had a sheet of its own; what is short now goes on with what follows."""
    headings = {s.title for s in parts} | {b.caption for s in parts for b in s.blocks if isinstance(b, Grid)}
    running = re.compile(r"\d+-\d+")
    for number, text in enumerate(sheets, start=1):
        said = [line.strip() for line in text.splitlines() if line.strip() and not running.search(line)]
        assert len(said) > 6, (number, said)  # beside what a picture fills
        assert re.sub(r"^\d+ +", "", said[-1]) not in headings, (number, said[-1])


def test_short_parts_share_a_sheet_and_long_ones_begin_their_own(parts):
    found, last = placed(parts, LAST)
    numbers = [part.number for part in (*found, last)]
    assert numbers[:2] == [1, 2], "the first sheet has the contents, and no more"
    assert [b - a for a, b in pairwise(numbers)] == [int(not part.within) for part in (*found[1:], last)]
    by_title = {part.section.title: part for part in found}
    assert by_title["Dyno runs"].number == by_title["Pairs"].number, "two pairs leave room"
    for part in found[1:]:
        mine = [height(p.section) for p in found if p.number == part.number]
        assert sum(mine[:-1]) <= ABOVE


def test_contents_lead_to_their_sections_without_script(opened, html):
    page = opened(html, 1440, 900, java_script_enabled=False)
    page.click("nav a:has-text('Pairs')")
    assert page.url.endswith("#pairs")
    assert "matched" in page.inner_text("#pairs")


def test_names_from_files_show_as_text(opened):
    view = replace(with_parts(made_report((EVIL,)), shocks=(), pairs=()), title=EVIL, warnings=(EVIL,))
    page = opened(build_report(view))
    assert page.seen.dialogs == []
    assert page.inner_text("h1") == EVIL
    assert page.evaluate("document.scripts.length") == 0
    assert page.evaluate(LAYOUT_FAULTS) == []
