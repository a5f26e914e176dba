"""Nested values, as JSON and MATLAB hold them, to records of columns: whatever way round they lie."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator, Mapping, Sequence
from itertools import islice
from types import MappingProxyType
from typing import Any

import numpy as np

from importers.assumptions.records import MOST_NAMES, RECORD_DEPTH
from importers.assumptions.tables import MOST_TABLES
from importers.records.record import ColumnRecord, RecordColumn
from importers.records.scalars import FEW, SETTINGS, UNITS, are_few, are_notes, facts, is_settings, quantity_in, unit_in
from importers.records.units_listed import units_by_kind
from importers.records.unnamed import unnamed_records
from importers.words.channels import TABLE_WORDS
from importers.words.clicks import clicks_of
from importers.words.directions import direction_of
from importers.words.shock_names import shock_in
from importers.words.spelling import plain

_VALUES = ("values", "value", "data", "samples", "y", "array", "werte", "messwerte", "daten", "valeurs", "mesures",
           "valores", "datos", "valori", "dati", "dados", "waarden", "varden", "wartosci", "値", "数据")  # fmt: skip
_AXES = ("x", "t", "time")  #: beside the values of a signal
_AXIS_LEAST = 30  #: samples; a shorter one may be the speeds of a peak table
_EVEN = 1e-6  #: how even its steps are [1]
_NAMES = ("name", "channel", "label", "title", "id", "key", "signal", "kanal", "bezeichnung", "nom", "nombre", "nome",
          "naam", "namn", "nazwa", "名称", "名前")  # fmt: skip
_LOOKED_AT = 8  #: entries of a list, of which one has a series where they are signals
_NO_UNITS: Mapping[Any, Any] = MappingProxyType({})
_FACTS_DEEP = 3  #: mappings below one of facts


def records_in(value: Any) -> list[ColumnRecord]:
    """Return the records that nested values hold, each with the scalars beside and above it as lines.

    Where no columns have names, matrices without any are the records.
    """
    found: list[ColumnRecord] = []
    for record in _records(value, (), 0):
        found.append(record)
        if len(found) > MOST_TABLES:
            break
    return found or [*islice(unnamed_records(value), MOST_TABLES)]


def _records(
    value: Any, lines: tuple[str, ...], depth: int, units: Mapping[Any, Any] = _NO_UNITS, under: str = ""
) -> Iterator[ColumnRecord]:
    """Yield the records in a value; `units` are those that stand above it, by the name of a column; `under` its key."""
    if depth > RECORD_DEPTH or (isinstance(value, Mapping) and len(value) > MOST_NAMES):
        return
    columns = [c if c.unit else c._replace(unit=_text(units.get(c.name))) for c in _columns(value)]
    if columns:
        names = {c.name for c in columns}
        told = _told_beside(value, names)
        yield ColumnRecord(columns, (*lines, *facts(value, names), *told))
        return
    if isinstance(value, Mapping):
        units = {**units, **_units_beside(value)}
        beside = (*lines, *facts(value, set()))
        for one in value.values():
            if isinstance(one, Mapping) and (found := _facts_below(one)) is not None:
                beside = (*beside, *found)
                units = {**units, **_units_beside(one)}
        for key, one in value.items():
            if is_settings(str(key), one):
                continue
            yield from _records(one, (*beside, *title_lines(str(key), under)), depth + 1, units, plain(str(key)))
    elif isinstance(value, Sequence) and not isinstance(value, str | bytes):
        for one in value[:MOST_TABLES]:
            if isinstance(one, Mapping | list):
                yield from _records(one, lines, depth + 1, units, under)


def _told_beside(value: Any, columns: set[str]) -> tuple[str, ...]:
    """Return the facts in mappings beside columns, such as a "header" of its own."""
    beside = value.items() if isinstance(value, Mapping) else ()
    facts = (one for key, one in beside if isinstance(one, Mapping) and key not in columns and str(key) not in UNITS)
    return tuple(line for one in facts for line in _facts_below(one) or ())


def title_lines(key: str, under: str) -> tuple[str, ...]:
    """Return what a key says of what lies below it, as a title does: a shock, a pack, clicks or a direction."""
    for what in ("shock", "pack"):
        if {under, under.removesuffix("s")} & TABLE_WORDS[what]:
            return (f"{what}: {key}",)
    shock = shock_in(key)
    named = (f"shock: {shock}",) if shock else ()
    return (*named, key) if clicks_of(key) or direction_of(plain(key)) else named


def _columns(value: Any) -> list[RecordColumn]:
    """Return the columns that a value holds at its top; none where it holds none."""
    if isinstance(value, Mapping):
        return _split(value) or _described(value) or _named(value)
    if isinstance(value, Sequence) and not isinstance(value, str | bytes) and value:
        if all(isinstance(one, dict) for one in value):  # asked of millions, where Mapping takes ten times as long
            return _listed(value) or _rows(value)
        return _rows_under_names(value)
    return []


def _named(value: Mapping[Any, Any]) -> list[RecordColumn]:
    """Return the columns of {"time": […], "force": […]}; units may stand beside them, by name."""
    series = {str(k): _column(v) for k, v in value.items() if _is_series(v)}
    lengths = Counter(len(s) for s in series.values())
    units = _units_beside(value)
    most = max(lengths, key=lambda n: (lengths[n], n), default=0)
    kept = [RecordColumn(k, str(units.get(k, "")), s) for k, s in series.items() if len(s) == most]
    # Words and one row of numbers are a note beside clicks, and no table.
    numbers = sum(isinstance(c.values, np.ndarray) for c in kept)
    return _with_listed_units(kept, value) if numbers >= 2 and most >= 2 else []


def _with_listed_units(columns: list[RecordColumn], value: Mapping[Any, Any]) -> list[RecordColumn]:
    """Return columns with the units of a list beside them, where one has a unit for each."""
    listed = next((v for k, v in value.items() if str(k).lower() in UNITS and isinstance(v, list)), [])
    units = units_by_kind([c.name for c in columns], listed) if all(isinstance(u, str) for u in listed) else []
    return [c._replace(unit=c.unit or unit) for c, unit in zip(columns, units or [""] * len(columns), strict=True)]


def _units_beside(value: Mapping[Any, Any]) -> Mapping[Any, Any]:
    """Return the units that stand beside columns, by their names."""
    found = [v for k, v in value.items() if isinstance(v, Mapping) and str(k).lower() in UNITS]
    below = (v.items() for v in value.values() if isinstance(v, Mapping) and not found)
    found += [v for one in below for k, v in one if isinstance(v, Mapping) and str(k).lower() in UNITS]
    return found[0] if found else _NO_UNITS


def _text(unit: Any) -> str:
    return unit if isinstance(unit, str) else ""


def _split(value: Mapping[Any, Any]) -> list[RecordColumn]:
    """Return the columns of {"columns": […names…], "data": [[…row…], …]}."""
    names = value.get("columns") or value.get("header") or value.get("fields")
    rows = next((value[k] for k in ("data", "rows", "values") if k in value), None)
    if not isinstance(names, list) or not isinstance(rows, list) or not rows:
        return []
    if not all(isinstance(row, list) and len(row) == len(names) for row in rows) or _nested(rows):
        return []
    units: list[Any] = next((value[k] for k in UNITS if isinstance(value.get(k), list)), [])
    given = [str(u) for u in units] + [""] * len(names)
    return [RecordColumn(str(n), given[k], _column([row[k] for row in rows])) for k, n in enumerate(names)]


def _described(value: Mapping[Any, Any]) -> list[RecordColumn]:
    """Return the columns of {"force": {"unit": "N", "values": […]}, …}."""
    channels = {str(k): v for k, v in value.items() if isinstance(v, Mapping) and _series_of(v) is not None}
    columns = _alike([RecordColumn(k, unit_in(v), _series_of(v)) for k, v in channels.items()])
    return [*_time_of(list(channels.values())), *columns] if columns else []


def _time_of(signals: Sequence[Mapping[Any, Any]]) -> list[RecordColumn]:
    """Return the column of time that signals such as {"x": […], "y": […]} have each for itself, the same in all."""
    axes = [next((_column(one[k]) for k in _AXES if k in one and _is_series(one[k])), None) for one in signals]
    first = axes[0]
    if not isinstance(first, np.ndarray) or len(first) < _AXIS_LEAST:
        return []
    if not all(isinstance(axis, np.ndarray) and np.array_equal(axis, first) for axis in axes):
        return []
    steps = np.diff(first)
    even = bool(steps.min() > 0) and float(np.ptp(steps)) <= _EVEN * float(first[-1] - first[0])
    return [RecordColumn("Time", "", first)] if even else []


def _listed(value: Sequence[Mapping[Any, Any]]) -> list[RecordColumn]:
    """Return the columns of [{"name": "force", "unit": "N", "values": […]}, …]."""
    if all(_series_of(v) is None for v in value[:_LOOKED_AT]):
        return []
    channels = [(_named_under(v, _NAMES), v) for v in value if _series_of(v) is not None]
    return _alike([RecordColumn(str(name), unit_in(v), _series_of(v)) for name, v in channels if name])


def _rows(value: Sequence[Mapping[Any, Any]]) -> list[RecordColumn]:
    """Return the columns of [{"time": 0, "force": 1}, …]."""
    names = dict.fromkeys(str(k) for row in value[:2] for k in row)
    if len(value) < 2 or len(names) < 2:
        return []
    if _nested(row.values() for row in value):
        return []
    return [RecordColumn(name, "", _column([row.get(name) for row in value])) for name in names]


def _rows_under_names(value: Sequence[Any]) -> list[RecordColumn]:
    """Return the columns of [["time", "force"], [0, 1], …]."""
    if len(value) < 3 or not all(isinstance(row, list) and len(row) == len(value[0]) for row in value):
        return []
    names = value[0]
    if len(names) < 2 or not all(isinstance(name, str) for name in names) or _nested(value):
        return []
    return [RecordColumn(name, "", _column([row[k] for row in value[1:]])) for k, name in enumerate(names)]


def _nested(rows: Iterable[Iterable[Any]]) -> bool:
    """Whether a cell of some row holds values of its own, and so is no cell."""
    return any(isinstance(v, dict | list | np.ndarray) for row in rows for v in row)


def _alike(columns: list[RecordColumn]) -> list[RecordColumn]:
    same = len({len(c.values) for c in columns}) == 1
    return columns if len(columns) >= 2 and same and len(columns[0].values) >= 2 else []


def _series_of(value: Mapping[Any, Any]) -> Any:
    found = next((one for one in _under(value, _VALUES) if _is_series(one)), None)
    return None if found is None else _column(found)


def _named_under(value: Mapping[Any, Any], keys: Sequence[str]) -> Any:
    """Return the first value under one of some keys; None where there is none."""
    return next(_under(value, keys), None)


def _under(value: Mapping[Any, Any], keys: Sequence[str]) -> Iterator[Any]:
    """Yield the values under some keys, in their order, however these are written: "Werte", "Données"."""
    held = {plain(str(key)): one for key, one in value.items()}
    yield from (held[key] for key in keys if key in held)


def _is_series(value: Any) -> bool:
    """Whether a value is a column: a list of numbers, or of words, or an array in one direction."""
    if isinstance(value, np.ndarray):
        return value.dtype.kind in "iufb" and value.ndim > 0 and value.size == max(value.shape) > 1
    if not isinstance(value, list) or len(value) < 2:
        return False
    return all(v is None or isinstance(v, int | float | str) for v in value)


def _column(value: Any) -> Any:
    """Return a column as an array, its missing values NaN; as texts where it holds words."""
    if isinstance(value, np.ndarray):
        return np.ascontiguousarray(value, dtype=np.float64).reshape(-1)
    if any(isinstance(v, str) for v in value):
        try:
            return np.array([np.nan if v in (None, "") else float(v) for v in value])
        except ValueError:
            return ["" if v is None else str(v) for v in value]
    return np.array([np.nan if v is None else _number(v) for v in value])


def _number(value: Any) -> float:
    try:
        return float(value)
    except OverflowError:
        return float("nan")


def _may_hold_rows(key: str, value: Any) -> bool:
    """Whether a value is an array or a list that is no fact: neither a note's lines nor a few numbers."""
    if isinstance(value, np.ndarray):
        return value.size > FEW or value.dtype.kind not in "iufb"
    return isinstance(value, list) and not (is_settings(key, value) or are_notes(key, value) or are_few(value))


def _facts_below(value: Mapping[Any, Any], depth: int = 0) -> tuple[str, ...] | None:
    """Return the scalars of a mapping and of those below it as lines; None where it holds columns or rows."""
    if depth > _FACTS_DEEP or any(_may_hold_rows(str(k), v) for k, v in value.items()) or _columns(value):
        return None
    lines = facts(value, set())
    for key, one in value.items():
        if not isinstance(one, Mapping) or str(key).lower() in (*SETTINGS, *UNITS) or quantity_in(one):
            continue
        below = _facts_below(one, depth + 1)
        if below is None:
            return None
        lines = (*lines, *title_lines(str(key), ""), *below)
    return lines
