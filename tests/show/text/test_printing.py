"""Blocks of text where people look: standard output, standard error, a page."""

from __future__ import annotations

import pytest

from dynoan.show.pages.fragment import fragment
from dynoan.show.text import tables
from dynoan.show.text.blocks import Note, Paragraph, Table
from dynoan.show.text.printing import write


def test_notes_go_beside_what_was_asked_for(capsys):
    write([Paragraph("first"), Note("kept 1 new"), Table(["a"], [["1"]]), Note("b.csv: empty", failed=True)])
    said = capsys.readouterr()
    assert said.out == "first\na\n-\n1\n"
    assert said.err == "kept 1 new\ndynoan: b.csv: empty\n"


def test_a_page_keeps_a_drawings_blanks_and_nothing_runs_in_it():
    drawn = "  │ ⠑<\n  └──"
    page = fragment([Paragraph(drawn, drawn=True), Note("<script>", failed=True), Paragraph("one\ntwo")])
    assert page == "<pre>  │ ⠑&lt;\n  └──</pre>\n<p>&lt;script&gt;</p>\n<p>one<br>two</p>"


@pytest.mark.parametrize(("rows", "fitted"), [(tables.FITTED, True), (tables.FITTED + 1, False)])
def test_a_long_table_is_not_fitted_to_the_terminal(monkeypatch, capsys, rows, fitted):
    monkeypatch.setattr("sys.stdout.isatty", lambda: True, raising=False)
    asked = []
    monkeypatch.setattr(tables, "_print_fitted", lambda *args: asked.append(args))
    tables.table(["a"], [["1"]] * rows)
    assert bool(asked) == fitted
    assert bool(capsys.readouterr().out) != fitted
