"""A file's bytes as plain rows: a web page's tables as text, no remarks behind numbers."""

from __future__ import annotations

from dynoan.model.importing import HEAD
from importers.decoding import (
    is_markup,
    tables_as_text,
)
from importers.patterns import regex

_LARGEST_PAGE = 20_000_000  #: of a web page that is looked through for tables [bytes]
#: a row of numbers, and a remark behind it
_REMARK = regex(rb"(?m)^([-+\d.][-+\d.,;eE \t]*\d)[ \t]+#(?!N/?A|DIV|REF|VALUE|NUM|NAME|NULL|WERT|NV|#)[^\r\n]*")
#: the clock of the program that listened, before each line that a board on the rig sent
_HEARD = regex(rb"(?m)^\[?\d{1,2}:\d{2}:\d{2}[.,]\d{1,6}\]?[ \t]*-?>[ \t]*")
#: a cell in quotes beside others
_QUOTED_CELL = regex(rb'(?:(?<=[,;\t])"[^"]{0,300}"|(?<![^\n])"[^"]{0,300}"(?=[,;\t]))')
_FIRST_LINES = 20  #: that all must begin with a clock
_FIRST_BYTES = 4096  #: in which they are looked for
_FEW = 200  #: that many marks are looked at one by one


def page_as_text(data: bytes) -> bytes:
    """Return the tables of a web page as text; other files as they are."""
    if not is_markup(data[:HEAD]) or len(data) > _LARGEST_PAGE:
        return data
    text = tables_as_text(data.decode("utf-8", errors="replace"))
    return data if text is None else text.encode()


def without_clocks_heard(data: bytes) -> bytes:
    """Return a file's bytes without the clock, "12:01:03.000 -> ", of a program that listened to a rig.

    Its clock tells when a line came in, not when it was measured; a rig that sends no time of its own needs a rate.
    """
    lines = [line for line in data[:_FIRST_BYTES].splitlines()[:_FIRST_LINES] if line.strip()]
    return _HEARD.sub(b"", data) if len(lines) > 2 and all(map(_HEARD.match, lines)) else data


def without_breaks_in_cells(data: bytes) -> bytes:
    """Return a file's bytes with a blank for each line end within a quoted cell of its head, beside other cells."""
    head = data[:_FIRST_BYTES]
    if b'"' not in head:
        return data
    closed = _QUOTED_CELL.sub(lambda m: b" ".join(m[0].splitlines()), head)
    return closed + data[_FIRST_BYTES:] if closed != head else data


def without_remarks(data: bytes) -> bytes:
    """Return a file's bytes without what stands behind a number and a "#" in lines that begin with a number."""
    return _REMARK.sub(rb"\1", data) if _may_hold_remarks(data) else data


def _may_hold_remarks(data: bytes) -> bool:
    """Whether a "#" stands behind a blank somewhere; two bytes are looked for many times slower than one."""
    at = data.find(b"#")
    for _ in range(_FEW):
        if at < 0:
            return False
        if data[at - 1 : at] in (b" ", b"\t"):
            return True
        at = data.find(b"#", at + 1)
    return True
