"""A shock or a pack against its own earlier tests."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from datetime import date
from typing import TYPE_CHECKING, Any, ClassVar

from dynoan.analysis.clickmap.asked.authority import click_worth
from dynoan.analysis.clickmap.at_clicks import curve_at
from dynoan.analysis.clickmap.tested.loss_per_kelvin import OilTold
from dynoan.analysis.conditioning.condition import condition
from dynoan.analysis.health.assumptions import GAS_SD_UNTOLD
from dynoan.analysis.health.change import health
from dynoan.analysis.health.each_shock import of_each_shock, with_each
from dynoan.analysis.health.records import Change, Health, Test
from dynoan.analysis.health.session import Seen, gas_error_untold, state_of
from dynoan.analysis.matching.assumptions import SPEEDS
from dynoan.analysis.matching.points import Points, sides_of
from dynoan.errors import CallError, DynoanError, LookupFault, QuantityError
from dynoan.jobs.answering import Answer
from dynoan.jobs.oil import told_by
from dynoan.model.arrays import FloatArray
from dynoan.model.curve import Curve, Direction
from dynoan.model.dates import iso_date
from dynoan.model.setting import RunSetting, setting_of

if TYPE_CHECKING:
    from dynoan.library import SweepRecord
    from dynoan.workbench import Workbench


@dataclass(frozen=True)
class HealthQuestion:
    """Which shock or pack, from which date on."""

    what: str  #: a shock, or else a pack
    since: str | None = None  #: tests before this date are left out, such as "2026-01-31"

    @classmethod
    def asked(cls, what: str, *, since: date | str | None = None) -> HealthQuestion:
        """Return the question from values as people give them.

        Raises
        ------
        CallError
            If the date is none.
        """
        try:
            day = None if since is None else iso_date(str(since))[:10]
        except QuantityError as error:
            raise error.again(part="since", kind=CallError) from None
        return cls(what, day)


@dataclass(frozen=True)
class HealthAnswer(Answer):
    """What became of a shock. The answer is no where it changed, and where it cannot be told."""

    job: ClassVar[str] = "health"
    question: HealthQuestion
    health: Health
    apart: Mapping[str, Health] = field(default_factory=dict)  #: of a pack's shocks by name, each by itself

    @property
    def no(self) -> bool:
        """Whether it is not as before."""
        return self.health.verdict != "as before"

    def to_dict(self) -> dict[str, Any]:
        """Return the result as ``dynoan health --json`` prints it."""
        found = self.health
        return {
            "what": self.question.what, **_told(found),
            "shocks": [{"shock": shock, **_told(one)} for shock, one in self.apart.items()],
            "trend": [{"date": p.date, "quantity": p.quantity, "direction": p.direction, "value": p.value,
                       "half": p.half, "unit": _trend_unit(p.quantity)} for p in found.trend],
            "steps": [{"quantity": s.quantity, "direction": s.direction, "last_before": s.before,
                       "first_after": s.after, "earliest": s.earliest, "latest": s.latest, "change": s.change,
                       "unit": _trend_unit(s.quantity)} for s in found.since],
        }  # fmt: skip

    def rows(self) -> Sequence[Mapping[str, Any]]:
        """Return one row a change from the first session to the last; its unit stands beside it."""
        return [{"quantity": c.quantity, "direction": c.direction, "velocity_m_s": c.speed, "change": c.value,
                 "low": c.low, "high": c.high, "unit": _unit(c)} for c in self.health.changes]  # fmt: skip


def _told(found: Health) -> dict[str, Any]:
    return {
        "verdict": found.verdict, "first": found.first, "last": found.last,
        "findings": [{"name": f.name, "direction": f.direction, "evidence": f.evidence, "meaning": f.meaning}
                     for f in found.findings],
        "changes": [{"quantity": c.quantity, "direction": c.direction, "velocity_m_s": c.speed,
                     f"change_{_unit(c)}": c.value, "low": c.low, "high": c.high} for c in found.changes],
    }  # fmt: skip


def _unit(change: Change) -> str:
    return {"gas": "n", "friction": "n", "fade": "pct_per_10_c"}.get(change.quantity, "pct")


def _trend_unit(quantity: str) -> str:
    return "pct" if quantity == "force" else "n"


def answer(bench: Workbench, question: HealthQuestion) -> HealthAnswer:
    """Return what changed from the first session to the last, with intervals: force [%], gas and friction [N].

    Tests of one date are a session.

    Raises
    ------
    LookupFault
        If the library holds neither a shock nor a pack of that name.
    CallError
        If fewer than two dates are there.
    """
    said: list[str] = []
    records = _dated(bench, question, said)
    bench.told(records)  # all at once: one by one would leave cores idle
    untold = 0
    tests = []
    oil = {pack: told_by(bench, pack) for pack in {r.pack for r in records} if pack is not None}
    for group in _settings(records):
        test, unsure = _test(bench, group, oil.get(group[0].pack or ""))
        tests.append(test)
        untold += unsure
    if untold:
        said.append(f"{untold} of {len(records)} sweeps do not tell the error of their gas force; ±{GAS_SD_UNTOLD:g} N "
                    "is assumed (common practice, no source)")  # fmt: skip
    wanted, rods = SPEEDS[bench.units], {r.shock or "": bench.shock(r.shock).rod_diameter for r in records}
    same = next(iter(rods.values())) if len(set(rods.values())) == 1 else None
    apart = of_each_shock(tests, rods, wanted)
    found = with_each(health(tests, rod=same, wanted=wanted), apart)
    return HealthAnswer(question, found, apart, warnings=(*said, *found.notes))


def _dated(bench: Workbench, question: HealthQuestion, said: list[str]) -> list[SweepRecord]:
    """Return the dated sweeps of the shock, or else of the pack."""
    name, since = question.what, question.since
    mine = [r for r in bench.records if r.shock == name] or [r for r in bench.records if r.pack == name]
    if not mine:
        have = ", ".join(sorted({r.shock for r in bench.records if r.shock})) or "none"
        raise LookupFault(f"the library holds no sweep of shock '{name}'", hint=f"it holds {have}")
    undated = sum(1 for r in mine if not r.date)
    if undated:
        said.append(f"{undated} of {len(mine)} sweeps have no date and are left out; add it with dynoan edit ID --date")
    dated = [r for r in mine if r.date and (since is None or _day(r) >= since)]
    days = sorted({_day(r) for r in dated})
    if len(days) < 2:
        state = f"tests of one date only ({days[0]})" if days else "no dated test"
        raise CallError(f"{name} has {state}", hint="a history needs two")
    return dated


def _day(record: SweepRecord) -> str:
    return (record.date or "")[:10]


def _settings(records: Sequence[SweepRecord]) -> list[list[SweepRecord]]:
    """Return the sweeps of each setting on each date."""
    groups: dict[tuple[str, RunSetting], list[SweepRecord]] = {}
    for r in records:
        groups.setdefault((_day(r), setting_of(r)), []).append(r)
    return list(groups.values())


def _test(bench: Workbench, group: Sequence[SweepRecord], oil: OilTold | None) -> tuple[Test, int]:
    """Return what one setting showed on one date, and how many of its sweeps do not tell the error of the gas."""
    first = group[0]
    clicks = tuple(f"{k}={v}" for k, v in sorted(first.clicks.items()))
    curve = bench.curve(*(r.id for r in group))
    seen = Seen(_day(first), (first.shock or "", first.pack or "", *clicks), curve, _expected(bench, first),
                _click_share(bench, first), _points(bench, group), oil)  # fmt: skip
    told = bench.told(group)
    return state_of(seen, told), gas_error_untold(told)


def _points(bench: Workbench, group: Sequence[SweepRecord]) -> Mapping[Direction, Points] | None:
    """Return the points of a peak table, None of another kind of record or of several."""
    if len(group) != 1 or group[0].layout != "peaks":
        return None
    part = condition(bench.library.load(group[0].id))
    return sides_of(part.velocity, part.force)


def _click_share(bench: Workbench, record: SweepRecord) -> tuple[tuple[FloatArray, FloatArray], ...] | None:
    """Return what a click is worth at a record's setting, where its pack has a click map."""
    if record.pack is None:
        return None
    try:
        map = bench.click_map(record.pack)
        return click_worth(map, map.complete(bench.shock(record.shock).to_closed(record.clicks)))
    except DynoanError:
        return None  # as of `_expected`: a usual click is taken


def _expected(bench: Workbench, record: SweepRecord) -> Curve | None:
    """Return the curve of the pack's click map at a record's setting, where there is one."""
    if record.pack is None:
        return None
    try:
        return curve_at(bench.click_map(record.pack), bench.shock(record.shock).to_closed(record.clicks))
    except DynoanError:
        return None  # no map, or clicks outside it: the sessions are then compared at common settings only
