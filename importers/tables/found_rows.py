"""The rows of the first table from a place of a file on: made plainer, found, with their header."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import NamedTuple

from dynoan.model.importing import HEAD, ReadOptions
from importers.decoding import (
    Encoding,
    as_utf8,
    head_text,
    one_line_end,
)
from importers.grid import CellGrid, as_tabs, first_fixed_row, fixed_spans, tabbed
from importers.header import Header, HeaderColumn, find_header, with_layout
from importers.tables.across_clicks import (
    knob_unnamed,
    numbers_taken_as_clicks,
    with_click_rows_joined,
    with_clicks_named,
    with_pairs_named,
)
from importers.tables.across_speeds import with_speeds_down
from importers.tables.bare_speeds import rows_called_by_numbers
from importers.tables.by_arrow import WantedColumns
from importers.tables.faulty_rows import is_state_column
from importers.tables.grid_of_blocks import with_blocks_stacked
from importers.tables.noted_cells import without_notes
from importers.tables.notes_beside import with_notes_above
from importers.tables.place import TextPlace, rows_start
from importers.tables.ragged_rows import with_gaps_as_cells
from importers.tables.setting_square import with_square_as_line
from importers.tables.table import is_day_column
from importers.tables.tidy_cells import tidied
from importers.tables.titled_halves import with_halves_named
from importers.tables.torn import is_torn
from importers.tables.upright import turned_upright
from importers.tables.worded_rows import with_words_as_names

_FIXED_LINES = 400  #: how many lines are looked at for fixed width


class CodedPlace(NamedTuple):
    """A place of a file, and how its bytes are text."""

    place: TextPlace
    encoding: Encoding
    said: tuple[str, ...] = ()  #: warnings of what was made plainer

    def moved_to(self, rest: int) -> CodedPlace:
        """Return the place of what follows from a byte on."""
        return CodedPlace(self.place.moved_to(rest, self.encoding), self.encoding)


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
        lines = text.split("\n")
        rows_start(lines, name, with_layout(lines, options).options)
    body = as_utf8(data, encoding)
    return TextPlace(text, 0, body, encoding.mark if body is data else 0)


def with_one_line_end(coded: CodedPlace) -> CodedPlace:
    """Return a place whose lines all end alike."""
    place = coded.place
    return CodedPlace(TextPlace(place.text, place.line, one_line_end(place.data[place.at :]), 0), coded.encoding)


def plainer(coded: CodedPlace) -> CodedPlace:
    """Return the place with a small table's text as a plain table: tidied, and turned upright where it lies."""
    place = coded.place
    if len(place.data) - place.at > len(place.text.encode()):
        return coded
    lines = place.text.split("\n")
    square = with_square_as_line(lines)
    lines = lines if square is None else square
    apart = with_notes_above(lines)
    lines = lines if apart is None else apart
    halves = with_halves_named(lines)
    stacked = with_blocks_stacked(lines) or (halves.lines if halves else with_gaps_as_cells(lines))
    lines = lines if stacked is None else stacked
    worded = with_words_as_names(lines)
    lines = lines if worded is None else worded
    clean = tidied(lines)
    plain = lines if clean is None else clean
    noted = without_notes(plain)
    plain = plain if noted is None else noted.lines
    clicks = turned_upright(plain) or with_clicks_named(plain)
    pairs = clicks or with_pairs_named(plain)
    upright = pairs or with_click_rows_joined(plain)
    of_knob = knob_unnamed(plain) if upright and not pairs else ""
    down = None if upright else with_speeds_down(plain)
    upright = upright or down
    if all(new is None for new in (square, apart, stacked, worded, noted, clean, upright)):
        return coded
    text = "\n".join(upright or plain)
    of_rows = rows_called_by_numbers(plain, down) if down else ""
    of_clicks = numbers_taken_as_clicks(plain) if clicks else ""
    said = (halves.said if halves else "", noted.said if noted else "", of_rows, of_clicks, of_knob)
    return CodedPlace(TextPlace(text, place.line, text.encode(), 0), Encoding("utf-8"), tuple(filter(None, said)))


def rows_found(coded: CodedPlace, name: str, options: ReadOptions) -> FoundRows:
    """Return the rows of the first table from a place on, with their header; fixed-width ones set apart by tabs."""
    place = coded.place
    lines = place.text.split("\n")
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
        if len(grid.cells(line)) == grid.width and is_torn(line, grid, below_header=False)
    ]
    if not torn:
        return ""
    more = f" and {len(torn) - 1} more" if len(torn) > 1 else ""
    return f"'{torn[0][:40]}'{more}, above the first row, is no full row and was left out"


def wanted_columns(found: FoundRows, options: ReadOptions, *, small: bool) -> WantedColumns:
    """Return the numeric and the text columns to parse: of a large body only those that mean something."""
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
        return bool(c.role) or c.channel == "time" or c.index == 0 or is_day_column(c) or is_state_column(c)

    return WantedColumns(
        tuple(c.index for c in columns if is_numeric[c.index] and (small or meant(c))),
        tuple(c.index for c in columns if not is_numeric[c.index] and (small or told(c))),
    )
