"""WHAT a person names on the command line, taken apart: a file, a sweep's id, or a setting."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from pathlib import Path
from typing import TYPE_CHECKING

from dynoan.errors import CallError
from dynoan.model.curve import Curve
from dynoan.model.dates import date_beginning
from dynoan.model.importing import ReadOptions
from dynoan.model.setting import RunSetting, setting_of
from dynoan.model.shock import ADJUSTERS, clicks_text, parse_clicks
from dynoan.model.sweep import Sweep
from dynoan.units import brief

if TYPE_CHECKING:
    from dynoan.library import SweepRecord


@dataclass(frozen=True)
class Resolved:
    """One thing that WHAT names: its curve, and what the curve rests on."""

    label: str
    curve: Curve
    sweeps: tuple[Sweep, ...] = ()
    shock: str | None = None
    pack: str | None = None
    clicks: Mapping[str, int] = field(default_factory=dict)  #: as the shock counts
    from_closed: Mapping[str, int] = field(default_factory=dict)


@dataclass(frozen=True)
class Wanted:
    """The parts of WHAT where it names a setting; None where it leaves a part open."""

    shock: str | None = None
    pack: str | None = None
    date: str | None = None
    clicks: Mapping[str, int] = field(default_factory=dict)

    def fits(self, record: SweepRecord) -> bool:
        """Tell whether a sweep of the library is of this setting."""
        return (
            self.shock in (None, record.shock)
            and self.pack in (None, record.pack)
            and (self.date is None or (record.date or "").startswith(self.date))
            and all(record.clicks.get(name) == click for name, click in self.clicks.items())
        )


def parse_wanted(what: str) -> Wanted:
    """Return the parts of "pack=gravel,lsc=6" or "gravel@lsc=6,lsr=8".

    Raises
    ------
    CallError
        If a part is not understood or stands twice.
    QuantityError
        If a date is none.
    """
    pack, at, rest = what.partition("@")
    if not at:
        pack, rest = "", what
    facts: dict[str, str] = {"pack": pack} if pack else {}
    clicks: list[str] = []
    for part in filter(None, (p.strip() for p in rest.split(","))):
        key, equals, value = (p.strip() for p in part.partition("="))
        if equals and key.lower() in facts:
            raise CallError(f"'{brief(what)}': {key.lower()} stands twice", hint="name it once")
        if equals and key.lower() in {"shock", "pack", "date"}:
            facts[key.lower()] = date_beginning(value) if key.lower() == "date" else value
        elif equals and key.lower() in ADJUSTERS:
            clicks.append(part)
        else:
            keys = "shock, pack, date, " + ", ".join(ADJUSTERS)
            raise CallError(f"'{brief(what)}': '{brief(part)}' is not key=value with one of {keys}")
    return Wanted(clicks=parse_clicks(",".join(clicks), where=f"'{brief(what)}'"), **facts)


def group_by_setting(sweeps: tuple[Sweep, ...]) -> list[list[Sweep]]:
    """Return sweeps by shock, pack and clicks, in order of first appearance; unnamed ones stay apart."""
    groups: dict[RunSetting | int, list[Sweep]] = {}
    for number, sweep in enumerate(sweeps):
        setting = setting_of(sweep)
        groups.setdefault(setting if setting.named else number, []).append(sweep)
    return list(groups.values())


def resolve_file(path: Path, options: ReadOptions | None = None) -> tuple[Resolved, ...]:
    """Return one fitted curve a setting of a rig's file; needs no library."""
    from dynoan.reading import read

    sweeps = read(path, options or ReadOptions())
    groups = group_by_setting(sweeps)
    return tuple(_from_sweeps(tuple(group), path.name, alone=len(groups) == 1) for group in groups)


def _from_sweeps(sweeps: tuple[Sweep, ...], name: str, *, alone: bool) -> Resolved:
    from dynoan.analysis.fitting.fit import fit

    first = sweeps[0]
    label = name if alone else f"{name} {first.source.part or clicks_text(first.clicks)}".strip()
    return Resolved(label, fit(sweeps), sweeps, first.shock, first.pack, dict(first.clicks), dict(first.clicks))
