"""A dropped file as its card shows it: picture, what it is, why it was understood so, doubts, questions."""

from __future__ import annotations

import hashlib
import re
from collections.abc import Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from dynoan.errors import DynoanError
from dynoan.jobs.log_time import log_time
from dynoan.jobs.read.look import Ask, LookAnswer
from dynoan.jobs.travel.channels import travel_columns
from dynoan.model.adjusters import in_order
from dynoan.model.arrays import FloatArray
from dynoan.reading import read_log_bytes
from dynoan.show.text.facts_left import facts_left
from dynoan.units import Display, Shown, degrees, shown
from dynoan.window.described import Described, described

if TYPE_CHECKING:
    from dynoan.jobs.read import SweepRead
    from dynoan.window.dropped_file import DroppedFile

WIDE, HIGH = 180.0, 110.0  #: of a card's picture, in its own units
MOST_POINTS = 260
MOST_SAID = 3  #: lines of a file beside its numbers that a card shows
_GIVE = r"(?:give|name one with|choose with|say it with|name it with)"
_OPTION = re.compile(rf" \(--\w+[^()]*\)|(?:, |; | or )?(?:please )?{_GIVE}?(?: (?:by|with))?\s*--\w+[^;,.]*")


@dataclass(frozen=True)
class Sketch:
    """Force against velocity, small: paths in a box of `WIDE` by `HIGH`."""

    compression: str
    rebound: str
    dots: bool  #: a peak table: points, not a line
    zero: tuple[float, float]  #: where both are zero


@dataclass(frozen=True)
class Run:
    """One run of a file."""

    parts: tuple[str, ...]  #: shock, pack and clicks, or the file's name
    what: str
    peaks: str  #: as read, and whether gas force is still in it
    facts: tuple[tuple[str, str], ...]
    evidence: tuple[tuple[str, str], ...]  #: channel, and why it was understood so
    sketch: Sketch | None

    @property
    def title(self) -> str:
        """Its name in one line."""
        return " · ".join(self.parts)


@dataclass(frozen=True)
class Card:
    """One file."""

    file: DroppedFile
    runs: tuple[Run, ...]
    error: str | None
    asks: tuple[Ask, ...]
    doubts: tuple[str, ...]
    sha256: str
    duplicate: bool  #: whether the library holds these bytes
    shock: str
    pack: str
    date: str
    clicks: Mapping[str, int]
    log: bool = False  #: whether it is no dyno run, but logged on a car
    described: Described | None = None  #: the car or the shock that it describes

    @property
    def said(self) -> list[tuple[str, str]]:
        """What somebody said of it, by the names of the fields; without clicks and what is being asked."""
        facts = self.file.facts
        parts = ((key, value) for key, value in facts.plain.items() if key != "clicks")
        units = ((f"unit.{key}", value) for key, value in facts.units.items())
        columns = ((f"column.{key}", value) for key, value in facts.columns.items())
        asked = {f"{a.what}.{a.channel}" if a.channel else a.what for a in self.asks}
        return [(name, value) for name, value in (*parts, *units, *columns) if name not in asked]

    @property
    def known(self) -> set[str]:
        """What the file or somebody says of it, by the names of the table's columns, so that nothing writes over it."""
        said = {"shock": self.shock, "pack": self.pack, "date": self.date}
        return {name for name, value in said.items() if value} | set(self.clicks)

    @property
    def ready(self) -> bool:
        """Whether it can be kept."""
        return self.error is None and bool(self.runs or self.described)

    @property
    def whole(self) -> bool:
        """Whether nothing is missing that makes it useful."""
        return self.ready and bool(self.described or (self.shock and self.pack and self.clicks))


def card_of(file: DroppedFile, found: LookAnswer, units: Shown) -> Card:
    """Return a file as its card shows it, as if the library did not hold it."""
    first = found.sweeps[0].sweep if found.sweeps else None
    said = file.facts.plain
    data = found.question.brought.data
    one = described(data, file.name) if found.error is not None else None
    if one is not None:
        digest = hashlib.sha256(data).hexdigest()
        return Card(file, (), spoken(one.fault) or None, (), (), digest, False, "", "", "", {}, described=one)
    return Card(
        file, tuple(_run(one, units) for one in found.sweeps), _of_card(found.error, file.name),
        found.asks, tuple(spoken(t).removeprefix(f"{file.name}: ") for t in found.warnings),
        hashlib.sha256(data).hexdigest() if data else "", False,
        (first.shock if first else said.get("shock")) or "", (first.pack if first else said.get("pack")) or "",
        (first.date if first else said.get("date")) or "", dict(first.clicks) if first else {},
        found.error is not None and _is_log(data, file.name),
    )  # fmt: skip


def _of_card(text: str | None, name: str) -> str | None:
    """Return an error or a doubt without the name of its file, which heads the card."""
    return None if text is None else spoken(text).removeprefix(f"{name}: ")


def _is_log(data: bytes, name: str) -> bool:
    """Return whether a file that is no dyno run has time and the travel of a named shock."""
    try:
        log = read_log_bytes(data, name)
        log_time(log)
        return bool(travel_columns(log, {}))
    except DynoanError:
        return False


def spoken(text: str) -> str:
    """Return an error or a doubt without the command line's options: here they are asked as buttons and fields."""
    plain = _OPTION.sub("", " ".join(text.split()))
    return plain.rstrip(" ,;:") or text


def _run(found: SweepRead, units: Shown) -> Run:
    sweep = found.sweep
    velocity, force = shown("velocity", units), shown("force", units)
    ways = [
        f"{way} not tested" if p.velocity is None
        else f"{way} {_known(p.force, force)} at up to {_known(p.velocity, velocity)}"
        for way, p in found.peaks.items()
    ]  # fmt: skip
    rate = "" if sweep.rate is None else f" at {sweep.rate:.0f} Hz"
    what = f"trace, {sweep.samples} samples{rate}" if sweep.layout == "trace" else f"peak table, {sweep.samples} rows"
    evidence = [
        (name, f"‘{d.column}’{f' in {d.unit}' if d.unit else ''}{', turned round' if d.sign < 0 else ''}: {d.evidence}")
        for name, d in sweep.decisions.items() if name in sweep.channels
    ]  # fmt: skip
    facts = [
        ("date", (sweep.date or "")[:10]),
        ("temperature", "" if sweep.temperature is None else degrees(sweep.temperature, units)),
        ("gas", "" if sweep.gas_pressure is None else shown("pressure", units).text(sweep.gas_pressure)),
        ("layout", sweep.source.importer),
    ]
    clicks = ", ".join(f"{name} {click}" for name, click in in_order(sweep.clicks).items())
    parts = tuple(filter(None, (sweep.shock, sweep.pack, clicks))) or (sweep.source.name,)
    told = " ".join([*parts, *(value for _, value in facts)])
    facts.append(("the file also says", facts_left(sweep, told, MOST_SAID).text()))
    still_in = sweep.layout == "trace" and sweep.gas_removed is not True
    peaks = f"{'; '.join(ways)} (as read{', gas force still in' if still_in else ''})"
    return Run(parts, what, peaks, tuple((k, v) for k, v in facts if v), tuple(evidence), _sketch(found))


def _known(value: float | None, how: Display) -> str:
    return "–" if value is None else how.text(value)


def _sketch(found: SweepRead) -> Sketch | None:
    force = found.sweep.channels["force"]
    if found.velocity is None:
        return None
    v, f = np.asarray(found.velocity), np.asarray(force)
    good = np.isfinite(v) & np.isfinite(f)
    v, f = v[good], f[good]
    if len(v) < 2 or not np.ptp(v) > 0 or not np.ptp(f) > 0:
        return None
    every = max(1, len(v) // (MOST_POINTS * 2))
    v, f = v[::every][: MOST_POINTS * 2], f[::every][: MOST_POINTS * 2]
    zero = (float(_onto(np.zeros(1), v, WIDE)[0]), float(HIGH - _onto(np.zeros(1), f, HIGH)[0]))
    px, py, up = _onto(v, v, WIDE), HIGH - _onto(f, f, HIGH), v >= 0
    inside = (min(max(zero[0], 0.0), WIDE), min(max(zero[1], 0.0), HIGH))
    return Sketch(_dots(px[up], py[up]), _dots(px[~up], py[~up]), found.sweep.layout == "peaks", inside)


def _onto(values: FloatArray, span: FloatArray, size: float) -> FloatArray:
    """Return values as places on an edge of a picture, a margin left free."""
    return np.asarray(6 + (values - span.min()) / np.ptp(span) * (size - 12))


def _dots(x: FloatArray, y: FloatArray) -> str:
    """Return points as a path of dots: each a stroke of no length with a round end."""
    return "".join(f"M{a:.1f} {b:.1f}h0" for a, b in zip(x, y, strict=True))
