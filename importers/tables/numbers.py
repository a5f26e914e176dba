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
from importers.grid import BLANKS, CellGrid
from importers.grid.cells import MISSING
from importers.tables.plain_rows import plain_rows

_BIG = 1 << 19  #: from here on arrow uses threads [bytes]
_WORKERS = 2  #: pieces of a large body that are parsed at a time
_PIECED = 1 << 21  #: a larger body is parsed in pieces [bytes]
_PIECES = 8  #: at least so many, or the last ones leave a core idle
_PIECE = 1 << 21  #: how much of a large body is parsed at a time at most: each call of arrow's costs time [bytes]
_USUAL_LINE = 1 << 12  #: where the end of a line is looked for first [bytes]
_LONGEST_LINE = 1 << 20  #: lines of a table are shorter [bytes]
_SPARE = 1.02  #: room kept for later rows that are shorter than the first
_NULLS = sorted({form for word in MISSING for form in (word, word.upper(), word.title(), "NaN")} | {""})
_EMPTY = [""]


class NotATable(Exception):
    """The body is not a plain table: some line holds something else. The caller looks at it line by line."""


class WantedColumns(NamedTuple):
    """Which columns of a body to parse, by index."""

    numeric: tuple[int, ...]
    text: tuple[int, ...] = ()


class ParsedBody(NamedTuple):
    """The parsed columns of a table's body, by column index."""

    values: Mapping[int, FloatArray]
    texts: Mapping[int, list[str]]
    rows: int


def parse_rows(
    data: bytes | memoryview, grid: CellGrid, wanted: WantedColumns, *, ascii_signs: bool = False
) -> ParsedBody:
    """Return the wanted columns of a body whose every line is a row.

    Parameters
    ----------
    data
        The body.
    grid
        How its cells stand.
    wanted
        Which to parse.
    ascii_signs
        Whether it is known that no sign is the typographic minus, which must be looked for else.

    Raises
    ------
    NotATable
        If a line has another number of cells, or a cell of a wanted numeric column is no number.
    """
    if len(data) > _PIECED and not wanted.text:
        return _in_pieces(memoryview(data), grid, wanted, ascii_signs=ascii_signs)
    return _at_once(data, grid, wanted, ascii_signs=ascii_signs, threads=_BIG < len(data) < _PIECED)


def _at_once(
    data: bytes | memoryview, grid: CellGrid, wanted: WantedColumns, *, ascii_signs: bool, threads: bool
) -> ParsedBody:
    """Return the columns of a body that is given to arrow whole."""
    import pyarrow as pa

    plain = plain_rows(data, grid, ascii_signs=ascii_signs)
    try:
        table = _parsed(plain, grid, wanted, threads=threads)
    except pa.ArrowInvalid as error:
        mark = _late_mark(str(error), grid)
        if mark is not None:
            wider = replace(grid, thousands=grid.thousands + mark)
            return _at_once(data, wider, wanted, ascii_signs=ascii_signs, threads=threads)
        raise NotATable(str(error)) from None
    rows = table.num_rows
    texts = {i: [_decoded(v) for v in table.column(str(i))] for i in wanted.text}
    values = {}
    for i in wanted.numeric:
        values[i] = _floats(table.column(str(i)))
        # Arrow's own copy goes column by column, or the peak would hold the whole table twice.
        table = table.drop_columns([str(i)])
    return ParsedBody(values, texts, rows)


def _in_pieces(data: memoryview, grid: CellGrid, wanted: WantedColumns, *, ascii_signs: bool) -> ParsedBody:
    """Return the columns of a large body, parsed piece by piece, so that no second copy of it all is ever held."""
    whole: dict[int, FloatArray] = {}
    done = 0
    size = min(_PIECE, len(data) // _PIECES)
    pieces = _line_pieces(data, size)
    parse = partial(_at_once, grid=grid, wanted=wanted, ascii_signs=ascii_signs, threads=False)
    from concurrent.futures import ThreadPoolExecutor

    with ThreadPoolExecutor(_WORKERS) as pool:
        # A few pieces are under way at a time; each is parsed by one thread, which needs no waiting for others.
        waiting = deque(pool.submit(parse, piece) for piece in islice(pieces, _WORKERS + 1))
        while waiting:
            part = waiting.popleft().result()
            waiting.extend(pool.submit(parse, piece) for piece in islice(pieces, 1))
            for i, values in part.values.items():
                column = whole.setdefault(i, np.empty(round(part.rows * len(data) / size * _SPARE)))
                if len(column) < done + part.rows:
                    column.resize(2 * (done + part.rows), refcheck=False)
                column[done : done + part.rows] = values
            done += part.rows
    for column in whole.values():
        column.resize(done, refcheck=False)
    return ParsedBody(whole, {}, done)


def _line_pieces(data: memoryview, size: int) -> Iterator[memoryview]:
    """Yield a body in pieces of whole lines, of about a size [bytes].

    Raises
    ------
    NotATable
        If a line has no end in sight.
    """
    at = 0
    while at < len(data):
        stop = at + size
        if stop < len(data):
            line_end = bytes(data[stop : stop + _USUAL_LINE]).find(b"\n")
            if line_end < 0:
                line_end = bytes(data[stop : stop + _LONGEST_LINE]).find(b"\n")
            if line_end < 0:
                raise NotATable("a line without an end")
            stop += line_end + 1
        yield data[at:stop]
        at = stop


def _parsed(plain: bytes | memoryview, grid: CellGrid, wanted: WantedColumns, *, threads: bool) -> Any:
    """Return a body as arrow's table: words for missing take a quarter of the time, so first none."""
    import pyarrow as pa

    try:
        return _arrow(plain, grid, wanted, _EMPTY, threads=threads)
    except pa.ArrowInvalid:
        return _arrow(plain, grid, wanted, _NULLS, threads=threads)


def _arrow(
    plain: bytes | memoryview, grid: CellGrid, wanted: WantedColumns, missing: list[str], *, threads: bool
) -> Any:
    import pyarrow as pa
    from pyarrow import csv

    types = {str(i): pa.float64() for i in wanted.numeric} | {str(i): pa.string() for i in wanted.text}
    return csv.read_csv(
        pa.BufferReader(_owned(plain) if threads else _lent(plain)),
        read_options=csv.ReadOptions(
            column_names=[str(i) for i in range(grid.width)], use_threads=threads,
            # What one thread takes is one block: the end of a second would cost a copy of all.
            block_size=len(plain) // _WORKERS + 1 if threads else len(plain) + 1,
        ),
        parse_options=csv.ParseOptions(
            delimiter=" " if grid.delimiter == BLANKS else grid.delimiter, quote_char='"' if grid.quoted else False
        ),
        convert_options=csv.ConvertOptions(
            column_types=types, include_columns=list(types), null_values=missing,
            decimal_point=grid.decimal, check_utf8=False, quoted_strings_can_be_null=True,
        ),
        # Arrow's usual pool keeps what each thread has let go of: a tenth of the peak on a large file, and no faster.
        memory_pool=pa.system_memory_pool(),
    )  # fmt: skip


def _owned(data: bytes | memoryview) -> Any:
    """Return bytes in memory of arrow's own.

    Its threads may let go of a buffer while the interpreter ends, and letting go of Python's own needs the interpreter.
    """
    import pyarrow as pa

    buffer = pa.allocate_buffer(len(data), memory_pool=pa.system_memory_pool())
    np.frombuffer(buffer, np.uint8)[:] = np.frombuffer(data, np.uint8)
    return buffer


def _lent(data: bytes | memoryview) -> Any:
    """Return bytes as a buffer that lets go of nothing: one thread alone is done with them when it returns."""
    import pyarrow as pa

    return pa.foreign_buffer(np.frombuffer(data, np.uint8).ctypes.data, len(data))


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


def _floats(column: Any) -> FloatArray:
    """Return an arrow column as an array, from its buffers: asking arrow for it would import pandas."""
    parts = [_chunk_floats(chunk) for chunk in column.chunks]
    out = parts[0] if len(parts) == 1 else np.concatenate(parts) if parts else np.empty(0)
    # An infinity, a number beyond the range of a double, makes the sum infinite or not a number.
    return out if np.isfinite(out.sum()) else np.where(np.isinf(out), np.nan, out)


def _chunk_floats(chunk: Any) -> FloatArray:
    n, at = len(chunk), chunk.offset
    valid, values = chunk.buffers()
    part = np.frombuffer(values, np.float64, count=n + at)[at:] if n else np.empty(0)
    if not chunk.null_count:
        return part
    bits = np.unpackbits(np.frombuffer(valid, np.uint8), bitorder="little")[at : at + n]
    return np.where(bits.astype(bool), part, np.nan)
