"""Rows above a table that each say one thing of every channel, "Name:,Pos,Load" over "Units:,mm,N", as loggers write.

They become a line of names, a line of units below it, and lines of what else they say.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

import numpy as np

from importers.assumptions.tables import CHANNEL_LINES, NUMBERED_ROWS
from importers.grid import BLANKS, is_any_number, is_number
from importers.header import describe_column
from importers.patterns import regex
from importers.tables.channel_keys import CellMark, ChannelRow, are_names, channel_rows
from importers.tables.channel_said import said_of_channels
from importers.tables.place import CodedPlace
from importers.words.keys import KNOWN, UNITS
from importers.words.spelling import plain
from importers.words.unit_text import KIND, kinds_of

_MARKS = (";", "\t", "|", ",", BLANKS)
_SAID = ("units", "rate", "interval", "factors", "zeros")
_KEY = regex(r"(?m)^[^\w\n]{0,3}([^\W\d][^\d\n,;\t|:=\[({]{0,30})")
_TOP = 8192  #: [characters]
_BEYOND = 3  #: columns behind those of the channels


class ChannelBlock(NamedTuple):
    """The rows of channels above a table."""

    mark: CellMark
    rows: Sequence[ChannelRow]
    header: int | None  #: the line of names below them, where there is one
    body: int  #: the first line of numbers
    width: int  #: cells that it has
    shift: int  #: of its cells, those before the first channel's

    def of(self, kind: str) -> list[str]:
        """Return the cells of the row of a kind as they stand over the table's columns; empty ones where none is."""
        values = next((row.values for row in self.rows if row.kind == kind), ())
        return [*[""] * self.shift, *values, *[""] * self.width][: self.width]


def with_channel_block_as_names(coded: CodedPlace) -> CodedPlace:
    """Return a place with the rows of channels above its table as its names and units; the place without such rows."""
    place = coded.place
    if not _has_units(place.text):
        return coded
    head = place.text.split("\n", CHANNEL_LINES)
    lines, rest = [line.rstrip("\r") for line in head[:CHANNEL_LINES]], head[CHANNEL_LINES:]
    block = next((b for mark in _MARKS if (b := _block(lines, CellMark(mark))) is not None), None)
    if block is None:
        return coded
    names = _names(lines, block)
    said = said_of_channels(names, {kind: block.of(kind) for kind in _SAID}, block.rows, lines)
    used = {row.line for row in block.rows} | {block.header}
    top = min(row.line for row in block.rows)
    between = [line for at, line in enumerate(lines[top : block.body], top) if at not in used and line.strip()]
    room = block.body - top - 2
    kept = [*between, *said.lines]
    kept = kept if len(kept) <= room else [*kept[: room - 1], "; ".join(kept[room - 1 :])] if room > 0 else []
    blank = [""] * (room - len(kept))
    units = block.mark.joined(said.units) if any(said.units) else ""
    made = [*lines[:top], *kept, *blank, block.mark.joined(names), units, *lines[block.body :]]
    return _with_lines(coded, made, rest, len(lines), said.warnings)


def _has_units(text: str) -> bool:
    """Whether a line near the top of a text begins with a word for units; two blanks may stand behind it."""
    top = text[:_TOP]
    return any(plain(key.split("  ")[0]).rstrip(".") in UNITS for key in _KEY.findall(top))


def _with_lines(
    coded: CodedPlace, made: Sequence[str], rest: Sequence[str], count: int, said: Sequence[str]
) -> CodedPlace:
    """Return a place with other first lines, as many."""
    place = coded.place
    below = place.data[place.offset(count) :] if rest else b""
    head = ("\n".join(made) + ("\n" if rest else "")).encode(coded.encoding.of_body)
    moved = place._replace(text="\n".join([*made, *rest]), data=place.data[: place.at] + head + below)
    return CodedPlace(moved, coded.encoding, (*coded.said, *said))


def _block(lines: Sequence[str], mark: CellMark) -> ChannelBlock | None:
    """Return the rows of channels in a file's first lines; None where none gives units to several, or names."""
    rows = channel_rows(lines, mark)
    units = next((row for row in rows if row.kind == "units"), None)
    if units is None:
        return None
    names = _most_known([row for row in rows if row.kind == "names"])
    count = len((names or units).values)
    last = max(row.line for row in rows if row.kind)
    body = next((at for at in range(last + 1, len(lines)) if _is_row(mark.cells(lines[at]))), None)
    if body is None:
        return None
    width = len(mark.cells(lines[body]))
    below = [at for at in range(last + 1, body) if len(mark.cells(lines[at])) in (width, count + 1)]
    header = next((at for at in reversed(below) if are_names(mark.cells(lines[at])[1:])), None)
    if (names is None and header is None) or not count <= width <= count + _BEYOND:
        return None
    if header is not None and not _agree(mark.cells(lines[header]), [*[""] * min(width - count, 1), *units.values]):
        return None
    first, stop = min(row.line for row in rows if row.kind), body if header is None else header
    within = [row for row in rows if first - 1 <= row.line < stop and len(row.values) == count]
    within = [row for row in within if first < row.line < last or plain(row.key) not in KNOWN]
    mine = [row for row in rows if row.kind or row in within]
    mine = [row for row in mine if row.kind != "names" or row is names] + [
        row._replace(kind="") for row in mine if row.kind == "names" and row is not names
    ]
    return ChannelBlock(mark, mine, header, body, width, min(width - count, 1))


def _agree(names: Sequence[str], units: Sequence[str]) -> bool:
    """Whether units are none of another kind than the names say that they stand under."""
    for k, (name, unit) in enumerate(zip(names, units, strict=False)):
        column = describe_column(k, name)
        kinds = kinds_of(unit) if unit else frozenset()
        own = kinds_of(column.unit) if column.unit else frozenset()
        own = own or frozenset({KIND[column.channel]} if column.channel else ())
        if kinds and own and not kinds & own:
            return False
    return True


def _most_known(rows: Sequence[ChannelRow]) -> ChannelRow | None:
    """Return of rows of names the one that says most of what is measured; the first of equals."""
    known = [sum(describe_column(0, cell).known for cell in row.values) for row in rows]
    return rows[known.index(max(known))] if rows else None


def _is_row(cells: Sequence[str]) -> bool:
    """Whether cells are a row of measurements: numbers, but for a first one that is empty or a time."""
    rest = [cell for cell in cells[1:] if cell]
    begins = bool(cells) and (not cells[0] or cells[0][:1] in "-+.−" or cells[0][:1].isdigit())
    return begins and bool(rest) and all(map(is_any_number, rest))


def _names(lines: Sequence[str], block: ChannelBlock) -> list[str]:
    """Return the columns' names: those of the line below where they are known, else those of the channels."""
    cells = block.mark.cells(lines[block.header]) if block.header is not None else []
    below = [*cells, *[""] * block.width][: block.width]
    pairs = zip(block.of("names"), below, strict=True)
    names = [lower if not upper or (lower and describe_column(0, lower).known) else upper for upper, lower in pairs]
    if block.shift and not names[0]:
        rows = [block.mark.cells(line) for line in lines[block.body : block.body + NUMBERED_ROWS]]
        names[0] = _first_name([row[0] for row in rows if row])
    return names


def _first_name(cells: Sequence[str]) -> str:
    """Return what a first column without a name holds: samples that are counted, a time, or nothing known."""
    if cells and all(":" in cell for cell in cells):
        return "Time"
    numbers = [cell.replace(",", ".") for cell in cells]
    if len(cells) < 2 or not all(is_number(cell, ".") for cell in numbers):
        return ""
    steps = np.diff([float(cell) for cell in numbers])
    return "Sample" if bool(np.all(steps == 1)) else "Time" if bool(np.all(steps > 0)) else ""
