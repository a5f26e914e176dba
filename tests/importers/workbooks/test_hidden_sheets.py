"""A sheet that is hidden in its workbook is left out and told, where another holds a run; alone it is read."""

from __future__ import annotations

import io

import openpyxl
import pytest

from dynoan.reading import read_bytes
from importers.workbooks import reading

ROWS = [["Velocity (mm/s)", "Compression (N)", "Rebound (N)"], [50, 300, 420], [100, 480, 700], [200, 700, 1010]]


def book(*hidden: bool) -> bytes:
    made = openpyxl.Workbook()
    made.active.title = "Notes"
    for k, is_hidden in enumerate(hidden):
        sheet = made.create_sheet(f"Run {k}, old")
        for row in ROWS:
            sheet.append(row)
        sheet.sheet_state = "hidden" if is_hidden else "visible"
    out = io.BytesIO()
    made.save(out)
    return out.getvalue()


@pytest.mark.parametrize("apart", [False, True])
def test_hidden_sheets(apart, monkeypatch):
    if apart:  # as a large workbook is
        monkeypatch.setattr(reading, "LARGE_WORKBOOK", 1)
    (sweep,) = read_bytes(book(False, True), "book.xlsx")
    assert sweep.source.part == "Run 0, old"
    assert "sheet 'Run 1, old' was left out: it is hidden in the workbook" in sweep.warnings[0]
    assert len(read_bytes(book(False, False), "book.xlsx")) == 2
    assert len(read_bytes(book(True), "book.xlsx")) == 1
