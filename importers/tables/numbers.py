"""A table's body to arrays, by pyarrow. Nothing here looks at what the columns mean."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field, replace
from functools import partial
from typing import Any

import numpy as np

from dynoan.model.arrays import FloatArray
from importers.grid.cells import BLANKS, MISSING
from importers.grid.judging import Grid

_BIG = 1 << 22
_BLOCK = 1 << 22
_TABLE_OF_MISSING = sorted({form for word in MISSING for form in (word, word.upper(), word.title(), "NaN")} | {""})


class NotATable(Exception):
    """The body is not a plain table: some line holds something else. The caller looks at it line by line."""


@dataclass(frozen=True)
class Body:
    """The parsed columns of a table's body, by column index."""

    values: Mapping[int, FloatArray]
    texts: Mapping[int, list[str]] = field(default_factory=dict)
    rows: int = 0


def parse(data: bytes | memoryview, grid: Grid, numeric: Iterable[int], text: Iterable[int] = ()) -> Body:
    """Return the wanted columns of a body whose every line is a row.

    Raises
    ------
    NotATable
        If a line has another number of cells, or a cell of a wanted numeric column is no number.
    """
    import pyarrow as pa
    from pyarrow import csv

    numeric, text = list(numeric), list(text)
    plain = _plain(data, grid)
    types = {str(i): pa.float64() for i in numeric} | {str(i): pa.string() for i in text}
    try:
        table = csv.read_csv(
            pa.BufferReader(pa.py_buffer(plain)),
            read_options=csv.ReadOptions(
                column_names=[str(i) for i in range(grid.width)], use_threads=len(plain) > _BIG, block_size=_BLOCK
            ),
            parse_options=csv.ParseOptions(
                delimiter=" " if grid.delimiter == BLANKS else grid.delimiter,
                quote_char='"' if grid.quoted else False,
            ),
            convert_options=csv.ConvertOptions(
                column_types=types, include_columns=list(types), null_values=_TABLE_OF_MISSING,
                decimal_point=grid.decimal, check_utf8=False, quoted_strings_can_be_null=True,
            ),
        )  # fmt: skip
    except pa.ArrowInvalid as error:
        mark = _late_mark(str(error), grid)
        if mark is not None:
            return parse(data, replace(grid, thousands=grid.thousands + mark), numeric, text)
        raise NotATable(str(error)) from None
    rows = table.num_rows
    texts = {i: [_decoded(v) for v in table.column(str(i))] for i in text}
    values = {}
    for i in numeric:
        values[i] = _floats(table.column(str(i)))
        # Arrow's own copy goes column by column, or the peak would hold the whole table twice.
        table = table.drop_columns([str(i)])
    return Body(values, texts, rows)


def _late_mark(error: str, grid: Grid) -> str | None:
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
    parts = []
    for chunk in column.chunks:
        n, at = len(chunk), chunk.offset
        valid, values = chunk.buffers()
        part = np.frombuffer(values, np.float64, count=n + at)[at:] if n else np.empty(0)
        if chunk.null_count:
            bits = np.unpackbits(np.frombuffer(valid, np.uint8), bitorder="little")[at : at + n]
            part = np.where(bits.astype(bool), part, np.nan)
        parts.append(part)
    out = parts[0] if len(parts) == 1 else np.concatenate(parts) if parts else np.empty(0)
    # An infinity, a number beyond the range of a double, makes the sum infinite or not a number.
    return out if np.isfinite(out.sum()) else np.where(np.isinf(out), np.nan, out)


def _plain(data: bytes | memoryview, grid: Grid) -> bytes | memoryview:
    """Return the body with one mark between cells and no marks that group digits."""
    if grid.delimiter == BLANKS:
        data = _collapse(data)
    if grid.thousands:
        data = _ungroup(bytes(data), grid)
    return data


def _ungroup(data: bytes, grid: Grid) -> bytes:
    for mark in grid.thousands:
        for code in {mark.encode(), mark.encode("cp1252", errors="ignore") or mark.encode()}:
            if mark == grid.delimiter:
                data = re.sub(rb'"[^"\n]*"', partial(_without, code), data)
            else:
                data = re.sub(rb"(?<=\d)" + re.escape(code) + rb"(?=\d{3}(?!\d))", b"", data)
    return data


def _without(code: bytes, match: re.Match[bytes]) -> bytes:
    return match[0].replace(code, b"")


def _collapse(data: bytes | memoryview) -> bytes:
    """Return text with runs of blanks and tabs as one blank, and none at the ends of lines."""
    a = np.frombuffer(data, np.uint8)
    blank = (a == 32) | (a == 9)
    end = (a == 10) | (a == 13)
    before = np.empty_like(blank)
    before[0], before[1:] = True, (blank | end)[:-1]
    out = np.where(blank, np.uint8(32), a)[~(blank & before)]
    # A blank before a line's end is left over where it was the first of its run.
    last = np.empty(len(out), bool)
    if len(out):
        last[-1], last[:-1] = True, (out[1:] == 10) | (out[1:] == 13)
        out = out[~((out == 32) & last)]
    return bytes(out.tobytes())
