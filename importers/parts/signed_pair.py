"""Two columns of force, "F+" and "F-" or "Fmax" and "Fmin": a row's extremes, whose directions the gas may tell."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

import numpy as np

from dynoan.model.arrays import FloatArray
from importers.assumptions.parts import EXTREMES_APART, EXTREMES_ROWS, GAS_MOSTLY, GAS_OF_SPAN
from importers.header import HeaderColumn
from importers.patterns import regex
from importers.tables import ParsedTable
from importers.words.spelling import plain

_UPPER = regex(r"\+|(?<![a-z])(?:max|maximum|maximal|peak max|pos|positive|positiv)(?![a-z])|(?<=\bf)max")
_LOWER = regex(
    r"(?<=\w)\s?[-−–](?=\s*(?:[\[(]|$)|\s\w{1,3}$)"
    r"|(?<![a-z])(?:min|minimum|minimal|neg|negative|negativ)(?![a-z])|(?<=\bf)min"
)


def with_signed_pair(table: ParsedTable) -> ParsedTable:
    """Return a table whose two columns of a row's highest and lowest force are its two directions, else it.

    Which is which follows from what the user says is positive, else from the gas, which pushes out where nothing moves;
    else positive is taken as compression. Either is said.
    """
    speed = next((c for c in table.columns if c.channel == "velocity" and c.index in table.values), None)
    forces = [c for c in table.columns if c.index in table.values and c.channel == "force" and not c.direction]
    pair = _pair(forces)
    if pair is None or speed is None or table.options.columns or any(c.channel == "time" for c in table.columns):
        return table
    upper, lower = pair
    high, low, v = (table.values[c.index] for c in (upper, lower, speed))
    ok = np.isfinite(high) & np.isfinite(low) & np.isfinite(v)
    if ok.sum() < EXTREMES_ROWS or np.mean((high > 0) & (low < 0), where=ok) < EXTREMES_APART:
        return table
    slow = np.argsort(np.abs(v[ok]), kind="stable")[:2]
    middles = 0.5 * (high[ok] + low[ok])[slow]
    ways, why = _ways(table.options.positive, np.abs(v[ok])[slow], middles, float(np.max((high - low)[ok])))
    said = f"'{upper.text}' and '{lower.text}' were taken as the forces of {ways[0]} and {ways[1]}: {why}"
    turned = {upper.index: ways[0], lower.index: ways[1]}
    columns = tuple(
        replace(c, direction=turned[c.index], role=None, lesser=False, by_unit=False) if c.index in turned else c
        for c in table.columns
    )
    return replace(table, columns=columns, warnings=(*table.warnings, said))


def _pair(forces: Sequence[HeaderColumn]) -> tuple[HeaderColumn, HeaderColumn] | None:
    """Return the columns of the highest and of the lowest force where there is one each, called alike otherwise."""
    upper = [c for c in forces if _UPPER.search(_name(c)) and not _LOWER.search(_name(c))]
    lower = [c for c in forces if _LOWER.search(_name(c)) and not _UPPER.search(_name(c))]
    if len(upper) != 1 or len(lower) != 1 or upper[0].unit != lower[0].unit:
        return None
    rest = {plain(_UPPER.sub("", _LOWER.sub("", _name(c)))).strip() for c in (upper[0], lower[0])}
    return (upper[0], lower[0]) if len(rest) == 1 else None


def _name(column: HeaderColumn) -> str:
    return column.text.lower().strip()


def _ways(stated: str | None, speeds: FloatArray, middles: FloatArray, span: float) -> tuple[tuple[str, str], str]:
    """Return the directions of the positive and of the negative force, and why.

    Parameters
    ----------
    stated
        Which direction the user says is positive.
    speeds, middles
        Speed, and half the sum of both forces, of the two slowest rows, in the file's units, shape (2,).
    span
        The largest force less the lowest, in the same unit.
    """
    both, turned = ("compression", "rebound"), ("rebound", "compression")
    if stated is not None:
        return (both if stated == "compression" else turned), f"{stated} is positive, as you say"
    first = float(middles[0])
    run = float(speeds[1] - speeds[0])
    # What is left at no speed is gas; a rebound that damps more pulls the middle down the more, the faster it goes.
    rest = first - float(speeds[0]) * float(middles[1] - middles[0]) / run if run > 0 else first
    why = f"where nothing moves their middle is about {rest:+.3g}"
    if rest > GAS_OF_SPAN * span:
        return both, f"{why}, as gas pushes out"
    if rest < -GAS_OF_SPAN * span and abs(rest) > GAS_MOSTLY * abs(first):
        return turned, f"{why}, and gas pushes out"
    return both, "assumed, as nothing tells; if rebound is positive, say --positive rebound"
