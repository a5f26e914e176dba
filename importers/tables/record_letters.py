"""Files whose every line begins with what kind of line it is: "H,time,force" over "D,0.1,20", as loggers send them."""

from __future__ import annotations

from collections import Counter

from importers.assumptions.tables import RECORD_KINDS, RECORD_ROWS
from importers.patterns import regex

#: a letter or a short word in capitals before the first cell
_LETTER = regex(rb"(?m)^[ ]*\$?([A-Z]{1,8})[ ]*([,;\t|])[ ]*([^\r\n]*)")
_LINES = regex(rb"(?m)^[ \t]*[^\s]")
_NUMBERS = regex(rb"[-+\d.,;\t| eE]*\d[-+\d.,;\t| eE]*")
#: what begins the lines of measured numbers
_ROWS = frozenset((b"D", b"DATA", b"DAT", b"P", b"S", b"M", b"ROW", b"REC", b"VAL"))


def without_letters(data: bytes) -> tuple[bytes, tuple[str, ...]]:
    """Return a file's bytes without the letter that begins each of its lines, and what was left out; else them as is.

    Lines of numbers with other cells than the rows have are left out: a temperature now and then between them.
    """
    if not _may_be(data):
        return data, ()
    found = list(_LETTER.finditer(data))
    kinds = Counter(m[1] for m in found)
    rows = kinds.most_common(1)[0][0]
    if rows not in _ROWS or kinds[rows] < RECORD_ROWS or not 2 <= len(kinds) <= RECORD_KINDS:
        return data, ()
    mark = next(m[2] for m in found if m[1] == rows)
    if len(found) < len(_LINES.findall(data)) or any(m[2] != mark for m in found):
        return data, ()
    cells = {m[3].count(mark) for m in found if m[1] == rows}
    first = next(m.start() for m in found if m[1] == rows)
    odd = [m for m in found if m[1] != rows and m.start() > first and _NUMBERS.fullmatch(m[3])]
    if any(m[3].count(mark) in cells for m in odd):
        return data, ()
    left = Counter(m[1].decode() for m in odd)
    out = set(odd)
    said = tuple(
        f"between lines that begin with '{rows.decode()}', those with '{kind}' were left out: {n}"
        for kind, n in left.items()
    )
    # A line left out leaves an empty one, so that what is said of a line further down names the line of the file.
    kept = (b"" if m in out else m[0] if m.start() < first and _NUMBERS.fullmatch(m[3]) else m[3] for m in found)
    return b"\n".join(kept) + b"\n", said


def _may_be(data: bytes) -> bool:
    """Whether a file's first lines begin with a letter and a mark between cells."""
    lines = [line for line in data[:400].splitlines() if line.strip()][:3]
    return len(lines) == 3 and all(map(_LETTER.match, lines))
