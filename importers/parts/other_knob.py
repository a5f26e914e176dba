"""Columns of clicks of which one has a word for a direction that is not known here: the other one's is left for it."""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from importers.assumptions.parts import CLICKS_BELOW
from importers.header import HeaderColumn
from importers.tables import ParsedTable
from importers.words.adjusters import names_clicks
from importers.words.keys import ONE_KNOB
from importers.words.spelling import plain

_OTHER = {"c": "r", "r": "c"}
_WAYS = {"c": "compression", "r": "rebound"}


def with_other_knob(table: ParsedTable) -> ParsedTable:
    """Return a table with the adjuster of a column of clicks that is not known, else it with a warning of the column.

    Beside one known knob, of one direction, it can only be the other's.
    """
    unknown = [c for c in table.columns if _is_unknown(c, table)]
    if not unknown or table.options.columns:
        return table
    known = {c.role for c in table.columns if c.role in _WAYS and c.index in table.values}
    if len(unknown) == len(known) == 1:
        (one,), (knob,) = unknown, (_OTHER[str(role)] for role in known)
        said = (
            f"'{one.text}' has a word not known here: taken as the clicks of {_WAYS[knob]}, as the other knob's are of"
            f" {_WAYS[_OTHER[knob]]}"
        )
        columns = tuple(replace(c, role=knob, direction=None) if c is one else c for c in table.columns)
        return replace(table, columns=columns, warnings=(*table.warnings, said))
    asked = tuple(
        f"'{c.text}' are clicks of an adjuster that is not known here: not taken; say which, as --column 'c={c.text}'"
        for c in unknown
    )
    return replace(table, warnings=(*table.warnings, *asked))


def _is_unknown(column: HeaderColumn, table: ParsedTable) -> bool:
    """Whether a column holds click positions under a word for clicks and another one that says nothing known."""
    x = table.values.get(column.index)
    if x is None or column.known or column.unit or not names_clicks(column.text) or plain(column.text) in ONE_KNOB:
        return False
    there = x[np.isfinite(x)]
    return len(there) > 0 and bool(np.all((np.round(there) == there) & (there >= 0) & (there < CLICKS_BELOW)))
