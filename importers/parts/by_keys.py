"""A long table cut where its shock, pack, run or click columns change."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from typing import NamedTuple

import numpy as np

from dynoan.errors import ReadError
from dynoan.model.adjusters import ADJUSTERS
from dynoan.model.arrays import IntArray
from dynoan.model.warned import TakenForBoth
from importers.assumptions.parts import CLICKS_BELOW, COUNTER_ROWS, COUNTER_SHARE
from importers.header import HeaderColumn
from importers.parts.gas_column import pressure_of
from importers.parts.key_columns import cell_clicks
from importers.parts.part import SweepPart
from importers.parts.told import two_numbers
from importers.stated import StatedFacts, facts_of_lines
from importers.words.clicks import doubted_clicks
from importers.words.keys import ONE_KNOB
from importers.words.spelling import plain, word_set
from importers.words.turns import turns_alone, turns_said

_KEYS = ("shock", "pack", "run", "clicks", "group", *ADJUSTERS, "gas")
_TURNS = "turns"  #: begins the role of a column that holds a knob's turns
_SETTINGS = ONE_KNOB | word_set("setting, settings, setup, einstellung, einstellungen, reglage, reglages, regolazione")
_NO_NUMBER = -1e300  #: stands for missing numbers, which would not be equal to themselves


class _Codes(NamedTuple):
    """A key column as numbers of its values in order."""

    code: IntArray  #: shape (rows,)
    names: Sequence[str]  #: the values as text, by number


def cut_by_keys(part: SweepPart) -> Iterator[SweepPart]:
    """Yield the rows of each combination of keys, in the order in which they first appear.

    Raises
    ------
    ReadError
        If clicks are no whole number.
    """
    named = [r for r in part.roles.keys if r in _KEYS or r.startswith(_TURNS)]
    of_rows = [r for r in named if _counts_rows(part, part.roles.keys[r].index)]
    if told := next((r for r in of_rows if r in part.table.user.columns), None):
        raise ReadError(
            f"another number in nearly every row, so it is no {told}",
            where=f"{part.name}, column '{part.roles.keys[told].text}'",
            hint=f"name another with --column {told}=NAME",
        )
    keys = {r: part.roles.keys[r] for r in named if r not in of_rows}
    if not keys:
        yield part
        return
    codes = {role: _codes(part, column.index) for role, column in keys.items()}
    joint = _joint([c.code for c in codes.values()])
    shown = " and ".join(f"'{c.text}'" for c in keys.values())
    for group in range(int(joint.max()) + 1 if len(joint) else 0):
        rows = np.flatnonzero(joint == group)
        values = {role: c.names[int(c.code[rows[0]])] for role, c in codes.items()}
        if any(values.values()):
            label = ", ".join(f"{k} {v}" for k, v in values.items() if v)
            yield part.picked(rows, label, _facts(part, values))
        elif len(rows := _held(part, rows, keys)):
            said = f"{len(rows)} rows have nothing under {shown}: they were taken as a run of their own"
            facts = replace(part.facts, warnings=(*part.facts.warnings, said))
            yield part.picked(rows, f"without {shown}", facts)


def _held(part: SweepPart, rows: IntArray, keys: Mapping[str, HeaderColumn]) -> IntArray:
    """Return those of some rows that hold more than one number, keys left out, shape (rows held,)."""
    aside = {column.index for column in keys.values()}
    held = [np.isfinite(x[rows]) for i, x in part.values.items() if i not in aside]
    return rows[np.sum(held, axis=0) > 1] if held else rows[:0]


def _counts_rows(part: SweepPart, index: int) -> bool:
    """Whether a column is another number in nearly every row: it counts rows and names no run."""
    x = part.values.get(index)
    return x is not None and len(x) > COUNTER_ROWS and len(np.unique(x[np.isfinite(x)])) > COUNTER_SHARE * len(x)


def _codes(part: SweepPart, index: int) -> _Codes:
    if index in part.texts:
        names = list(dict.fromkeys(part.texts[index]))
        number = {name: i for i, name in enumerate(names)}
        return _Codes(np.array([number[t] for t in part.texts[index]], np.int64), names)
    x = part.values[index]
    unique, inverse = np.unique(np.where(np.isfinite(x), x, _NO_NUMBER), return_inverse=True)
    return _Codes(inverse.astype(np.int64), ["" if v == _NO_NUMBER else f"{v:g}" for v in unique])


def _joint(codes: list[IntArray]) -> IntArray:
    """Return one number per distinct combination, in the order in which they first appear."""
    _, first, inverse = np.unique(np.stack(codes, axis=1), axis=0, return_index=True, return_inverse=True)
    rank = np.empty(len(first), np.int64)
    rank[np.argsort(first)] = np.arange(len(first))
    return rank[inverse.reshape(-1)]


def _facts(part: SweepPart, values: Mapping[str, str]) -> StatedFacts:
    """Return a part's facts under what its key columns say, and that under what the user says."""
    clicks = {k: int(float(v)) for k in ADJUSTERS if _whole(v := values.get(k, ""))}
    odd = [f"{k} {v}" for k, v in values.items() if k in ADJUSTERS and v and not _whole(v)]
    if odd:
        raise ReadError(
            f"{', '.join(odd)} is no whole number of clicks",
            where=part.name,
            hint="write low and high speed in columns of their own, LSC and HSC"
            if any("/" in said for said in odd)
            else "name the column of something else with --column",
        )
    told = part.table.options
    if "clicks" in values:
        clicks = {**cell_clicks(part.roles.keys["clicks"].text, values["clicks"]), **clicks}
    knobs = [
        c.text for c in (part.roles.keys.get("cr"), part.roles.keys.get("clicks")) if c and plain(c.text) in ONE_KNOB
    ]
    said: tuple[str, ...] = tuple(
        TakenForBoth.of(k, f"; where there are two knobs, say --column 'c={k}' --column 'r={k}'")
        for k in knobs
        if "cr" in clicks and "cr" not in told.columns
    )
    gas = pressure_of(part.roles.keys["gas"], float(values["gas"])) if values.get("gas") else None
    named = " ".join(v for k, v in values.items() if k in ("group", "run", "clicks"))
    doubted = [] if clicks else doubted_clicks(named)[:1]
    said = (*said, *map(two_numbers, doubted))
    turns = _turns(part, values, named)
    said = (*said, *turns)
    if not (clicks or doubted or turns) and _is_setting(part.roles.keys.get("group"), named):
        said = (*said, f"'{named}' is a setting that was not understood: state the clicks")
    own = facts_of_lines([part.of_runs.get(values.get("run", ""), "")], part.table.grid.decimal)
    return replace(
        own.over(part.facts),
        warnings=(*part.facts.warnings, *own.warnings, *said),
        clicks={**part.facts.clicks, **own.clicks, **clicks, **told.clicks},
        shock=told.shock or values.get("shock") or own.shock or part.facts.shock,
        pack=told.pack or values.get("pack") or own.pack or part.facts.pack,
        gas_pressure=own.gas_pressure or part.facts.gas_pressure if gas is None else gas,
    )


def _turns(part: SweepPart, values: Mapping[str, str], named: str) -> list[str]:
    """Return the warnings of turns in key columns, and in the words of a run."""
    keys = part.roles.keys
    of_knobs = ((k.removeprefix(_TURNS).strip(), f"{keys[k].text} {v}") for k, v in values.items()
                if v and k.startswith(_TURNS))  # fmt: skip
    found = [turns_said(said, knob or None) for knob, said in of_knobs]
    return found + ([turns_said(named)] if turns_alone(named) is not None else [])


def _is_setting(column: HeaderColumn | None, cell: str) -> bool:
    """Whether a cell with numbers stands in a column of settings."""
    return column is not None and plain(column.text) in _SETTINGS and any(c.isdigit() for c in cell)


def _whole(text: str) -> bool:
    try:
        return float(text) == int(float(text)) and 0 <= float(text) < CLICKS_BELOW
    except ValueError:
        return False
