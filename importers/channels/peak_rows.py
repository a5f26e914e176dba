"""The rows of a peak table with one force column: signed, or each with a word for its direction."""

from __future__ import annotations

from collections.abc import Mapping
from typing import NamedTuple

import numpy as np

from dynoan.errors import ReadError
from dynoan.model.arrays import BoolArray, FloatArray
from dynoan.model.sweep import ChannelDecision
from importers.assumptions.channels import GAS_LEAVES, SAME_SPEED, UNDIRECTED_SHARE
from importers.channels.needed import unknown_force_unit
from importers.channels.sign import ASSUMED
from importers.channels.units import measured
from importers.header import HeaderColumn
from importers.parts import SweepPart
from importers.words.directions import SIGNS, direction_among


class PeakRows(NamedTuple):
    """Velocity and force of a peak table in SI, signed, with how they became so."""

    velocity: FloatArray  #: shape (rows,) [m/s]
    force: FloatArray  #: shape (rows,) [N]
    decisions: Mapping[str, ChannelDecision]
    warnings: tuple[str, ...] = ()
    directed: bool = True  #: whether the file names the direction of each force, so that none is to be stated


class _SignedRows(NamedTuple):
    """Velocity and force with signs, what the file's were multiplied by, and why."""

    velocity: FloatArray
    force: FloatArray
    turn_velocity: int
    turn_force: int
    why: str
    warnings: tuple[str, ...] = ()
    directed: bool = False


def rows_of_column(part: SweepPart) -> PeakRows:
    """Return the rows of one force column that are signed, or say their direction.

    Raises
    ------
    ReadError
        If there is no force column, a unit is missing, or no row says its direction.
    """
    speed, column = part.roles.channels["velocity"], part.roles.channels.get("force")
    if column is None:
        raise ReadError(
            f"no force column{unknown_force_unit(part)}; the columns are: {part.column_names}",
            where=part.name,
            hint="name one with --column force=NAME",
        )
    v, f = measured(part, "velocity", speed), measured(part, "force", column)
    rows = _signed(part, v.values, f.values)
    return PeakRows(
        rows.velocity,
        rows.force,
        {
            "velocity": ChannelDecision(speed.shown, v.found.unit, rows.turn_velocity, f"{v.found.why}; {rows.why}"),
            "force": ChannelDecision(column.shown, f.found.unit, rows.turn_force, f"{f.found.why}; {rows.why}"),
        },
        (*v.warnings, *f.warnings, *rows.warnings),
        rows.directed,
    )


def _signed(part: SweepPart, v: FloatArray, f: FloatArray) -> _SignedRows:
    key = part.roles.keys.get("direction")
    if key is not None:
        down, known, unsaid = _by_signs(part, key) or _directions(part, key)
        velocity = np.where(down, -np.abs(v), np.abs(v))
        velocity[~known] = np.nan
        why = f"column '{key.text}' names the direction"
        return _SignedRows(velocity, _by_direction(f, down), 1, 1, why, unsaid, directed=True)
    if part.direction is not None and not (v < 0).any():
        down = np.full(len(v), part.direction == "rebound")
        why = f"the line above says {part.direction}"
        return _SignedRows(np.where(down, -v, v), _by_direction(f, down), 1, 1, why, directed=True)
    if part.named_way is not None and _said(part) is None and not _has_signs(v) and not _has_signs(f):
        why = f"the name says {part.named_way}"
        said = f"nothing in it says of which direction the forces are: taken as {part.named_way}, as its name says"
        velocity = -np.abs(v) if part.named_way == "rebound" else np.abs(v)
        down = np.full(len(v), part.named_way == "rebound")
        return _SignedRows(velocity, _by_direction(f, down), 1, 1, why, (said,), directed=True)
    return _by_evidence(part, v, f)


def _has_signs(x: FloatArray) -> bool:
    """Whether numbers stand there of both signs."""
    return bool((x < 0).any() and (x > 0).any())


def _by_signs(part: SweepPart, key: HeaderColumn) -> tuple[BoolArray, BoolArray, tuple[str, ...]] | None:
    """Return as `_directions` of a column of signs, plus as the file or the user says; None of another."""
    numbers = part.values.get(key.index)
    if numbers is not None and set(np.unique(numbers)) == {-1.0, 1.0}:
        words = ["+" if n > 0 else "-" for n in numbers]
    else:
        words = part.texts.get(key.index, [])
    if not words or not set(words) <= SIGNS:
        return None
    said = _said(part)
    down = np.array([(word != "+") != (said == "rebound") for word in words])
    return down, np.ones(len(words), dtype=bool), () if said else (f"'{key.text}' does not say what '+' is: {ASSUMED}",)


def _directions(part: SweepPart, key: HeaderColumn) -> tuple[BoolArray, BoolArray, tuple[str, ...]]:
    """Return which rows are rebound, which rows say so at all, and the warning of those that do not."""
    words = part.texts.get(key.index) or [str(v) for v in part.values.get(key.index, [])]
    meaning = {word: direction_among(word, set(words)) for word in set(words)}
    ways = [meaning[word] for word in words]
    odd = [word for word, way in zip(words, ways, strict=True) if way is None and word.strip()]
    if not any(ways) or len(odd) > UNDIRECTED_SHARE * len(words):
        raise ReadError(
            f"'{(odd or words)[0]}' names no direction",
            where=f"{part.name}, column '{key.text}'",
            hint="wanted compression or rebound",
        )
    unsaid = f"{len(odd)} rows say '{odd[0]}' in '{key.text}', which names no direction: left out" if odd else ""
    known = np.array([w is not None for w in ways])
    return np.array([w == "rebound" for w in ways]), known, (unsaid,) if unsaid else ()


def falls_as_gas_outweighs(speed: FloatArray, force: FloatArray) -> bool:
    """Whether rebound forces, none below zero, fall from row to row as speed rises: gas less damping, with its sign."""
    ok = np.isfinite(speed) & np.isfinite(force)
    falling = force[ok][np.argsort(speed[ok], kind="stable")]
    steps = np.diff(falling)
    return len(steps) >= 2 and bool((steps < 0).all()) and float(falling[-1]) < GAS_LEAVES * float(falling[0])


def _by_direction(force: FloatArray, down: BoolArray) -> FloatArray:
    """Return forces that are negative in rebound, whether the file gives magnitudes or signed values."""
    out = force.copy()
    for rows, want in ((~down, 1), (down, -1)):
        there = force[rows & np.isfinite(force)]
        if len(there) and there[np.argmax(np.abs(there))] * want < 0:
            out[rows] = -force[rows]
    return out


def _by_evidence(part: SweepPart, v: FloatArray, f: FloatArray) -> _SignedRows:
    """Return rows whose signs are the file's, turned so that compression is positive and damping resists."""
    said = _said(part)
    turn = -1 if said == "rebound" else 1
    why = f"stated: {said} is positive" if said else "assumed: compression is positive"
    warnings = () if said else (f"nothing says which direction is positive: {ASSUMED}",)
    if _signs_in_force(v, f):
        why += "; speeds have no sign, so that of force tells the direction"
        return _SignedRows(np.where(f < 0, -v, v) * turn, turn * f, turn, turn, why, warnings)
    down, up = _force_at_fastest(v, f, -1), _force_at_fastest(v, f, 1)
    if down is not None and up is not None and down > 0 and up > 0:
        force = np.where(v < 0, -f, f)
        return _SignedRows(turn * v, turn * force, turn, turn, f"{why}; forces are magnitudes", warnings)
    follows = -1 if (up or 0.0) - (down or 0.0) < 0 else 1
    if follows < 0:
        why += "; force and velocity count opposite ways, as damping must act against the motion"
    force_said = "force" in part.said or _of_column(part, "force") is not None
    velocity_said = "velocity" in part.said or _of_column(part, "velocity") is not None
    lead_force = force_said and not velocity_said and not part.table.options.positive
    turn_v, turn_f = (turn * follows, turn) if lead_force else (turn, turn * follows)
    return _SignedRows(turn_v * v, turn_f * f, turn_v, turn_f, why, warnings)


def _signs_in_force(v: FloatArray, f: FloatArray) -> bool:
    """Whether speeds without sign stand there with forces of both signs, as many of either at the same speeds."""
    ok = np.isfinite(v) & np.isfinite(f) & (v > 0)
    up, down = np.sort(v[ok & (f > 0)]), np.sort(v[ok & (f < 0)])
    same = len(up) == len(down) >= 2 and bool(np.allclose(up, down, rtol=SAME_SPEED))
    return not (v < 0).any() and same


def _said(part: SweepPart) -> str | None:
    """Return which direction is said to be positive, by the user, in the lines or in a column's name."""
    stated = (part.said[k] for k in ("velocity", "all", "force") if k in part.said)
    named = _of_column(part, "velocity") or _of_column(part, "force")
    return part.table.options.positive or next(stated, None) or named


def _of_column(part: SweepPart, channel: str) -> str | None:
    """Return which direction a channel's column says is positive, "Velocity (+ = extension)"."""
    column = part.roles.channels.get(channel)
    return None if column is None else column.positive


def _force_at_fastest(v: FloatArray, f: FloatArray, way: int) -> float | None:
    """Return the force of the fastest row of one direction, 1 up and -1 down; None where there is none."""
    rows = np.isfinite(v) & np.isfinite(f) & (way * v > 0)
    return float(f[rows][np.argmax(np.abs(v[rows]))]) if rows.any() else None
