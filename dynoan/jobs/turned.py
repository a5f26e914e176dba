"""Settings of packs side by side, as fast as somebody turns: forces from the click maps' tables, pieces left out."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Any, ClassVar

import numpy as np

from dynoan.analysis.clickmap.asked.authority import Authority, authority, told
from dynoan.analysis.clickmap.at_clicks import curve_at
from dynoan.errors import CallError
from dynoan.jobs.answering import Answer
from dynoan.jobs.compare import Compared, compared
from dynoan.jobs.curve_table import curve_dict, speeds_for
from dynoan.model.curve import DIRECTIONS, Curve, Direction
from dynoan.model.shock import Adjuster, Shock, clicks_text
from dynoan.model.side import Side
from dynoan.units import Shown
from dynoan.workbench.resolving import Wanted, parse_wanted

if TYPE_CHECKING:
    from dynoan.workbench import Workbench

MOST = 6  #: side by side; more nobody tells apart: common practice, no source


@dataclass(frozen=True)
class TurnedQuestion:
    """Which settings, such as "gravel@lsc=6,lsr=8" or "shock=RL-03,pack=gravel,lsc=6"."""

    settings: tuple[str, ...]
    units: Shown = "metric"  #: in which the speeds of the table are round


@dataclass(frozen=True)
class Turned:
    """One setting."""

    pack: str
    adjusters: tuple[Adjuster, ...]  #: that can be turned; none as long as the pack's click map is not there
    counting: Shock  #: whose counting its clicks use
    clicks: Mapping[str, int]  #: as that shock counts
    curve: Curve
    worth: tuple[Authority, ...]  #: what a click of each adjuster does here; asked of the first alone

    @property
    def what(self) -> str:
        """The setting as it is written."""
        turned = clicks_text(dict(self.clicks))
        if self.curve.shock:
            return ",".join(filter(None, (f"shock={self.curve.shock}", f"pack={self.pack}", turned)))
        return f"{self.pack}@{turned}" if turned else self.pack


@dataclass(frozen=True)
class TurnedAnswer(Answer):
    """The curves, and what they do at the same speeds, the first being what the others are held against."""

    job: ClassVar[str] = "turned"
    question: TurnedQuestion
    found: tuple[Turned, ...]
    table: tuple[Compared, ...]

    def to_dict(self) -> dict[str, Any]:
        """Return the result as plain values: a curve each with its table and lines, and the comparison."""
        return {"curves": [_dict(one) for one in self.found], "table": list(self.rows())}

    def rows(self) -> Sequence[Mapping[str, Any]]:
        """Return one row a direction and speed: force, limits and difference from the first of every curve."""
        return [row for direction in DIRECTIONS for row in self._rows(direction)]

    def _rows(self, direction: Direction) -> list[dict[str, Any]]:
        rows = [row for row in self.table if row.direction == direction]
        speeds = np.array([row.speed for row in rows])
        bands = [one.curve.side(direction).band(speeds) for one in self.found]
        return [
            {"direction": direction, "velocity_m_s": row.speed, "force_n": list(row.forces),
             "low_n": [_held(low[i], f) for (low, _), f in zip(bands, row.forces, strict=True)],
             "high_n": [_held(high[i], f) for (_, high), f in zip(bands, row.forces, strict=True)],
             "difference_pct": list(row.differences), "difference_n": [_off(row.forces[0], f) for f in row.forces]}
            for i, row in enumerate(rows)
        ]  # fmt: skip


def answer(bench: Workbench, question: TurnedQuestion) -> TurnedAnswer:
    """Return the curves of settings, tested or not.

    Raises
    ------
    LookupFault
        If the library holds no sweep of a pack.
    CallError
        If none or too many settings are named, or one is not understood.
    QuantityError
        If a click lies outside its adjuster.
    """
    _check(question)
    return _beside(question, tuple(_turned(bench, text, worth=i == 0) for i, text in enumerate(question.settings)))


def tested(bench: Workbench, question: TurnedQuestion) -> TurnedAnswer | None:
    """Return settings that were tested by the curves of their runs, which are there before a click map is.

    None where a curve is not fitted yet, or a setting was not tested.

    Raises
    ------
    CallError
        If none or too many settings are named, or one is not understood.
    """
    _check(question)
    found = [_tested(bench, text) for text in question.settings]
    known = tuple(one for one in found if one is not None)
    return _beside(question, known) if len(known) == len(found) else None


def _check(question: TurnedQuestion) -> None:
    if not 1 <= len(question.settings) <= MOST:
        raise CallError(f"{len(question.settings)} settings", hint=f"name 1 to {MOST}")


def _beside(question: TurnedQuestion, found: tuple[Turned, ...]) -> TurnedAnswer:
    curves = [one.curve for one in found]
    speeds = sorted({s for curve in curves for s in speeds_for(curve, None, question.units)})
    rows = compared(curves, None, question.units) if len(curves) > 1 else compared([curves[0], curves[0]], speeds)
    table = tuple(Compared(r.direction, r.speed, r.forces[: len(curves)], r.differences[: len(curves)]) for r in rows)
    return TurnedAnswer(question=question, found=found, table=table)


def _wanted(text: str) -> tuple[str, Wanted]:
    wanted = parse_wanted(text if "=" in text or "@" in text else f"pack={text}")
    if not wanted.pack:
        raise CallError(f"'{text}': which pack? write it like gravel@lsc=6,lsr=8")
    return wanted.pack, wanted


def _tested(bench: Workbench, text: str) -> Turned | None:
    """Return a tested setting; of several the one that has most adjusters where most tests have them."""
    pack, wanted = _wanted(text)
    fitted = bench.fitted(pack) or []
    seen = Counter(click for group, _ in fitted for click in group[0].clicks.items())
    fit = [(group[0], curve) for group, curve in fitted if wanted.fits(group[0])]
    if not fit:
        return None
    first, curve = max(fit, key=lambda one: sum(seen[click] for click in one[0].clicks.items()))
    curve = replace(curve, standing="tested", shock=wanted.shock)
    return Turned(pack, (), bench.shock(first.shock), dict(first.clicks), curve, ())


def _turned(bench: Workbench, text: str, *, worth: bool) -> Turned:
    pack, wanted = _wanted(text)
    map = bench.click_map(pack)
    counting = bench.counting_of(map, wanted.shock)
    from_closed = map.from_counted(counting, wanted.clicks)
    clicks = {n: c for n, c in counting.to_counted(from_closed).items() if n in {a.name for a in map.adjusters}}
    curve = curve_at(map, from_closed, clicks=clicks, shock=wanted.shock, pieces=False)
    return Turned(pack, map.adjusters, counting, clicks, curve, told(map, authority(map, from_closed)) if worth else ())


def _held(limit: float, force: float | None) -> float | None:
    return None if force is None else float(limit)


def _off(first: float | None, force: float | None) -> float | None:
    return None if first is None or force is None else force - first


def _dict(one: Turned) -> dict[str, Any]:
    full = curve_dict(one.curve)
    ways = {a.name: a for a in one.counting.adjusters}
    return {
        "what": one.what, "pack": one.pack, "shock": one.curve.shock, "clicks": dict(one.clicks),
        "standing": one.curve.standing, "table": full["table"],
        "adjusters": [{"name": a.name, "last": a.clicks, "counted": ways.get(a.name, a).counted}
                      for a in one.adjusters],
        "lines": {d: _line(one.curve.side(d)) for d in DIRECTIONS},
        "worth": [{"adjuster": w.adjuster, "direction": w.direction, "cross_talk": not w.intended, "tested": w.known,
                   "velocity_m_s": w.speeds.tolist(), "force_n_per_click": w.newtons.tolist(),
                   "force_pct_per_click": w.percent.tolist()} for w in one.worth],
    }  # fmt: skip


def drawn(curve: Curve) -> dict[str, Any]:
    """Return a curve as it is drawn: the setting, where it stands, and by direction its lines with bands, SI.

    Forces to 0.1 N and speeds to 0.01 mm/s, which no screen shows.
    """
    lines = {d: {k: np.round(v, 5 if k == "velocity_m_s" else 1).tolist() for k, v in _line(curve.side(d)).items()}
             for d in DIRECTIONS}  # fmt: skip
    return {"what": curve.what, "standing": curve.standing, "lines": lines}


def _line(side: Side) -> dict[str, Any]:
    speeds = np.append(side.speeds[side.speeds < side.top_speed], side.top_speed)
    low, high = side.band(speeds)
    return {"velocity_m_s": speeds.tolist(), "force_n": side.force(speeds).tolist(), "low_n": low.tolist(),
            "high_n": high.tolist()}  # fmt: skip
