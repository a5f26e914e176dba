"""``dynoan health``: a shock or a pack against its own earlier tests."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from dynoan.cli.call import DONE, NO, Call, command

if TYPE_CHECKING:
    from dynoan.analysis.health.change import Change, Health, Measured, Since, Test
    from dynoan.library import SweepRecord
    from dynoan.workbench import Workbench

_NAMES = {
    "gas": "gas force and zero", "friction": "friction", "give": "give of oil and mounts", "fade": "fade per 10 °C",
}  # fmt: skip
EPILOG = """\b
Examples:
  dynoan health RR-04 --plot health.png
  dynoan health RR-04 --since 2026-01-01
"""


@command(epilog=EPILOG, short_help="Hold a shock against its own earlier tests.")
@click.argument("name", metavar="SHOCK")
@click.option("--since", metavar="DATE", help="Leave out tests before this date (2026-01-31): a new baseline.")
@click.option(
    "--plot", type=click.Path(path_type=Path, dir_okay=False), help="Draw the trend to a PNG, SVG or PDF file."
)
def health(call: Call, name: str, since: str | None, plot: Path | None) -> int:
    """Hold SHOCK (or a pack) now against its first tests: force by direction, gas, friction, delayed rise, fade.

    Tests of one date are a session; the last session is held against the first. Exit 0 where it is as before, 1 where
    it changed or it cannot be told.
    """
    from dynoan.analysis.health.change import health as check

    bench = call.workbench()
    records = _records(call, bench, name, since)
    tests = [_test(bench, group) for group in _sessions(records)]
    found = check(tests, rod=_rod(bench, records))
    for note in found.notes:
        call.warn(note)
    _show(call, name, found)
    if plot is not None:
        from dynoan.show.plots.health import health_figure
        from dynoan.show.plots.style import save

        call.note(f"picture: {save(health_figure(found, name, call.shown_units), plot)}")
    return call.result(_json(name, found), DONE if found.verdict == "as before" else NO)


def _records(call: Call, bench: Workbench, name: str, since: str | None) -> list[SweepRecord]:
    """Return the dated sweeps of a shock, or else of a pack.

    Raises
    ------
    CallError
        If a date is not understood, or fewer than two dates are there.
    LookupFault
        If the library holds neither a shock nor a pack of that name.
    """
    from datetime import date

    from dynoan.errors import CallError, LookupFault

    if since is not None:
        try:
            date.fromisoformat(since)
        except ValueError:
            raise CallError(f"--since {since}: wanted a date like 2026-01-31") from None
    mine = [r for r in bench.records if r.shock == name] or [r for r in bench.records if r.pack == name]
    if not mine:
        have = ", ".join(sorted({r.shock for r in bench.records if r.shock})) or "none"
        raise LookupFault(f"the library holds no sweep of shock '{name}'; it holds {have}")
    undated = sum(1 for r in mine if not r.date)
    if undated:
        call.warn(f"{undated} of {len(mine)} sweeps have no date and are left out; add it with dynoan edit ID --date")
    dated = [r for r in mine if r.date and (since is None or r.date[:10] >= since)]
    days = sorted({(r.date or "")[:10] for r in dated})
    if len(days) < 2:
        state = f"tests of one date only ({days[0]})" if days else "no dated test"
        raise CallError(f"{name} has {state}; a history needs two")
    return dated


def _sessions(records: list[SweepRecord]) -> list[list[SweepRecord]]:
    groups: dict[tuple[Any, ...], list[SweepRecord]] = {}
    for r in records:
        groups.setdefault(((r.date or "")[:10], r.shock, r.pack, *sorted(r.clicks.items())), []).append(r)
    return list(groups.values())


def _test(bench: Workbench, group: list[SweepRecord]) -> Test:
    """Return what one setting showed on one date."""
    from dynoan.analysis.conditioning.condition import condition
    from dynoan.analysis.health.change import Measured, Test

    first = group[0]
    conditioned = [condition(bench.library.load(r.id)) for r in group]
    parts = [c.parts for c in conditioned if c.parts is not None]
    gas = [Measured(c.gas_force, c.offset_sd if c.offset_sd == c.offset_sd else 5.0) for c in conditioned]
    friction = [Measured(c.friction, c.friction_sd) for c in conditioned]
    give = [
        Measured(p.compliance, p.sd.get("compliance", 0.0)) for p in parts if p.terms.compliance and p.compliance > 0
    ]
    fade = [Measured(p.drift, p.sd.get("drift", 0.0)) for p in parts if p.terms.drift]
    curve = bench.curve(*(r.id for r in group))
    clicks = tuple(f"{k}={v}" for k, v in sorted(first.clicks.items()))
    return Test(
        date=(first.date or "")[:10], setting=(first.shock or "", first.pack or "", *clicks), curve=curve,
        runs=len(group), gas=_mean(gas), friction=_mean(friction), give=_mean(give), fade=_mean(fade),
        temperature=curve.temperature, expected=_expected(bench, first),
    )  # fmt: skip


def _mean(values: list[Measured]) -> Measured:
    from dynoan.analysis.health.change import Measured

    known = [v for v in values if v.value == v.value]
    if not known:
        return Measured()
    n = len(known)
    return Measured(sum(v.value for v in known) / n, (sum(v.sd**2 for v in known) / n) ** 0.5)


def _expected(bench: Workbench, record: SweepRecord) -> Any:
    """Return the curve of the pack's click map at a record's setting, where there is one."""
    from dynoan.analysis.clickmap.mapping import curve_at
    from dynoan.errors import DynoanError

    if record.pack is None:
        return None
    try:
        map = bench.click_map(record.pack)
        return curve_at(map, bench.shock(record.shock).to_closed(record.clicks))
    except DynoanError:
        return None  # no map, or clicks outside it: the sessions are then compared at common settings only


def _rod(bench: Workbench, records: list[SweepRecord]) -> float | None:
    rods = {bench.shock(name).rod_diameter for name in {r.shock for r in records}}
    return rods.pop() if len(rods) == 1 else None


def _show(call: Call, name: str, found: Health) -> None:
    from dynoan.show.text.tables import table
    from dynoan.units import shown

    if call.json:
        return
    velocity = shown("velocity", call.shown_units)
    call.say(f"{name}, {found.last} against {found.first}: {found.verdict}")
    rows = [[_quantity(c, velocity), _amount(c, c.value, call.shown_units),
             f"{_amount(c, c.low, call.shown_units)} to {_amount(c, c.high, call.shown_units)}"]
            for c in found.changes]  # fmt: skip
    table(["quantity", "change", "interval"], rows)
    for one in found.findings:
        call.say(f"\n{one.name}: {one.evidence}\n  usually: {one.meaning}")
    for step in found.since:
        call.say(f"\n{_since(step, call.shown_units)}")
    if found.verdict == "cannot tell":
        call.say("no change shows, but the tests are too rough to rule one out: repeat them at the same settings")
    if found.findings:
        from dynoan.cautions import CAUTIONS

        call.say(f"\n{CAUTIONS}")


def _since(step: Since, units: Any) -> str:
    """Say when a quantity stepped."""
    from dynoan.analysis.health.change import Change

    name = f"{step.direction} force, all speeds together" if step.quantity == "force" else _NAMES[step.quantity]
    by = _amount(Change(step.quantity, step.change, step.change, step.change), step.change, units)
    return (f"{name} stepped by {by} between {step.before} and {step.after} (95 %: after {step.earliest}, before "
            f"{step.latest})")  # fmt: skip


def _quantity(change: Change, velocity: Any) -> str:
    if change.quantity == "force" and change.speed is not None:
        return f"{change.direction} force at {velocity.text(change.speed)}"
    return _NAMES[change.quantity]


def _amount(change: Change, value: float, units: Any) -> str:
    from dynoan.units import shown

    if change.quantity in ("gas", "friction"):
        force = shown("force", units)
        return f"{value / force.factor:+.{force.digits}f} {force.unit}"
    return f"{value:+.1f} %"


def _json(name: str, found: Health) -> dict[str, Any]:
    return {
        "what": name, "verdict": found.verdict, "first": found.first, "last": found.last,
        "findings": [{"name": f.name, "direction": f.direction, "evidence": f.evidence, "meaning": f.meaning}
                     for f in found.findings],
        "changes": [{"quantity": c.quantity, "direction": c.direction, "velocity_m_s": c.speed, _unit(c): c.value,
                     "low": c.low, "high": c.high} for c in found.changes],
        "trend": [{"date": p.date, "quantity": p.quantity, "direction": p.direction, "value": p.value, "half": p.half,
                   "unit": "pct" if p.quantity == "force" else "n"} for p in found.trend],
        "steps": [{"quantity": s.quantity, "direction": s.direction, "last_before": s.before, "first_after": s.after,
                   "earliest": s.earliest, "latest": s.latest, "change": s.change,
                   "unit": "pct" if s.quantity == "force" else "n"} for s in found.since],
    }  # fmt: skip


def _unit(change: Change) -> str:
    return {"gas": "change_n", "friction": "change_n", "fade": "change_pct_per_10_c"}.get(change.quantity, "change_pct")
