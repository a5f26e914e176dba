"""Columns of clock times as seconds, and a column of days that is the time."""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from dynoan.model.arrays import FloatArray
from dynoan.model.ranks import median
from importers.assumptions.tables import EVEN_X
from importers.tables.table import ParsedTable, is_day_column
from importers.words.clock import clock_seconds, unwrapped
from importers.words.dates import date_of
from importers.words.spelling import plain

_STEPS_OVER = 3.0  #: so many usual steps the one over midnight may be [1]
_COUNTER, _DAY = 2.0**32, 86400.0  #: where a 32-bit counter [counts] and the time of day [s] start again


def with_clocks(table: ParsedTable) -> ParsedTable:
    """Return the table with clock times as seconds."""
    table = _with_x_as_time(_with_day_as_time(table))
    columns, values, texts = list(table.columns), dict(table.values), dict(table.texts)
    for column in table.columns:
        if column.channel == "time" and column.index in values:
            values[column.index] = _run_on(values[column.index], table)
        if column.channel != "time" or column.index not in texts:
            continue
        stamps = texts.pop(column.index)
        found = clock_seconds(stamps)
        if found is not None:
            table = replace(table, day=date_of(stamps[0]))
            values[column.index] = unwrapped(found, (_DAY,))
            columns[column.index] = replace(column, unit="s")
    return replace(table, columns=tuple(columns), values=values, texts=texts)


def _run_on(time: FloatArray, table: ParsedTable) -> FloatArray:
    """Return a column of time that runs on where its counter or its day began anew."""
    if table.extents.of(time).rises:
        return time
    return _over_midnight(unwrapped(time, (_COUNTER,)))


def _over_midnight(time: FloatArray) -> FloatArray:
    """Return a time that is seconds or milliseconds of the day as one that runs on over midnight; another as it is.

    Over midnight a step is what it is elsewhere; a run that begins anew stops at any time.
    """
    step = np.diff(time)
    rising = step[step > 0]
    if len(rising) == len(step) or not len(rising):
        return time
    for whole in (_DAY, 1e3 * _DAY):
        back = (step < 0) & (step + whole > 0) & (step + whole <= _STEPS_OVER * median(rising))
        if back.any():
            return np.asarray(time + whole * np.concatenate([[0], np.cumsum(back)]))
    return time


def _with_x_as_time(table: ParsedTable) -> ParsedTable:
    """Return a table without a time whose "X", which grows evenly beside another displacement, is the time."""
    travel = [c for c in table.columns if c.channel == "displacement" and c.index in table.values]
    named = [c for c in travel if plain(c.text) == "x"]
    if any(c.channel == "time" for c in table.columns) or len(named) != 1 or len(travel) < 2 or table.rows < 2:
        return table
    (x,) = named
    steps = np.diff(table.values[x.index])
    if not (steps > 0).all() or float(np.ptp(steps)) > EVEN_X * float(np.median(steps)):
        return table
    columns = tuple(replace(c, channel="time") if c is x else c for c in table.columns)
    return replace(table, columns=columns)


def _with_day_as_time(table: ParsedTable) -> ParsedTable:
    """Return a table without a time whose column of days, or of no known name, holds clock times that run on."""
    if any(c.channel == "time" for c in table.columns):
        return table
    for column in table.columns:
        stamps = table.texts.get(column.index)
        if (
            stamps
            and (is_day_column(column) or not column.known)
            and (found := clock_seconds(stamps)) is not None
            and np.nanmax(found) > 0
        ):
            return replace(
                table, columns=tuple(replace(c, channel="time") if c is column else c for c in table.columns)
            )
    return table
