"""A table's body to arrays, by pyarrow. Nothing here looks at what the columns mean."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import replace
from typing import Any, NamedTuple

import numpy as np

from dynoan.model.arrays import FloatArray
from importers.grid import BLANKS, CellGrid
from importers.grid.cells import MISSING
from importers.tables.plain_rows import plain_rows

_BIG = 1 << 22  #: from here on arrow uses threads [bytes]
_BLOCK = 1 << 22
_NULLS = sorted({form for word in MISSING for form in (word, word.upper(), word.title(), "NaN")} | {""})


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


def parse_rows(data: bytes | memoryview, grid: CellGrid, wanted: WantedColumns) -> ParsedBody:
    """Return the wanted columns of a body whose every line is a row.

    Raises
    ------
    NotATable
        If a line has another number of cells, or a cell of a wanted numeric column is no number.
    """
    import pyarrow as pa

    try:
        table = _arrow(plain_rows(data, grid), grid, wanted)
    except pa.ArrowInvalid as error:
        mark = _late_mark(str(error), grid)
        if mark is not None:
            return parse_rows(data, replace(grid, thousands=grid.thousands + mark), wanted)
        raise NotATable(str(error)) from None
    rows = table.num_rows
    texts = {i: [_decoded(v) for v in table.column(str(i))] for i in wanted.text}
    values = {}
    for i in wanted.numeric:
        values[i] = _floats(table.column(str(i)))
        # Arrow's own copy goes column by column, or the peak would hold the whole table twice.
        table = table.drop_columns([str(i)])
    return ParsedBody(values, texts, rows)


def _arrow(plain: bytes | memoryview, grid: CellGrid, wanted: WantedColumns) -> Any:
    import pyarrow as pa
    from pyarrow import csv

    types = {str(i): pa.float64() for i in wanted.numeric} | {str(i): pa.string() for i in wanted.text}
    return csv.read_csv(
        pa.BufferReader(pa.py_buffer(plain)),
        read_options=csv.ReadOptions(
            column_names=[str(i) for i in range(grid.width)], use_threads=len(plain) > _BIG, block_size=_BLOCK
        ),
        parse_options=csv.ParseOptions(
            delimiter=" " if grid.delimiter == BLANKS else grid.delimiter, quote_char='"' if grid.quoted else False
        ),
        convert_options=csv.ConvertOptions(
            column_types=types, include_columns=list(types), null_values=_NULLS,
            decimal_point=grid.decimal, check_utf8=False, quoted_strings_can_be_null=True,
        ),
    )  # fmt: skip


def _late_mark(error: str, grid: CellGrid) -> str | None:
    """Return the mark that groups digits in the cell arrow stopped at, where the sample held none that large.

    Only what can be nothing else: digits in threes with the decimal mark behind them, as in "1,007.52".
    """
    cell = re.search(r"invalid value '([^']*)'", error)
    point = re.escape(grid.decimal)
    match = re.fullmatch(rf"[-+]?\d{{1,3}}([,. ])\d{{3}}(?:\1\d{{3}})*{point}\d+", cell[1]) if cell else None
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
