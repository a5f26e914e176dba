"""Columns that say of each row which run or setting it is of."""

from __future__ import annotations

import re
from collections.abc import Sequence

import numpy as np

from dynoan.model.adjusters import ADJUSTERS
from importers.assumptions.parts import CLICK_TEXT_SHARE, CLICK_TEXTS, CLICKS_BELOW, GROUPED_ROWS
from importers.header import HeaderColumn
from importers.parts.gas_column import set_by_run
from importers.tables import ParsedTable
from importers.words.adjusters import CLICK_WORD, adjuster_of
from importers.words.channels import CORNERS
from importers.words.clicks import clicks_of, doubted_clicks
from importers.words.directions import SIGNS, direction_among
from importers.words.keys import ONE_KNOB
from importers.words.spelling import plain


def key_columns(
    columns: Sequence[HeaderColumn], usable: Sequence[HeaderColumn], table: ParsedTable
) -> dict[str, HeaderColumn]:
    """Return the key columns of a table by role; of several of one role the first.

    Parameters
    ----------
    columns
        All columns.
    usable
        Those of them that hold numbers, or words under a name that is a key.
    table
        The table.
    """
    named = sorted(usable, key=lambda c: plain(c.text) in CORNERS)
    keys = {c.role: c for c in reversed(named) if c.role and c.role != "index"}
    stated = _click_texts(columns, table)
    if stated is not None:
        keys["clicks"] = stated
    elif (group := _groups(columns, table)) is not None:
        keys.setdefault("group", group)
    timed = any(c.channel == "time" for c in columns)
    if timed:
        keys.pop("turns", None)  # of no named knob: a record's own turns are its crank's
    if not timed and (gas := next((c for c in usable if set_by_run(c, table)), None)):
        keys["gas"] = gas
    if not {"clicks", *ADJUSTERS} & set(keys) and (knob := _one_knob(columns, table)) is not None:
        keys["cr"] = knob
    if "direction" not in keys and (ways := _directions(columns, table)) is not None:
        keys["direction"] = ways
        if keys.get("group") is ways:
            del keys["group"]  # first all of compression, then all of rebound: no runs
    return keys


def _one_knob(columns: Sequence[HeaderColumn], table: ParsedTable) -> HeaderColumn | None:
    """Return the column of whole numbers under a name such as "Clicks", which names no direction.

    Halves and quarters are no clicks either, but no other thing, and refused as such where runs are told apart.
    """
    for column in columns:
        x = table.values.get(column.index)
        if x is None or column.known or plain(column.text) not in ONE_KNOB:
            continue
        if bool(np.all((np.round(4 * x) == 4 * x) & (x >= 0) & (x < CLICKS_BELOW))):
            return column
    return None


def _directions(columns: Sequence[HeaderColumn], table: ParsedTable) -> HeaderColumn | None:
    """Return the text column, whatever its name, whose every cell is a word for one of the two directions."""
    for column in columns:
        texts = set(table.texts.get(column.index, ()))
        if texts and texts <= SIGNS and len(texts) == 2:
            return column
        if 2 <= len(texts) <= CLICK_TEXTS and {direction_among(t, texts) for t in texts} == {"compression", "rebound"}:
            return column
    return None


def _click_texts(columns: Sequence[HeaderColumn], table: ParsedTable) -> HeaderColumn | None:
    """Return the text column whose cells state clicks, such as "C4 R6"."""
    for column in columns:
        texts = set(table.texts.get(column.index, ()))
        if not texts or len(texts) > CLICK_TEXTS:
            continue
        if sum(bool(cell_clicks(column.text, t)) for t in texts) > CLICK_TEXT_SHARE * len(texts):
            return column
    return None


def _groups(columns: Sequence[HeaderColumn], table: ParsedTable) -> HeaderColumn | None:
    """Return an unnamed text column that changes just where a table's speeds start again: it names its runs."""
    time = next((c for c in columns if c.channel == "time" and c.index in table.values), None)
    speed = next((c for c in columns if c.channel == "velocity" and c.index in table.values), None)
    of_table = table.rows <= GROUPED_ROWS and not any(c.channel == "displacement" for c in columns)
    if (time is None and speed is None) or (time is None and not of_table):
        return None
    v = table.values[(time or speed).index]  # type: ignore[union-attr]
    for column in columns:
        texts = table.texts.get(column.index) or (_whole_texts(table, column) if time is None else [])
        turns = [i for i in range(1, len(texts)) if texts[i] != texts[i - 1]]
        once = len(set(texts)) == len(turns) + 1
        if (
            (not column.known or (time is not None and _names_phases(column, texts)))
            and plain(column.text) not in ONE_KNOB
            and turns
            and once
            and all(abs(v[i]) < abs(v[i - 1]) for i in turns)
        ):
            return column
    return None


def _names_phases(column: HeaderColumn, texts: Sequence[str]) -> bool:
    """Whether a column that could be of directions holds other words: "Phase" over "warm-up" and "test"."""
    words = set(texts)
    return column.role == "direction" and not any(direction_among(word, words) for word in words)


def _whole_texts(table: ParsedTable, column: HeaderColumn) -> list[str]:
    """Return the whole numbers of a column that says nothing known, as texts; none where it is no such column."""
    x = table.values.get(column.index)
    whole = x is not None and not column.known and bool(np.all(np.round(x) == x))
    return [f"{n:g}" for n in x] if x is not None and whole else []


def cell_clicks(name: str, cell: str) -> dict[str, int]:
    """Return the clicks that a cell states, by itself or under a name such as "Comp/Reb clicks"."""
    if found := clicks_of(cell) or (clicks_of(f"{cell} {name}") if "/" in name and doubted_clicks(cell) else {}):
        return found  # the name may say in which order a cell has low and high speed
    if plain(name) in ONE_KNOB and (one := re.fullmatch(rf"(\d{{1,2}})(?:\s*(?:{CLICK_WORD}|out|open))*", plain(cell))):
        return {"cr": int(one[1])}
    adjusters = [adjuster_of(plain(part)) for part in re.split(r"[/,;-]", name)]
    numbers = re.findall(r"\d{1,2}", cell)
    if len(adjusters) < 2 or None in adjusters or len(numbers) != len(adjusters):
        return {}
    return {a: int(n) for a, n in zip(adjusters, numbers, strict=True) if a}
