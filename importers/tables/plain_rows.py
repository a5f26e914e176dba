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


def plain_rows(data: bytes | memoryview, grid: CellGrid, *, numbers: bool = False) -> bytes | memoryview:
    """Return a body with one mark between cells and no marks that group digits; itself where it is so already.

    Parameters
    ----------
    data
        The body.
    grid
        How its cells stand.
    numbers
        Whether only numbers are wanted of it: a typographic minus, which is none to a parser, is then left where it is.
    """
    as_it_is = grid.delimiter != BLANKS and not grid.thousands and not _holds_fortran(data)
    if as_it_is and (numbers or not _may_hold_minus(data)):
        return data
    if grid.delimiter == BLANKS:
        data = _collapsed(data)
    data = bytes(with_plain_minus(data))
    if _holds_fortran(data):
        data = _FORTRAN.sub(rb"\1e\2", data)
    if grid.thousands:
        data = _ungrouped(data, grid)
    return data


def with_plain_minus(data: bytes | memoryview) -> bytes | memoryview:
    """Return a body with each typographic minus as a plain one; itself where there is none."""
    if not _may_hold_minus(data):
        return data
    data = bytes(data)  # a search in a view of it takes many times as long as the copy
    return data.replace(MINUS, b"-") if MINUS in data else data


def _holds_fortran(data: bytes | memoryview) -> bool:
    look = bytes(data[:_LOOK])
    return (b"d" in look or b"D" in look) and _FORTRAN.search(look) is not None


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
