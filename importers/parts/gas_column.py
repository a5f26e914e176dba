"""A column of the gas pressure that each run was set to: "Air (psi)" beside the clicks, not one that was recorded."""

from __future__ import annotations

from collections.abc import Mapping

import numpy as np

from dynoan.model.arrays import FloatArray
from importers.header import HeaderColumn, spaced
from importers.tables import ParsedTable
from importers.words.spelling import plain, word_set
from importers.words.unit_text import is_unit, scale_of

#: one of these says without a unit that a column is of gas
GASES = word_set(
    "gas, n2, air, reservoir, canister, precharge, ifp, nitrogen, gasdruck, stickstoff, azote, azoto, nitrogeno, gaz,"
    " pgas"
)
#: one of these says that a pressure is the shock's gas
_OF_GAS = GASES | word_set(
    "res, charge, bladder, luft, luftdruck, aria, aire, druck, pression, presion, pressione, pressure, press, p"
)
#: and one of these that it is another's
_OF_ANOTHER = word_set(
    "spring, springs, tyre, tyres, tire, tires, reifen, pneu, line, supply, pump, hydraulic, hydraulik, atm, ambient,"
    " barometric, barometer, room, brake, chamber, feder, luftfeder, airspring, oil, ol"
)


def is_gas(column: HeaderColumn) -> bool:
    """Whether a column's name is that of the shock's gas pressure, in a unit of one."""
    return is_unit(column.unit, "pressure") and names_gas(column.text)


def names_gas(text: str) -> bool:
    """Whether a column's name says gas pressure, its unit aside.

    >>> [names_gas(t) for t in ("Air (psi)", "Reservoir psi", "Air spring (psi)", "Tyre psi", "Gas", "Bump (N)")]
    [True, True, False, False, True, False]
    """
    words = {*plain(spaced(text)).replace(".", " ").split()}
    return bool(words & _OF_GAS) and not words & _OF_ANOTHER


def set_by_run(column: HeaderColumn, table: ParsedTable) -> bool:
    """Whether a table's gas pressure changes just where its speeds start again: it was set for each run."""
    speed = next((c for c in table.columns if c.channel == "velocity" and c.index in table.values), None)
    x = table.values.get(column.index)
    if speed is None or x is None or not is_gas(column) or not bool(np.isfinite(x).all()):
        return False
    v = np.abs(table.values[speed.index])
    turns = np.flatnonzero(np.diff(x) != 0) + 1
    return len(turns) > 0 and bool(np.all(v[turns] < v[turns - 1]))


def pressure_of(column: HeaderColumn, number: float) -> float:
    """Return a column's number as a pressure. [Pa]"""
    return float(scale_of(column.unit, "pressure").si(np.array([number * column.factor]))[0])


def one_pressure(column: HeaderColumn | None, values: Mapping[int, FloatArray]) -> float | None:
    """Return the one gas pressure in a run's rows; None where the column holds none, or was recorded. [Pa]"""
    x = values.get(column.index) if column is not None and is_gas(column) else None
    if column is None or x is None or not (held := x[np.isfinite(x)]).size or np.ptp(held):
        return None
    return pressure_of(column, float(held[0]))
