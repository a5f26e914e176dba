"""What became of each column of numbers: what no sweep of a file holds is named, so that nothing goes silently."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

import numpy as np

from dynoan.model.adjusters import ADJUSTERS
from dynoan.model.sweep import Sweep
from importers.header import HeaderColumn
from importers.parts import GASES, SweepPart, is_gas, names_for_people, names_gas
from importers.sweeps.making import MadeSweep
from importers.words.spelling import plain
from importers.words.unit_text import is_unit


def naming_left_aside(parts: Sequence[SweepPart], made: Sequence[MadeSweep]) -> list[MadeSweep]:
    """Return a file's sweeps, each naming the columns of its table that none of them holds.

    A force whose direction no sweep has, and words where a force or a speed should be, are warned of; all else stands
    in the evidence of force.
    """
    used = {key for part, one in zip(parts, made, strict=True) for key in _used(part, one.sweep)}
    return [
        one._replace(sweep=_naming(one.sweep, part, [c for c in _held(part) if _key(c) not in used]))
        for part, one in zip(parts, made, strict=True)
    ]


def _key(column: HeaderColumn) -> tuple[int, str]:
    return column.index, column.text


def _used(part: SweepPart, sweep: Sweep) -> Iterator[tuple[int, str]]:
    """Yield the columns that a sweep was made of."""
    roles = part.roles
    by_way = sweep.layout == "peaks" and bool(roles.forces)
    for channel, column in roles.channels.items():
        if by_way and channel == "force":
            continue
        if channel in sweep.channels or channel in sweep.decisions or channel == "temperature":
            yield _key(column)
    for columns in (roles.forces, roles.speeds):
        yield from map(_key, columns.values())
    gas = roles.channels.get("pressure")
    if gas is not None and is_gas(gas) and sweep.gas_pressure is not None:
        yield _key(gas)
    keys = {role: column for role, column in roles.keys.items() if role not in ADJUSTERS or role in sweep.clicks}
    yield from (_key(column) for role, column in keys.items() if role != "run" or _counts(column, part))
    yield from map(_key, roles.wide)


def _counts(column: HeaderColumn, part: SweepPart) -> bool:
    """Whether a column that is named a run's holds words or whole numbers, not what was measured."""
    x = part.values.get(column.index)
    return x is None or not bool(np.any(np.mod(x[np.isfinite(x)], 1.0)))


def _held(part: SweepPart) -> list[HeaderColumn]:
    """Return the named columns of a part's table that hold numbers, or words under the name of what is measured."""
    numeric = part.table.grid.numeric
    columns = [c for c in part.table.columns if c.text and c.index < len(numeric) and not c.worked_out]
    return [c for c in columns if _is_measured(c) or (numeric[c.index] and not _is_empty(c, part))]


def _is_measured(column: HeaderColumn) -> bool:
    """Whether a column's name is that of a force or a speed that a sweep is made of."""
    force = column.channel == "force" or (column.direction is not None and column.channel is column.role is None)
    return (force or column.channel == "velocity") and not column.lesser


def _is_empty(column: HeaderColumn, part: SweepPart) -> bool:
    """Whether a column holds neither a number nor a word."""
    x = part.values.get(column.index)
    there = x is not None and bool(np.isfinite(x[:1]).any() or np.isfinite(x).any())
    return not there and not any(part.texts.get(column.index, ()))


def _naming(sweep: Sweep, part: SweepPart, left: Sequence[HeaderColumn]) -> Sweep:
    said = " ".join((*sweep.warnings, *(d.evidence for d in sweep.decisions.values())))
    named = {name for d in sweep.decisions.values() for name in d.column.split(" / ")}
    left = [c for c in left if c.text not in named and f"'{c.text}'" not in said]
    warned = [w for c in left if (w := _warning(c, part, sweep))]
    quiet = list(dict.fromkeys(c.text for c in left if not _warning(c, part, sweep)))
    decisions = dict(sweep.decisions)
    if quiet and "force" in decisions:
        force = decisions["force"]
        decisions["force"] = replace(force, evidence=f"{force.evidence}; not used: {names_for_people(quiet)}")
    return replace(sweep, decisions=decisions, warnings=(*sweep.warnings, *dict.fromkeys(warned), *_nameless(part)))


def _nameless(part: SweepPart) -> tuple[str, ...]:
    """Return a warning of columns of numbers that no line names behind a direction's: its second click, its repeat."""
    columns = sorted(part.table.columns, key=lambda c: c.index)
    first = min((c.index for c in part.roles.forces.values()), default=len(columns))
    left = [c.index + 1 for c in columns if not c.text and c.index > first and not _is_empty(c, part)]
    if part.roles.wide or not left:
        return ()
    which = f"columns {', '.join(map(str, left))}" if len(left) > 1 else f"column {left[0]}"
    return (f"no line names {which}, of numbers beside those of a direction: left out",)


def _warning(column: HeaderColumn, part: SweepPart, sweep: Sweep) -> str:
    """Return what is warned of a column that is left aside, empty where it need not be."""
    ways = {c.direction for c in part.roles.forces.values()}
    if column.direction is not None and column.direction in ways:
        return ""
    if _is_empty(column, part) and column.index not in part.table.values:
        return f"column '{column.text}' holds nothing; where it holds formulas, save the file with their values"
    if not part.table.grid.numeric[column.index]:
        word = next(t for t in part.texts[column.index] if t)
        return f"column '{column.text}' holds '{word}' and the like, no numbers, and was left out"
    if sweep.layout == "peaks" and column.channel == "pressure" and is_unit(column.unit, "pressure"):
        if not is_gas(column):
            return f"column '{column.text}' is a pressure that is not said to be the shock's gas: left out"
        return f"column '{column.text}' has more than one gas pressure in the run: none was taken"
    if column.channel is None and not column.unit and {*plain(column.text).split()} & GASES and names_gas(column.text):
        return f"column '{column.text}' has no unit (bar or psi): no gas pressure was taken of it"
    lost = sweep.layout == "peaks" and bool(ways) and column.direction is not None
    # Beside one direction alone a force under a word that is not known may be the other's.
    other = len(ways) == 1 and sweep.layout == "peaks" and not column.known and _ends_in_force(column)
    return f"column '{column.text}' was left out" if (lost and _is_measured(column)) or other else ""


def _ends_in_force(column: HeaderColumn) -> bool:
    """Whether the last word of a column's name is a unit of force: "Foo N"."""
    words = column.text.replace("_", " ").strip("[]() ").split()
    return len(words) > 1 and is_unit(words[-1].strip("[]()"), "force") and not column.lesser
