"""A first row that is no sample but what the numbers below are to be multiplied by: "Scale,1,1,0.01"."""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from dynoan.errors import ReadError, Spot
from importers.assumptions.sweeps import TRACE_ROWS
from importers.tables.table import ParsedTable
from importers.words.channels import FACTORS, ZEROS
from importers.words.keys import RATE
from importers.words.spelling import plain

_MOST = 4  #: rows that may stand so


def without_scale_rows(table: ParsedTable, name: str) -> ParsedTable:
    """Return a table without first rows that say the numbers need no scaling, else the table.

    Raises
    ------
    ReadError
        If such a row says that they do: whether it was done already is not known.
    """
    words = next(iter(table.texts.values()), [])
    table = table if words else _without_gains(table)
    if words and plain(words[0]) in RATE and len({*words}) > 1:
        return table.kept(np.arange(table.rows) > 0, f"the first row is called '{words[0]}' and no sample: left out")
    rows = next((k for k, word in enumerate(words[:_MOST]) if plain(word) not in FACTORS | ZEROS), 0)
    if not rows or rows >= table.rows:
        return table
    for k in range(rows):
        idle = 1.0 if plain(words[k]) in FACTORS else 0.0
        found = [float(x[k]) for x in table.values.values() if np.isfinite(x[k])]
        if any(value != idle for value in found):
            shown = ", ".join(f"{value:g}" for value in found)
            raise ReadError(
                f"a row of '{words[k]}' ({shown}) stands above the numbers, which may be scaled already or not",
                where=Spot(name, line=table.first_line + k),
                hint="scale them, and take it out",
            )
    values = {i: x[rows:] for i, x in table.values.items()}
    texts = {i: t[rows:] for i, t in table.texts.items()}
    return replace(table, rows=table.rows - rows, values=values, texts=texts, first_line=table.first_line + rows)


def _without_gains(table: ParsedTable) -> ParsedTable:
    """Return a record without a first row of powers of ten that time does not begin with, and a warning; else it."""
    time = next((table.values[c.index] for c in table.columns if c.channel == "time" and c.index in table.values), None)
    if time is None or table.rows < TRACE_ROWS or not time[0] > time[1] or not np.all(np.diff(time[1:TRACE_ROWS]) > 0):
        return table
    row = [float(x[0]) for x in table.values.values()]
    if not all(gain > 0 and float(np.log10(gain)).is_integer() for gain in row):
        return table
    shown = ", ".join(f"{gain:g}" for gain in row)
    said = f"the first row ({shown}) is no sample, its time fits none: left out, and not applied should it be factors"
    return table.kept(np.arange(table.rows) > 0, said)
