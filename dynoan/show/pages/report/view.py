"""What a report shows: the parts of an answer under a heading."""

from __future__ import annotations

from dataclasses import dataclass, field

from dynoan.jobs.report import ReportAnswer
from dynoan.jobs.report.parts import Gathered
from dynoan.show.text.evidence import told_evidence
from dynoan.show.text.report import title
from dynoan.show.text.restated import restated
from dynoan.units import Shown


@dataclass(frozen=True)
class ReportView:
    """Everything one report shows."""

    title: str
    scope: str  #: what the report is about, in words
    made: str  #: date and time, in words
    units: Shown = "metric"
    parts: Gathered = field(default_factory=Gathered)
    warnings: tuple[str, ...] = ()  #: all that the commands behind it would warn of


def view_of(answer: ReportAnswer, units: Shown, made: str) -> ReportView:
    """Return the page's view of an answer, made at a moment in words."""
    parts = answer.parts
    examples = (f"the numbers of {c.ratio.car.name} are an example's, no real car's" for c in parts.cars if c.example)
    about = "; ".join((answer.scope.words, *examples))
    return ReportView(
        title=title(answer), scope=about[:1].upper() + about[1:], made=made, units=units, parts=parts,
        warnings=tuple(restated(text, units) for text in _warnings(answer, units)),
    )  # fmt: skip


def _warnings(answer: ReportAnswer, units: Shown) -> tuple[str, ...]:
    parts = answer.parts
    changed = [
        f"{h.question.what}: {f.name} between {h.health.first} and {h.health.last}: {told_evidence(f, units)}"
        for h in parts.health if h.health.verdict == "changed" for f in h.health.findings
    ]  # fmt: skip
    notes = [f"pack {p.click_map.pack}: {note}" for p in parts.packs for note in p.click_map.notes]
    return tuple(dict.fromkeys((*changed, *answer.warnings, *parts.beside, *notes)))
