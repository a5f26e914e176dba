"""Lines above a table that begin with a key and hold a cell for each channel: "Units:,mm,N", "Rate (Hz);500;500"."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from typing import NamedTuple

from importers.grid import BLANKS, is_any_number, split_cells
from importers.patterns import regex
from importers.words.channels import CHANNEL_LABELS, FACTORS, ZEROS
from importers.words.keys import INTERVAL, RATE, UNITS
from importers.words.spelling import plain
from importers.words.unit_text import is_unit

#: what stands among units and is the unit of no channel
_NO_UNITS = frozenset(("", "-", "–", "rpm", "hz", "%", "v", "n/a", "#", "1", "g", "none", "counts", "raw"))
_BESIDE_KEY = regex(r"\s*[\[(]([^()\[\]]{1,12})[\])]\s*$")
_GAP = regex(r"\t+|\s{2,}")
LEAST_CHANNELS = 2
#: what a row of channels can be, by the words of its key
KINDS: Mapping[str, frozenset[str]] = {
    "names": CHANNEL_LABELS,
    "units": UNITS,
    "rate": RATE,
    "interval": INTERVAL,
    "factors": FACTORS,
    "zeros": ZEROS,
}


class CellMark(NamedTuple):
    """What sets cells apart: a mark, or two blanks and more."""

    mark: str

    def cells(self, line: str) -> list[str]:
        """Return the cells of a line, those at its end that are empty left out."""
        bare = line.lstrip("#%").strip() if self.mark == BLANKS else line.lstrip("#%")
        cells = [c for c in _GAP.split(bare) if c] if self.mark == BLANKS else split_cells(bare, self.mark)
        while cells and not cells[-1]:
            cells.pop()
        return cells

    def joined(self, cells: Sequence[str]) -> str:
        """Return cells as a line; of those that blanks set apart none is empty."""
        quoted = [f'"{cell}"' if self.mark in cell else cell for cell in cells]
        return "   ".join(cell or "-" for cell in cells) if self.mark == BLANKS else self.mark.join(quoted)


class ChannelRow(NamedTuple):
    """A line that says one thing of every channel."""

    line: int
    kind: str  #: one of KINDS; empty of others
    key: str
    beside: str  #: the unit in brackets behind its key
    values: tuple[str, ...]


def channel_rows(lines: Sequence[str], mark: CellMark) -> list[ChannelRow]:
    """Return the lines with a word before two cells and more; the first of each kind but names is of that kind."""
    found: list[ChannelRow] = []
    for at, line in enumerate(lines):
        cells = mark.cells(line)
        if len(cells) <= LEAST_CHANNELS or not any(map(str.isalpha, cells[0])):
            continue
        key = cells[0].rstrip(" :=.")
        beside = _BESIDE_KEY.search(key)
        bare = plain(_BESIDE_KEY.sub("", key))
        kinds = (kind for kind, words in KINDS.items() if bare in words and _fit(kind, cells[1:]))
        seen = {row.kind for row in found} - {"names"}
        kind = next((kind for kind in kinds if kind not in seen), "")
        found.append(ChannelRow(at, kind, key, beside[1] if beside else "", tuple(cells[1:])))
    return found


def _fit(kind: str, values: Sequence[str]) -> bool:
    """Whether cells can be what their key says."""
    some = [value for value in values if value]
    if len(some) < LEAST_CHANNELS:
        return False
    if kind == "units":
        units = [is_unit(value) for value in some]
        return sum(units) >= LEAST_CHANNELS and all(
            known or plain(value) in _NO_UNITS for known, value in zip(units, some, strict=True)
        )
    if kind == "names":
        return are_names(some)
    return all(re.match(r"[-+−]?[\d.,]", value) for value in some)


def are_names(cells: Sequence[str]) -> bool:
    """Whether cells are words, two of them at the least, and none a number or a time of day."""
    some = [cell for cell in cells if cell]
    words = all(any(map(str.isalpha, cell)) and ":" not in cell for cell in some)
    return len(some) >= LEAST_CHANNELS and words and not any(map(is_any_number, some))
