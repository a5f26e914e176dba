"""Time as a spreadsheet counts it: days since a day long past, such as 45731.604, in a column called time or date."""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from importers.assumptions.parts import DAY_NUMBERS
from importers.header import HeaderColumn
from importers.tables import ParsedTable
from importers.words.channels import CHANNEL_WORDS
from importers.words.keys import DATE
from importers.words.spelling import plain

_SECONDS = 86_400.0  #: of a day


def with_day_numbers(table: ParsedTable) -> ParsedTable:
    """Return a table whose column of days of a spreadsheet is its time in seconds, with a warning, else the table."""
    for column in table.columns:
        x = table.values.get(column.index)
        words = {*plain(column.text).replace("/", " ").split()}
        if x is None or not x.size or column.unit or not words & (DATE | CHANNEL_WORDS["time"]):
            continue
        if not (DAY_NUMBERS[0] < float(x[0]) < DAY_NUMBERS[1] and 0 < float(x[-1] - x[0]) < 1):
            continue
        said = f"'{column.text}' counts days, as a spreadsheet does: taken as time, {_SECONDS:.0f} s a day"
        index = max(*table.values, table.grid.width) + 1
        time = HeaderColumn(index, column.text, unit="s", channel="time", worked_out=True)
        columns = (*(replace(c, channel=None, role=None) if c is column else c for c in table.columns), time)
        values = {**table.values, index: np.asarray((x - x[0]) * _SECONDS)}
        return replace(table, columns=columns, values=values, warnings=(*table.warnings, said))
    return table
