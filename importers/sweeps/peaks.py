"""A peak table: one force per velocity and direction, in two columns, one signed column, or with a direction column."""

from __future__ import annotations

from collections.abc import Mapping

import numpy as np

from dynoan.errors import ReadError
from dynoan.model.arrays import BoolArray, FloatArray
from dynoan.model.sweep import ChannelDecision, Source, Sweep
from importers.channels.scaling import _EXAMPLE, to_si, unit_of
from importers.header.column import Column
from importers.sweeps.trace import Part, make
from importers.words.vocabulary import direction_of, plain

MOST_ROWS = 600
_LEAST_ROWS = 2


def is_peaks(part: Part) -> bool:
    """Whether rows are a table of peaks rather than samples in time."""
    roles = part.roles
    if roles.forces and (roles.speeds or "velocity" in roles.channels):
        return True
    if "velocity" not in roles.channels or "time" in roles.channels or part.rows > MOST_ROWS:
        return False
    if "direction" in roles.keys:
        return True
    if "displacement" in roles.channels and not _one_stroke(part):
        return False
    return tabular(part.values[roles.channels["velocity"].index])


def _one_stroke(part: Part) -> bool:
    x = part.values[part.roles.channels["displacement"].index]
    return bool(np.nanmax(x) == np.nanmin(x)) if len(x) else False


def tabular(velocity: FloatArray) -> bool:
    """Whether velocities are those of a table: in each direction rising or falling steadily, or the same few again."""
    v = velocity[np.isfinite(velocity)]
    for side in (v[v > 0], -v[v < 0]):
        if len(side) < 2:
            continue
        step = np.diff(side)
        if (step > 0).all() or (step < 0).all():
            continue
        if 2 * len(np.unique(side)) > len(side):
            return False
    return len(v) > 0


def read(part: Part, source: Source) -> Sweep:
    """Return a peak table in SI: signed rows, rebound negative.

    Raises
    ------
    ReadError
        If a unit is missing or unknown, or velocity or force is not there.
    """
    warnings: list[str] = [*part.facts.warnings, *part.table.warnings]
    if part.roles.forces:
        v, f, decisions = _by_columns(part, warnings)
    else:
        v, f, decisions = _by_rows(part, warnings)
    ok = np.isfinite(v) & np.isfinite(f)
    v, f = v[ok], f[ok]
    if len(v) < _LEAST_ROWS:
        raise ReadError(
            f"{part.name}: {len(v)} rows hold a velocity and a force from line {part.table.first_line}; a peak "
            f"table needs at least {_LEAST_ROWS}"
        )
    _refuse(v, f, part.name)
    if len(np.unique(v)) < 0.8 * len(v):
        warnings.append("speeds repeat: several runs were taken together")
    if part.table.over:
        warnings.append(f"{part.table.over} cells say that a sensor was beyond its range; they were left out")
    return make(part, source, {"velocity": v, "force": f}, decisions, layout="peaks", rate=None, warnings=warnings)


def _refuse(v: FloatArray, f: FloatArray, name: str) -> None:
    for x, channel, most, si in ((v, "velocity", 25.0, "m/s"), (f, "force", 2e5, "N")):
        if float(np.abs(x).max()) > most:
            raise ReadError(
                f"{name}: {channel} reaches {np.abs(x).max():.3g} {si}, more than any dyno gives; give --unit "
                f"{channel}=…"
            )
        if np.ptp(np.abs(x)) == 0 and len(x) > 2:
            raise ReadError(f"{name}: {channel} is {x[0]:.4g} {si} in every row: a stuck sensor, or a column of "
                            f"something else; "
                            f"name the right one with --column {channel}=NAME")  # fmt: skip


def _column(part: Part, column: Column, channel: str, warnings: list[str]) -> tuple[FloatArray, str, str]:
    unit, why, warning = unit_of(column, channel, part.table, part.facts.units, part.name)
    if not unit:
        raise ReadError(f"{part.name}, column '{column.text}': {channel} has no unit and nothing tells it; "
                        f"give --unit {channel}={_EXAMPLE[channel]} with the unit it is")  # fmt: skip
    warnings += [warning] if warning and warning not in warnings else []
    return to_si(part.values[column.index], unit, channel), unit, why


def _by_columns(part: Part, warnings: list[str]) -> tuple[FloatArray, FloatArray, dict[str, ChannelDecision]]:
    """Read a column (or a pair of columns) a direction."""
    rows: list[tuple[FloatArray, FloatArray]] = []
    raw: dict[str, FloatArray] = {}
    said: dict[str, tuple[str, str]] = {}
    for way, column in part.roles.forces.items():
        speed = (
            part.roles.speeds.get(way) or part.roles.channels.get("velocity") or next(iter(part.roles.speeds.values()))
        )
        v, v_unit, v_why = _column(part, speed, "velocity", warnings)
        raw[way], unit, why = _column(part, column, "force", warnings)
        said[way] = unit, why
        rows.append((np.abs(v), raw[way]))
        v_decision = ChannelDecision(speed.text, v_unit, 1, v_why)
    signs, evidence = _column_signs(raw, [r[0] for r in rows])
    ways = list(part.roles.forces)
    v = np.concatenate([r[0] * (1 if way == "compression" else -1) for way, r in zip(ways, rows, strict=True)])
    f = np.concatenate([r[1] * signs[way] for way, r in zip(ways, rows, strict=True)])
    names = " / ".join(part.roles.forces[w].text for w in ways)
    unit, why = said[ways[0]]
    turned = -1 if signs.get("compression", 1) < 0 else 1
    decisions = {"velocity": v_decision, "force": ChannelDecision(names, unit, turned, f"{why}; {evidence}")}
    return v, f, decisions


def _column_signs(raw: Mapping[str, FloatArray], speeds: list[FloatArray]) -> tuple[dict[str, int], str]:
    """Return what to multiply each direction's column by, judged at its fastest row: gas may turn the slow ones."""
    top = {}
    for (way, force), speed in zip(raw.items(), speeds, strict=True):
        ok = np.isfinite(force) & np.isfinite(speed)
        top[way] = float(force[ok][np.argmax(speed[ok])]) if ok.any() else 0.0
    signs = {way: (1 if way == "compression" else -1) * (1 if value >= 0 else -1) for way, value in top.items()}
    both = len(top) == 2
    if both and top["compression"] >= 0 and top["rebound"] < 0:
        return signs, "the columns name the directions; rebound is negative"
    if both and top["compression"] < 0 <= top["rebound"]:
        return {"compression": -1, "rebound": -1}, "the columns name the directions; the file counts rebound positive"
    return signs, "the columns name the directions; forces are magnitudes"


def _by_rows(part: Part, warnings: list[str]) -> tuple[FloatArray, FloatArray, dict[str, ChannelDecision]]:
    """Read one force column whose rows are signed, or say their direction."""
    speed, column = part.roles.channels["velocity"], part.roles.channels.get("force")
    if column is None:
        there = ", ".join(f"'{c.text}'" for c in part.table.columns if c.text)
        raise ReadError(f"{part.name}: no force column; the columns are: {there}; name one with --column force=NAME")
    v, v_unit, v_why = _column(part, speed, "velocity", warnings)
    f, f_unit, f_why = _column(part, column, "force", warnings)
    key = part.roles.keys.get("direction")
    if key is not None:
        down, known = _directions(part, key)
        v, f = np.where(down, -np.abs(v), np.abs(v)), _signed(f, down)
        v[~known] = np.nan
        turn_v, turn_f, why = 1, 1, f"column '{key.text}' names the direction"
    elif part.direction is not None and not (v < 0).any():
        down = np.full(len(v), part.direction == "rebound")
        v, f = np.where(down, -v, v), _signed(f, down)
        turn_v, turn_f, why = 1, 1, f"the line above says {part.direction}"
    else:
        v, f, turn_v, turn_f, why = _signed_rows(v, f, part, warnings)
    return (
        v,
        f,
        {
            "velocity": ChannelDecision(speed.text, v_unit, turn_v, f"{v_why}; {why}"),
            "force": ChannelDecision(column.text, f_unit, turn_f, f"{f_why}; {why}"),
        },
    )


def _directions(part: Part, key: Column) -> tuple[BoolArray, BoolArray]:
    """Return which rows are rebound, and which rows say so at all."""
    words = part.texts.get(key.index) or [str(v) for v in part.values.get(key.index, [])]
    ways = [direction_of(plain(word)) for word in words]
    if not any(ways):
        raise ReadError(
            f"{part.name}, column '{key.text}': '{words[0]}' names no direction; wanted compression or rebound"
        )
    return np.array([w == "rebound" for w in ways]), np.array([w is not None for w in ways])


def _signed(force: FloatArray, down: BoolArray) -> FloatArray:
    """Return forces that are negative in rebound, whether the file gives magnitudes or signed values."""
    out = force.copy()
    for rows, want in ((~down, 1), (down, -1)):
        there = force[rows & np.isfinite(force)]
        if len(there) and there[np.argmax(np.abs(there))] * want < 0:
            out[rows] = -force[rows]
    return out


def _signed_rows(
    v: FloatArray, f: FloatArray, part: Part, warnings: list[str]
) -> tuple[FloatArray, FloatArray, int, int, str]:
    stated = [part.said[k] for k in ("velocity", "all", "force") if k in part.said]
    said = part.table.options.positive or (stated[0] if stated else None)
    turn = -1 if said == "rebound" else 1
    ok = np.isfinite(v) & np.isfinite(f)
    down, up = ok & (v < 0), ok & (v > 0)
    at = {way: float(f[rows][np.argmax(np.abs(v[rows]))]) for way, rows in (("down", down), ("up", up)) if rows.any()}
    why = f"stated: {said} is positive" if said else "assumed: compression is positive"
    if not said:
        warnings.append(
            "nothing says which direction is positive: compression was assumed; --positive rebound turns it round"
        )
    if len(at) == 2 and at["down"] > 0 and at["up"] > 0:
        f, why = np.where(v < 0, -f, f), why + "; forces are magnitudes"
        return turn * v, turn * f, turn, turn, why
    follows = -1 if sum(value * (1 if way == "up" else -1) for way, value in at.items()) < 0 else 1
    if follows < 0:
        why += "; force and velocity count opposite ways, as damping must act against the motion"
    lead_force = "force" in part.said and "velocity" not in part.said and not part.table.options.positive
    turn_v, turn_f = (turn * follows, turn) if lead_force else (turn, turn * follows)
    return turn_v * v, turn_f * f, turn_v, turn_f, why
