"""Rows rewritten so that a plain parser takes them: one mark between cells, none within numbers."""

from __future__ import annotations

import re
from functools import partial

import numpy as np

from importers.grid import BLANKS, CellGrid
from importers.patterns import regex

_FORTRAN = regex(rb"(\d\.?)[dD]([+-]?\d)")  #: exponents as in "1.0D+02"
_LOOK = 4000  #: where exponents are written so, they are from the first rows on [bytes]
MINUS = "−".encode()  #: the typographic one
_BLANK, _TAB, _NEWLINE, _RETURN = 32, 9, 10, 13


def plain_rows(data: bytes | memoryview, grid: CellGrid) -> bytes | memoryview:
    """Return a body with one mark between cells and no marks that group digits; itself where it is so already."""
    as_it_is = grid.delimiter != BLANKS and not grid.thousands and not _FORTRAN.search(data, 0, _LOOK)
    if as_it_is and not _may_hold_minus(data):
        return data
    if grid.delimiter == BLANKS:
        data = _collapsed(data)
    data = bytes(data)  # a search in a view of it takes many times as long as the copy
    # One byte is looked for many times faster than three.
    if MINUS[0] in data and MINUS in data:
        data = data.replace(MINUS, b"-")
    if _FORTRAN.search(data, 0, _LOOK):
        data = _FORTRAN.sub(rb"\1e\2", data)
    if grid.thousands:
        data = _ungrouped(data, grid)
    return data


def _may_hold_minus(data: bytes | memoryview) -> bool:
    """Whether a byte is as high as the first of the typographic minus: numpy needs no copy to know."""
    return len(data) > 0 and int(np.frombuffer(data, np.uint8).max()) >= MINUS[0]


def _ungrouped(data: bytes, grid: CellGrid) -> bytes:
    for mark in grid.thousands:
        for code in {mark.encode(), mark.encode("cp1252", errors="ignore") or mark.encode()}:
            if mark == grid.delimiter:
                data = re.sub(rb'"[^"\n]*"', partial(_without, code), data)
            else:
                data = re.sub(rb"(?<=\d)" + re.escape(code) + rb"(?=\d{3}(?!\d))", b"", data)
    return data


def _without(code: bytes, match: re.Match[bytes]) -> bytes:
    return match[0].replace(code, b"")


def _collapsed(data: bytes | memoryview) -> bytes:
    """Return text with runs of blanks and tabs as one blank, and none at the ends of lines."""
    a = np.frombuffer(data, np.uint8)
    blank = (a == _BLANK) | (a == _TAB)
    end = (a == _NEWLINE) | (a == _RETURN)
    before = np.empty_like(blank)
    before[0], before[1:] = True, (blank | end)[:-1]
    out = np.where(blank, np.uint8(_BLANK), a)[~(blank & before)]
    # A blank before a line's end is left over where it was the first of its run.
    last = np.empty(len(out), bool)
    if len(out):
        last[-1], last[:-1] = True, (out[1:] == _NEWLINE) | (out[1:] == _RETURN)
        out = out[~((out == _BLANK) & last)]
    return bytes(out.tobytes())
