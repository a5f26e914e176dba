"""Rows that sum up the others: "Min", "Max" or "Mean" in the first cell, where other rows hold nothing of the kind."""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from importers.tables.table import ParsedTable
from importers.words.spelling import plain, word_set

_SUMMED = word_set(
    "min, max, minimum, maximum, mean, average, avg, std, stdev, rms, median, mittel, mittelwert, moyenne"
)


def without_summaries(table: ParsedTable) -> ParsedTable:
    """Return the table without such rows, with a warning; the table where most rows are called so."""
    first = table.texts.get(0)
    if not first:
        return table
    known = {cell: plain(cell) in _SUMMED for cell in dict.fromkeys(first)}
    keep = np.array([not known[cell] for cell in first])
    left_out = len(keep) - int(keep.sum())
    if not left_out or 2 * left_out > len(keep):
        return table
    names = ", ".join(f"'{cell}'" for cell, summed in known.items() if summed)
    return replace(
        table, rows=int(keep.sum()), values={k: x[keep] for k, x in table.values.items()},
        texts={k: [t for t, kept in zip(texts, keep, strict=True) if kept] for k, texts in table.texts.items()},
        warnings=(*table.warnings, f"rows called {names} sum up the others and were left out"),
    )  # fmt: skip
