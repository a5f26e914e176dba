"""Text that came in a reply, each line behind ">": without that mark."""

from __future__ import annotations

from importers.assumptions.tables import TIDY_LINES
from importers.patterns import regex

_QUOTED = regex(rb"(?m)^(?:>[ \t]?)+")
_LEAST = 3  #: lines
_HEAD = 4096  #: in which the first of them stands [bytes]


def without_quote_marks(data: bytes) -> bytes:
    """Return a short file's bytes without the marks of a reply, where three lines begin with one; else as they are.

    >>> without_quote_marks(b"Hi\\n> mm/s;N\\n> 50;210\\n> 100;330\\n")
    b'Hi\\nmm/s;N\\n50;210\\n100;330\\n'
    """
    if b">" not in data[:_HEAD] or data.count(b"\n") > TIDY_LINES:
        return data
    return _QUOTED.sub(b"", data) if len(_QUOTED.findall(data)) >= _LEAST else data
