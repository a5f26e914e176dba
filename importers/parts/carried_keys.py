"""Keys that stand in the first of their rows alone, as where cells are joined: carried down to the rows below."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from itertools import pairwise

import numpy as np

from dynoan.model.adjusters import ADJUSTERS
from dynoan.model.arrays import BoolArray, IntArray
from importers.assumptions.parts import CLICK_TEXTS
from importers.assumptions.sweeps import MOST_PEAK_ROWS
from importers.header import HeaderColumn
from importers.parts.key_columns import cell_clicks
from importers.parts.roles import settled
from importers.tables import ParsedTable, is_day_column
from importers.words.keys import ONE_KNOB
from importers.words.shock_names import corner_alone
from importers.words.spelling import plain

_KEYS = frozenset(("shock", "pack", "run", "direction", *ADJUSTERS))


def with_places_as_shocks(table: ParsedTable) -> ParsedTable:
    """Return a table of peaks whose column of words holds places on the car alone with it as the shocks' names."""
    texts = {
        i: {cell.strip() for cell in cells} - {""} for i, cells in table.texts.items() if table.rows <= MOST_PEAK_ROWS
    }
    named = {c.role for c in table.columns}
    at = next((i for i, cells in texts.items() if len(cells) > 1 and all(map(corner_alone, cells))), None)
    if at is None or "shock" in named or any(c.channel == "time" for c in table.columns):
        return table
    columns = (
        replace(c, role="shock", channel=None, direction=None, unit="") if c.index == at else c for c in table.columns
    )
    return replace(table, columns=tuple(columns))


def with_keys_carried(table: ParsedTable) -> ParsedTable:
    """Return the table with each blank cell of its keys as the one above; the table where none is blank.

    A row that starts a run anew and has none of the keys is none of those above: its cells stay blank.
    """
    words = [c.index for c in table.columns if c.index in table.texts and _is_key(c, table)]
    numbers = [c.index for c in table.columns if c.index in table.values and _is_key(c, table)]
    blanks = {i: np.array([not t.strip() for t in table.texts[i]], bool) for i in words}
    blanks |= {i: np.isnan(table.values[i]) for i in numbers}
    blanks = {i: b for i, b in blanks.items() if b.any() and not b.all()}
    if not blanks:
        return table
    anew = np.all([*blanks.values()], axis=0) & _restarts(table)
    above = {i: _last_filled(b, anew) for i, b in blanks.items()}
    texts = {i: ["" if k < 0 else table.texts[i][k] for k in above[i]] for i in words if i in above}
    values = {i: np.where(above[i] < 0, np.nan, table.values[i][above[i]]) for i in numbers if i in above}
    return replace(table, texts={**table.texts, **texts}, values={**table.values, **values})


def _is_key(column: HeaderColumn, table: ParsedTable) -> bool:
    """Whether a column says of which run, setting or direction its rows are."""
    if settled(column, table.columns, table).role in _KEYS or is_day_column(column):
        return True
    if column.known or column.index in table.values:
        return plain(column.text) in ONE_KNOB
    said = {cell for cell in table.texts[column.index] if cell.strip()}
    return (0 < len(said) <= CLICK_TEXTS and all(cell_clicks(column.text, cell) for cell in said)) or (
        1 < len(said) <= CLICK_TEXTS and _begins_runs(table.texts[column.index], table)
    )


def _begins_runs(cells: Sequence[str], table: ParsedTable) -> bool:
    """Whether words stand in just those rows in which a small table's speeds start again, the first one included."""
    if table.rows > MOST_PEAK_ROWS or any(c.channel in ("time", "displacement") for c in table.columns):
        return False
    starts = [True, *map(bool, _restarts(table)[1:])]
    return [bool(cell.strip()) for cell in cells] == starts


def _last_filled(blank: BoolArray, anew: BoolArray) -> IntArray:
    """Return of each row the last one above with a cell, itself included, shape (rows,); -1 where there is none."""
    at = np.arange(len(blank))
    last = np.maximum.accumulate(np.where(blank, -1, at))
    since = np.maximum.accumulate(np.where(anew, at, -1))
    return np.where(last >= since, last, -1)


def _restarts(table: ParsedTable) -> BoolArray:
    """Return which rows start anew what runs on within a run, time or a direction's speed, shape (rows,)."""
    runs = [c for name in ("time", "velocity") for c in table.columns if c.channel == name and c.index in table.values]
    out = np.zeros(table.rows, bool)
    if runs:
        x = table.values[runs[0].index]
        out[1:] = (np.abs(x[1:]) < np.abs(x[:-1])) & (x[1:] * x[:-1] >= 0)
    for ways in (table.texts[c.index] for c in table.columns if c.role == "direction" and c.index in table.texts):
        out[1:] &= [not (b and a != b) for a, b in pairwise(ways)]
    return out


def with_speeds_carried(table: ParsedTable) -> ParsedTable:
    """Return a small table with each missing speed as the one above where each direction's rows share joined cells.

    A force without speed says nothing, and one that is left out would be missed: what is done is said.
    """
    speed = next((c for c in table.columns if c.channel == "velocity" and c.index in table.values), None)
    forces = [c for c in table.columns if c.channel == "force" and not c.lesser and c.index in table.values]
    if speed is None or len(forces) != 1 or any(c.channel in ("time", "displacement") for c in table.columns):
        return table
    v, held = table.values[speed.index], np.isfinite(table.values[forces[0].index])
    lone = np.isnan(v) & held
    if not lone.any():
        return table
    directed = any(c.role == "direction" and c.index in table.texts for c in table.columns)
    if not directed or lone[0] or bool((lone[1:] & lone[:-1]).any()) or lone.sum() * 2 < held.sum() - 1:
        said = f"{int(lone.sum())} rows hold a force and no speed in '{speed.text}': left out"
        return replace(table, warnings=(*table.warnings, said))
    above = np.maximum.accumulate(np.where(lone, 0, np.arange(len(v))))
    said = f"where '{speed.text}' is blank, the speed above was taken, as of joined cells"
    return replace(table, values={**table.values, speed.index: v[above]}, warnings=(*table.warnings, said))
