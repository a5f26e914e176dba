"""Bytes of a text file to tables: encoding, grid, header, rows; the rows parsed at once where they are plain."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace
from typing import NamedTuple

import numpy as np

from dynoan.errors import ReadError
from dynoan.model.importing import HEAD, ReadOptions
from importers.assumptions.tables import MOST_TABLES
from importers.decoding import (
    detect_encoding,
    has_lone_returns,
    lines_of,
    without_padding,
)
from importers.grid import BLANKS, CellGrid
from importers.grid.cells import OVER
from importers.header import LayoutChoice, with_layout
from importers.tables.by_arrow import WantedColumns
from importers.tables.cell_units import with_units_above
from importers.tables.channel_block import with_channel_block_as_names
from importers.tables.clock_columns import with_clocks
from importers.tables.extent import KnownExtents
from importers.tables.faulty_rows import without_faulty_rows
from importers.tables.found_rows import (
    FoundRows,
    rows_found,
    wanted_columns,
    whole_place,
    with_one_line_end,
)
from importers.tables.last_line import broken_off
from importers.tables.notes_beside import with_box_above
from importers.tables.numbers import NotATable, ParsedBody, parse_rows
from importers.tables.odd_marks import with_usual_marks
from importers.tables.place import CodedPlace, RowsEnd, TextPlace, rows_end
from importers.tables.plain_bytes import page_as_text, without_breaks_in_cells, without_clocks_heard, without_remarks
from importers.tables.quoted_mail import without_quote_marks
from importers.tables.record_letters import without_letters
from importers.tables.remark_settings import with_remarks_heeded
from importers.tables.row_numbers import with_numbers_named
from importers.tables.scale_rows import without_scale_rows
from importers.tables.short_rows import with_short_rows_ended
from importers.tables.summaries import without_summaries
from importers.tables.table import ParsedTable, RowBlock, TableBody
from importers.tables.unread_cells import unread_cells, unread_rows
from importers.tables.upright import long_turned_upright
from importers.tables.wanted_rows import without_wanted_rows
from importers.tables.worded_rows import with_words_above


class _TablesHere(NamedTuple):
    """The tables that begin at one place of a file."""

    tables: list[ParsedTable]
    above: tuple[str, ...]  #: lines above the first, below the last
    rest: CodedPlace | None = None  #: where a table of another shape starts


def read_tables(data: bytes, name: str, options: ReadOptions) -> list[ParsedTable]:
    """Return the tables in a text file.

    Raises
    ------
    ReadError
        If the bytes are no text, or no table of numbers is in them, or a row is damaged.
    """
    heard = without_breaks_in_cells(without_clocks_heard(page_as_text(without_quote_marks(without_padding(data)))))
    usual = with_usual_marks(long_turned_upright(with_box_above(without_remarks(with_numbers_named(heard)))))
    data, left_out = without_letters(with_units_above(with_words_above(usual)))
    encoding = detect_encoding(data[:HEAD], name)
    place = with_channel_block_as_names(CodedPlace(whole_place(data, name, options, encoding), encoding))
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


def _tables_at(place: CodedPlace, name: str, options: ReadOptions, *, ended: bool = False) -> _TablesHere:
    """Return the tables from a place on, where a table of another shape starts, and the lines above the first.

    `ended` tells that rows which leave out last columns have been made whole.
    """
    place = _plainer(with_short_rows_ended(place))
    choice = with_layout(lines_of(place.place.text), options)
    found = rows_found(place, name, choice.options)
    data, line = found.place.place.data, found.line + 1
    end = rows_end(data, found.start, found.grid, found.code)
    rows = memoryview(data)[found.start : end.at]
    _refuse_idle_decimal(rows, found.grid, name, options)
    wanted = wanted_columns(found, choice.options, rows)
    above = (*found.header.preamble, *end.footer)
    try:
        parsed = parse_rows(rows, found.grid, wanted)
    except NotATable:
        if has_lone_returns(raw := bytes(rows)):
            # The parser takes any line end; what looks at lines one by one is given one alone.
            return _tables_at(with_one_line_end(found.place), name, options, ended=ended)
        whole = found.place if ended else with_short_rows_ended(found.place, deep=True)
        if whole is not found.place:
            return _tables_at(whole, name, options, ended=True)
        from importers.tables.blocks import split_blocks, with_settings_below

        body = TableBody(raw, found.header, found.grid, line, name, found.code)
        split = split_blocks(body)
        below = (*split.below, *end.footer)
        moved = with_settings_below(split.blocks, found.header.preamble, below) if split.rest is None else None
        above = found.header.preamble if moved else (*found.header.preamble, *below)
        tables = [_table(b, _parsed_block(b, body, wanted), found, choice) for b in moved or split.blocks]
        tables = [one for table in tables for one in with_remarks_heeded(table)]
        return _TablesHere(
            _told_broken(tables, end, found.place.place),
            above,
            None if split.rest is None else found.place.moved_to(found.start + split.rest),
        )
    table = _table(RowBlock(b"", line), parsed, found, choice)
    if any(np.isnan(extent.high) for extent in parsed.extents.values()):
        said = unread_cells(bytes(rows), table)
        table = replace(table, over=_over(bytes(rows), found.grid), warnings=(*table.warnings, *said))
    return _TablesHere(_told_broken(with_remarks_heeded(table), end, found.place.place), above)


def _told_broken(tables: Sequence[ParsedTable], end: RowsEnd, place: TextPlace) -> list[ParsedTable]:
    """Return tables the last of which says that the file's last line broke off, where it did."""
    if not end.broken:
        return list(tables)
    *others, last = tables
    said = broken_off(place.line + place.data.count(b"\n", place.at) + 1)
    return [*others, replace(last, warnings=(*last.warnings, said))]


def _plainer(coded: CodedPlace) -> CodedPlace:
    """Return the place of a small table with its text made plainer."""
    if len(coded.place.data) - coded.place.at > len(coded.place.text.encode()):
        return coded
    from importers.tables.plainer import plainer  # a dozen files, which a long record is spared

    return plainer(coded)


def _refuse_idle_decimal(rows: memoryview, grid: CellGrid, name: str, options: ReadOptions) -> None:
    """Refuse a decimal mark that the user states of rows in which no number holds a mark.

    Raises
    ------
    ReadError
        That the option had no effect.
    """
    if options.decimal and not any(
        mark.encode() in bytes(rows) for mark in ".," if mark != grid.delimiter or grid.quoted
    ):
        raise ReadError(
            f"--decimal {options.decimal} had no effect, as no number here holds a decimal mark",
            where=name,
            hint="leave it out",
        )


def _parsed_block(block: RowBlock, body: TableBody, wanted: WantedColumns) -> ParsedBody:
    try:
        return parse_rows(block.data, body.grid, wanted)
    except NotATable:
        raise unread_rows(block, body) from None


def _over(rows: bytes, grid: CellGrid) -> int:
    """Return how many cells say that the sensor was beyond its range."""
    words = b"|".join(re.escape(w.encode()) for w in sorted(OVER, key=len, reverse=True))
    mark = rb"\s" if grid.delimiter == BLANKS else re.escape(grid.delimiter.encode())
    return len(re.findall(rb"(?im)(?:^|" + mark + rb"|\s)(?:" + words + rb")(?=" + mark + rb"|\s|$)", rows))


def _table(block: RowBlock, parsed: ParsedBody, found: FoundRows, choice: LayoutChoice) -> ParsedTable:
    header = found.header
    table = ParsedTable(
        columns=header.columns, values=dict(parsed.values), texts=dict(parsed.texts), rows=parsed.rows, grid=found.grid,
        first_line=block.first_line, own=block.lines, breaks=block.breaks, over=block.over,
        warnings=(*found.place.said, *((found.torn,) if found.torn else ()), *block.warnings),
        named=header.found, name_cells=header.cells, options=choice.options, layout=choice.layout,
        user=choice.user, extents=KnownExtents((x, parsed.extents[i]) for i, x in parsed.values.items()),
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
