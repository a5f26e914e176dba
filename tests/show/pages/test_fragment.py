"""A page shows what stands in files and runs none of it."""

from __future__ import annotations

from html.parser import HTMLParser

from hypothesis import given, settings
from hypothesis import strategies as st

from dynoan.show.pages.fragment import fragment
from dynoan.show.pages.page import whole
from dynoan.show.text.blocks import Note, Paragraph, Table

FEW = settings(max_examples=60, deadline=None)
EVIL = st.sampled_from(["<script>alert(1)</script>", '" onmouseover="x', "' x='", "<img src=x onerror=y>", "&lt;b&gt;",
                        "]]>", "<!--", "-->", "</td></table>", "&#60;", "{{x}}", "javascript:x", "\u202e"])  # fmt: skip
# No carriage return and NUL: a browser turns them into other characters by itself.
ANY = st.lists(EVIL | st.text(st.characters(codec="utf-8", exclude_characters="\r\0"), max_size=10), max_size=3).map(
    "".join
)
PLAIN = {"p", "br", "pre", "table", "caption", "thead", "tbody", "tr", "th", "td"}


class Page(HTMLParser):
    """What a browser makes of a page: its elements, their attributes and the text in them."""

    def __init__(self) -> None:
        super().__init__()
        self.tags: list[str] = []
        self.attributes: list[tuple[str, str | None]] = []
        self.texts: list[str] = []
        self.odd: list[str] = []

    def handle_starttag(self, tag, attrs):
        self.tags.append(tag)
        self.attributes += attrs
        self.texts.append("\n" if tag == "br" else "")

    def handle_data(self, data):
        self.texts[-1] += data

    def handle_comment(self, data):
        self.odd.append(data)

    def handle_decl(self, decl):
        self.odd.append(decl)

    def unknown_decl(self, data):
        self.odd.append(data)

    def handle_pi(self, data):
        self.odd.append(data)


def parsed(text: str) -> Page:
    page = Page()
    page.feed(text)
    page.close()
    assert not page.odd
    assert set(page.tags) <= PLAIN
    assert set(page.attributes) <= {("align", "left"), ("align", "right")}
    return page


@FEW
@given(
    st.integers(1, 3).flatmap(lambda n: st.lists(st.lists(ANY, min_size=n, max_size=n), min_size=1, max_size=4)), ANY
)
def test_a_table_shows_every_cell_as_it_stands_and_nothing_runs(grid, title):
    head, *rows = grid
    page = parsed(fragment([Table(head, rows, title)]))
    cells = [text for tag, text in zip(page.tags, page.texts, strict=True) if tag in ("th", "td")]
    assert cells == [cell for row in grid for cell in row]
    assert [t for tag, t in zip(page.tags, page.texts, strict=True) if tag == "caption"] == ([title] if title else [])


@FEW
@given(ANY, st.booleans())
def test_a_paragraph_a_drawing_and_a_note_show_their_text_and_nothing_runs(text, failed):
    drawn = parsed(fragment([Paragraph(text, drawn=True)]))
    assert (drawn.tags, drawn.texts) == (["pre"], [text])
    for block in (Paragraph(text), Note(text, failed=failed)):
        page = parsed(fragment([block]))
        shown = "".join(page.texts)
        assert shown.splitlines() == ("\n".join(text.splitlines()) if text.strip() else "").splitlines()


def test_numbers_stand_to_the_right_and_words_to_the_left():
    page = fragment([Table(["pack", "force"], [["gravel", "12 ± 3"], ["mixed", "–"]])])
    assert page.count('<td align="right">') == 2
    assert '<td align="right">12 ± 3</td>' in page
    assert '<td align="left">gravel</td>' in page
    assert fragment([]) == ""


def test_no_mark_of_a_report_turns_its_neighbours_round():
    assert str(whole("lsc 12, \u202egnp\u2069, RL-03")) == 'lsc 12, gnp, <span class="whole-word">RL-03</span>'
