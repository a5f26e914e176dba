"""A report's sections on what became of the shocks, and on what was on the car and how it went."""

from __future__ import annotations

from collections.abc import Sequence

from dynoan.jobs.health import HealthAnswer
from dynoan.model.car import AXLES, CORNER_NAMES
from dynoan.model.setup import Setup
from dynoan.model.shock import clicks_in_words
from dynoan.show.pages.report.blocks import Block, Section, Words, grid
from dynoan.show.text.blocks import Look, Table
from dynoan.show.text.evidence import told_evidence
from dynoan.show.text.health import blocks as health_blocks
from dynoan.units import Shown

_HOW = {True: "good", False: "bad", None: "–"}


def health_section(found: Sequence[HealthAnswer], units: Shown) -> Section:
    """Return what became of each shock that was tested on two dates or more, the changed ones first."""
    out: list[Block] = []
    for one in sorted(found, key=lambda a: a.health.verdict != "changed"):
        out += _shock(one, units)
    return Section("health", "Condition of the shocks", tuple(out))


def _shock(answer: HealthAnswer, units: Shown) -> list[Block]:
    found = answer.health
    heading = f"{answer.question.what}, {found.last} against {found.first}: {found.verdict}"
    out: list[Block] = [Words(f"{f.name[:1].upper()}{f.name[1:]}: {told_evidence(f, units)}. Usually: {f.meaning}.")
                        for f in found.findings]  # fmt: skip
    tables = [b for b in health_blocks(answer, Look(units=units)) if isinstance(b, Table)]
    return [*(grid(heading, [c.capitalize() for c in t.columns], t.rows, right=(1, 2)) for t in tables), *out]


def setups_section(setups: Sequence[Setup]) -> Section:
    """Return the setups kept of the cars, newest first."""
    rows = [
        (s.date[:16].replace("T", " "), s.car.name, s.surface or "–", _HOW[s.good],
         s.result or "–", _on_it(s), s.remarks or "–")
        for s in setups
    ]  # fmt: skip
    columns = ("Date", "Car", "Surface", "Verdict", "Result", "On it", "Remarks")
    return Section("setups", "Setups kept", (grid("Clicks as each shock's file counts them", columns, rows),))


def _on_it(setup: Setup) -> str:
    """Return packs and clicks; an axle with the same on both sides is named once."""
    said = {c.name: f"{c.pack or 'not known'} {clicks_in_words(c.clicks)}".strip() for c in setup.car.corners.values()}
    out = []
    for axle in AXLES:
        sides = [c.name for c in setup.car.axle(axle)]
        alike = len({said[name] for name in sides}) == 1
        out += [f"{axle} {said[sides[0]]}"] if alike else [f"{CORNER_NAMES[name]} {said[name]}" for name in sides]
    return "; ".join(out)
