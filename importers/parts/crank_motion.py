"""Travel of a crank: a trace that gives the crank's angle instead of displacement, with the stroke stated beside it."""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from dynoan.model.arrays import FloatArray
from importers.header import HeaderColumn
from importers.parts.crank_speed import doubt_of_stroke, rod_ratio
from importers.patterns import regex
from importers.stated import StatedFacts, stated_motions
from importers.tables import ParsedTable
from importers.words.spelling import plain

_ANGLE = regex(r"\b(?:angle|winkel|kurbelwinkel|drehwinkel|angulo|ang|degrees?|deg|grad|phi|theta|kulma|crank)\b")
_DEGREES = regex(r"\b(?:deg|degrees?|grad|°|grados|graus|gradi|kw)\b|°")
_TURNS = regex(r"(?i)(\d+(?:[.,]\d+)?)\s*(?:rpm|u/min|1/min|min-1|tr/min|giri/min|r/min)\b")
_WHOLE = 360.0  #: [°]


def with_crank_travel(table: ParsedTable, facts: StatedFacts) -> ParsedTable:
    """Return a table whose crank angle is travel in a column of its own, and time where turns a minute are stated."""
    if facts.stroke is None or any(c.channel in ("displacement", "velocity") for c in table.columns):
        return table
    angle = _angle(table)
    if angle is None:
        return table
    turned = np.unwrap(table.values[angle.index], period=_WHOLE)
    ratio = rod_ratio((*table.own, *table.shared), 0.5 * facts.stroke)
    index = max(*table.values, table.grid.width) + 1
    how = f"a crank of rod ratio {ratio:g}" if ratio else "a sine crank (no rod ratio is stated)"
    told = f"the stroke of {1e3 * facts.stroke:.5g} mm, with a dead centre at 0°{doubt_of_stroke(facts)}"
    said = f"displacement is the travel of {how}, from '{angle.text}' and {told}"
    new = HeaderColumn(index, angle.text, unit="m", channel="displacement", worked_out=True)
    values = {**table.values, index: _travel(np.radians(turned), 0.5 * facts.stroke, ratio)}
    columns = (*(replace(c, channel=None) if c is angle else c for c in table.columns), new)
    return replace(table, columns=columns, values=values, warnings=(*table.warnings, said))


def with_crank_time(table: ParsedTable, facts: StatedFacts) -> ParsedTable:
    """Return a table without time whose crank angle is time in a column of its own, where its turns are stated."""
    timed = facts.rate or table.options.rate or any(c.channel in ("time", "velocity") for c in table.columns)
    angle = None if timed else _angle(table)
    hertz = None if angle is None else _hertz(table, facts)
    if angle is None or not hertz:
        return table
    turned = np.unwrap(table.values[angle.index], period=_WHOLE)
    index = max(*table.values, table.grid.width) + 1
    new = HeaderColumn(index, angle.text, unit="s", channel="time", worked_out=True)
    said = f"time is from '{angle.text}' and the {60 * hertz:g} turns a minute that are stated"
    columns = (*(replace(c, channel=None) if c is angle else c for c in table.columns), new)
    values = {**table.values, index: np.abs(turned - turned[0]) / _WHOLE / hertz}
    return replace(table, columns=columns, values=values, warnings=(*table.warnings, said))


def _angle(table: ParsedTable) -> HeaderColumn | None:
    """Return the column of a crank's angle."""
    there = (c for c in table.columns if c.index in table.values and not c.worked_out)
    return next((c for c in there if _is_angle(c)), None)


def _is_angle(column: HeaderColumn) -> bool:
    name = plain(column.text)
    return _ANGLE.search(name) is not None and (_DEGREES.search(name) is not None or "°" in column.unknown_unit)


def _travel(angle: FloatArray, radius: float, ratio: float | None) -> FloatArray:
    """Return how far a slider crank has moved from its dead centre at 0. [m]

    Parameters
    ----------
    angle
        Shape (samples,). [rad]
    radius
        Half the stroke. [m]
    ratio
        Rod length over radius; None for a sine.
    """
    rod = 0.0 if ratio is None else radius * (ratio - np.sqrt(ratio**2 - np.sin(angle) ** 2))
    return np.asarray(radius * (1 - np.cos(angle)) + rod)


def _hertz(table: ParsedTable, facts: StatedFacts) -> float | None:
    """Return the turns a second that one line states. [Hz]"""
    if (said := stated_motions(facts.lines, table.grid.decimal).frequency) is not None:
        return said.amount
    found = {float(m[1].replace(",", ".")) for line in (*table.own, *table.shared) for m in _TURNS.finditer(line)}
    return found.pop() / 60 if len(found) == 1 else None
