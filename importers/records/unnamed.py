"""Matrices without names for their columns, as a last resort: tables of which only the user can say what is what."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

import numpy as np

from dynoan.model.arrays import FloatArray
from importers.assumptions.records import MOST_NAMES, RECORD_DEPTH
from importers.assumptions.tables import MOST_TABLES, WIDEST_TABLE
from importers.records.record import ColumnRecord, RecordColumn
from importers.records.scalars import facts

_LEAST = 2  #: columns, and rows, of a table


def unnamed_records(value: Any, lines: tuple[str, ...] = (), depth: int = 0) -> Iterator[ColumnRecord]:
    """Yield the matrices that nested values hold as records whose columns have no names, with the scalars beside them.

    >>> [[len(c.values) for c in record.columns] for record in unnamed_records({"data": np.ones((3, 100))})]
    [[100, 100, 100]]
    """
    if depth > RECORD_DEPTH:
        return
    matrices = _matrices(value)
    for matrix in matrices:
        yield ColumnRecord([RecordColumn("", "", np.ascontiguousarray(column)) for column in matrix.T], lines)
    if matrices or not isinstance(value, Mapping | list):
        return
    below = [*(value.values() if isinstance(value, Mapping) else value)] if len(value) <= MOST_NAMES else []
    lines = (*lines, *facts(value, set()), *(line for one in below for line in facts(one, set())))
    for one in below[:MOST_TABLES]:
        if isinstance(one, Mapping | list | np.ndarray):
            yield from unnamed_records(one, lines, depth + 1)


def _matrices(value: Any) -> list[FloatArray]:
    """Return the tables of numbers that a value is, shape (rows, columns); none where it is none."""
    if isinstance(value, list) and value and all(isinstance(row, list) and len(row) == len(value[0]) for row in value):
        if len(value[0]) < _LEAST or not all(isinstance(n, int | float) for row in value for n in row):
            return []
        value = np.array(value, dtype=np.float64)
    if not isinstance(value, np.ndarray) or value.dtype.kind not in "iuf":
        return []
    stack = list(value[:MOST_TABLES]) if value.ndim == 3 else [value]
    # Samples are more than channels, whichever way round they were saved.
    upright = [one if one.ndim != 2 or len(one) >= one.shape[1] else one.T for one in stack]
    fits = [one for one in upright if one.ndim == 2 and _LEAST <= one.shape[1] <= WIDEST_TABLE]
    return [one.astype(np.float64) for one in fits]
