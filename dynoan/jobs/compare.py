"""Packs, clicks, shocks or dates over one another: forces, differences, where they cross, which adjuster has a say."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Any, ClassVar

from dynoan.analysis.clickmap.asked.authority import Coverage, authority_shown, coverage
from dynoan.analysis.matching.compare import Crossing, crossings
from dynoan.errors import CallError, DynoanError
from dynoan.jobs.answering import Answer
from dynoan.jobs.curve_table import Speeds, SpeedsAsked, asked_speeds, curve_dict, speeds_for
from dynoan.jobs.named import click_remarks, distinct, temperature_remarks
from dynoan.model.clickmap import ClickMap
from dynoan.model.curve import DIRECTIONS, Curve, Direction
from dynoan.model.side import Side
from dynoan.units import Shown
from dynoan.workbench.resolving import Resolved

if TYPE_CHECKING:
    from dynoan.workbench import Workbench

#: the first against this many others fits a table
MOST = 7
#: a usual speed within this factor of the one before is left out: the tops of several curves crowd
CROWDED = 1.08


@dataclass(frozen=True)
class CompareQuestion:
    """What is laid over one another, the first being what the others are held against."""

    what: tuple[str, ...]  #: each a rig's file, a sweep's id, or a setting such as "gravel@lsc=6,lsr=8"
    at: Speeds | None = None  #: in both directions [m/s]; None: the usual ones inside the data

    @classmethod
    def asked(cls, *what: str, at: SpeedsAsked = None) -> CompareQuestion:
        """Return the question from values as people give them: SI numbers, or text with a unit.

        Raises
        ------
        QuantityError
            If a speed is none, or not above zero.
        """
        return cls(what, asked_speeds(at))


@dataclass(frozen=True)
class Compared:
    """All curves at one speed of one direction; None where a curve's data do not hold it."""

    direction: Direction
    speed: float  #: [m/s]
    forces: tuple[float | None, ...]  #: damping, magnitudes [N]
    differences: tuple[float | None, ...]  #: from the first [%]


@dataclass(frozen=True)
class CompareAnswer(Answer):
    """What the curves do at the same speeds."""

    job: ClassVar[str] = "compare"
    question: CompareQuestion
    labels: tuple[str, ...]  #: of the curves, no two alike
    found: tuple[Resolved, ...]
    table: tuple[Compared, ...]
    crossings: tuple[Crossing, ...]
    maps: Mapping[str, tuple[ClickMap, Mapping[str, int]]]  #: by pack: its click map, and clicks from closed

    @property
    def curves(self) -> list[Curve]:
        """The curves, the first being what the others are held against."""
        return [one.curve for one in self.found]

    @property
    def coverage(self) -> dict[str, tuple[Coverage, ...]]:
        """Which adjuster has the say at which speeds, by pack."""
        return self.coverage_in("metric")

    def coverage_in(self, units: Shown) -> dict[str, tuple[Coverage, ...]]:
        """Return which adjuster has the say at which speeds, by pack, round in the units people are shown. [m/s, %]"""
        return {pack: coverage(authority_shown(map, at, units)) for pack, (map, at) in self.maps.items()}

    def to_dict(self) -> dict[str, Any]:
        """Return the result as ``dynoan compare --json`` prints it."""
        at, labels = self.question.at, self.labels
        named = zip(self.curves, labels, strict=True)
        return {
            "curves": [{**curve_dict(c, at), "what": label} for c, label in named],
            "table": [{"direction": r.direction, "velocity_m_s": r.speed, "force_n": list(r.forces),
                       "difference_pct": list(r.differences)} for r in self.table],
            "crossings": [{"stiffer_below": labels[c.first], "stiffer_above": labels[c.second],
                           "direction": c.direction, "velocity_m_s": c.speed, "force_n": c.force, "clear": c.clear}
                          for c in self.crossings],
            "coverage": [{"pack": pack, "adjuster": c.adjuster, "direction": c.direction, "from_m_s": c.low,
                          "to_m_s": c.high, "most_pct_per_click": c.percent}
                         for pack, cs in self.coverage.items() for c in cs],
        }  # fmt: skip

    @property
    def columns(self) -> tuple[str, ...]:  # type: ignore[override]
        """Of the main table, which is empty where no speed is common to two curves."""
        forces = [f"force_n {label}" for label in self.labels]
        return ("direction", "velocity_m_s", *forces, *(f"difference_pct {label}" for label in self.labels[1:]))

    def rows(self) -> Sequence[Mapping[str, Any]]:
        """Return one row a direction and speed: the force of every curve, and its difference from the first."""
        values = [(r.direction, r.speed, *r.forces, *r.differences[1:]) for r in self.table]
        return [dict(zip(self.columns, row, strict=True)) for row in values]


def answer(bench: Workbench, question: CompareQuestion) -> CompareAnswer:
    """Return the curves of all that is named, at the same speeds.

    Raises
    ------
    LookupFault
        If the library holds nothing of one.
    CallError
        If fewer than two or too many curves are named, or one is not understood.
    """
    found = tuple(_named(bench, question.what))
    curves = [one.curve for one in found]
    return CompareAnswer(
        question, tuple(distinct(found)), found, tuple(compared(curves, question.at)), crossings(curves),
        _maps(bench, found), warnings=(*click_remarks(question.what, found), *temperature_remarks(found)),
    )  # fmt: skip


def _named(bench: Workbench, what: Sequence[str]) -> list[Resolved]:
    if len([w for w in what if not Path(w).is_file()]) > 1:
        bench.prepare(what)
    found = [one for name in what for one in bench.resolve(name)]
    if len(found) < 2:
        raise CallError("name two or more to compare, such as gravel@lsc=6 and mixed@lsc=6")
    if len(found) > MOST + 1:
        labels = ", ".join(r.label for r in found[: MOST + 1])
        raise CallError(
            f"{len(found)} curves are too many for one table", hint=f"name up to {MOST + 1} (found {labels}, …)"
        )
    return found


def compared(curves: Sequence[Curve], at: Sequence[float] | None, units: Shown = "metric") -> list[Compared]:
    """Return the curves at speeds that two or more of them hold, by direction.

    Parameters
    ----------
    curves
        The curves, the first being what the others are held against.
    at
        Speeds [m/s]; None: the usual ones of all the curves, where they do not crowd.
    units
        In which the usual ones are round.
    """
    speeds = sorted({s for curve in curves for s in speeds_for(curve, at, units)}) if at is None else list(at)
    rows = [_at(d, [curve.side(d) for curve in curves], speed) for d in DIRECTIONS for speed in speeds]
    held = [row for row in rows if sum(f is not None for f in row.forces) > 1]
    return held if at is not None else _thinned(held)


def _at(direction: Direction, sides: Sequence[Side], speed: float) -> Compared:
    forces = tuple(float(s.force(speed)) if _holds(s, speed) else None for s in sides)
    first = forces[0]
    off = tuple(100 * (f / first - 1) if f is not None and first else None for f in forces)
    return Compared(direction, speed, forces, off)


def _holds(side: Side, speed: float) -> bool:
    return bool(side.low_speed * 0.9 <= speed <= side.top_speed * 1.001)


def _thinned(rows: Sequence[Compared]) -> list[Compared]:
    out: list[Compared] = []
    for row in rows:
        last = out[-1] if out else None
        if last is None or last.direction != row.direction or row.speed >= CROWDED * last.speed:
            out.append(row)
    return out


def _maps(bench: Workbench, found: Sequence[Resolved]) -> dict[str, tuple[ClickMap, Mapping[str, int]]]:
    """Return, for each pack with a click map, the map and the clicks from closed that are compared."""
    out: dict[str, tuple[ClickMap, Mapping[str, int]]] = {}
    for one in found:
        if one.pack is None or one.pack in out or Path(one.label).is_file():
            continue
        try:
            out[one.pack] = (bench.click_map(one.pack), one.from_closed)
        except DynoanError:
            continue  # a file alone, or a pack the library does not hold: nothing to say about its adjusters
    return out
