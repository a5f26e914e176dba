"""Columns of words under a name that is a channel's or a count's, "Position" over places: they name shocks or runs."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from itertools import pairwise

import numpy as np

from dynoan.model.arrays import FloatArray
from importers.assumptions.parts import FEW_WORDS, GROUPED_ROWS
from importers.header import HeaderColumn
from importers.patterns import regex
from importers.tables import ParsedTable, is_day_column
from importers.words.adjusters import CLICK_WORD
from importers.words.channels import PLACE_HEADS, REMARKS, TABLE_WORDS
from importers.words.clicks import clicks_of
from importers.words.shock_names import corner_alone
from importers.words.spelling import plain, word_set

#: how far a knob is turned, in words
_OPENINGS = word_set("soft, medium, hard, firm, stiff, open, closed, half, full, low, mid, middle, high, min, max")
_CLICKED = regex(rf"\d\s*{CLICK_WORD}(?![a-z])|(?<![a-z]){CLICK_WORD}\s*\d")
#: names of a column whose one word says nothing of a run as a whole
_OF_ROWS = TABLE_WORDS["direction"] | REMARKS


def with_words_as_keys(table: ParsedTable) -> ParsedTable:
    """Return a table whose columns of words are no channels or counts; of places and samples they name the shock.

    A small table's column of one word in every row becomes a line of the run: "Operator: Ann".
    """
    words = {c.index: [t.strip() for t in table.texts[c.index]] for c in table.columns if _holds_words(c, table)}
    if not words:
        return table
    columns = tuple(_released(c) if c.index in words else c for c in table.columns)
    if not any(c.role == "shock" for c in columns):
        apart = {at: cells for at, cells in words.items() if _are_names(cells) and _tells_apart(cells, table)}
        columns = _with_shocks(columns, apart)
    table = replace(table, columns=columns, own=(*table.own, *_lines_of_all(columns, words, table)))
    return _with_runs(table, words)


def _holds_words(column: HeaderColumn, table: ParsedTable) -> bool:
    """Whether a column that is no key, no time and no day holds words."""
    free = column.role in (None, "index") and column.channel in (None, "displacement") and not column.clicks
    free = free and not (column.direction or column.unit or column.unknown_unit)
    return free and column.index in table.texts and column.index not in table.values and not is_day_column(column)


def _released(column: HeaderColumn) -> HeaderColumn:
    taken = column.channel is not None or column.role is not None
    return replace(column, channel=None, role=None, positive=None) if taken else column


def _are_names(cells: Sequence[str]) -> bool:
    """Whether cells may be names of shocks: none is of clicks, or says how far a knob is turned."""
    bare = {plain(cell) for cell in cells}
    return not any(cell in _OPENINGS or clicks_of(cell) or _CLICKED.search(cell) for cell in bare)


def _tells_apart(cells: Sequence[str], table: ParsedTable) -> bool:
    """Whether a column's words change, and not with each speed of one sweep that rises through all its rows."""
    speed = next((c for c in table.columns if c.channel == "velocity" and c.index in table.values), None)
    turns = [k for k, (a, b) in enumerate(pairwise(cells)) if b and a != b]
    if not turns:
        return corner_alone(cells[0]) is not None
    v = np.abs(table.values[speed.index]) if speed else np.zeros(table.rows)
    return not bool(np.all(np.diff(v) >= 0) and all(v[k + 1] > v[k] for k in turns))


def _with_shocks(columns: Sequence[HeaderColumn], words: dict[int, list[str]]) -> tuple[HeaderColumn, ...]:
    """Return columns the first of which that is called by a place or a sample, over some, names the shock."""
    heads = PLACE_HEADS | TABLE_WORDS["shock"]
    named = (c for c in columns if c.index in words and plain(c.text).rstrip(".") in heads)
    at = next((c.index for c in named if 0 < len({*words[c.index]} - {""}) <= FEW_WORDS), None)
    return tuple(replace(c, role="shock") if c.index == at else c for c in columns)


def _lines_of_all(columns: Sequence[HeaderColumn], words: dict[int, list[str]], table: ParsedTable) -> Iterator[str]:
    """Yield "name: word" for each column of a small table that holds one word in every row."""
    for c in columns if table.rows <= GROUPED_ROWS else ():
        cells = words.get(c.index, [""])
        if c.role is not None or not c.text or not cells[0] or plain(c.text) in _OF_ROWS:
            continue
        if all(cell == cells[0] for cell in cells) or not any(cells[1:]):
            yield f"{'shock' if corner_alone(cells[0]) else c.text.rstrip(' :=')}: {cells[0]}"


def _with_runs(table: ParsedTable, words: dict[int, list[str]]) -> ParsedTable:
    """Return a table of peaks with its column of words that each stand beside the same speeds as its runs."""
    speed = next((c for c in table.columns if c.channel == "velocity" and c.index in table.values), None)
    beside = {"time", "displacement"} & {c.channel for c in table.columns if c.index in table.values}
    if speed is None or beside or table.rows > GROUPED_ROWS or any(c.role == "shock" for c in table.columns):
        return table
    v = table.values[speed.index]
    directed = {c.direction for c in table.columns if c.index in table.values} >= {"compression", "rebound"}
    both = directed or bool(np.nanmin(v, initial=0.0) < 0) or any(c.role == "direction" for c in table.columns)
    found = next((at for at, cells in words.items() if both and _cross(cells, v)), None)
    if found is None:
        return table
    columns = tuple(replace(c, role="run") if c.index == found else c for c in table.columns)
    return replace(table, columns=columns)


def _cross(cells: Sequence[str], v: FloatArray) -> bool:
    """Whether each of a few words stands beside the same speeds, and rows of one word do not lie together."""
    names = list(dict.fromkeys(cells))
    turns = sum(a != b for a, b in pairwise(cells))
    if not 2 <= len(names) <= FEW_WORDS or "" in names or turns < len(names):
        return False
    speeds = [sorted(v[[k for k, cell in enumerate(cells) if cell == name]].tolist()) for name in names]
    return len(speeds[0]) >= 2 and all(one == speeds[0] for one in speeds)
