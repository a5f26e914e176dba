"""A peak table: one force per velocity and direction, in two columns, one signed column, or with a direction column."""

from __future__ import annotations

from collections.abc import Mapping
from typing import NamedTuple

import numpy as np

from dynoan.errors import ReadError
from dynoan.model.arrays import FloatArray
from dynoan.model.sweep import ChannelDecision
from importers.assumptions.channels import (
    DIRECTIONS_APART,
    DISTINCT_SPEEDS,
    LACKING_SHARE,
    LEAST_DAMPING,
    LEAST_FORCE,
    PEAK_ROWS,
)
from importers.channels.decided import SweepChannels
from importers.channels.doubts import over_range
from importers.channels.odd_cells import odd_cells
from importers.channels.peak_rows import PeakRows, falls_as_gas_outweighs, rows_of_column
from importers.channels.plausible import below_usual, beyond_usual
from importers.channels.refusals import LIMITS
from importers.channels.units import MeasuredColumn, measured
from importers.header import HeaderColumn
from importers.parts import SweepPart
from importers.words.directions import direction_of
from importers.words.spelling import plain
from importers.words.unit_text import clean_unit

_TOLD = ("no number", "notes among the numbers")  #: in warnings of cells that hold none
_NAMED = "the columns name the directions"
_OUTWEIGHED = "rebound falls as speed rises, as where gas outweighs it: its signs are taken as they stand"


class _WaySigns(NamedTuple):
    """What to multiply each direction's column by."""

    sign: Mapping[str, int]  #: by direction
    evidence: str


def peak_channels(part: SweepPart) -> SweepChannels:
    """Return velocity and force of a peak table: signed rows, rebound negative.

    Raises
    ------
    ReadError
        If a unit is missing or unknown, or velocity or force is not there.
    """
    rows = _rows_of_columns(part) if part.roles.forces else rows_of_column(part)
    ok = np.isfinite(rows.velocity) & np.isfinite(rows.force)
    v, f = rows.velocity[ok], rows.force[ok]
    if len(v) < PEAK_ROWS:
        raise ReadError(
            f"{len(v)} rows hold a velocity and a force from line {part.table.first_line}",
            where=part.name,
            hint=f"a peak table needs at least {PEAK_ROWS}",
        )
    _refuse(v, "velocity", part.name)
    _refuse(f, "force", part.name)
    _refuse_grouped(part, v, f)
    repeated = len(np.unique(v)) < DISTINCT_SPEEDS * len(v)
    together = ("speeds repeat: several runs were taken together",) if repeated else ()
    if repeated and not rows.directed:
        _refuse_mixed(part, v, f)
        _refuse_twice(v, f, part.name)
    top, most = float(np.abs(v).max()), float(np.abs(f).max())
    usual = (*beyond_usual(top, most), *below_usual(top, most))
    warnings = (
        *rows.warnings,
        *_left_out(part),
        *_lacking(part, rows),
        *usual,
        *together,
        *odd_cells(v, f, rows.decisions["velocity"].unit),
        *over_range(part.table.over),
    )
    return SweepChannels({"velocity": v, "force": f}, rows.decisions, warnings=warnings,
                         directed=rows.directed)  # fmt: skip


def _refuse_twice(v: FloatArray, f: FloatArray, name: str) -> None:
    """Refuse speeds that stand there just twice with forces far apart, all of one sign: the two directions, unnamed."""
    if f.min() < 0 or v.min() < 0 or len(v) < 2 * PEAK_ROWS or len(v) % 2:
        return
    order = np.lexsort((f, v))
    speeds, forces = v[order].reshape(-1, 2), f[order].reshape(-1, 2)
    twice = bool(np.allclose(speeds[:, 0], speeds[:, 1], rtol=1e-3)) and len(np.unique(speeds[:, 0])) == len(speeds)
    if twice and float(np.median(forces[:, 1] / np.maximum(forces[:, 0], 1e-9))) > DIRECTIONS_APART:
        raise ReadError(
            "each speed stands there twice with forces far apart, and nothing says which is compression",
            where=name,
            hint="put the direction into a column of its own, or give rebound a minus sign",
        )


def _refuse_mixed(part: SweepPart, v: FloatArray, f: FloatArray) -> None:
    """Refuse forces of one sign at speeds of one sign that a column of two unknown words tells apart row by row."""
    if f.min() < 0 or v.min() < 0:
        return
    for column in part.table.columns:
        words = part.texts.get(column.index) or [f"{x:g}" for x in part.values.get(column.index, ())]
        kinds = dict.fromkeys(words)
        evenly = len(kinds) == 2 and all(2 * words.count(word) == len(words) for word in kinds)
        if evenly and not column.channel and words[: len(words) // 2].count(words[0]) < len(words) // 2:
            one, other = kinds
            raise ReadError(
                f"each speed stands there twice, '{one}' and '{other}', and neither is a direction that is known here",
                where=f"{part.name}, column '{column.text}'",
                hint="write compression and rebound there",
            )


def _left_out(part: SweepPart) -> tuple[str, ...]:
    """Return a warning of a force whose direction is not known, beside one whose direction is."""
    left = [c.text for c in part.table.columns if c.channel == "force" and not (c.direction or c.lesser or c.clicks)]
    if len(part.roles.forces) != 1 or part.roles.wide or not left:
        return ()
    return (f"column '{left[0]}' is a force of no direction that is known here and was left out",)


def _lacking(part: SweepPart, rows: PeakRows) -> tuple[str, ...]:
    """Return a warning of a few speeds at which no force stands; where many lack one, no row is meant to be whole."""
    lacking = int(np.count_nonzero(np.isfinite(rows.velocity) & ~np.isfinite(rows.force)))
    told = part.table.over >= lacking or any(word in said for said in part.table.warnings for word in _TOLD)
    if told or not 0 < lacking <= LACKING_SHARE * len(rows.force):
        return ()
    return (f"{lacking} of {len(rows.force)} forces are missing: no number stands there",)


def _refuse(x: FloatArray, channel: str, name: str) -> None:
    limit = LIMITS[channel]
    most = float(np.abs(x).max())
    if most > limit.most:
        raise ReadError(
            f"{channel} reaches {most:.3g} {limit.unit}, more than any dyno gives",
            where=name,
            hint=f"give --unit {channel}=…",
        )
    if np.ptp(np.abs(x)) == 0 and len(x) > 2:
        raise ReadError(
            f"{channel} is {x[0]:.4g} {limit.unit} in every row: a stuck sensor, or a column of something else",
            where=name,
            hint=f"name the right one with --column {channel}=NAME",
        )


def _refuse_grouped(part: SweepPart, velocity: FloatArray, force: FloatArray) -> None:
    """Refuse forces too weak for a shock, of three decimals and none below one: "1.250" may be thousands.

    Where speeds have decimals by the same mark, it is the decimal mark. Decimals are counted as the file writes them.
    """
    mark, size, speed = part.table.grid.decimal, np.abs(force), np.abs(velocity)
    roles = part.roles
    speeds = [part.values[c.index] for c in (*roles.speeds.values(), *_of(roles.channels, "velocity"))]
    stated = part.table.options.decimal is not None or any(np.any(np.mod(v[np.isfinite(v)], 1)) for v in speeds)
    forces = (*roles.forces.values(), *_of(roles.channels, "force"))
    written = [np.abs(part.values[c.index]) for c in forces]
    cells = np.concatenate([x[np.isfinite(x)] for x in written]) if written else size
    three = bool(np.allclose(cells * 1e3, np.round(cells * 1e3), atol=1e-6)) and bool(np.any(cells != np.round(cells)))
    weak = size.max() < LEAST_FORCE or size[np.argmax(speed)] < LEAST_DAMPING * speed.max()
    grams = any(clean_unit(c.unit) == "gf" for c in forces)  # what is weighed in grams is weak
    if stated or grams or not three or not weak or cells[cells > 0].min(initial=1.0) < 1.0:
        return
    other = "," if mark == "." else "."
    most = float(cells[cells != np.round(cells)].max() * size.max() / cells.max())  # of those with the mark, in newtons
    raise ReadError(
        f"force reaches {most:.3g} N if '{mark}' is the decimal mark, {1e3 * most:.0f} N if it groups thousands",
        where=part.name,
        hint=f"say which: --decimal '{mark}' or --decimal '{other}'",
    )


def _of(channels: Mapping[str, HeaderColumn], name: str) -> tuple[HeaderColumn, ...]:
    return (channels[name],) if name in channels else ()


def _rows_of_columns(part: SweepPart) -> PeakRows:
    """Return the rows of a column (or a pair of columns) a direction."""
    speeds: dict[str, MeasuredColumn] = {}
    forces: dict[str, MeasuredColumn] = {}
    for way, column in part.roles.forces.items():
        speeds[way] = measured(part, "velocity", _speed(part, way))
        forces[way] = measured(part, "force", column)
    signs = _way_signs(speeds, forces)
    first, last = next(iter(forces)), list(forces)[-1]
    names = " / ".join(column.shown for column in part.roles.forces.values())
    turned = -1 if signs.sign.get("compression", 1) < 0 else 1
    speed, force = speeds[last].found, forces[first].found
    named = any(direction_of(plain(column.text)) for column in part.roles.forces.values())
    evidence = signs.evidence if named else signs.evidence.replace(_NAMED, "the directions are as told below")
    return PeakRows(
        velocity=np.concatenate([np.abs(v.values) * (1 if way == "compression" else -1) for way, v in speeds.items()]),
        force=np.concatenate([f.values * signs.sign[way] for way, f in forces.items()]),
        decisions={
            "velocity": ChannelDecision(_speed(part, last).shown, speed.unit, 1, speed.why),
            "force": ChannelDecision(names, force.unit, turned, f"{force.why}; {evidence}"),
        },
        warnings=(
            *(w for way in forces for m in (speeds[way], forces[way]) for w in m.warnings),
            *([_OUTWEIGHED] if _OUTWEIGHED in signs.evidence else []),
        ),
    )


def _speed(part: SweepPart, way: str) -> HeaderColumn:
    """Return the column of a direction's speeds: its own, or the one of all, or the other direction's."""
    roles = part.roles
    return roles.speeds.get(way) or roles.channels.get("velocity") or next(iter(roles.speeds.values()))


def _way_signs(speeds: Mapping[str, MeasuredColumn], forces: Mapping[str, MeasuredColumn]) -> _WaySigns:
    """Return the signs of the columns, judged at the fastest row of each: gas may turn the slow ones."""
    top = {way: _at_fastest(np.abs(speeds[way].values), forces[way].values) for way in forces}
    signs = {way: (1 if way == "compression" else -1) * (1 if value >= 0 else -1) for way, value in top.items()}
    both = len(top) == 2
    if (
        both
        and min(top.values()) >= 0
        and falls_as_gas_outweighs(np.abs(speeds["rebound"].values), forces["rebound"].values)
    ):
        return _WaySigns({"compression": 1, "rebound": 1}, f"{_NAMED}; {_OUTWEIGHED}")
    if both and top["compression"] >= 0 and top["rebound"] < 0:
        return _WaySigns(signs, f"{_NAMED}; rebound is negative")
    if both and top["compression"] < 0 <= top["rebound"]:
        turned = {"compression": -1, "rebound": -1}
        return _WaySigns(turned, f"{_NAMED}; the file counts rebound positive")
    return _WaySigns(signs, f"{_NAMED}; forces are magnitudes")


def _at_fastest(speed: FloatArray, force: FloatArray) -> float:
    ok = np.isfinite(force) & np.isfinite(speed)
    return float(force[ok][np.argmax(speed[ok])]) if ok.any() else 0.0
