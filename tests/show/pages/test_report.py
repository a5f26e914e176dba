"""The report: everything on one page, the numbers those of the nouns, nothing fetched, names harmless."""

import re
from dataclasses import replace
from html import unescape
from html.parser import HTMLParser

import pytest

from dynoan.cautions import CAUTIONS
from dynoan.errors import CallError
from dynoan.jobs.ratio.figures import CORNER, DIRECTION
from dynoan.model.example_numbers import TOLD
from dynoan.show.pages.report import build as report_module
from dynoan.show.pages.report.build import build_report, sections
from dynoan.show.pages.report.view import ReportView
from tests.frames import framed
from tests.show.cars import EVIL
from tests.show.reports import made_report, usual_report, with_parts


class Reader(HTMLParser):
    """Tables by caption, ids, links and tags of a page."""

    def __init__(self):
        super().__init__()
        self.tables, self.ids, self.links, self.tags, self.text = {}, [], [], [], []
        self._cell, self._row, self._rows, self._caption = None, None, None, None

    def handle_starttag(self, tag, attrs):
        facts = dict(attrs)
        self.tags.append(tag)
        self.ids += [facts["id"]] if "id" in facts else []
        self.links += [facts["href"]] if "href" in facts else []
        if tag == "table":
            self._rows = []
        elif tag == "tr":
            self._row = []
        elif tag in ("td", "th", "caption"):
            self._cell = ""

    def handle_data(self, data):
        self.text.append(data)
        if self._cell is not None:
            self._cell += data

    def handle_endtag(self, tag):
        if tag in ("td", "th"):
            self._row.append(self._cell)
            self._cell = None
        elif tag == "caption":
            self._caption, self._cell = self._cell, None
        elif tag == "tr":
            self._rows.append(self._row)
        elif tag == "table":
            self.tables[self._caption] = self._rows


def read(page):
    reader = Reader()
    reader.feed(page)
    return reader


@pytest.fixture(scope="module")
def view():
    return usual_report()[0]


@pytest.fixture(scope="module")
def page():
    return usual_report()[1]


@pytest.fixture(scope="module")
def reader(page):
    return read(page)


def test_ratio_table_holds_the_ratios_of_the_analysis(reader, view):
    rows = next(rows for caption, rows in reader.tables.items() if caption.startswith("Damping ratios"))[1:]
    assert len(rows) == 8
    ratios = view.parts.cars[0].ratio.ratios
    for row, (name, direction) in zip(rows, ((n, d) for n in ratios for d in ("compression", "rebound")), strict=True):
        side = ratios[name].side(direction)
        assert row[1] == direction
        assert float(row[2].split()[0]) == pytest.approx(side.low.value, abs=0.0051)
        assert float(row[5].split()[0]) == pytest.approx(side.high.value, abs=0.0051)


def test_a_car_of_example_numbers_says_so_by_its_name_and_above_its_tables(view, monkeypatch):
    framed(monkeypatch)
    car = replace(view.parts.cars[0], example=True)
    made = sections(with_parts(view, cars=(car,)))
    of_car = next(s for s in made if s.title.startswith("Car "))
    assert "example numbers" in of_car.title
    assert of_car.blocks[0].texts == (TOLD,)
    assert ("Cars", car.words) in made[0].blocks[0].pairs
    assert not any("example" in s.title for s in sections(view))


def test_a_measure_is_in_the_report_where_its_list_says_so(reader):
    rates = reader.tables["Rates and critical damping"][0][1:]
    others = reader.tables["The same by other measures"][0][2:]
    for measures, heads in ((CORNER, rates), ([m for m in DIRECTION if m.key not in ("low", "high")], others)):
        words = [m.words.lower() for m in measures if m.report]
        assert [head.split(" [")[0].lower() for head in heads] == words
    assert any(not m.report for m in CORNER)


def test_tested_table_holds_force_and_band_of_the_curves(reader, view):
    rows = reader.tables["Tested settings of pack gravel"][1:]
    for row, test in zip(rows, view.parts.packs[0].tested, strict=True):
        force, *sides = (float(t) for t in re.split(r" [±+−] ", row[3]))
        middle = float(test.curve.compression.force(0.25))
        assert force == pytest.approx(middle, abs=0.51)
        low, high = (float(limit) for limit in test.curve.compression.band(0.25))
        either = [(high - low) / 2] if "±" in row[3] else [high - middle, middle - low]
        assert sides == pytest.approx(either, abs=0.51)


def test_pairs_say_verdict_and_interval(reader):
    rows = reader.tables["Shocks in the same pack and clicks, each as tested last, tolerance 5 %"][1:]
    assert [row[4] for row in rows] == ["cannot tell", "matched"]
    assert [row[3] for row in rows] == ["2025-09-01 and 2026-03-14", "no date"]
    assert re.fullmatch(r"[+−]\d+(\.\d)? to [+−]\d+(\.\d)?", rows[0][6])


def test_choices_are_ranked_and_counted_as_the_shock_counts(reader, view):
    rows = reader.tables["Settings nearest to the targets, best first"][1:]
    front = [float(r[7]) for r in rows if r[0] == "front"]
    assert front == sorted(front)
    first = view.parts.cars[0].choices[0]
    assert rows[0][2] == ", ".join(f"{n}\u00a0{c}" for n, c in first.clicks["fl"].items())


def test_every_link_of_the_contents_leads_somewhere_and_no_id_stands_twice(reader):
    assert len(reader.ids) == len(set(reader.ids))
    assert {link[1:] for link in reader.links} <= set(reader.ids)
    assert len(reader.links) > 10


def test_one_file_no_script_one_caution(page, reader):
    assert not re.search(r"(?:src|href)\s*=\s*[\"'](?!#)", page)
    assert "script" not in reader.tags
    assert " style=" not in page
    assert "script-src 'none'" in unescape(page)
    assert page.count(CAUTIONS[:40]) == 1
    assert len(page.encode()) < 5_000_000
    assert reader.tags.count("svg") >= 6


def test_the_same_view_gives_the_same_bytes(view):
    one_pack = with_parts(view, packs=view.parts.packs[:1], cars=(), shocks=())
    assert build_report(one_pack) == build_report(one_pack)


@pytest.mark.thorough
def test_names_from_files_show_as_text():
    evil = replace(with_parts(made_report((EVIL, "$x_{")), shocks=()), title=EVIL, scope=EVIL, warnings=(EVIL,))
    page = build_report(evil)
    reader = read(page)
    assert EVIL not in page
    assert "script" not in reader.tags
    text = "".join(reader.text)
    assert text.count(EVIL) > 10
    assert "$x_{" in text


def test_us_units_stand_in_heads_and_cells(view):
    reader = read(build_report(replace(with_parts(view, packs=view.parts.packs[:1], cars=(), shocks=()), units="us")))
    head, row = reader.tables["Tested settings of pack gravel"][:2]
    assert "Compr. at 2.0 in/s [lbf]" in head
    force = float(view.parts.packs[0].tested[0].curve.compression.force(10 * 0.0254))
    # 1 lbf = 4.4482216152605 N: NIST SP 811, appendix B.8
    assert float(row[3].split(" ± ")[0]) == pytest.approx(force / 4.4482216152605, abs=0.051)


def test_a_report_of_nothing_still_has_contents_and_cautions():
    reader = read(build_report(ReportView("Empty", "Nothing", "today")))
    assert {"glance", "how", "cautions"} <= set(reader.ids)
    assert [s.anchor for s in sections(ReportView("Empty", "Nothing", "today"))] == ["glance"]


def test_too_large_a_report_says_what_to_do(view, monkeypatch):
    monkeypatch.setattr(report_module, "LIMIT", 1000)
    with pytest.raises(CallError, match="name one shock, pack or car"):
        build_report(with_parts(view, packs=(), cars=(), shocks=()))


def test_the_words_of_the_trade_are_explained_once(page):
    for word in ("lsc, hsc, lsr, hsr", "Knee", "Cross-talk", "Band"):
        assert page.count(f"<dt>{word}</dt>") == 1, word
