"""Rows that a column of states calls no measurement: "ERR", "OL", "CAL", "ZERO" beside rows that are "ok" or "RUN"."""

from __future__ import annotations

import numpy as np

from importers.assumptions.tables import FAULTY_SHARE
from importers.header import HeaderColumn
from importers.tables.table import ParsedTable
from importers.words.spelling import plain, word_set

_STATES = word_set("state, status, flag, flags, mode, quality, valid, validity, zustand, modus, etat, estado, stato")
_FAULTY = word_set(
    "err, error, fault, faulty, invalid, bad, nok, not ok, fail, failed, ol, over, overload, overrange, sat, saturated,"
    " zero, zeroing, tare, shunt, cal, calib, calibration, fehler, ungultig, erreur, errore, idle, standby"
)


def is_state_column(column: HeaderColumn) -> bool:
    """Whether a column is called a state of each row."""
    return bool({*plain(column.text).split()} & _STATES)


def without_faulty_rows(table: ParsedTable) -> ParsedTable:
    """Return the table without rows whose state says that nothing was measured, with a warning; else the table."""
    for column in table.columns:
        states = table.texts.get(column.index)
        if not states or not is_state_column(column):
            continue
        faulty = {cell: plain(cell) in _FAULTY for cell in dict.fromkeys(states)}
        keep = np.array([not faulty[cell] for cell in states])
        count = len(keep) - int(keep.sum())
        if not 0 < count < FAULTY_SHARE * len(keep):
            continue
        names = ", ".join(f"'{cell}'" for cell, bad in faulty.items() if bad)
        said = f"{count} of {len(keep)} rows are called {names} in '{column.text}' and were left out"
        return table.kept(keep, said)
    return table
