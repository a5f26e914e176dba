"""Rows given to arrow, and its columns as arrays."""

from __future__ import annotations

from typing import Any, NamedTuple

import numpy as np

from dynoan.model.arrays import FloatArray
from importers.assumptions.tables import LARGE_BODY
from importers.grid import BLANKS, CellGrid
from importers.grid.cells import MISSING
from importers.tables.extent import Extent
from importers.tables.plain_rows import with_plain_minus

_NULLS = sorted(
    {form for word in MISSING for form in (word, word.upper(), word.title(), word.capitalize(), "NaN")} | {""}
)
_EMPTY = [""]


class WantedColumns(NamedTuple):
    """Which columns of a body to parse, by index."""

    numeric: tuple[int, ...]
    text: tuple[int, ...] = ()


def arrow_table(plain: bytes | memoryview, grid: CellGrid, wanted: WantedColumns) -> Any:
    """Return a body as arrow's table: words for missing and looking for odd minus signs take time, so first none.

    Raises
    ------
    pyarrow.ArrowInvalid
        If a line has another number of cells, or a cell of a wanted numeric column is no number.
    """
    import pyarrow as pa

    try:
        return _arrow(plain, grid, wanted, _EMPTY)
    except pa.ArrowInvalid:
        return _arrow(with_plain_minus(plain), grid, wanted, _NULLS)


def _arrow(plain: bytes | memoryview, grid: CellGrid, wanted: WantedColumns, missing: list[str]) -> Any:
    import pyarrow as pa
    from pyarrow import csv

    types = {str(i): pa.float64() for i in wanted.numeric} | {str(i): pa.string() for i in wanted.text}
    return csv.read_csv(
        pa.BufferReader(_lent(plain)),
        read_options=csv.ReadOptions(
            # Arrow's own threads parse a short body sooner, and all that follows takes longer by more than that.
            column_names=[str(i) for i in range(grid.width)], use_threads=False,
            # What one thread takes is one block: the end of a second would cost a copy of all.
            block_size=len(plain) + 1,
        ),
        parse_options=csv.ParseOptions(
            delimiter=delimiter_of(grid), quote_char='"' if grid.quoted else False
        ),
        convert_options=csv.ConvertOptions(
            column_types=types, include_columns=list(types), null_values=missing,
            decimal_point=grid.decimal, check_utf8=False, quoted_strings_can_be_null=True,
        ),
        # Arrow's usual pool keeps what each thread has let go of: of a large file a tenth of the peak.
        memory_pool=pa.default_memory_pool() if len(plain) <= LARGE_BODY else pa.system_memory_pool(),
    )  # fmt: skip


def delimiter_of(grid: CellGrid) -> str:
    """Return the character between cells of a body made plain."""
    return " " if grid.delimiter == BLANKS else grid.delimiter


def _lent(data: bytes | memoryview) -> Any:
    """Return bytes as a buffer that lets go of nothing: one thread alone is done with them when it returns."""
    import pyarrow as pa

    return pa.foreign_buffer(np.frombuffer(data, np.uint8).ctypes.data, len(data))


def column_floats(column: Any) -> tuple[FloatArray, Extent]:
    """Return an arrow column as an array with its extent, from its buffers: asking arrow for it would import pandas."""
    parts = [_chunk_floats(chunk) for chunk in column.chunks]
    out = parts[0] if len(parts) == 1 else np.concatenate(parts) if parts else np.empty(0)
    extent = Extent.of(out)
    if extent.complete or not np.isinf(out).any():
        return out, extent
    out = np.where(np.isinf(out), np.nan, out)
    return out, Extent.of(out)


def _chunk_floats(chunk: Any) -> FloatArray:
    n, at = len(chunk), chunk.offset
    valid, values = chunk.buffers()
    part = np.frombuffer(values, np.float64, count=n + at)[at:] if n else np.empty(0)
    if not chunk.null_count:
        return part
    bits = np.unpackbits(np.frombuffer(valid, np.uint8), bitorder="little")[at : at + n]
    return np.where(bits.astype(bool), part, np.nan)
