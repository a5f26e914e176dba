"""Bytes of a text file to tables: encoding, grid, header, rows; the rows parsed at once where they are plain."""

from __future__ import annotations

import re
from dataclasses import replace
from typing import NamedTuple

import numpy as np

from dynoan.errors import ReadError
from dynoan.model.importing import HEAD, ReadOptions
from importers.assumptions import MOST_TABLES
from importers.decoding import (
    Encoding,
    as_utf8,
    detect_encoding,
    has_lone_returns,
    head_text,
    is_markup,
    one_line_end,
    tables_as_text,
    without_padding,
)
from importers.grid import BLANKS, CellGrid, as_tabs, first_fixed_row, fixed_spans, tabbed
from importers.grid.cells import OVER
from importers.header import Header, HeaderColumn, LayoutChoice, find_header, with_layout
from importers.tables.across_clicks import with_clicks_named, with_pairs_named
from importers.tables.across_speeds import with_speeds_down
from importers.tables.blocks import split_blocks
from importers.tables.cell_units import with_units_above
from importers.tables.faulty_rows import is_state_column, without_faulty_rows
from importers.tables.grid_of_blocks import with_blocks_stacked
from importers.tables.notes_beside import with_notes_above
from importers.tables.numbers import NotATable, ParsedBody, WantedColumns, parse_rows
from importers.tables.odd_marks import with_usual_marks
from importers.tables.place import TextPlace, rows_end, rows_start
from importers.tables.plain_rows import MINUS
from importers.tables.ragged_rows import with_gaps_as_cells
from importers.tables.record_letters import without_letters
from importers.tables.scale_rows import without_scale_rows
from importers.tables.summaries import without_summaries
from importers.tables.table import ParsedTable, RowBlock, TableBody, is_day_column
from importers.tables.tidy_cells import tidied
from importers.tables.upright import long_turned_upright, turned_upright
from importers.tables.wanted_rows import without_wanted_rows
from importers.words.clock import clock_seconds, unwrapped
from importers.words.dates import date_of

_SMALL = 1 << 20  #: of a smaller body all columns are parsed, known or not [bytes]
_COUNTER, _DAY = 2.0**32, 86400.0  #: where a 32-bit counter [counts] and the time of day [s] start again
_LARGEST_PAGE = 20_000_000  #: of a web page that is looked through for tables [bytes]
#: a row of numbers, and a remark behind it
_REMARK = re.compile(rb"(?m)^([-+\d.][-+\d.,;eE \t]*\d)[ \t]+#[^\r\n]*")
_FEW = 200  #: that many marks are looked at one by one
_FIXED_LINES = 400  #: how many lines are looked at for fixed width


class _CodedPlace(NamedTuple):
    """A place of a file, and how its bytes are text."""

    place: TextPlace
    encoding: Encoding

    def moved_to(self, rest: int) -> _CodedPlace:
        """Return the place of what follows from a byte on."""
        return _CodedPlace(self.place.moved_to(rest, self.encoding), self.encoding)


class _TablesHere(NamedTuple):
    """The tables that begin at one place of a file."""

    tables: list[ParsedTable]
    above: tuple[str, ...]  #: lines above the first, below the last
    rest: _CodedPlace | None = None  #: where a table of another shape starts


class _FoundRows(NamedTuple):
    """The rows at one place of a file, not yet parsed."""

    place: _CodedPlace  #: with the rows, rewritten or not
    start: int  #: where in its data they start [byte]
    line: int  #: number of the line in which they start
    grid: CellGrid
    header: Header

    @property
    def code(self) -> str:
        """The encoding of the words among the rows."""
        return self.place.encoding.of_body


def read_tables(data: bytes, name: str, options: ReadOptions) -> list[ParsedTable]:
    """Return the tables in a text file.

    Raises
    ------
    ReadError
        If the bytes are no text, or no table of numbers is in them, or a row is damaged.
    """
    data, left_out = without_letters(
        with_units_above(with_usual_marks(long_turned_upright(without_remarks(page_as_text(without_padding(data))))))
    )
    encoding = detect_encoding(data[:HEAD], name)
    place = _CodedPlace(_whole(data, name, options, encoding), encoding)
    tables: list[ParsedTable] = []
    shared: tuple[str, ...] | None = None
    while True:
        try:
            here = _tables_at(place, name, options)
        except ReadError:
            if not tables:
                raise
            left = f"from line {place.place.line + 1} on no further table was understood: those lines were left out"
            return [*tables[:-1], replace(tables[-1], warnings=(*tables[-1].warnings, left))]
        own = () if shared is None else here.above
        shared = here.above if shared is None else shared
        tables += [replace(without_scale_rows(t, name), shared=shared, own=(*own, *t.own)) for t in here.tables]
        if here.rest is None and not tables:
            raise ReadError("no rows of numbers in one shape", where=name, hint="export the run as CSV with a header")
        if here.rest is None:
            return [replace(tables[0], warnings=(*left_out, *tables[0].warnings)), *tables[1:]]
        if len(tables) > MOST_TABLES:
            raise ReadError(f"more than {MOST_TABLES} tables in one file", where=name, hint="split it")
        place = here.rest


def page_as_text(data: bytes) -> bytes:
    """Return the tables of a web page as text; other files as they are."""
    if not is_markup(data[:HEAD]) or len(data) > _LARGEST_PAGE:
        return data
    text = tables_as_text(data.decode("utf-8", errors="replace"))
    return data if text is None else text.encode()


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


def _whole(data: bytes, name: str, options: ReadOptions, encoding: Encoding) -> TextPlace:
    """Return the place of a whole file's text."""
    whole = len(data) <= HEAD
    text = head_text(data[:HEAD], encoding, whole=whole)
    if not whole and encoding.wide:
        # Refuse before all is turned round.
        lines = text.split("\n")
        rows_start(lines, name, with_layout(lines, options).options)
    body = as_utf8(data, encoding)
    return TextPlace(text, 0, body, encoding.mark if body is data else 0)


def _tables_at(place: _CodedPlace, name: str, options: ReadOptions) -> _TablesHere:
    """Return the tables from a place on, where a table of another shape starts, and the lines above the first."""
    place = _plainer(place)
    choice = with_layout(place.place.text.split("\n"), options)
    found = _found_rows(place, name, choice.options)
    data, line = found.place.place.data, found.line + 1
    end = rows_end(data, found.start, found.grid, found.code)
    rows = memoryview(data)[found.start : end.at]
    _refuse_idle_decimal(rows, found.grid, name, options)
    wanted = _wanted(found, choice.options, small=len(rows) < _SMALL)
    above = (*found.header.preamble, *end.footer)
    try:
        ascii_signs = data.find(MINUS[:1], found.start, end.at) < 0
        parsed = parse_rows(rows, found.grid, wanted, ascii_signs=ascii_signs)
    except NotATable:
        if has_lone_returns(raw := bytes(rows)):
            # The parser takes any line end; what looks at lines one by one is given one alone.
            return _tables_at(_with_one_line_end(found.place), name, options)
        body = TableBody(raw, found.header, found.grid, line, name, found.code)
        split = split_blocks(body)
        tables = [_table(b, _parsed_block(b, body, wanted), found, choice) for b in split.blocks]
        return _TablesHere(
            tables, above, None if split.rest is None else found.place.moved_to(found.start + split.rest)
        )
    table = _table(RowBlock(b"", line), parsed, found, choice)
    if any(np.isnan(v.sum()) for v in parsed.values.values()):
        table = replace(table, over=_over(bytes(rows), found.grid))
    return _TablesHere([table], above)


def _refuse_idle_decimal(rows: memoryview, grid: CellGrid, name: str, options: ReadOptions) -> None:
    """Refuse a decimal mark that the user states of rows in which no number holds a mark.

    Raises
    ------
    ReadError
        That the option had no effect.
    """
    if options.decimal and not any(mark.encode() in bytes(rows) for mark in ".," if mark != grid.delimiter):
        raise ReadError(
            f"--decimal {options.decimal} had no effect, as no number here holds a decimal mark",
            where=name,
            hint="leave it out",
        )


def _with_one_line_end(coded: _CodedPlace) -> _CodedPlace:
    place = coded.place
    return _CodedPlace(TextPlace(place.text, place.line, one_line_end(place.data[place.at :]), 0), coded.encoding)


def _plainer(coded: _CodedPlace) -> _CodedPlace:
    """Return the place with a small table's text as a plain table: tidied, and turned upright where it lies."""
    place = coded.place
    if len(place.data) - place.at > len(place.text.encode()):
        return coded
    lines = place.text.split("\n")
    apart = with_notes_above(lines)
    lines = lines if apart is None else apart
    stacked = with_blocks_stacked(lines) or with_gaps_as_cells(lines)
    lines = lines if stacked is None else stacked
    clean = tidied(lines)
    plain = lines if clean is None else clean
    upright = turned_upright(plain) or with_clicks_named(plain) or with_pairs_named(plain) or with_speeds_down(plain)
    if all(new is None for new in (apart, stacked, clean, upright)):
        return coded
    text = "\n".join(upright or plain)
    return _CodedPlace(TextPlace(text, place.line, text.encode(), 0), Encoding("utf-8"))


def _found_rows(coded: _CodedPlace, name: str, options: ReadOptions) -> _FoundRows:
    """Return the rows of the first table from a place on, with their header; fixed-width ones set apart by tabs."""
    place = coded.place
    lines = place.text.split("\n")
    start = rows_start(lines, name, options)
    grid, first = start.grid, start.line
    spans = fixed_spans(lines[first : first + _FIXED_LINES], grid)
    if not spans:
        header = find_header(lines[:first], grid, lines[first])
        return _FoundRows(coded, place.offset(first), place.line + first, grid, header)
    first = first_fixed_row(lines, first, grid)
    fullest = max(lines[first : first + _FIXED_LINES], key=lambda line: len(line.split()))
    header = find_header(lines[:first], replace(grid, width=len(spans)), fullest)
    data = as_tabs(place.data[place.offset(first) :], spans, coded.encoding.of_body)
    rewritten = _CodedPlace(TextPlace("", place.line + first, data, 0), Encoding("utf-8"))
    return _FoundRows(rewritten, 0, place.line + first, tabbed(grid, spans), header)


def _wanted(found: _FoundRows, options: ReadOptions, *, small: bool) -> WantedColumns:
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


def _parsed_block(block: RowBlock, body: TableBody, wanted: WantedColumns) -> ParsedBody:
    try:
        return parse_rows(block.data, body.grid, wanted)
    except NotATable as error:
        raise ReadError(
            f"the rows cannot be read as {body.grid.words} ({_short(str(error))})",
            where=f"{body.file}, from line {block.first_line}",
            hint="give --delimiter and --decimal, or mend the line",
        ) from None


def _short(text: str) -> str:
    line = " ".join(text.split())
    return line if len(line) < 120 else line[:117] + "…"


def _over(rows: bytes, grid: CellGrid) -> int:
    """Return how many cells say that the sensor was beyond its range."""
    words = b"|".join(re.escape(w.encode()) for w in sorted(OVER, key=len, reverse=True))
    mark = rb"\s" if grid.delimiter == BLANKS else re.escape(grid.delimiter.encode())
    return len(re.findall(rb"(?im)(?:^|" + mark + rb"|\s)(?:" + words + rb")(?=" + mark + rb"|\s|$)", rows))


def _table(block: RowBlock, parsed: ParsedBody, found: _FoundRows, choice: LayoutChoice) -> ParsedTable:
    header = found.header
    table = ParsedTable(
        columns=header.columns, values=dict(parsed.values), texts=dict(parsed.texts), rows=parsed.rows, grid=found.grid,
        first_line=block.first_line, own=block.lines, breaks=block.breaks, warnings=block.warnings, over=block.over,
        named=header.found, name_cells=header.cells, options=choice.options, layout=choice.layout,
        user=choice.user,
    )  # fmt: skip
    return with_clocks(without_faulty_rows(without_wanted_rows(without_summaries(_without_empty_end(table)))))


def _without_empty_end(table: ParsedTable) -> ParsedTable:
    """Return a table without rows of empty cells at its end, which spreadsheets leave there."""
    rows = table.rows
    columns, words = list(table.values.values()), list(table.texts.values())
    while rows and all(np.isnan(x[rows - 1]) for x in columns) and not any(t[rows - 1] for t in words):
        rows -= 1
    if rows == table.rows or not rows:
        return table
    values = {k: x[:rows] for k, x in table.values.items()}
    texts = {k: t[:rows] for k, t in table.texts.items()}
    return replace(table, rows=rows, values=values, texts=texts)


def with_clocks(table: ParsedTable) -> ParsedTable:
    """Return the table with clock times as seconds."""
    table = _with_day_as_time(table)
    columns, values, texts = list(table.columns), dict(table.values), dict(table.texts)
    for column in table.columns:
        if column.channel == "time" and column.index in values:
            values[column.index] = unwrapped(values[column.index], (_COUNTER,))
        if column.channel != "time" or column.index not in texts:
            continue
        stamps = texts.pop(column.index)
        found = clock_seconds(stamps)
        if found is not None:
            table = replace(table, day=date_of(stamps[0]))
            values[column.index] = unwrapped(found, (_DAY,))
            columns[column.index] = replace(column, unit="s")
    return replace(table, columns=tuple(columns), values=values, texts=texts)


def _with_day_as_time(table: ParsedTable) -> ParsedTable:
    """Return a table without a time whose column of days holds clock times that run on as one whose time it is."""
    if any(c.channel == "time" for c in table.columns):
        return table
    for column in table.columns:
        stamps = table.texts.get(column.index)
        if stamps and is_day_column(column) and (found := clock_seconds(stamps)) is not None and np.nanmax(found) > 0:
            return replace(
                table, columns=tuple(replace(c, channel="time") if c is column else c for c in table.columns)
            )
    return table
