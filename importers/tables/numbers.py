"""A table's body to arrays, by pyarrow. Nothing here looks at what the columns mean."""

from __future__ import annotations

import re
from collections import deque
from collections.abc import Iterator, Mapping
from dataclasses import replace
from functools import partial
from itertools import islice
from typing import Any, NamedTuple

import numpy as np

from dynoan.model.arrays import FloatArray
from importers.assumptions.tables import LARGE_BODY
from importers.grid import CellGrid
from importers.tables.by_arrow import WantedColumns, arrow_table, column_floats, delimiter_of
from importers.tables.by_machine_code import at_hand, plain_columns
from importers.tables.extent import Extent
from importers.tables.plain_rows import plain_rows

_WORKERS = 2  #: pieces of a large body that are parsed at a time
_PIECES = 8  #: at least so many, or the last ones leave a core idle
_PIECE = 1 << 22  #: how much of a large body is parsed at a time at most: each call of arrow's costs time [bytes]
_SWIFT_PIECE = 1 << 21  #: and of one parsed by compiled code, whose calls cost next to none [bytes]
_LEAST_PIECE = 1 << 18  #: the last pieces are no smaller [bytes]
_USUAL_LINE = 1 << 12  #: where the end of a line is looked for first [bytes]
_LONGEST_LINE = 1 << 20  #: lines of a table are shorter [bytes]
_SPARE = 1.02  #: room kept for later rows that are shorter than the first


class NotATable(Exception):
    """The body is not a plain table: some line holds something else. The caller looks at it line by line."""


class ParsedBody(NamedTuple):
    """The parsed columns of a table's body, by column index."""

    values: Mapping[int, FloatArray]
    texts: Mapping[int, list[str]]
    rows: int
    extents: Mapping[int, Extent]  #: of the values


def parse_rows(data: bytes | memoryview, grid: CellGrid, wanted: WantedColumns) -> ParsedBody:
    """Return the wanted columns of a body whose every line is a row.

    Parameters
    ----------
    data
        The body.
    grid
        How its cells stand.
    wanted
        Which to parse.

    Raises
    ------
    NotATable
        If a line has another number of cells, or a cell of a wanted numeric column is no number.
    """
    swift = not grid.quoted and not wanted.text and at_hand(len(data))
    if len(data) > LARGE_BODY and not wanted.text:
        return _in_pieces(memoryview(data), grid, wanted, swift=swift)
    return _at_once(data, grid, wanted, swift=swift)


def _at_once(data: bytes | memoryview, grid: CellGrid, wanted: WantedColumns, *, swift: bool = False) -> ParsedBody:
    """Return the columns of a body that is parsed whole: by arrow, or swiftly where that can be done."""
    import pyarrow as pa

    plain = plain_rows(data, grid, numbers=not wanted.text)
    if swift and (found := _swiftly(plain, grid, wanted)) is not None:
        return found
    try:
        table = arrow_table(plain, grid, wanted)
    except pa.ArrowInvalid as error:
        mark = _late_mark(str(error), grid)
        if mark is not None:
            wider = replace(grid, thousands=grid.thousands + mark)
            return _at_once(data, wider, wanted)
        raise NotATable(str(error)) from None
    rows = table.num_rows
    texts = {i: [_decoded(v) for v in table.column(str(i))] for i in wanted.text}
    values, extents = {}, {}
    for i in wanted.numeric:
        values[i], extents[i] = column_floats(table.column(str(i)))
        # Arrow's own copy goes column by column, or the peak would hold the whole table twice.
        table = table.drop_columns([str(i)])
    return ParsedBody(values, texts, rows, extents)


def _swiftly(data: bytes | memoryview, grid: CellGrid, wanted: WantedColumns) -> ParsedBody | None:
    """Return the columns of a body by compiled code; None where its rows are none of plain numbers."""
    cells = [i in wanted.numeric for i in range(grid.width)]
    columns = plain_columns(data, (delimiter_of(grid), grid.decimal), cells)
    if columns is None:
        return None
    values = dict(zip((i for i, cell in enumerate(cells) if cell), columns, strict=True))
    return ParsedBody(values, {}, columns.shape[1], {i: Extent.of(x) for i, x in values.items()})


def _in_pieces(data: memoryview, grid: CellGrid, wanted: WantedColumns, *, swift: bool) -> ParsedBody:
    """Return the columns of a large body, parsed piece by piece, so that no second copy of it all is ever held."""
    size = min(_SWIFT_PIECE if swift else _PIECE, len(data) // _PIECES)
    pieces = _line_pieces(data, size)
    parse = partial(_at_once, grid=grid, wanted=wanted, swift=swift)
    gathered: _Gathered | None = None
    from concurrent.futures import ThreadPoolExecutor

    with ThreadPoolExecutor(_WORKERS) as pool:
        # A few pieces are under way at a time; each is parsed by one thread, which needs no waiting for others.
        waiting = deque(pool.submit(parse, piece) for piece in islice(pieces, _WORKERS + 1))
        while waiting:
            part = waiting.popleft().result()
            waiting.extend(pool.submit(parse, piece) for piece in islice(pieces, 1))
            gathered = gathered or _Gathered(part, round(part.rows * len(data) / size * _SPARE))
            gathered.add(part)
    return ParsedBody({}, {}, 0, {}) if gathered is None else gathered.body()


class _Gathered:
    """Columns that grow by parts, in order."""

    def __init__(self, first: ParsedBody, rows: int) -> None:
        self._columns = {i: np.empty(rows) for i in first.values}
        self._extents = dict(first.extents)
        self._rows = 0

    def add(self, part: ParsedBody) -> None:
        """Add the rows of a part."""
        start, stop = self._rows, self._rows + part.rows
        for i, values in part.values.items():
            column = self._columns[i]
            if len(column) < stop:
                column.resize(2 * stop, refcheck=False)
            column[start:stop] = values
            if start and part.rows:
                rises = bool(column[start] > column[start - 1])
                self._extents[i] = self._extents[i].joined(part.extents[i], rises=rises)
        self._rows = stop

    def body(self) -> ParsedBody:
        """Return the rows that were added."""
        for column in self._columns.values():
            column.resize(self._rows, refcheck=False)
        return ParsedBody(self._columns, {}, self._rows, self._extents)


def _line_pieces(data: memoryview, size: int) -> Iterator[memoryview]:
    """Yield a body in pieces of whole lines, of about a size at most [bytes].

    Raises
    ------
    NotATable
        If a line has no end in sight.
    """
    at = 0
    while at < len(data):
        # The last ones are smaller, or one core would wait for the other's.
        stop = at + min(size, max(_LEAST_PIECE, (len(data) - at) // (2 * _WORKERS)))
        if stop < len(data):
            line_end = bytes(data[stop : stop + _USUAL_LINE]).find(b"\n")
            if line_end < 0:
                line_end = bytes(data[stop : stop + _LONGEST_LINE]).find(b"\n")
            if line_end < 0:
                raise NotATable("a line without an end")
            stop += line_end + 1
        yield data[at:stop]
        at = stop


def _late_mark(error: str, grid: CellGrid) -> str | None:
    """Return the mark that groups digits in the cell arrow stopped at, where the sample held none that large.

    Only what can be nothing else: digits in threes with the decimal mark behind them, as in "1,007.52".
    """
    cell = re.search(r"invalid value '([^\n]{1,40})'", error)
    point = re.escape(grid.decimal)
    match = (
        re.fullmatch(rf"[-+]?\d{{1,3}}([,. '’\u00a0\u202f\u2009])\d{{3}}(?:\1\d{{3}})*{point}\d+", cell[1])
        if cell
        else None
    )
    if match is None or match[1] == grid.decimal or match[1] in grid.thousands:
        return None
    return match[1] if grid.quoted or match[1] != grid.delimiter else None


def _decoded(value: Any) -> str:
    raw = value.as_buffer()
    return "" if raw is None else _text(raw.to_pybytes()).strip().strip('"')


def _text(raw: bytes) -> str:
    try:
        return raw.decode()
    except UnicodeDecodeError:
        return raw.decode("cp1252", errors="replace")
