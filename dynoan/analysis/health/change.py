"""A shock against its own earlier tests: what changed, by how much, and what that usually means.

Sessions are tests of one date. The last is held against the first: damping force by direction and speed at the settings
both were tested at (or, where there is none, each against the pack's click map), gas force, friction, the give of oil
and mounts, and fade with temperature. A change counts where its whole interval lies beyond a limit.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace

import numpy as np

from dynoan.analysis.clickmap.every_click.oil_temperature import rate_of
from dynoan.analysis.gas import charge_at, charge_from_force, gas_force
from dynoan.analysis.health.bodies import alike, body_notes, with_other_packs
from dynoan.analysis.health.forces import force_changes, pairs_of
from dynoan.analysis.health.records import Change, Finding, Health, Measured, Point, Since, Test, Verdict
from dynoan.analysis.health.step import evident_step
from dynoan.analysis.health.words import name_findings
from dynoan.analysis.matching.assumptions import MATCH_SPEEDS, Z_BOTH
from dynoan.analysis.statistics import Z95, mean_of_stated
from dynoan.errors import CallError
from dynoan.model.curve import DIRECTIONS


def health(tests: Sequence[Test], *, rod: float | None = None, wanted: Sequence[float] = MATCH_SPEEDS) -> Health:
    """Return what changed from the first tests of a shock to its last.

    Parameters
    ----------
    tests
        Of two dates or more.
    rod
        Rod diameter, to give the gas as a pressure and to take temperature out of it. [m]
    wanted
        Speeds to compare force at, where all tests hold them. [m/s]

    Raises
    ------
    CallError
        If the tests are of one date.
    """
    dates = sorted({t.date for t in tests})
    if len(dates) < 2:
        raise CallError(
            f"all tests are of one date ({dates[0] if dates else 'none'})", hint="a history needs an earlier one"
        )
    sessions = {d: [t for t in tests if t.date == d] for d in dates}
    last = sessions[dates[-1]]
    begun = next((d for d in dates[:-1] if alike(sessions[d], last)), dates[0])
    first = sessions[begun]
    changes = (*force_changes(first, last, wanted), *_other_changes(first, last, rod))
    findings = (*name_findings(changes, rod), *_of_other_packs(tests, last, rod, wanted))
    trend = tuple(p for d in dates for p in _points(first, sessions[d], d, rod, wanted))
    verdict: Verdict = "changed" if findings else "as before" if _sharp(changes) else "cannot tell"
    # Gas and friction step with every change of pack.
    told = [p for p in trend if p.quantity == "force" or alike(sessions[p.date], last)]
    notes = (*_notes(first, last), *body_notes(sessions, begun))
    return Health(verdict, begun, dates[-1], findings, changes, trend, notes, _since(told))


def _of_other_packs(
    tests: Sequence[Test], last: Sequence[Test], rod: float | None, wanted: Sequence[float]
) -> list[Finding]:
    """Return what changed with packs that a shock had in it before the last, each from its own first tests."""
    return [
        replace(found, evidence=f"{when}: {found.evidence}")
        for when, first, then in with_other_packs(tests, last)
        for found in name_findings((*force_changes(first, then, wanted), *_other_changes(first, then, rod)), rod)
    ]


def _since(trend: Sequence[Point]) -> tuple[Since, ...]:
    """Return when each quantity of a trend stepped, where it did."""
    out = []
    for quantity, direction in dict.fromkeys((p.quantity, p.direction) for p in trend):
        row = [p for p in trend if (p.quantity, p.direction) == (quantity, direction)]
        step = evident_step([p.value for p in row])
        # What is smaller than a session's own interval nobody would call a step.
        if step is not None and abs(step.after - step.before) > float(np.median([p.half for p in row])):
            dates = [p.date for p in row]
            out.append(Since(quantity, direction, dates[step.last], dates[step.last + 1], dates[step.low],
                             dates[step.high + 1], step.after - step.before))  # fmt: skip
    return tuple(out)


def _sharp(changes: Sequence[Change]) -> bool:
    """Return whether the force was compared closely enough for no finding to mean no change."""
    forces = [c for c in changes if c.quantity == "force" and c.speed is not None and c.speed >= 0.09]
    return bool(forces) and float(np.median([c.high - c.low for c in forces])) < 10.0


def _pooled(tests: Sequence[Test], name: str) -> Measured:
    """Return the mean of a quantity over a session; its error from the records and from their scatter."""
    known = [m for t in tests if np.isfinite((m := getattr(t, name)).value)]
    if not known:
        return Measured()
    values = np.array([m.value for m in known])
    own = float(np.sqrt(np.mean([m.sd**2 for m in known])))
    between = float(np.std(values, ddof=1) / np.sqrt(len(values))) if len(values) > 1 else 0.0
    return Measured(float(values.mean()), float(np.hypot(own, between)))


def _gas(tests: Sequence[Test], rod: float | None, warm: float | None) -> Measured:
    """Return a session's gas force, taken to a temperature where the rod and the temperatures are known."""
    found = _pooled(tests, "gas")
    own = _warm(tests)
    if rod is None or warm is None or own is None or not np.isfinite(found.value):
        return found
    charge = charge_from_force(found.value, rod)
    there = charge_at(charge, measured=own, wanted=warm)
    return Measured(float(gas_force(charge=there, rod=rod)), found.sd)


def _warm(tests: Sequence[Test]) -> float | None:
    """Return the mean temperature of tests; None where none states it. [°C]"""
    return mean_of_stated([test.temperature for test in tests])


def _other_changes(first: Sequence[Test], last: Sequence[Test], rod: float | None) -> list[Change]:
    fade = _pooled(last, "fade")  # within a record, and no matter of the first
    first, last = alike(first, last), alike(last, first)
    warm = _warm(first)
    found: Mapping[str, tuple[Measured, Measured, float]] = {
        "gas": (_gas(first, rod, warm), _gas(last, rod, warm), 1.0),
        "friction": (_pooled(first, "friction"), _pooled(last, "friction"), 1.0),
        "fade": (Measured(0.0), fade, 1000.0),
    }
    out = [_change(name, a, b, factor) for name, (a, b, factor) in found.items()]
    a, b = _pooled(first, "give"), _pooled(last, "give")
    if a.value > 0:
        share = Measured(b.value / a.value, float(np.hypot(b.sd, a.sd * b.value / a.value)) / a.value)
        out.append(_change("give", Measured(1.0), share, 100.0))
    return [c for c in out if np.isfinite(c.value)]


def _change(name: str, a: Measured, b: Measured, factor: float) -> Change:
    value, half = factor * (b.value - a.value), abs(factor) * Z_BOTH * float(np.hypot(a.sd, b.sd))
    return Change(name, value, value - half, value + half)


def _points(
    first: Sequence[Test], session: Sequence[Test], date: str, rod: float | None, wanted: Sequence[float]
) -> list[Point]:
    """Return a session's place in the trend: force against the first session, gas and friction as they are."""
    out = []
    for direction in DIRECTIONS:
        mine = [c for c in force_changes(first, session, wanted) if c.direction == direction]
        if mine:
            value = float(np.mean([c.value for c in mine]))
            half = float(np.mean([(c.high - c.low) / 2 for c in mine])) * Z95 / Z_BOTH
            out.append(Point(date, "force", value, half if session is not first else 0.0, direction))
    for name, found in (("gas", _gas(session, rod, _warm(first))), ("friction", _pooled(session, "friction"))):
        if np.isfinite(found.value):
            out.append(Point(date, name, found.value, Z95 * found.sd))
    return out


def _rates(tests: Sequence[Test]) -> str:
    """Return what damping loses over 10 °C by the packs of tests, in per cent."""
    rates = {f"{1000 * rate_of(test.oil)[0]:.1f}" for test in tests}
    return " or ".join(sorted(rates, key=float))


def _notes(first: Sequence[Test], last: Sequence[Test]) -> tuple[str, ...]:
    notes = []
    a, b = _warm(first), _warm(last)
    if a is not None and b is not None and abs(a - b) > 10:
        notes.append(f"the first tests were at {a:.0f} °C, the last at {b:.0f} °C: force is brought to one temperature "
                     f"by {_rates(last)} % per 10 °C, more below 0.1 m/s, and the intervals allow for it")  # fmt: skip
    if not pairs_of(first, last):
        if all(t.expected is None for t in first) or all(t.expected is None for t in last):
            notes.append("no setting was tested both times: damping force cannot be compared")
        else:
            notes.append("no setting was tested both times: forces are compared through the pack's click map")
    return tuple(notes)
