"""Keys that stand in the first of their rows alone, as where cells are joined: carried down to the rows below."""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from dynoan.model.adjusters import ADJUSTERS
from dynoan.model.arrays import BoolArray
from importers.tables import ParsedTable, is_day_column

_KEYS = frozenset(("shock", "pack", "run", *ADJUSTERS))


def with_keys_carried(table: ParsedTable) -> ParsedTable:
    """Return the table with each blank cell of its keys as the one above; the table where they are blank apart."""
    words = [c.index for c in table.columns if c.index in table.texts and (c.role in _KEYS or is_day_column(c))]
    numbers = [c.index for c in table.columns if c.index in table.values and c.role in _KEYS]
    blank = _blank_alike(
        [*(np.array([not t.strip() for t in table.texts[i]]) for i in words),
         *(np.isnan(table.values[i]) for i in numbers)]
    )  # fmt: skip
    if blank is None:
        return table
    above = np.maximum.accumulate(np.where(blank, 0, np.arange(len(blank))))
    texts = {i: [table.texts[i][k] for k in above] for i in words}
    return replace(
        table, texts={**table.texts, **texts}, values={**table.values, **{i: table.values[i][above] for i in numbers}}
    )


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


def _blank_alike(blanks: list[BoolArray]) -> BoolArray | None:
    """Return which rows hold no keys where all keys leave out the same rows, not the first; else None."""
    some = [b for b in blanks if len(b) and not b.all()]
    if len(some) < 2 or some[0][0] or not some[0].any():
        return None
    return some[0] if all(np.array_equal(b, some[0]) for b in some[1:]) else None
