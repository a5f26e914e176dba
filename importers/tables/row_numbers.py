"""Rows that are numbered, and the number has no name, as statistics programs write them: a name for it in the head."""

from __future__ import annotations

from importers.assumptions.tables import NUMBERED_ROWS
from importers.patterns import regex

_HEAD = 4096  #: in which the names are looked for [bytes]
_CELL = regex(rb'"[^"]*"|[^\s"]+')
_NUMBER = regex(rb'[ \t]*"?(\d{1,6})"?[ \t]+\S')
_QUOTED = regex(rb'(?m)^"(\d{1,6})"(?=[ \t])')


def with_numbers_named(data: bytes) -> bytes:
    """Return a file's bytes with "row" before its names, set apart by tabs, where each row has one cell more.

    Only of cells that blanks set apart and rows that count from 0 or 1 by ones.
    """
    lines = data[:_HEAD].split(b"\n")
    for at, line in enumerate(lines[:-NUMBERED_ROWS]):
        first = _NUMBER.match(lines[at + 1])
        if first is None or _NUMBER.match(line) or first[1] not in (b"0", b"1"):
            continue
        names = _CELL.findall(line)
        rows = lines[at + 1 : at + 1 + NUMBERED_ROWS]
        numbers = [int(found[1]) for row in rows if (found := _NUMBER.match(row))]
        counted = numbers == list(range(numbers[0], numbers[0] + NUMBERED_ROWS))
        if not counted or len(names) < 2 or any(len(_CELL.findall(row)) != len(names) + 1 for row in rows):
            return data
        head = b"\t".join([b"row", *(name.strip(b'"') for name in names)])
        end = sum(len(one) + 1 for one in lines[: at + 1])
        return b"\n".join([*lines[:at], head, b""]) + _QUOTED.sub(rb"\1", data[end:])
    return data
