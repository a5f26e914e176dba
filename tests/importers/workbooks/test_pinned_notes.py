"""Notes pinned to cells are told, and a file that is all notes costs little."""

import io
import zipfile

import pytest

from importers.workbooks.pinned_notes import pinned_notes


def workbook(*parts: str) -> bytes:
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w") as archive:
        for number, text in enumerate(parts, 1):
            archive.writestr(f"xl/comments{number}.xml", text)
    return out.getvalue()


def note(cell: str, words: str) -> str:
    return f'<comment ref="{cell}" authorId="0"><text><r><t xml:space="preserve">{words}</t></r></text></comment>'


def test_each_note_is_told_with_its_cell():
    (said,) = pinned_notes(workbook(f"<list>{note('B2', 'refilled to 9 bar &amp; bled')}{note('C7', 'odd')}</list>"))
    assert said == "notes pinned to cells are not read: B2 'refilled to 9 bar & bled', C7 'odd'"


def test_of_many_notes_the_first_are_shown():
    (said,) = pinned_notes(workbook(*(note("A1", f"n{k}") for k in range(9))))
    assert said.endswith("A1 'n0', A1 'n1', A1 'n2' and 6 more")


@pytest.mark.parametrize("text", ['<comment ref="A1">' * 14000, "<t " * 80000, "<comment " * 28000 + "</comment>"])
def test_what_is_no_note_is_passed_over_in_one_go(text):
    assert pinned_notes(workbook(text)) == ()


def test_parts_that_are_too_large_or_too_many_are_left_alone():
    assert pinned_notes(workbook(note("A1", "x" * 300_000))) == ()
    assert "and 13 more" in pinned_notes(workbook(*(note("A1", "x") for _ in range(40))))[0]
