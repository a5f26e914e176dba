"""The two importers at their doors: digests, repeatability, and workbooks cell by cell."""

from __future__ import annotations

import io
import sys
import zipfile
from dataclasses import replace
from datetime import date, datetime, time
from hashlib import sha256
from pathlib import Path

import numpy as np
import openpyxl
import pytest
from hypothesis import given
from hypothesis import strategies as st

from dynoan.errors import ReadError
from dynoan.model.importing import ReadOptions
from importers import EXCEL, TEXT
from importers.workbooks import bounds, own_process, reading
from importers.workbooks.own_process import cell_text
from tests.importers.broken import file, rows
from tests.importers.making import quick
from tests.importers.records.hostile import far_cells


def workbook(*sheets: list[list[object]]) -> bytes:
    book = openpyxl.Workbook()
    book.remove(book.active)
    for i, content in enumerate(sheets):
        sheet = book.create_sheet(f"Run {i + 1}")
        for row in content:
            sheet.append(row)
    out = io.BytesIO()
    book.save(out)
    return out.getvalue()


PEAKS = [["Velocity [mm/s]", "Comp [N]", "Reb [N]"], [50, 100.5, 120], [100, 200, 240.25], [200, 300, 380]]


def read(importer, data, name="rig.xlsx", **options):
    return importer.read(data, name, ReadOptions(**options))


@pytest.mark.parametrize("times", [1, 60])
def test_the_digest_is_that_of_the_bytes_however_large_the_file(times):
    body = [r for k in range(times) for r in rows("{t:.6f},{x:.6f},{v:.6f},{f:.6f}", t=np.arange(400) / 200 + 2 * k)]
    data = file(body=body)
    (sweep,) = read(TEXT, data, "rig.csv")
    assert sweep.source.sha256 == sha256(data).hexdigest()
    assert sweep.samples == 400 * times


def test_a_refused_file_leaves_no_thread_waiting():
    with pytest.raises(ReadError):
        read(TEXT, b"nothing\n" * 100, "rig.csv")
    assert sweep_of(file()).samples == 400


def sweep_of(data):
    (sweep,) = read(TEXT, data, "rig.csv")
    return sweep


def test_reading_twice_gives_equal_sweeps_that_share_nothing():
    """What is cached of names and words must not be changed by a reading."""
    first, second = sweep_of(b"LSC 4\n" + file()), sweep_of(b"LSC 4\n" + file())
    assert (first.clicks, first.decisions, first.facts) == (second.clicks, second.decisions, second.facts)
    for channel, values in first.channels.items():
        assert not np.shares_memory(values, second.channels[channel])
        np.testing.assert_array_equal(values, second.channels[channel])
    first.clicks["lsc"] = 9
    assert sweep_of(b"LSC 4\n" + file()).clicks == {"lsc": 4}


@quick
@given(st.floats(0.01, 3.0), st.integers(2, 6))
def test_a_sheet_is_read_as_the_same_table_in_text(scale, n):
    table = [[round(scale * 50 * (k + 1), 3), round(100.5 * (k + 1), 3), 120.25 * (k + 1)] for k in range(n)]
    (sheet,) = read(EXCEL, workbook([PEAKS[0], *table]))
    text = "\n".join(",".join(map(str, row)) for row in [PEAKS[0], *table])
    (plain,) = read(TEXT, text.encode(), "rig.csv")
    for channel in ("velocity", "force"):
        np.testing.assert_array_equal(sheet.channels[channel], plain.channels[channel])


def test_each_sheet_is_a_part_and_empty_ones_are_none():
    sweeps = read(EXCEL, workbook(PEAKS, [[None, None]], [["LSC", 4], *PEAKS]))
    assert [s.source.part for s in sweeps] == ["Run 1", "Run 3"]
    assert [s.clicks for s in sweeps] == [{}, {"lsc": 4}]
    assert {s.source.name for s in sweeps} == {"rig.xlsx"}


def test_a_sheet_of_notes_beside_a_table_is_passed_over():
    (sweep,) = read(EXCEL, workbook([["The shock was soft."]], PEAKS))
    assert sweep.source.part == "Run 2"


@pytest.mark.parametrize(
    ("sheets", "said"),
    [(([[None]],), "no sheet holds anything"), (([["The shock was soft."]],), "sheet 'Run 1': no table of numbers")],
)
def test_a_workbook_without_a_table_is_refused(sheets, said):
    with pytest.raises(ReadError, match=f"^rig.xlsx.*{said}"):
        read(EXCEL, workbook(*sheets))


@pytest.mark.parametrize(
    ("value", "text"),
    [(None, ""), (True, "True"), (1.5, "1.5"), (1e-7, "1e-07"), (3, "3"), ("a\tb\n c", "a b c"),
     (datetime(2026, 5, 2, 10, 11), "2026-05-02 10:11:00"), (date(2026, 5, 2), "2026-05-02"),
     (time(10, 11, 12), "10:11:12")],
)  # fmt: skip
def test_cells_of_any_kind_are_text_of_one_cell(value, text):
    assert cell_text(value) == text


def test_a_workbook_that_unpacks_to_too_much_is_refused(monkeypatch):
    monkeypatch.setattr(reading, "MOST_UNPACKED", 1000)
    with pytest.raises(ReadError, match="unpacks to more than 0 MB; save the sheets as CSV"):
        read(EXCEL, workbook(PEAKS))


def test_without_the_extra_a_workbook_says_how_to_get_it(monkeypatch):
    monkeypatch.setitem(sys.modules, "openpyxl", None)
    with pytest.raises(ReadError, match=r"pip install 'dynoan\[excel\]'; or save it as CSV"):
        read(EXCEL, b"PK\x03\x04")


def test_a_zip_archive_that_is_no_workbook_is_declined_and_said():
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w") as archive:
        archive.writestr("run.csv", "1,2")
    verdict = EXCEL.recognises(out.getvalue(), "runs.zip")
    assert (verdict.yes, verdict.reason) == (False, "a zip archive that is no workbook; unpack it")
    assert TEXT.recognises(out.getvalue(), "runs.zip").reason == "this is a zip archive, not text; unpack it first"


@pytest.mark.parametrize("name", ["book.xlsx", "BOOK.XLSM", "renamed.dat"])
def test_a_workbook_is_known_by_name_or_content(name):
    assert EXCEL.recognises(workbook(PEAKS)[:65536], name).yes


def test_the_verdict_of_text_names_its_marks():
    assert TEXT.recognises(file(), "rig.csv").reason == "comma between cells, decimal point"
    assert TEXT.recognises(b"words\nand words\n", "rig.csv").reason == "no rows of numbers"


CORPUS = Path(__file__).parents[2] / "fixtures" / "layouts"
ELSEWHERE = """import runpy, sys
sys.modules["python_calamine"] = None
runpy.run_path({file!r}, run_name="__main__")
"""


@pytest.mark.parametrize("library", ["python_calamine", "openpyxl"])
def test_a_large_workbook_is_read_apart_with_the_same_result(library, monkeypatch, tmp_path):
    """Whichever library reads it there; an error in a cell is blank for one of them."""
    books = {p.name: p.read_bytes() for p in sorted(CORPUS.glob("*.xlsx")) if p.name != "errors_in_a_sheet.xlsx"}
    books["dates.xlsx"] = workbook([["LSC", 4, None], ["Date", date(2026, 5, 2), time(9, 5)], *PEAKS], PEAKS)
    right = {name: read(EXCEL, data, name) for name, data in books.items()}
    assert len(right) > 3
    if library == "openpyxl":  # a process of it takes a second
        books = {name: books[name] for name in ("dates.xlsx", "workbook_sheets.xlsx")}
    monkeypatch.setattr(reading, "LARGE_WORKBOOK", 0)
    if library == "openpyxl":
        script = tmp_path / "without.py"
        script.write_text(ELSEWHERE.format(file=own_process.__file__))
        monkeypatch.setattr(own_process, "__file__", str(script))
    for name, data in books.items():
        for one, other in zip(right[name], read(EXCEL, data, name), strict=True):
            assert replace(one, channels={}) == replace(other, channels={})
            assert one.channels.keys() == other.channels.keys()
            assert all(np.array_equal(one.channels[k], other.channels[k], equal_nan=True) for k in one.channels)


def test_what_is_read_apart_is_refused_for_what_it_is(monkeypatch):
    monkeypatch.setattr(reading, "LARGE_WORKBOOK", 0)
    with monkeypatch.context() as patch:
        patch.setattr(reading, "MOST_ROWS", 3)
        with pytest.raises(ReadError, match=r"^rig\.xlsx: a sheet of 4 rows, more than the 3 that a sheet can have; "):
            read(EXCEL, workbook(PEAKS))
    monkeypatch.setattr(bounds, "MOST_CELLS", 16_383)
    with pytest.raises(ReadError, match=r"more than 0 million cells, empty ones included"):
        read(EXCEL, far_cells(2))


def test_rows_and_cells_are_counted_over_the_ends_of_pieces(monkeypatch):
    book = workbook([[1, None, 2]] * 7, [[3]] * 9)
    for size in (1, 2, 3, 4, 7, 1 << 20):
        monkeypatch.setattr(bounds, "_CHUNK", size)
        assert bounds.unpacked_counts(book) == (9, 23)


def test_cells_that_share_a_long_text_are_bounded_together(monkeypatch):
    """A workbook keeps a text once however many cells show it: kilobytes become gigabytes."""
    book = workbook([["x" * 30_000] * 40])
    monkeypatch.setattr(own_process, "MOST_TEXT", 1_000_000)
    with pytest.raises(
        ReadError, match=r"^rig\.xlsx: a sheet of more than 1 MB of text; save the sheet with the table"
    ):
        read(EXCEL, book)


@pytest.mark.parametrize(
    ("ends", "said"),
    [
        ("os.kill(os.getpid(), signal.SIGXCPU)", r"not read within \d\d s of computing; save the sheets as CSV"),
        ("os.abort()", r"the workbook is damaged \(it cannot be read\); open and save it again"),
        ("sys.exit(6)", "a sheet of more than 200 MB of text; save the sheet with the table as CSV"),
        ("sys.exit(5)", "reading it takes more than 2048 MB of memory; save the sheet with the table as CSV"),
    ],
)
def test_a_process_that_ends_at_its_limits_is_told(ends, said, monkeypatch, tmp_path):
    monkeypatch.setattr(reading, "LARGE_WORKBOOK", 0)
    script = tmp_path / "ends.py"
    script.write_text(f"import os, resource, signal, sys\nresource.setrlimit(resource.RLIMIT_CORE, (0, 0))\n{ends}\n")
    monkeypatch.setattr(own_process, "__file__", str(script))
    with pytest.raises(ReadError, match=f"^rig\\.xlsx: {said}"):
        read(EXCEL, workbook(PEAKS))
