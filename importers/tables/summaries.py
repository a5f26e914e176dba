"""Rows that sum up the others: "Min", "Max" or "Mean" in the first cell, where other rows hold nothing of the kind."""

from __future__ import annotations

from importers.grid import is_number
from importers.tables.table import ParsedTable
from importers.words.spelling import plain, word_set

_SUMMED = word_set(
    "min, max, minimum, maximum, mean, average, avg, std, stdev, rms, median, mittel, mittelwert, moyenne"
)


def without_summaries(table: ParsedTable) -> ParsedTable:
    """Return the table without such rows, with a warning; the table where most rows are called so.

    Beside the first column, one of words whose other cells are numbers may say so: cycles "1", "2", "3", "mean".
    """
    for index, cells in table.texts.items():
        known = {cell: plain(cell) in _SUMMED for cell in dict.fromkeys(cells)}
        keep = [not known[cell] for cell in cells]
        left_out = len(keep) - sum(keep)
        numbered = all(summed or is_number(cell, ".") for cell, summed in known.items())
        if left_out and 2 * left_out <= len(keep) and (index == 0 or numbered):
            names = ", ".join(f"'{cell}'" for cell, summed in known.items() if summed)
            return table.kept(keep, f"rows called {names} sum up the others and were left out")
    return table
