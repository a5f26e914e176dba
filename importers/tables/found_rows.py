"""The rows of the first table from a place of a file on, with their header."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import NamedTuple

from dynoan.model.importing import HEAD, ReadOptions
from importers.decoding import (
    Encoding,
    as_utf8,
    head_text,
    lines_of,
    one_line_end,
)
from importers.grid import CellGrid, as_tabs, first_fixed_row, fixed_spans, is_number, tabbed
from importers.header import Header, HeaderColumn, find_header, with_layout
from importers.patterns import regex
from importers.tables.by_arrow import WantedColumns
from importers.tables.faulty_rows import is_state_column
from importers.tables.place import CodedPlace, TextPlace, rows_start
from importers.tables.table import is_day_column
from importers.tables.torn import is_torn
from importers.words.channels import REMARKS
from importers.words.spelling import plain

_SMALL = 1 << 20  #: of a smaller body all columns are parsed, known or not [bytes]
_TURNED = regex(
    rb"(?i)\b(?:[lh]s[cr]|clicks?|klicks?|clics?|comp\w*|reb\w*)\b[\s:=]{0,3}\d|\d\s?(?:clicks?|klicks?|clics?)\b"
)
_FIXED_LINES = 400  #: how many lines are looked at for fixed width


class FoundRows(NamedTuple):
    """The rows at one place of a file, not yet parsed."""

    place: CodedPlace  #: with the rows, rewritten or not
    start: int  #: where in its data they start [byte]
    line: int  #: number of the line in which they start
    grid: CellGrid
    header: Header
    torn: str = ""  #: the warning of lines above the first row that are rows but for a word, or nothing

    @property
    def code(self) -> str:
        """The encoding of the words among the rows."""
        return self.place.encoding.of_body


def whole_place(data: bytes, name: str, options: ReadOptions, encoding: Encoding) -> TextPlace:
    """Return the place of a whole file's text."""
    whole = len(data) <= HEAD
    text = head_text(data[:HEAD], encoding, whole=whole)
    if not whole and encoding.wide:
        # Refuse before all is turned round.
        lines = lines_of(text)
        rows_start(lines, name, with_layout(lines, options).options)
    body = as_utf8(data, encoding)
    return TextPlace(text, 0, body, encoding.mark if body is data else 0)


def with_one_line_end(coded: CodedPlace) -> CodedPlace:
    """Return a place whose lines all end alike."""
    place = coded.place
    return CodedPlace(TextPlace(place.text, place.line, one_line_end(place.data[place.at :]), 0), coded.encoding)


def rows_found(coded: CodedPlace, name: str, options: ReadOptions) -> FoundRows:
    """Return the rows of the first table from a place on, with their header; fixed-width ones set apart by tabs."""
    place = coded.place
    lines = lines_of(place.text)
    start = rows_start(lines, name, options)
    grid, first = start.grid, start.line
    spans = fixed_spans(lines[first : first + _FIXED_LINES], grid)
    if not spans:
        header = find_header(lines[:first], grid, lines[first])
        torn = _torn_above(lines[:first], grid, header)
        return FoundRows(coded, place.offset(first), place.line + first, grid, header, torn)
    first = first_fixed_row(lines, first, grid)
    fullest = max(lines[first : first + _FIXED_LINES], key=lambda line: len(line.split()))
    header = find_header(lines[:first], replace(grid, width=len(spans)), fullest)
    data = as_tabs(place.data[place.offset(first) :], spans, coded.encoding.of_body)
    rewritten = CodedPlace(TextPlace("", place.line + first, data, 0), Encoding("utf-8"))
    return FoundRows(rewritten, 0, place.line + first, tabbed(grid, spans), header)


def _torn_above(above: Sequence[str], grid: CellGrid, header: Header) -> str:
    """Return the warning of lines between the names and the first row that are rows but for a word in them."""
    named = max((i for i, line in enumerate(above) if line.strip() in header.lines), default=len(above))
    torn = [
        line.strip()
        for line in above[named + 1 :]
        if _begins_as_row(grid.cells(line), grid) and is_torn(line, grid, below_header=False)
    ]
    if not torn:
        return ""
    more = f" and {len(torn) - 1} more" if len(torn) > 1 else ""
    return f"'{torn[0][:40]}'{more}, above the first row, is no full row and was left out"


def _begins_as_row(cells: Sequence[str], grid: CellGrid) -> bool:
    """Whether cells are as many as a row's, or begin with numbers as a row does."""
    leading = [is_number(cell, grid.decimal) for cell in cells[:2]]
    return len(cells) == grid.width or (len(leading) == 2 and all(leading))


def wanted_columns(found: FoundRows, options: ReadOptions, rows: memoryview) -> WantedColumns:
    """Return the numeric and the text columns to parse: of a large body only those that mean something."""
    small = len(rows) < _SMALL
    stated = {v.strip().lower() for v in options.columns.values()}
    columns, is_numeric = found.header.columns, found.grid.numeric

    def meant(c: HeaderColumn) -> bool:
        return (
            c.known
            or bool(options.units or options.column_units)
            or not found.header.found
            or c.text.lower() in stated
            or str(c.index + 1) in stated
        )

    def told(c: HeaderColumn) -> bool:
        known = bool(c.role) or c.channel == "time" or c.index == 0 or is_day_column(c) or is_state_column(c)
        # Remarks of a large body are looked at where one may turn a knob: taking words out of it costs time.
        return known or ({*plain(c.text).split()} & REMARKS != set() and _TURNED.search(bytes(rows)) is not None)

    return WantedColumns(
        tuple(c.index for c in columns if is_numeric[c.index] and (small or meant(c))),
        tuple(c.index for c in columns if not is_numeric[c.index] and (small or told(c))),
    )
