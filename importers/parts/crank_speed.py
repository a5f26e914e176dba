"""Peak speeds of a crank: a table that states turns a minute or cycles a second, and the stroke, instead of speeds."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from dataclasses import replace
from typing import NamedTuple

import numpy as np

from dynoan.errors import QuantityError
from dynoan.model.arrays import FloatArray
from dynoan.units import FACTORS
from importers.header import HeaderColumn
from importers.patterns import regex
from importers.stated import StatedFacts, quantity
from importers.tables import ParsedTable
from importers.words.spelling import plain
from importers.words.unit_text import scale_of

_TURNS = regex(
    r"\b(?:rpm|drehzahl|u/min|1/min|tr/min|cpm|cycles/min|cycles per minute|giri|regime|rev"
    r"|o/min|omdr(?:/min)?|omw/min|toeren(?:/min)?|varv/min|dev/dak|devir|obr/min|ob/min|ot/min|ford/perc|об/мин|rot/min"
    r"|r/min|k/min|turns/min|vueltas/min|volte/min|rotacoes|转/分|転/分|回転数|转速)(?!\w)"
)
_CYCLES = regex(r"\b(?:frequency|freq|frequenz|frequence|frecuencia|frequenza|hz|frequencia|frekvens)\b")
_AMPLITUDE = regex(r"\b(?:amplitude|ampl|amp|amplitud|ampiezza)\b")
_STROKE = regex(r"\b(?:stroke|hub|course|carrera|corsa)\b")
_ROD_RATIO = regex(r"(?i)\b(?:con)?rod[\s-]*(?:to[\s-]*crank[\s-]*)?ratio\D{0,5}(\d+(?:\.\d+)?)")
#: "Pleuellänge: 125 mm", "connecting rod 150 mm"
_ROD_LENGTH = regex(
    r"(?i)\b(?:con(?:necting)?[\s-]*rod|pleuel(?:stange)?|bielle|biela|biella|drijfstang|vevstake)(?:[\s-]*"
    r"(?:l[aä]nge|length|longueur|longitud|lunghezza|lengte|l[aä]ngd))?[^\d\n]{0,12}(?P<length>\d+(?:[.,]\d+)?\s*(?:mm|cm|m|in)\b)"
)
_PER_MINUTE = FACTORS["frequency"]["rpm"]


class _Crank(NamedTuple):
    hertz: FloatArray  #: turns a second, shape (rows,) [Hz]
    radius: FloatArray | float  #: half the stroke [m]
    column: HeaderColumn  #: which gives the turns


def with_crank_speed(table: ParsedTable, facts: StatedFacts) -> ParsedTable:
    """Return a table whose turns or cycles and stroke are peak speeds in a column of their own, else the table."""
    if any(c.channel in ("velocity", "time") for c in table.columns) or "velocity" in table.options.columns:
        return table
    crank = _crank(table, facts)
    if crank is None:
        return table
    ratio = rod_ratio((*table.own, *table.shared), crank.radius)
    speed = 2 * np.pi * crank.hertz * crank.radius * (_rod_factor(ratio) if ratio else 1.0)
    index = max(*table.values, table.grid.width) + 1
    how = f"a crank of rod ratio {ratio:g}" if ratio else "a sine crank (no rod ratio is stated)"
    said = f"velocity is the peak speed of {how}, from '{crank.column.text}' and {_stroke_said(crank.radius)}"
    said += doubt_of_stroke(facts) if isinstance(crank.radius, float) else ""
    kept = tuple(replace(c, channel=None) if _names(c, _STROKE) or _names(c, _AMPLITUDE) else c for c in table.columns)
    new = HeaderColumn(index, crank.column.text, unit="m/s", channel="velocity", worked_out=True)
    return replace(table, columns=(*kept, new), values={**table.values, index: speed}, warnings=(*table.warnings, said))


def _stroke_said(radius: FloatArray | float) -> str:
    """Return the stroke in words: the one of all rows, or that it stands in a column."""
    one = {*np.unique(radius).tolist()}
    return f"the stroke of {2e3 * one.pop():.5g} mm" if len(one) == 1 else "the stroke"


def doubt_of_stroke(facts: StatedFacts) -> str:
    """Return what is to be said of a stroke that the shock's own may be; empty of another."""
    stroke = facts.of_stroke
    if stroke is None or stroke.doubt < 2:
        return ""
    return f"; if '{stroke.said}' is the shock's stroke, add the rig's as a line 'Crank stroke: … mm'"


def _crank(table: ParsedTable, facts: StatedFacts) -> _Crank | None:
    turns = next((c for c in table.columns if c.index in table.values and _names(c, _TURNS)), None)
    cycles = next((c for c in table.columns if c.index in table.values and _names(c, _CYCLES)), None)
    column = turns or cycles
    radius = _radius(table, facts)
    if column is None or radius is None:
        return None
    return _Crank(table.values[column.index] * (_PER_MINUTE if turns else 1.0), radius, column)


def _radius(table: ParsedTable, facts: StatedFacts) -> FloatArray | float | None:
    """Return half the stroke, as a column or a line states it. [m]"""
    for pattern, share in ((_AMPLITUDE, 1.0), (_STROKE, 0.5)):
        for column in table.columns:
            if column.index in table.values and _names(column, pattern) and (column.unit or column.unknown_unit):
                try:
                    factor = scale_of(column.unit or column.unknown_unit, "length").factor
                except QuantityError:
                    continue
                return share * factor * table.values[column.index]
    return None if facts.stroke is None else 0.5 * facts.stroke


def _names(column: HeaderColumn, pattern: re.Pattern[str]) -> bool:
    return pattern.search(plain(column.text)) is not None


def rod_ratio(lines: Iterable[str], radius: FloatArray | float) -> float | None:
    """Return rod length over crank radius [m], where lines state it or the rod's length beside a radius of all rows."""
    lines = tuple(lines)
    found: Sequence[str] = [m[1] for line in lines if (m := _ROD_RATIO.search(line))]
    if found:
        return float(found[0]) if float(found[0]) > 1 else None
    lengths = {m["length"].replace(",", ".") for line in lines if (m := _ROD_LENGTH.search(line))}
    radii = set(np.unique(radius).tolist())
    if len(lengths) != 1 or len(radii) != 1:
        return None
    length, one = quantity(lengths.pop(), "length", "."), float(radii.pop())
    return length / one if length and one > 0 and length > one else None


def _rod_factor(ratio: float) -> float:
    """Return the peak speed of a slider crank over that of a sine, for rod length over crank radius (kinematics)."""
    angle = np.linspace(0.0, np.pi, 2001)
    return float(np.max(np.sin(angle) + np.sin(2 * angle) / (2 * np.sqrt(ratio**2 - np.sin(angle) ** 2))))
