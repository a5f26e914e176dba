"""The report in a browser: readable without script at every size, in both schemes, and on paper."""

import re
from dataclasses import replace
from io import BytesIO

import pytest
from pypdf import PdfReader

from dynoan.show.pages.report.build import LAST, build_report, sections
from tests.browser.conftest import LAYOUT_FAULTS, SIZES, WEAK_EDGES, serious_faults
from tests.show.cars import EVIL
from tests.show.reports import made_report, usual_report

pytestmark = pytest.mark.browser


@pytest.fixture(scope="module")
def view():
    return usual_report()[0]


@pytest.fixture(scope="module")
def html():
    return usual_report()[1]


@pytest.mark.parametrize("scheme", ["light", pytest.param("dark", marks=pytest.mark.thorough)])
@pytest.mark.parametrize("size", SIZES, ids=lambda s: f"{s[0]}x{s[1]}")
def test_nothing_overflows_or_overlaps(opened, html, size, scheme):
    page = opened(html, *size, scheme)
    assert page.evaluate(LAYOUT_FAULTS) == []


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_axe_finds_no_serious_fault(opened, html, axe_source, scheme):
    page = opened(html, 1440, 900, scheme)
    assert serious_faults(page, axe_source) == []
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


@pytest.mark.parametrize("paper", ["A4", pytest.param("Letter", marks=pytest.mark.thorough)])
def test_contents_on_paper_name_the_pages_on_which_parts_begin(opened, html, view, paper):
    page = opened(html)
    page.emulate_media(media="print")
    texts = [sheet.extract_text() for sheet in PdfReader(BytesIO(page.pdf(format=paper))).pages]
    assert len(view.packs) + len(view.cars) + len(view.shocks) < len(texts) < 30
    feet = [re.search(r"(\d+-\d+)\s*sheet (\d+) of (\d+)", text) for text in texts]
    assert [foot.group(2, 3) for foot in feet] == [(str(n), str(len(texts))) for n in range(1, len(texts) + 1)]
    numbers = [foot[1] for foot in feet]
    assert len(set(numbers)) == len(numbers)
    assert [int(n.split("-")[0]) for n in numbers] == sorted(int(n.split("-")[0]) for n in numbers)
    listed = re.findall(r"^(?:\d+ *)?(\D.*?)\s+(\d+-1)$", texts[0], re.MULTILINE)
    titles = [s.title for s in sections(view)][1:]
    assert [title for title, _ in listed] == [*titles, LAST, "How each number was got"]
    for title, number in listed:
        part = number.split("-")[0]
        assert re.search(rf"^(?:{part} +)?{re.escape(title)}$", texts[numbers.index(number)], re.MULTILINE), title


def test_contents_lead_to_their_sections_without_script(opened, html):
    page = opened(html, 1440, 900, java_script_enabled=False)
    page.click("nav a:has-text('Pairs')")
    assert page.url.endswith("#pairs")
    assert "matched" in page.inner_text("#pairs")


def test_names_from_files_show_as_text(opened):
    view = replace(made_report((EVIL,)), title=EVIL, warnings=(EVIL,), shocks=(), pairs=())
    page = opened(build_report(view))
    assert page.seen.dialogs == []
    assert page.inner_text("h1") == EVIL
    assert page.evaluate("document.scripts.length") == 0
    assert page.evaluate(LAYOUT_FAULTS) == []
