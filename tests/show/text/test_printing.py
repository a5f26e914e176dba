"""Blocks of text where people look: standard output, standard error, a page."""

from __future__ import annotations

import io

from dynoan.show.pages.fragment import fragment
from dynoan.show.text.blocks import Note, Paragraph, Table
from dynoan.show.text.printing import say, write


def test_notes_go_beside_what_was_asked_for(capsys):
    write([Paragraph("first"), Note("kept 1 new"), Table(["a"], [["1"]]), Note("b.csv: empty", failed=True)])
    said = capsys.readouterr()
    assert said.out == "first\na\n-\n1\n"
    assert said.err == "kept 1 new\ndynoan: b.csv: empty\n"


def test_a_page_keeps_a_drawings_blanks_and_nothing_runs_in_it():
    drawn = "  │ ⠑<\n  └──"
    page = fragment([Paragraph(drawn, drawn=True), Note("<script>", failed=True), Paragraph("one\ntwo")])
    assert page == "<pre>  │ ⠑&lt;\n  └──</pre>\n<p>&lt;script&gt;</p>\n<p>one<br>two</p>"


class Terminal(io.StringIO):
    def isatty(self):
        return True


def test_a_terminal_wraps_lines_between_words_and_parts_no_number_from_its_unit(monkeypatch):
    out = Terminal()
    monkeypatch.setattr("sys.stdout", out)
    monkeypatch.setenv("COLUMNS", "24")
    write([Paragraph("  the knee lies at 64.0 mm/s ± 2.0 mm/s")])
    assert out.getvalue() == "  the knee lies at\n  64.0 mm/s ± 2.0 mm/s\n"


def test_a_drawing_is_not_wrapped(monkeypatch):
    out = Terminal()
    monkeypatch.setattr("sys.stdout", out)
    monkeypatch.setenv("COLUMNS", "10")
    write([Paragraph("│ ⠑   ⠑   ⠑   ⠑", drawn=True)])
    assert out.getvalue() == "│ ⠑   ⠑   ⠑   ⠑\n"


def test_a_command_line_to_be_copied_stays_whole_where_prose_is_wrapped(monkeypatch):
    monkeypatch.setenv("COLUMNS", "40")
    line = "dynoan bounce travel/push_front_left.csv --car kestrel --corner fl"
    for text in (f"$ {line}", f"    {line}"):
        out = Terminal()
        say(text, out, typed=True)
        assert out.getvalue() == f"{text}\n"
    out = Terminal()
    say(line, out)
    assert out.getvalue().count("\n") == 2
