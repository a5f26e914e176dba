"""A trace's column of speed that is none of the motion: the rig's set speed, or a magnitude beside directions."""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from dynoan.errors import ReadError
from dynoan.model.arrays import FloatArray
from importers.assumptions.parts import HELD_SAMPLES, STILL_ROWS, THERE_AND_BACK
from importers.header import HeaderColumn
from importers.tables import Extent, ParsedTable
from importers.words.directions import direction_among

_SIGN = {"compression": 1.0, "rebound": -1.0}


def without_set_speed(table: ParsedTable) -> ParsedTable:
    """Return a trace without its one column of speed where that is no sample of the motion, else the table.

    Displacement over time says how fast the shock moves. A speed that stands still over each stretch of the motion is
    what the rig was set to, one that is never negative while the shock goes there and back a magnitude.
    """
    if "velocity" in table.options.columns or not all(_columns(table, c) for c in ("displacement", "time", "force")):
        return table
    speeds = _columns(table, "velocity")
    if len(speeds) != 1:
        return table
    (one,) = speeds
    v = table.values[one.index]
    extent = table.extents.of(v)
    if _is_held(v, extent):
        said = f"'{one.text}' stands still while the shock moves: taken as the speed the rig was set to, and left out"
    elif _is_magnitude(v, extent, table):
        said = f"'{one.text}' is a magnitude, of no direction: left out, since displacement over time gives both"
    else:
        return table
    columns = tuple(replace(c, channel=None, role=None) if c is one else c for c in table.columns)
    return replace(table, columns=columns, warnings=(*table.warnings, said))


def with_signed_speed(table: ParsedTable, name: str) -> ParsedTable:
    """Return a trace whose speed is a magnitude with the sign of each row's direction, else the table.

    Raises
    ------
    ReadError
        If force is a magnitude too: which way it acts near no speed, where gas may outweigh damping, cannot be told.
    """
    way = next((c for c in table.columns if c.role == "direction" and c.index in table.texts), None)
    speeds, forces = _columns(table, "velocity"), _columns(table, "force")
    if way is None or len(speeds) != 1 or len(forces) != 1 or not _columns(table, "time") or table.rows < STILL_ROWS:
        return table
    texts = table.texts[way.index]
    signs = {text: _SIGN.get(direction_among(text, set(texts)) or "") for text in set(texts)}
    v, force = table.values[speeds[0].index], table.values[forces[0].index]
    if set(signs.values()) != {1.0, -1.0} or float(np.nanmin(v)) < 0:
        return table
    sign = np.array([signs[text] for text in texts])
    if float(np.nanmin(force)) >= 0 and _rises(v[sign < 0], force[sign < 0]):
        raise ReadError(
            f"'{forces[0].text}' is a magnitude, and '{way.text}' tells the way of the motion, not of the force",
            where=name,
            hint="export force with its sign: near no speed, where gas may outweigh damping, it cannot be told",
        )
    said = f"'{speeds[0].text}' is a magnitude: it was given the direction that '{way.text}' says of each row"
    signed = replace(speeds[0], worked_out=True, positive="compression")
    turned = {signed.index: signed, way.index: replace(way, role=None)}
    columns = tuple(turned.get(c.index, c) for c in table.columns)
    return replace(
        table, columns=columns, values={**table.values, speeds[0].index: v * sign}, warnings=(*table.warnings, said)
    )


def _columns(table: ParsedTable, channel: str) -> list[HeaderColumn]:
    return [c for c in table.columns if c.channel == channel and c.index in table.values]


def _rises(v: FloatArray, force: FloatArray) -> bool:
    """Whether force grows with speed, as its magnitude does in rebound; a gas force that outweighs damping falls."""
    both = np.isfinite(v) & np.isfinite(force)
    if both.sum() < 2 or np.ptp(v[both]) == 0 or np.ptp(force[both]) == 0:
        return True
    return float(np.corrcoef(v[both], force[both])[0, 1]) > 0


def _is_held(speed: FloatArray, extent: Extent) -> bool:
    """Whether a speed that never changes its sign keeps each value over many rows."""
    if extent.low < 0 < extent.high:
        return False  # as nearly all do, without a look at each sample
    v = speed[np.isfinite(speed)]
    if len(v) < STILL_ROWS or (v.min() < 0 < v.max()):
        return False
    return int(np.count_nonzero(np.diff(v))) + 1 <= len(v) / HELD_SAMPLES


def _is_magnitude(speed: FloatArray, extent: Extent, table: ParsedTable) -> bool:
    """Whether a speed is never negative while the displacement goes there and back, and no row says which way."""
    if not len(speed) or extent.low < 0 or any(c.role == "direction" for c in table.columns):
        return False
    x = table.values[_columns(table, "displacement")[0].index]
    ways = np.sign(np.diff(x[np.isfinite(x) & np.isfinite(speed)]))
    back, there = int((ways < 0).sum()), int((ways > 0).sum())
    return min(back, there) > THERE_AND_BACK * max(back, there, STILL_ROWS)
