"""Columns by name, as a file that is no text holds them, and the table they make."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

import numpy as np

from dynoan.errors import ReadError
from dynoan.model.arrays import FloatArray
from dynoan.model.importing import ReadOptions
from importers.assumptions.records import MOST_VALUES
from importers.assumptions.tables import WIDEST_TABLE
from importers.grid import CellGrid
from importers.header import describe_column, with_layout
from importers.tables import ParsedTable, with_clocks


class RecordColumn(NamedTuple):
    """One column of a record: numbers, or texts where it holds none."""

    name: str
    unit: str
    values: FloatArray | list[str]


class ColumnRecord(NamedTuple):
    """Columns of one length, and what the file says beside them, as lines."""

    columns: Sequence[RecordColumn]
    lines: tuple[str, ...] = ()
    warnings: tuple[str, ...] = ()  #: of what could not be read beside them


def claims_more(name: str, what: str) -> ReadError:
    """Return the refusal of a file that claims more values than are read."""
    most = f"{MOST_VALUES // 1_000_000} million"
    return ReadError(
        f"{what} claims more values than are read ({most})", where=name, hint="save a part of the run, or as CSV"
    )


def table_of(record: ColumnRecord, options: ReadOptions, *, shared: tuple[str, ...] = ()) -> ParsedTable:
    """Return the table that a record makes, named but not yet understood."""
    columns = [c._replace(name=_one_line(c.name)) for c in record.columns[:WIDEST_TABLE]]
    described = tuple(describe_column(k, c.name, c.unit) for k, c in enumerate(columns))
    numeric = tuple(isinstance(c.values, np.ndarray) for c in columns)
    choice = with_layout(["\t".join(c.name for c in columns)], options)
    table = ParsedTable(
        columns=described,
        values={k: c.values for k, c in enumerate(columns) if isinstance(c.values, np.ndarray)},
        texts={k: c.values for k, c in enumerate(columns) if isinstance(c.values, list)},
        rows=len(columns[0].values), grid=CellGrid("\t", ".", len(columns), numeric), first_line=1,
        shared=shared, own=tuple(map(_one_line, record.lines)), options=choice.options, layout=choice.layout,
        user=choice.user, warnings=record.warnings, named=any(c.name for c in columns),
    )  # fmt: skip
    return with_clocks(table)


def _one_line(text: str) -> str:
    """Return a text of any lines and tabs as one line with single blanks, which a line of a text file is."""
    return " ".join(text.split())
