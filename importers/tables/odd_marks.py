"""Rows whose cells are set apart by "~" or ":", or that stand whole in quotes, as rows with tabs or without quotes."""

from __future__ import annotations

import re

from dynoan.model.importing import HEAD
from importers.assumptions.tables import UNIT_CELL_LINES
from importers.patterns import regex

_NUMBER = rb"\s*[-+]?\d+(?:[.,]\d+)?(?:[eE][-+]?\d+)?\s*"
_WHOLE = regex(rb'"[^"\r\n]*[,;\t][^"\r\n]*"\r?')
_APART = {mark: regex(_NUMBER + rb"(?:" + mark + _NUMBER + rb")+\r?") for mark in (b"~", b":")}
_CLOCK = regex(rb"\s*\d+:\d+(?::\d+(?:[.,]\d+)?)?\s*\r?")


def with_usual_marks(data: bytes) -> bytes:
    """Return a file's bytes with its cells set apart as usual, where its last lines of the head all are set oddly."""
    stop = data.rfind(b"\n", 0, HEAD)
    last = data[data.rfind(b"\n", 0, max(stop, 0)) + 1 : max(stop, 0)]
    if not (last[:1] == b'"' or b"~" in last or b":" in last):
        return data
    lines = data[:stop].split(b"\n")[-UNIT_CELL_LINES:]
    lines = lines[len(lines) // 2 :]
    if all(map(_WHOLE.fullmatch, lines)):
        return re.sub(rb'(?m)^"([^"\r\n]*[,;\t][^"\r\n]*)"(?=\r?$)', rb"\1", data)
    for mark, row in _APART.items():
        counts = {line.count(mark) for line in lines}
        if len(counts) == 1 and all(map(row.fullmatch, lines)) and not all(map(_CLOCK.fullmatch, lines)):
            width = counts.pop()
            return b"\n".join(s.replace(mark, b"\t") if s.count(mark) == width else s for s in data.split(b"\n"))
    return data
