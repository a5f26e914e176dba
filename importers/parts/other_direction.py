"""Two columns of force beside one of speed: where one names its direction, the other can only be the other one."""

from __future__ import annotations

import re
from dataclasses import replace

import numpy as np

from dynoan.model.arrays import FloatArray
from importers.assumptions.parts import OTHER_RISES, OTHER_WITHIN, SAME_QUANTITY
from importers.header import HeaderColumn
from importers.parts.several import BESIDE
from importers.parts.stated_columns import DIRECTIONS
from importers.tables import ParsedTable
from importers.words.adjusters import names_clicks
from importers.words.channels import CHANNEL_WORDS, LESSER, MEANS, OTHER, TOTAL
from importers.words.directions import direction_among
from importers.words.keys import ONE_KNOB
from importers.words.spelling import plain, word_set
from importers.words.unit_text import is_unit

#: words of a force that was not measured in this test, or that stands for no direction
_NOT_MINE = (
    OTHER | LESSER | BESIDE | TOTAL | MEANS
    | word_set(
        "previous, prev, last, old, before, baseline, base, predicted, expected, nominal, hysteresis, hysterese, loss,"
        " offset, preload, vorspannung, zero, breakaway, peak, vorher, alt, avant, precedent, anterior, precedente"
    )
)  # fmt: skip


def with_other_direction(table: ParsedTable) -> ParsedTable:
    """Return a table of peaks whose two force columns are its two directions though not both names say so, else it.

    The names may be a pair ("CD" and "RD"), or one alone is known; that the other is the other direction is said.
    """
    table = _with_thrust(table)
    pair = _pair(table)
    if pair is None:
        return table
    ways = _ways_of_names(*pair)
    if ways is not None:
        said = f"'{pair[0].text}' and '{pair[1].text}' were taken as the forces of {ways[0]} and {ways[1]}"
    else:
        known, open_one = sorted(pair, key=lambda c: c.direction is None)
        if known.direction is None or open_one.direction is not None or _contradicted(known, open_one, table):
            return table
        other = DIRECTIONS[1 - DIRECTIONS.index(known.direction)]
        ways = (pair[0].direction or other, pair[1].direction or other)
        said = (
            f"'{open_one.text}', a word not known here, is taken as the force of {other}: the table's other column of"
            f" forces, '{known.text}', is of {known.direction}"
        )
    turned = {c.index: way for c, way in zip(pair, ways, strict=True)}
    columns = tuple(
        replace(c, channel="force", direction=turned[c.index], role=None, by_unit=False, unit=c.unit or _last_unit(c))
        if c.index in turned
        else c
        for c in table.columns
    )
    return replace(table, columns=columns, warnings=(*table.warnings, said))


def _last_unit(column: HeaderColumn) -> str:
    """Return the unit of force that a name ends with, behind words that are not known: "F_druk_N"."""
    last = re.split(r"[\s_]+", column.text.strip())[-1]
    return last if last != column.text.strip() and is_unit(last, "force") else ""


def _with_thrust(table: ParsedTable) -> ParsedTable:
    """Return a table whose column of pressure by its name, "Druck", is a force where it is one of two directions."""
    ways = {c.direction: c for c in table.columns if c.index in table.values and c.direction and not c.clicks}
    thrust = next((c for c in ways.values() if c.channel == "pressure" and not c.unit), None)
    if thrust is None or len(ways) != 2 or any(c.channel == "force" for c in table.columns):
        return table
    return replace(
        table, columns=tuple(replace(c, channel=None, role=None) if c in ways.values() else c for c in table.columns)
    )


def _pair(table: ParsedTable) -> tuple[HeaderColumn, HeaderColumn] | None:
    """Return the two columns of a table of peaks that could hold forces, where there are two and one speed for both."""
    columns = [c for c in table.columns if c.index in table.values]
    speeds = [c for c in columns if c.channel == "velocity"]
    turns = {c.text for c in speeds if c.worked_out}
    forces = [c for c in columns if _could_be_force(c) and c.text not in turns]
    stated = {"force", *DIRECTIONS} & set(table.options.columns)
    trace = any(c.channel in ("time", "displacement") for c in columns)
    if stated or trace or len(speeds) != 1 or len(forces) != 2 or len({c.unit or _last_unit(c) for c in forces}) > 1:
        return None
    return (forces[0], forces[1]) if not any(c.clicks for c in columns) and not speeds[0].direction else None


def _could_be_force(column: HeaderColumn) -> bool:
    named = column.channel == "force" or (column.direction is not None and column.channel is None)
    unknown = bool(column.text) and not column.known and not column.unit and not _words(column) & (OTHER | ONE_KNOB)
    unknown = unknown and not names_clicks(column.text)
    return not column.lesser and not column.unknown_unit and (named or unknown)


def _words(column: HeaderColumn) -> set[str]:
    behind = f"/{plain(column.unit)}"  # "F_D/N"
    words = [word.removesuffix(behind).strip(".") for word in plain(column.text).split()]
    return {word for word in words if not is_unit(word, "force")}


def _ways_of_names(first: HeaderColumn, second: HeaderColumn) -> tuple[str, str] | None:
    """Return the directions of two names that say none alone and both together, without the words they share."""
    words = (_words(first) - _words(second), _words(second) - _words(first))
    if first.direction or second.direction or any(len(own) != 1 for own in words):
        return None
    one, other = (own.pop() for own in words)
    ways = direction_among(one, {one, other}), direction_among(other, {one, other})
    return (ways[0], ways[1]) if ways[0] and ways[1] and ways[0] != ways[1] else None


def _contradicted(known: HeaderColumn, other: HeaderColumn, table: ParsedTable) -> bool:
    """Whether a column's name or its numbers speak against its being the force of the direction left."""
    words = _words(other)
    if words & _NOT_MINE or not words - CHANNEL_WORDS["force"]:
        return True
    (speed,) = (c for c in table.columns if c.channel == "velocity" and c.index in table.values)
    v, f, beside = (np.abs(table.values[c.index]) for c in (speed, other, known))
    ok = np.isfinite(v) & np.isfinite(f) & np.isfinite(beside)
    if ok.sum() < 3:
        return True
    v, f, beside = v[ok], f[ok], beside[ok]
    share = float(f.max() / max(float(beside.max()), 1e-12))
    copied = bool(np.all(np.abs(f - beside) <= SAME_QUANTITY * beside.max()))
    return copied or not 1 / OTHER_WITHIN <= share <= OTHER_WITHIN or rises(v, f) < OTHER_RISES


def rises(v: FloatArray, f: FloatArray) -> float:
    """Return the rank correlation of force and speed, shape (rows,) each; 0 where either stands still."""
    rank_v, rank_f = (np.argsort(np.argsort(x, kind="stable"), kind="stable").astype(float) for x in (v, f))
    return float(np.corrcoef(rank_v, rank_f)[0, 1]) if np.ptp(v) > 0 and np.ptp(f) > 0 else 0.0
