"""Records grouped by what they repeat: a setting of a shock, in one state, by one kind of file, at one warmth."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from typing import TYPE_CHECKING

from dynoan.analysis.clickmap.assumptions.data import SAME_STATE_DAYS
from dynoan.analysis.clickmap.tested.states import day_of
from dynoan.model.setting import RunSetting, setting_of

if TYPE_CHECKING:
    from dynoan.library import SweepRecord

#: runs whose oil was further apart than this are no repeats (common practice, no source) [K]
ONE_WARMTH = 10.0


def by_setting(records: Sequence[SweepRecord]) -> tuple[list[SweepRecord], ...]:
    """Return records grouped by shock, pack and clicks, in order of first appearance."""
    groups: dict[RunSetting, list[SweepRecord]] = {}
    for record in records:
        groups.setdefault(setting_of(record), []).append(record)
    return tuple(groups.values())


def by_state(records: Sequence[SweepRecord]) -> tuple[list[SweepRecord], ...]:
    """Return records grouped by setting, state, kind of file and warmth: what may be pooled without a doubt."""
    begun = _states(records)
    groups: dict[tuple[RunSetting, str, date | None], list[SweepRecord]] = {}
    for record in records:
        groups.setdefault((setting_of(record), record.layout, begun[record.id]), []).append(record)
    return tuple(part for group in groups.values() for part in _by_warmth(group))


def by_day(records: Sequence[SweepRecord]) -> tuple[list[SweepRecord], ...]:
    """Return records grouped as by `by_state`, each day apart: whether a shock changed between two days is not known
    before their curves are."""
    groups: list[list[SweepRecord]] = []
    for group in by_state(records):
        days = dict.fromkeys(day_of(r.date) for r in group)
        groups += [[r for r in group if day_of(r.date) == day] for day in days]
    return tuple(groups)


def latest(records: Sequence[SweepRecord]) -> list[SweepRecord]:
    """Return the records without those of each setting that lie over `SAME_STATE_DAYS` before its newest.

    A shock wears: runs of another season are its history (see `health`), not repeats of the same state. A later run of
    one setting leaves the others alone.
    """
    newest: dict[RunSetting, date] = {}
    for record in records:
        day = day_of(record.date)
        if day is not None:
            setting = setting_of(record)
            newest[setting] = max(newest.get(setting, day), day)
    return [
        r for r in records if (day := day_of(r.date)) is None or (newest[setting_of(r)] - day).days <= SAME_STATE_DAYS
    ]


def since(records: Sequence[SweepRecord], first: str) -> list[SweepRecord]:
    """Return the records of one shock from the day on which its last state began, or without a date."""
    begun = day_of(first)
    return [r for r in records if begun is None or (day := day_of(r.date)) is None or day >= begun]


def _states(records: Sequence[SweepRecord]) -> dict[str, date | None]:
    """Return, by a record's id, the day on which its shock's state began; None where no date tells."""
    out: dict[str, date | None] = {}
    for shock in {r.shock for r in records}:
        begun: date | None = None
        dated = [(day, r.id) for r in records if r.shock == shock and (day := day_of(r.date)) is not None]
        for day, name in sorted(dated):
            if begun is None or (day - begun).days > SAME_STATE_DAYS:
                begun = day
            out[name] = begun
    return {r.id: out.get(r.id) for r in records}


def _by_warmth(group: Sequence[SweepRecord]) -> list[list[SweepRecord]]:
    known = sorted((r for r in group if r.temperature is not None), key=lambda r: r.temperature or 0.0)
    out = [unknown] if (unknown := [r for r in group if r.temperature is None]) else []
    coolest: float | None = None
    for record in known:
        if coolest is None or (record.temperature or 0.0) - coolest > ONE_WARMTH:
            out.append([])
            coolest = record.temperature
        out[-1].append(record)
    return out
